//! Maximum demand of a dwelling after diversity, from its circuits or its devices.
//!
//! Sources: the allowances of [`model::tables::diversity`]. Device ratings overstate the demand; the current that devices take in use is
//! the better basis (SELECT, answer to a reader's question). Which of the two is given is for the caller to say.

use model::tables::diversity as table;
use model::units::{Amps, Ratio};

/// The connected load, by the lines of the allowances.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Connected<'a> {
    /// Lighting, in all.
    pub lighting: Amps,
    /// Heating and power that no other line names, in all.
    pub heating_and_power: Amps,
    /// Each cooking appliance or its circuit, and whether its control unit has a socket-outlet.
    pub cooking: &'a [(Amps, bool)],
    /// Each instantaneous shower or water heater.
    pub showers: &'a [Amps],
    /// Thermostatic water heaters, floor warming and thermal storage, in all.
    pub in_full: Amps,
    /// Each standard circuit of socket-outlets, or socket-outlets and stationary equipment otherwise fed.
    pub socket_circuits: &'a [Amps],
    /// Charge points at their full current (BS 7671 722.311.201).
    pub charge_points: Amps,
}

/// Each line after diversity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AfterDiversity {
    /// Name of each line, and its demand after diversity.
    pub lines: [(&'static str, Amps); 7],
}

impl AfterDiversity {
    /// The sum.
    #[must_use]
    pub fn total(&self) -> Amps {
        self.lines.iter().map(|(_, amps)| *amps).sum()
    }
}

/// Applies the allowances to every line.
#[must_use]
pub fn after_diversity(connected: &Connected<'_>) -> AfterDiversity {
    AfterDiversity {
        lines: [
            ("lighting", connected.lighting * table::LIGHTING),
            ("socket circuits", largest_and_share(connected.socket_circuits, 1, table::FURTHER_SOCKET_CIRCUIT)),
            ("heating and power", heating_and_power(connected.heating_and_power)),
            ("cooking", connected.cooking.iter().map(|(amps, socket)| cooking(*amps, *socket)).sum()),
            ("showers", showers(connected.showers)),
            ("in full", connected.in_full),
            ("charge points", connected.charge_points),
        ],
    }
}

/// Demand of cooking: a part in full, a share of the rest, and an addition for a socket-outlet in the control unit.
#[must_use]
pub fn cooking(connected: Amps, socket: bool) -> Amps {
    let rest = connected.above(table::COOKING_IN_FULL) * table::COOKING_REST;
    connected.min(table::COOKING_IN_FULL) + rest + if socket { table::COOKING_SOCKET } else { Amps::ZERO }
}

/// Demand of heating and power: a part in full, and a share of the rest.
#[must_use]
pub fn heating_and_power(connected: Amps) -> Amps {
    connected.min(table::HEATING_IN_FULL) + connected.above(table::HEATING_IN_FULL) * table::HEATING_REST
}

/// Demand of showers: the two largest in full, a share of every other.
#[must_use]
pub fn showers(each: &[Amps]) -> Amps {
    largest_and_share(each, 2, table::FURTHER_SHOWER)
}

/// The sum of the `full` largest, and a share of every other. Allocates nothing.
fn largest_and_share(each: &[Amps], full: usize, share: Ratio) -> Amps {
    let mut sum = Amps::ZERO;
    for (at, amps) in each.iter().enumerate() {
        // How many come before it by size: larger ones, and equal ones that stand earlier in the list.
        let before =
            each.iter().enumerate().filter(|(other, more)| *more > amps || (*more == amps && *other < at)).count();
        sum = sum + if before < full { *amps } else { *amps * share };
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::vec::Vec;
    use proptest::prelude::*;

    #[test]
    fn the_largest_are_found_wherever_they_stand() {
        let amps = |each: &[f64]| each.iter().map(|amps| Amps::of(*amps)).collect::<Vec<_>>();
        for each in [[40.0, 30.0, 20.0], [20.0, 30.0, 40.0], [30.0, 20.0, 40.0]] {
            assert_eq!(showers(&amps(&each)), Amps::of(75.0));
        }
        assert_eq!(showers(&amps(&[40.0, 40.0, 40.0])), Amps::of(90.0), "equal ones count once each");
        assert_eq!(showers(&[]), Amps::ZERO);
    }

    proptest! {
        #[test]
        fn more_load_never_draws_less(each in prop::collection::vec(0.0..60.0_f64, 0..6), more in 0.0..60.0_f64, at in 0..6_usize) {
            let amps = |each: &[f64]| each.iter().map(|amps| Amps::of(*amps)).collect::<Vec<_>>();
            let total = |each: &[f64]| {
                let all = amps(each);
                let cooking: Vec<_> = all.iter().map(|amps| (*amps, false)).collect();
                let sum: Amps = all.iter().copied().sum();
                after_diversity(&Connected { lighting: sum, heating_and_power: sum, cooking: &cooking, showers: &all, in_full: sum,
                    socket_circuits: &all, charge_points: sum }).total()
            };
            let mut larger = each.clone();
            match larger.get_mut(at) {
                Some(one) => *one += more,
                None => larger.push(more),
            }
            prop_assert!(total(&larger).get() >= total(&each).get() - 1e-9);
        }
    }
}
