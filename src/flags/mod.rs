//! What the installer must know: one rule, one file; its sentences in the wording files.

mod weight;

pub use weight::Weight;
