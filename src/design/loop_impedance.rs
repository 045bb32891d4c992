//! Earth fault loop impedance and its limit.

use crate::tables::conductor_resistance::per_metre;
use crate::units::{Amps, Metres, Ohms, Ratio, SquareMillimetres, Volts};

/// R1 + R2 of a stretch at working temperature: both conductors in series, times the temperature multiplier.
///
/// * Returns `None` where a size is not a row of [`crate::tables::conductor_resistance`].
/// # Source
/// Definition of R1 + R2 (BS 7671, from memory); multiplier: J. Whitfield, *The Electricians Guide*, Table 5.5.
#[must_use]
pub fn r1_plus_r2(length: Metres, line: SquareMillimetres, protective: SquareMillimetres, warm: Ratio) -> Option<Ohms> {
    Some((per_metre(line)? * length + per_metre(protective)? * length) * warm)
}

/// Greatest loop impedance at which a circuit breaker disconnects at once: U0 × Cmin / (multiple × rating).
///
/// # Source
/// BS 7671 regulation 411.4.4 and Table 41.3; Type B 32 A gives 1.37 Ω.
#[must_use]
pub fn limit(nominal: Volts, c_min: Ratio, multiple: Ratio, rating: Amps) -> Ohms {
    (nominal * c_min).over(rating * multiple)
}

/// Greatest resistance of an electrode with a residual-current device: 50 V over its residual current.
///
/// # Source
/// BS 7671 Table 41.5 (30 mA: 1,667 Ω).
#[must_use]
pub fn electrode_limit(touch: Volts, residual: Amps) -> Ohms {
    touch.over(residual)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::conductor_resistance::TO_70C;
    use crate::tables::disconnection::{C_MIN, RESIDUAL, TOUCH_LIMIT, TYPE_B};
    use crate::tables::voltage::NOMINAL;

    /// Source: globalspec CR4, "Calculating Earth Loop Impedance": 30 m of 6/2.5 mm², × 1.2, Ze 0.15 Ω: 0.52 Ω (truncated from 0.5276).
    #[test]
    fn a_shower_circuit_as_published() {
        let route =
            r1_plus_r2(Metres::of(30.0), SquareMillimetres::of(6.0), SquareMillimetres::of(2.5), TO_70C).unwrap();
        let zs = Ohms::of(0.15) + route;
        assert!((zs.get() - 0.53).abs() < 0.005, "{zs}");
    }

    /// Source: BS 7671 Table 41.3: B32 is 1.37 Ω (quoted on uk.d-i-y, 2019).
    #[test]
    fn the_limit_of_a_type_b_breaker() {
        let zs = limit(NOMINAL, C_MIN, TYPE_B, Amps::of(32.0));
        assert!((zs.get() - 1.37).abs() < 0.005, "{zs}");
    }

    /// Source: BS 7671 Table 41.5: 30 mA, 1,667 Ω.
    #[test]
    fn the_limit_of_an_electrode() {
        assert!((electrode_limit(TOUCH_LIMIT, RESIDUAL).get() - 1667.0).abs() < 0.5);
    }

    #[test]
    fn a_size_that_is_no_row_is_refused_never_interpolated() {
        assert_eq!(r1_plus_r2(Metres::of(1.0), SquareMillimetres::of(7.0), SquareMillimetres::of(2.5), TO_70C), None);
    }
}
