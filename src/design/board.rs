//! The board decision: use a way, or a small enclosure of its own fed by splitting the tails; and how the tails are isolated.
//!
//! Source: BS 7671 722.531.3.101 (each point protected individually, double-pole, 30 mA), as quoted in a trade journal's
//! technical column; enclosure non-combustible, 421.1.201. Whether a way behind a shared RCD counts as individual is disputed:
//! the stricter reading is taken here. The rest: common practice, no source.

use super::Given;
use crate::site::case::KnownCase;
use crate::site::{BoardState, Feed};

/// How the meter tails are made dead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Isolation {
    /// By a switch after the meter.
    Switch,
    /// By withdrawing the service fuse, which the network operator here permits registered electricians.
    DrawFuse,
    /// By the supplier or network operator: a wait.
    Supplier,
}

/// What is done at the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoardDecision {
    /// A double-pole device in a spare way.
    UseWay {
        /// Whether a surge protective device is added.
        surge: bool,
    },
    /// A small enclosure with its own protection beside the board.
    Enclosure {
        /// How the tails are isolated for it.
        isolation: Isolation,
        /// Why the board itself is not used.
        because: NotUsed,
    },
}

/// Why a board is not used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotUsed {
    /// No spare way.
    Full,
    /// Its spare ways are behind a shared residual-current device.
    SharedDevice,
    /// No double-pole device of the kind needed can be had for it.
    NoDevice,
    /// Fuse wire.
    FuseWire,
    /// It is an outbuilding's board, whose feed does not carry it: the cable comes from the home.
    Outbuilding,
}

/// Decides.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Given<'_>) -> BoardDecision {
    let because = if matches!(case.feed(), Feed::TooSmall(_)) {
        NotUsed::Outbuilding
    } else {
        match case.board() {
            BoardState::OwnWay if case.device() => return BoardDecision::UseWay { surge: !case.surge_device() },
            BoardState::OwnWay => NotUsed::NoDevice,
            BoardState::SharedWay => NotUsed::SharedDevice,
            BoardState::Full => NotUsed::Full,
            BoardState::FuseWire => NotUsed::FuseWire,
        }
    };
    let isolation = if case.switch_after_meter() {
        Isolation::Switch
    } else if given.config.thresholds.may_draw_fuse {
        Isolation::DrawFuse
    } else {
        Isolation::Supplier
    };
    BoardDecision::Enclosure { isolation, because }
}

impl BoardDecision {
    /// In a word.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::UseWay { .. } => "use-a-way",
            Self::Enclosure { because, .. } => match because {
                NotUsed::Full => "enclosure-board-full",
                NotUsed::SharedDevice => "enclosure-shared-device",
                NotUsed::NoDevice => "enclosure-no-device",
                NotUsed::FuseWire => "enclosure-fuse-wire",
                NotUsed::Outbuilding => "enclosure-outbuilding",
            },
        }
    }
}
