//! Voltage drop of one stretch, and the length or size that a limit on it allows.

use super::capacity::Factors;
use model::config::Config;
use model::tables::voltage::{DROP_ALLOWED, NOMINAL, SUPPLY_LEAST, WINDOW_OPENS};
use model::units::{Amps, Celsius, Metres, MillivoltsPerAmpMetre, Ratio, Volts};

/// Voltage drop: tabulated drop × design current × length, one way.
///
/// * `drop`: of the cable, mV/A/m at full conductor temperature; `ib`: design current; `length`: one way.
/// # Source
/// BS 7671 Appendix 4, section 6; worked in T. Linsley, *Basic Electrical Installation Work* (Newnes, edition not kept), p. 302.
#[must_use]
pub fn voltage_drop(drop: MillivoltsPerAmpMetre, ib: Amps, length: Metres) -> Volts {
    drop * ib * length
}

/// The longest run whose drop is within a limit.
#[must_use]
pub fn longest(allowed: Volts, drop: MillivoltsPerAmpMetre, ib: Amps) -> Metres {
    allowed.drops_over(drop, ib)
}

/// The greatest tabulated drop of a cable that keeps this length within a limit.
#[must_use]
pub fn most_per_amp_metre(allowed: Volts, ib: Amps, length: Metres) -> MillivoltsPerAmpMetre {
    allowed.per_amp_metre(ib, length)
}

/// Factor for a conductor that is cooler than tabulated because it carries less than it may, Ct:
/// (230 + tp − (Ca²Cg² − Ib²/It²)(tp − 30)) / (230 + tp). Never above one.
///
/// * `bears`: tp, what the insulation bears at full load; `it`: tabulated capacity.
/// # Source
/// BS 7671 Appendix 4, section 6.1, from memory: so a size is never chosen by it, and it is only shown beside the plain drop.
#[must_use]
pub fn reduced_load(ib: Amps, it: Amps, factors: &Factors, bears: Celsius) -> Ratio {
    let tp = bears.get();
    let surroundings = (factors.ambient * factors.grouping).squared().get();
    let load = ib.share_of(it).squared().get();
    let factor = (230.0 + tp - (surroundings - load) * (tp - 30.0)) / (230.0 + tp);
    Ratio::new(factor).unwrap_or(Ratio::of(1.0)).min(Ratio::of(1.0))
}

/// The voltage drop allowed from the origin to the charge point, by the config; less where the charge point senses a broken neutral by a
/// voltage window (`window`).
#[must_use]
pub fn allowed_by(config: &Config, window: bool) -> Volts {
    let own = NOMINAL * config.thresholds.voltage_drop.min(DROP_ALLOWED);
    if window { own.min(SUPPLY_LEAST.above(WINDOW_OPENS)) } else { own }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At full load in the reference surroundings the conductor is at its full temperature, and the factor is one by definition.
    #[test]
    fn at_full_load_nothing_is_taken_off() {
        let full = Amps::of(47.0);
        assert_eq!(reduced_load(full, full, &Factors::REFERENCE, Celsius::of(70.0)), Ratio::of(1.0));
        let half = reduced_load(Amps::of(23.5), full, &Factors::REFERENCE, Celsius::of(70.0));
        assert!((half.get() - 0.9).abs() < 1e-12, "(300 − 0.75 × 40) / 300");
    }
}
