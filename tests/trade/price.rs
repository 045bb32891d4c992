//! Price, and complexity.

use super::{count, counts, gate, home, home_under, quiet, wanted};
use presurvey::answers::{
    Along, Answer, Answers, HazardSign, HomeKind, Length, ParkingPlace, Protection, Set, SpareWays, Tenure, TestButtons,
};
use presurvey::assessment::{Complexity, Gatekeeper, Reason};
use presurvey::config::{Item, demo_config};
use presurvey::record::ViewModel;
use presurvey::units::{Amps, Minutes, Pence, Probability};

/// An easy home: a way of its own, a short cable on a wall, nobody to ask.
pub(super) fn easy(answers: &mut Answers) {
    quiet(answers);
    answers.home.kind = Answer::Known(HomeKind::Detached);
    answers.home.tenure = Answer::Known(Tenure::Own);
    answers.parking.place = Answer::Known(ParkingPlace::Drive);
    answers.board.protection = Answer::Known(Protection::Breakers);
    answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
    answers.board.spare_ways = Answer::Known(SpareWays::Several);
    answers.route.mostly = Answer::Known(Along::OutsideWall);
    answers.route.length = Answer::Known(Length::metres(6.0));
}

/// Each item has low, likely and high labour; unknowns are events with probabilities.
#[test]
fn items_have_three_times_and_unknowns_are_events() {
    let seen = home(|_| {});
    for line in &seen.work {
        let minutes = line.minutes;
        assert!(minutes.low <= minutes.likely && minutes.likely <= minutes.high, "{:?}", line.item);
        assert!(line.probability > Probability::NEVER);
    }
    let unsure = wanted(&seen, Item::SplitTails).unwrap();
    assert!(unsure > 0.0 && unsure < 1.0, "an event: {unsure}");
    assert_eq!(wanted(&seen, Item::ChargePoint), Some(1.0), "the charge point itself");
}

/// VAT as the installer's status says; the homeowner sees what they pay.
#[test]
fn vat_is_as_the_installers_status_says() {
    let with = |registered| {
        let mut config = demo_config();
        config.rates.vat.registered = registered;
        home_under(&config, easy).band.unwrap()
    };
    let (registered, not) = (with(true), with(false));
    assert_eq!(not.vat, Pence(0));
    assert_eq!(registered.likely - registered.vat, not.likely);
    assert!(registered.high > not.high);
}

#[test]
fn an_invented_price_says_so_and_unconfirmed_rates_give_none() {
    let seen = home(easy);
    assert!(seen.invented && seen.band.is_some());
    let mut config = demo_config();
    config.rates_confirmed = false;
    assert!(home_under(&config, easy).band.is_none());
}

/// The band is rounded outwards to the installer's step.
#[test]
fn a_band_is_rounded_outwards() {
    let (band, step) = (home(easy).band.unwrap(), demo_config().rates.step);
    assert_eq!((band.low.0 % step.0, band.high.0 % step.0), (0, 0));
    assert!(Pence(0) < band.low && band.low <= band.likely && band.likely <= band.high);
}

/// What others must do is listed beside it, never priced into it.
#[test]
fn what_others_must_do_stands_beside_the_band_never_in_it() {
    let asked = |tenure| {
        home(|answers| {
            easy(answers);
            answers.home.tenure = Answer::Known(tenure);
        })
    };
    let (own, rent) = (asked(Tenure::Own), asked(Tenure::Rent));
    assert!(own.band.is_some());
    assert_eq!(own.band, rent.band, "a landlord's answer costs the homeowner time, not the installer's work");
    assert!(counts(&rent, Gatekeeper::Landlord) && rent.complexity == Complexity::DependsOnOthers);
    let looped = home(|answers| {
        easy(answers);
        answers.meter.head_conductors = count(4);
    });
    assert!(counts(&looped, Gatekeeper::NetworkOperator));
    assert_eq!(looped.band, home(easy).band, "nor does the network operator's");
}

/// A very wide band is shown as such, with the three answers that would narrow it most.
#[test]
fn a_wide_band_names_three_answers_that_would_narrow_it() {
    let seen = home(|answers| {
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.home.kind = Answer::Known(HomeKind::Detached);
        answers.route.length = Answer::NotSure;
    });
    let band = seen.band.unwrap();
    let narrow = home(easy).band.unwrap();
    assert!((band.high - band.low).0 > (narrow.high - narrow.low).0);
    assert_eq!(ViewModel::of(&seen, &demo_config()).open.len(), 3);
    let worth: Vec<Pence> = seen.open.iter().filter(|open| !open.settles).map(|open| open.narrows_by).collect();
    assert!(worth.is_sorted_by(|a, b| a >= b), "best first: {worth:?}");
}

/// Within one day for one person, nothing to wait for.
#[test]
fn an_easy_home_is_straightforward() {
    let seen = home(easy);
    assert_eq!((seen.complexity, seen.reasons.as_slice()), (Complexity::Straightforward, [].as_slice()));
    assert!(seen.labour <= demo_config().rates.day);
}

/// Longer, or digging, or a new enclosure; still nothing to wait for.
#[test]
fn longer_digging_or_an_enclosure_make_it_more_involved() {
    let with = |say: fn(&mut Answers)| {
        let mut config = demo_config();
        config.thresholds.may_draw_fuse = true; // so that an enclosure waits for nobody
        home_under(&config, |answers| {
            easy(answers);
            say(answers);
        })
    };
    let dug = with(|answers| answers.route.mostly = Answer::Known(Along::SoftGround));
    let boxed = with(|answers| answers.board.test_buttons = Answer::Known(TestButtons::One));
    for (seen, reason) in [(dug, Reason::Digging), (boxed, Reason::NewEnclosure)] {
        assert_eq!(seen.complexity, Complexity::MoreInvolved);
        assert!(seen.reasons.contains(&reason), "{:?}", seen.reasons);
    }
    let mut config = demo_config();
    config.rates.day = Minutes::of(60.0);
    let long = home_under(&config, easy);
    assert_eq!(
        (long.complexity, long.reasons.as_slice()),
        (Complexity::MoreInvolved, [Reason::LongerThanADay].as_slice())
    );
    assert!(long.labour > config.rates.day, "the likely hours");
}

/// Unsafe, or contradictory in what a supply or safety decision rests on: no band.
#[test]
fn what_is_unsafe_or_contradictory_is_looked_at_first_and_has_no_band() {
    let unsafe_ = home(|answers| {
        easy(answers);
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Buzzing]));
    });
    let contradictory = home(|answers| {
        easy(answers);
        answers.meter.fuse_carriers = count(3);
    });
    for (seen, reason) in [(unsafe_, Reason::Unsafe), (contradictory, Reason::Contradiction)] {
        assert_eq!((seen.complexity, seen.band), (Complexity::LookFirst, None));
        assert!(seen.reasons.contains(&reason));
    }
}

/// A gate counts from the installer's threshold on (half, by default); below that it is listed as possible.
#[test]
fn a_gate_counts_from_the_installers_threshold_on_and_is_listed_below_it() {
    assert_eq!(demo_config().thresholds.gate, Probability::of(0.5));
    let terrace = |threshold: f64| {
        let mut config = demo_config();
        config.thresholds.gate = Probability::of(threshold);
        home_under(&config, |answers| {
            quiet(answers);
            answers.home.kind = Answer::Known(HomeKind::Terrace);
            answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
        })
    };
    let seen = terrace(0.9);
    let possible = gate(&seen, Gatekeeper::NetworkOperator).expect("a terrace keeps a prior");
    assert!(!possible.counts && possible.probability > Probability::NEVER);
    assert!(counts(&terrace(possible.probability.get()), Gatekeeper::NetworkOperator), "it reaches it");
}
