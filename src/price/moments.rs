//! Mean, variance and third central moment of a cost: what adds up when independent costs are added.
//!
//! A three-point estimate is read as a PERT distribution: a Beta on low to high with shapes 1 + 4 (likely − low) / (high − low)
//! and 1 + 4 (high − likely) / (high − low). Source: Malcolm, Roseboom, Clark and Fazar, *Operations Research* 7 (1959); the
//! shapes as in D. Vose, *Risk Analysis* (Wiley), from memory.

use crate::config::{PriceLine, Rates, ThreePence};
use crate::units::Ratio;

/// Moments in pence, pence squared and pence cubed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Moments {
    pub(super) mean: f64,
    pub(super) variance: f64,
    pub(super) third: f64,
}

impl Moments {
    /// Nothing.
    pub const ZERO: Self = Self { mean: 0.0, variance: 0.0, third: 0.0 };

    /// A sum that is certain, in pence.
    #[must_use]
    pub fn certain(pence: f64) -> Self {
        Self { mean: pence, ..Self::ZERO }
    }

    /// A three-point estimate, in pence.
    #[must_use]
    pub fn pert(low: f64, likely: f64, high: f64) -> Self {
        let width = high - low;
        if width <= 0.0 {
            return Self::certain(likely);
        }
        let alpha = 1.0 + 4.0 * (likely - low) / width;
        let beta = 1.0 + 4.0 * (high - likely) / width;
        // α + β = 6, so Var = αβ / (6² · 7) and the third central moment = 2αβ(β − α) / (6³ · 7 · 8), on the unit interval.
        Self {
            mean: low + width * alpha / 6.0,
            variance: width * width * alpha * beta / 252.0,
            third: width * width * width * alpha * beta * (beta - alpha) / 6048.0,
        }
    }

    /// This many of the same: all of them dear, or all of them cheap.
    #[must_use]
    pub fn times(self, ratio: Ratio) -> Self {
        let by = ratio.get();
        Self { mean: self.mean * by, variance: self.variance * by * by, third: self.third * by * by * by }
    }

    /// The sum of two independent costs.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { mean: self.mean + other.mean, variance: self.variance + other.variance, third: self.third + other.third }
    }

    /// One of several, by weights that add up to one.
    #[must_use]
    pub fn one_of(parts: impl Iterator<Item = (f64, Self)> + Clone) -> Self {
        let mean: f64 = parts.clone().map(|(weight, part)| weight * part.mean).sum();
        let mut mixed = Self { mean, ..Self::ZERO };
        for (weight, part) in parts {
            let off = part.mean - mean;
            mixed.variance += weight * (part.variance + off * off);
            mixed.third += weight * (part.third + 3.0 * off * part.variance + off * off * off);
        }
        mixed
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

    /// Third central moment, in pence cubed.
    #[must_use]
    pub const fn third(&self) -> f64 {
        self.third
    }
}

/// A cost parted into labour and materials: what makes a house awkward moves all labour together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cost {
    /// Labour.
    pub labour: Moments,
    /// Materials.
    pub materials: Moments,
}

impl Cost {
    /// Nothing.
    pub const ZERO: Self = Self { labour: Moments::ZERO, materials: Moments::ZERO };

    /// Both parts with another's.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { labour: self.labour.plus(other.labour), materials: self.materials.plus(other.materials) }
    }

    /// The whole, where labour takes this much longer or shorter than usual.
    #[must_use]
    pub fn whole(self, pace: Ratio) -> Moments {
        self.labour.times(pace).plus(self.materials)
    }

    /// Some of an item by its price line.
    #[must_use]
    pub fn of_line(line: &PriceLine, rates: &Rates, quantity: Ratio) -> Self {
        let a_minute = rates.hour.as_f64() / 60.0;
        let minutes = &line.minutes;
        let ThreePence { low, likely, high } = line.materials;
        Self {
            labour: Moments::pert(
                minutes.low.get() * a_minute,
                minutes.likely.get() * a_minute,
                minutes.high.get() * a_minute,
            )
            .times(quantity),
            materials: Moments::pert(low.as_f64(), likely.as_f64(), high.as_f64()).times(quantity),
        }
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

    /// Moments of a Bernoulli trial, p = 0.3, as in any handbook: mean p, variance p(1 − p), third p(1 − p)(1 − 2p).
    #[test]
    fn a_mixture_has_the_moments_of_a_trial() {
        let trial = Moments::one_of([(0.3, Moments::certain(1.0)), (0.7, Moments::certain(0.0))].into_iter());
        assert!((trial.mean() - 0.3).abs() < 1e-12);
        assert!((trial.variance() - 0.21).abs() < 1e-12);
        assert!((trial.third() - 0.21 * 0.4).abs() < 1e-12);
    }

    #[test]
    fn no_width_is_certain() {
        assert_eq!(Moments::pert(5.0, 5.0, 5.0), Moments::certain(5.0));
    }
}
