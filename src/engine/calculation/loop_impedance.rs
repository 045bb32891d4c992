//! Earth fault loop impedance, its limits, and lengths and times that follow from them.

use model::answers::choices::words;
use model::tables::conductor_resistance::per_metre;
use model::tables::disconnection as table;
use model::tables::external_impedance;
use model::terms::EarthingArrangement;
use model::units::{Amps, Metres, MilliohmsPerMetre, Ohms, Ratio, Seconds, SquareMillimetres, Volts};

words! {
    /// How quickly a circuit breaker disconnects: the multiple of its rating that trips it at once.
    pub enum BreakerType {
        /// Five times.
        B => "B",
        /// Ten times.
        C => "C",
        /// Twenty times.
        D => "D",
    }
}

impl BreakerType {
    /// The multiple of its rating at which it trips at once.
    #[must_use]
    pub const fn multiple(self) -> Ratio {
        match self {
            Self::B => table::TYPE_B,
            Self::C => table::TYPE_C,
            Self::D => table::TYPE_D,
        }
    }
}

/// R1 + R2 of a stretch at working temperature: both conductors in series, times the temperature multiplier.
///
/// * Returns `None` where a size is not a row of [`model::tables::conductor_resistance`].
/// # Source
/// Definition of R1 + R2 (BS 7671, from memory); multiplier: J. Whitfield, *The Electricians Guide*, Table 5.5.
#[must_use]
pub fn r1_plus_r2(length: Metres, line: SquareMillimetres, protective: SquareMillimetres, warm: Ratio) -> Option<Ohms> {
    Some(r1_plus_r2_per_metre(line, protective)? * length * warm)
}

/// R1 + R2 a metre at 20 °C; `None` where a size is not a row.
#[must_use]
pub fn r1_plus_r2_per_metre(line: SquareMillimetres, protective: SquareMillimetres) -> Option<MilliohmsPerMetre> {
    Some(per_metre(line)? + per_metre(protective)?)
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
/// BS 7671 Table 41.5 (from memory; 30 mA: 1,667 Ω).
#[must_use]
pub fn electrode_limit(touch: Volts, residual: Amps) -> Ohms {
    touch.over(residual)
}

/// The greatest impedance that may be measured cold, where a table's limit is at working temperature. Rounded down, as a limit is never
/// rounded up.
///
/// # Source
/// NICEIC *Connections*, spring 2015, p. 61.
#[must_use]
pub fn measured_limit(limit: Ohms, factor: Ratio) -> Ohms {
    (limit * factor).hundredths_down()
}

/// The longest run whose loop impedance, with `ze` ahead of it, is within a limit.
#[must_use]
pub fn longest(limit: Ohms, ze: Ohms, per_metre: MilliohmsPerMetre) -> Metres {
    limit.less(ze).reaches(per_metre)
}

/// Impedance of parts in series: their resistances, and at a right angle their reactances.
///
/// # Source
/// Definition; worked on the IET's forum, "Calculation of earth fault loop impedance".
#[must_use]
pub fn in_series(resistances: impl Iterator<Item = Ohms>, reactances: impl Iterator<Item = Ohms>) -> Ohms {
    resistances.sum::<Ohms>().with_reactance(reactances.sum())
}

/// The time within which a fault must be disconnected.
///
/// * `socket`: whether the circuit has a socket-outlet. A charge point with a socket-outlet counts as one: the cautious reading.
/// # Source
/// BS 7671 411.3.2.2 to 411.3.2.4 and Table 41.1, for a nominal voltage above 120 V and to 230 V.
#[must_use]
pub fn disconnection_time(tt: bool, rating: Amps, socket: bool) -> Seconds {
    let largest = table::FINAL_CIRCUIT.rows[usize::from(socket)].1;
    match (tt, rating <= largest) {
        (false, true) => table::TN_FINAL,
        (false, false) => table::TN_OTHER,
        (true, true) => table::TT_FINAL,
        (true, false) => table::TT_OTHER,
    }
}

/// Declared external impedance of an arrangement. For TT it is the operator's earth alone, to which the resistance of the home's electrode
/// is added.
#[must_use]
pub const fn declared(arrangement: EarthingArrangement) -> Ohms {
    match arrangement {
        EarthingArrangement::TnCS => external_impedance::TN_C_S,
        EarthingArrangement::TnS => external_impedance::TN_S,
        EarthingArrangement::Tt => external_impedance::TT,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::tables::conductor_resistance::TO_70C;

    #[test]
    fn a_size_that_is_no_row_is_refused_never_interpolated() {
        assert_eq!(r1_plus_r2(Metres::of(1.0), SquareMillimetres::of(7.0), SquareMillimetres::of(2.5), TO_70C), None);
    }

    #[test]
    fn a_limit_is_never_rounded_up() {
        assert_eq!(measured_limit(Ohms::of(0.91), Ratio::of(0.8)), Ohms::of(0.72));
        assert_eq!(measured_limit(Ohms::of(0.9), Ratio::of(0.8)), Ohms::of(0.72), "0.72 itself stays");
    }

    #[test]
    fn a_socket_outlet_on_40_a_is_a_final_circuit_under_the_table() {
        assert_eq!(disconnection_time(false, Amps::of(40.0), true), Seconds::of(0.4));
        assert_eq!(disconnection_time(false, Amps::of(40.0), false), Seconds::of(5.0));
        assert_eq!(disconnection_time(true, Amps::of(32.0), false), Seconds::of(0.2));
    }
}
