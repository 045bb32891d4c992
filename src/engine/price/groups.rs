//! Groups of decisions: those that rest on the same unsure facts form a group. Groups that share no unsure fact are independent, and their
//! costs add up.
//!
//! So twenty unsure facts need not be multiplied out: cases are told apart only within a group.

use super::moments::Cost;
use super::price_list::PriceList;
use super::work::of_decision;
use crate::context::Context;
use crate::design::{Decided, DecisionId, Design, decide};
use crate::site::case::{EvaluatedCase, each_case};
use crate::site::{FactSet, Site};
use alloc::vec::Vec;

/// Some decisions, their joint cases, and the cost of each case.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// The decisions.
    pub decisions: Vec<DecisionId>,
    /// The unsure facts they rest on.
    pub rests_on: FactSet,
    /// Each joint case, and the index of its cost.
    pub cases: Vec<(EvaluatedCase, usize)>,
    /// The costs that differ.
    pub costs: Vec<Cost>,
}

impl Group {
    fn of(decisions: Vec<DecisionId>, rests_on: FactSet) -> Self {
        Self { decisions, rests_on, cases: Vec::new(), costs: Vec::new() }
    }

    /// The weight of each cost, where `weigh` gives the weight of a case.
    pub fn weights(&self, weigh: impl Fn(&EvaluatedCase) -> f64) -> Vec<f64> {
        let mut weights = alloc::vec![0.0; self.costs.len()];
        for (evaluated, cost) in &self.cases {
            weights[*cost] += weigh(evaluated);
        }
        weights
    }
}

/// The indices of the costs found so far, sorted by the bits of their means and variances, so that an equal cost is found quickly among
/// thousands of cases.
#[derive(Default)]
struct Apart(Vec<([u64; 4], usize)>);

impl Apart {
    fn add(&mut self, group: &mut Group, evaluated: EvaluatedCase, cost: Cost) {
        let Cost { labour, materials, .. } = cost;
        let key = [labour.mean(), materials.mean(), labour.variance(), materials.variance()].map(f64::to_bits);
        let at = match self.0.binary_search_by(|(other, _)| other.cmp(&key)) {
            Ok(place) => self.0[place].1,
            Err(place) => {
                group.costs.push(cost);
                self.0.insert(place, (key, group.costs.len() - 1));
                group.costs.len() - 1
            }
        };
        group.cases.push((evaluated, at));
    }
}

/// Divides the decisions into independent groups and prices every case of each.
#[must_use]
pub fn groups(site: &Site, given: &Context<'_>, design: &Design, list: &PriceList) -> Vec<Group> {
    let mut parted: Vec<(FactSet, Vec<DecisionId>)> = Vec::new();
    for outcomes in &design.decisions {
        let mut facts = outcomes.rests_on;
        let mut together = Vec::new();
        // Groups that share a fact with it are merged with it.
        parted.retain_mut(|(others, decisions)| {
            let apart = others.shared(facts).is_empty();
            if !apart {
                facts = facts.and(*others);
                together.append(decisions);
            }
            apart
        });
        together.push(outcomes.id);
        parted.push((facts, together));
    }
    parted
        .into_iter()
        .map(|(rests_on, decisions)| {
            let (mut group, mut apart) = (Group::of(decisions.clone(), rests_on), Apart::default());
            if let [alone] = decisions.as_slice() {
                // Its cases were already told apart in the design.
                for (evaluated, decided) in &design.outcomes(*alone).cases {
                    apart.add(&mut group, *evaluated, cost_of(decided, given, list));
                }
            } else {
                let work = |case: &crate::site::case::KnownCase<'_>| {
                    let each = |sum: Cost, id: &DecisionId| sum.plus(cost_of(&decide(*id, case, given), given, list));
                    decisions.iter().fold(Cost::ZERO, each)
                };
                each_case(site, work, |evaluated, cost| apart.add(&mut group, evaluated, cost));
            }
            group
        })
        .collect()
}

/// The cost of the work that one decision leads to.
#[must_use]
pub fn cost_of(decided: &Decided, given: &Context<'_>, list: &PriceList) -> Cost {
    let mut sum = Cost::ZERO;
    of_decision(decided, given, &mut |item, quantity| sum = sum.plus(list.cost(item, quantity)));
    sum
}
