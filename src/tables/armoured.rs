//! Steel-wire-armoured cable, three-core used single-phase, rated for terminals at 70 °C.

use crate::units::{Amps, MillivoltsPerAmpMetre, SquareMillimetres};

/// One size of armoured cable.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Armoured {
    /// Line, neutral and protective core.
    pub size: SquareMillimetres,
    /// Clipped direct (reference method C).
    pub clipped: Amps,
    /// In the ground (reference method D).
    pub buried: Amps,
    /// Voltage drop.
    pub drop: MillivoltsPerAmpMetre,
}

/// Rows ascending by size.
///
/// Capacities: BS 7671 Table 4D4A, two-core, seen in a public transcription: a 90 °C cable joined to 70 °C terminals
/// is rated from the 70 °C table (regulation 512.1.5, from memory).
/// Voltage drop: Table 4E4B, two-core (90 °C thermosetting, the greater of the two), seen in a distributor's technical page.
/// Starts at 6 mm²: common practice, no source.
pub const ARMOURED: [Armoured; 4] =
    [row(6.0, 49.0, 46.0, 7.9), row(10.0, 67.0, 60.0, 4.7), row(16.0, 89.0, 78.0, 2.9), row(25.0, 118.0, 99.0, 1.90)];

const fn row(size: f64, clipped: f64, buried: f64, drop: f64) -> Armoured {
    Armoured {
        size: SquareMillimetres::of(size),
        clipped: Amps::of(clipped),
        buried: Amps::of(buried),
        drop: MillivoltsPerAmpMetre::of(drop),
    }
}
