//! What jobs took compared with what was estimated: a factor for all labour and one for each item, which stay near one where few jobs were
//! recorded.
//!
//! A job's hours divided by its estimated hours are modelled as one, plus a deviation of all labour, plus the deviations of its items, each
//! weighted by the item's share of the estimated hours. All deviations have a normal prior about zero. How much jobs scatter beyond that is
//! as in the estimate: an awkward house, and every item's range from low to high.

use super::jobs::Done;
use super::regression::{Observation, fit};
use model::config::{Item, ThreeMinutes};
use model::units::{Minutes, Ratio};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// How far an installer's labour as a whole is from the price list, before any job is known: one standard deviation.
/// Common practice, no source.
const WHOLE: f64 = 0.3;
/// How far one item is from the rest. Common practice, no source.
const ITEM: f64 = 0.2;
/// How much longer or shorter all labour takes in one house than in another; as the estimate has it (`price::distribution`): common
/// practice, no source.
const HOUSE: f64 = 0.12;

/// One job's labour.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// The items that were done.
    pub done: Vec<Done>,
    /// The time of all people together, in minutes.
    pub whole: Minutes,
}

/// What the jobs say about labour.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Labour {
    /// The factor on all labour.
    pub whole: Factor,
    /// The factor of each item that was done, in addition to that of all labour.
    pub items: BTreeMap<Item, ItemFactor>,
    /// The number of jobs behind it.
    pub jobs: u32,
}

/// A factor with its uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Factor {
    /// The factor.
    pub factor: Ratio,
    /// The factor is above this with 90 %.
    pub low: f64,
    /// The factor is below this with 90 %.
    pub high: f64,
}

/// The factor of one item.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ItemFactor {
    /// The item's own factor, in addition to that of all labour.
    pub own: Ratio,
    /// Both together: how much longer the item takes than estimated.
    pub all: Factor,
    /// In how many jobs it was done.
    pub jobs: u32,
}

/// Mean and variance of a time read as PERT. Source: as in `price::moments`.
fn moments(minutes: &ThreeMinutes) -> (f64, f64) {
    let (low, likely, high) = (minutes.low.get(), minutes.likely.get(), minutes.high.get());
    // Arithmetic: mean and variance of a PERT distribution.
    let mean = (low + 4.0 * likely + high) / 6.0;
    // Arithmetic, as above.
    (mean, (mean - low) * (high - mean) / 7.0)
}

/// Fits all factors to the jobs; `unit` gives the estimated time of one unit of an item. `None` if no job can be used.
#[must_use]
pub fn labour(jobs: &[Worked], unit: &dyn Fn(Item) -> Option<ThreeMinutes>) -> Option<Labour> {
    reckon(jobs, unit, ITEM)
}

/// Fits the factor of all labour alone, for jobs too few to say anything about items.
#[must_use]
pub fn whole_labour(jobs: &[Worked], unit: &dyn Fn(Item) -> Option<ThreeMinutes>) -> Option<Labour> {
    reckon(jobs, unit, ITEM / 1_000.0)
}

fn reckon(jobs: &[Worked], unit: &dyn Fn(Item) -> Option<ThreeMinutes>, item_deviation: f64) -> Option<Labour> {
    let reckoned = |done: &Done| {
        let (mean, variance) = moments(&unit(done.item)?);
        let quantity = done.quantity.get();
        (mean * quantity > 0.0).then_some((mean * quantity, variance * quantity * quantity))
    };
    let mut met: BTreeMap<Item, BTreeSet<usize>> = BTreeMap::new();
    for (at, job) in jobs.iter().enumerate() {
        for done in job.done.iter().filter(|done| reckoned(done).is_some()) {
            met.entry(done.item).or_default().insert(at);
        }
    }
    let place: BTreeMap<Item, usize> = met.keys().enumerate().map(|(at, item)| (*item, at + 1)).collect();
    let priors: Vec<f64> = std::iter::once(WHOLE).chain(std::iter::repeat_n(item_deviation, place.len())).collect();
    let size = priors.len();

    let mut rows = Vec::new();
    let mut counted = 0;
    for job in jobs {
        let mut of = vec![0.0; size];
        let (mut mean, mut variance, mut left) = (0.0, 0.0, job.whole.get());
        let before = rows.len();
        for done in &job.done {
            let Some((minutes, spread)) = reckoned(done) else {
                left -= done.minutes.map_or(0.0, Minutes::get);
                continue;
            };
            match done.minutes {
                Some(noted) => {
                    let mut of = vec![0.0; size];
                    (of[0], of[place[&done.item]]) = (1.0, 1.0);
                    let own = (spread / (minutes * minutes) + HOUSE * HOUSE).sqrt();
                    rows.push(Observation { of, seen: noted.get() / minutes - 1.0, spread: own });
                    left -= noted.get();
                }
                None => {
                    of[place[&done.item]] += minutes;
                    mean += minutes;
                    variance += spread;
                }
            }
        }
        if mean > 0.0 && left > 0.0 {
            of.iter_mut().for_each(|minutes| *minutes /= mean);
            of[0] = 1.0;
            let spread = (variance / (mean * mean) + HOUSE * HOUSE).sqrt();
            rows.push(Observation { of, seen: left / mean - 1.0, spread });
        }
        counted += u32::from(rows.len() > before);
    }
    if counted == 0 {
        return None;
    }

    let fitted = fit(&rows, &priors)?;
    let of = |places: &[usize]| {
        let mut sum = vec![0.0; size];
        places.iter().for_each(|at| sum[*at] = 1.0);
        let (mean, deviation) = (1.0 + places.iter().map(|at| fitted.mean(*at)).sum::<f64>(), fitted.deviation(&sum));
        // 1.2816: the quantile of a normal distribution at 90 %.
        // Arithmetic: the normal distribution at 90 %.
        Factor { factor: kept(mean), low: mean - 1.2816 * deviation, high: mean + 1.2816 * deviation }
    };
    let whole = of(&[0]);
    let items = met.iter().map(|(item, jobs)| {
        let all = of(&[0, place[item]]);
        let own = kept(all.factor.get() / whole.factor.get());
        (*item, ItemFactor { own, all, jobs: u32::try_from(jobs.len()).unwrap_or(u32::MAX) })
    });
    Some(Labour { whole, items: items.collect(), jobs: counted })
}

/// A factor that a setup may hold, to the thousandth.
fn kept(factor: f64) -> Ratio {
    // This program's choice: beyond is a slip.
    Ratio::new((factor.clamp(0.2, 5.0) * 1_000.0).round() / 1_000.0).unwrap_or(Ratio::of(1.0))
}

/// The factor on the cost of materials: recorded over estimated, kept near one where few jobs were recorded. Standard deviations of the
/// factor before any job is known, and of one job beside another: common practice, no source.
#[must_use]
pub fn materials(jobs: &[(f64, f64)]) -> Option<Factor> {
    const WHOLE: f64 = 0.2;
    const JOB: f64 = 0.25;
    let told = jobs.iter().filter(|(_, reckoned)| *reckoned > 0.0);
    let rows: Vec<Observation> = told
        .map(|(recorded, reckoned)| Observation { of: vec![1.0], seen: recorded / reckoned - 1.0, spread: JOB })
        .collect();
    if rows.is_empty() {
        return None;
    }
    let fitted = fit(&rows, &[WHOLE])?;
    let (mean, deviation) = (1.0 + fitted.mean(0), fitted.deviation(&[1.0]));
    // Arithmetic: the normal distribution at 90 %.
    Some(Factor { factor: kept(mean), low: mean - 1.2816 * deviation, high: mean + 1.2816 * deviation })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unit(item: Item) -> Option<ThreeMinutes> {
        let likely = match item {
            Item::FixPoint => 60.0,
            Item::CableInside => 6.0,
            _ => return None,
        };
        Some(ThreeMinutes {
            low: Minutes::of(likely * 0.8),
            likely: Minutes::of(likely),
            high: Minutes::of(likely * 1.2),
        })
    }

    fn done(item: Item, quantity: f64, minutes: Option<f64>) -> Done {
        Done { item, quantity: Ratio::of(quantity), minutes: minutes.map(Minutes::of) }
    }

    fn job(metres: f64, whole: f64) -> Worked {
        Worked {
            done: vec![done(Item::FixPoint, 1.0, None), done(Item::CableInside, metres, None)],
            whole: Minutes::of(whole),
        }
    }

    #[test]
    fn many_jobs_tell_and_few_hardly() {
        // Twice the time, throughout.
        let of = |count: usize| labour(&vec![job(10.0, 240.0); count], &unit).unwrap().whole;
        let (few, many) = (of(1), of(60));
        assert!(few.factor < many.factor && many.factor > Ratio::of(1.8), "{few:?} {many:?}");
        assert!(few.high - few.low > many.high - many.low);
    }

    #[test]
    fn the_item_that_takes_longer_is_told_from_the_rest() {
        // Cable takes half as long again, fixing as long as estimated; lengths differ.
        let jobs: Vec<Worked> = (0..60).map(|at| 4.0 + f64::from(at)).map(|m| job(m, 60.0 + m * 6.0 * 1.5)).collect();
        let made = labour(&jobs, &unit).unwrap();
        let (cable, fixing) = (made.items[&Item::CableInside].all, made.items[&Item::FixPoint].all);
        assert!((cable.factor.get() - 1.5).abs() < 0.1, "{made:?}");
        assert!(fixing.factor < cable.factor, "{made:?}");
        assert!((made.whole.factor.get() * made.items[&Item::CableInside].own.get() - cable.factor.get()).abs() < 2e-3);
    }

    #[test]
    fn a_time_that_was_noted_counts_for_its_item_and_leaves_the_rest() {
        let noted = Worked {
            done: vec![done(Item::FixPoint, 1.0, Some(120.0)), done(Item::CableInside, 10.0, None)],
            whole: Minutes::of(180.0), // an hour is left for ten metres of six minutes
        };
        let made = labour(&vec![noted; 30], &unit).unwrap();
        let (cable, fixing) =
            (made.items[&Item::CableInside].all.factor.get(), made.items[&Item::FixPoint].all.factor.get());
        assert!(fixing > 1.8 && cable < 1.15, "{made:?}");
    }

    #[test]
    fn what_nothing_is_reckoned_for_tells_nothing() {
        let unknown = Worked { done: vec![done(Item::Glands, 1.0, None)], whole: Minutes::of(60.0) };
        assert_eq!(labour(&[unknown], &unit), None);
        assert_eq!(labour(&[], &unit), None);
        assert_eq!(materials(&[(500.0, 0.0)]), None);
        let dearer = materials(&vec![(1_500.0, 1_000.0); 40]).unwrap();
        assert!((dearer.factor.get() - 1.5).abs() < 0.05, "{dearer:?}");
    }
}
