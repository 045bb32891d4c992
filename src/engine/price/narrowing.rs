//! By how much the band would be expected to narrow if an unsure fact were known.
//!
//! This is worked out from conditional distributions: for each value of the fact, the cases of its group are weighted by the probability
//! that they have once the fact has that value, and the band of that total is taken. Knowing a fact never raises the expected variance (the
//! law of total variance). The expected width of the band may grow a little: where half of the jobs are dug and half are not, the ends of
//! both bands may lie farther apart than those of the mixture. Then the figure is negative.

use super::distribution::{LABOUR_FACTORS, Part, Total, cases, product};
use super::groups::Group;
use super::moments::{Cost, Mixing, Moments};
use super::standard_normal::StandardNormal;
use crate::site::case::EvaluatedCase;
use crate::site::{FactId, Site};
use alloc::vec::Vec;
use model::units::{Pence, Ratio};

/// How much knowing one fact would narrow the band.
#[derive(Clone, Debug, PartialEq)]
pub struct Narrowing {
    /// The fact.
    pub fact: FactId,
    /// By how much the stretch from 10 % to 90 % is expected to shrink, before VAT; negative where it would grow.
    pub by: Pence,
    /// The share of the price's variance that goes with the fact.
    pub explains: Ratio,
    /// The band, before VAT, at each of the fact's values, in their order: 10 % and 90 %.
    pub bands: Vec<[Pence; 2]>,
}

/// The most cases kept of everything else and, in the next line, of the fact's own group: enough for a ranking in whole pounds (this
/// program's choice).
const REST: usize = 14;
const OWN: usize = 14; // this program's choice

/// The accuracy of a band's ends, in pence: this program's choice.
const WITHIN: f64 = 10.0;

/// Every unsure fact that the price rests on, the one that narrows most first. No total is less than `least`.
#[must_use]
pub fn narrowings(
    site: &Site,
    always: Cost,
    groups: &[Group],
    least: Pence,
    standard: &StandardNormal,
) -> Vec<Narrowing> {
    let own: Vec<[Vec<Part>; 3]> =
        groups.iter().map(|group| LABOUR_FACTORS.map(|(_, labour_factor)| cases(group, labour_factor, REST))).collect();
    let mut all = Vec::new();
    for (at, group) in groups.iter().enumerate().filter(|(_, group)| !group.rests_on.is_empty()) {
        let rest = LABOUR_FACTORS.iter().enumerate().map(|(place, (weight, labour_factor))| {
            let others = own.iter().enumerate().filter(|(other, _)| *other != at);
            let always = Part { weight: *weight, cost: always.whole(*labour_factor) };
            product(always, others.map(|(_, cases)| cases[place].clone()), REST)
        });
        let rest: Vec<Vec<Part>> = rest.collect();
        let lots = LABOUR_FACTORS.map(|(_, labour_factor)| Lots::of(group, labour_factor));
        let mut parts: Vec<Part> = Vec::new();
        let mut band = |weigh: &dyn Fn(&EvaluatedCase) -> f64| {
            let weights = group.weights(weigh);
            parts.clear();
            for (rest, lots) in rest.iter().zip(&lots) {
                for own in lots.weighed(&weights) {
                    parts.extend(
                        rest.iter()
                            .map(|part| Part { weight: part.weight * own.weight, cost: part.cost.plus(own.cost) }),
                    );
                }
            }
            let total = Total::of_parts(&parts, standard);
            let end = |probability| total.search(probability, WITHIN).max(least.as_f64());
            // The ends of a band: this program's choice.
            ([end(0.1), end(0.9)], total.moments().variance())
        };
        let ([low, high], variance) = band(&|evaluated| evaluated.weight);
        for fact in group.rests_on.iter() {
            let known: Vec<(f64, [f64; 2], f64)> = (0..site.count(fact))
                .map(|value| {
                    let weight = site.weight(fact, value).get();
                    let (ends, variance) = band(&|evaluated| given(evaluated, fact, value, weight));
                    (weight, ends, variance)
                })
                .collect();
            let width: f64 = known.iter().map(|(weight, [low, high], _)| weight * (high - low)).sum();
            let left: f64 = known.iter().map(|(weight, _, variance)| weight * variance).sum();
            let explains = if variance > 0.0 { (1.0 - left / variance).clamp(0.0, 1.0) } else { 0.0 };
            all.push(Narrowing {
                fact,
                by: Pence::rounded(high - low - width),
                explains: Ratio::new(libm::round(explains * 1_000.0) / 1_000.0).unwrap_or(Ratio::ZERO),
                bands: known.iter().map(|(_, ends, _)| ends.map(Pence::rounded)).collect(),
            });
        }
    }
    all.sort_by(|a, b| b.by.cmp(&a.by).then(a.fact.cmp(&b.fact)));
    all
}

/// A group's costs divided once into lots of nearly equal costs. The moments of a lot are then worked out exactly for any weights.
struct Lots {
    /// Each cost of the group, with the index of its lot.
    costs: Vec<(usize, Moments)>,
    count: usize,
}

impl Lots {
    fn of(group: &Group, labour_factor: Ratio) -> Self {
        let costs: Vec<Moments> = group.costs.iter().map(|cost| cost.whole(labour_factor)).collect();
        let lots = cases(group, labour_factor, OWN);
        let nearest = |cost: &Moments| {
            let off = |lot: &Part| libm::fabs(lot.cost.mean() - cost.mean());
            (0..lots.len()).fold(0, |best, at| if off(&lots[at]) < off(&lots[best]) { at } else { best })
        };
        Self { costs: costs.iter().map(|cost| (nearest(cost), *cost)).collect(), count: lots.len() }
    }

    /// The lots that have weight, where each cost has the weight given.
    fn weighed(&self, weights: &[f64]) -> Vec<Part> {
        let mut sums = alloc::vec![Mixing::default(); self.count];
        for ((lot, cost), weight) in self.costs.iter().zip(weights).filter(|(_, weight)| **weight > 0.0) {
            sums[*lot].add(*weight, cost);
        }
        sums.into_iter().filter_map(Mixing::mixed).collect()
    }
}

/// The variance of a group's cost now, and the variance expected once the fact is known, for checking the law of total variance.
#[must_use]
pub fn variances(site: &Site, group: &Group, fact: FactId) -> (f64, f64) {
    let of = |weigh: &dyn Fn(&EvaluatedCase) -> f64| {
        let weights = group.weights(weigh);
        Moments::one_of(weights.iter().copied().zip(group.costs.iter().map(|cost| cost.whole(Ratio::of(1.0)))))
            .variance()
    };
    let left = (0..site.count(fact)).map(|value| {
        let weight = site.weight(fact, value).get();
        weight * of(&|evaluated| given(evaluated, fact, value, weight))
    });
    (of(&|evaluated| evaluated.weight), left.sum())
}

/// The weight of a case once the fact is known to have its value number `value`: a case in which the fact was not read keeps its own.
fn given(evaluated: &EvaluatedCase, fact: FactId, value: usize, weight: f64) -> f64 {
    if !evaluated.read.has(fact) {
        evaluated.weight
    } else if usize::from(evaluated.chosen[fact as usize]) == value {
        evaluated.weight / weight
    } else {
        0.0
    }
}
