//! How far a counted share can be trusted, and how a count changes an assumption.

use model::units::Probability;
use serde::Serialize;
use statrs::distribution::{Beta, ContinuousCDF};

/// An interval, both ends included.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// The exact interval of a share: `hits` of `tries` were counted, and the true share lies inside with this confidence or more.
///
/// Source: C. J. Clopper and E. S. Pearson, *Biometrika* 26, 1934; by quantiles of the Beta distribution.
#[must_use]
pub fn binomial(hits: u32, tries: u32, confidence: f64) -> Interval {
    let tail = (1.0 - confidence) / 2.0;
    let (hit, missed) = (f64::from(hits), f64::from(tries.saturating_sub(hits)));
    Interval {
        low: if hits == 0 { 0.0 } else { quantile(hit, missed + 1.0, tail) },
        high: if hits >= tries { 1.0 } else { quantile(hit + 1.0, missed, 1.0 - tail) },
    }
}

/// The quantile of the Beta distribution with these two shapes, both above zero: the value below which `share` of its probability lies.
fn quantile(alpha: f64, beta: f64, share: f64) -> f64 {
    Beta::new(alpha, beta).map_or(f64::NAN, |beta| beta.inverse_cdf(share))
}

/// How many homes an assumption counts as, before any was recorded. Common practice, no source.
pub const ASSUMED_HOMES: f64 = 20.0;

/// An assumption after homes were counted: a Beta that weighs [`ASSUMED_HOMES`] homes, and as many more as were counted.
/// Its mean, and the interval that holds it with 80 %.
///
/// Source: the conjugate prior of a binomial count, as in any handbook (A. Gelman and others, *Bayesian Data Analysis*, 2.4).
#[must_use]
pub fn counted(assumed: Probability, hits: u32, tries: u32) -> (Probability, Interval) {
    let alpha = assumed.get() * ASSUMED_HOMES + f64::from(hits);
    let beta = assumed.complement().get() * ASSUMED_HOMES + f64::from(tries.saturating_sub(hits));
    let end = |share| {
        if alpha <= 0.0 {
            0.0
        } else if beta <= 0.0 {
            1.0
        } else {
            quantile(alpha, beta, share)
        }
    };
    // The ends of a band: this program's choice.
    (Probability::new(alpha / (alpha + beta)).unwrap_or(assumed), Interval { low: end(0.1), high: end(0.9) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_counted_says_nothing_and_all_or_none_end_at_an_end() {
        assert_eq!(binomial(0, 0, 0.95), Interval { low: 0.0, high: 1.0 });
        assert_eq!(binomial(0, 9, 0.95).low, 0.0);
        assert_eq!(binomial(9, 9, 0.95).high, 1.0);
    }

    #[test]
    fn an_assumption_moves_towards_what_was_counted_and_a_certain_one_stays_between_its_ends() {
        let (mean, interval) = counted(Probability::of(0.3), 8, 10);
        // (0.3 × 20 + 8) / (20 + 10)
        assert!((mean.get() - 14.0 / 30.0).abs() < 1e-12);
        assert!(interval.low < mean.get() && mean.get() < interval.high);
        assert_eq!(counted(Probability::NEVER, 0, 5).0, Probability::NEVER);
        assert_eq!(counted(Probability::CERTAIN, 5, 5).0, Probability::CERTAIN);
    }
}
