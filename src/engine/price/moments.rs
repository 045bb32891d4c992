//! Mean, variance, third and fourth cumulant of a cost. Cumulants add up when independent costs are added.
//!
//! A three-point estimate is read as a PERT distribution: a Beta on low to high with shapes 1 + 4 (likely − low) / (high − low)
//! and 1 + 4 (high − likely) / (high − low). Source: Malcolm, Roseboom, Clark and Fazar, *Operations Research* 7 (1959); the
//! shapes as in D. Vose, *Risk Analysis* (Wiley), from memory. Its cumulants are checked against SciPy's in `tests/sources`.
//!
//! Every figure here: arithmetic.

use super::distribution::Part;
use model::units::Ratio;

/// Cumulants in pence, and in pence to the second, third and fourth power.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Moments {
    pub(super) mean: f64,
    pub(super) variance: f64,
    pub(super) third: f64,
    pub(super) fourth: f64,
}

impl Moments {
    /// The moments of a cost of zero.
    pub const ZERO: Self = Self { mean: 0.0, variance: 0.0, third: 0.0, fourth: 0.0 };

    /// A sum that is certain, in pence.
    #[must_use]
    pub fn certain(pence: f64) -> Self {
        Self { mean: pence, ..Self::ZERO }
    }

    /// The moments of a three-point estimate, in pence.
    #[must_use]
    pub fn pert(low: f64, likely: f64, high: f64) -> Self {
        let width = high - low;
        if width <= 0.0 {
            return Self::certain(likely);
        }
        let alpha = 1.0 + 4.0 * (likely - low) / width;
        let beta = 1.0 + 4.0 * (high - likely) / width;
        // With α + β = 6, on the unit interval: variance αβ / (6² · 7), third cumulant 2αβ(β − α) / (6³ · 7 · 8), excess kurtosis
        // 6 [7 (α − β)² − 8 αβ] / (72 αβ).
        let variance = width * width * alpha * beta / 252.0;
        let apart = alpha - beta;
        Self {
            mean: low + width * alpha / 6.0,
            variance,
            third: width * width * width * alpha * beta * (beta - alpha) / 6048.0,
            fourth: variance * variance * (7.0 * apart * apart - 8.0 * alpha * beta) / (12.0 * alpha * beta),
        }
    }

    /// The cost of `ratio` units that vary together: all of them dear, or all of them cheap.
    #[must_use]
    pub fn times(self, ratio: Ratio) -> Self {
        let by = ratio.get();
        let square = by * by;
        Self {
            mean: self.mean * by,
            variance: self.variance * square,
            third: self.third * square * by,
            fourth: self.fourth * square * square,
        }
    }

    /// The sum of two independent costs.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            mean: self.mean + other.mean,
            variance: self.variance + other.variance,
            third: self.third + other.third,
            fourth: self.fourth + other.fourth,
        }
    }

    /// The mixture of several costs by their weights.
    #[must_use]
    pub fn one_of(parts: impl Iterator<Item = (f64, Self)>) -> Self {
        let mut mixing = Mixing::default();
        for (weight, part) in parts {
            mixing.add(weight, &part);
        }
        mixing.mixed().map_or(Self::ZERO, |part| part.cost)
    }

    /// Mean, in pence.
    #[must_use]
    pub const fn mean(&self) -> f64 {
        self.mean
    }

    /// Variance, in pence squared.
    #[must_use]
    pub const fn variance(&self) -> f64 {
        self.variance
    }

    /// Third cumulant (the third central moment), in pence cubed.
    #[must_use]
    pub const fn third(&self) -> f64 {
        self.third
    }

    /// Fourth cumulant, in pence to the fourth.
    #[must_use]
    pub const fn fourth(&self) -> f64 {
        self.fourth
    }
}

/// Accumulates a mixture: sums of weights and of powers about the first part's mean.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Mixing {
    weight: f64,
    about: f64,
    powers: [f64; 4],
}

impl Mixing {
    /// Adds one part.
    pub(super) fn add(&mut self, weight: f64, part: &Moments) {
        if self.weight <= 0.0 {
            self.about = part.mean;
        }
        let off = part.mean - self.about;
        let square = off * off;
        self.weight += weight;
        self.powers[0] += weight * off;
        self.powers[1] += weight * (part.variance + square);
        self.powers[2] += weight * (part.third + 3.0 * off * part.variance + off * square);
        self.powers[3] += weight
            * (part.fourth
                + 3.0 * part.variance * part.variance
                + 4.0 * off * part.third
                + 6.0 * square * part.variance
                + square * square);
    }

    /// The mixture as one part; `None` where no part had weight.
    pub(super) fn mixed(self) -> Option<Part> {
        if self.weight <= 0.0 {
            return None;
        }
        let [first, second, third, fourth] = self.powers.map(|power| power / self.weight);
        let square = first * first;
        let variance = (second - square).max(0.0);
        let cost = Moments {
            mean: self.about + first,
            variance,
            third: third - 3.0 * first * second + 2.0 * first * square,
            fourth: fourth - 4.0 * first * third + 6.0 * square * second
                - 3.0 * square * square
                - 3.0 * variance * variance,
        };
        Some(Part { weight: self.weight, cost })
    }
}

/// A cost divided into labour and materials, since the labour factor of a house applies to all labour at once.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cost {
    /// Labour.
    pub labour: Moments,
    /// Materials.
    pub materials: Moments,
    /// Labour and materials at their usual time and price, in pence.
    pub likely: f64,
}

impl Cost {
    /// A cost of zero.
    pub const ZERO: Self = Self { labour: Moments::ZERO, materials: Moments::ZERO, likely: 0.0 };

    /// The sum of two independent costs.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            labour: self.labour.plus(other.labour),
            materials: self.materials.plus(other.materials),
            likely: self.likely + other.likely,
        }
    }

    /// The cost of `ratio` units that vary together: all of them dear, or all of them cheap.
    #[must_use]
    pub fn times(self, ratio: Ratio) -> Self {
        Self {
            labour: self.labour.times(ratio),
            materials: self.materials.times(ratio),
            likely: self.likely * ratio.get(),
        }
    }

    /// Labour and materials together, under a labour factor.
    #[must_use]
    pub fn whole(self, labour_factor: Ratio) -> Moments {
        self.labour.times(labour_factor).plus(self.materials)
    }

    /// The mean in pence, at a labour factor of one.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.labour.mean + self.materials.mean
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: mean (a + 4m + b) / 6 of Malcolm et al. (1959); variance (μ − a)(b − μ) / 7 of the Beta with α + β = 6 (D. Vose).
    #[test]
    fn a_pert_has_its_published_mean_and_variance() {
        let (low, likely, high) = (30.0, 60.0, 150.0);
        let pert = Moments::pert(low, likely, high);
        let mean = (low + 4.0 * likely + high) / 6.0;
        assert!((pert.mean() - mean).abs() < 1e-9);
        assert!((pert.variance() - (mean - low) * (high - mean) / 7.0).abs() < 1e-9);
        assert!(pert.third() > 0.0, "it leans to the dear side");
    }

    /// Cumulants of a Bernoulli trial, p = 0.3, as in any handbook: p, p(1 − p), p(1 − p)(1 − 2p), p(1 − p)(1 − 6p(1 − p)).
    #[test]
    fn a_mixture_has_the_cumulants_of_a_trial() {
        let trial = Moments::one_of([(0.3, Moments::certain(1.0)), (0.7, Moments::certain(0.0))].into_iter());
        assert!((trial.mean() - 0.3).abs() < 1e-12);
        assert!((trial.variance() - 0.21).abs() < 1e-12);
        assert!((trial.third() - 0.21 * 0.4).abs() < 1e-12);
        assert!((trial.fourth() - 0.21 * (1.0 - 6.0 * 0.21)).abs() < 1e-12);
    }

    #[test]
    fn no_width_is_certain() {
        assert_eq!(Moments::pert(5.0, 5.0, 5.0), Moments::certain(5.0));
    }
}
