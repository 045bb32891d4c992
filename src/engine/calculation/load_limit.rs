//! The demand on the phase that counts, with a load limit that holds it.

use model::terms::Phases;
use model::units::{Amps, Ratio};

/// Share of a three-phase home's load that is taken to lie on the phase of the charge point: common practice, no source.
const ON_THE_FULLEST_PHASE: Ratio = Ratio::of(0.5);

/// What of a home's load lies on the phase that counts: the charge point's.
#[must_use]
pub fn on_the_fullest_phase(existing: Amps, phases: Phases) -> Amps {
    if phases == Phases::Three { existing * ON_THE_FULLEST_PHASE } else { existing }
}

/// Maximum demand on the phase that counts, and the setting of the load limit, where one has to hold it.
///
/// A limit that works by pausing lets the full current through while there is room and stays in the design however large the home's own
/// demand is. With it the demand is the lesser of home and charge point together and the setting, never less than the home alone.
/// It is set at what the operator allowed, or else at the threshold for telling afterwards; at the main fuse where that is less.
///
/// Source: BS 7671 722.311.201 (load control may be counted), seen in a training summary of amendment 1.
#[must_use]
pub fn held(existing: Amps, current: Amps, setting: Amps, load_sensing: bool) -> (Amps, Option<Amps>) {
    let full = existing + current;
    if load_sensing && full > setting { (full.min(setting).max(existing), Some(setting)) } else { (full, None) }
}
