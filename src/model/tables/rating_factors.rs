//! Factors by which a cable's surroundings reduce its tabulated capacity.
//!
//! Between two rows the cautious one is taken: the warmer temperature, the greater length in insulation, the drier soil.

use super::about::tables;

tables! {
    columns {
        /// Ambient air, 70 °C thermoplastic; reference 30 °C.
        AIR_70: Celsius => Ratio; BS_7671_1992_AIR "Table 4B1", "factor for ambient air, 70 °C thermoplastic";
        Quoted, "a revision summary on a document-sharing site, whose name was not kept, that reproduces the 16th edition's tables (Table 4.3)", also "35 °C T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 301; 40 °C the IET's forum (EngX), thread 'It and Iz'" of 35.0 | 40.0;
        25.0 => 1.03, 30.0 => 1.00, 35.0 => 0.94, 40.0 => 0.87, 45.0 => 0.79, 50.0 => 0.71, 55.0 => 0.61;

        /// Ambient air, 90 °C thermosetting; reference 30 °C.
        AIR_90: Celsius => Ratio; BS_7671 "Table 4B1", "factor for ambient air, 90 °C thermosetting";
        FromMemory, "not seen";
        25.0 => 1.02, 30.0 => 1.00, 35.0 => 0.96, 40.0 => 0.91, 45.0 => 0.87, 50.0 => 0.82, 55.0 => 0.76;

        /// Ground, 70 °C thermoplastic; reference 20 °C.
        GROUND_70: Celsius => Ratio; BS_7671_UNSAID "Table 4B2", "factor for ground temperature, 70 °C thermoplastic";
        Quoted, "a public transcription of the table, whose name was not kept";
        10.0 => 1.10, 15.0 => 1.05, 20.0 => 1.00, 25.0 => 0.95;

        /// Ground, 90 °C thermosetting; reference 20 °C.
        GROUND_90: Celsius => Ratio; BS_7671_UNSAID "Table 4B2", "factor for ground temperature, 90 °C thermosetting";
        Quoted, "a public transcription of the table, whose name was not kept";
        10.0 => 1.07, 15.0 => 1.04, 20.0 => 1.00, 25.0 => 0.96;

        /// Thermal resistivity of the soil, cable in a duct; reference 2.5 K·m/W.
        SOIL_DUCT: SoilResistivity => Ratio; BS_7671_BY_IEC "Table 4B3", "factor for soil, cable in a duct";
        Quoted, "IEC 60364-5-52 Table B.52.16 in a public copy, whose name was not kept";
        1.0 => 1.18, 1.5 => 1.10, 2.0 => 1.05, 2.5 => 1.00, 3.0 => 0.96;

        /// Thermal resistivity of the soil, cable buried direct; reference 2.5 K·m/W.
        SOIL_DIRECT: SoilResistivity => Ratio; BS_7671 "Table 4B3", "factor for soil, cable buried direct";
        FromMemory, "not seen";
        1.0 => 1.50, 1.5 => 1.28, 2.0 => 1.12, 2.5 => 1.00, 3.0 => 0.90;

        /// Circuits bunched, enclosed or embedded.
        GROUPED_BUNCHED: Count => Ratio; BS_7671_1992_GROUPED "Table 4C1", "factor for grouping, bunched, enclosed or embedded";
        Quoted, "a revision summary on a document-sharing site, whose name was not kept, that reproduces the 16th edition's tables (Table 4.4); its column of numbers was lost there and restored by what is remembered";
        1 => 1.00, 2 => 0.80, 3 => 0.70, 4 => 0.65, 5 => 0.60, 6 => 0.57, 7 => 0.54, 8 => 0.52, 9 => 0.50;

        /// Circuits in a single layer on a wall or floor, touching.
        GROUPED_TOUCHING: Count => Ratio; BS_7671_1992_GROUPED "Table 4C1", "factor for grouping, single layer, touching";
        Quoted, "a revision summary on a document-sharing site, whose name was not kept, that reproduces the 16th edition's tables (Table 4.4); its column of numbers was lost there and restored by what is remembered";
        1 => 1.00, 2 => 0.85, 3 => 0.79, 4 => 0.75, 5 => 0.73, 6 => 0.72, 7 => 0.72, 8 => 0.71, 9 => 0.70;

        /// Circuits in a single layer, one diameter apart.
        GROUPED_SPACED: Count => Ratio; BS_7671_1992_GROUPED "Table 4C1", "factor for grouping, single layer, one diameter apart";
        Quoted, "a revision summary on a document-sharing site, whose name was not kept, that reproduces the 16th edition's tables (Table 4.4); its column of numbers was lost there and restored by what is remembered";
        1 => 1.00, 2 => 0.94, 3 => 0.90, 4 => 0.90, 5 => 0.90, 6 => 0.90, 7 => 0.90, 8 => 0.90, 9 => 0.90;

        /// Cables buried direct, touching.
        BURIED_TOUCHING: Count => Ratio; BS_7671 "Table 4C2", "factor for grouping, buried direct, touching";
        FromMemory, "not seen";
        1 => 1.00, 2 => 0.75, 3 => 0.65, 4 => 0.60;

        /// Cables buried direct, 0.25 m apart.
        BURIED_APART: Count => Ratio; BS_7671 "Table 4C2", "factor for grouping, buried direct, 0.25 m apart";
        FromMemory, "not seen";
        1 => 1.00, 2 => 0.90, 3 => 0.80, 4 => 0.75;

        /// Ducts touching.
        DUCTS_TOUCHING: Count => Ratio; BS_7671 "Table 4C3", "factor for grouping, ducts touching";
        FromMemory, "not seen";
        1 => 1.00, 2 => 0.85, 3 => 0.75, 4 => 0.70;

        /// Length totally surrounded by insulation, times method C. (The 16th edition's 0.89, 0.81, 0.68, 0.55 are not used.)
        INSULATION: Metres => Ratio; BS_7671_UNSAID "Table 52.2", "factor for a length in thermal insulation";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept, citing the table";
        0.0 => 1.00, 0.05 => 0.88, 0.1 => 0.78, 0.2 => 0.63, 0.4 => 0.51;
    }
    figures {
        /// Totally surrounded for 0.5 m or more, times method C.
        INSULATION_LONG / INSULATION_LONG_TABLE: Ratio = 0.5; BS_7671_UNSAID "Table 52.2", "factor for 0.5 m or more in thermal insulation";
        Quoted, "an electrician course's formula sheet in a public repository, whose name was not kept, citing the table; its regulation, 523.9, is from memory";

        /// A buried cable that must be protected against overload.
        BURIED_OVERLOAD / BURIED_OVERLOAD_TABLE: Ratio = 0.9; BS_7671 "Appendix 4, 5.1.1", "factor for a buried cable protected against overload";
        FromMemory, "not seen";

        /// Protected by a semi-enclosed fuse to BS 3036.
        FUSE_WIRE / FUSE_WIRE_TABLE: Ratio = 0.725; BS_7671_1992_UNNUMBERED "Appendix 4, 5.1.1", "factor for a semi-enclosed fuse";
        Quoted, "a revision summary on a document-sharing site, whose name was not kept, that reproduces the 16th edition's tables";
    }
}
