//! The distribution of the total: a mixture over cases, each a sum of many small costs.
//!
//! Within a case the sum is described by its first three moments and read through an Edgeworth series of that order
//! (Abramowitz and Stegun, *Handbook of Mathematical Functions*, 26.2.48): fast, and the same to the last bit everywhere.
//! Independent groups are multiplied out one after the other; whenever that leaves many cases, neighbours are put together by
//! their exact moments (J. H. Ward, *Journal of the American Statistical Association* 58, 1963, from memory).

use super::groups::Group;
use super::moments::{Cost, Moments};
use crate::units::{Probability, Ratio};
use alloc::vec::Vec;

/// One case of the total.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// How probable.
    pub weight: f64,
    /// What it costs.
    pub cost: Moments,
}

/// The total, before VAT.
#[derive(Clone, Debug, PartialEq)]
pub struct Total {
    parts: Vec<Part>,
    low: f64,
    high: f64,
}

/// How much longer or shorter all labour takes in one house than in another: one cause that moves every item.
/// Common practice, no source; jobs recorded later replace it.
pub const PACES: [(f64, Ratio); 3] = [(0.3, Ratio::of(0.88)), (0.4, Ratio::of(1.0)), (0.3, Ratio::of(1.18))];

/// Cases told apart at most, for each pace. More are put together, the nearest first, by their exact moments.
const MOST_CASES: usize = 96;

impl Total {
    /// The total of what every job has and of independent groups.
    #[must_use]
    pub fn of(always: Cost, groups: &[Group]) -> Self {
        let mut parts = Vec::new();
        for (weight, pace) in PACES {
            let mut product = alloc::vec![Part { weight, cost: always.whole(pace) }];
            for group in groups {
                let cases = told_apart(group, pace);
                let each = |done: &Part| {
                    let (weight, cost) = (done.weight, done.cost);
                    cases.iter().map(move |part| Part { weight: weight * part.weight, cost: cost.plus(part.cost) })
                };
                product = fewer(product.iter().flat_map(each).collect());
            }
            parts.extend(product);
        }
        let reach = |part: &Part| 6.0 * libm::sqrt(part.cost.variance());
        let low = parts.iter().map(|part| part.cost.mean() - reach(part)).fold(f64::INFINITY, f64::min);
        let high = parts.iter().map(|part| part.cost.mean() + reach(part)).fold(f64::NEG_INFINITY, f64::max);
        Self { parts, low, high }
    }

    /// How probable it is that the total is at most this many pence.
    #[must_use]
    pub fn at_most(&self, pence: f64) -> f64 {
        self.parts.iter().map(|part| part.weight * at_most(&part.cost, pence)).sum()
    }

    /// The number of pence that the total lies under with this probability, to a tenth of a penny.
    #[must_use]
    pub fn quantile(&self, probability: Probability) -> f64 {
        let (mut low, mut high) = (self.low, self.high);
        while high - low > 0.1 {
            let middle = 0.5 * (low + high);
            if middle <= low || middle >= high {
                break; // no number lies between them
            }
            if self.at_most(middle) < probability.get() {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }

    /// The whole as moments.
    #[must_use]
    pub fn moments(&self) -> Moments {
        Moments::one_of(self.parts.iter().map(|part| (part.weight, part.cost)))
    }
}

/// A group's cases, those of equal cost put together.
fn told_apart(group: &Group, pace: Ratio) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for (met, cost) in &group.cases {
        let cost = cost.whole(pace);
        match parts.iter_mut().find(|part| part.cost == cost) {
            Some(part) => part.weight += met.weight,
            None => parts.push(Part { weight: met.weight, cost }),
        }
    }
    parts
}

/// Two cases put together, exactly in their moments.
fn together(one: &Part, other: &Part) -> Part {
    let weight = one.weight + other.weight;
    let both = [(one.weight / weight, one.cost), (other.weight / weight, other.cost)];
    Part { weight, cost: Moments::one_of(both.into_iter()) }
}

/// At most [`MOST_CASES`] cases out of many: those that cost nearly the same are put together, so that what is far apart (a trench
/// or none) stays apart and each case stays close to symmetric.
fn fewer(mut parts: Vec<Part>) -> Vec<Part> {
    if parts.len() <= MOST_CASES {
        return parts;
    }
    parts.sort_by(|a, b| a.cost.mean().total_cmp(&b.cost.mean()));
    // First roughly, by equal steps of cost …
    let (least, most) = (parts[0].cost.mean(), parts[parts.len() - 1].cost.mean());
    let step = (most - least) / (2 * MOST_CASES) as f64;
    let mut steps: Vec<Part> = Vec::with_capacity(2 * MOST_CASES + 1);
    let mut last = f64::NEG_INFINITY;
    for part in &parts {
        let at = if step > 0.0 { libm::floor((part.cost.mean() - least) / step) } else { 0.0 };
        match steps.last_mut() {
            Some(open) if at <= last => *open = together(open, part),
            _ => steps.push(*part),
        }
        last = at;
    }
    // … then the two neighbours whose joining moves the variance least, until few enough are left (Ward, 1963).
    let apart = |one: &Part, other: &Part| {
        let off = other.cost.mean() - one.cost.mean();
        one.weight * other.weight / (one.weight + other.weight) * off * off
    };
    while steps.len() > MOST_CASES {
        let nearest = (1..steps.len())
            .map(|at| (at, apart(&steps[at - 1], &steps[at])))
            .fold((1, f64::INFINITY), |best, next| if next.1 < best.1 { next } else { best });
        let joined = together(&steps[nearest.0 - 1], &steps[nearest.0]);
        steps[nearest.0 - 1] = joined;
        steps.remove(nearest.0);
    }
    steps
}

/// The distribution function of one case: the normal one with the Edgeworth term for skewness.
fn at_most(cost: &Moments, pence: f64) -> f64 {
    let deviation = libm::sqrt(cost.variance());
    if deviation <= 0.0 {
        return if pence >= cost.mean() { 1.0 } else { 0.0 };
    }
    let z = (pence - cost.mean()) / deviation;
    let skewness = cost.third() / (deviation * deviation * deviation);
    let density = libm::exp(-0.5 * z * z) / SQRT_TAU;
    let normal = 0.5 * libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2);
    (normal - density * skewness * (z * z - 1.0) / 6.0).clamp(0.0, 1.0)
}

/// The square root of 2π.
const SQRT_TAU: f64 = 2.506_628_274_631_000_5;

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(cost: Moments) -> Total {
        let deviation = libm::sqrt(cost.variance());
        Total {
            parts: alloc::vec![Part { weight: 1.0, cost }],
            low: cost.mean() - 6.0 * deviation,
            high: cost.mean() + 6.0 * deviation,
        }
    }

    /// Source: tables of the normal distribution: the 90 % point lies 1.2816 deviations above the mean.
    #[test]
    fn without_skewness_it_is_the_normal_distribution() {
        let symmetric = (0..12).fold(Moments::ZERO, |sum, _| sum.plus(Moments::pert(0.0, 500.0, 1000.0)));
        let total = plain(symmetric);
        let deviation = libm::sqrt(symmetric.variance());
        assert!(
            (total.quantile(Probability::of(0.9)) - symmetric.mean() - 1.2816 * deviation).abs() < 0.001 * deviation
        );
        assert!((total.quantile(Probability::of(0.5)) - symmetric.mean()).abs() < 0.2);
    }

    /// Source: quantiles of the gamma distribution with shape 16 (skewness 0.5), from tables of chi-square with 32 degrees of
    /// freedom: 10 % 22.271, 90 % 42.585 (half of each is the gamma's). The series is within a hundredth of the width.
    #[test]
    fn a_skewed_sum_keeps_its_quantiles() {
        let gamma = Moments { mean: 16_000.0, variance: 16e6, third: 32e9 };
        let total = plain(gamma);
        let (low, high) = (22_271.0 / 2.0, 42_585.0 / 2.0);
        assert!((total.quantile(Probability::of(0.1)) - low).abs() < 0.01 * (high - low));
        assert!((total.quantile(Probability::of(0.9)) - high).abs() < 0.01 * (high - low));
    }

    #[test]
    fn certain_costs_have_no_width() {
        let total = plain(Moments::certain(12_345.0));
        assert_eq!(total.quantile(Probability::of(0.1)), 12_345.0);
    }
}
