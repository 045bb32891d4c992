//! Energy a night and money a year, from miles a day and the homeowner's own price in pence a kilowatt-hour.
//!
//! Arithmetic alone; the caller gives the energy that a car takes a mile ([`model::tables::driving`] has a default, which has no source).

use model::units::{
    Amps, Count, Hours, KilowattHours, KilowattHoursPerMile, Miles, Pence, PencePerKilowattHour, Ratio, Volts,
};

/// Days of a year.
const DAYS: Ratio = Ratio::of(365.0); // arithmetic

/// The energy that a day's miles need, and what a night's charging delivers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Night {
    /// Energy for a day's miles.
    pub needed: KilowattHours,
    /// Energy that the current delivers in the hours available.
    pub delivered: KilowattHours,
    /// How long the day's miles take to charge.
    pub takes: Hours,
    /// How far a whole night's energy drives.
    pub drives: Miles,
}

impl Night {
    /// Whether a night is enough for a day.
    #[must_use]
    pub fn is_enough(&self) -> bool {
        self.needed <= self.delivered
    }
}

/// Works out a night's charging.
#[must_use]
pub fn night(
    miles: Miles,
    a_mile: KilowattHoursPerMile,
    current: Amps,
    voltage: Volts,
    phases: Count,
    available: Hours,
) -> Night {
    let power = current.power_at(voltage, phases);
    let (needed, delivered) = (miles * a_mile, power * available);
    Night { needed, delivered, takes: needed.takes(power), drives: delivered.drives(a_mile) }
}

/// Energy a year for the miles driven on each day.
#[must_use]
pub fn energy_a_year(miles: Miles, a_mile: KilowattHoursPerMile) -> KilowattHours {
    miles * a_mile * DAYS
}

/// Money a year for the miles driven on each day, at a price.
#[must_use]
pub fn a_year(miles: Miles, a_mile: KilowattHoursPerMile, price: PencePerKilowattHour) -> Pence {
    energy_a_year(miles, a_mile).costs(price)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_night_and_a_year() {
        let a_mile = KilowattHoursPerMile::of(0.3);
        let night = night(Miles::of(30.0), a_mile, Amps::of(32.0), Volts::of(230.0), Count::of(1), Hours::of(7.0));
        assert_eq!(night.needed, KilowattHours::of(9.0));
        assert!((night.delivered.get() - 51.52).abs() < 1e-9, "7.36 kW for 7 h");
        assert!((night.takes.get() - 9.0 / 7.36).abs() < 1e-9);
        assert!((night.drives.get() - 51.52 / 0.3).abs() < 1e-9);
        assert!(night.is_enough());
        let three =
            super::night(Miles::of(30.0), a_mile, Amps::of(32.0), Volts::of(230.0), Count::of(3), Hours::of(7.0));
        assert!((three.delivered.get() - 154.56).abs() < 1e-9, "22.08 kW on three phases");
        // Exactly enough is enough, a mile more is not.
        let just =
            super::night(Miles::of(20.0), a_mile, Amps::of(10.0), Volts::of(200.0), Count::of(1), Hours::of(3.0));
        assert!(just.is_enough(), "6 kWh of 6 kWh");
        let over =
            super::night(Miles::of(21.0), a_mile, Amps::of(10.0), Volts::of(200.0), Count::of(1), Hours::of(3.0));
        assert!(!over.is_enough());
        // 30 × 0.3 × 365 = 3,285 kWh.
        assert_eq!(a_year(Miles::of(30.0), a_mile, PencePerKilowattHour::of(10.0)), Pence(32_850));
    }
}
