//! By how much the spread of the price is expected to shrink if an unsure fact were known.
//!
//! By conditional distributions: within the fact's group every case is taken with the fact at each of its values, weighed by how
//! probable that value is. Knowing a fact never raises the expected variance (the law of total variance).

use super::distribution::{PACES, Total};
use super::groups::Group;
use super::moments::Moments;
use crate::site::case::Met;
use crate::site::{FactId, Site};
use crate::units::{Pence, Ratio};
use alloc::vec::Vec;

/// One fact's worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Narrowing {
    /// The fact.
    pub fact: FactId,
    /// By how much the stretch from 10 % to 90 % is expected to shrink, before VAT.
    pub by: Pence,
}

/// From 10 % to 90 % of a normal distribution is this many deviations. Source: tables of the normal distribution (2 × 1.2816).
const TEN_TO_NINETY: f64 = 2.563_103_131_089_201;

/// Every unsure fact that the price rests on, worth most first.
#[must_use]
pub fn narrowings(site: &Site, groups: &[Group], total: &Total) -> Vec<Narrowing> {
    let usual: f64 = PACES.iter().map(|(weight, pace)| weight * pace.get()).sum();
    let pace = Ratio::new(usual).expect("a mean of paces is a pace");
    let variance = total.moments().variance();
    let mut all: Vec<Narrowing> = groups
        .iter()
        .flat_map(|group| {
            let now = spread(group, pace, |met| met.weight);
            let rest = (variance - now).max(0.0);
            group.rests_on.iter().map(move |fact| {
                let after: f64 = (0..site.count(fact))
                    .map(|value| {
                        let weight = site.weight(fact, value).get();
                        let known = spread(group, pace, |met| given(met, fact, value, weight));
                        weight * libm::sqrt(rest + known)
                    })
                    .sum();
                let shrinks = (libm::sqrt(rest + now) - after) * TEN_TO_NINETY;
                Narrowing { fact, by: Pence::rounded(shrinks.max(0.0)) }
            })
        })
        .collect();
    all.sort_by(|a, b| b.by.cmp(&a.by).then(a.fact.cmp(&b.fact)));
    all
}

/// A case's weight once the fact is known to have that value: where the fact was not read the case stands as it is.
fn given(met: &Met, fact: FactId, value: usize, weight: f64) -> f64 {
    if !met.read.has(fact) {
        met.weight
    } else if usize::from(met.chosen[fact as usize]) == value {
        met.weight / weight
    } else {
        0.0
    }
}

fn spread(group: &Group, pace: Ratio, weigh: impl Fn(&Met) -> f64 + Clone) -> f64 {
    Moments::one_of(group.cases.iter().map(|(met, cost)| (weigh(met), cost.whole(pace)))).variance()
}
