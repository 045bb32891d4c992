//! The cost of one unit of each item by the config: worked out once for a home and used in every case of it.

use super::moments::{Cost, Moments};
use super::work::Quantity;
use crate::context::Context;
use alloc::vec::Vec;
use model::answers::Word;
use model::config::{Config, Item, PriceLine, Rates, ThreePence};

/// The cost of one unit of each item.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceList {
    units: Vec<Cost>,
}

impl PriceList {
    /// The list by the config's price lines and the charge point that suits.
    #[must_use]
    pub fn of(given: &Context<'_>) -> Self {
        let config = given.config;
        let certain = |pence: model::units::Pence| Cost {
            materials: Moments::certain(pence.as_f64()),
            likely: pence.as_f64(),
            ..Cost::ZERO
        };
        let unit = |item: &Item| match item {
            Item::ChargePoint => certain(given.point.price),
            Item::CallOut => certain(config.rates.call_out),
            _ => config.line(*item).map_or(Cost::ZERO, |line| of_line(line, config)),
        };
        Self { units: Item::ALL.iter().map(unit).collect() }
    }

    /// The cost of one unit of an item.
    #[must_use]
    pub fn unit(&self, item: Item) -> Cost {
        self.units[usize::from(item.place())]
    }

    /// The cost of a quantity of an item.
    #[must_use]
    pub fn cost(&self, item: Item, quantity: Quantity) -> Cost {
        self.unit(item).times(quantity.ratio())
    }
}

/// The price of a minute of labour, in pence. Where two people work, half of the minutes are the second person's.
fn a_minute(item: Item, rates: &Rates) -> f64 {
    let hour = rates.hour.as_f64();
    let hour = match rates.second {
        // Arithmetic.
        Some(second) if takes_two(item) => 0.5 * (hour + second.as_f64()),
        _ => hour,
    };
    hour / 60.0
}

/// Whether two people do this work: digging, a post, and whatever is done overhead, where one stands at the foot. Common practice, no
/// source.
const fn takes_two(item: Item) -> bool {
    matches!(
        item,
        Item::TrenchSoft | Item::TrenchPaving | Item::HardGround | Item::MountingPost | Item::HighAccess | Item::Tower
    )
}

fn of_line(line: &PriceLine, config: &Config) -> Cost {
    let a_minute = a_minute(line.item, &config.rates);
    let minutes = &line.minutes;
    let ThreePence { low, likely, high } = line.materials;
    Cost {
        labour: Moments::pert(
            minutes.low.get() * a_minute,
            minutes.likely.get() * a_minute,
            minutes.high.get() * a_minute,
        ),
        materials: Moments::pert(low.as_f64(), likely.as_f64(), high.as_f64()),
        likely: minutes.likely.get() * a_minute + likely.as_f64(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::Answers;
    use model::config::demo_config;
    use model::units::Pence;

    #[test]
    fn half_of_the_digging_is_the_second_persons() {
        let (mut config, answers) = (demo_config(), Answers::default());
        let labour = |config: &Config, item| {
            let point = &config.charge_points[0];
            PriceList::of(&Context { answers: &answers, config, point }).unit(item).labour.mean()
        };
        let (dug, drilled) = (labour(&config, Item::TrenchSoft), labour(&config, Item::DrillWall));
        config.rates.second = Some(Pence(config.rates.hour.0 / 2));
        assert!((labour(&config, Item::TrenchSoft) / dug - 0.75).abs() < 1e-12);
        assert_eq!(labour(&config, Item::DrillWall), drilled, "one drills alone");
    }
}
