//! Maximum demand with the charge point, and what it asks of the network operator.
//!
//! Source of the process: Energy Networks Association, application form for low-carbon technologies, and frequently asked
//! questions; Northern Powergrid, process page. Charge point at full current: BS 7671 722.311.201.

use super::Given;
use super::charge_current::{self, FixedLimit};
use crate::answers::{Answers, HazardPlace, HazardSign, Set, choices::words};
use crate::site::case::KnownCase;
use crate::site::{HazardReading, Phases, hazard_of};
use crate::units::{Amps, Headroom, Ratio};

words! {
    /// What the network operator is owed.
    pub enum Outcome {
        /// Told after the work.
        NotifyAfter => "notify-after",
        /// Asked first; an answer without works is expected.
        AskFirst => "ask-first",
        /// Asked first; works are likely.
        AskFirstWorksLikely => "ask-first-works-likely",
    }
}

words! {
    /// Why the network operator is asked first.
    pub enum AskReason {
        /// The supply is probably looped.
        Looped => "looped-supply",
        /// A split-phase supply, or something else to be looked at.
        SplitPhase => "split-phase",
        /// Demand above the main fuse.
        OverFuse => "demand-over-main-fuse",
        /// Demand above the threshold for telling afterwards.
        OverThreshold => "demand-over-threshold",
        /// More than one charge point.
        SecondPoint => "second-charge-point",
        /// Worry about service equipment.
        Equipment => "service-equipment-in-doubt",
        /// What is at the service head is not clear.
        Unclear => "service-head-not-clear",
        /// Generation or storage that the operator has perhaps not accepted.
        Generation => "generation-to-clear",
    }
}

/// The network process of one known case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NetworkProcess {
    /// What is owed.
    pub outcome: Outcome,
    /// Why, where the operator is asked first.
    pub reasons: Set<AskReason>,
    /// Whether an accepted load limit is part of the design.
    pub load_limit: bool,
    /// Maximum demand on the fuse, or on the fullest phase, with the charge point.
    pub demand: Amps,
    /// What the main fuse leaves over.
    pub headroom: Headroom,
}

/// Share of a three-phase home's load that is taken to lie on the phase of the charge point: common practice, no source.
const ON_THE_FULLEST_PHASE: Ratio = Ratio::of(0.5);

/// What of a home's load lies on the phase that counts: the charge point's.
#[must_use]
pub fn on_the_fullest_phase(existing: Amps, phases: Phases) -> Amps {
    if phases == Phases::Three { existing * ON_THE_FULLEST_PHASE } else { existing }
}

/// What a limit set once would leave the charge point, under the threshold for telling afterwards and the main fuse.
#[must_use]
pub fn fixed_limit(case: &KnownCase<'_>, given: &Given<'_>) -> FixedLimit {
    let limit = case.main_fuse().min(given.config.thresholds.ask_above);
    let fullest = on_the_fullest_phase(case.existing(), case.supply().phases);
    charge_current::fixed_limit(limit, &[fullest], given.point.current)
}

/// Works out demand and process.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Given<'_>) -> NetworkProcess {
    let mut reasons = Set::NONE;
    if case.other_point() {
        reasons = reasons.with(AskReason::SecondPoint);
    }
    if service_equipment_in_doubt(given.answers) {
        reasons = reasons.with(AskReason::Equipment);
    }
    if case.supply_contradicted() {
        reasons = reasons.with(AskReason::Unclear);
    }
    if case.generation_to_clear() {
        reasons = reasons.with(AskReason::Generation);
    }
    let supply = case.supply();
    if supply.looped {
        reasons = reasons.with(AskReason::Looped);
    }
    if supply.phases == Phases::Split {
        reasons = reasons.with(AskReason::SplitPhase);
    }
    let fuse = case.main_fuse();
    let existing = on_the_fullest_phase(case.existing(), supply.phases);
    let threshold = fuse.min(given.config.thresholds.ask_above);

    // A dynamic limit lets the full current through and pauses: it holds the whole home at the lowest limit that the home alone
    // keeps to, the threshold for telling afterwards or else the main fuse.
    let full = existing + given.point.current;
    let limit = [threshold, fuse].into_iter().find(|limit| existing <= *limit).filter(|_| given.point.load_sensing);
    let (demand, load_limit) = match limit {
        Some(limit) if full > threshold => (full.min(limit), full > limit),
        _ => (full, false),
    };
    if demand > fuse {
        reasons = reasons.with(AskReason::OverFuse);
    } else if demand > given.config.thresholds.ask_above {
        reasons = reasons.with(AskReason::OverThreshold);
    }
    let works = [AskReason::Looped, AskReason::OverFuse, AskReason::Equipment];
    let outcome = if reasons.is_empty() {
        Outcome::NotifyAfter
    } else if works.iter().any(|reason| reasons.has(*reason)) {
        Outcome::AskFirstWorksLikely
    } else {
        Outcome::AskFirst
    };
    NetworkProcess { outcome, reasons, load_limit, demand, headroom: demand.headroom_under(fuse) }
}

/// Whether a load-sensing clamp at the tails is wanted: for holding back, asked for or needed, and for following solar power.
#[must_use]
pub fn wants_clamp(process: &NetworkProcess, given: &Given<'_>) -> bool {
    let wish = &given.answers.wish;
    process.load_limit
        || (wish.hold_back.is(true) && given.point.load_sensing)
        || (wish.follow_solar.is(true) && given.point.follows_solar)
}

/// Whether something was noticed that may be the network operator's equipment: not at the board, the meter or elsewhere, and
/// not a smell of gas alone.
fn service_equipment_in_doubt(answers: &Answers) -> bool {
    match hazard_of(answers) {
        HazardReading::Seen { signs, place } => {
            matches!(place, Some(HazardPlace::ServiceHead) | None) && signs != Set::of(&[HazardSign::GasSmell])
        }
        HazardReading::NothingSeen | HazardReading::NotSure | HazardReading::NotAsked => false,
    }
}

impl AskReason {
    /// The reason in the installer's words.
    #[must_use]
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Looped => "the supply is probably looped to a neighbour",
            Self::SplitPhase => "the service head looks like a split-phase supply, or something else to be looked at",
            Self::OverFuse => "the demand with the charge point is over the main fuse",
            Self::OverThreshold => "the demand with the charge point is over what may be told afterwards",
            Self::SecondPoint => "there would be more than one charge point",
            Self::Equipment => "service equipment looks damaged or may be",
            Self::Unclear => "what was counted at the service head does not go together",
            Self::Generation => "generation or storage over 16 A a phase without the operator's letter",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, Cooking, Count, Heating, OtherPoint};
    use crate::config::demo_config;
    use crate::design::charge_point::suited;
    use crate::site;

    fn home(showers: u8) -> Answers {
        let mut answers = Answers::default();
        answers.meter.fuse_carriers = Answer::Known(Count::new(1).unwrap());
        answers.meter.head_conductors = Answer::Known(Count::new(2).unwrap());
        answers.meter.street_cables = Answer::Known(Count::new(1).unwrap());
        answers.loads.showers = Answer::Known(Count::new(showers).unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Gas);
        answers.loads.heating = Answer::Known(Heating::None);
        answers.loads.hot_tub = Answer::Known(false);
        answers.loads.other_point = Answer::Known(OtherPoint::None);
        answers
    }

    fn likeliest(answers: &Answers, sensing: bool) -> NetworkProcess {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = sensing);
        let site = site::read(answers, &config);
        let point = suited(answers, &config).unwrap();
        decide(&site.likeliest_case(), &Given { answers, config: &config, point })
    }

    #[test]
    fn a_plain_home_is_told_afterwards() {
        let process = likeliest(&home(0), false);
        assert_eq!(process.outcome, Outcome::NotifyAfter);
        assert_eq!(process.demand, Amps::of(13.0 + 32.0));
        assert!(!process.load_limit);
    }

    #[test]
    fn an_accepted_limit_is_the_design_taken_where_it_avoids_asking() {
        let busy = home(1);
        assert_eq!(likeliest(&busy, false).outcome, Outcome::AskFirst);
        let limited = likeliest(&busy, true);
        assert_eq!((limited.outcome, limited.load_limit), (Outcome::NotifyAfter, true));
        assert_eq!(limited.demand, Amps::of(60.0));
    }

    #[test]
    fn where_the_home_alone_is_over_the_threshold_it_is_held_at_the_fuse_and_asked_about() {
        let process = likeliest(&home(2), true);
        assert_eq!((process.outcome, process.load_limit), (Outcome::AskFirst, true));
        assert_eq!(process.demand, Amps::of(100.0));
    }

    #[test]
    fn no_limit_helps_where_the_home_alone_is_over_the_fuse() {
        let process = likeliest(&home(4), true);
        assert_eq!((process.outcome, process.load_limit), (Outcome::AskFirstWorksLikely, false));
    }

    #[test]
    fn a_smell_of_gas_is_not_the_network_operators() {
        let mut answers = home(0);
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::GasSmell]));
        assert!(!likeliest(&answers, true).reasons.has(AskReason::Equipment));
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Smoke]));
        assert!(likeliest(&answers, true).reasons.has(AskReason::Equipment));
    }

    #[test]
    fn a_second_charge_point_is_asked_about() {
        let mut answers = home(0);
        answers.loads.other_point = Answer::Known(OtherPoint::Kept);
        assert!(likeliest(&answers, true).reasons.has(AskReason::SecondPoint));
    }
}
