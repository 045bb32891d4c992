//! What one unit of each item costs by the config: worked once for a home, asked for in every case of it.

use super::moments::{Cost, Moments};
use super::work::Quantity;
use crate::answers::Word;
use crate::config::{Config, Item, PriceLine, ThreePence};
use crate::design::Given;
use alloc::vec::Vec;

/// A price for each item.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceList {
    units: Vec<Cost>,
}

impl PriceList {
    /// By the config's lines and the charge point that suits.
    #[must_use]
    pub fn of(given: &Given<'_>) -> Self {
        let config = given.config;
        let certain = |pence: crate::units::Pence| Cost { materials: Moments::certain(pence.as_f64()), ..Cost::ZERO };
        let unit = |item: &Item| match item {
            Item::ChargePoint => certain(given.point.price),
            Item::CallOut => certain(config.rates.call_out),
            _ => config.line(*item).map_or(Cost::ZERO, |line| of_line(line, config)),
        };
        Self { units: Item::ALL.iter().map(unit).collect() }
    }

    /// One of an item.
    #[must_use]
    pub fn unit(&self, item: Item) -> Cost {
        self.units[usize::from(item.place())]
    }

    /// So many of an item.
    #[must_use]
    pub fn cost(&self, item: Item, quantity: Quantity) -> Cost {
        self.unit(item).times(quantity.ratio())
    }
}

fn of_line(line: &PriceLine, config: &Config) -> Cost {
    let a_minute = config.rates.hour.as_f64() / 60.0;
    let minutes = &line.minutes;
    let ThreePence { low, likely, high } = line.materials;
    Cost {
        labour: Moments::pert(
            minutes.low.get() * a_minute,
            minutes.likely.get() * a_minute,
            minutes.high.get() * a_minute,
        ),
        materials: Moments::pert(low.as_f64(), likely.as_f64(), high.as_f64()),
    }
}
