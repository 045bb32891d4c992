//! The data link of the charge point: the home's Wi-Fi where it reaches, else a data cable beside the power cable.
//!
//! Common practice, no source.

use super::Given;
use crate::site::case::KnownCase;
use crate::units::Metres;

/// What carries the data.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DataLink {
    /// The home's Wi-Fi.
    Wireless,
    /// A cable beside the power cable, of this length, ending in a box by the board.
    Cable(Metres),
    /// A cable that is there already.
    CableThere,
}

/// Decides.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Given<'_>) -> DataLink {
    if given.answers.signal.data_cable.is(true) {
        DataLink::CableThere
    } else if case.weak_signal() {
        DataLink::Cable(case.route_length())
    } else {
        DataLink::Wireless
    }
}

impl DataLink {
    /// In a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Wireless => "wireless",
            Self::Cable(_) => "data-cable",
            Self::CableThere => "data-cable-there",
        }
    }
}
