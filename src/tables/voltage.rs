//! Nominal voltage and the limits of voltage drop.

use super::about::tables;

tables! {
    figures {
        /// Nominal voltage to earth of a public low-voltage supply.
        NOMINAL / NOMINAL_TABLE: Volts = 230.0; ESQCR "regulation 27", "nominal voltage to earth";
        FromMemory, "not seen; every source seen works with it";

        /// Voltage drop allowed from the origin for other than lighting, as a share of nominal.
        DROP_ALLOWED / DROP_ALLOWED_TABLE: Ratio = 0.05; BS_7671 "Table 4Ab", "voltage drop allowed, other than lighting";
        Seen, "T. Linsley, Basic Electrical Installation Work (Newnes), p. 298 and 302";
    }
}
