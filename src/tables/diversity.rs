//! Allowances for diversity in a single dwelling.
//!
//! Source of every row: IET *On-Site Guide* Appendix A; seen as J. Whitfield, *The Electricians Guide*, 5th ed. (EPA Press), Table 6.2.

use crate::units::{Amps, Ratio};

/// Lighting: this share of the total.
pub const LIGHTING: Ratio = Ratio::of(0.66);
/// Cooking: this much in full …
pub const COOKING_IN_FULL: Amps = Amps::of(10.0);
/// … this share of the rest …
pub const COOKING_REST: Ratio = Ratio::of(0.3);
/// … and this much where the control unit has a socket-outlet.
pub const COOKING_SOCKET: Amps = Amps::of(5.0);
/// Instantaneous showers: the two largest in full, this share of every other.
pub const FURTHER_SHOWER: Ratio = Ratio::of(0.25);
/// Standard circuits of socket-outlets: the largest in full, this share of every other.
pub const FURTHER_SOCKET_CIRCUIT: Ratio = Ratio::of(0.4);
