//! The bill: every item that is, or may be, needed, in the order of the work.

use super::distribution::Total;
use super::moments::Cost;
use super::order::after;
use super::price_list::PriceList;
use super::work::{Quantity, always, of_decision};
use super::{BillLine, Sums};
use crate::context::Context;
use crate::design::Design;
use alloc::vec::Vec;
use model::answers::Word;
use model::config::{Item, ThreeMinutes};
use model::terms::BillUnit;
use model::units::{Metres, Minutes, Pence, Probability, Ratio};

/// How much of one item is needed, summed over cases.
#[derive(Clone, Copy)]
struct Sum {
    weight: f64,
    quantity: f64,
    unit: BillUnit,
}

/// The lines of the bill: every item with the probability that it is needed, and its quantity, labour and price where it is.
#[must_use]
pub fn bill(given: &Context<'_>, design: &Design, list: &PriceList, days: u8) -> Vec<BillLine> {
    let mut sums = [None::<Sum>; Item::ALL.len()];
    let mut add = |item: Item, quantity: Quantity, weight: f64| {
        let sum =
            sums[usize::from(item.place())].get_or_insert(Sum { weight: 0.0, quantity: 0.0, unit: quantity.unit() });
        sum.weight += weight;
        sum.quantity += weight * quantity.ratio().get();
    };
    always(given, days, &mut |item, quantity| add(item, quantity, 1.0));
    for outcomes in &design.decisions {
        for (met, decided) in &outcomes.cases {
            of_decision(decided, given, &mut |item, quantity| add(item, quantity, met.weight));
        }
    }
    let mut lines: Vec<BillLine> = Item::ALL
        .iter()
        .filter_map(|item| {
            let sum = sums[usize::from(item.place())].filter(|sum| sum.weight > 1e-6)?;
            // Rounded to the centimetre: a mean over cases is no more exact than that.
            let quantity = Ratio::new(libm::round(sum.quantity / sum.weight * 100.0) / 100.0).ok()?;
            let cost = list.unit(*item).times(quantity);
            let (labour, materials) = (Pence::rounded(cost.labour.mean()), Pence::rounded(cost.materials.mean()));
            let probability = Probability::from_sum(sum.weight);
            let price = labour + materials;
            Some(BillLine {
                item: *item,
                probability,
                quantity,
                unit: sum.unit,
                minutes: minutes(*item, given, quantity),
                labour,
                materials,
                price,
                expected: Pence::rounded(price.as_f64() * probability.get()),
                day: 1,
                after: Vec::new(),
                set_at: if *item == Item::LoadSensing { design.limits() } else { Vec::new() },
            })
        })
        .collect();
    in_order(&mut lines, given.config.rates.day, days);
    lines
}

fn minutes(item: Item, given: &Context<'_>, quantity: Ratio) -> ThreeMinutes {
    let Some(line) = given.config.line(item) else { return ThreeMinutes::default() };
    let of = |minutes: Minutes| {
        let whole = minutes * quantity;
        // Arithmetic: tenths of a minute.
        Minutes::new(libm::round(whole.get() * 10.0) / 10.0).unwrap_or(whole)
    };
    ThreeMinutes { low: of(line.minutes.low), likely: of(line.minutes.likely), high: of(line.minutes.high) }
}

/// Sets for each line the day of one person's work in which it begins, and which items of the bill come before it.
fn in_order(lines: &mut [BillLine], day: Minutes, days: u8) {
    let there: Vec<Item> = lines.iter().map(|line| line.item).collect();
    let mut done = Minutes::ZERO;
    for line in lines {
        let begins = if day > Minutes::ZERO { done.get() / day.get() } else { 0.0 };
        // Arithmetic: a byte.
        line.day = (libm::floor(begins).clamp(0.0, 254.0) as u8 + 1).min(days);
        done = done + expected(line);
        line.after = after(line.item).iter().copied().filter(|item| there.contains(item)).collect();
    }
}

/// The likely labour of a line, weighted by the probability that it is needed.
fn expected(line: &BillLine) -> Minutes {
    line.minutes.likely * Ratio::new(line.probability.get()).unwrap_or(Ratio::ZERO)
}

/// Likely labour of the bill: every item's usual time, weighted by the probability that it is needed. So "not sure" never makes a job the
/// shortest.
#[must_use]
pub fn likely_labour(bill: &[BillLine]) -> Minutes {
    let whole: Minutes = bill.iter().map(expected).sum();
    // Arithmetic: tenths of a minute.
    Minutes::new(libm::round(whole.get() * 10.0) / 10.0).unwrap_or(whole)
}

/// Days of work for the likely labour of the whole bill, counting the travel that each further day adds.
#[must_use]
pub fn days(given: &Context<'_>, design: &Design, list: &PriceList) -> u8 {
    let labour = likely_labour(&bill(given, design, list, 1)).get();
    // A day has at least an hour: this program's choice.
    let day = given.config.rates.day.max(Minutes::of(60.0)).get();
    let mut another = 0.0;
    for (days, sign) in [(1, -1.0), (2, 1.0)] {
        always(given, days, &mut |item, quantity| {
            let minutes = given.config.line(item).map_or(Minutes::ZERO, |line| line.minutes.likely);
            another += sign * (minutes * quantity.ratio()).get();
        });
    }
    (1..MOST_DAYS).find(|days| labour + another * f64::from(*days - 1) <= day * f64::from(*days)).unwrap_or(MOST_DAYS)
}

/// The most days that one job is planned over: common practice, no source.
const MOST_DAYS: u8 = 30;

/// The sums of the bill: the lines' expected prices before VAT, VAT on that sum to the nearest penny, and both.
#[must_use]
pub fn sums(bill: &[BillLine], vat: Ratio) -> Sums {
    let before_vat: Pence = bill.iter().map(|line| line.expected).sum();
    let vat = Pence::rounded(before_vat.as_f64() * vat.get());
    Sums { before_vat, vat, with_vat: before_vat + vat }
}

/// The cost of the items that every job has, whatever is decided.
#[must_use]
pub fn always_cost(given: &Context<'_>, list: &PriceList, days: u8) -> Cost {
    let mut sum = Cost::ZERO;
    always(given, days, &mut |item, quantity| sum = sum.plus(list.cost(item, quantity)));
    sum
}

/// The work of the plainest job with the same charge point, item by item: one day, a way in the board and a few metres inside. Common
/// practice, no source.
pub fn plainest_work(given: &Context<'_>, push: &mut dyn FnMut(Item, Quantity)) {
    always(given, 1, &mut |item, quantity| {
        if item != Item::Parking {
            push(item, quantity);
        }
    });
    push(Item::DoublePoleDevice, Quantity::ONE);
    push(Item::DrillWall, Quantity::ONE);
    push(Item::CableInside, Quantity::Length(PLAINEST));
    push(Item::Supports, Quantity::Length(PLAINEST));
}

/// Cable of the plainest job, whose charge point is behind the wall of the board: common practice, no source.
const PLAINEST: Metres = Metres::of(3.0);

/// The mean price of the plainest job, before VAT.
#[must_use]
pub fn plainest(given: &Context<'_>, list: &PriceList) -> Pence {
    let mut sum = Cost::ZERO;
    plainest_work(given, &mut |item, quantity| sum = sum.plus(list.cost(item, quantity)));
    Pence::rounded(sum.mean())
}

/// Whether the bill's sum equals the mean of the total, apart from the rounding of its lines. If not, the bill would be another estimate
/// than the one the band is drawn from.
#[must_use]
pub fn adds_up(bill: &[BillLine], total: &Total<'_>) -> bool {
    let sum: Pence = bill.iter().map(|line| line.expected).sum();
    // Arithmetic: a penny a line, and half a centimetre of each length.
    let unit = |line: &BillLine| line.price.as_f64() / line.quantity.get().max(0.01);
    // Arithmetic, as above.
    let slack: f64 = bill.iter().map(|line| 1.0 + 0.005 * unit(line)).sum();
    libm::fabs(sum.as_f64() - total.moments().mean()) <= slack
}
