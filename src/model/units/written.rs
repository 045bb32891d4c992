//! Quantities as a person writes them: a number and its unit, such as `20m`, `6mm2`, `30mA`, `66%`.
//!
//! A unit is never guessed: where a quantity has a unit, a bare number is refused, and so is any unit that is not one of the quantity's.

use super::{
    Amps, Celsius, Count, Decibels, Hours, KilowattHours, KilowattHoursPerMile, Kilowatts, Level, MaterialFactor,
    Megahertz, Metres, Miles, MilliohmsPerMetre, MillivoltsPerAmpMetre, Ohms, PencePerKilowattHour, Ratio, Seconds,
    SoilResistivity, SquareMillimetres, Volts,
};
use alloc::string::{String, ToString};

/// One spelling of a unit, and its size in the quantity's own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spelling {
    /// As written after the number; empty for none.
    pub written: &'static str,
    /// How many of the quantity's own unit one of it is.
    pub is: f64,
}

/// Why a text is not a quantity.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NotWritten {
    /// It does not begin with a number.
    #[error("a number is missing at the beginning")]
    NoNumber,
    /// Its unit is not one of the quantity's.
    #[error("{}", unit_words(given))]
    Unit {
        /// The unit that was written.
        given: String,
    },
    /// The number is not allowed for it.
    #[error("{0}")]
    NotAllowed(String),
}

fn unit_words(given: &str) -> String {
    if given.is_empty() { "its unit is missing".to_string() } else { alloc::format!("{given:?} is not its unit") }
}

/// A quantity that can be written with its unit.
pub trait Written: Sized + Copy {
    /// Every spelling of its units; the first is its own unit.
    const UNITS: &'static [Spelling];

    /// Makes the quantity from a number of its own unit.
    ///
    /// # Errors
    /// Says in words why the number is not allowed.
    fn made_of(number: f64) -> Result<Self, String>;

    /// The number, in its own unit.
    fn number(self) -> f64;
}

/// Reads a quantity from a number and its unit.
///
/// # Errors
/// [`NotWritten`] where there is no number, where the unit is missing or not one of the quantity's, or where the number is not allowed.
pub fn read<Q: Written>(text: &str) -> Result<Q, NotWritten> {
    let (number, unit) = split(text.trim())?;
    let spelling = Q::UNITS
        .iter()
        .find(|spelling| spelling.written == unit)
        .ok_or_else(|| NotWritten::Unit { given: unit.chars().take(20).collect() })?;
    Q::made_of(number * spelling.is).map_err(NotWritten::NotAllowed)
}

/// Splits a text into number and unit. No exponent is read, so that an `e` that belongs to a unit is never taken for one.
fn split(text: &str) -> Result<(f64, &str), NotWritten> {
    let is_of_number =
        |(at, letter): &(usize, char)| letter.is_ascii_digit() || *letter == '.' || (*at == 0 && *letter == '-');
    let end = text.char_indices().find(|pair| !is_of_number(pair)).map_or(text.len(), |(at, _)| at);
    let number = text[..end].parse().map_err(|_| NotWritten::NoNumber)?;
    Ok((number, text[end..].trim_start()))
}

macro_rules! written {
    ($($name:ident: $($unit:literal = $is:expr),+;)+) => {$(
        impl Written for $name {
            const UNITS: &'static [Spelling] = &[$(Spelling { written: $unit, is: $is }),+];
            fn made_of(number: f64) -> Result<Self, String> {
                Self::new(number).map_err(|why| why.to_string())
            }
            fn number(self) -> f64 {
                self.get()
            }
        }
    )+};
}

/// Metres in a mile: the international mile, exact by definition (1959).
const MILE: f64 = 1609.344;

written! {
    Amps: "A" = 1.0, "mA" = 1e-3, "kA" = 1e3;
    Volts: "V" = 1.0, "mV" = 1e-3, "kV" = 1e3;
    Ohms: "Ω" = 1.0, "ohm" = 1.0, "mΩ" = 1e-3, "mohm" = 1e-3, "kΩ" = 1e3, "kohm" = 1e3;
    // The international foot, exact by definition (1959).
    Metres: "m" = 1.0, "mm" = 1e-3, "cm" = 1e-2, "km" = 1e3, "ft" = 0.3048;
    SquareMillimetres: "mm²" = 1.0, "mm2" = 1.0;
    MilliohmsPerMetre: "mΩ/m" = 1.0, "mohm/m" = 1.0, "Ω/km" = 1.0, "ohm/km" = 1.0, "Ω/m" = 1e3, "ohm/m" = 1e3;
    MillivoltsPerAmpMetre: "mV/A/m" = 1.0, "V/A/km" = 1.0;
    Kilowatts: "kW" = 1.0, "W" = 1e-3;
    KilowattHours: "kWh" = 1.0, "Wh" = 1e-3;
    Miles: "miles" = 1.0, "mile" = 1.0, "km" = 1e3 / MILE;
    KilowattHoursPerMile: "kWh/mile" = 1.0, "Wh/mile" = 1e-3, "kWh/km" = MILE / 1e3;
    PencePerKilowattHour: "p/kWh" = 1.0, "£/kWh" = 1e2;
    Seconds: "s" = 1.0, "ms" = 1e-3, "min" = 60.0;
    Hours: "h" = 1.0, "min" = 1.0 / 60.0;
    Celsius: "°C" = 1.0, "C" = 1.0;
    SoilResistivity: "K·m/W" = 1.0, "Km/W" = 1.0;
    MaterialFactor: "" = 1.0;
    Megahertz: "MHz" = 1.0, "GHz" = 1e3;
    Decibels: "dB" = 1.0;
    Level: "dBm" = 1.0;
    Ratio: "" = 1.0, "%" = 1e-2;
}

impl Written for Count {
    const UNITS: &'static [Spelling] = &[Spelling { written: "", is: 1.0 }];
    fn made_of(number: f64) -> Result<Self, String> {
        // No count in this program is above a thousand.
        if (0.0..=1000.0).contains(&number) && libm::floor(number) == number {
            Ok(Self::of(number as u32))
        } else {
            Err("this is not a whole number from 0 to 1000".to_string())
        }
    }
    fn number(self) -> f64 {
        f64::from(self.get())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_and_its_unit() {
        assert_eq!(read::<Amps>("32A"), Ok(Amps::of(32.0)));
        assert_eq!(read::<Amps>("30 mA"), Ok(Amps::of(0.03)));
        assert_eq!(read::<SquareMillimetres>("6mm2"), read("6mm²"));
        assert_eq!(read::<Ratio>("66%"), Ok(Ratio::of(0.66)));
        assert_eq!(read::<Level>("-67dBm"), Ok(Level::of(-67.0)));
        assert_eq!(read::<Count>("3"), Ok(Count::of(3)));
    }

    #[test]
    fn what_is_not_one_is_refused() {
        for bad in [
            "",
            "A",
            "NaN",
            "NaNA",
            "inf",
            "infinityA",
            "1..2A",
            "--1A",
            "1e5A",
            "1e999A",
            "32",
            "32V",
            "32 amps",
            "-1A",
        ] {
            assert!(read::<Amps>(bad).is_err(), "{bad}");
        }
        assert!(read::<Amps>(&alloc::format!("{}A", "9".repeat(400))).is_err(), "a number past all bounds is infinite");
        assert!(read::<Count>("1.5").is_err() && read::<Count>("-1").is_err());
        assert!(read::<Level>("NaNdBm").is_err());
    }
}
