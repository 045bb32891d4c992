//! The external earth fault loop impedance that network operators declare: never guaranteed, so it is measured before energising.

use super::about::tables;

tables! {
    figures {
        /// TN-C-S.
        TN_C_S / TN_C_S_TABLE: Ohms = 0.35; ENA "ER P23/1:1991", "declared external impedance, TN-C-S";
        Quoted, "IET Wiring Matters 72 (2018), Table 1; P23/2:2018 has replaced P23/1";

        /// TN-S.
        TN_S / TN_S_TABLE: Ohms = 0.8; ENA "ER P23/1:1991", "declared external impedance, TN-S";
        Quoted, "IET Wiring Matters 72 (2018), Table 1; P23/2:2018 has replaced P23/1";

        /// TT, the consumer's own electrode excluded.
        TT / TT_TABLE: Ohms = 21.0; ENA "ER P23/1:1991", "declared external impedance, TT, without the consumer's electrode";
        Quoted, "IET Wiring Matters 72 (2018), Table 1; P23/2:2018 has replaced P23/1";
    }
}
