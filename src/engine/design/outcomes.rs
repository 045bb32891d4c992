//! Every decision over all the cases that it tells apart: what it may come to, how probable, and which facts it rests on.

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
    /// Each case it tells apart, with what it came to there.
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
    /// Works every decision over its own cases.
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

    /// How probable it is that some decision comes to such.
    #[must_use]
    pub fn probability(&self, id: DecisionId, such: impl Fn(&Decided) -> bool) -> Probability {
        self.outcomes(id).probability(such)
    }

    /// What the load limit is set to, likeliest first; empty where no case holds one.
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
    /// How probable it is that it comes to such.
    #[must_use]
    pub fn probability(&self, such: impl Fn(&Decided) -> bool) -> Probability {
        Probability::from_sum(
            self.cases.iter().filter(|(_, decided)| such(decided)).map(|(evaluated, _)| evaluated.weight).sum(),
        )
    }

    /// The same once a fact is known to have that value.
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

    /// The likeliest word it comes to, and how probable that is. Where the network operator is likelier asked first than not, in
    /// whichever way, that it is told afterwards is not what is chosen, however the asking is parted.
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
