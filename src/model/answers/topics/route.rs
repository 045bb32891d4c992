//! From board to charge point: its fields, and the closed lists that they are chosen from.

use crate::answers::{Along, Answer, Answers, BoundedCount, Length, Set};
use crate::words;
use alloc::vec::Vec;
use serde::{Deserialize, Serialize};

topic! {
    /// From board to charge point.
    pub struct Route at route {
        /// Roughly how far.
        length: Length,
        /// Mostly along what.
        mostly: Along,
        /// Stretch by stretch, in order; where given it stands in place of the rough answer.
        stretches: Vec<Stretch>,
        /// How many walls must be drilled.
        walls: BoundedCount<0, 9>,
        /// Thickness of the thickest.
        wall_thickness: Length,
        /// Where the cable leaves the home through its wall.
        entry: Entry,
        /// What lies in the ground on the way.
        buried: Set<Buried>,
        /// Whether an overhead line is near the route.
        overhead_line: bool,
        /// Whose ground it crosses.
        ground: Ground,
        /// Whether a builder left a cable for it.
        builders_cable: bool,
    }
}

/// One stretch of the route.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Stretch {
    /// Along what.
    pub along: Along,
    /// How long.
    #[serde(deserialize_with = "crate::answers::json::object")]
    pub length: Length,
    /// Whether it needs a ladder or tower: over about 3 m above the ground.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub high: bool,
}

/// The route's stretches in order from the board; `None` where there is no answer or the list is empty.
#[must_use]
pub fn said_in_stretches(answers: &Answers) -> Option<&[Stretch]> {
    answers.route.stretches.known().map(Vec::as_slice).filter(|stretches| !stretches.is_empty())
}

words! {
    /// Where the cable leaves the home through its wall, and so how it comes to the charge point.
    pub enum Entry {
        /// Behind the board, then along the wall outside.
        BehindBoard => "behind-board",
        /// Inside up to the spot, then through the wall behind the charge point.
        BehindPoint => "behind-point",
        /// Somewhere between, then along the wall outside.
        Between => "between",
    }
}

words! {
    /// What lies in the ground on the way.
    pub enum Buried {
        /// Gas pipe.
        Gas => "gas",
        /// Water pipe.
        Water => "water",
        /// Drains.
        Drains => "drains",
        /// The supply cable.
        SupplyCable => "supply-cable",
    }
}

words! {
    /// Whose ground the route crosses.
    pub enum Ground {
        /// Their own.
        Own => "own",
        /// Shared with somebody.
        Shared => "shared",
        /// Somebody else's.
        Others => "others",
        /// A public footway.
        Footway => "footway",
    }
}
