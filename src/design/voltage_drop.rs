//! Voltage drop of one stretch.

use crate::units::{Amps, Metres, MillivoltsPerAmpMetre, Volts};

/// Voltage drop: tabulated drop × design current × length, one way.
///
/// * `drop`: of the cable, mV/A/m at full conductor temperature; `ib`: design current; `length`: one way.
/// # Source
/// BS 7671 Appendix 4, section 6; worked in T. Linsley, *Basic Electrical Installation Work* (Newnes), p. 302.
#[must_use]
pub fn voltage_drop(drop: MillivoltsPerAmpMetre, ib: Amps, length: Metres) -> Volts {
    drop * ib * length
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: uk.d-i-y newsgroup, 14 Feb 2019: 32 A, 30 m, armoured 4 and 6 mm² at 11 and 7.3 mV/A/m: about 10.5 V and 7 V.
    #[test]
    fn a_garage_supply_as_published() {
        let at = |drop| voltage_drop(MillivoltsPerAmpMetre::of(drop), Amps::of(32.0), Metres::of(30.0)).get();
        assert!((at(11.0) - 10.56).abs() < 1e-9);
        assert!((at(7.3) - 7.008).abs() < 1e-9);
    }

    /// Source: uk.d-i-y newsgroup (16th edition era): 45 A in 10 mm² twin-and-earth, 4 % of 240 V: 49 m.
    #[test]
    fn the_longest_run_of_a_shower_as_published() {
        let longest = 9.6 / (45.0 * 4.4e-3);
        assert!((longest - 49.0_f64).abs() < 0.6);
        let drop = voltage_drop(MillivoltsPerAmpMetre::of(4.4), Amps::of(45.0), Metres::of(48.5));
        assert!((drop.get() - 9.6).abs() < 0.01);
    }
}
