//! Nominal voltage and the limits of voltage drop.

use super::about::tables;

tables! {
    figures {
        /// Nominal voltage to earth of a public low-voltage supply.
        NOMINAL / NOMINAL_TABLE: Volts = 230.0; ESQCR "regulation 27", "nominal voltage to earth";
        FromMemory, "not seen; every source seen works with it";

        /// Voltage drop allowed from the origin for other than lighting, as a share of nominal.
        DROP_ALLOWED / DROP_ALLOWED_TABLE: Ratio = 0.05; BS_7671_UNSAID "Table 4Ab", "voltage drop allowed, other than lighting";
        Quoted, "T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 298 and 302";

        /// The lowest lawful voltage of a public supply: 230 V less 6 %.
        SUPPLY_LEAST / SUPPLY_LEAST_TABLE: Volts = 216.2; ESQCR "regulation 27", "lowest lawful voltage of a supply";
        FromMemory, "not seen; 230 V + 10 % − 6 %";

        /// Below this a device that watches the voltage disconnects, as for a broken supply neutral.
        WINDOW_OPENS / WINDOW_OPENS_TABLE: Volts = 207.0; BS_7671_2020 "722.411.4.1 (iv)", "voltage under which a voltage window opens";
        Quoted, "a charge point maker's manual quoting the limits, whose name was not kept", also "several pages quoting the regulation, whose names were not kept";

        /// The same over this.
        WINDOW_OPENS_OVER / WINDOW_OPENS_OVER_TABLE: Volts = 253.0; BS_7671_2020 "722.411.4.1 (iv)", "voltage over which a voltage window opens";
        Quoted, "a charge point maker's manual quoting the limits, whose name was not kept";

        /// How soon it opens.
        WINDOW_WITHIN / WINDOW_WITHIN_TABLE: Seconds = 5.0; BS_7671 "722.411.4.1 (iv)", "time within which a voltage window opens";
        FromMemory, "not seen";

        /// Over this to earth a device that watches the protective conductor disconnects.
        TO_EARTH / TO_EARTH_TABLE: Volts = 70.0; BS_7671_UNSAID "722.411.4.1 (iii)", "voltage to earth over which a device against a broken combined conductor opens";
        Quoted, "an equipment maker quoting the regulation, whose name was not kept";

        /// How soon it opens.
        TO_EARTH_WITHIN / TO_EARTH_WITHIN_TABLE: Seconds = 5.0; BS_7671_UNSAID "722.411.4.1 (iii)", "time within which a device against a broken combined conductor opens";
        Quoted, "an equipment maker quoting the regulation, whose name was not kept";
    }
}
