//! Every decision over all the cases that make a difference to it: its outcomes, how probable each is, and the facts they rest on.

use super::{Decided, DecisionId, NetworkProcess, decide};
use crate::context::Context;
use crate::site::case::{EvaluatedCase, each_case};
use crate::site::{FactId, FactSet, Site};
use alloc::vec::Vec;
use model::answers::Word;
use model::units::{Amps, Probability};

/// One decision over its cases.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcomes {
    /// Which.
    pub id: DecisionId,
    /// The cases it tells apart, each with its outcome.
    pub cases: Vec<(EvaluatedCase, Decided)>,
    /// The unsure facts it rests on.
    pub rests_on: FactSet,
}

/// All decisions of a site.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// In the order of [`DecisionId`].
    pub decisions: Vec<Outcomes>,
}

impl Design {
    /// Takes every decision in each of its cases.
    #[must_use]
    pub fn of(site: &Site, given: &Context<'_>) -> Self {
        let decisions = DecisionId::ALL.iter().map(|id| {
            let mut cases = Vec::new();
            let mut rests_on = FactSet::NONE;
            each_case(
                site,
                |case| decide(*id, case, given),
                |evaluated, decided| {
                    rests_on = rests_on.and(evaluated.read);
                    cases.push((evaluated, decided));
                },
            );
            Outcomes { id: *id, cases, rests_on }
        });
        Self { decisions: decisions.collect() }
    }

    /// One decision's outcomes.
    #[must_use]
    pub fn outcomes(&self, id: DecisionId) -> &Outcomes {
        &self.decisions[usize::from(id.place())]
    }

    /// The probability that a decision has an outcome for which `such` holds.
    #[must_use]
    pub fn probability(&self, id: DecisionId, such: impl Fn(&Decided) -> bool) -> Probability {
        self.outcomes(id).probability(such)
    }

    /// The settings of the load limit over all cases, likeliest first; empty where no case has one.
    #[must_use]
    pub fn limits(&self) -> Vec<Amps> {
        let mut limits: Vec<(Amps, f64)> = Vec::new();
        for (evaluated, decided) in &self.outcomes(DecisionId::Network).cases {
            let Decided::Network(NetworkProcess { limit: Some(limit), .. }) = decided else { continue };
            match limits.iter_mut().find(|(other, _)| other == limit) {
                Some((_, weight)) => *weight += evaluated.weight,
                None => limits.push((*limit, evaluated.weight)),
            }
        }
        limits.sort_by(|a, b| b.1.total_cmp(&a.1));
        limits.into_iter().map(|(limit, _)| limit).collect()
    }
}

impl Outcomes {
    /// The probability that the outcome is one for which `such` holds.
    #[must_use]
    pub fn probability(&self, such: impl Fn(&Decided) -> bool) -> Probability {
        Probability::from_sum(
            self.cases.iter().filter(|(_, decided)| such(decided)).map(|(evaluated, _)| evaluated.weight).sum(),
        )
    }

    /// As [`Self::probability`], once a fact is known to have its value number `value`.
    #[must_use]
    pub fn probability_given(&self, site: &Site, fact: FactId, value: usize, such: impl Fn(&Decided) -> bool) -> f64 {
        let known = site.weight(fact, value).get();
        let weight = |evaluated: &EvaluatedCase| match (
            evaluated.read.has(fact),
            usize::from(evaluated.chosen[fact as usize]) == value,
        ) {
            (false, _) => evaluated.weight,
            (true, true) => evaluated.weight / known,
            (true, false) => 0.0,
        };
        self.cases.iter().filter(|(_, decided)| such(decided)).map(|(evaluated, _)| weight(evaluated)).sum()
    }

    /// The likeliest outcome in a word, and its probability. Where the network operator is more likely than not to be asked first, the
    /// likeliest way of asking is chosen, even if notifying afterwards is likelier than each single way.
    #[must_use]
    pub fn likeliest(&self) -> (&'static str, Probability) {
        // Arithmetic: the likelier of two.
        let asks = self.probability(Decided::asks_first) >= Probability::of(0.5);
        let mut words: Vec<(&'static str, f64)> = Vec::new();
        for (evaluated, decided) in self.cases.iter().filter(|(_, decided)| !asks || decided.asks_first()) {
            match words.iter_mut().find(|(word, _)| *word == decided.word()) {
                Some((_, weight)) => *weight += evaluated.weight,
                None => words.push((decided.word(), evaluated.weight)),
            }
        }
        let best = words.into_iter().fold(("", 0.0), |best, next| if next.1 > best.1 { next } else { best });
        (best.0, Probability::from_sum(best.1))
    }
}
