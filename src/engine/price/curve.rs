//! The distribution of the price as a chart: how many of a thousand such jobs fall into each of some equal steps of price.
//!
//! Every figure here: this program's choice of steps.

use super::Curve;
use super::distribution::Total;
use alloc::vec::Vec;
use model::units::{Pence, Probability, Ratio};

/// The number of steps in a chart: as many as can be told apart on a phone's width.
const STEPS: u32 = 32;

/// Widths of a step that are round numbers to a person, in pence.
const ROUND: [i64; 9] = [100, 200, 500, 1_000, 2_000, 5_000, 10_000, 20_000, 50_000];

/// The chart from the 0.5 % to the 99.5 % quantile, with VAT; no job costs less than `least`.
#[must_use]
pub fn curve(total: &Total<'_>, least: Pence, vat: Ratio) -> Curve {
    let with_vat = 1.0 + vat.get();
    let end = |probability| total.quantile(Probability::of(probability)).max(least.as_f64()) * with_vat;
    let (low, high) = (end(0.005), end(0.995));
    let wanted = ((high - low) / f64::from(STEPS)) as i64;
    let step =
        Pence(ROUND.into_iter().find(|round| *round >= wanted).unwrap_or_else(|| Pence(wanted).up_to(Pence(50_000)).0));
    let from = Pence::rounded(low).down_to(step);
    let mut under = 0;
    let mut of_a_thousand: Vec<u16> = Vec::new();
    for at in 1..=i64::from(2 * STEPS) {
        let up_to = Pence(from.0 + at * step.0);
        // Jobs that would cost less than the least charge fall into the step that holds it.
        let before_vat = up_to.as_f64() / with_vat;
        let reached = if before_vat < least.as_f64() { 0.0 } else { total.at_most(before_vat) };
        // The count below each step's end is rounded, not the step's own, so that the steps add up to no more than all jobs.
        let below = (libm::round(reached.clamp(0.0, 1.0) * 1_000.0) as u16).max(under);
        of_a_thousand.push(below - under);
        under = below;
        if up_to.as_f64() >= high {
            break;
        }
    }
    Curve { from, step, of_a_thousand }
}
