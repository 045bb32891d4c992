//! Decisions that share unsure facts belong together; groups that share none are independent, and their costs add up.
//!
//! That is what keeps twenty unsure facts from multiplying out: only within a group are cases told apart.

use super::moments::Cost;
use super::price_list::PriceList;
use super::work::of_decision;
use crate::context::Context;
use crate::design::{Decided, DecisionId, Design, decide};
use crate::site::case::{EvaluatedCase, each_case};
use crate::site::{FactSet, Site};
use alloc::vec::Vec;

/// Some decisions, their joint cases, and what each case costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// The decisions.
    pub decisions: Vec<DecisionId>,
    /// The unsure facts they rest on.
    pub rests_on: FactSet,
    /// Each joint case, and which of the costs it has.
    pub cases: Vec<(EvaluatedCase, usize)>,
    /// The costs that are told apart.
    pub costs: Vec<Cost>,
}

impl Group {
    fn of(decisions: Vec<DecisionId>, rests_on: FactSet) -> Self {
        Self { decisions, rests_on, cases: Vec::new(), costs: Vec::new() }
    }

    /// How probable each cost is, where a case weighs so much.
    pub fn weights(&self, weigh: impl Fn(&EvaluatedCase) -> f64) -> Vec<f64> {
        let mut weights = alloc::vec![0.0; self.costs.len()];
        for (evaluated, cost) in &self.cases {
            weights[*cost] += weigh(evaluated);
        }
        weights
    }
}

/// Costs met so far, sorted by the bits of their means and variances, so that thousands of cases are told apart quickly.
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

/// Parts the decisions into independent groups and prices every case of each.
#[must_use]
pub fn groups(site: &Site, given: &Context<'_>, design: &Design, list: &PriceList) -> Vec<Group> {
    let mut parted: Vec<(FactSet, Vec<DecisionId>)> = Vec::new();
    for outcomes in &design.decisions {
        let mut facts = outcomes.rests_on;
        let mut together = Vec::new();
        // Whatever shares a fact with it is drawn in.
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
                // Its cases were told apart already.
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

/// What one decision's work costs.
#[must_use]
pub fn cost_of(decided: &Decided, given: &Context<'_>, list: &PriceList) -> Cost {
    let mut sum = Cost::ZERO;
    of_decision(decided, given, &mut |item, quantity| sum = sum.plus(list.cost(item, quantity)));
    sum
}
