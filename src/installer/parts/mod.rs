//! Small components that several views share. They only show what they are given.

mod notice;
mod plan;
mod tape_strip;
mod weight_mark;

pub use notice::Notice;
pub use plan::Plan;
pub use tape_strip::{BandTape, TapeStrip};
pub use weight_mark::WeightMark;
