//! What surrounds a cable along each kind of stretch, until the installer has looked.

use super::about::tables;

tables! {
    figures {
        /// Air indoors.
        INDOORS / INDOORS_TABLE: Celsius = 30.0; BS_7671_1992_AIR "Table 4B1", "ambient air indoors: the tables' reference";
        Quoted, "a revision summary on a document-sharing site, whose name was not kept, that reproduces the 16th edition's tables (Table 4.3: factor 1.00 at 30 °C)";

        /// Air in a loft, or under a floor: warmer than a room under a sunny roof.
        LOFT / LOFT_TABLE: Celsius = 35.0; PRACTICE "", "ambient air in a loft or under a floor";
        CommonPractice, "no source";

        /// Air outdoors: as the tables' reference; a wall in full sun is for the installer to see.
        OUTDOORS / OUTDOORS_TABLE: Celsius = 30.0; PRACTICE "", "ambient air outdoors";
        CommonPractice, "no source";

        /// The ground.
        GROUND / GROUND_TABLE: Celsius = 20.0; BS_7671_UNSAID "Table 4B2", "ground temperature: the tables' reference";
        Quoted, "a public transcription of the table, whose name was not kept (factor 1.00 at 20 °C)";

        /// Insulation that lies around the cable where it passes a wall, in a hole of its own.
        CAVITY / CAVITY_TABLE: Metres = 0.05; PRACTICE "", "insulation in a wall that the cable passes";
        CommonPractice, "no source";
    }
}
