//! Sources: D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), Appendix 4 Table 4.4 (the copy seen stops after 6 mm²); a cable
//! distributor's data sheet, "armour cross section area"; larger sizes from memory.

use super::{Typed, hold, list};
use crate::{close, number, step, work};
use presurvey::tables::about::Grade::{FromMemory, Itself, Quoted};

pub fn typed() -> Vec<Typed> {
    vec![
        list("steel armour, two-core, resistance at 20 °C", Itself, &[(1.5, 10.2), (2.5, 8.8), (4.0, 7.9), (6.0, 7.0)]),
        list(
            "steel armour, three-core, resistance at 20 °C",
            Itself,
            &[(1.5, 9.5), (2.5, 8.2), (4.0, 7.5), (6.0, 6.7)],
        ),
        list(
            "steel armour, two-core, resistance at 20 °C, 10 to 25 mm²",
            FromMemory,
            &[(10.0, 6.0), (16.0, 3.7), (25.0, 3.7)],
        ),
        list(
            "steel armour, three-core, resistance at 20 °C, 10 to 25 mm²",
            FromMemory,
            &[(10.0, 4.0), (16.0, 3.6), (25.0, 2.5)],
        ),
        list(
            "steel armour, two-core, cross-section",
            Quoted,
            &[
                (1.5, 15.0),
                (2.5, 17.0),
                (4.0, 19.0),
                (6.0, 22.0),
                (10.0, 26.0),
                (16.0, 42.0),
                (25.0, 42.0),
                (35.0, 60.0),
            ],
        ),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// Locke, Table 4.4: 6 mm² two-core, 7.0 Ω/km; the data sheet's 22 mm². Beyond both tables nothing is made up.
#[test]
fn the_armour_of_a_cable() {
    close(number("armour-resistance", "size=6mm2 length=1000m warm=1"), 7.0, 1e-12);
    close(step("armour-resistance", "size=6mm2 length=1m", "cross-section of the armour"), 22.0, 0.0);
    close(number("armour-resistance", "size=10mm2 cores=3 length=1000m warm=1"), 4.0, 1e-12);
    assert!(work("armour-resistance", "size=35mm2 length=1m").is_err());
    assert!(work("armour-resistance", "size=6mm2 cores=4 length=1m").unwrap_err().to_string().contains("2, 3"));
}

/// What was not seen agrees with what was: resistance goes with the inverse of the armour's cross-section. 7.0 Ω/km at 22 mm².
#[test]
fn the_larger_two_core_armour_follows_from_its_cross_section() {
    for (area, from_memory) in [(26.0, 6.0), (42.0, 3.7)] {
        let scaled: f64 = 7.0 * 22.0 / area;
        assert!((scaled - from_memory).abs() < 0.1, "{scaled}");
    }
}
