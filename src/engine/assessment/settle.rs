//! The questions that must be settled first: those behind an unanswered hazard, a contradiction, a length too great to be meant, a supply
//! that nobody counted, and an agreement that may be needed. They come before questions that only narrow the price.

use crate::site::{HazardInference, Site, agreements};
use alloc::vec::Vec;
use model::answers::Answers;
use model::questions;
use model::units::Probability;

/// The ids of the questions that settle something, gravest first. Each is asked of this home, and is unanswered or part of a contradiction.
pub(super) fn settling(site: &Site, answers: &Answers) -> Vec<&'static str> {
    let mut all: Vec<&'static str> = Vec::new();
    if matches!(site.hazard, HazardInference::NotSure | HazardInference::NotAsked) {
        all.push("hazard");
    }
    for contradiction in &site.contradictions {
        all.extend(contradiction.questions);
    }
    all.extend(questions::beyond_use(answers));
    let meter = &answers.meter;
    if meter.fuse_carriers.known().is_none()
        && meter.head_conductors.known().is_none()
        && meter.street_cables.known().is_none()
    {
        all.extend(open_of(answers, &["fuse-carriers", "head-conductors", "street-cables"]));
    }
    all.extend(open_of(answers, &["which-board"]));
    for agreement in agreements(answers) {
        let open = agreement.probability < Probability::CERTAIN;
        all.extend(open_of(answers, agreement.from).filter(|_| open));
    }
    all.retain(|id| questions::question(id).is_some_and(|question| (question.asked)(answers)));
    let mut once = Vec::with_capacity(all.len());
    for id in all {
        if !once.contains(&id) {
            once.push(id);
        }
    }
    once
}

/// The questions among `ids` that have no answer yet, or "not sure".
fn open_of<'a>(answers: &'a Answers, ids: &'static [&'static str]) -> impl Iterator<Item = &'static str> + use<'a> {
    ids.iter().copied().filter(move |id| questions::question(id).is_some_and(|question| question.is_open(answers)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::infer;
    use model::answers::{Answer, BoundedCount, HomeKind, Set};
    use model::config::demo_config;

    fn first(answers: &Answers) -> Vec<&'static str> {
        settling(&infer(answers, &demo_config()), answers)
    }

    #[test]
    fn an_unanswered_hazard_comes_before_everything() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::NotSure;
        assert_eq!(first(&answers)[0], "hazard");
        assert!(!first(&answers).contains(&"fuse-carriers"), "nobody is sent to the meter");
    }

    #[test]
    fn a_contradiction_asks_for_its_counts_again() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        assert_eq!(first(&answers)[..2], ["fuse-carriers", "head-conductors"]);
    }

    #[test]
    fn an_agreement_that_may_be_needed_asks_who_owns_the_home() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.home.kind = Answer::Known(HomeKind::Flat);
        assert!(first(&answers).contains(&"tenure"));
    }
}
