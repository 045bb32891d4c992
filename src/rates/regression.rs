//! Linear regression with a prior: each observation, weighted by its own spread, pulls the coefficients away from zero; with few
//! observations they stay near it. (Ridge regression with a penalty for each coefficient; the Bayesian linear model with known spread.)
//!
//! Source: A. E. Hoerl and R. W. Kennard, *Technometrics* 12, 1970; D. V. Lindley and A. F. M. Smith, *Journal of the Royal Statistical
//! Society* B 34, 1972; both from memory. Solved by Cholesky's method (nalgebra).

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// One observation: a weighted sum of the coefficients, with normal noise.
#[derive(Clone, Debug, PartialEq)]
pub struct Observation {
    /// The weight of each coefficient in the sum.
    pub of: Vec<f64>,
    /// The value that was observed.
    pub seen: f64,
    /// The standard deviation of the noise, above zero.
    pub spread: f64,
}

/// The posterior distribution of the coefficients.
#[derive(Clone, Debug)]
pub struct Fitted {
    means: DVector<f64>,
    precision: Cholesky<f64, Dyn>,
}

/// Fits coefficients whose prior is a normal distribution about zero with these standard deviations, all above zero. `None` if a number is
/// not finite, or the sums overflow.
#[must_use]
pub fn fit(rows: &[Observation], priors: &[f64]) -> Option<Fitted> {
    let size = priors.len();
    let mut precision = DMatrix::from_diagonal(&DVector::from_iterator(size, priors.iter().map(|sd| 1.0 / (sd * sd))));
    let mut pull = DVector::zeros(size);
    for row in rows {
        let of = DVector::from_column_slice(&row.of);
        let weight = 1.0 / (row.spread * row.spread);
        precision += &of * of.transpose() * weight;
        pull += of * (row.seen * weight);
    }
    let precision = Cholesky::new(precision)?;
    let means = precision.solve(&pull);
    means.iter().all(|mean| mean.is_finite()).then_some(Fitted { means, precision })
}

impl Fitted {
    /// The posterior mean of the coefficient with this index.
    #[must_use]
    pub fn mean(&self, at: usize) -> f64 {
        self.means[at]
    }

    /// The posterior standard deviation of a sum of coefficients with these weights.
    #[must_use]
    pub fn deviation(&self, of: &[f64]) -> f64 {
        let of = DVector::from_column_slice(of);
        of.dot(&self.precision.solve(&of)).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One coefficient and one observation: the mean of the prior (0, variance 1) and the observation (1, variance 1), by hand.
    #[test]
    fn one_look_meets_the_prior_half_way() {
        let fitted = fit(&[Observation { of: vec![1.0], seen: 1.0, spread: 1.0 }], &[1.0]).unwrap();
        assert!((fitted.mean(0) - 0.5).abs() < 1e-12);
        assert!((fitted.deviation(&[1.0]) - 0.5_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn nothing_seen_leaves_the_prior() {
        let fitted = fit(&[], &[0.3, 0.2]).unwrap();
        assert_eq!((fitted.mean(0), fitted.mean(1)), (0.0, 0.0));
        assert!((fitted.deviation(&[1.0, 1.0]) - (0.09_f64 + 0.04).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_number_is_no_answer() {
        assert!(fit(&[Observation { of: vec![1.0], seen: f64::NAN, spread: 1.0 }], &[1.0]).is_none());
    }
}
