//! Declared external earth fault loop impedance.

use crate::units::Ohms;

/// TN-C-S. Source: IET *Wiring Matters* 72 (2018), Table 1, from ENA ER P23/1:1991; never guaranteed, measured before energising.
pub const TN_C_S: Ohms = Ohms::of(0.35);
/// TN-S. Source: as above.
pub const TN_S: Ohms = Ohms::of(0.8);
/// TT, the consumer's own electrode excluded. Source: as above.
pub const TT: Ohms = Ohms::of(21.0);
