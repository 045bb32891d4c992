//! The price of a job if everything unknown turns out well: "from £…".
//!
//! This is not the low end of the band, which counts on quick work too. Every group of decisions that rest on the same unsure facts is
//! taken at its cheapest plausible case, at usual times and prices: somebody whose home turns out so does pay this.

use super::groups::Group;
use super::moments::Cost;
use alloc::vec::Vec;

/// A case is plausible where at least this share of homes costs as little or less. Common practice, no source.
const PLAUSIBLE: f64 = 0.1;

/// The sum in pence, before VAT, of what every job has and of each group at its cheapest plausible case.
#[must_use]
pub fn if_all_turns_out_well(always: Cost, groups: &[Group]) -> f64 {
    always.likely + groups.iter().map(cheapest).sum::<f64>()
}

/// The cost of a group's cheapest plausible case at usual times and prices, in pence; zero where it has none.
fn cheapest(group: &Group) -> f64 {
    let weights = group.weights(|met| met.weight);
    let mut cases: Vec<(f64, f64)> = group.costs.iter().map(|cost| cost.likely).zip(weights).collect();
    cases.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    let whole: f64 = cases.iter().map(|(_, weight)| weight).sum();
    let mut reached = 0.0;
    let plausible = cases.iter().find(|(_, weight)| {
        reached += weight;
        // Weights that add up to a tenth may differ from it in the last bit.
        reached >= (PLAUSIBLE - 1e-9) * whole
    });
    plausible.map_or(0.0, |(cost, _)| *cost)
}
