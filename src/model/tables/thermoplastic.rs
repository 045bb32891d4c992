//! Unarmoured 70 °C thermoplastic cable, two loaded conductors, ambient 30 °C: multicore, and single-core for tails and conduit.

use super::about::tables;

tables! {
    columns {
        /// Multicore in conduit in an insulated wall (reference method A).
        MULTICORE_A: SquareMillimetres => Amps; BS_7671_BY_IEC "Table 4D2A", "multicore 70 °C, two-core, capacity, method A";
        Quoted, "IEC 60364-5-52 Table B.52.2, column A2, in a public copy, whose name was not kept: the same values";
        4.0 => 25.0, 6.0 => 32.0, 10.0 => 43.0, 16.0 => 57.0, 25.0 => 75.0;

        /// Multicore in conduit on a wall (reference method B).
        MULTICORE_B: SquareMillimetres => Amps; BS_7671_BY_IEC "Table 4D2A", "multicore 70 °C, two-core, capacity, method B";
        Quoted, "IEC 60364-5-52 Table B.52.2, column B2, in a public copy, whose name was not kept: the same values";
        4.0 => 30.0, 6.0 => 38.0, 10.0 => 52.0, 16.0 => 69.0, 25.0 => 90.0;

        /// Multicore clipped direct (reference method C).
        MULTICORE_C: SquareMillimetres => Amps; BS_7671_BY_IEC "Table 4D2A", "multicore 70 °C, two-core, capacity, method C";
        Quoted, "IEC 60364-5-52 Table B.52.2, column C, in a public copy, whose name was not kept: the same values", also "the IET's forum (EngX), thread 'It and Iz'" of 4.0 | 6.0;
        4.0 => 36.0, 6.0 => 46.0, 10.0 => 63.0, 16.0 => 85.0, 25.0 => 112.0;

        /// Multicore in free air (reference method E).
        MULTICORE_E: SquareMillimetres => Amps; BS_7671 "Table 4D2A", "multicore 70 °C, two-core, capacity, method E";
        FromMemory, "not seen";
        4.0 => 40.0, 6.0 => 51.0, 10.0 => 70.0, 16.0 => 94.0, 25.0 => 119.0;

        /// Two single-core cables in conduit in an insulated wall (reference method A).
        SINGLE_A: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D1A", "single-core 70 °C, two cables, capacity, method A";
        Quoted, "a copy of Appendix 4 Table 4D1A on a document-sharing site, 'Cable Size', whose writer's name was not kept";
        4.0 => 26.0, 6.0 => 34.0, 10.0 => 46.0, 16.0 => 61.0, 25.0 => 80.0, 35.0 => 99.0;

        /// Two single-core cables in conduit on a wall (reference method B).
        SINGLE_B: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D1A", "single-core 70 °C, two cables, capacity, method B";
        Quoted, "a copy of Appendix 4 Table 4D1A on a document-sharing site, 'Cable Size', whose writer's name was not kept";
        4.0 => 32.0, 6.0 => 41.0, 10.0 => 57.0, 16.0 => 76.0, 25.0 => 101.0, 35.0 => 125.0;

        /// Two single-core cables clipped direct (reference method C).
        SINGLE_C: SquareMillimetres => Amps; BS_7671_UNSAID "Table 4D1A", "single-core 70 °C, two cables, capacity, method C";
        Quoted, "a copy of Appendix 4 Table 4D1A on a document-sharing site, 'Cable Size', whose writer's name was not kept";
        4.0 => 37.0, 6.0 => 47.0, 10.0 => 65.0, 16.0 => 87.0, 25.0 => 114.0, 35.0 => 141.0;

        /// Voltage drop at 70 °C, multicore or single-core. (The multicore table ends at 25 mm².)
        DROP: SquareMillimetres => MillivoltsPerAmpMetre; BS_7671_UNSAID "Tables 4D1B and 4D2B", "70 °C, single-phase, voltage drop";
        Quoted, "a UK wholesaler's printed catalogue 2025/26, whose name was not kept, p. 489";
        4.0 => 11.0, 6.0 => 7.3, 10.0 => 4.4, 16.0 => 2.8, 25.0 => 1.75, 35.0 => 1.25;
    }
}
