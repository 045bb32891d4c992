//! A fact in words, as the assessment holds it: its possible values, likeliest first.

use alloc::string::String;
use alloc::vec::Vec;
use model::terms::KnownBy;
use model::units::Probability;
use serde::{Deserialize, Serialize};

/// A fact about the site, as it is shown: its possible values with their weights.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShownFact {
    /// Which.
    pub fact: String,
    /// How it is known.
    pub known_by: KnownBy,
    /// From which answers.
    pub from: Vec<String>,
    /// Its possible values, likeliest first.
    pub values: Vec<ShownValue>,
}

/// One possible value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShownValue {
    /// In words or with its unit.
    pub value: String,
    /// How probable.
    pub probability: Probability,
}
