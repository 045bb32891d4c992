//! Steel-wire-armoured cable: rated for terminals at 70 °C and, for what is joined to 90 °C terminals, as it is made.
//!
//! A 90 °C cable joined to equipment rated 70 °C is rated from the 70 °C table (BS 7671 regulation 512.1.5 and the notes to
//! Table 4E4A, from memory; a public forum post says the same): so are consumer units and charge points. Three cores used
//! single-phase, the third as protective conductor, take the two-core columns. In the ground: 20 °C, 2.5 K·m/W, 0.7 m deep.

use super::about::tables;

tables! {
    columns {
        /// 70 °C, two-core, clipped direct (reference method C).
        CLIPPED: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D4A", "armoured 70 °C, two-core, capacity, method C (clipped direct)";
        Quoted, "a public transcription of the table, whose name was not kept", also "a second public transcription, whose name was not kept; 4 and 6 mm² also quoted on the newsgroup uk.d-i-y, 14 Feb 2019";
        4.0 => 38.0, 6.0 => 49.0, 10.0 => 67.0, 16.0 => 89.0, 25.0 => 118.0;

        /// 70 °C, two-core, in the ground (reference method D).
        BURIED: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D4A", "armoured 70 °C, two-core, capacity, method D (in the ground)";
        Quoted, "a public transcription of the table, whose name was not kept";
        4.0 => 37.0, 6.0 => 46.0, 10.0 => 60.0, 16.0 => 78.0, 25.0 => 99.0;

        /// 70 °C, two-core, in free air (reference method E).
        FREE_AIR: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D4A", "armoured 70 °C, two-core, capacity, method E (free air)";
        Quoted, "a public transcription of the table, whose name was not kept";
        4.0 => 41.0, 6.0 => 53.0, 10.0 => 72.0, 16.0 => 97.0, 25.0 => 128.0;

        /// 70 °C, two-core, voltage drop.
        DROP: SquareMillimetres => MillivoltsPerAmpMetre; BS_7671_UNSAID "Table 4D4B", "armoured 70 °C, two-core, voltage drop";
        Quoted, "a public transcription of the table, whose name was not kept", also "quoted on the newsgroup uk.d-i-y, 14 Feb 2019" of 4.0 | 6.0;
        4.0 => 11.0, 6.0 => 7.3, 10.0 => 4.4, 16.0 => 2.8, 25.0 => 1.75;

        /// 70 °C, three- or four-core, three-phase, clipped direct.
        THREE_PHASE_CLIPPED: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D4A", "armoured 70 °C, three-phase, capacity, method C";
        Quoted, "a public transcription of the table, whose name was not kept";
        4.0 => 33.0, 6.0 => 42.0, 10.0 => 58.0, 16.0 => 77.0, 25.0 => 102.0;

        /// 70 °C, three- or four-core, three-phase, in the ground.
        THREE_PHASE_BURIED: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D4A", "armoured 70 °C, three-phase, capacity, method D";
        Quoted, "a public transcription of the table, whose name was not kept";
        4.0 => 30.0, 6.0 => 38.0, 10.0 => 50.0, 16.0 => 64.0, 25.0 => 82.0;

        /// 70 °C, three- or four-core, three-phase, in free air.
        THREE_PHASE_FREE_AIR: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D4A", "armoured 70 °C, three-phase, capacity, method E";
        Quoted, "a public transcription of the table, whose name was not kept";
        4.0 => 35.0, 6.0 => 45.0, 10.0 => 62.0, 16.0 => 83.0, 25.0 => 110.0;

        /// 70 °C, three-phase, voltage drop between lines.
        THREE_PHASE_DROP: SquareMillimetres => MillivoltsPerAmpMetre; BS_7671_UNSAID "Table 4D4B", "armoured 70 °C, three-phase, voltage drop";
        Quoted, "a public transcription of the table, whose name was not kept";
        4.0 => 9.5, 6.0 => 6.4, 10.0 => 3.8, 16.0 => 2.4, 25.0 => 1.5;

        /// 90 °C, two-core, clipped direct (reference method C).
        CLIPPED_90: SquareMillimetres => Amps; BS_7671_2008 "Table 4E4A", "armoured 90 °C, two-core, capacity, method C (clipped direct)";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again; headed 'thermoplastic' there by mistake", also "a second public transcription, whose name was not kept";
        1.5 => 27.0, 2.5 => 36.0, 4.0 => 49.0, 6.0 => 62.0, 10.0 => 85.0, 16.0 => 110.0, 25.0 => 146.0, 35.0 => 180.0;

        /// 90 °C, two-core, in the ground (reference method D).
        BURIED_90: SquareMillimetres => Amps; BS_7671_2008 "Table 4E4A", "armoured 90 °C, two-core, capacity, method D (in the ground)";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 25.0, 2.5 => 33.0, 4.0 => 43.0, 6.0 => 53.0, 10.0 => 71.0, 16.0 => 91.0, 25.0 => 116.0, 35.0 => 139.0;

        /// 90 °C, two-core, in free air (reference method E).
        FREE_AIR_90: SquareMillimetres => Amps; BS_7671_2008 "Table 4E4A", "armoured 90 °C, two-core, capacity, method E (free air)";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 29.0, 2.5 => 39.0, 4.0 => 52.0, 6.0 => 66.0, 10.0 => 90.0, 16.0 => 115.0, 25.0 => 152.0, 35.0 => 188.0;

        /// 90 °C, two-core, voltage drop at 90 °C.
        DROP_90: SquareMillimetres => MillivoltsPerAmpMetre; BS_7671_2008 "Table 4E4B", "armoured 90 °C, two-core, voltage drop";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 31.0, 2.5 => 19.0, 4.0 => 12.0, 6.0 => 7.9, 10.0 => 4.7, 16.0 => 2.9, 25.0 => 1.90;

        /// 90 °C, three- or four-core, three-phase, clipped direct.
        THREE_PHASE_CLIPPED_90: SquareMillimetres => Amps; BS_7671_2008 "Table 4E4A", "armoured 90 °C, three-phase, capacity, method C";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 23.0, 2.5 => 31.0, 4.0 => 42.0, 6.0 => 53.0, 10.0 => 73.0, 16.0 => 94.0, 25.0 => 124.0, 35.0 => 154.0;

        /// 90 °C, three- or four-core, three-phase, in the ground.
        THREE_PHASE_BURIED_90: SquareMillimetres => Amps; BS_7671_2008 "Table 4E4A", "armoured 90 °C, three-phase, capacity, method D";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 21.0, 2.5 => 28.0, 4.0 => 36.0, 6.0 => 44.0, 10.0 => 58.0, 16.0 => 75.0, 25.0 => 96.0, 35.0 => 115.0;

        /// 90 °C, three- or four-core, three-phase, in free air.
        THREE_PHASE_FREE_AIR_90: SquareMillimetres => Amps; BS_7671_2008 "Table 4E4A", "armoured 90 °C, three-phase, capacity, method E";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 25.0, 2.5 => 33.0, 4.0 => 44.0, 6.0 => 56.0, 10.0 => 78.0, 16.0 => 99.0, 25.0 => 131.0, 35.0 => 162.0;

        /// 90 °C, three-phase, voltage drop between lines.
        THREE_PHASE_DROP_90: SquareMillimetres => MillivoltsPerAmpMetre; BS_7671_2008 "Table 4E4B", "armoured 90 °C, three-phase, voltage drop";
        Quoted, "\"SWA cables\", a UK cable distributor's technical page, whose name was not kept: an extract of the table, its columns separated again", also "a second public transcription, whose name was not kept";
        1.5 => 27.0, 2.5 => 16.0, 4.0 => 10.0, 6.0 => 6.8, 10.0 => 4.0, 16.0 => 2.5, 25.0 => 1.65, 35.0 => 1.15;

        /// Armour of two-core cable, resistance at 20 °C.
        ARMOUR_TWO_CORE: SquareMillimetres => MilliohmsPerMetre; LOCKE "Appendix 4 Table 4.4", "steel armour, two-core, resistance at 20 °C";
        Itself, "the copy read stops after 6 mm²";
        1.5 => 10.2, 2.5 => 8.8, 4.0 => 7.9, 6.0 => 7.0;

        /// The rows after [`ARMOUR_TWO_CORE`].
        ARMOUR_TWO_CORE_LARGER: SquareMillimetres => MilliohmsPerMetre; CABLES "", "steel armour, two-core, resistance at 20 °C, 10 to 25 mm²";
        FromMemory, "not seen (BS 5467 makers' data); agrees with the 6 mm² value scaled by the areas of armour";
        10.0 => 6.0, 16.0 => 3.7, 25.0 => 3.7;

        /// Armour of three-core cable, resistance at 20 °C.
        ARMOUR_THREE_CORE: SquareMillimetres => MilliohmsPerMetre; LOCKE "Appendix 4 Table 4.4", "steel armour, three-core, resistance at 20 °C";
        Itself, "the copy read stops after 6 mm²";
        1.5 => 9.5, 2.5 => 8.2, 4.0 => 7.5, 6.0 => 6.7;

        /// The rows after [`ARMOUR_THREE_CORE`].
        ARMOUR_THREE_CORE_LARGER: SquareMillimetres => MilliohmsPerMetre; CABLES "", "steel armour, three-core, resistance at 20 °C, 10 to 25 mm²";
        FromMemory, "not seen (BS 5467 makers' data)";
        10.0 => 4.0, 16.0 => 3.6, 25.0 => 2.5;

        /// Armour of two-core cable, cross-section.
        ARMOUR_AREA: SquareMillimetres => SquareMillimetres; CABLES "", "steel armour, two-core, cross-section";
        Quoted, "a cable distributor's data sheet for steel-wire-armoured cable, whose name was not kept, column of the armour's cross-section";
        1.5 => 15.0, 2.5 => 17.0, 4.0 => 19.0, 6.0 => 22.0, 10.0 => 26.0, 16.0 => 42.0, 25.0 => 42.0, 35.0 => 60.0;
    }
}
