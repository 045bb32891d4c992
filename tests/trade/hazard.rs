//! Hazard.

use super::{flag, has, home, wanted};
use presurvey::answers::{Answer, HazardPlace, HazardSign, Set, Word};
use presurvey::assessment::{Complexity, Gatekeeper, NoBand};
use presurvey::config::Item;
use presurvey::flags::Weight;
use presurvey::questions::{CATALOGUE, Place, to_ask};

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

/// The head is the network operator's, the meter the supplier's, a board an electrician's.
#[test]
fn each_place_waits_for_whose_it_is() {
    let waits = |place, who: Gatekeeper| {
        let seen = home(|answers| {
            super::quiet(answers);
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Discolouration]));
            answers.hazard.place = Answer::Known(place);
        });
        super::counts(&seen, who)
    };
    assert!(waits(HazardPlace::ServiceHead, Gatekeeper::NetworkOperator));
    assert!(waits(HazardPlace::Meter, Gatekeeper::Supplier));
    assert!(
        !waits(HazardPlace::Board, Gatekeeper::NetworkOperator)
            && !waits(HazardPlace::Meter, Gatekeeper::NetworkOperator)
    );
}

/// "Not sure": nobody is sent near meter or board, what is asked there stays unasked; to settle before booking; they may come back
/// to it.
#[test]
fn not_sure_keeps_everybody_away_and_is_settled_before_booking() {
    let unsure = home(|answers| answers.hazard.signs = Answer::NotSure);
    assert_eq!(flag(&unsure, "hazard-not-sure").unwrap().weight, Weight::SettleBeforeBooking);
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
