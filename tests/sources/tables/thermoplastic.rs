//! Sources: IEC 60364-5-52 Table B.52.2 in a public copy (A2, B2, C: PVC, two loaded conductors, copper), equal to BS 7671 Table 4D2A;
//! a copy of BS 7671 Appendix 4 Table 4D1A; voltage drop from a wholesaler's printed catalogue 2025/26, p. 489.

use super::{Typed, carries, column, drops, hold, list};
use presurvey::tables::about::Grade::{FromMemory, Quoted};

/// A, B, C, E.
const TABLE_4D2A: [(f64, [f64; 4]); 5] = [
    (4.0, [25.0, 30.0, 36.0, 40.0]),
    (6.0, [32.0, 38.0, 46.0, 51.0]),
    (10.0, [43.0, 52.0, 63.0, 70.0]),
    (16.0, [57.0, 69.0, 85.0, 94.0]),
    (25.0, [75.0, 90.0, 112.0, 119.0]),
];

/// Two cables, single-phase: A, B, C.
const TABLE_4D1A: [(f64, [f64; 3]); 6] = [
    (4.0, [26.0, 32.0, 37.0]),
    (6.0, [34.0, 41.0, 47.0]),
    (10.0, [46.0, 57.0, 65.0]),
    (16.0, [61.0, 76.0, 87.0]),
    (25.0, [80.0, 101.0, 114.0]),
    (35.0, [99.0, 125.0, 141.0]),
];

pub fn typed() -> Vec<Typed> {
    vec![
        column("multicore 70 °C, two-core, capacity, method A", Quoted, &TABLE_4D2A, 0),
        column("multicore 70 °C, two-core, capacity, method B", Quoted, &TABLE_4D2A, 1),
        column("multicore 70 °C, two-core, capacity, method C", Quoted, &TABLE_4D2A, 2),
        column("multicore 70 °C, two-core, capacity, method E", FromMemory, &TABLE_4D2A, 3),
        column("single-core 70 °C, two cables, capacity, method A", Quoted, &TABLE_4D1A, 0),
        column("single-core 70 °C, two cables, capacity, method B", Quoted, &TABLE_4D1A, 1),
        column("single-core 70 °C, two cables, capacity, method C", Quoted, &TABLE_4D1A, 2),
        list(
            "70 °C, single-phase, voltage drop",
            Quoted,
            &[(4.0, 11.0), (6.0, 7.3), (10.0, 4.4), (16.0, 2.8), (25.0, 1.75), (35.0, 1.25)],
        ),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

#[test]
fn each_method_by_name() {
    carries("multicore", &[("A", 0), ("B", 1), ("C", 2), ("E", 3)], &TABLE_4D2A);
    carries("single-core", &[("A", 0), ("B", 1), ("C", 2)], &TABLE_4D1A);
    for cable in ["multicore", "single-core"] {
        drops(cable, &[(4.0, [11.0]), (6.0, [7.3]), (10.0, [4.4]), (16.0, [2.8]), (25.0, [1.75])], 0);
    }
}
