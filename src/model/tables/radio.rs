//! Radio inside a building, by the site-general model of ITU-R P.1238, and the losses of walls.

use super::about::tables;

tables! {
    columns {
        /// Loss a decade of distance, by kind of building: 1 residential, 2 office, 3 commercial.
        DISTANCE: Count => Decibels; ITU_P1238 "", "distance coefficient N: residential (1), office (2), commercial (3)";
        Quoted, "ns-3 Buildings module, design document (CTTC), citing P.1238";
        1 => 28.0, 2 => 30.0, 3 => 22.0;

        /// Loss of the first floor between, by kind of building.
        FIRST_FLOOR: Count => Decibels; ITU_P1238 "", "loss of the first floor: residential (1), office (2), commercial (3)";
        Quoted, "ns-3 Buildings module, design document (CTTC), citing P.1238";
        1 => 4.0, 2 => 15.0, 3 => 6.0;

        /// Loss of every further floor, by kind of building.
        FURTHER_FLOOR: Count => Decibels; ITU_P1238 "", "loss of every further floor: residential (1), office (2), commercial (3)";
        Quoted, "ns-3 Buildings module, design document (CTTC), citing P.1238";
        1 => 4.0, 2 => 4.0, 3 => 3.0;
    }
    figures {
        /// A wall of wood.
        WALL_WOOD / WALL_WOOD_TABLE: Decibels = 4.0; COST_231 "", "loss of a wall of wood";
        Quoted, "ns-3 Buildings module, design document (CTTC), from COST 231";

        /// A wall of concrete with windows, not metallised.
        WALL_WINDOWS / WALL_WINDOWS_TABLE: Decibels = 7.0; COST_231 "", "loss of an outside wall with windows";
        Quoted, "ns-3 Buildings module, design document (CTTC), from COST 231";

        /// A wall of concrete without windows (10 to 20 dB).
        WALL_CONCRETE / WALL_CONCRETE_TABLE: Decibels = 15.0; COST_231 "", "loss of a concrete wall without windows";
        Quoted, "ns-3 Buildings module, design document (CTTC), from COST 231";

        /// A wall of stone.
        WALL_STONE / WALL_STONE_TABLE: Decibels = 12.0; COST_231 "", "loss of a stone wall";
        Quoted, "ns-3 Buildings module, design document (CTTC), from COST 231";

        /// One inside wall.
        WALL_INSIDE / WALL_INSIDE_TABLE: Decibels = 5.0; NS_3 "", "loss of an inside wall";
        FromMemory, "not seen: the module's default";

        /// The most a 2.4 GHz router may send.
        SENT / SENT_TABLE: Level = 20.0; RADIO_PRACTICE "", "most that a 2.4 GHz router sends";
        FromMemory, "not seen";

        /// Good from here …
        GOOD / GOOD_TABLE: Level = -67.0; RADIO_PRACTICE "", "signal that is good from";
        Quoted, "survey practice pages, whose names were not kept (-67 dBm for voice or roaming)";

        /// … marginal from here, weak below.
        MARGINAL / MARGINAL_TABLE: Level = -75.0; RADIO_PRACTICE "", "signal that is marginal from, weak below";
        CommonPractice, "no source; it lies between the -70 and -80 dBm of a building-sensor maker's white paper, whose name was not kept";
    }
}
