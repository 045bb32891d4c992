//! Resistance of copper conductors.

use crate::units::{MilliohmsPerMetre, Ratio, SquareMillimetres};

/// Greatest d.c. resistance of one plain copper conductor at 20 °C.
///
/// Rows: cross-section in mm², resistance in mΩ/m; ascending. Looked up exactly, never interpolated.
/// Source: IEC 60228 class 1 and 2, plain copper; seen in D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), Table 4.1.
pub const COPPER_AT_20C: [(SquareMillimetres, MilliohmsPerMetre); 9] = [
    (SquareMillimetres::of(1.0), MilliohmsPerMetre::of(18.1)),
    (SquareMillimetres::of(1.5), MilliohmsPerMetre::of(12.1)),
    (SquareMillimetres::of(2.5), MilliohmsPerMetre::of(7.41)),
    (SquareMillimetres::of(4.0), MilliohmsPerMetre::of(4.61)),
    (SquareMillimetres::of(6.0), MilliohmsPerMetre::of(3.08)),
    (SquareMillimetres::of(10.0), MilliohmsPerMetre::of(1.83)),
    (SquareMillimetres::of(16.0), MilliohmsPerMetre::of(1.15)),
    (SquareMillimetres::of(25.0), MilliohmsPerMetre::of(0.727)),
    (SquareMillimetres::of(35.0), MilliohmsPerMetre::of(0.524)),
];

/// From 20 °C to a 70 °C conductor with the protective conductor in the same cable.
/// Source: J. Whitfield, *The Electricians Guide*, 5th ed. (EPA Press), note under Table 5.5.
pub const TO_70C: Ratio = Ratio::of(1.20);

/// Resistance a metre of one copper conductor at 20 °C, or `None` where the size is not a row.
#[must_use]
pub fn per_metre(size: SquareMillimetres) -> Option<MilliohmsPerMetre> {
    COPPER_AT_20C.iter().find(|(row, _)| *row == size).map(|(_, resistance)| *resistance)
}
