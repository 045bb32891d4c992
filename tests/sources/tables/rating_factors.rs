//! Sources: a revision summary reproducing 16th edition tables (4.3, 4.4; "from BS 7671:1992"); IEC 60364-5-52 Table B.52.16 in a
//! public copy; an electrician course's formula sheet (Table 52.2); a public transcription of Table 4B2; the rest from memory.

use super::{Typed, column, hold, list, one};
use crate::{close, number, work};
use presurvey::tables::about::Grade::{FromMemory, Quoted};

/// Table 4B1: °C, 70 °C thermoplastic, 90 °C thermosetting.
const AIR: [(f64, [f64; 2]); 7] = [
    (25.0, [1.03, 1.02]),
    (30.0, [1.00, 1.00]),
    (35.0, [0.94, 0.96]),
    (40.0, [0.87, 0.91]),
    (45.0, [0.79, 0.87]),
    (50.0, [0.71, 0.82]),
    (55.0, [0.61, 0.76]),
];

/// Table 4B2: °C, 70 °C thermoplastic, 90 °C thermosetting.
const GROUND: [(f64, [f64; 2]); 4] =
    [(10.0, [1.10, 1.07]), (15.0, [1.05, 1.04]), (20.0, [1.00, 1.00]), (25.0, [0.95, 0.96])];

/// Table 4B3: K·m/W, ducts, direct.
const SOIL: [(f64, [f64; 2]); 5] =
    [(1.0, [1.18, 1.50]), (1.5, [1.10, 1.28]), (2.0, [1.05, 1.12]), (2.5, [1.00, 1.00]), (3.0, [0.96, 0.90])];

/// Table 4C1: circuits; bunched, touching, spaced.
const GROUPED: [(f64, [f64; 3]); 9] = [
    (1.0, [1.00, 1.00, 1.00]),
    (2.0, [0.80, 0.85, 0.94]),
    (3.0, [0.70, 0.79, 0.90]),
    (4.0, [0.65, 0.75, 0.90]),
    (5.0, [0.60, 0.73, 0.90]),
    (6.0, [0.57, 0.72, 0.90]),
    (7.0, [0.54, 0.72, 0.90]),
    (8.0, [0.52, 0.71, 0.90]),
    (9.0, [0.50, 0.70, 0.90]),
];

/// Tables 4C2 and 4C3: circuits; direct touching, direct 0.25 m apart, ducts touching.
const BURIED: [(f64, [f64; 3]); 4] =
    [(1.0, [1.0, 1.0, 1.0]), (2.0, [0.75, 0.90, 0.85]), (3.0, [0.65, 0.80, 0.75]), (4.0, [0.60, 0.75, 0.70])];

pub fn typed() -> Vec<Typed> {
    vec![
        column("factor for ambient air, 70 °C thermoplastic", Quoted, &AIR, 0),
        column("factor for ambient air, 90 °C thermosetting", FromMemory, &AIR, 1),
        column("factor for ground temperature, 70 °C thermoplastic", Quoted, &GROUND, 0),
        column("factor for ground temperature, 90 °C thermosetting", Quoted, &GROUND, 1),
        column("factor for soil, cable in a duct", Quoted, &SOIL, 0),
        column("factor for soil, cable buried direct", FromMemory, &SOIL, 1),
        column("factor for grouping, bunched, enclosed or embedded", Quoted, &GROUPED, 0),
        column("factor for grouping, single layer, touching", Quoted, &GROUPED, 1),
        column("factor for grouping, single layer, one diameter apart", Quoted, &GROUPED, 2),
        column("factor for grouping, buried direct, touching", FromMemory, &BURIED, 0),
        column("factor for grouping, buried direct, 0.25 m apart", FromMemory, &BURIED, 1),
        column("factor for grouping, ducts touching", FromMemory, &BURIED, 2),
        // Table 52.2, 2008 onward, metres; none at no length. DIFFERENCE: the 16th edition has 0.89, 0.81, 0.68, 0.55.
        list(
            "factor for a length in thermal insulation",
            Quoted,
            &[(0.0, 1.0), (0.05, 0.88), (0.1, 0.78), (0.2, 0.63), (0.4, 0.51)],
        ),
        one("factor for 0.5 m or more in thermal insulation", Quoted, 0.5),
        one("factor for a buried cable protected against overload", FromMemory, 0.9),
        one("factor for a semi-enclosed fuse", Quoted, 0.725),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// Each table through the figure that uses it: 47 A (6 mm² flat twin-and-earth) or 46 A (6 mm² armoured, in the ground), times the row.
#[test]
fn each_factor_is_taken_from_its_own_table() {
    let air = |given: &str| number("cable-capacity", &format!("size=6mm2 {given}")) / 47.0;
    let ground =
        |given: &str| number("cable-capacity", &format!("size=6mm2 cable=armoured-70 method=D {given}")) / 46.0;
    close(air("ambient=45C"), 0.79, 1e-9);
    close(air("ambient=31C"), 0.94, 1e-9); // the warmer row
    close(air("ambient=10C"), 1.03, 1e-9); // below the first row, that row
    close(air("ambient=45C bears=90C"), 0.87, 1e-9);
    close(air("grouped=3"), 0.70, 1e-9);
    close(air("grouped=3 grouping=touching"), 0.79, 1e-9);
    close(air("grouped=3 grouping=spaced"), 0.90, 1e-9);
    close(air("in-insulation=150mm"), 0.63, 1e-9); // the longer row
    close(air("in-insulation=0.5m"), 0.5, 1e-9);
    close(air("fuse-wire=yes"), 0.725, 1e-9);
    close(air("ambient=45C grouped=3 fuse-wire=yes"), 0.79 * 0.70 * 0.725, 1e-9);
    close(ground("ambient=15C"), 1.05, 1e-9);
    close(ground("ambient=25C bears=90C"), 0.96, 1e-9);
    close(ground("grouped=2 grouping=buried-touching"), 0.75, 1e-9);
    close(ground("grouped=2 grouping=buried-apart"), 0.90, 1e-9);
    close(ground("grouped=2 grouping=ducts"), 0.85, 1e-9);
    close(ground("soil=1.2Km/W duct=yes"), 1.10, 1e-9); // the drier row
    close(ground("soil=3Km/W"), 0.90, 1e-9);
    close(ground("depth-factor=0.97 overload=yes"), 0.97 * 0.9, 1e-9);
    assert!(work("cable-capacity", "size=6mm2 ambient=60C").is_err(), "above the last row");
    assert!(work("cable-capacity", "size=6mm2 grouped=0").is_ok_and(|working| working.number == Some(47.0)), "alone");
    assert!(work("cable-capacity", "size=6mm2 grouped=10").is_err());
}
