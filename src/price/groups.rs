//! Decisions that share unsure facts belong together; groups that share none are independent, and their costs add up.
//!
//! That is what keeps twenty unsure facts from multiplying out: only within a group are cases told apart.

use super::moments::Cost;
use super::work::of_decision;
use crate::design::{Decided, DecisionId, Design, Given, decide};
use crate::site::case::{Met, each_case};
use crate::site::{FactSet, Site};
use alloc::vec::Vec;

/// Some decisions, their joint cases, and what each case costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// The decisions.
    pub decisions: Vec<DecisionId>,
    /// The unsure facts they rest on.
    pub rests_on: FactSet,
    /// Each joint case with its cost.
    pub cases: Vec<(Met, Cost)>,
}

/// Parts the decisions into independent groups and prices every case of each.
#[must_use]
pub fn groups(site: &Site, given: &Given<'_>, design: &Design) -> Vec<Group> {
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
            if let [alone] = decisions.as_slice() {
                // Its cases were told apart already.
                let worked = design.outcomes(*alone).cases.iter();
                let cases = worked.map(|(met, decided)| (*met, cost_of(decided, given))).collect();
                return Group { decisions, rests_on, cases };
            }
            let mut cases = Vec::new();
            let work = |case: &crate::site::case::KnownCase<'_>| {
                decisions.iter().fold(Cost::ZERO, |sum, id| sum.plus(cost_of(&decide(*id, case, given), given)))
            };
            each_case(site, work, |met, cost| cases.push((met, cost)));
            Group { decisions, rests_on, cases }
        })
        .collect()
}

/// What one decision's work costs.
#[must_use]
pub fn cost_of(decided: &Decided, given: &Given<'_>) -> Cost {
    let mut sum = Cost::ZERO;
    of_decision(decided, given, &mut |item, quantity| {
        if let Some(line) = given.config.line(item) {
            sum = sum.plus(Cost::of_line(line, &given.config.rates, quantity.ratio()));
        }
    });
    sum
}
