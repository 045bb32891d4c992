//! Quantities and products for the design of a circuit, a night's charging and a radio link.

use super::{
    Amps, KilowattHours, Kilowatts, Metres, Miles, MilliohmsPerMetre, MillivoltsPerAmpMetre, NotAQuantity, Ohms, Pence,
    PencePerKilowattHour, Ratio, SquareMillimetres, Volts, quantity, read_number, write_rounded,
};
use core::fmt;
use core::iter::Sum;
use core::ops::{Add, Mul};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

quantity!(/// Time in seconds.
    Seconds, "s", "seconds");
quantity!(/// Time in hours.
    Hours, "h", "hours");
quantity!(/// Temperature in degrees Celsius, zero or more.
    Celsius, "°C", "degrees Celsius");
quantity!(/// Thermal resistivity of soil, in kelvin metres a watt.
    SoilResistivity, "K·m/W", "kelvin metres a watt");
quantity!(/// The factor k of a conductor's material in the adiabatic equation, in A·√s/mm².
    MaterialFactor, "A·√s/mm²", "a factor k");
quantity!(/// Frequency in megahertz.
    Megahertz, "MHz", "megahertz");
quantity!(/// Loss of a radio signal in decibels.
    Decibels, "dB", "decibels");
quantity!(/// Energy a mile driven, in kilowatt-hours.
    KilowattHoursPerMile, "kWh/mile", "kilowatt-hours a mile");

/// How many of something.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Count(u32);

impl Count {
    /// This many.
    #[must_use]
    pub const fn of(count: u32) -> Self {
        Self(count)
    }

    /// The number.
    #[must_use]
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// Level of a radio signal in decibels over a milliwatt; usually below zero.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Level(f64);

impl Level {
    /// The unit's symbol.
    pub const SYMBOL: &'static str = "dBm";

    /// Makes a level.
    ///
    /// # Errors
    /// [`NotAQuantity`] where the number is NaN or infinite.
    pub fn new(value: f64) -> Result<Self, NotAQuantity> {
        if value.is_finite() { Ok(Self(value + 0.0)) } else { Err(NotAQuantity { unit: "a level" }) }
    }

    /// Makes a level from a figure written in the source.
    #[must_use]
    pub const fn of(value: f64) -> Self {
        assert!(value.is_finite(), "a level is finite");
        Self(value)
    }

    /// The number of decibels over a milliwatt.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The level that arrives after a loss.
    #[must_use]
    pub fn after(self, loss: Decibels) -> Self {
        Self(self.0 - loss.0)
    }
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_rounded(f, self.0, Self::SYMBOL)
    }
}

impl Amps {
    /// The tabulated current that a rating factor would reduce to this one: this current divided by the factor.
    #[must_use]
    pub fn before(self, factor: Ratio) -> Amps {
        Amps(self.0 / factor.0)
    }

    /// The current to the nearest whole ampere.
    #[must_use]
    pub fn rounded(self) -> Amps {
        Amps(libm::round(self.0))
    }

    /// The whole amperes in it, rounded down.
    #[must_use]
    pub fn whole(self) -> Amps {
        Amps(libm::floor(self.0))
    }

    /// Whether the current is at most the capacity. Exactly on the limit passes: a billionth above is allowed for, as the rounding of
    /// arithmetic.
    #[must_use]
    pub fn is_within(self, capacity: Amps) -> bool {
        self.0 <= capacity.0 * (1.0 + 1e-9)
    }

    /// This current as a share of another.
    #[must_use]
    pub fn share_of(self, other: Amps) -> Ratio {
        Ratio(self.0 / other.0)
    }

    /// Power of this current at a voltage to earth, on so many phases, at unity power factor.
    #[must_use]
    pub fn power_at(self, voltage: Volts, phases: Count) -> Kilowatts {
        Kilowatts(self.0 * voltage.0 * f64::from(phases.0) / 1000.0)
    }

    /// Least cross-section of a conductor that carries this current for this time without getting hotter than its insulation allows:
    /// √(I²t)/k, the adiabatic equation.
    #[must_use]
    pub fn heats(self, time: Seconds, k: MaterialFactor) -> SquareMillimetres {
        SquareMillimetres(libm::sqrt(self.0 * self.0 * time.0) / k.0)
    }
}

impl Volts {
    /// Whether the drop is at most what is allowed; see [`Amps::is_within`].
    #[must_use]
    pub fn is_within(self, allowed: Volts) -> bool {
        self.0 <= allowed.0 * (1.0 + 1e-9)
    }

    /// The length over which this voltage drops, at `drop` an ampere and metre and this current.
    #[must_use]
    pub fn drops_over(self, drop: MillivoltsPerAmpMetre, current: Amps) -> Metres {
        Metres(self.0 * 1000.0 / (drop.0 * current.0))
    }

    /// The drop an ampere and metre at which this voltage drops over a length at a current.
    #[must_use]
    pub fn per_amp_metre(self, current: Amps, length: Metres) -> MillivoltsPerAmpMetre {
        MillivoltsPerAmpMetre(self.0 * 1000.0 / (current.0 * length.0))
    }
}

impl Ohms {
    /// Whether the impedance is at most its limit; see [`Amps::is_within`].
    #[must_use]
    pub fn is_within(self, limit: Ohms) -> bool {
        self.0 <= limit.0 * (1.0 + 1e-9)
    }

    /// What is left after subtracting a part; zero where the part is greater.
    #[must_use]
    pub fn less(self, part: Ohms) -> Ohms {
        Ohms(if self.0 > part.0 { self.0 - part.0 } else { 0.0 })
    }

    /// The length of conductor that has this resistance.
    #[must_use]
    pub fn reaches(self, per_metre: MilliohmsPerMetre) -> Metres {
        Metres(self.0 * 1000.0 / per_metre.0)
    }

    /// The impedance of this resistance in series with a reactance: the root of the sum of their squares.
    #[must_use]
    pub fn with_reactance(self, reactance: Ohms) -> Ohms {
        Ohms(libm::hypot(self.0, reactance.0))
    }

    /// Rounded down to hundredths of an ohm, because a limit is never rounded up. A billionth is allowed for, as the rounding of
    /// arithmetic.
    #[must_use]
    pub fn hundredths_down(self) -> Ohms {
        Ohms(libm::floor(self.0 * 100.0 + 1e-9) / 100.0)
    }
}

impl Ratio {
    /// The square.
    #[must_use]
    pub fn squared(self) -> Ratio {
        Ratio(self.0 * self.0)
    }
}

impl Mul<Hours> for Kilowatts {
    type Output = KilowattHours;
    fn mul(self, time: Hours) -> KilowattHours {
        KilowattHours(self.0 * time.0)
    }
}

impl Mul<KilowattHoursPerMile> for Miles {
    type Output = KilowattHours;
    fn mul(self, energy: KilowattHoursPerMile) -> KilowattHours {
        KilowattHours(self.0 * energy.0)
    }
}

impl KilowattHours {
    /// How far a car drives on this energy.
    #[must_use]
    pub fn drives(self, energy: KilowattHoursPerMile) -> Miles {
        Miles(self.0 / energy.0)
    }

    /// How long this energy takes at a power.
    #[must_use]
    pub fn takes(self, power: Kilowatts) -> Hours {
        Hours(self.0 / power.0)
    }

    /// What it costs, to the nearest penny.
    #[must_use]
    pub fn costs(self, price: PencePerKilowattHour) -> Pence {
        Pence::rounded(self.0 * price.0)
    }
}
