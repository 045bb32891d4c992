//! Flat twin-and-earth, 70 °C thermoplastic, ambient 30 °C.
//!
//! Every column: cross-section of line and neutral, ascending; looked up exactly, never interpolated. There is no 25 mm².
//! Some web pages print 65 and 87 A for 10 and 16 mm² clipped direct: those are single-core values.

use super::about::{at, tables};
use crate::units::SquareMillimetres;

tables! {
    columns {
        /// Clipped direct (reference method C).
        CLIPPED: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D5", "flat twin-and-earth, capacity, method C (clipped direct)";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept, citing the table";
        2.5 => 27.0, 4.0 => 37.0, 6.0 => 47.0, 10.0 => 64.0, 16.0 => 85.0;

        /// Above a plasterboard ceiling under at most 100 mm of insulation (reference method 100).
        UNDER_THIN_INSULATION: SquareMillimetres => Amps;
        BS_7671_UNSAID "Table 4D5", "flat twin-and-earth, capacity, method 100 (above a ceiling, insulation to 100 mm)";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept, citing the table";
        2.5 => 21.0, 4.0 => 27.0, 6.0 => 34.0, 10.0 => 45.0, 16.0 => 57.0;

        /// Above a plasterboard ceiling under more than 100 mm of insulation (reference method 101).
        UNDER_INSULATION: SquareMillimetres => Amps;
        BS_7671 "Table 4D5", "flat twin-and-earth, capacity, method 101 (above a ceiling, insulation over 100 mm)";
        FromMemory, "not seen";
        2.5 => 17.0, 4.0 => 22.0, 6.0 => 27.0, 10.0 => 36.0, 16.0 => 46.0;

        /// In an insulated stud wall, touching the inner lining (reference method 102).
        TOUCHING_LINING: SquareMillimetres => Amps;
        BS_7671 "Table 4D5", "flat twin-and-earth, capacity, method 102 (insulated stud wall, touching the lining)";
        FromMemory, "not seen";
        2.5 => 21.0, 4.0 => 27.0, 6.0 => 35.0, 10.0 => 47.0, 16.0 => 63.0;

        /// In an insulated stud wall, not touching the inner lining (reference method 103).
        IN_INSULATION: SquareMillimetres => Amps;
        BS_7671_UNSAID "Table 4D5", "flat twin-and-earth, capacity, method 103 (insulated stud wall, not touching the lining)";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept, citing the table";
        2.5 => 13.5, 4.0 => 17.5, 6.0 => 23.5, 10.0 => 32.0, 16.0 => 42.5;

        /// In conduit in an insulated wall (reference method A).
        IN_CONDUIT: SquareMillimetres => Amps;
        BS_7671 "Table 4D5", "flat twin-and-earth, capacity, method A (conduit in an insulated wall)";
        FromMemory, "not seen";
        2.5 => 20.0, 4.0 => 26.0, 6.0 => 32.0, 10.0 => 44.0, 16.0 => 57.0;

        /// Voltage drop at 70 °C.
        DROP: SquareMillimetres => MillivoltsPerAmpMetre; BS_7671_UNSAID "Table 4D5", "flat twin-and-earth, voltage drop";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept, citing the table", also "by single-core cable of the same copper (Table 4D1B): T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), Table 14.3; a UK wholesaler's printed catalogue 2025/26, whose name was not kept, p. 489";
        2.5 => 18.0, 4.0 => 11.0, 6.0 => 7.3, 10.0 => 4.4, 16.0 => 2.8;

        /// The protective conductor in the cable.
        CPC: SquareMillimetres => SquareMillimetres; LOCKE "Appendix 4 Table 4.3", "flat twin-and-earth, protective conductor by line conductor";
        Itself, "row by row, line over protective conductor";
        1.5 => 1.0, 2.5 => 1.5, 4.0 => 1.5, 6.0 => 2.5, 10.0 => 4.0, 16.0 => 6.0;
    }
}

/// The protective conductor of a size, or `None` where the size is not a row.
#[must_use]
pub fn cpc(size: SquareMillimetres) -> Option<SquareMillimetres> {
    at(CPC.rows, size)
}
