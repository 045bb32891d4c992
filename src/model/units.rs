//! Physical quantities and money: one type each, finite, and only the products that physics allows.
//!
//! A bare `f64` is used in this file and where a number comes in or goes out (`new`, `of`, `get`); everywhere else a figure carries its
//! unit.

mod design;
pub mod written;

pub use design::*;

use core::fmt;
use core::iter::Sum;
use core::ops::{Add, Mul, Neg, Sub};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// Why a number is not a quantity.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("this number is not allowed for {unit}; it may be a finite number, zero or more")]
pub struct NotAQuantity {
    unit: &'static str,
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $symbol:literal, $words:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transparent))]
        pub struct $name(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = f64::MAX)))] f64);

        impl $name {
            /// The unit's symbol, as printed beside a figure.
            pub const SYMBOL: &'static str = $symbol;
            /// Zero.
            pub const ZERO: Self = Self(0.0);

            /// Makes the quantity from a number in its own unit.
            ///
            /// # Errors
            /// [`NotAQuantity`] where the number is NaN, infinite or less than zero.
            pub fn new(value: f64) -> Result<Self, NotAQuantity> {
                if value.is_finite() && value >= 0.0 {
                    Ok(Self(value + 0.0)) // + 0.0 turns a negative zero into zero
                } else {
                    Err(NotAQuantity { unit: $words })
                }
            }

            /// Makes the quantity from a figure written in the source; a bad one does not compile in a constant.
            #[must_use]
            pub const fn of(value: f64) -> Self {
                assert!(value.is_finite() && value >= 0.0, "a quantity is finite and not negative");
                Self(value)
            }

            /// The number, in the type's own unit.
            #[must_use]
            pub const fn get(self) -> f64 {
                self.0
            }

            /// The greater of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                if other.0 > self.0 { other } else { self }
            }

            /// The lesser of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                if other.0 < self.0 { other } else { self }
            }
        }

        impl TryFrom<f64> for $name {
            type Error = NotAQuantity;
            fn try_from(value: f64) -> Result<Self, NotAQuantity> {
                Self::new(value)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_f64(self.0)
            }
        }

        // Read through `new`, so that a hostile file can't make a bad one either.
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                Self::new(read_number(deserializer)?).map_err(de::Error::custom)
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, Add::add)
            }
        }

        impl Mul<Ratio> for $name {
            type Output = Self;
            fn mul(self, ratio: Ratio) -> Self {
                Self(self.0 * ratio.0)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write_rounded(f, self.0, $symbol)
            }
        }
    };
}

use quantity;

/// Reads a number. All units share this function, so that each adds few bytes to what a visitor loads.
fn read_number<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    struct Number;

    impl de::Visitor<'_> for Number {
        type Value = f64;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a number, zero or more")
        }

        fn visit_f64<E: de::Error>(self, number: f64) -> Result<f64, E> {
            Ok(number)
        }

        fn visit_u64<E: de::Error>(self, number: u64) -> Result<f64, E> {
            Ok(number as f64)
        }

        fn visit_i64<E: de::Error>(self, number: i64) -> Result<f64, E> {
            Ok(number as f64)
        }
    }

    deserializer.deserialize_f64(Number)
}

/// Writes a figure with at most three decimals and without trailing zeros, then its symbol.
fn write_rounded(f: &mut fmt::Formatter<'_>, value: f64, symbol: &str) -> fmt::Result {
    let thousandths = libm::round(value * 1000.0) as i64;
    let (sign, size) = if thousandths < 0 { ("-", -thousandths) } else { ("", thousandths) };
    write!(f, "{sign}{}", size / 1000)?;
    match size % 1000 {
        0 => {}
        part if part % 100 == 0 => write!(f, ".{}", part / 100)?,
        part if part % 10 == 0 => write!(f, ".{:02}", part / 10)?,
        part => write!(f, ".{part:03}")?,
    }
    if symbol.is_empty() { Ok(()) } else { write!(f, " {symbol}") }
}

quantity!(/// A plain ratio: a factor, a share, a multiplier; never negative.
    Ratio, "", "a ratio");
quantity!(/// Electric current in amperes; never negative. Headroom, which may be, is [`Headroom`].
    Amps, "A", "amperes");
quantity!(/// Electric potential in volts.
    Volts, "V", "volts");
quantity!(/// Resistance or impedance in ohms.
    Ohms, "Ω", "ohms");
quantity!(/// Length in metres.
    Metres, "m", "metres");
quantity!(/// Conductor cross-section in square millimetres.
    SquareMillimetres, "mm²", "square millimetres");
quantity!(/// Resistance of a length of conductor, in milliohms a metre.
    MilliohmsPerMetre, "mΩ/m", "milliohms a metre");
quantity!(/// Voltage drop of a cable, in millivolts for each ampere and metre of route.
    MillivoltsPerAmpMetre, "mV/A/m", "millivolts an ampere a metre");
quantity!(/// Power in kilowatts.
    Kilowatts, "kW", "kilowatts");
quantity!(/// Energy in kilowatt-hours.
    KilowattHours, "kWh", "kilowatt-hours");
quantity!(/// Distance driven, in miles.
    Miles, "miles", "miles");
quantity!(/// Labour, in minutes of one person.
    Minutes, "min", "minutes");
quantity!(/// Price of energy, in pence a kilowatt-hour.
    PencePerKilowattHour, "p/kWh", "pence a kilowatt-hour");
quantity!(/// Data rate, in megabits a second.
    MegabitsPerSecond, "Mbit/s", "megabits a second");
quantity!(/// Received radio power, in decibels under one milliwatt: 67 is what a meter shows as −67 dBm.
    DecibelsUnder, "dB under 1 mW", "decibels under one milliwatt");

impl Mul<Ohms> for Amps {
    type Output = Volts;
    fn mul(self, resistance: Ohms) -> Volts {
        Volts(self.0 * resistance.0)
    }
}

impl Mul<Metres> for MilliohmsPerMetre {
    type Output = Ohms;
    fn mul(self, length: Metres) -> Ohms {
        Ohms(self.0 * length.0 / 1000.0)
    }
}

/// Voltage drop a metre, in millivolts: what `mV/A/m × A` gives.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct MillivoltsPerMetre(f64);

impl Mul<Amps> for MillivoltsPerAmpMetre {
    type Output = MillivoltsPerMetre;
    fn mul(self, current: Amps) -> MillivoltsPerMetre {
        MillivoltsPerMetre(self.0 * current.0)
    }
}

impl Mul<Metres> for MillivoltsPerMetre {
    type Output = Volts;
    fn mul(self, length: Metres) -> Volts {
        Volts(self.0 * length.0 / 1000.0)
    }
}

impl Kilowatts {
    /// The current a single-phase load of this power takes at unity power factor.
    #[must_use]
    pub fn current_at(self, voltage: Volts) -> Amps {
        Amps(self.0 * 1000.0 / voltage.0)
    }
}

impl Metres {
    /// What is left of a length after subtracting a part; zero where the part is longer.
    #[must_use]
    pub fn less(self, part: Metres) -> Metres {
        Metres(if self.0 > part.0 { self.0 - part.0 } else { 0.0 })
    }

    /// How many times as long this is as the other; `None` where the other is zero.
    #[must_use]
    pub fn times_of(self, other: Metres) -> Option<Ratio> {
        (other.0 > 0.0).then(|| Ratio(self.0 / other.0))
    }
}

impl Volts {
    /// The excess over `threshold`; zero where there is none.
    #[must_use]
    pub fn above(self, threshold: Volts) -> Volts {
        Volts(if self.0 > threshold.0 { self.0 - threshold.0 } else { 0.0 })
    }

    /// This drop as a share of the nominal voltage.
    #[must_use]
    pub fn share_of(self, nominal: Volts) -> Ratio {
        Ratio(self.0 / nominal.0)
    }

    /// The current that flows through an impedance at this voltage.
    #[must_use]
    pub fn through(self, impedance: Ohms) -> Amps {
        Amps(self.0 / impedance.0)
    }

    /// The impedance at which this voltage drives just that current.
    #[must_use]
    pub fn over(self, current: Amps) -> Ohms {
        Ohms(self.0 / current.0)
    }
}

impl Amps {
    /// The limit less this demand; below zero where the demand is over the limit.
    #[must_use]
    pub fn headroom_under(self, limit: Amps) -> Headroom {
        Headroom(limit.0 - self.0)
    }

    /// The excess over `threshold`; zero where there is none.
    #[must_use]
    pub fn above(self, threshold: Amps) -> Amps {
        Amps(if self.0 > threshold.0 { self.0 - threshold.0 } else { 0.0 })
    }
}

/// What the main fuse leaves over, in amperes; negative where demand exceeds it.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transparent))]
pub struct Headroom(f64);

impl Headroom {
    /// The current that still fits, or `None` where nothing does.
    #[must_use]
    pub fn as_current(self) -> Option<Amps> {
        Amps::new(self.0).ok()
    }

    /// The number of amperes, negative where demand is over the limit.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }
}

impl fmt::Display for Headroom {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_rounded(f, self.0, "A")
    }
}

/// How probable something is held to be: 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(!try_from, !into, transparent))]
pub struct Probability(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.0)))] f64);

/// Why a number is not a probability.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("this number is not allowed for a probability; it may be 0 to 1")]
pub struct NotAProbability;

impl Probability {
    /// Certain: 1.
    pub const CERTAIN: Self = Self(1.0);
    /// Impossible: 0.
    pub const NEVER: Self = Self(0.0);

    /// Makes a probability.
    ///
    /// # Errors
    /// [`NotAProbability`] outside 0 to 1, or NaN.
    pub fn new(value: f64) -> Result<Self, NotAProbability> {
        if (0.0..=1.0).contains(&value) { Ok(Self(value + 0.0)) } else { Err(NotAProbability) }
    }

    /// Makes a probability from a figure written in the source.
    #[must_use]
    pub const fn of(value: f64) -> Self {
        assert!(value >= 0.0 && value <= 1.0, "a probability is 0 to 1");
        Self(value)
    }

    /// The probability of a sum of weights that should lie in 0 to 1: what rounding put outside is cut off, and the sum is rounded to nine
    /// places so that the order of adding does not show.
    #[must_use]
    pub fn from_sum(sum: f64) -> Self {
        let rounded = libm::round(sum * 1e9) / 1e9;
        Self(rounded.clamp(0.0, 1.0))
    }

    /// The number.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The probability that it is not so.
    #[must_use]
    pub fn complement(self) -> Self {
        Self::from_sum(1.0 - self.0)
    }
}

impl Probability {
    /// The greater of two.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        if other > self { other } else { self }
    }
}

impl Mul for Probability {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self(self.0 * other.0)
    }
}

impl TryFrom<f64> for Probability {
    type Error = NotAProbability;
    fn try_from(value: f64) -> Result<Self, NotAProbability> {
        Self::new(value)
    }
}

impl From<Probability> for f64 {
    fn from(probability: Probability) -> f64 {
        probability.0
    }
}

/// Money in whole pence, so that sums are exact. A floating number becomes money only through [`Pence::rounded`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transparent))]
pub struct Pence(#[cfg_attr(feature = "schema", schemars(range(min = i64::MIN, max = i64::MAX)))] pub i64);

impl Pence {
    /// Rounds a floating number of pence to the nearest, halves away from zero. No other conversion from a floating number exists.
    #[must_use]
    pub fn rounded(pence: f64) -> Self {
        Self(libm::round(pence) as i64)
    }

    /// The pence as a floating number, for the arithmetic of distributions.
    #[must_use]
    pub fn as_f64(self) -> f64 {
        self.0 as f64
    }

    /// Rounded down to a multiple of `step`; a step of zero or less changes nothing.
    #[must_use]
    pub fn down_to(self, step: Pence) -> Self {
        if step.0 <= 0 { self } else { Self(self.0.div_euclid(step.0).saturating_mul(step.0)) }
    }

    /// Rounded up to a multiple of `step`; a step of zero or less changes nothing.
    #[must_use]
    pub fn up_to(self, step: Pence) -> Self {
        if step.0 <= 0 { self } else { -(-self).down_to(step) }
    }
}

impl Add for Pence {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Pence {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Pence {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Sum for Pence {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Pence(0), Add::add)
    }
}

impl fmt::Display for Pence {
    /// Pounds with thousands separated; pence only where there are any: `£1,250`, `£12.50`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = self.0.unsigned_abs();
        let (pounds, pence) = (size / 100, size % 100);
        if self.0 < 0 {
            f.write_str("-")?;
        }
        f.write_str("£")?;
        let mut thousand = 1;
        while pounds / thousand >= 1000 {
            thousand *= 1000;
        }
        write!(f, "{}", pounds / thousand)?;
        while thousand > 1 {
            thousand /= 1000;
            write!(f, ",{:03}", pounds / thousand % 1000)?;
        }
        if pence == 0 { Ok(()) } else { write!(f, ".{pence:02}") }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn a_quantity_refuses_what_is_not_one() {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -0.001] {
            assert!(Amps::new(bad).is_err());
            assert!(Probability::new(bad).is_err());
        }
        assert_eq!(Amps::new(-0.0).map(|amps| amps.get().is_sign_positive()), Ok(true));
    }

    #[test]
    fn a_hostile_file_cannot_make_a_bad_one_either() {
        assert!(serde_json::from_str::<Amps>("-1").is_err());
        assert!(serde_json::from_str::<Amps>("1e999").is_err());
        assert!(serde_json::from_str::<Probability>("1.01").is_err());
    }

    #[test]
    fn products_keep_their_units() {
        assert_eq!(Amps::of(10.0) * Ohms::of(0.5), Volts::of(5.0));
        assert_eq!(MilliohmsPerMetre::of(1.83) * Metres::of(100.0), Ohms::of(0.183));
        assert_eq!(Kilowatts::of(2.3).current_at(Volts::of(230.0)), Amps::of(10.0));
    }

    #[test]
    fn headroom_may_be_negative_and_then_nothing_fits() {
        let headroom = Amps::of(70.0).headroom_under(Amps::of(60.0));
        assert_eq!(headroom.get(), -10.0);
        assert_eq!(headroom.as_current(), None);
    }

    #[test]
    fn money_rounds_outwards_to_a_step() {
        assert_eq!(Pence(101_234).down_to(Pence(5_000)), Pence(100_000));
        assert_eq!(Pence(101_234).up_to(Pence(5_000)), Pence(105_000));
        assert_eq!(Pence(100_000).up_to(Pence(5_000)), Pence(100_000));
        assert_eq!(Pence(7).up_to(Pence(0)), Pence(7));
    }

    #[test]
    fn figures_read_as_people_write_them() {
        assert_eq!(Pence(125_000).to_string(), "£1,250");
        assert_eq!(Pence(1_250).to_string(), "£12.50");
        assert_eq!(Pence(100_000_000_000).to_string(), "£1,000,000,000");
        assert_eq!(Pence(-123_456_789_012_345).to_string(), "-£1,234,567,890,123.45");
        assert_eq!(Pence(i64::MAX).to_string(), "£92,233,720,368,547,758.07");
        assert_eq!(Pence(i64::MIN).to_string(), "-£92,233,720,368,547,758.08");
        assert_eq!(Amps::of(32.0).to_string(), "32 A");
        assert_eq!(Ohms::of(0.35).to_string(), "0.35 Ω");
        assert_eq!(Volts::of(4.672).to_string(), "4.672 V");
        assert_eq!(Headroom(-10.5).to_string(), "-10.5 A");
    }
}
