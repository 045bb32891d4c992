//! Hazard.

use super::{flag, has, home, wanted};
use presurvey::answers::{
    Age, Along, Answer, Answers, HazardPlace, HazardSign, HazardWhen, Length, ParkingPlace, Protection, Set, SpareWays,
    TestButtons, Word,
};
use presurvey::assessment::{Assessment, Complexity, Gatekeeper, NoBand, Reason};
use presurvey::config::Item;
use presurvey::flags::Weight;
use presurvey::questions::{CATALOGUE, Place, to_ask};
use presurvey::units::Probability;

/// Before any other question, and before anybody is sent to look at anything.
#[test]
fn it_is_asked_first() {
    assert_eq!(CATALOGUE[0].id, "hazard");
    assert_eq!(CATALOGUE[0].place, Place::First);
}

/// The enquiry goes in, flagged with where it is, whoever is rung; nothing is planned or priced.
#[test]
fn an_enquiry_with_a_hazard_is_flagged_with_its_place_and_has_no_price() {
    let places = HazardPlace::ALL.iter().copied().map(Answer::Known).chain([Answer::NotSure]);
    for place in places {
        let seen = home(|answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
            answers.hazard.place = place;
        });
        let raised = flag(&seen, "hazard-seen").unwrap();
        assert_eq!((raised.weight, raised.evidence.len()), (Weight::Stop, 2), "where it is, and what: {place:?}");
        assert_eq!((seen.band, seen.no_band, seen.complexity), (None, Some(NoBand::LookFirst), Complexity::LookFirst));
        assert!(seen.work.is_empty() && wanted(&seen, Item::ChargePoint).is_none());
    }
}

/// Head and meter are the network operator's, for who can tell them apart; the meter itself may be the supplier's; a board an
/// electrician's. A tingle or unsteady lights may be a broken supply neutral, wherever they are noticed, but for one appliance alone.
#[test]
fn each_place_waits_for_whose_it_is() {
    let seen = |sign, place| {
        home(|answers| {
            super::quiet(answers);
            answers.hazard.signs = Answer::Known(Set::of(&[sign]));
            answers.hazard.place = Answer::Known(place);
        })
    };
    let waits = |sign, place, who| super::counts(&seen(sign, place), who);
    use Gatekeeper::NetworkOperator;
    use HazardPlace::{Appliance, Board, Elsewhere, Meter, ServiceHead};
    for place in [ServiceHead, Meter] {
        assert!(waits(HazardSign::Discolouration, place, NetworkOperator), "{place:?}");
        assert!(waits(HazardSign::Heat, place, NetworkOperator), "{place:?}");
    }
    let supplier = super::gate(&seen(HazardSign::Buzzing, Meter), Gatekeeper::Supplier).unwrap().clone();
    assert!(!supplier.counts && supplier.probability > Probability::NEVER, "possible, and no more");
    assert!(!waits(HazardSign::Discolouration, Board, NetworkOperator));
    for place in [Board, Elsewhere, Meter, ServiceHead] {
        for sign in [HazardSign::Tingle, HazardSign::UnsteadyLights] {
            assert!(waits(sign, place, NetworkOperator), "{sign:?} {place:?}");
        }
    }
    assert!(!waits(HazardSign::Tingle, Appliance, NetworkOperator));
}

/// What passed once, long ago, and not since is no danger now; what stays counts until it was put right.
#[test]
fn last_years_spark_is_no_danger_and_a_scorch_mark_is() {
    let long_ago = |signs: &[HazardSign]| {
        home(|answers| {
            super::quiet(answers);
            answers.parking.place = Answer::Known(ParkingPlace::Drive);
            answers.hazard.signs = Answer::Known(Set::of(signs));
            answers.hazard.when = Answer::Known(HazardWhen::LongAgo);
        })
    };
    let spark = long_ago(&[HazardSign::Arcing]);
    assert!(has(&spark, "hazard-long-ago") && !has(&spark, "hazard-seen") && spark.band.is_some());
    for sign in HazardSign::ALL.iter().filter(|sign| !sign.passes()) {
        let marked = long_ago(&[HazardSign::Arcing, *sign]);
        assert_eq!((marked.complexity, marked.band), (Complexity::LookFirst, None), "{sign:?}");
    }
    for when in [Answer::Known(HazardWhen::Now), Answer::NotSure, Answer::NotAsked] {
        let now = home(|answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
            answers.hazard.when = when;
        });
        assert_eq!(now.complexity, Complexity::LookFirst, "{when:?}");
    }
}

/// "Not sure": nobody is sent near meter or board, what is asked there stays unasked; to settle before booking; they may come back
/// to it.
#[test]
fn not_sure_keeps_everybody_away_and_is_settled_before_booking() {
    let looked_at = |answers: &mut Answers| {
        super::quiet(answers);
        answers.home.age = Answer::Known(Age::Since2000);
        answers.board.protection = Answer::Known(Protection::Breakers);
        answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
        answers.board.spare_ways = Answer::Known(SpareWays::Several);
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.route.length = Answer::Known(Length::metres(8.0));
        answers.route.mostly = Answer::Known(Along::OutsideWall);
    };
    let unsure = home(|answers| {
        looked_at(answers);
        answers.hazard.signs = Answer::NotSure;
    });
    assert_eq!(flag(&unsure, "hazard-not-sure").unwrap().weight, Weight::SettleBeforeBooking);
    assert_eq!((unsure.complexity, &unsure.reasons[0]), (Complexity::LookFirst, &Reason::DangerNotRuledOut));
    assert!(unsure.band.is_some(), "a band, and why it is wide");
    let width = |seen: &Assessment| seen.estimate.as_ref().map(|estimate| estimate.high - estimate.low).unwrap();
    assert!(width(&unsure) > width(&home(looked_at)), "less is known");
    assert_eq!(unsure.open[0].question, "hazard", "it is what to settle first");
    let mut answers = presurvey::answers::Answers::default();
    answers.hazard.signs = Answer::NotSure;
    assert!(
        to_ask(&answers, false).all(|question| !matches!(question.place, Place::Meter | Place::Board | Place::Pipes))
    );
    answers.hazard.signs = Answer::Known(Set::NONE);
    assert!(to_ask(&answers, false).any(|question| question.place == Place::Meter), "they came back to it");
    assert!(!has(&home(|_| {}), "hazard-not-sure"));
}

/// The meter was counted before somebody was not sure of a danger any more: those answers are "not sure" again.
#[test]
fn what_is_no_longer_asked_no_longer_counts() {
    let unsure = |recorded: bool| {
        home(|answers| {
            super::quiet(answers);
            answers.hazard.signs = Answer::NotSure;
            if recorded {
                answers.recorded = answers.recorded.with("meter.fuse_carriers").with("meter.head_conductors");
            }
        })
    };
    assert!(has(&unsure(false), "supply-not-counted"));
    assert!(!has(&unsure(true), "supply-not-counted"), "what the installer recorded counts");
}
