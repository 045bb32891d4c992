//! The design of one known case: demand, network process, earthing measure, board decision, cable, data link.
//!
//! Each decision is worked for one known case without allocating, and reads its facts through the case, which records which were read.
//! Nothing here knows money. The workings of figures are made in another crate, only when asked for.

pub mod board;
pub mod cable;
pub mod data_link;
pub mod earthing;
pub mod laid;
pub mod network;
pub mod outcomes;
pub mod protection;

use crate::context::Context;
use crate::site::case::KnownCase;
use model::answers::{MainConductors, choices::words};

pub use board::{BoardDecision, Isolation};
pub use cable::CableDesign;
pub use data_link::DataLink;
pub use earthing::{EarthingMeasure, ElectrodeWork, OpenPen};
pub use network::{NetworkProcess, Outcome};
pub use outcomes::{Design, Outcomes};

words! {
    /// The decisions, in the order of the work.
    pub enum DecisionId {
        /// Demand and network process.
        Network => "network",
        /// The board.
        Board => "board",
        /// Tails and main earthing conductor.
        MainConductors => "main-conductors",
        /// Bonding of gas.
        GasBonding => "gas-bonding",
        /// Bonding of water.
        WaterBonding => "water-bonding",
        /// Bonding of oil, LPG or structural steel.
        OtherBonding => "other-bonding",
        /// The earthing measure.
        Earthing => "earthing",
        /// The cable.
        Cable => "cable",
        /// The data link.
        DataLink => "data-link",
    }
}

/// The outcome of one decision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Decided {
    /// Demand and network process.
    Network(NetworkProcess),
    /// The board.
    Board(BoardDecision),
    /// Whether tails and main earthing conductor are large enough.
    MainConductors(MainConductors),
    /// Whether gas is to be bonded.
    GasBonding(bool),
    /// Whether water is to be bonded.
    WaterBonding(bool),
    /// Whether oil, LPG or structural steel is to be bonded.
    OtherBonding(bool),
    /// The earthing measure.
    Earthing(EarthingMeasure),
    /// A new cable.
    Cable(CableDesign),
    /// The cable that is there.
    CableKept,
    /// The data link.
    DataLink(DataLink),
}

/// Takes one decision in one known case.
#[must_use]
pub fn decide(id: DecisionId, case: &KnownCase<'_>, given: &Context<'_>) -> Decided {
    match id {
        DecisionId::Network => Decided::Network(network::decide(case, given)),
        DecisionId::Board => Decided::Board(board::decide(case, given)),
        DecisionId::MainConductors => Decided::MainConductors(case.conductors()),
        DecisionId::GasBonding => Decided::GasBonding(case.gas()),
        DecisionId::WaterBonding => Decided::WaterBonding(case.water()),
        DecisionId::OtherBonding => Decided::OtherBonding(case.other_metal()),
        DecisionId::Earthing => Decided::Earthing(earthing::decide(case, given)),
        DecisionId::Cable if cable::is_kept(case) => Decided::CableKept,
        DecisionId::Cable => Decided::Cable(cable::decide(case, given)),
        DecisionId::DataLink => Decided::DataLink(data_link::decide(case, given)),
    }
}

impl Decided {
    /// Whether a new enclosure, or a whole new board, is put in.
    #[must_use]
    pub const fn is_enclosure(&self) -> bool {
        matches!(self, Self::Board(BoardDecision::Enclosure { .. } | BoardDecision::Replace { .. }))
    }

    /// Whether the supplier has to make the tails dead first.
    #[must_use]
    pub const fn waits_for_supplier(&self) -> bool {
        matches!(
            self,
            Self::Board(
                BoardDecision::Enclosure { isolation: Isolation::Supplier, .. }
                    | BoardDecision::Replace { isolation: Isolation::Supplier }
            )
        )
    }

    /// Whether the network operator must be asked first.
    #[must_use]
    pub fn asks_first(&self) -> bool {
        matches!(self, Self::Network(process) if process.outcome != Outcome::NotifyAfter)
    }

    /// Whether somebody from the network operator must come, or dig, first.
    #[must_use]
    pub fn waits_for_the_operator(&self) -> bool {
        matches!(self, Self::Network(process) if process.outcome == Outcome::AskFirstWorksLikely)
    }

    /// The outcome in a word.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Network(process) => process.outcome.word(),
            Self::Board(board) => board.word(),
            Self::MainConductors(found) => found.word(),
            Self::GasBonding(true) | Self::WaterBonding(true) | Self::OtherBonding(true) => "bond",
            Self::GasBonding(false) | Self::WaterBonding(false) | Self::OtherBonding(false) => "nothing-to-do",
            Self::Earthing(measure) => measure.word(),
            Self::Cable(cable) => cable.word(),
            Self::CableKept => "kept",
            Self::DataLink(link) => link.word(),
        }
    }
}
