//! A flag that was raised for a home, and which of a home's flags are shown at first.

use super::Weight;
use alloc::string::String;
use alloc::vec::Vec;
use model::units::Probability;
use serde::{Deserialize, Serialize};

/// A flag that was raised.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Raised {
    /// The flag's code; wording keys are made from it.
    pub code: String,
    /// How grave.
    pub weight: Weight,
    /// The probability that it applies.
    pub probability: Probability,
    /// What was seen or said.
    pub evidence: Vec<String>,
    /// Clause, or "common practice, no source".
    pub source: String,
    /// Whether it applies to nearly every home, and so is not shown among the first.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub usual: bool,
}

/// How many flags are shown at first; the rest are folded away. Common practice, no source.
const SPEAK: usize = 5;

/// The flags that are shown at first, up to five that decide something for this home; then those that are folded away, with the ones that
/// apply to nearly every home last.
#[must_use]
pub fn unfolded(flags: &[Raised]) -> (Vec<&Raised>, Vec<&Raised>) {
    let (usual, own): (Vec<&Raised>, Vec<&Raised>) = flags.iter().partition(|flag| flag.usual);
    let decides = |flag: &&Raised| flag.weight < Weight::WorthKnowing;
    let (deciding, others): (Vec<&Raised>, Vec<&Raised>) = own.into_iter().partition(decides);
    let (speak, rest) = deciding.split_at(deciding.len().min(SPEAK));
    (speak.to_vec(), rest.iter().copied().chain(others).chain(usual).collect())
}
