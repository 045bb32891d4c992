//! Nominal voltage and the limits of voltage drop.

use crate::units::{Ratio, Volts};

/// Nominal voltage to earth of a public low-voltage supply. Source: BS 7671 and ESQCR 2002 regulation 27 (from memory).
pub const NOMINAL: Volts = Volts::of(230.0);

/// Voltage drop allowed from the origin for other than lighting, as a share of nominal.
/// Source: BS 7671 Appendix 4, Table 4Ab, as given in T. Linsley, *Basic Electrical Installation Work* (Newnes), p. 298: 5 %.
pub const DROP_ALLOWED: Ratio = Ratio::of(0.05);
