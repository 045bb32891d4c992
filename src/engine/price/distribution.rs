//! The distribution of the total: a mixture over cases, each of which is a sum of many small costs.
//!
//! Within a case the sum is described by its first four cumulants, and its distribution function is approximated by an Edgeworth series of
//! that order (Abramowitz and Stegun, *Handbook of Mathematical Functions*, 26.2.48): fast, and the same to the last bit on every platform.
//! Independent groups are multiplied out one after the other; where that makes many cases, neighbours are merged by their exact moments (J.
//! H. Ward, *Journal of the American Statistical Association* 58, 1963, from memory).

use super::groups::Group;
use super::moments::{Cost, Mixing, Moments};
use super::standard_normal::StandardNormal;
use alloc::vec::Vec;
use model::units::{Probability, Ratio};

/// One component of the mixture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Its probability.
    pub weight: f64,
    /// What it costs.
    pub cost: Moments,
}

/// Labour factors: how much longer or shorter all labour takes in one house than in another, which moves every item at once, with the
/// weight of each factor. Their mean is one, so that a bill at usual times adds up to the mean of the total. Common practice, no source;
/// jobs recorded later replace it.
pub const LABOUR_FACTORS: [(f64, Ratio); 3] = [(0.35, Ratio::of(0.88)), (0.45, Ratio::of(1.0)), (0.2, Ratio::of(1.21))];

/// The most cases kept for each labour factor. Beyond that the nearest are merged, by their exact moments.
const MOST_CASES: usize = 96; // this program's choice

/// The total, before VAT.
#[derive(Clone, Debug)]
pub struct Total<'b> {
    standard: &'b StandardNormal,
    lobes: Vec<Lobe>,
    moments: Moments,
    low: f64,
    high: f64,
}

impl<'b> Total<'b> {
    /// The total of what every job costs and of independent groups.
    #[must_use]
    pub fn of(always: Cost, groups: &[Group], standard: &'b StandardNormal) -> Self {
        let parts = LABOUR_FACTORS.iter().flat_map(|(weight, labour_factor)| {
            let always = Part { weight: *weight, cost: always.whole(*labour_factor) };
            product(always, groups.iter().map(|group| cases(group, *labour_factor, MOST_CASES)), MOST_CASES)
        });
        Self::of_parts(&parts.collect::<Vec<_>>(), standard)
    }

    /// The mixture of these parts, whose weights add up to one.
    #[must_use]
    pub fn of_parts(parts: &[Part], standard: &'b StandardNormal) -> Self {
        // Arithmetic: beyond six deviations is nothing.
        let reach = |part: &Part| 6.0 * libm::sqrt(part.cost.variance());
        Self {
            standard,
            lobes: parts.iter().map(Lobe::of).collect(),
            moments: Moments::one_of(parts.iter().map(|part| (part.weight, part.cost))),
            low: parts.iter().map(|part| part.cost.mean() - reach(part)).fold(f64::INFINITY, f64::min),
            high: parts.iter().map(|part| part.cost.mean() + reach(part)).fold(f64::NEG_INFINITY, f64::max),
        }
    }

    /// The probability that the total is at most this many pence.
    #[must_use]
    pub fn at_most(&self, pence: f64) -> f64 {
        self.look(pence).0
    }

    /// The quantile of the total in pence, to a tenth of a penny: it is at most that with this probability.
    #[must_use]
    pub fn quantile(&self, probability: Probability) -> f64 {
        // Arithmetic: to a tenth of a penny.
        self.search(probability.get(), 0.1)
    }

    /// The quantile to within `within` pence. Newton's steps are taken inside an interval that holds it; where a step would leave the
    /// interval or does not halve it, the interval is halved (arithmetic), since a total may jump where costs are certain.
    pub(super) fn search(&self, aim: f64, within: f64) -> f64 {
        let (mut low, mut high) = (self.low, self.high);
        let mut at = self.moments.mean();
        let mut last = high - low;
        while high - low > within {
            if at <= low || at >= high {
                at = 0.5 * (low + high);
                if at <= low || at >= high {
                    break; // no number lies between them
                }
            }
            let (reached, slope) = self.look(at);
            let off = reached - aim;
            if off < 0.0 {
                low = at
            } else {
                high = at
            }
            let step = off / slope;
            if slope > 0.0 && libm::fabs(step) < 0.5 * within {
                return at - step;
            }
            at = if slope > 0.0 && libm::fabs(step) < 0.5 * last { at - step } else { 0.5 * (low + high) };
            last = libm::fabs(step);
        }
        high
    }

    /// The probability that the total is at most this many pence, and its density there (that of the normal part alone).
    fn look(&self, pence: f64) -> (f64, f64) {
        self.lobes.iter().fold((0.0, 0.0), |(reached, slope), lobe| {
            let (part, rise) = lobe.at(pence, self.standard);
            (reached + part, slope + rise)
        })
    }

    /// The moments of the total.
    #[must_use]
    pub const fn moments(&self) -> Moments {
        self.moments
    }
}

/// One component, prepared for evaluation: its distribution function is the normal one with the Edgeworth terms for skewness and kurtosis.
#[derive(Clone, Copy, Debug)]
struct Lobe {
    weight: f64,
    mean: f64,
    /// Standard deviations in a penny; zero where the cost is certain.
    a_penny: f64,
    second: f64,
    third: f64,
    fifth: f64,
}

impl Lobe {
    /// Arithmetic: the Edgeworth series.
    fn of(part: &Part) -> Self {
        let deviation = libm::sqrt(part.cost.variance());
        let certain =
            Self { weight: part.weight, mean: part.cost.mean(), a_penny: 0.0, second: 0.0, third: 0.0, fifth: 0.0 };
        if deviation <= 0.0 {
            return certain;
        }
        let variance = deviation * deviation;
        let skewness = part.cost.third() / (variance * deviation);
        let kurtosis = part.cost.fourth() / (variance * variance);
        Self {
            a_penny: 1.0 / deviation,
            second: skewness / 6.0,
            third: kurtosis / 24.0,
            fifth: skewness * skewness / 72.0,
            ..certain
        }
    }

    /// Its part of the probability of costing at most this much, and of the density there.
    fn at(&self, pence: f64, standard: &StandardNormal) -> (f64, f64) {
        if self.a_penny <= 0.0 {
            return (if pence >= self.mean { self.weight } else { 0.0 }, 0.0);
        }
        let z = (pence - self.mean) * self.a_penny;
        let (normal, density) = standard.at(z);
        let square = z * z;
        // Arithmetic: Hermite's polynomials of the second, third and fifth order.
        let bend = self.second * (square - 1.0)
            + z * (self.third * (square - 3.0) + self.fifth * (square * square - 10.0 * square + 15.0));
        (self.weight * (normal - density * bend).clamp(0.0, 1.0), self.weight * density * self.a_penny)
    }
}

/// The cost of every job combined with independent groups, multiplied out one after the other; at most `most` cases are kept.
pub(super) fn product(always: Part, groups: impl Iterator<Item = Vec<Part>>, most: usize) -> Vec<Part> {
    groups.fold(alloc::vec![always], |done, cases| times(&done, &cases, most))
}

/// Every case of one combined with every case of the other; at most `most` are kept.
pub(super) fn times(done: &[Part], cases: &[Part], most: usize) -> Vec<Part> {
    let each = |done: &Part| {
        let (weight, cost) = (done.weight, done.cost);
        cases.iter().map(move |part| Part { weight: weight * part.weight, cost: cost.plus(part.cost) })
    };
    fewer(done.iter().flat_map(each).collect(), most)
}

/// A group's costs with their weights under this labour factor; at most `most` cases are kept.
pub(super) fn cases(group: &Group, labour_factor: Ratio, most: usize) -> Vec<Part> {
    let weights = group.weights(|met| met.weight);
    let each = weights.into_iter().zip(&group.costs);
    fewer(each.map(|(weight, cost)| Part { weight, cost: cost.whole(labour_factor) }).collect(), most)
}

/// Two cases merged into one with exactly the moments of their mixture.
fn together(one: &Part, other: &Part) -> Part {
    let mut both = Mixing::default();
    both.add(one.weight, &one.cost);
    both.add(other.weight, &other.cost);
    both.mixed().unwrap_or(*one)
}

/// Merges cases until at most this many are left. Those that cost nearly the same are merged, so that very different costs (a trench or
/// none) stay apart and each case stays close to symmetric.
pub(super) fn fewer(parts: Vec<Part>, most_cases: usize) -> Vec<Part> {
    if parts.len() <= most_cases {
        return parts;
    }
    // First roughly, by equal steps of cost …
    let (least, most) = parts.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), part| {
        (least.min(part.cost.mean()), most.max(part.cost.mean()))
    });
    let count = 2 * most_cases;
    let a_step = if most > least { count as f64 / (most - least) } else { 0.0 };
    let mut open = alloc::vec![Mixing::default(); count];
    for part in &parts {
        let at = ((part.cost.mean() - least) * a_step) as usize;
        open[at.min(count - 1)].add(part.weight, &part.cost);
    }
    let mut steps: Vec<Part> = open.into_iter().filter_map(Mixing::mixed).collect();
    // … then the two neighbours whose joining moves the variance least, until few enough are left (Ward, 1963).
    let apart = |one: &Part, other: &Part| {
        let off = other.cost.mean() - one.cost.mean();
        one.weight * other.weight / (one.weight + other.weight) * off * off
    };
    let mut gaps: Vec<f64> = steps.windows(2).map(|pair| apart(&pair[0], &pair[1])).collect();
    while steps.len() > most_cases {
        let nearest = gaps.iter().enumerate().fold(
            (0, f64::INFINITY),
            |best, (at, gap)| {
                if *gap < best.1 { (at, *gap) } else { best }
            },
        );
        let at = nearest.0;
        steps[at] = together(&steps[at], &steps[at + 1]);
        steps.remove(at + 1);
        gaps.remove(at);
        if at > 0 {
            gaps[at - 1] = apart(&steps[at - 1], &steps[at]);
        }
        if at < gaps.len() {
            gaps[at] = apart(&steps[at], &steps[at + 1]);
        }
    }
    steps
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quantile(cost: Moments, probability: f64) -> f64 {
        Total::of_parts(&[Part { weight: 1.0, cost }], &StandardNormal::new()).quantile(Probability::of(probability))
    }

    /// Source: tables of the normal distribution: the 90 % point lies 1.2816 deviations above the mean.
    #[test]
    fn without_skewness_it_is_the_normal_distribution() {
        let normal = Moments { mean: 60_000.0, variance: 1e8, third: 0.0, fourth: 0.0 };
        assert!((quantile(normal, 0.9) - 72_816.0).abs() < 1.0);
        assert!((quantile(normal, 0.5) - 60_000.0).abs() < 0.2);
    }

    /// Source: quantiles of the gamma distribution with shape 16 (skewness 0.5, excess kurtosis 0.375), from tables of chi-square
    /// with 32 degrees of freedom: 10 % 22.271, 90 % 42.585 (half of each is the gamma's).
    #[test]
    fn a_skewed_sum_keeps_its_quantiles() {
        let gamma = Moments { mean: 16_000.0, variance: 16e6, third: 32e9, fourth: 96e12 };
        let (low, high) = (22_271.0 / 2.0, 42_585.0 / 2.0);
        assert!((quantile(gamma, 0.1) - low).abs() < 0.002 * (high - low), "{}", quantile(gamma, 0.1));
        assert!((quantile(gamma, 0.9) - high).abs() < 0.002 * (high - low), "{}", quantile(gamma, 0.9));
    }

    #[test]
    fn certain_costs_have_no_width_and_a_jump_is_found() {
        assert_eq!(quantile(Moments::certain(12_345.0), 0.1), 12_345.0);
        let standard = StandardNormal::new();
        let part = |weight, pence| Part { weight, cost: Moments::certain(pence) };
        let total = Total::of_parts(&[part(0.3, 100_000.0), part(0.7, 250_000.0)], &standard);
        assert!((total.quantile(Probability::of(0.25)) - 100_000.0).abs() <= 0.1);
        assert!((total.quantile(Probability::of(0.35)) - 250_000.0).abs() <= 0.1);
    }

    #[test]
    fn putting_cases_together_keeps_the_moments() {
        let parts: Vec<Part> = (0..400)
            .map(|at| Part {
                weight: 1.0 / 400.0,
                cost: Moments::pert(0.0, 100.0, 900.0).plus(Moments::certain(f64::from(at * at))),
            })
            .collect();
        let of = |parts: &[Part]| Moments::one_of(parts.iter().map(|part| (part.weight, part.cost)));
        let (before, few) = (of(&parts), fewer(parts, 24));
        let after = of(&few);
        assert_eq!(few.len(), 24);
        for (one, two) in [
            (before.mean, after.mean),
            (before.variance, after.variance),
            (before.third, after.third),
            (before.fourth, after.fourth),
        ] {
            assert!((one - two).abs() <= 1e-9 * one.abs(), "{one} {two}");
        }
    }
}
