//! What a job costs if all that is unknown turns out well: "from £…".
//!
//! Not the low end of the band, which counts on quick work as well. Every group of decisions that rest on the same unsure facts is taken
//! at its cheapest plausible case, and that case at usual times and prices: what somebody whose home turns out so does pay.

use super::groups::Group;
use super::moments::Cost;
use alloc::vec::Vec;

/// A case counts as plausible where at least one home in ten is as cheap as that or cheaper. Common practice, no source.
const PLAUSIBLE: f64 = 0.1;

/// The sum in pence, before VAT, of what every job has and of each group at its cheapest plausible case.
#[must_use]
pub fn if_all_turns_out_well(always: Cost, groups: &[Group]) -> f64 {
    always.likely + groups.iter().map(cheapest).sum::<f64>()
}

/// A group's cheapest plausible case at usual times and prices; nothing where it has none.
fn cheapest(group: &Group) -> f64 {
    let weights = group.weights(|met| met.weight);
    let mut cases: Vec<(f64, f64)> = group.costs.iter().map(|cost| cost.likely).zip(weights).collect();
    cases.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    let whole: f64 = cases.iter().map(|(_, weight)| weight).sum();
    let mut reached = 0.0;
    let plausible = cases.iter().find(|(_, weight)| {
        reached += weight;
        // Weights that add up to a tenth may miss it by the last bit.
        reached >= (PLAUSIBLE - 1e-9) * whole
    });
    plausible.map_or(0.0, |(cost, _)| *cost)
}
