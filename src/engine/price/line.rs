//! The lines of a bill, its sums, and the distribution of the price as a chart.

use alloc::vec::Vec;
use model::config::{Item, ThreeMinutes};
use model::terms::BillUnit;
use model::units::{Amps, Pence, Probability, Ratio};
use serde::{Deserialize, Serialize};

/// One line of the bill.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BillLine {
    /// The item.
    pub item: Item,
    /// How probable it is to be needed.
    pub probability: Probability,
    /// How many of the unit, where needed: the mean over the cases in which it is.
    pub quantity: Ratio,
    /// The unit: `each` or `m`.
    pub unit: BillUnit,
    /// Labour where needed.
    pub minutes: ThreeMinutes,
    /// Labour where needed, before VAT: the mean.
    #[serde(default)]
    pub labour: Pence,
    /// Materials where needed, before VAT: the mean.
    #[serde(default)]
    pub materials: Pence,
    /// Both.
    pub price: Pence,
    /// That price by how probable it is to be paid: what the bill adds up.
    #[serde(default)]
    pub expected: Pence,
    /// The day of one person's work that it begins in, from 1 on.
    #[serde(default)]
    pub day: u8,
    /// What of the bill is done before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<Item>,
    /// What the load limit is set to, on the line of its clamp: likeliest first, where cases differ.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub set_at: Vec<Amps>,
}

/// What the bill comes to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Sums {
    /// The lines' expected prices.
    pub before_vat: Pence,
    /// VAT on that, to the nearest penny.
    pub vat: Pence,
    /// Both.
    pub with_vat: Pence,
}

/// How many of a thousand such jobs fall into each step of price, VAT included.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Curve {
    /// Where the first step begins.
    pub from: Pence,
    /// How wide a step is.
    pub step: Pence,
    /// Jobs in each step.
    pub of_a_thousand: Vec<u16>,
}
