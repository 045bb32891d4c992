//! Protective conductors: main bonding, earthing conductor, the circuit's own, and what they are made of; meter tails.

use super::about::tables;
use crate::units::SquareMillimetres;

tables! {
    columns {
        /// Main bonding where PME applies: supply neutral up to and including this size; above the last row [`MAIN_BONDING_ABOVE`].
        MAIN_BONDING: SquareMillimetres => SquareMillimetres; BS_7671_2008 "Table 54.8", "main bonding by the supply's neutral, PME";
        Quoted, "D. Locke, Guide to the Wiring Regulations (Wiley, 2008), p. 167, Table E 4.6", also "the-regs training blog on Table 54.8" of 35.0;
        35.0 => 10.0, 50.0 => 16.0, 95.0 => 25.0, 150.0 => 35.0;

        /// Meter tails by the main fuse: up to and including this rating.
        TAILS: Amps => SquareMillimetres; OPERATORS "", "meter tails by the main fuse";
        FromMemory, "network operators' practice, not seen; 25 mm² at 100 A on a public electricians' forum, whose name was not kept";
        80.0 => 16.0, 100.0 => 25.0;

        /// k of copper by the conductor's final temperature, as a core of the cable.
        K_IN_CABLE: Celsius => MaterialFactor; BS_7671_UNSAID "Table 54.3", "k, copper, protective conductor as a core of the cable, by the cable's temperature";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept", also "T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 251" of 70.0;
        70.0 => 115.0, 90.0 => 143.0;

        /// k of copper, not bunched with the cable.
        K_SEPARATE: Celsius => MaterialFactor; BS_7671_UNSAID "Table 54.2", "k, copper, separate protective conductor, by the cable's temperature";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept";
        70.0 => 143.0, 90.0 => 176.0;

        /// k of steel armour, by the insulation's temperature.
        K_ARMOUR: Celsius => MaterialFactor; BS_7671 "Table 54.4", "k, steel armour, by the cable's temperature";
        FromMemory, "not seen; 46 at 90 °C is used in an adiabatic check on a public electricians' forum, whose name was not kept";
        70.0 => 51.0, 90.0 => 46.0;
    }
    figures {
        /// Main bonding where PME applies and the supply's neutral is above the last row.
        MAIN_BONDING_ABOVE / MAIN_BONDING_ABOVE_TABLE: SquareMillimetres = 50.0; BS_7671_2008 "Table 54.8", "main bonding for a supply neutral over 150 mm², PME";
        Quoted, "D. Locke, Guide to the Wiring Regulations (Wiley, 2008), p. 167, Table E 4.6";

        /// Main bonding where PME does not apply: this share of the earthing conductor …
        BONDING_SHARE / BONDING_SHARE_TABLE: Ratio = 0.5; BS_7671_UNSAID "544.1.1", "main bonding without PME: share of the earthing conductor";
        Quoted, "a training blog quoting the regulation (the-regs)";

        /// … but no less than this …
        BONDING_LEAST / BONDING_LEAST_TABLE: SquareMillimetres = 6.0; BS_7671_UNSAID "544.1.1", "main bonding without PME: least";
        Quoted, "a training blog quoting the regulation (the-regs)";

        /// … and it need not be more than this.
        BONDING_MOST / BONDING_MOST_TABLE: SquareMillimetres = 25.0; BS_7671_UNSAID "544.1.1", "main bonding without PME: need not exceed";
        Quoted, "a training blog quoting the regulation (the-regs)";

        /// A protective conductor by its line conductor: as large up to this …
        CPC_AS_LINE / CPC_AS_LINE_TABLE: SquareMillimetres = 16.0; BS_7671_UNSAID "Table 54.7", "protective conductor as large as the line up to, and this size until";
        Quoted, "T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250", also "the-regs training blog";

        /// … that size until here, and half of the line above it.
        CPC_HALF_ABOVE / CPC_HALF_ABOVE_TABLE: SquareMillimetres = 35.0; BS_7671_UNSAID "Table 54.7", "protective conductor half of the line above";
        Quoted, "T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250", also "the-regs training blog";

        /// Earthing conductor that distributors often ask for where PME applies.
        EARTHING_ASKED / EARTHING_ASKED_TABLE: SquareMillimetres = 16.0; LOCKE "p. 167, note", "earthing conductor that distributors often ask for, PME";
        Itself, "the note under its table";

        /// Buried earthing conductor, copper, sheathed and mechanically protected.
        BURIED_PROTECTED / BURIED_PROTECTED_TABLE: SquareMillimetres = 2.5; BS_7671_UNSAID "Table 54.1", "buried earthing conductor, sheathed and mechanically protected: least";
        Quoted, "a public electricians' forum quoting 542.3, whose name was not kept";

        /// The same, sheathed only.
        BURIED_SHEATHED / BURIED_SHEATHED_TABLE: SquareMillimetres = 16.0; BS_7671_UNSAID "Table 54.1", "buried earthing conductor, sheathed only: least";
        Quoted, "a public electricians' forum quoting 542.3, whose name was not kept";

        /// The same, bare.
        BURIED_BARE / BURIED_BARE_TABLE: SquareMillimetres = 25.0; BS_7671_UNSAID "Table 54.1", "buried earthing conductor, unsheathed: least";
        Quoted, "a public electricians' forum quoting 542.3, whose name was not kept";

        /// A charge point's own electrode keeps clear of bonded metal up to this high above the ground.
        ELECTRODE_APART / ELECTRODE_APART_TABLE: Metres = 2.0; PRACTICE "", "an electrode of its own: bonded metal out of reach up to, above the ground";
        CommonPractice, "no source";
    }
}

/// Cross-section of main bonding for a supply neutral of this cross-section, where PME applies.
#[must_use]
pub fn main_bonding(supply_neutral: SquareMillimetres) -> SquareMillimetres {
    super::about::at_least(MAIN_BONDING.rows, supply_neutral).unwrap_or(MAIN_BONDING_ABOVE)
}
