//! Distribution function and density of the standard normal distribution from a table, because a mixture of hundreds of components is
//! evaluated thousands of times.
//!
//! Between two entries a cubic through both values with both slopes (Hermite's) is used, which with sixteen entries a standard deviation is
//! off by less than 10⁻⁷. The table is made with `libm`, so it is the same to the last bit on every platform.
//!
//! Every figure here: arithmetic.

use alloc::vec::Vec;

/// Entries a standard deviation, and how many deviations to either side.
const A_DEVIATION: f64 = 16.0;
const REACH: f64 = 8.0;

/// The square root of 2π.
const SQRT_TAU: f64 = 2.506_628_274_631_000_5;

/// The table.
#[derive(Clone, Debug, PartialEq)]
pub struct StandardNormal {
    /// Function and density at each entry.
    entries: Vec<(f64, f64)>,
}

impl StandardNormal {
    /// Makes the table.
    #[must_use]
    pub fn new() -> Self {
        let count = (2.0 * REACH * A_DEVIATION) as usize + 1;
        let entry = |at: usize| {
            let z = at as f64 / A_DEVIATION - REACH;
            (0.5 * libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2), libm::exp(-0.5 * z * z) / SQRT_TAU)
        };
        Self { entries: (0..count).map(entry).collect() }
    }

    /// The probability of lying at most `z` standard deviations above the mean, and the density there.
    #[must_use]
    pub fn at(&self, z: f64) -> (f64, f64) {
        let place = (z + REACH) * A_DEVIATION;
        if place <= 0.0 {
            return (0.0, 0.0);
        }
        let (before, share) = (place as usize, place - (place as usize) as f64);
        let (Some((low, low_slope)), Some((high, high_slope))) =
            (self.entries.get(before), self.entries.get(before + 1))
        else {
            return (1.0, 0.0);
        };
        let z_low = before as f64 / A_DEVIATION - REACH;
        let step = 1.0 / A_DEVIATION;
        let (square, cube) = (share * share, share * share * share);
        let (rise, high_part) = (cube - 2.0 * square + share, 3.0 * square - 2.0 * cube);
        let fall = cube - square;
        let between = |low: f64, low_slope: f64, high: f64, high_slope: f64| {
            low + (high - low) * high_part + step * (low_slope * rise + high_slope * fall)
        };
        let function = between(*low, *low_slope, *high, *high_slope);
        // The slope of the density is −z times the density.
        let density = between(*low_slope, -z_low * low_slope, *high_slope, -(z_low + step) * high_slope);
        (function, density)
    }
}

impl Default for StandardNormal {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: Abramowitz and Stegun, *Handbook of Mathematical Functions*, table 26.1: P(1) = 0.841344746, P(2) = 0.977249868,
    /// Z(1) = 0.241970725 (from memory); and `libm` between the entries.
    #[test]
    fn it_is_the_handbooks_table() {
        let standard = StandardNormal::new();
        for (z, function) in [(0.0, 0.5), (1.0, 0.841_344_746), (2.0, 0.977_249_868), (-1.0, 0.158_655_254)] {
            assert!((standard.at(z).0 - function).abs() < 1e-8, "{z}");
        }
        assert!((standard.at(1.0).1 - 0.241_970_725).abs() < 1e-8);
        for at in -700..700 {
            let z = f64::from(at) * 0.010_7;
            let (function, density) = standard.at(z);
            assert!((function - 0.5 * libm::erfc(-z * core::f64::consts::FRAC_1_SQRT_2)).abs() < 1e-7, "{z}");
            assert!((density - libm::exp(-0.5 * z * z) / SQRT_TAU).abs() < 1e-6, "{z}");
        }
        assert_eq!(standard.at(9.0).0, 1.0);
        assert_eq!(standard.at(-9.0).0, 0.0);
    }
}
