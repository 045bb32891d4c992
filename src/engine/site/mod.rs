//! What can be inferred from the answers: facts about the site, each with its possible values, how it is known, and the questions it rests
//! on.
//!
//! Nothing is decided here (`design` does that). An unknown fact leaves as weighted values; only facts that a decision reads are ever
//! multiplied out (see [`case`]).

mod agreement;
mod board;
mod bonding;
pub mod case;
mod circuit;
mod contradiction;
mod drawn;
mod earthing;
mod fact;
mod facts;
mod feed;
mod generation;
mod hazard;
mod inference;
mod loads;
mod nation;
mod route;
mod router;
mod shown;
mod supply;

pub use agreement::{Agreement, agreements};
pub use board::BoardState;
pub use circuit::CircuitThere;
pub use contradiction::Contradiction;
pub use drawn::drawn;
pub use fact::{FACTS, Fact, FactId, FactSet};
pub use feed::{FAR, Feed};
pub use hazard::{HazardInference, infer as hazard_of};
pub use inference::{Coverage, Site, coverage, infer};
pub use loads::{InUse, Load, Rated, at_night, by_ratings, half_hour, is_implausible, loads, plausible, rated};
pub use model::answers::said_in_stretches;
pub use model::terms::{EarthingArrangement, Phases};
pub use nation::{Nation, nation};
pub use route::{
    Run, THICK_WALL, as_said, digs, is_ground, likely_length, may_hold_asbestos, on_a_fence, runs, verdict,
};
pub use router::RouterWay;
pub use shown::{ShownFact, ShownValue};
pub use supply::Supply;
