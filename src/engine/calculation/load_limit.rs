//! The demand on the phase that the charge point uses, and the load limit that holds it.

use model::terms::Phases;
use model::units::{Amps, Ratio};

/// Share of a three-phase home's load that is taken to lie on the phase of the charge point: common practice, no source.
const ON_THE_FULLEST_PHASE: Ratio = Ratio::of(0.5);

/// The part of a home's load that is taken to lie on the charge point's phase: all of it, or `ON_THE_FULLEST_PHASE` on three phases.
#[must_use]
pub fn on_the_fullest_phase(existing: Amps, phases: Phases) -> Amps {
    if phases == Phases::Three { existing * ON_THE_FULLEST_PHASE } else { existing }
}

/// Maximum demand on the charge point's phase, and the setting of the load limit; `None` where no limit is needed or there is no load
/// sensing.
///
/// Load sensing lets the full current through while there is room, and pauses otherwise, so it stays in the design however large the home's
/// own demand is. The demand is then home and charge point together, but no more than the setting, and never less than the home alone.
/// `setting` is the limit that the operator set, or else the threshold for notifying afterwards; the main fuse where that is less.
///
/// Source: BS 7671 722.311.201 (load control may be counted), seen in a training summary of amendment 1.
#[must_use]
pub fn held(existing: Amps, current: Amps, setting: Amps, load_sensing: bool) -> (Amps, Option<Amps>) {
    let full = existing + current;
    if load_sensing && full > setting { (full.min(setting).max(existing), Some(setting)) } else { (full, None) }
}
