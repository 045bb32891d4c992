//! How the trade reads the answers: rules that hold over the whole pipeline, each test named for its sentence.
//!
//! Common practice, no source, unless a source stands at the test.

use presurvey::answers::{
    Along, Answer, Answers, Count, EarthGoes, HazardPlace, HazardSign, HomeKind, OperatorAnswer, OtherPoint, Pipe,
    Postcode, Protected, Protection, RcdType, Set, SpareWays, Tenure, TestButtons,
};
use presurvey::assessment::{Complexity, Gatekeeper, KnownBy, OwedTo};
use presurvey::config::{Config, demo_config};
use presurvey::units::Amps;
use presurvey::{Assessment, assess};

fn home(say: impl FnOnce(&mut Answers)) -> Assessment {
    home_under(&demo_config(), say)
}

fn home_under(config: &Config, say: impl FnOnce(&mut Answers)) -> Assessment {
    let mut answers = Answers::default();
    answers.hazard.signs = Answer::Known(Set::NONE);
    say(&mut answers);
    assess(&answers, config)
}

fn count<const L: u8, const M: u8>(count: u8) -> Answer<Count<L, M>> {
    Answer::Known(Count::new(count).unwrap())
}

fn counted(carriers: u8, conductors: u8) -> Assessment {
    home(|answers| {
        answers.home.kind = Answer::Known(HomeKind::Terrace);
        answers.meter.fuse_carriers = count(carriers);
        answers.meter.head_conductors = count(conductors);
        answers.meter.street_cables = count(1);
    })
}

fn has(assessment: &Assessment, code: &str) -> bool {
    assessment.flags.iter().any(|flag| flag.code == code)
}

fn values<'a>(assessment: &'a Assessment, fact: &str) -> Vec<&'a str> {
    let fact = assessment.facts.iter().find(|shown| shown.fact == fact).unwrap();
    fact.values.iter().map(|value| value.value.as_str()).collect()
}

fn chosen<'a>(assessment: &'a Assessment, decision: &str) -> &'a str {
    &assessment.decisions.iter().find(|shown| shown.decision == decision).unwrap().chosen
}

fn stated<'a>(assessment: &'a Assessment, what: &str) -> &'a str {
    &assessment.protection.iter().find(|line| line.what == what).unwrap().value
}

// Hazard.
#[test]
fn an_enquiry_with_a_hazard_is_flagged_and_has_no_price() {
    for place in [HazardPlace::ServiceHead, HazardPlace::Meter, HazardPlace::Board] {
        let seen = home(|answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
            answers.hazard.place = Answer::Known(place);
        });
        assert!(has(&seen, "hazard-seen") && seen.band.is_none() && seen.complexity == Complexity::LookFirst);
    }
}

#[test]
fn not_sure_of_a_hazard_is_flagged_to_settle() {
    assert!(has(&home(|answers| answers.hazard.signs = Answer::NotSure), "hazard-not-sure"));
}

// Supply.
#[test]
fn one_carrier_and_two_conductors_is_single_phase_and_a_terrace_keeps_a_prior() {
    assert_eq!(values(&counted(1, 2), "supply"), ["single-phase", "single-phase, looped"]);
}

#[test]
fn one_carrier_with_four_conductors_is_probably_looped() {
    let looped = counted(1, 4);
    assert_eq!(values(&looped, "supply"), ["single-phase, looped", "single-phase"], "it stays probable");
    assert!(has(&looped, "looped-supply"));
}

#[test]
fn three_carriers_and_four_conductors_are_three_phase() {
    assert!(values(&counted(3, 4), "supply").iter().all(|value| value.starts_with("three-phase")));
}

#[test]
fn three_carriers_and_two_conductors_are_a_contradiction_and_neither_is_asserted() {
    let seen = counted(3, 2);
    assert!(has(&seen, "supply-counts-disagree") && seen.complexity == Complexity::LookFirst);
    let supply = seen.facts.iter().find(|fact| fact.fact == "supply").unwrap();
    assert_eq!(supply.known_by, KnownBy::Contradicted);
}

#[test]
fn a_rating_on_the_carrier_is_an_upper_bound() {
    let seen = home(|answers| answers.meter.carrier_rating = Answer::Known(Amps::of(80.0)));
    assert_eq!(values(&seen, "main-fuse").len(), 2, "60 A and 80 A are both alive");
}

// Network operator.
#[test]
fn more_than_one_charge_point_is_asked_about_first() {
    let kept = home(|answers| answers.loads.other_point = Answer::Known(OtherPoint::Kept));
    assert_ne!(chosen(&kept, "network"), "notify-after");
}

#[test]
fn the_operators_answer_changes_the_design() {
    let with = |answer| {
        home(|answers| {
            answers.meter.fuse_carriers = count(1);
            answers.meter.head_conductors = count(4);
            answers.operator.answer = Answer::Known(answer);
        })
    };
    for accepted in [OperatorAnswer::Separated, OperatorAnswer::LeftAsItIs] {
        assert_eq!(chosen(&with(accepted), "network"), "notify-after", "{accepted:?}");
    }
    let refused = with(OperatorAnswer::Refused);
    assert!(has(&refused, "operator-refused"));
    assert!(refused.gates.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator && gate.counts));
}

// Earthing. Source: BS 7671 722.411.4.1.
#[test]
fn pme_outdoors_wants_a_measure_and_tt_an_electrode_proved() {
    let earthed = |goes| home(|answers| answers.earthing.conductor_goes = Answer::Known(goes));
    for goes in [EarthGoes::ServiceHead, EarthGoes::CableSheath] {
        assert!(chosen(&earthed(goes), "earthing").starts_with("open-pen"), "{goes:?}: TN-S as PME until confirmed");
    }
    assert_eq!(stated(&earthed(EarthGoes::Rod), "electrode"), "two-hundred-ohms");
}

#[test]
fn clamps_not_seen_is_not_bonding_absent() {
    let seen = home(|answers| {
        answers.earthing.gas_pipe = Answer::Known(Pipe::Metal);
        answers.earthing.gas_clamp = Answer::Known(false);
    });
    assert_eq!(values(&seen, "gas-bonding").len(), 2);
}

// Board. Source: BS 7671 722.531.3.101.
fn board(buttons: TestButtons, ways: SpareWays, symbol: Answer<RcdType>) -> Assessment {
    home(|answers| {
        answers.board.protection = Answer::Known(Protection::Breakers);
        answers.board.test_buttons = Answer::Known(buttons);
        answers.board.spare_ways = Answer::Known(ways);
        answers.board.rcd_type = symbol;
        answers.outbuilding.board_there = Answer::Known(false);
    })
}

#[test]
fn a_way_behind_a_shared_device_is_no_way_of_its_own() {
    let shared = board(TestButtons::One, SpareWays::Several, Answer::NotSure);
    assert_eq!(chosen(&shared, "board"), "enclosure-shared-device");
}

#[test]
fn no_type_ac_stays_upstream() {
    let under_ac = board(TestButtons::Two, SpareWays::Several, Answer::Known(RcdType::Ac));
    assert_eq!(chosen(&under_ac, "board"), "enclosure-shared-device");
    assert_eq!(stated(&under_ac, "upstream"), "type-ac");
}

#[test]
fn fuse_wire_is_reported_for_an_opinion() {
    let old = home(|answers| {
        answers.board.protection = Answer::Known(Protection::FuseWire);
        answers.outbuilding.board_there = Answer::Known(false);
    });
    assert_eq!(chosen(&old, "board"), "opinion-first");
}

// Cable.
#[test]
fn flat_cable_inside_and_armoured_outside() {
    let along = |along| home(|answers| answers.route.mostly = Answer::Known(along));
    assert!(chosen(&along(Along::Inside), "cable").ends_with("twin-and-earth"));
    assert!(chosen(&along(Along::OutsideWall), "cable").ends_with("armoured"));
}

// Before and after.
#[test]
fn each_body_is_owed_its_own_and_the_landlord_before_booking() {
    let seen = home(|answers| {
        answers.home.tenure = Answer::Known(Tenure::Rent);
        answers.home.protected = Answer::Known(Protected::Listed);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
    });
    for to in [
        OwedTo::Landlord,
        OwedTo::Planner,
        OwedTo::BuildingControl,
        OwedTo::Certificate,
        OwedTo::NetworkOperator,
        OwedTo::Handover,
    ] {
        assert!(seen.owed.iter().any(|owed| owed.to == to), "{to:?}");
    }
}
