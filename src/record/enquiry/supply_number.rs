//! The supply number (MPAN) on an electricity bill: thirteen digits that say which network a home is connected to.
//!
//! All of it from memory. A number whose digits do not hold is queried, never refused: it is kept as it was typed.

use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;

/// A supply number whose check digit and area hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SupplyNumber([u8; 13]);

/// Why a supply number should be looked at again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SupplyNumberQuery {
    /// Fewer than thirteen digits: this many.
    #[error("{0} digits of 13")]
    Short(usize),
    /// More than thirteen digits.
    #[error("more than 13 digits")]
    Long,
    /// Something else than digits.
    #[error("something else than digits")]
    Strange,
    /// The first digit is 0: no area's two digits begin so.
    #[error("no area begins with these two digits")]
    NoSuchArea,
    /// The last digit does not follow from the others.
    #[error("the digits do not hold together")]
    CheckDigit,
}

/// What each of the first twelve digits counts in the last. From memory.
const COUNTS: [u32; 12] = [3, 5, 7, 13, 17, 19, 23, 29, 31, 37, 41, 43];
/// The distribution areas of Great Britain, 10 to 23. From memory.
const AREAS: [&str; 14] = [
    "Eastern England",
    "East Midlands",
    "London",
    "Merseyside and North Wales",
    "West Midlands",
    "North East England",
    "North West England",
    "North Scotland",
    "South Scotland",
    "South East England",
    "Southern England",
    "South Wales",
    "South West England",
    "Yorkshire",
];
/// The digits of the upper line, which some bills print before the thirteen. From memory.
const UPPER_LINE: usize = 8;

/// The network operator that a supply number belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Network {
    /// The operator of a distribution area: its two digits and its name.
    Area(u8, &'static str),
    /// An independent network operator, by its two digits: the connection form is sent to that operator, not to the area's.
    Independent(u8),
}

impl SupplyNumber {
    /// Reads a supply number however it was typed: spaces, dashes and dots are skipped, and so is the upper line before it.
    ///
    /// # Errors
    /// [`SupplyNumberQuery`]: why the number should be looked at again.
    ///
    /// # Source
    /// From memory: the last digit is the sum of the first twelve times 3, 5, 7, 13, 17, 19, 23, 29, 31, 37, 41, 43, modulo 11,
    /// modulo 10.
    pub fn read(text: &str) -> Result<Self, SupplyNumberQuery> {
        let mut digits = Vec::new();
        for sign in text.chars().filter(|sign| !sign.is_whitespace() && !"-–.".contains(*sign)) {
            let digit = sign.to_digit(10).ok_or(SupplyNumberQuery::Strange)?;
            digits.push(digit as u8);
        }
        let core = if digits.len() == 13 + UPPER_LINE { &digits[UPPER_LINE..] } else { &digits[..] };
        let number: [u8; 13] = match core.len() {
            13 => core.try_into().map_err(|_| SupplyNumberQuery::Long)?,
            0..13 => return Err(SupplyNumberQuery::Short(core.len())),
            _ => return Err(SupplyNumberQuery::Long),
        };
        let sum: u32 = number.iter().zip(COUNTS).map(|(digit, counts)| u32::from(*digit) * counts).sum();
        if sum % 11 % 10 != u32::from(number[12]) {
            return Err(SupplyNumberQuery::CheckDigit);
        }
        if number[0] == 0 { Err(SupplyNumberQuery::NoSuchArea) } else { Ok(Self(number)) }
    }

    /// The network operator, by the first two digits. From memory.
    #[must_use]
    pub fn network(self) -> Network {
        let first = 10 * self.0[0] + self.0[1];
        AREAS.get(usize::from(first) - 10).map_or(Network::Independent(first), |name| Network::Area(first, name))
    }
}

/// Written in groups as bills print it: 2, 4, 4 and 3 digits.
impl fmt::Display for SupplyNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits: String = self.0.iter().map(ToString::to_string).collect();
        write!(f, "{} {} {} {}", &digits[..2], &digits[2..6], &digits[6..10], &digits[10..])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: two numbers known to hold (from memory).
    #[test]
    fn its_digits_hold_and_tell_the_network() {
        let number = SupplyNumber::read("1012345678903").unwrap();
        assert_eq!((number.network(), number.to_string()), (Network::Area(10, AREAS[0]), "10 1234 5678 903".into()));
        assert_eq!(SupplyNumber::read("2212345678000").unwrap().network(), Network::Area(22, "South West England"));
    }

    /// The sum with 24 in front: 2×3 + 4×5 + 1×7 + 2×13 + 3×17 + 4×19 + 5×23 + 6×29 + 7×31 + 8×37 + 9×41 + 0×43 = 1357;
    /// 1357 = 123 × 11 + 4.
    #[test]
    fn from_24_on_it_is_an_independent_operators() {
        assert_eq!(SupplyNumber::read("2412345678904").unwrap().network(), Network::Independent(24));
    }

    #[test]
    fn spaces_dashes_and_the_upper_line_are_passed_over() {
        let plain = SupplyNumber::read("1012345678903");
        for typed in [" 10 1234 5678 903 ", "10-1234-5678-903", "01 801 100 10 1234 5678 903"] {
            assert_eq!(SupplyNumber::read(typed), plain, "{typed}");
        }
    }

    #[test]
    fn what_does_not_hold_is_told_apart() {
        for (typed, query) in [
            ("", SupplyNumberQuery::Short(0)),
            ("10 1234 5678 90", SupplyNumberQuery::Short(12)),
            ("10 1234 5678 9033", SupplyNumberQuery::Long),
            ("10 1234 5678 9O3", SupplyNumberQuery::Strange),
            ("1012345678904", SupplyNumberQuery::CheckDigit),
            ("0000000000000", SupplyNumberQuery::NoSuchArea),
        ] {
            assert_eq!(SupplyNumber::read(typed), Err(query), "{typed}");
        }
    }

    #[test]
    fn one_wrong_digit_is_nearly_always_seen() {
        let right = "1012345678903";
        let (mut seen, mut all) = (0, 0);
        for at in 0..13 {
            for digit in '0'..='9' {
                let wrong: String =
                    right.chars().enumerate().map(|(n, own)| if n == at { digit } else { own }).collect();
                if wrong != right {
                    all += 1;
                    seen += i32::from(SupplyNumber::read(&wrong).is_err());
                }
            }
        }
        // Remainders 10 and 0 give the same check digit, so some wrong digits go unnoticed: about one in eleven.
        assert!(seen * 20 > all * 17, "{seen} of {all}");
    }
}
