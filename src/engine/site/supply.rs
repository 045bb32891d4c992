//! The supply: phases, and whether it is looped to a neighbour, from what can be counted at the service head.
//!
//! How the trade interprets the counts: common practice, no source.

use super::contradiction::Contradiction;
use super::fact::Fact;
use super::inference::region;
use alloc::vec::Vec;
use model::answers::{Answers, OperatorAnswer};
use model::config::{Config, Fuses};
use model::terms::KnownBy;
use model::terms::Phases;
use model::units::{Amps, Probability};

/// The supply, as far as the network operator's procedure depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Supply {
    /// Phases.
    pub phases: Phases,
    /// Whether one service cable is shared with a neighbour.
    pub looped: bool,
}

const FROM: &[&str] = &["fuse-carriers", "head-conductors", "street-cables"];

const fn single(looped: bool) -> Supply {
    Supply { phases: Phases::One, looped }
}
const THREE: Supply = Supply { phases: Phases::Three, looped: false };
const SPLIT: Supply = Supply { phases: Phases::Split, looped: false };

/// Infers the supply from the three counts at the service head. Each is a number or unknown (not sure and not asked alike). Pushes a
/// contradiction where they disagree.
///
/// Once the network operator has separated a neighbour's supply, no case with a loop is left.
pub(super) fn infer(answers: &Answers, config: &Config, contradictions: &mut Vec<Contradiction>) -> Fact<Supply> {
    let counted = infer_counts(answers, config, contradictions);
    if !answers.operator.answer.is(OperatorAnswer::Separated) {
        return counted;
    }
    let apart: Vec<(Supply, Probability)> =
        counted.values().iter().map(|(supply, weight)| (Supply { looped: false, ..*supply }, *weight)).collect();
    Fact::weighed(&apart, counted.known_by, FROM)
}

/// The probability of a loop where four conductors lead to two boards: common practice, no source.
const TWO_BOARDS: Probability = Probability::of(0.4);

/// What the counts tell. The shares of what they leave open: common practice, no source.
fn infer_counts(answers: &Answers, config: &Config, contradictions: &mut Vec<Contradiction>) -> Fact<Supply> {
    let meter = &answers.meter;
    let carriers = meter.fuse_carriers.known().map(|count| count.get());
    let conductors = meter.head_conductors.known().map(|count| count.get());
    let cables = meter.street_cables.known().map(|count| count.get());
    let priors = &config.priors;
    let (kind, age) = (answers.home.kind.known().copied(), answers.home.age.known().copied());
    let (unseen, uncounted_loop) = (priors.loop_unseen_in(kind, age), priors.loop_uncounted_in(kind, age));

    let looped =
        |probability: Probability, known_by| Fact::chance(single(true), single(false), probability, known_by, FROM);
    let open = |cases: &[(Supply, Probability)], known_by| Fact::weighed(cases, known_by, FROM);
    let mut contradicts = |says| {
        contradictions.push(Contradiction { about: "supply", says, questions: &["fuse-carriers", "head-conductors"] });
    };
    let two_cables = cables.is_some_and(|count| count >= 2);
    match (carriers, conductors) {
        (Some(1), Some(2)) if !two_cables => looped(unseen, KnownBy::Seen),
        // Tails that divide after the service head for a second board are four conductors too.
        (Some(1), Some(4)) if !two_cables && answers.board.boards.known().is_some_and(|boards| boards.get() > 1) => {
            let less = if priors.loop_indicated < TWO_BOARDS { priors.loop_indicated } else { TWO_BOARDS };
            looped(less, KnownBy::Inferred)
        }
        (Some(1), Some(4)) => looped(priors.loop_indicated, KnownBy::Inferred),
        (Some(1), Some(2) | None) if two_cables => looped(priors.loop_indicated, KnownBy::Inferred),
        (Some(1), None) => match cables {
            Some(_) => looped(unseen, KnownBy::Inferred),
            None => looped(uncounted_loop, KnownBy::Assumed),
        },
        // Three carriers and four conductors: three-phase; the count alone says nothing about a loop.
        (Some(3), Some(4)) => three_phase(if two_cables { priors.loop_indicated } else { unseen }, KnownBy::Seen),
        (Some(3), None) => three_phase(if two_cables { priors.loop_indicated } else { unseen }, KnownBy::Inferred),
        (Some(3), Some(2)) => {
            contradicts(
                "three fuse carriers but two conductors: perhaps a three-phase head with one phase used; neither count is asserted",
            );
            open(&[(single(false), HALF), (THREE, HALF)], KnownBy::Contradicted)
        }
        (Some(2), Some(3)) if !two_cables => open(
            // Two fuse carriers and three conductors: split-phase, or single-phase. Common practice, no source.
            &[(SPLIT, Probability::of(0.7)), (single(false), Probability::of(0.3))],
            KnownBy::Inferred,
        ),
        // Two carriers with four conductors, or with two cables: two cut-outs, off-peak wiring or a loop, as well as split-phase.
        (Some(2), _) if conductors == Some(4) || two_cables => open(
            // Two fuse carriers with four conductors or two cables: split-phase, a loop, or neither. Common practice, no source.
            &[
                (SPLIT, Probability::of(0.35)),
                (single(true), Probability::of(0.35)),
                (single(false), Probability::of(0.3)),
            ],
            KnownBy::Inferred,
        ),
        (Some(2), _) => open(&[(SPLIT, HALF), (single(false), HALF)], KnownBy::Assumed),
        // One carrier and three conductors: the earth was counted too, or one of four was missed.
        (Some(1), Some(3)) if two_cables => looped(priors.loop_indicated, KnownBy::Inferred),
        // The probability of a loop where there are one fuse carrier and three conductors: common practice, no source.
        (Some(1), Some(3)) => looped(Probability::of(0.35), KnownBy::Inferred),
        (None, Some(4)) if two_cables => looped(priors.loop_indicated, KnownBy::Inferred),
        // Carriers not counted and three conductors: split-phase, or a miscount.
        (None, Some(3)) => open(
            // Three conductors and no count of carriers: split-phase, a loop, or neither. Common practice, no source.
            &[
                (SPLIT, Probability::of(0.3)),
                (single(true), if two_cables { HALF } else { Probability::of(0.2) }),
                (single(false), if two_cables { Probability::of(0.2) } else { HALF }),
            ],
            KnownBy::Inferred,
        ),
        (None, Some(4)) => open(
            // Four conductors with the carriers not counted: a loop, three phases or neither. Common practice, no source.
            &[
                (single(true), Probability::of(0.45)),
                (THREE, Probability::of(0.4)),
                (single(false), Probability::of(0.15)),
            ],
            KnownBy::Inferred,
        ),
        (None, Some(2)) if !two_cables => looped(unseen, KnownBy::Inferred),
        (None, None | Some(2)) if two_cables => looped(priors.loop_indicated, KnownBy::Inferred),
        (None, None | Some(2)) => uncounted(priors.three_phase, uncounted_loop),
        (Some(_) | None, Some(_)) => {
            contradicts(
                "the conductors counted fit no usual service head with that many fuse carriers; neither count is asserted",
            );
            open(
                // Counts that fit no usual head: single-phase, a loop, three phases. Common practice, no source.
                &[
                    (single(false), Probability::of(0.5)),
                    (single(true), Probability::of(0.3)),
                    (THREE, Probability::of(0.2)),
                ],
                KnownBy::Contradicted,
            )
        }
        (Some(_), None) => uncounted(priors.three_phase, uncounted_loop),
    }
}

const HALF: Probability = Probability::of(0.5); // arithmetic: nobody can say which

fn three_phase(looped: Probability, known_by: KnownBy) -> Fact<Supply> {
    Fact::chance(Supply { looped: true, ..THREE }, THREE, looped, known_by, FROM)
}

fn uncounted(three: Probability, looped: Probability) -> Fact<Supply> {
    let one = three.complement();
    Fact::weighed(
        &[(THREE, three), (single(true), one * looped), (single(false), one * looped.complement())],
        KnownBy::Assumed,
        FROM,
    )
}

/// Infers the main fuse. The rating moulded on the carrier is the most it may hold, so it is an upper bound on what is assumed.
pub(super) fn infer_fuse(answers: &Answers, config: &Config) -> Fact<Amps> {
    const FROM_RATING: &[&str] = &["carrier-rating"];
    let by_age = *config.priors.fuse.of(answers.home.age.known().copied());
    let Fuses { sixty, eighty } = region(answers, config).and_then(|region| region.fuse).unwrap_or(by_age);
    let usual = [
        // The ratings that are usual in homes: common practice, no source.
        (Amps::of(60.0), sixty),
        (Amps::of(80.0), eighty), // common practice, no source
        (Amps::of(100.0), Probability::from_sum(1.0 - sixty.get() - eighty.get())), // common practice, no source
    ];
    match answers.meter.carrier_rating.known() {
        None => Fact::weighed(&usual, KnownBy::Assumed, FROM_RATING),
        Some(most) => {
            let mut held: Vec<(Amps, Probability)> =
                usual.into_iter().filter(|(amps, weight)| amps <= most && weight.get() > 0.0).collect();
            if held.is_empty() {
                held.push((*most, Probability::CERTAIN));
            }
            Fact::weighed(&held, KnownBy::Inferred, FROM_RATING)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, BoundedCount, HomeKind};
    use model::config::demo_config;

    fn counted(carriers: Option<u8>, conductors: Option<u8>, cables: Option<u8>) -> (Fact<Supply>, usize) {
        let mut answers = Answers::default();
        answers.home.kind = Answer::Known(HomeKind::Terrace);
        answers.meter.fuse_carriers = answer(carriers);
        answers.meter.head_conductors = answer(conductors);
        answers.meter.street_cables = answer(cables);
        let mut contradictions = Vec::new();
        let fact = infer(&answers, &demo_config(), &mut contradictions);
        (fact, contradictions.len())
    }

    fn answer<const L: u8, const M: u8>(count: Option<u8>) -> Answer<BoundedCount<L, M>> {
        count.and_then(BoundedCount::new).map_or(Answer::NotSure, Answer::Known)
    }

    #[test]
    fn one_carrier_two_conductors_one_cable_is_no_loop_seen_not_no_loop() {
        let (supply, contradictions) = counted(Some(1), Some(2), Some(1));
        assert_eq!(supply.likeliest(), single(false));
        assert!(supply.probability(|supply| supply.looped).get() > 0.0, "a terrace keeps a prior");
        assert_eq!(contradictions, 0);
    }

    #[test]
    fn one_carrier_four_conductors_is_a_probable_loop_not_three_phase() {
        for cables in [Some(1), Some(2), None] {
            let (supply, contradictions) = counted(Some(1), Some(4), cables);
            assert_eq!(supply.likeliest(), single(true));
            assert!(supply.probability(|supply| supply.looped) < Probability::CERTAIN, "it stays probable");
            assert_eq!(supply.probability(|supply| supply.phases == Phases::Three), Probability::NEVER);
            assert_eq!(contradictions, 0);
        }
    }

    #[test]
    fn two_street_cables_are_a_probable_loop() {
        assert_eq!(counted(Some(1), Some(2), Some(2)).0.likeliest(), single(true));
        assert_eq!(counted(None, None, Some(2)).0.likeliest(), single(true));
    }

    #[test]
    fn three_carriers_four_conductors_is_three_phase_and_says_nothing_of_a_loop() {
        let (supply, contradictions) = counted(Some(3), Some(4), Some(1));
        assert_eq!(supply.likeliest(), THREE);
        assert_eq!(supply.probability(|supply| supply.phases == Phases::Three), Probability::CERTAIN);
        assert!(supply.probability(|supply| supply.looped).get() > 0.0, "a terrace keeps its prior");
        assert_eq!(contradictions, 0);
    }

    #[test]
    fn two_carriers_three_conductors_are_to_be_looked_at() {
        let (supply, contradictions) = counted(Some(2), Some(3), Some(1));
        assert_eq!(supply.likeliest().phases, Phases::Split);
        assert!(supply.is_unsure());
        assert_eq!(contradictions, 0);
    }

    #[test]
    fn one_carrier_three_conductors_is_a_miscount_either_way_and_stays_open() {
        let (supply, contradictions) = counted(Some(1), Some(3), Some(1));
        assert!(supply.is_unsure());
        assert_eq!(contradictions, 0);
    }

    #[test]
    fn more_evidence_of_a_loop_never_makes_it_less_likely() {
        let looped = |counts: (Option<u8>, Option<u8>, Option<u8>)| {
            counted(counts.0, counts.1, counts.2).0.probability(|supply| supply.looped)
        };
        for carriers in [None, Some(1), Some(2), Some(3)] {
            for conductors in [None, Some(2), Some(3), Some(4)] {
                assert!(
                    looped((carriers, conductors, Some(2))) >= looped((carriers, conductors, Some(1))),
                    "{carriers:?} {conductors:?}"
                );
            }
        }
        assert!(looped((None, Some(4), Some(2))).get() > 0.8 && looped((Some(1), Some(3), Some(2))).get() > 0.8);
    }

    #[test]
    fn three_conductors_with_carriers_not_counted_is_no_contradiction() {
        let (supply, contradictions) = counted(None, Some(3), Some(1));
        assert_eq!(contradictions, 0);
        assert!(supply.is_unsure());
    }

    #[test]
    fn two_carriers_with_two_cables_may_hide_a_loop() {
        for conductors in [Some(3), Some(4), None] {
            let (supply, _) = counted(Some(2), conductors, Some(2));
            assert!(supply.probability(|supply| supply.looped).get() > 0.0);
        }
    }

    #[test]
    fn three_carriers_two_conductors_is_a_contradiction_and_asserts_neither() {
        let (supply, contradictions) = counted(Some(3), Some(2), Some(1));
        assert_eq!(contradictions, 1);
        assert_eq!(supply.known_by, KnownBy::Contradicted);
        assert_eq!(supply.probability(|supply| supply.phases == Phases::Three), HALF);
    }

    #[test]
    fn nothing_counted_stays_open_on_phases_and_loop() {
        let (supply, _) = counted(None, None, None);
        assert_eq!(supply.values().len(), 3);
    }

    #[test]
    fn a_moulded_rating_is_an_upper_bound() {
        let mut answers = Answers::default();
        answers.meter.carrier_rating = Answer::Known(Amps::of(80.0));
        let fuse = infer_fuse(&answers, &demo_config());
        assert!(fuse.values().iter().all(|(amps, _)| *amps <= Amps::of(80.0)));
        assert!(fuse.is_unsure(), "an 80 A carrier may hold a 60 A fuse");
        answers.meter.carrier_rating = Answer::Known(Amps::of(40.0));
        assert_eq!(infer_fuse(&answers, &demo_config()).likeliest(), Amps::of(40.0));
    }

    #[test]
    fn once_a_neighbours_supply_is_separated_no_case_of_a_loop_is_left() {
        let mut answers = Answers::default();
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        let looped =
            |answers: &Answers| infer(answers, &demo_config(), &mut Vec::new()).probability(|supply| supply.looped);
        for answer in [OperatorAnswer::Accepted, OperatorAnswer::LeftAsItIs, OperatorAnswer::Refused] {
            answers.operator.answer = Answer::Known(answer);
            assert!(looped(&answers) > Probability::NEVER, "{answer:?} leaves it where it is");
        }
        answers.operator.answer = Answer::Known(OperatorAnswer::Separated);
        assert_eq!(looped(&answers), Probability::NEVER);
    }
}
