//! Flat twin-and-earth, 70 °C thermoplastic.

use crate::units::{Amps, MillivoltsPerAmpMetre, SquareMillimetres};

/// One size of flat twin-and-earth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwinAndEarth {
    /// Line and neutral.
    pub size: SquareMillimetres,
    /// Its own protective conductor.
    pub cpc: SquareMillimetres,
    /// Clipped direct (reference method C).
    pub clipped: Amps,
    /// Above a plasterboard ceiling under more than 100 mm of insulation (reference method 101).
    pub under_insulation: Amps,
    /// Voltage drop.
    pub drop: MillivoltsPerAmpMetre,
}

/// Rows ascending by size; the smallest that passes is taken, never interpolated.
///
/// Source: BS 7671 Table 4D5. Method C: seen in a public transcription that cites the table; method 101: from memory.
/// Voltage drop: T. Linsley, *Basic Electrical Installation Work* (Newnes), Table 14.3.
/// Protective conductors: D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), Table 4.3.
/// Starts at 6 mm²: smaller is not used for a charge point; common practice, no source.
pub const TWIN_AND_EARTH: [TwinAndEarth; 3] =
    [row(6.0, 2.5, 47.0, 27.0, 7.3), row(10.0, 4.0, 64.0, 36.0, 4.4), row(16.0, 6.0, 85.0, 46.0, 2.8)];

const fn row(size: f64, cpc: f64, clipped: f64, under_insulation: f64, drop: f64) -> TwinAndEarth {
    TwinAndEarth {
        size: SquareMillimetres::of(size),
        cpc: SquareMillimetres::of(cpc),
        clipped: Amps::of(clipped),
        under_insulation: Amps::of(under_insulation),
        drop: MillivoltsPerAmpMetre::of(drop),
    }
}
