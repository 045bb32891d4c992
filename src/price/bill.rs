//! The bill: every item that is, or may be, needed, in the order of the work.

use super::moments::Cost;
use super::work::{Quantity, always, of_decision};
use crate::answers::Word;
use crate::assessment::{BillLine, BillUnit};
use crate::config::{Item, ThreeMinutes};
use crate::design::{Design, Given};
use crate::units::{Minutes, Pence, Probability, Ratio};
use alloc::vec::Vec;

/// One item as it is met: how often, and how much of it.
#[derive(Clone, Copy)]
struct Sum {
    weight: f64,
    quantity: f64,
    unit: BillUnit,
}

/// Every item with how probable it is, and its quantity, time and price where it is needed.
#[must_use]
pub fn bill(given: &Given<'_>, design: &Design) -> Vec<BillLine> {
    let mut sums = [None::<Sum>; Item::ALL.len()];
    let mut add = |item: Item, quantity: Quantity, weight: f64| {
        let sum =
            sums[usize::from(item.place())].get_or_insert(Sum { weight: 0.0, quantity: 0.0, unit: quantity.unit() });
        sum.weight += weight;
        sum.quantity += weight * quantity.ratio().get();
    };
    always(given, &mut |item, quantity| add(item, quantity, 1.0));
    for outcomes in &design.decisions {
        for (met, decided) in &outcomes.cases {
            of_decision(decided, given, &mut |item, quantity| add(item, quantity, met.weight));
        }
    }
    Item::ALL
        .iter()
        .filter_map(|item| {
            let sum = sums[usize::from(item.place())].filter(|sum| sum.weight > 1e-6)?;
            // To the centimetre: a mean over cases has no more to say.
            let quantity = libm::round(sum.quantity / sum.weight * 100.0) / 100.0;
            Some(line(*item, given, Ratio::new(quantity).ok()?, sum.unit, Probability::from_sum(sum.weight)))
        })
        .collect()
}

fn line(item: Item, given: &Given<'_>, quantity: Ratio, unit: BillUnit, probability: Probability) -> BillLine {
    let (minutes, price) = match item {
        Item::ChargePoint => (ThreeMinutes::default(), given.point.price),
        Item::CallOut => (ThreeMinutes::default(), given.config.rates.call_out),
        _ => match given.config.line(item) {
            Some(line) => {
                let of = |minutes: Minutes| {
                    let whole = minutes * quantity;
                    Minutes::new(libm::round(whole.get() * 10.0) / 10.0).unwrap_or(whole)
                };
                let minutes = ThreeMinutes {
                    low: of(line.minutes.low),
                    likely: of(line.minutes.likely),
                    high: of(line.minutes.high),
                };
                let cost = Cost::of_line(line, &given.config.rates, quantity);
                (minutes, Pence::rounded(cost.whole(Ratio::of(1.0)).mean()))
            }
            None => (ThreeMinutes::default(), Pence(0)),
        },
    };
    BillLine { item, probability, quantity, unit, minutes, price }
}

/// Likely labour: every item's usual time, weighed by how probable it is to be needed, so that "not sure" is never the shortest job.
#[must_use]
pub fn likely_labour(bill: &[BillLine]) -> Minutes {
    let whole: Minutes =
        bill.iter().map(|line| line.minutes.likely * Ratio::new(line.probability.get()).unwrap_or(Ratio::ZERO)).sum();
    Minutes::new(libm::round(whole.get() * 10.0) / 10.0).unwrap_or(whole)
}

/// What every job costs whatever is decided.
#[must_use]
pub fn always_cost(given: &Given<'_>) -> Cost {
    let mut sum = Cost::ZERO;
    always(given, &mut |item, quantity| sum = sum.plus(fixed_cost(item, quantity, given)));
    sum
}

fn fixed_cost(item: Item, quantity: Quantity, given: &Given<'_>) -> Cost {
    let certain = |pence: Pence| Cost { materials: super::Moments::certain(pence.as_f64()), ..Cost::ZERO };
    match item {
        Item::ChargePoint => certain(given.point.price),
        Item::CallOut => certain(given.config.rates.call_out),
        _ => given
            .config
            .line(item)
            .map_or(Cost::ZERO, |line| Cost::of_line(line, &given.config.rates, quantity.ratio())),
    }
}

/// The plainest job with the same charge point: a way in the board and a few metres inside. Common practice, no source.
#[must_use]
pub fn plainest(given: &Given<'_>) -> Pence {
    let mut sum = always_cost(given);
    let mut add = |item, quantity| sum = sum.plus(fixed_cost(item, quantity, given));
    add(Item::DoublePoleDevice, Quantity::ONE);
    add(Item::DrillWall, Quantity::ONE);
    add(Item::CableInside, Quantity::Length(crate::units::Metres::of(3.0)));
    Pence::rounded(sum.whole(Ratio::of(1.0)).mean())
}
