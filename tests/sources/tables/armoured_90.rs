//! Source: a UK distributor's technical resource "SWA cables", extract of BS 7671 Tables 4E4A and 4E4B (17th ed.; its columns run
//! together there; headed "thermoplastic" and "70 °C" by mistake: the values are the 90 °C thermosetting ones).

use super::{Typed, carries, column, drops, hold, list};
use crate::{close, number};
use presurvey::tables::about::Grade::Quoted;

/// C, D, E two-core; C, D, E three-phase; mV/A/m three-phase.
const TABLE_4E4: [(f64, [f64; 7]); 8] = [
    (1.5, [27.0, 25.0, 29.0, 23.0, 21.0, 25.0, 27.0]),
    (2.5, [36.0, 33.0, 39.0, 31.0, 28.0, 33.0, 16.0]),
    (4.0, [49.0, 43.0, 52.0, 42.0, 36.0, 44.0, 10.0]),
    (6.0, [62.0, 53.0, 66.0, 53.0, 44.0, 56.0, 6.8]),
    (10.0, [85.0, 71.0, 90.0, 73.0, 58.0, 78.0, 4.0]),
    (16.0, [110.0, 91.0, 115.0, 94.0, 75.0, 99.0, 2.5]),
    (25.0, [146.0, 116.0, 152.0, 124.0, 96.0, 131.0, 1.65]),
    (35.0, [180.0, 139.0, 188.0, 154.0, 115.0, 162.0, 1.15]),
];

pub fn typed() -> Vec<Typed> {
    vec![
        column("armoured 90 °C, two-core, capacity, method C (clipped direct)", Quoted, &TABLE_4E4, 0),
        column("armoured 90 °C, two-core, capacity, method D (in the ground)", Quoted, &TABLE_4E4, 1),
        column("armoured 90 °C, two-core, capacity, method E (free air)", Quoted, &TABLE_4E4, 2),
        column("armoured 90 °C, three-phase, capacity, method C", Quoted, &TABLE_4E4, 3),
        column("armoured 90 °C, three-phase, capacity, method D", Quoted, &TABLE_4E4, 4),
        column("armoured 90 °C, three-phase, capacity, method E", Quoted, &TABLE_4E4, 5),
        column("armoured 90 °C, three-phase, voltage drop", Quoted, &TABLE_4E4, 6),
        list(
            "armoured 90 °C, two-core, voltage drop",
            Quoted,
            &[(1.5, 31.0), (2.5, 19.0), (4.0, 12.0), (6.0, 7.9), (10.0, 4.7), (16.0, 2.9), (25.0, 1.90)],
        ),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// Source: BS 7671 512.1.5 and the notes to Table 4E4A, from memory; a public forum post: a 90 °C cable joined to terminals rated 70 °C
/// carries what the 70 °C table says. Its voltage drop stays its own, the greater of the two.
#[test]
fn terminals_rated_70_degrees_rate_a_90_degree_cable() {
    for (size, at_70, at_90) in [(6, 49.0, 62.0), (10, 67.0, 85.0), (16, 89.0, 110.0), (25, 118.0, 146.0)] {
        for cable in ["armoured", "armoured-with-data-pair"] {
            close(number("cable-capacity", &format!("size={size}mm2 cable={cable}")), at_70, 0.0);
        }
        close(number("cable-capacity", &format!("size={size}mm2 cable=armoured-90")), at_90, 0.0);
    }
    close(number("voltage-drop", "length=1000m size=6mm2 cable=armoured current=1A"), 7.9, 1e-12);
    close(number("voltage-drop", "length=1000m size=6mm2 cable=armoured-70 current=1A"), 7.3, 1e-12);
}

#[test]
fn each_method_by_name() {
    carries("armoured-90", &[("C", 0), ("D", 1), ("E", 2)], &TABLE_4E4);
    carries("three-phase-armoured-90", &[("C", 3), ("D", 4), ("E", 5)], &TABLE_4E4);
    drops("three-phase-armoured-90", &TABLE_4E4, 6);
    for cable in ["armoured-90", "armoured", "armoured-with-data-pair"] {
        drops(cable, &[(6.0, [7.9]), (10.0, [4.7]), (16.0, [2.9]), (25.0, [1.90])], 0);
    }
}
