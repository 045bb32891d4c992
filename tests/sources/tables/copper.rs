//! Source: D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), Appendix 4 Tables 4.1 and 4.3 (from BS 6360 and IEC 60228).

use super::{Typed, hold, list, one};
use crate::{close, number};
use presurvey::tables::about::Grade::{Itself, Quoted};

pub fn typed() -> Vec<Typed> {
    vec![
        // Table 4.1, Ω/km.
        list(
            "copper conductor, resistance at 20 °C",
            Quoted,
            &[
                (1.0, 18.1),
                (1.5, 12.1),
                (2.5, 7.41),
                (4.0, 4.61),
                (6.0, 3.08),
                (10.0, 1.83),
                (16.0, 1.15),
                (25.0, 0.727),
                (35.0, 0.524),
            ],
        ),
        // J. Whitfield, *The Electricians Guide*, 5th ed., note under Table 5.5.
        one("copper from 20 to 70 °C, protective conductor in the cable", Itself, 1.20),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// Source: Locke, Appendix 4 Table 4.3: R1 + R2 of flat twin-and-earth at 20 °C, mΩ/m.
#[test]
fn both_conductors_of_flat_twin_and_earth() {
    for (line, protective, published) in [
        (1.5, 1.0, 30.2),
        (2.5, 1.5, 19.51),
        (4.0, 1.5, 16.71),
        (6.0, 2.5, 10.49),
        (10.0, 4.0, 6.44),
        (16.0, 6.0, 4.23),
    ] {
        let given = format!("length=1000m line={line}mm2 protective={protective}mm2 warm=1");
        close(number("conductor-resistance", &given), published, 1e-9);
        let its_own = format!("length=1000m line={line}mm2 warm=1");
        close(number("conductor-resistance", &its_own), published, 1e-9);
        // Row 2 of the same reference, × 1.20.
        close(number("conductor-resistance", &format!("length=1000m line={line}mm2")), published * 1.2, 1e-9);
    }
}
