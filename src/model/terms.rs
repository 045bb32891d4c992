//! Terms that every crate uses: how a fact is known, who must agree, the unit a bill counts in, and kinds of supply and earthing.

use crate::answers::choices::words;

words! {
    /// How a fact is known.
    pub enum KnownBy {
        /// Seen by the homeowner.
        Seen => "seen",
        /// Said by the homeowner.
        Said => "said",
        /// Follows from what was seen or said.
        Inferred => "inferred",
        /// Nobody could tell: an assumption.
        Assumed => "assumed",
        /// What was seen contradicts itself.
        Contradicted => "contradicted",
    }
}

words! {
    /// Who must act or answer first.
    pub enum Gatekeeper {
        /// The network operator.
        NetworkOperator => "network-operator",
        /// The electricity supplier.
        Supplier => "supplier",
        /// The landlord or freeholder.
        Landlord => "landlord",
        /// A neighbour.
        Neighbour => "neighbour",
        /// The planning authority.
        Planner => "planner",
        /// The highway authority.
        HighwayAuthority => "highway-authority",
        /// Another trade.
        OtherTrade => "other-trade",
    }
}

words! {
    /// What a bill counts in.
    pub enum BillUnit {
        /// Pieces.
        Each => "each",
        /// Metres.
        Metre => "m",
    }
}

/// How many phases.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phases {
    /// One.
    One,
    /// A rural split-phase supply, or something else to be looked at.
    Split,
    /// Three.
    Three,
}

/// How the supply is earthed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EarthingArrangement {
    /// Combined neutral and earth in the supply (PME).
    TnCS,
    /// A separate earth, by the cable's sheath; may have become PME upstream.
    TnS,
    /// An electrode of the home's own.
    Tt,
}
