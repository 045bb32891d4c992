//! Supply.

use super::{count, fact, flag, gate, has, home, values};
use presurvey::Assessment;
use presurvey::answers::{Answer, HomeKind};
use presurvey::assessment::{Complexity, Gatekeeper, KnownBy};
use presurvey::flags::Weight;
use presurvey::units::Amps;
use presurvey::wording::{Words, flags_installer};

fn counted_in(kind: HomeKind, carriers: u8, conductors: u8, cables: u8) -> Assessment {
    home(|answers| {
        answers.home.kind = Answer::Known(kind);
        answers.meter.fuse_carriers = count(carriers);
        answers.meter.head_conductors = count(conductors);
        answers.meter.street_cables = count(cables);
    })
}

fn counted(carriers: u8, conductors: u8, cables: u8) -> Assessment {
    counted_in(HomeKind::Terrace, carriers, conductors, cables)
}

fn looped(assessment: &Assessment) -> f64 {
    let values = &fact(assessment, "supply").values;
    values.iter().filter(|value| value.value.ends_with("looped")).map(|value| value.probability.get()).sum()
}

/// One carrier, two conductors, one street cable: single-phase, and "no loop seen", which is not "no loop": terraces and semis keep a
/// prior.
#[test]
fn one_carrier_two_conductors_one_cable_is_single_phase_with_no_loop_seen() {
    let terrace = counted(1, 2, 1);
    assert_eq!(values(&terrace, "supply"), ["single-phase", "single-phase, looped"]);
    assert_eq!(flag(&terrace, "no-loop-seen").unwrap().weight, Weight::WorthKnowing);
    assert!(!has(&terrace, "looped-supply"));
    let detached = looped(&counted_in(HomeKind::Detached, 1, 2, 1));
    for kind in [HomeKind::Terrace, HomeKind::Semi] {
        assert!(looped(&counted_in(kind, 1, 2, 1)) > detached, "{kind:?}");
    }
}

/// One carrier with four conductors, or two street cables: probably looped; it stays probable, and a photo is asked for.
#[test]
fn four_conductors_or_two_cables_are_probably_looped() {
    for seen in [counted(1, 4, 1), counted(1, 2, 2)] {
        assert_eq!(values(&seen, "supply"), ["single-phase, looped", "single-phase"], "it stays probable");
        assert_eq!(fact(&seen, "supply").known_by, KnownBy::Inferred);
        assert!(has(&seen, "looped-supply"));
        assert!(gate(&seen, Gatekeeper::NetworkOperator).unwrap().counts);
    }
    let installer = Words::new(flags_installer::EN);
    assert!(installer.find("flag-looped-supply-do").unwrap().contains("photo"));
}

/// Three carriers and four conductors: three-phase; the count alone says nothing about a loop.
#[test]
fn three_carriers_and_four_conductors_are_three_phase_and_say_nothing_of_a_loop() {
    let seen = counted(3, 4, 1);
    assert!(values(&seen, "supply").iter().all(|value| value.starts_with("three-phase")));
    assert!(has(&seen, "three-phase"));
    for kind in [HomeKind::Terrace, HomeKind::Detached] {
        assert_eq!(
            looped(&counted_in(kind, 3, 4, 1)),
            looped(&counted_in(kind, 1, 2, 1)),
            "as with one cable: {kind:?}"
        );
    }
}

/// Two carriers and three conductors: a rural split-phase supply or something else, to be looked at.
#[test]
fn two_carriers_and_three_conductors_are_to_be_looked_at() {
    let seen = counted(2, 3, 1);
    assert_eq!(values(&seen, "supply"), ["split-phase", "single-phase"]);
    assert_eq!(flag(&seen, "split-phase").unwrap().weight, Weight::SettleBeforeBooking);
    assert!(gate(&seen, Gatekeeper::NetworkOperator).unwrap().counts, "the operator is asked what it is");
}

/// Three carriers and two conductors: perhaps a three-phase head with one phase used; a contradiction, neither count asserted.
#[test]
fn three_carriers_and_two_conductors_are_a_contradiction_and_neither_is_asserted() {
    let seen = counted(3, 2, 1);
    assert!(has(&seen, "supply-counts-disagree") && seen.complexity == Complexity::LookFirst);
    assert_eq!(fact(&seen, "supply").known_by, KnownBy::Contradicted);
    let [one, three] = &fact(&seen, "supply").values[..] else { panic!("both are alive") };
    assert_eq!(one.probability, three.probability);
    for asserted in ["three-phase", "no-loop-seen", "looped-supply"] {
        assert!(!has(&seen, asserted), "{asserted}");
    }
    let asked: Vec<&str> = seen.open.iter().filter(|open| open.settles).map(|open| open.question.as_str()).collect();
    assert!(asked.starts_with(&["fuse-carriers", "head-conductors"]), "{asked:?}");
}

/// A rating moulded on the carrier is the most that it may hold: an upper bound, never the fuse.
#[test]
fn a_rating_on_the_carrier_is_an_upper_bound() {
    let rated = |amps| home(|answers| answers.meter.carrier_rating = Answer::Known(Amps::of(amps)));
    let mut held = values(&rated(80.0), "main-fuse").iter().map(ToString::to_string).collect::<Vec<_>>();
    held.sort();
    assert_eq!(held, ["60 A", "80 A"], "both are alive");
    assert_eq!(values(&rated(60.0), "main-fuse"), ["60 A"]);
    assert!(has(&rated(80.0), "carrier-rating-is-a-bound"));
    assert_ne!(fact(&rated(80.0), "main-fuse").known_by, KnownBy::Seen);
}
