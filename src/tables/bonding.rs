//! Main protective bonding where protective multiple earthing applies.

use crate::units::SquareMillimetres;

/// Rows: supply neutral up to and including this many mm², main bonding in mm² of copper. Looked up by the first row that holds it.
///
/// Source: BS 7671 Table 54.8; seen in D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), p. 167.
pub const MAIN_BONDING: [(SquareMillimetres, SquareMillimetres); 5] = [
    (SquareMillimetres::of(35.0), SquareMillimetres::of(10.0)),
    (SquareMillimetres::of(50.0), SquareMillimetres::of(16.0)),
    (SquareMillimetres::of(95.0), SquareMillimetres::of(25.0)),
    (SquareMillimetres::of(150.0), SquareMillimetres::of(35.0)),
    (SquareMillimetres::of(f64::MAX), SquareMillimetres::of(50.0)),
];

/// Size of main bonding for a supply neutral.
#[must_use]
pub fn main_bonding(supply_neutral: SquareMillimetres) -> SquareMillimetres {
    let found = MAIN_BONDING.iter().find(|(most, _)| supply_neutral <= *most);
    found.map_or(MAIN_BONDING[MAIN_BONDING.len() - 1].1, |(_, bonding)| *bonding)
}
