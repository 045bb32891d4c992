//! BS 7671 Tables 4B1 and 4B2: the reference temperatures. The rest: common practice, no source.

use super::{Typed, hold, one};
use crate::{number, work};
use presurvey::tables::about::Grade::{CommonPractice, Quoted};

pub fn typed() -> Vec<Typed> {
    vec![
        one("ambient air indoors: the tables' reference", Quoted, 30.0),
        one("ambient air in a loft or under a floor", CommonPractice, 35.0),
        one("ambient air outdoors", CommonPractice, 30.0),
        one("ground temperature: the tables' reference", Quoted, 20.0),
        one("insulation in a wall that the cable passes", CommonPractice, 0.05),
    ]
}

#[test]
fn as_written() {
    hold(&typed());
}

fn step(given: &str, name: &str) -> String {
    let working = work("cable-size", given).unwrap();
    working.steps.into_iter().find(|step| step.name == name).unwrap_or_else(|| panic!("{name}")).value
}

/// Sources: Table 4D5 (6 mm²: 47 A; 10 mm² over a ceiling, insulated: 36 A), Table 4D4A (10 mm² in the ground: 60 A), Table 4B1 (35 °C:
/// 0.94), Table 52.2 (100 mm: 0.78; 10 mm² armoured clipped: 67 A), Table 4C1 (0.85) and 4C2 (0.90), Appendix 4, 5.1.1 (0.9).
#[test]
fn each_stretch_is_rated_by_its_own_surroundings_and_the_one_that_governs_is_named() {
    let given = "current=32A route=inside:5m,loft-or-floor:6m,soft-ground:9m arrangement=tn-c-s in-wall=100mm";
    assert_eq!(number("cable-size", given), 10.0);
    assert_eq!(step(given, "loft-or-floor, 6 m of twin-and-earth, method 101: Iz"), "33.84 A");
    assert_eq!(step(given, "inside, 5 m of twin-and-earth, method C: Iz"), "64 A");
    assert_eq!(step(given, "soft-ground, 9 m of armoured, method D: Iz"), "54 A");
    assert_eq!(step(given, "where it passes a wall, armoured, method C: Iz"), "52.26 A");
    assert_eq!(step(given, "the stretch that governs the capacity"), "loft-or-floor");
    let beside = "current=32A route=inside:5m,paving:9m arrangement=tn-c-s beside=yes";
    assert_eq!(step(beside, "inside, 5 m of twin-and-earth, method C: Iz"), "39.95 A");
    assert_eq!(step(beside, "paving, 9 m of armoured, method D: Iz"), "37.26 A");
    assert_eq!(step(beside, "the stretch that governs the capacity"), "paving");
    let wall = "current=32A route=inside:5m arrangement=tn-c-s in-wall=100mm";
    assert_eq!(step(wall, "where it passes a wall, twin-and-earth, method C: Iz"), "36.66 A");
    assert_eq!(step(wall, "the stretch that governs the capacity"), "where it passes a wall");
}

/// A factor given in place of the stretches' own goes before it, on every stretch.
#[test]
fn a_factor_given_takes_the_place_of_a_stretchs_own() {
    let given = "current=32A route=loft-or-floor:6m arrangement=tn-c-s ambient-factor=1 grouping-factor=0.9";
    assert_eq!(step(given, "loft-or-floor, 6 m of twin-and-earth, method 101: Iz"), "32.4 A");
    let rows = work("cable-size", given).unwrap().rows;
    assert!(rows.iter().all(|row| row.table != "BS 7671 Table 4B1"), "no row was looked up for it");
}

/// Source: BS 7671 Appendix 4, section 6.1, from memory: (230 + 70 − (1 − 32²/47²) × 40) / 300 = 0.92848 for 6 mm² clipped direct; the
/// plain drop of 20 m at 7.3 mV/A/m is 4.672 V and stays the one that counts.
#[test]
fn the_cooler_conductors_drop_is_shown_beside_and_not_used() {
    let given = "current=32A size=6mm2 route=inside:20m,soft-ground:10m";
    let working = work("voltage-drop", given).unwrap();
    let of = |name: &str| {
        let step = working.steps.iter().find(|step| step.name == name).unwrap_or_else(|| panic!("{name}"));
        step.value.split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    let plain = 7.3 * 32.0 * 20.0 / 1000.0 + 7.9 * 32.0 * 10.0 / 1000.0;
    assert!((working.number.unwrap() - plain).abs() < 1e-9);
    let factor = (300.0 - (1.0 - 32.0_f64.powi(2) / 47.0_f64.powi(2)) * 40.0) / 300.0;
    assert!((of("inside, 20 m of twin-and-earth: Ct, from memory") - factor).abs() < 1e-3);
    assert_eq!(of("soft-ground, 10 m of armoured: Ct, from memory"), 1.0);
    let cooler = 4.672 * factor + 2.528;
    assert!((of("with Ct on every stretch: from memory, shown and not used") - cooler).abs() < 1e-3);
}
