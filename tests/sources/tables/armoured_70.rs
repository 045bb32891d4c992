//! Source: BS 7671 Tables 4D4A and 4D4B (armoured, 70 °C thermoplastic) in a public transcription; 4 and 6 mm² a second time on
//! uk.d-i-y, 14 Feb 2019.

use super::{Typed, carries, column, drops, hold};
use presurvey::tables::about::Grade::Quoted;

/// Two-core, single-phase: C, D, E, mV/A/m.
const TWO_CORE: [(f64, [f64; 4]); 5] = [
    (4.0, [38.0, 37.0, 41.0, 11.0]),
    (6.0, [49.0, 46.0, 53.0, 7.3]),
    (10.0, [67.0, 60.0, 72.0, 4.4]),
    (16.0, [89.0, 78.0, 97.0, 2.8]),
    (25.0, [118.0, 99.0, 128.0, 1.75]),
];

/// Three- or four-core, three-phase: C, D, E, mV/A/m.
const THREE_PHASE: [(f64, [f64; 4]); 5] = [
    (4.0, [33.0, 30.0, 35.0, 9.5]),
    (6.0, [42.0, 38.0, 45.0, 6.4]),
    (10.0, [58.0, 50.0, 62.0, 3.8]),
    (16.0, [77.0, 64.0, 83.0, 2.4]),
    (25.0, [102.0, 82.0, 110.0, 1.5]),
];

pub fn typed() -> Vec<Typed> {
    vec![
        column("armoured 70 °C, two-core, capacity, method C (clipped direct)", Quoted, &TWO_CORE, 0),
        column("armoured 70 °C, two-core, capacity, method D (in the ground)", Quoted, &TWO_CORE, 1),
        column("armoured 70 °C, two-core, capacity, method E (free air)", Quoted, &TWO_CORE, 2),
        column("armoured 70 °C, two-core, voltage drop", Quoted, &TWO_CORE, 3),
        column("armoured 70 °C, three-phase, capacity, method C", Quoted, &THREE_PHASE, 0),
        column("armoured 70 °C, three-phase, capacity, method D", Quoted, &THREE_PHASE, 1),
        column("armoured 70 °C, three-phase, capacity, method E", Quoted, &THREE_PHASE, 2),
        column("armoured 70 °C, three-phase, voltage drop", Quoted, &THREE_PHASE, 3),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

#[test]
fn each_method_by_name() {
    for cable in ["armoured-70", "armoured", "armoured-with-data-pair"] {
        carries(cable, &[("C", 0), ("D", 1), ("E", 2)], &TWO_CORE);
    }
    drops("armoured-70", &TWO_CORE, 3);
    carries("three-phase-armoured-70", &[("C", 0), ("D", 1), ("E", 2)], &THREE_PHASE);
    drops("three-phase-armoured-70", &THREE_PHASE, 3);
}
