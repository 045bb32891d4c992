//! Resistance of copper conductors, and how it rises with temperature.

use super::about::{at, tables};
use crate::units::{MilliohmsPerMetre, SquareMillimetres};

tables! {
    columns {
        /// Greatest d.c. resistance of one plain copper conductor at 20 °C, solid or stranded. Looked up exactly, never interpolated.
        COPPER_AT_20C: SquareMillimetres => MilliohmsPerMetre; IEC_60228 "", "copper conductor, resistance at 20 °C";
        Quoted, "D. Locke, Guide to the Wiring Regulations (Wiley, 2008), Appendix 4 Table 4.1 (from BS 6360:1991)", also "a cable maker's table of IEC 60228, whose name was not kept; to 25 mm² also J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 5.5";
        1.0 => 18.1, 1.5 => 12.1, 2.5 => 7.41, 4.0 => 4.61, 6.0 => 3.08, 10.0 => 1.83, 16.0 => 1.15, 25.0 => 0.727, 35.0 => 0.524;
    }
    figures {
        /// From 20 °C to a 70 °C conductor with the protective conductor in the same cable.
        TO_70C / TO_70C_TABLE: Ratio = 1.20; WHITFIELD "note under Table 5.5", "copper from 20 to 70 °C, protective conductor in the cable";
        Itself, "0.004 a kelvin; the On-Site Guide's Table I3 has the same, from memory", also "IEC 60228's list of Kt, in a copy whose name was not kept: 1 / 0.833 at 70 °C";
    }
}

/// Resistance a metre of one copper conductor at 20 °C, or `None` where the size is not a row.
#[must_use]
pub fn per_metre(size: SquareMillimetres) -> Option<MilliohmsPerMetre> {
    at(COPPER_AT_20C.rows, size)
}
