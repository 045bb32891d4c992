//! What makes a protective device disconnect.

use crate::units::{Amps, Ratio, Volts};

/// Least factor of the supply voltage. Source: BS 7671 regulation 411.4.4 (from memory).
pub const C_MIN: Ratio = Ratio::of(0.95);

/// Multiple of its rating at which a Type B circuit breaker disconnects at once. Source: BS EN 60898-1 (from memory).
pub const TYPE_B: Ratio = Ratio::of(5.0);

/// Touch voltage limit of a residual-current device's circuit. Source: BS 7671 regulation 411.5.3 (from memory).
pub const TOUCH_LIMIT: Volts = Volts::of(50.0);

/// Residual operating current of the device that protects a charge point.
/// Source: BS 7671 regulation 722.531.3.101 (30 mA at most), seen in a trade journal's technical column.
pub const RESIDUAL: Amps = Amps::of(0.03);
