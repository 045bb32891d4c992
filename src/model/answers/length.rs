//! A distance as the homeowner measured it: metres, feet, paces or bricks.

use crate::units::{Metres, Ratio};
use serde::{Deserialize, Serialize};

super::choices::words! {
    /// What a homeowner measures with; no ladder, no tools.
    pub enum LengthUnit {
        /// Metres.
        Metres => "metres",
        /// Feet.
        Feet => "feet",
        /// Walking paces.
        Paces => "paces",
        /// Brick lengths, joint included, counted along a wall.
        Bricks => "bricks",
        /// Brick courses, joint included, counted up a wall.
        Courses => "courses",
    }
}

/// Metres in a foot: arithmetic, exact by definition (international yard and pound agreement, 1959).
pub const METRES_IN_A_FOOT: Ratio = Ratio::of(0.3048);
/// Metres in a pace: common practice, no source; an installer may set another.
pub const METRES_IN_A_PACE: Ratio = Ratio::of(0.75);
/// Metres in a brick along the wall: 215 mm and a 10 mm joint, the co-ordinating size of BS EN 771-1 bricks (from memory).
pub const METRES_IN_A_BRICK: Ratio = Ratio::of(0.225);
/// Metres in a course up the wall: 65 mm and a 10 mm joint (as above, from memory).
pub const METRES_IN_A_COURSE: Ratio = Ratio::of(0.075);

/// A length as typed, kept in the unit it was measured in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transform = super::schema::lengths))]
pub struct Length {
    /// How many of the unit; zero or more.
    pub value: Ratio,
    /// The unit it was measured in.
    pub unit: LengthUnit,
}

impl Length {
    /// Makes a length in metres.
    #[must_use]
    pub const fn metres(value: f64) -> Self {
        Self { value: Ratio::of(value), unit: LengthUnit::Metres }
    }

    /// The longest distance about a home that is accepted; a longer one is a slip: this program's choice.
    pub const MOST: Metres = Metres::of(1000.0);

    /// Whether the length is at most [`Self::MOST`] (taking the usual pace), and so may be a distance about a home.
    #[must_use]
    pub fn is_a_homes(self) -> bool {
        self.in_metres(METRES_IN_A_PACE) <= Self::MOST
    }

    /// The length in metres. `pace` is how many metres the installer counts for a pace.
    #[must_use]
    pub fn in_metres(self, pace: Ratio) -> Metres {
        let each = match self.unit {
            LengthUnit::Metres => Ratio::of(1.0),
            LengthUnit::Feet => METRES_IN_A_FOOT,
            LengthUnit::Paces => pace,
            LengthUnit::Bricks => METRES_IN_A_BRICK,
            LengthUnit::Courses => METRES_IN_A_COURSE,
        };
        // The product of two finite numbers may overflow: then the length is taken as the greatest there is.
        Metres::new((self.value * each).get()).unwrap_or(Metres::of(f64::MAX))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: a foot is 0.3048 m exactly (1959 agreement).
    #[test]
    fn each_unit_comes_out_in_metres() {
        let of = |value, unit| Length { value: Ratio::of(value), unit }.in_metres(METRES_IN_A_PACE);
        assert_eq!(of(10.0, LengthUnit::Feet), Metres::of(3.048));
        assert_eq!(of(4.0, LengthUnit::Paces), Metres::of(3.0));
        assert_eq!(of(4.0, LengthUnit::Bricks), Metres::of(0.9));
        assert_eq!(of(2.0, LengthUnit::Metres), Metres::of(2.0));
        assert_eq!(of(20.0, LengthUnit::Courses), Metres::of(1.5));
    }
}
