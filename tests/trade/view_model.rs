//! What a stranger is shown of the price, and of whose home there is none.

use super::{home_under, quiet};
use crate::support::any_home;
use crate::support::plausible::plausible_home;
use presurvey::answers::{Along, Answer, Answers, HomeKind, Length, ParkingPlace, Protection, SpareWays, Tenure};
use presurvey::assessment::{Complexity, NoBand, what_ifs};
use presurvey::config::{Config, PriceShown, PricesShown, demo_config};
use presurvey::record::ViewModel;
use presurvey::units::{Minutes, Pence};
use presurvey::{Assessment, assess};

/// A home with a board and a supply that were seen, on its own drive.
fn plain(answers: &mut Answers) {
    quiet(answers);
    answers.home.kind = Answer::Known(HomeKind::Detached);
    answers.home.tenure = Answer::Known(Tenure::Own);
    answers.parking.place = Answer::Known(ParkingPlace::Drive);
    answers.board.protection = Answer::Known(Protection::Breakers);
    answers.board.spare_ways = Answer::Known(SpareWays::Several);
    answers.route.length = Answer::Known(Length::metres(8.0));
}

fn along(along: Option<Along>) -> Assessment {
    home_under(&demo_config(), |answers| {
        plain(answers);
        answers.route.mostly = along.map_or(Answer::NotSure, Answer::Known);
    })
}

fn well(assessment: &Assessment) -> Pence {
    assessment.estimate.as_ref().unwrap().well
}

fn four_hundred() -> impl Iterator<Item = Answers> {
    (0..200).map(any_home).chain((0..200).map(plausible_home))
}

#[test]
fn from_is_what_it_costs_if_the_unknown_turns_out_well() {
    let unsure = along(None);
    let cheapest =
        [Along::Inside, Along::OutsideWall, Along::Fence].map(|way| well(&along(Some(way)))).into_iter().min();
    let dug = along(Some(Along::Paving));
    // Two ends of one home, each rounded up to the step.
    let apart = (well(&unsure) - cheapest.unwrap()).0.abs();
    assert!(apart <= 2 * demo_config().rates.step.0, "{} and {cheapest:?}", well(&unsure));
    assert!(well(&unsure) < well(&dug), "a trench is not hoped for");
    assert!(well(&unsure) <= unsure.band.unwrap().likely);
}

/// Quick work and cheap parts are luck, not what turns out: they move the band's low end, and not this.
#[test]
fn from_is_not_the_low_end_of_the_band() {
    let way = |answers: &mut Answers| {
        plain(answers);
        answers.route.mostly = Answer::Known(Along::OutsideWall);
    };
    let usual = home_under(&demo_config(), way);
    let mut config = demo_config();
    for line in &mut config.prices {
        line.minutes.low = Minutes::ZERO;
        line.materials.low = Pence(0);
    }
    let lucky = home_under(&config, way);
    assert!(lucky.band.unwrap().low < usual.band.unwrap().low);
    assert_eq!(well(&lucky), well(&usual));
}

#[test]
fn from_has_vat_in_it_is_never_below_the_least_and_never_past_the_band() {
    let mut config = demo_config();
    let vat = 1.2;
    let mut seen = 0;
    for answers in four_hundred().step_by(2) {
        let made = assess(&answers, &config);
        let Some(band) = made.band else { continue };
        seen += 1;
        assert_eq!(well(&made).0 % config.rates.step.0, 0);
        assert!(well(&made) <= band.high, "{} past {band:?}", well(&made));
        assert!(well(&made).as_f64() >= config.rates.least.as_f64() * vat);
        // A charge point, an hour to fix it and the way there are in every price.
        assert!(well(&made) > band.charge_point, "{} under {band:?}", well(&made));
    }
    assert!(seen > 75, "{seen}");
    config.rates.least = Pence(500_000);
    let answers = four_hundred().find(|answers| assess(answers, &config).band.is_some()).unwrap();
    assert_eq!(well(&assess(&answers, &config)), Pence(600_000));
}

#[test]
fn the_installer_chooses_by_class_whether_a_stranger_sees_a_band_a_from_or_nothing() {
    let classes =
        [Complexity::Straightforward, Complexity::MoreInvolved, Complexity::DependsOnOthers, Complexity::LookFirst];
    let mut config = demo_config();
    let mut met = [false; 4];
    for (at, answers) in four_hundred().enumerate().filter(|(at, _)| at % 4 == 0) {
        let made = assess(&answers, &config);
        for shows in [PriceShown::Band, PriceShown::From, PriceShown::Nothing] {
            for (place, class) in classes.into_iter().enumerate() {
                config.prices_shown = of_class(class, shows);
                let shown = ViewModel::of(&made, &config);
                assert_eq!(ViewModel::read(&shown.write()).as_ref(), Some(&shown));
                let Some(band) = made.band else {
                    assert_eq!((shown.band, shown.from, shown.no_band), (None, None, made.no_band));
                    continue;
                };
                met[place] |= made.complexity == class;
                let shows = if made.complexity == class { shows } else { PriceShown::Band };
                let why = (shows == PriceShown::Nothing).then_some(NoBand::NotShown);
                assert_eq!(shown.no_band, why);
                assert_eq!(shown.from, (shows == PriceShown::From).then(|| well(&made)));
                assert_eq!(shown.band.map(|shown| shown.high), (shows == PriceShown::Band).then_some(band.high));
                if shows != PriceShown::Band && at % 40 == 0 {
                    says_nothing_of_the_band(&shown, &answers, &made, &config);
                }
            }
        }
    }
    assert_eq!(met, [true; 4], "each class was met with a price");
}

/// Another choice for one class, the band for the others.
fn of_class(class: Complexity, shows: PriceShown) -> PricesShown {
    let mut shown = PricesShown::BANDS;
    *match class {
        Complexity::Straightforward => &mut shown.straightforward,
        Complexity::MoreInvolved => &mut shown.more_involved,
        Complexity::DependsOnOthers => &mut shown.depends_on_others,
        _ => &mut shown.look_first,
    } = shows;
    shown
}

/// Where the band is not shown nothing else tells where it lies: no cause, no other choice, no sum that an answer is worth.
fn says_nothing_of_the_band(shown: &ViewModel, answers: &Answers, made: &Assessment, config: &Config) {
    let shown = shown.clone().beside(made, &what_ifs(answers, config, made), config);
    assert!(shown.dearer.is_empty() && shown.futures.is_empty() && shown.curve.is_empty());
    assert!(shown.open.iter().all(|open| open.by.is_none()), "{:?}", shown.open);
}

#[test]
fn left_out_every_class_shows_its_band() {
    assert_eq!(demo_config().prices_shown, PricesShown::BANDS);
}

/// Nearly nothing said: no band, whatever else the home is.
#[test]
fn a_postcode_and_a_note_alone_are_no_ground_for_a_price() {
    let config = demo_config();
    for (at, answers) in four_hundred().enumerate().filter(|(at, _)| at % 4 == 0) {
        let mut bare = Answers::default();
        bare.home.postcode.clone_from(&answers.home.postcode);
        bare.hazard = answers.hazard.clone();
        let made = assess(&bare, &config);
        assert_eq!((made.band, made.estimate.is_none()), (None, true), "home {at}");
        let others = [NoBand::LookFirst, NoBand::OutsideArea, NoBand::TooLittleSaid];
        assert!(made.no_band.is_some_and(|why| others.contains(&why)), "home {at}: {:?}", made.no_band);
        // Nor with the first screen beside it; where the car stands decides where the cable goes.
        bare.home = answers.home.clone();
        assert_eq!(assess(&bare, &config).band, None, "home {at}");
        // Whoever has a price has said that.
        if assess(&answers, &config).band.is_some() {
            assert!(answers.parking.place.known().is_some(), "home {at}");
        }
    }
}

#[test]
fn whoever_looked_and_is_not_sure_of_the_way_still_gets_a_wide_band() {
    let says = |length: Answer<Length>| {
        home_under(&demo_config(), |answers| {
            answers.home.kind = Answer::Known(HomeKind::Terrace);
            answers.parking.place = Answer::Known(ParkingPlace::Drive);
            answers.route.length = length;
        })
    };
    assert_eq!(says(Answer::NotAsked).no_band, Some(NoBand::TooLittleSaid));
    let unsure = says(Answer::NotSure).band.expect("they looked");
    let known = says(Answer::Known(Length::metres(8.0))).band.unwrap();
    assert!(unsure.high - unsure.low > known.high - known.low);
}
