//! The smallest size of cable that passes every check along a route of mixed stretches, and the check that governs it.
//!
//! The whole route has one size. Each stretch has its own cable and reference method, and the worst stretch governs the capacity; voltage
//! drop and fault loop are of the whole length, and of what lies between the origin and the cable. Allocates nothing.
//! Source: BS 7671 Appendix 4 (Ib ≤ In ≤ Iz; drop from the origin), 411.4.4, 543.1.3.

use super::capacity::{CableType, Factors, Method, iz, tabulated, tabulated_drop};
use super::loop_impedance::{BreakerType, electrode_limit, limit, r1_plus_r2};
use super::protective::adiabatic;
use super::voltage_drop::voltage_drop;
use model::answers::choices::words;
use model::tables::bonding::K_IN_CABLE;
use model::tables::conductor_resistance::TO_70C;
use model::tables::disconnection::{AT_ONCE, TOUCH_LIMIT};
use model::tables::twin_and_earth;
use model::units::{Amps, Metres, Ohms, Ratio, SquareMillimetres, Volts};

words! {
    /// A check that a size must pass.
    pub enum Check {
        /// No check asks for more than the smallest size used for a charge point.
        Smallest => "smallest-used",
        /// Ib ≤ In ≤ Iz on every stretch.
        Capacity => "capacity",
        /// Voltage drop over the whole length.
        VoltageDrop => "voltage-drop",
        /// The fault loop, by the breaker or by a residual-current device.
        FaultLoop => "fault-loop",
        /// The protective conductor bears a fault: adiabatic.
        Adiabatic => "adiabatic",
    }
}

words! {
    /// What disconnects a fault to earth.
    pub enum Disconnects {
        /// The breaker itself.
        Breaker => "breaker",
        /// A residual-current device is relied on.
        ResidualDevice => "residual-current-device",
        /// Neither: the loop is too high for what there is.
        Neither => "neither",
    }
}

/// The sizes considered. Nothing smaller than 6 mm² is used for a charge point; common practice, no source.
pub const SIZES: [SquareMillimetres; 4] =
    [SquareMillimetres::of(6.0), SquareMillimetres::of(10.0), SquareMillimetres::of(16.0), SquareMillimetres::of(25.0)];

/// One stretch as it is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Which cable.
    pub cable: CableType,
    /// How it is laid.
    pub method: Method,
    /// How long, one way.
    pub length: Metres,
    /// The rating factors of its surroundings.
    pub factors: Factors,
}

/// Voltage drop and resistance between the origin and the beginning of the cable, as far as known: those of an outbuilding's feed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ahead {
    /// Its voltage drop at its load.
    pub drop: Volts,
    /// Its R1 + R2, warm.
    pub r1_plus_r2: Ohms,
}

impl Ahead {
    /// Nothing: the cable begins at the origin, or what lies ahead is not known.
    pub const NOTHING: Self = Self { drop: Volts::ZERO, r1_plus_r2: Ohms::ZERO };
}

/// The load of the cable, its protection, and the supply ahead of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needs {
    /// Design current.
    pub ib: Amps,
    /// Rating of the device.
    pub in_: Amps,
    /// Kind of the device.
    pub breaker: BreakerType,
    /// Residual-current device, where there is one.
    pub residual: Option<Amps>,
    /// Nominal voltage to earth.
    pub nominal: Volts,
    /// Least factor of the nominal voltage, Cmin.
    pub c_min: Ratio,
    /// Voltage drop allowed from the origin to the far end (BS 7671 Table 4Ab).
    pub allowed: Volts,
    /// Voltage drop and resistance ahead of the cable.
    pub ahead: Ahead,
    /// The highest external impedance that is still possible, at which the breaker must still disconnect.
    pub ze_highest: Ohms,
    /// The lowest external impedance that is still possible, at which the fault current is greatest.
    pub ze_lowest: Ohms,
}

/// The results of the checks with one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Checked {
    /// Whether every stretch carries the device's rating.
    pub carries: bool,
    /// Voltage drop over the whole length and whatever lies ahead of it, at full conductor temperature.
    pub drop: Volts,
    /// Earth fault loop impedance at the far end, warm.
    pub zs: Ohms,
    /// What disconnects a fault at the far end.
    pub by: Disconnects,
    /// The smallest protective conductor on the route.
    pub protective: SquareMillimetres,
}

/// The size chosen, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chosen {
    /// The smallest size that passes every check; `None` where none does.
    pub size: Option<SquareMillimetres>,
    /// The check that asks for this size, or that no size passes.
    pub governs: Check,
    /// The smallest size that passes each check alone: capacity, voltage drop, fault loop, adiabatic.
    pub alone: [Option<SquareMillimetres>; 4],
    /// The results of the checks with that size, or with the largest where none passes.
    pub checked: Checked,
    /// The greatest loop impedance at which the breaker disconnects at once.
    pub limit: Ohms,
    /// Least protective conductor by the adiabatic equation.
    pub least_protective: SquareMillimetres,
}

/// The checks, in the order of [`Chosen::alone`]. Where two ask for the same size, the first is named.
pub const CHECKS: [Check; 4] = [Check::Capacity, Check::VoltageDrop, Check::FaultLoop, Check::Adiabatic];

/// Checks one size over the route; `None` where a stretch's cable is not made in that size.
#[must_use]
pub fn check(size: SquareMillimetres, route: impl Iterator<Item = Piece>, needs: &Needs) -> Option<Checked> {
    let mut carries = true;
    let (mut drop, mut warm) = (needs.ahead.drop, needs.ahead.r1_plus_r2);
    let mut smallest = size;
    for piece in route {
        let laid = iz(tabulated(piece.cable, piece.method, size)?, &piece.factors);
        carries &= needs.ib <= needs.in_ && needs.in_.is_within(laid);
        drop = drop + voltage_drop(tabulated_drop(piece.cable, size)?, needs.ib, piece.length);
        let protective = protective_of(piece.cable, size)?;
        smallest = smallest.min(protective);
        warm = warm + r1_plus_r2(piece.length, size, protective, TO_70C)?;
    }
    let zs = needs.ze_highest + warm;
    Some(Checked { carries, drop, zs, by: disconnects(zs, needs), protective: smallest })
}

/// The protective conductor of a cable: flat twin-and-earth has its own; in armoured cable it is a core of the line's size. `None` where
/// the cable is not made in that size.
#[must_use]
pub fn protective_of(cable: CableType, size: SquareMillimetres) -> Option<SquareMillimetres> {
    if matches!(cable, CableType::TwinAndEarth) { twin_and_earth::cpc(size) } else { Some(size) }
}

fn disconnects(zs: Ohms, needs: &Needs) -> Disconnects {
    if zs.is_within(breaker_limit(needs)) {
        Disconnects::Breaker
    } else if needs.residual.is_some_and(|residual| zs.is_within(electrode_limit(TOUCH_LIMIT, residual))) {
        Disconnects::ResidualDevice
    } else {
        Disconnects::Neither
    }
}

fn breaker_limit(needs: &Needs) -> Ohms {
    limit(needs.nominal, needs.c_min, needs.breaker.multiple(), needs.in_)
}

/// Least protective conductor, by the adiabatic equation for a fault at the beginning of the cable, at the lowest external impedance, for
/// as long as a breaker takes to trip at once. There the current is greatest whatever the length, so a longer route never needs less. The
/// impedance of what lies ahead is left out, which is cautious.
#[must_use]
pub fn least_protective(needs: &Needs) -> SquareMillimetres {
    adiabatic(needs.nominal.through(needs.ze_lowest), AT_ONCE, K_IN_CABLE.rows[0].1)
}

/// Chooses the smallest size that passes every check over the route.
#[must_use]
pub fn choose<R: Iterator<Item = Piece>>(route: impl Fn() -> R, needs: &Needs) -> Chosen {
    let least = least_protective(needs);
    let mut alone = [None; 4];
    let mut chosen = None;
    let mut last = Checked {
        carries: false,
        drop: needs.ahead.drop,
        zs: needs.ze_highest + needs.ahead.r1_plus_r2,
        by: Disconnects::Neither,
        protective: SquareMillimetres::ZERO,
    };
    for size in SIZES {
        let Some(checked) = check(size, route(), needs) else { continue };
        let passes = [
            checked.carries,
            checked.drop.is_within(needs.allowed),
            checked.by != Disconnects::Neither,
            checked.protective >= least,
        ];
        for (alone, passes) in alone.iter_mut().zip(passes) {
            if passes && alone.is_none() {
                *alone = Some(size);
            }
        }
        last = checked;
        if passes == [true; 4] {
            chosen = Some(size);
            break; // each check has found its smallest by now
        }
    }
    let asks = CHECKS.into_iter().zip(alone).find(|(_, alone)| *alone == chosen).map(|(check, _)| check);
    let governs = match chosen {
        Some(size) if size == SIZES[0] => Check::Smallest,
        Some(_) | None => asks.unwrap_or(Check::Capacity), // no cable of the route is made in a size that passes all
    };
    Chosen { size: chosen, governs, alone, checked: last, limit: breaker_limit(needs), least_protective: least }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::tables::disconnection::{C_MIN, RESIDUAL};
    use model::tables::external_impedance::{TN_C_S, TN_S};
    use model::tables::voltage::NOMINAL;
    use proptest::prelude::*;

    fn needs(ib: f64, in_: f64) -> Needs {
        Needs {
            ib: Amps::of(ib),
            in_: Amps::of(in_),
            breaker: BreakerType::B,
            residual: Some(RESIDUAL),
            nominal: NOMINAL,
            c_min: C_MIN,
            allowed: Volts::of(11.5),
            ahead: Ahead::NOTHING,
            ze_highest: TN_C_S,
            ze_lowest: TN_C_S,
        }
    }

    fn piece(cable: CableType, method: Method, metres: f64) -> Piece {
        Piece { cable, method, length: Metres::of(metres), factors: Factors::REFERENCE }
    }

    fn route(pieces: &[Piece], needs: &Needs) -> Chosen {
        choose(|| pieces.iter().copied(), needs)
    }

    const MM2: fn(f64) -> Option<SquareMillimetres> = |size| Some(SquareMillimetres::of(size));

    #[test]
    fn each_check_can_govern() {
        use CableType::{Armoured, TwinAndEarth};
        let plain = route(&[piece(TwinAndEarth, Method::C, 20.0)], &needs(32.0, 32.0));
        assert_eq!((plain.size, plain.governs), (MM2(6.0), Check::Smallest));
        let hot = route(&[piece(TwinAndEarth, Method::M103, 20.0)], &needs(32.0, 32.0));
        assert_eq!((hot.size, hot.governs), (MM2(10.0), Check::Capacity), "32 A exactly on its limit");
        let long = route(&[piece(Armoured, Method::C, 60.0)], &needs(32.0, 32.0));
        assert_eq!((long.size, long.governs), (MM2(10.0), Check::VoltageDrop));
        // Without a residual-current device the breaker must do it: 0.8 + 45 m × 7.19 mΩ × 1.2 is over 0.55 Ω of a Type C at any size.
        let none = Needs { residual: None, breaker: BreakerType::C, ze_highest: TN_S, ..needs(32.0, 32.0) };
        let never = route(&[piece(Armoured, Method::C, 5.0)], &none);
        assert_eq!((never.size, never.governs), (None, Check::FaultLoop));
        let barely = Needs { ze_highest: Ohms::of(0.4), ..none };
        let loop_governs = route(&[piece(TwinAndEarth, Method::C, 30.0)], &barely);
        assert_eq!((loop_governs.size, loop_governs.governs), (MM2(10.0), Check::FaultLoop));
        // A stiff supply: 230 V over 0.1 Ω is 2,300 A, √(2300² × 0.1)/115 = 6.3 mm².
        let stiff = Needs { ze_lowest: Ohms::of(0.1), ..needs(32.0, 32.0) };
        let strong = route(&[piece(Armoured, Method::C, 5.0)], &stiff);
        assert_eq!((strong.size, strong.governs), (MM2(10.0), Check::Adiabatic));
    }

    #[test]
    fn a_size_that_a_stretch_is_not_made_in_is_left_out() {
        let mixed = [piece(CableType::TwinAndEarth, Method::C, 5.0), piece(CableType::Armoured, Method::D, 150.0)];
        assert_eq!(route(&mixed, &needs(32.0, 32.0)).size, None, "25 mm² would do, but flat cable ends at 16");
        assert_eq!(route(&mixed[1..], &needs(32.0, 32.0)).size, MM2(25.0));
    }

    #[test]
    fn nothing_the_least_and_the_longest() {
        let at = |metres| route(&[piece(CableType::Armoured, Method::D, metres)], &needs(32.0, 32.0));
        assert_eq!(at(0.0).size, MM2(6.0));
        assert_eq!(at(0.0).checked.drop, Volts::ZERO);
        assert_eq!(at(0.1).size, MM2(6.0));
        assert_eq!((at(1000.0).size, at(1000.0).governs), (None, Check::VoltageDrop));
        assert_eq!(route(&[], &needs(32.0, 32.0)).size, MM2(6.0), "no stretch at all");
    }

    /// Source: BS 7671 Table 4E4B: 7.9 and 4.7 mV/A/m for 6 and 10 mm²; 11.5 V from the origin (Table 4Ab). 32 A over 20 m: 5.056 and
    /// 3.008 V. Type B 32 A: 1.37 Ω.
    #[test]
    fn what_lies_ahead_takes_its_share_of_the_drop_and_of_the_loop() {
        let piece = [piece(CableType::Armoured, Method::C, 20.0)];
        let at = |drop: f64, ohms: f64| {
            let ahead = Ahead { drop: Volts::of(drop), r1_plus_r2: Ohms::of(ohms) };
            route(&piece, &Needs { ahead, residual: None, ..needs(32.0, 32.0) })
        };
        assert_eq!((at(6.4, 0.0).size, at(6.4, 0.0).governs), (MM2(6.0), Check::Smallest));
        assert!((at(6.4, 0.0).checked.drop.get() - 11.456).abs() < 1e-9);
        assert_eq!((at(6.5, 0.0).size, at(6.5, 0.0).governs), (MM2(10.0), Check::VoltageDrop), "11.556 V is over");
        assert_eq!(at(11.0, 0.0).size, None, "what is left is too little for any size");
        let plain = at(0.0, 0.0).checked.zs;
        assert!((at(0.0, 0.2).checked.zs.get() - plain.get() - 0.2).abs() < 1e-9);
        assert_eq!(at(0.0, 1.2).governs, Check::FaultLoop, "the breaker alone does not disconnect");
        assert_eq!(
            route(
                &[],
                &Needs { ahead: Ahead { drop: Volts::of(2.0), r1_plus_r2: Ohms::of(0.1) }, ..needs(32.0, 32.0) }
            )
            .checked
            .drop,
            Volts::of(2.0)
        );
    }

    /// Source: BS 7671 Table 4D4A, method D: 46, 60, 78, 99 A. In ≤ Iz, equal included, at every size.
    #[test]
    fn exactly_on_the_capacity_passes_at_every_size() {
        for (size, amps) in [(6.0, 46.0), (10.0, 60.0), (16.0, 78.0), (25.0, 99.0)] {
            let on = route(&[piece(CableType::Armoured, Method::D, 1.0)], &needs(amps, amps));
            assert_eq!(on.size, MM2(size));
            let over = route(&[piece(CableType::Armoured, Method::D, 1.0)], &needs(amps + 0.001, amps + 0.001));
            assert!(over.size != MM2(size));
        }
    }

    proptest! {
        #[test]
        fn a_longer_route_never_needs_a_smaller_cable_nor_drops_less(
            metres in 0.0..500.0_f64, more in 0.0..500.0_f64, ib in 6.0..63.0_f64, ze in 0.05..1.5_f64, residual: bool,
            before in 0.0..11.0_f64,
        ) {
            let needs = Needs {
                residual: residual.then_some(RESIDUAL), ze_highest: Ohms::of(ze), ze_lowest: Ohms::of(ze),
                ahead: Ahead { drop: Volts::of(before), r1_plus_r2: Ohms::of(before / 20.0) }, ..needs(ib, ib)
            };
            for (cable, method) in [(CableType::TwinAndEarth, Method::M101), (CableType::Armoured, Method::D)] {
                let of = |metres| route(&[piece(CableType::Armoured, Method::C, 3.0), piece(cable, method, metres)], &needs);
                let (short, long) = (of(metres), of(metres + more));
                prop_assert!(long.size.is_none() || short.size <= long.size);
                let alone = choose(|| [piece(CableType::Armoured, Method::C, 3.0), piece(cable, method, metres)].into_iter(), &Needs { ahead: Ahead::NOTHING, ..needs });
                prop_assert!(short.size.is_none() || alone.size <= short.size, "a feed never makes it smaller");
                for size in SIZES {
                    let drop = |metres| check(size, [piece(cable, method, metres)].into_iter(), &needs).map(|checked| checked.drop);
                    prop_assert!(drop(metres) <= drop(metres + more));
                }
            }
        }
    }
}
