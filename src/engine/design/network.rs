//! Maximum demand with the charge point, and the procedure of the network operator that it calls for.
//!
//! Source of the process: Energy Networks Association, application form for low-carbon technologies, and frequently asked
//! questions; Northern Powergrid, process page. Charge point at full current: BS 7671 722.311.201.

use crate::calculation::charge_current::{self, FixedLimit};
use crate::calculation::load_limit::{held, on_the_fullest_phase};
use crate::context::Context;
use crate::site::case::{KnownCase, each_case};
use crate::site::{Phases, Site, at_night, hazard_of};
use alloc::vec::Vec;
use model::answers::{Answer, Answers, OperatorAnswer, ServiceEquipment, Set, Word, choices::words};
use model::tables::driving::LEAST_CHARGE;
use model::terms::KnownBy;
use model::units::{Amps, Headroom, Probability};

words! {
    /// The procedure of the network operator that applies.
    pub enum Outcome {
        /// Told after the work.
        NotifyAfter => "notify-after",
        /// Asked first; an answer on paper is expected, without a visit or works.
        AskFirst => "ask-first",
        /// Asked first; a visit or works are likely.
        AskFirstWorksLikely => "ask-first-works-likely",
    }
}

words! {
    /// The kind of answer that the network operator needs to give, the quickest first. Common practice, no source.
    pub enum Takes {
        /// A form, answered on paper: the same day to ten working days.
        Paper => "paper",
        /// An application for panels or a battery over 16 A a phase, answered on paper: weeks.
        Application => "application",
        /// Somebody who comes to look: two to six weeks.
        Visit => "visit",
        /// A larger fuse, and with it perhaps tails or meter: weeks.
        Upgrade => "upgrade",
        /// Works on the service: weeks to months.
        Works => "works",
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
        /// The installer has looked at service equipment, and it is still not known.
        EquipmentUnknown => "service-equipment-not-known",
        /// What is at the service head is not clear.
        Unclear => "service-head-not-clear",
        /// Generation or storage that the operator has perhaps not accepted.
        Generation => "generation-to-clear",
        /// The car is to power the home: it generates, and is new.
        CarExports => "car-exports",
        /// The operator has refused.
        Refused => "refused",
        /// The home can't be held at the limit that the operator set.
        OverLimit => "over-the-operators-limit",
        /// The charge point is not known to be one that the operators have listed.
        NotListed => "not-listed",
    }
}

impl AskReason {
    /// The kind of answer needed where this is a reason for asking, by the main fuse. Common practice, no source.
    #[must_use]
    pub fn takes(self, fuse: Amps) -> Takes {
        match self {
            Self::OverThreshold | Self::SecondPoint | Self::NotListed => Takes::Paper,
            Self::Generation | Self::CarExports => Takes::Application,
            Self::SplitPhase | Self::Equipment | Self::EquipmentUnknown | Self::Unclear | Self::OverLimit => {
                Takes::Visit
            }
            // No larger single-phase fuse exists: it takes a second service, or three phases.
            Self::OverFuse if fuse >= LARGEST_FUSE => Takes::Works,
            Self::OverFuse => Takes::Upgrade,
            Self::Looped | Self::Refused => Takes::Works,
        }
    }
}

/// The largest main fuse of a single-phase home: common practice, no source.
const LARGEST_FUSE: Amps = Amps::of(100.0);

/// The network operator's procedure in one known case, and the demand that it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NetworkProcess {
    /// The procedure that applies.
    pub outcome: Outcome,
    /// Why the operator must be asked first; empty where it is told afterwards.
    pub reasons: Set<AskReason>,
    /// The kind of answer needed; none where it is told afterwards.
    pub takes: Option<Takes>,
    /// Whether an accepted load limit is part of the design.
    pub load_limit: bool,
    /// The setting of that limit on the whole home, where one is part of the design.
    pub limit: Option<Amps>,
    /// The charge current: under the charge point's own only where a fixed limit is set.
    pub current: Amps,
    /// Maximum demand on the fuse, or on the fullest phase, with the charge point.
    pub demand: Amps,
    /// The main fuse.
    pub fuse: Amps,
    /// What it leaves over.
    pub headroom: Headroom,
}

/// The demand above which the operator is asked first: the limit that it set, or else the config's threshold for notifying afterwards; the
/// main fuse where that is less.
#[must_use]
pub fn threshold(case: &KnownCase<'_>, given: &Context<'_>) -> Amps {
    given.threshold(case.main_fuse())
}

/// The current that charges the car at night. Under a load limit that is what heaters, battery and another charge point leave of the limit.
#[must_use]
pub fn at_night_under(process: &NetworkProcess, answers: &Answers) -> Amps {
    let left = process.limit.map_or(process.current, |limit| limit.above(at_night(answers)));
    process.current.min(left).max(LEAST_CHARGE)
}

/// A fixed limit on the charge current under [`threshold`], beside the highest demand that the home may have: the fixed current never gives
/// way to the home.
#[must_use]
pub fn fixed_limit(site: &Site, case: &KnownCase<'_>, given: &Context<'_>) -> FixedLimit {
    let highest = site.existing.values().iter().map(|(amps, _)| *amps).fold(Amps::ZERO, Amps::max);
    let fullest = on_the_fullest_phase(highest, case.supply().phases);
    charge_current::fixed_limit(threshold(case, given), &[fullest], given.point.current)
}

/// Works out demand and procedure with the charge point as it is offered.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Context<'_>) -> NetworkProcess {
    with(case, given, given.point.current, given.point.load_sensing)
}

words! {
    /// Another design that may be taken in place of the one that was.
    pub enum Otherwise {
        /// Without the load limit.
        WithoutLimit => "without-limit",
        /// With a limit that lets the full current through and pauses.
        DynamicLimit => "dynamic-limit",
        /// With the charge current fixed at what the headroom leaves.
        FixedLimit => "fixed-limit",
    }
}

/// The other designs that differ in this case from the one taken, in demand or in the operator's procedure: with or without a limit.
pub fn alternatives(
    site: &Site,
    case: &KnownCase<'_>,
    given: &Context<'_>,
) -> impl Iterator<Item = (Otherwise, NetworkProcess)> {
    let (taken, point) = (decide(case, given), given.point);
    let fixed = fixed_limit(site, case, given).setting.filter(|current| *current < point.current);
    let without = with(case, given, point.current, false);
    let dynamic = with(case, given, point.current, true);
    [
        taken.load_limit.then_some((Otherwise::WithoutLimit, without)),
        (!point.load_sensing && dynamic.load_limit).then_some((Otherwise::DynamicLimit, dynamic)),
        fixed.map(|current| (Otherwise::FixedLimit, with(case, given, current, false))),
    ]
    .into_iter()
    .flatten()
    .filter(move |(_, other)| other.demand != taken.demand || other.outcome != taken.outcome)
}

/// One of the other designs, over all cases.
#[derive(Clone, Debug, PartialEq)]
pub struct Alternative {
    /// Which.
    pub design: Otherwise,
    /// Its network process in the likeliest case; where it makes no difference there, in the likeliest case in which it does.
    pub process: NetworkProcess,
    /// Where it makes no difference in the likeliest case: the probability of the cases in which it does.
    pub elsewhere: Option<Probability>,
    /// The probability of each procedure over all cases, in the order of [`Outcome`]; those that are impossible are left out.
    pub outcomes: Vec<(Outcome, Probability)>,
}

/// A design that helps only in some cases is named where these have at least this probability: common practice, no source.
const WORTH_NAMING: f64 = 0.1;

/// The other designs that make a difference in cases likely enough together, each once, with the outcomes over all cases. A fixed limit
/// keeps the current of its likeliest case, since it is set once; it is named only where the supply was counted, because it depends on fuse
/// and phases alone.
#[must_use]
pub fn alternatives_over_all(site: &Site, given: &Context<'_>) -> Vec<Alternative> {
    /// A design, the weight of the likeliest case in which it differs, its process there, and the weight of all such cases.
    struct Found(Otherwise, f64, NetworkProcess, f64);
    let mut found: Vec<Found> = Vec::new();
    each_case(
        site,
        |case| alternatives(site, case, given).collect::<Vec<_>>(),
        |met, others| {
            for (design, process) in others {
                match found.iter_mut().find(|known| known.0 == design) {
                    Some(known) => {
                        known.3 += met.weight;
                        if met.weight > known.1 {
                            (known.1, known.2) = (met.weight, process);
                        }
                    }
                    None => found.push(Found(design, met.weight, process, met.weight)),
                }
            }
        },
    );
    let counted = matches!(site.supply.known_by, KnownBy::Seen | KnownBy::Inferred);
    found.retain(|known| known.3 >= WORTH_NAMING && (counted || known.0 != Otherwise::FixedLimit));
    found.sort_by_key(|known| known.0.place());
    let likeliest: Vec<(Otherwise, NetworkProcess)> = alternatives(site, &site.likeliest_case(), given).collect();
    found
        .into_iter()
        .map(|Found(design, _, there, share)| {
            // The figures of the likeliest case are used where there are any, so that they agree with everything else shown of that case.
            let here = likeliest.iter().find(|(other, _)| *other == design).map(|(_, process)| *process);
            let process = here.unwrap_or(there);
            let mut weights = [0.0; Outcome::ALL.len()];
            each_case(
                site,
                |case| with(case, given, process.current, design == Otherwise::DynamicLimit).outcome,
                |met, outcome| weights[usize::from(outcome.place())] += met.weight,
            );
            let alive = Outcome::ALL.iter().copied().zip(weights).filter(|(_, weight)| *weight > 0.0);
            Alternative {
                design,
                process,
                elsewhere: here.is_none().then(|| Probability::from_sum(share)),
                outcomes: alive.map(|(outcome, weight)| (outcome, Probability::from_sum(weight))).collect(),
            }
        })
        .collect()
}

fn with(case: &KnownCase<'_>, given: &Context<'_>, current: Amps, load_sensing: bool) -> NetworkProcess {
    let mut reasons = still_asked(for_what_is_there(case, given), given);
    let fuse = case.main_fuse();
    let existing = on_the_fullest_phase(case.existing(), case.supply().phases);
    let (demand, limit) = held(existing, current, given.threshold(fuse), load_sensing);
    if let Some(reason) = for_demand(demand, fuse, given) {
        reasons = reasons.with(reason);
    }
    let takes = reasons.iter().map(|reason| reason.takes(fuse)).max();
    let outcome = match takes {
        None => Outcome::NotifyAfter,
        Some(Takes::Paper | Takes::Application) => Outcome::AskFirst,
        Some(Takes::Visit | Takes::Upgrade | Takes::Works) => Outcome::AskFirstWorksLikely,
    };
    NetworkProcess {
        outcome,
        reasons,
        takes,
        load_limit: limit.is_some(),
        limit,
        current,
        demand,
        fuse,
        headroom: demand.headroom_under(fuse),
    }
}

/// The reasons for asking the operator that do not depend on the charge point's current, before any answer is taken into account.
fn for_what_is_there(case: &KnownCase<'_>, given: &Context<'_>) -> Set<AskReason> {
    let mut reasons = Set::NONE;
    if case.other_point() {
        reasons = reasons.with(AskReason::SecondPoint);
    }
    if case.supply_contradicted() {
        reasons = reasons.with(AskReason::Unclear);
    }
    if given.answers.wish.gives_back.is(true) {
        reasons = reasons.with(AskReason::CarExports);
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
    if matches!(given.answers.meter.equipment, Answer::NotSure) {
        reasons = reasons.with(AskReason::EquipmentUnknown);
    }
    reasons
}

/// The reasons that are left after the operator's answer. What was asked is settled by the answer; damaged service equipment is reported
/// whatever the answer was.
fn still_asked(mut reasons: Set<AskReason>, given: &Context<'_>) -> Set<AskReason> {
    let answer = given.answers.operator.answer.known();
    match answer {
        None => {}
        Some(OperatorAnswer::Refused) => reasons = reasons.with(AskReason::Refused),
        Some(
            OperatorAnswer::Accepted | OperatorAnswer::Separated | OperatorAnswer::LeftAsItIs | OperatorAnswer::Limited,
        ) => reasons = Set::NONE,
    }
    if service_equipment_in_doubt(given.answers) {
        reasons = reasons.with(AskReason::Equipment);
    }
    if is_not_listed(given) && answer.is_none() {
        reasons = reasons.with(AskReason::NotListed);
    }
    reasons
}

/// The reason for asking that this demand gives; `None` where it gives none.
fn for_demand(demand: Amps, fuse: Amps, given: &Context<'_>) -> Option<AskReason> {
    let answered = matches!(
        given.answers.operator.answer.known(),
        Some(OperatorAnswer::Accepted | OperatorAnswer::Separated | OperatorAnswer::LeftAsItIs)
    );
    let is_limited = given.operators_limit().is_some();
    if demand > fuse && !answered {
        Some(AskReason::OverFuse)
    } else if is_limited && demand > given.threshold(fuse) {
        Some(AskReason::OverLimit)
    } else if !is_limited && demand > given.config.thresholds.ask_above && !answered {
        Some(AskReason::OverThreshold)
    } else {
        None
    }
}

/// Whether a load-sensing clamp at the tails is wanted: for holding back, where wished for or needed, or for following solar power.
#[must_use]
pub fn wants_clamp(process: &NetworkProcess, given: &Context<'_>) -> bool {
    let wish = &given.answers.wish;
    process.load_limit
        || (wish.hold_back.is(true) && given.point.load_sensing)
        || (wish.follow_solar.is(true) && given.point.follows_solar)
}

/// Whether the installer found service equipment in doubt, or a sign was noticed that may concern the network operator.
fn service_equipment_in_doubt(answers: &Answers) -> bool {
    answers.meter.equipment.is(ServiceEquipment::InDoubt) || hazard_of(answers).may_be_the_operators()
}

/// Whether the charge point is not known to be listed by the network operators: the installer's config says so for one that it offers, the
/// papers for one that was bought. Source: Energy Networks Association, application form ("device does not meet the required standards").
fn is_not_listed(given: &Context<'_>) -> bool {
    let wish = &given.answers.wish;
    if wish.bought.is(true) { !wish.bought_papers.is(true) } else { !given.point.listed }
}

impl AskReason {
    /// The reason in the installer's words.
    #[must_use]
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Looped => "the supply is looped to a neighbour",
            Self::SplitPhase => "the service head is of a split-phase supply, or something else to be looked at",
            Self::OverFuse => "the demand with the charge point is over the main fuse",
            Self::OverThreshold => "the demand with the charge point is over what may be told afterwards",
            Self::SecondPoint => "there would be more than one charge point",
            Self::Equipment => "service equipment looks damaged or may be",
            Self::EquipmentUnknown => "service equipment was looked at and is still not known",
            Self::Unclear => "what was counted at the service head does not go together",
            Self::Generation => "generation or storage over 16 A a phase without the operator's letter",
            Self::CarExports => "the car is to power the home, which the operator accepts first",
            Self::Refused => "the network operator has refused: another design, or works, are asked for",
            Self::OverLimit => "the home can't be held at the limit that the network operator set",
            Self::NotListed => "the charge point is not known to be in the operators' list",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site;
    use model::answers::{BoundedCount, Cooking, HazardPlace, HazardSign, Heating, OtherPoint};
    use model::config::demo_config;

    fn home(showers: u8) -> Answers {
        let mut answers = Answers::default();
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        answers.meter.street_cables = Answer::Known(BoundedCount::new(1).unwrap());
        answers.loads.showers = Answer::Known(BoundedCount::new(showers).unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Gas);
        answers.loads.heating = Answer::Known(Heating::None);
        answers.loads.hot_tub = Answer::Known(false);
        answers.loads.other_point = Answer::Known(OtherPoint::None);
        answers
    }

    fn likeliest(answers: &Answers, sensing: bool) -> NetworkProcess {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = sensing);
        let site = site::infer(answers, &config);
        decide(&site.likeliest_case(), &Context::of(answers, &config))
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

    fn of(existing: f64, current: f64, fuse: f64, answers: &Answers) -> (Amps, Option<Amps>) {
        let config = demo_config();
        let given = Context::of(answers, &config);
        held(Amps::of(existing), Amps::of(current), given.threshold(Amps::of(fuse)), true)
    }

    /// Home 45 A and 32 A more: held at 80 A that is 77 A, held at 60 A it is 60 A; a home of 61 A alone is 61 A, and stays held.
    #[test]
    fn with_a_limit_the_demand_is_the_lesser_of_all_together_and_the_setting_never_less_than_the_home() {
        let mut answers = home(0);
        assert_eq!(of(45.0, 32.0, 80.0, &answers), (Amps::of(60.0), Some(Amps::of(60.0))));
        assert_eq!(of(20.0, 32.0, 80.0, &answers), (Amps::of(52.0), None), "nothing has to be held");
        assert_eq!(of(61.0, 32.0, 60.0, &answers), (Amps::of(61.0), Some(Amps::of(60.0))));
        assert_eq!(of(90.0, 32.0, 100.0, &answers), (Amps::of(90.0), Some(Amps::of(60.0))));
        answers.operator.answer = Answer::Known(OperatorAnswer::Limited);
        answers.operator.limit = Answer::Known(Amps::of(80.0));
        assert_eq!(of(45.0, 32.0, 100.0, &answers), (Amps::of(77.0), None));
        assert_eq!(of(55.0, 32.0, 100.0, &answers), (Amps::of(80.0), Some(Amps::of(80.0))));
    }

    #[test]
    fn more_load_never_drops_the_limit_nor_jumps() {
        let answers = home(0);
        for fuse in [60.0, 80.0, 100.0] {
            let mut before = of(0.0, 32.0, fuse, &answers);
            for tenths in 1..1_200 {
                let now = of(f64::from(tenths) / 10.0, 32.0, fuse, &answers);
                assert!(now.0 >= before.0 && now.0.get() - before.0.get() < 0.1 + 1e-9, "{tenths}: {before:?} {now:?}");
                assert!(before.1.is_none() || now.1 == before.1, "{tenths}");
                before = now;
            }
        }
    }

    #[test]
    fn where_the_home_alone_is_over_the_threshold_it_stays_limited_and_is_asked_about_on_paper() {
        let mut answers = home(2);
        answers.meter.carrier_rating = Answer::Known(Amps::of(100.0));
        answers.loads.shower_power = Answer::Known(model::units::Kilowatts::of(11.5));
        answers.loads.hot_tub = Answer::Known(true);
        let process = likeliest(&answers, true);
        assert_eq!((process.outcome, process.takes, process.load_limit), (Outcome::AskFirst, Some(Takes::Paper), true));
        assert!(process.demand > Amps::of(60.0) && process.demand < Amps::of(100.0), "{}", process.demand);
    }

    #[test]
    fn over_the_fuse_it_is_an_upgrade_and_stays_limited() {
        let mut answers = home(4);
        answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
        answers.loads.cooking = Answer::Known(Cooking::Electric);
        answers.loads.heating = Answer::Known(Heating::Direct);
        let process = likeliest(&answers, true);
        assert_eq!(
            (process.outcome, process.takes, process.load_limit),
            (Outcome::AskFirstWorksLikely, Some(Takes::Upgrade), true)
        );
        assert_eq!(process.demand, Amps::of(60.0 * 1.25), "the fuse has held so far");
    }

    #[test]
    fn a_smell_of_gas_is_not_the_network_operators_and_a_tingle_is_wherever_it_is_felt() {
        let mut answers = home(0);
        let mut asked = |sign, place| {
            answers.hazard.signs = Answer::Known(Set::of(&[sign]));
            answers.hazard.place = place;
            likeliest(&answers, true).reasons.has(AskReason::Equipment)
        };
        assert!(!asked(HazardSign::GasSmell, Answer::NotSure));
        assert!(asked(HazardSign::Smoke, Answer::NotSure));
        assert!(!asked(HazardSign::Smoke, Answer::Known(HazardPlace::Board)));
        for place in [HazardPlace::Board, HazardPlace::Elsewhere, HazardPlace::Meter, HazardPlace::ServiceHead] {
            assert!(asked(HazardSign::Tingle, Answer::Known(place)), "{place:?}");
            assert!(asked(HazardSign::UnsteadyLights, Answer::Known(place)), "{place:?}");
        }
        assert!(!asked(HazardSign::Tingle, Answer::Known(HazardPlace::Appliance)), "one appliance alone");
        assert!(asked(HazardSign::Discolouration, Answer::Known(HazardPlace::Meter)), "who can tell it from the head?");
    }

    #[test]
    fn a_charge_point_that_is_not_known_to_be_listed_is_asked_about() {
        let mut answers = home(0);
        assert!(!likeliest(&answers, true).reasons.has(AskReason::NotListed));
        answers.wish.bought = Answer::Known(true);
        assert!(likeliest(&answers, true).reasons.has(AskReason::NotListed));
        answers.wish.bought_papers = Answer::Known(true);
        assert!(!likeliest(&answers, true).reasons.has(AskReason::NotListed));
    }

    #[test]
    fn a_second_charge_point_is_asked_about() {
        let mut answers = home(0);
        answers.loads.other_point = Answer::Known(OtherPoint::Kept);
        assert!(likeliest(&answers, true).reasons.has(AskReason::SecondPoint));
    }

    #[test]
    fn the_operators_answer_changes_the_design() {
        let mut answers = home(0);
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        assert!(likeliest(&answers, true).reasons.has(AskReason::Looped));
        for answer in [OperatorAnswer::Accepted, OperatorAnswer::Separated, OperatorAnswer::LeftAsItIs] {
            answers.operator.answer = Answer::Known(answer);
            assert_eq!(likeliest(&answers, true).outcome, Outcome::NotifyAfter, "{answer:?}");
        }
        answers.operator.answer = Answer::Known(OperatorAnswer::Limited);
        answers.operator.limit = Answer::Known(Amps::of(40.0));
        let limited = likeliest(&answers, true);
        assert_eq!(
            (limited.outcome, limited.limit, limited.demand),
            (Outcome::NotifyAfter, Some(Amps::of(40.0)), Amps::of(40.0))
        );
        assert!(likeliest(&answers, false).reasons.has(AskReason::OverLimit), "nothing holds it there");
        let (config, site) = (demo_config(), site::infer(&answers, &demo_config()));
        let given = Context::of(&answers, &config);
        let fixed = fixed_limit(&site, &site.likeliest_case(), &given);
        assert_eq!(fixed.setting, Some(Amps::of(40.0 - 20.0)), "what the operator's limit leaves beside the highest");
        answers.operator.answer = Answer::Known(OperatorAnswer::Refused);
        assert!(likeliest(&answers, true).reasons.has(AskReason::Refused));
    }

    /// A loop is a mere possibility here: no limit helps against it, and so none holds in every case.
    #[test]
    fn the_other_ways_are_held_to_every_case() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
        let mut answers = home(1);
        answers.home.kind = Answer::Known(model::answers::HomeKind::Terrace);
        answers.meter.street_cables = Answer::NotSure;
        let site = site::infer(&answers, &config);
        let given = Context::of(&answers, &config);
        let all = alternatives_over_all(&site, &given);
        let looped = site.supply.probability(|supply| supply.looped);
        let dynamic = all.iter().find(|other| other.design == Otherwise::DynamicLimit).unwrap();
        assert_eq!(dynamic.process.outcome, Outcome::NotifyAfter);
        for other in &all {
            let sum: f64 = other.outcomes.iter().map(|(_, probability)| probability.get()).sum();
            assert!(
                (sum - 1.0).abs() < 1e-6 && other.outcomes.iter().any(|(outcome, _)| *outcome == other.process.outcome)
            );
        }
        let of = |outcome| dynamic.outcomes.iter().find(|(of, _)| *of == outcome).map_or(0.0, |(_, share)| share.get());
        assert!(looped.get() > 0.0 && of(Outcome::AskFirstWorksLikely) >= looped.get() - 1e-9, "{dynamic:?}");
        assert!(of(Outcome::NotifyAfter) > 0.5 && of(Outcome::NotifyAfter) <= 1.0 - looped.get() + 1e-9, "{dynamic:?}");
    }

    #[test]
    fn what_helps_in_a_less_likely_case_alone_is_named_too() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
        let mut answers = home(0);
        answers.loads.cooking = Answer::NotSure;
        let site = site::infer(&answers, &config);
        let given = Context::of(&answers, &config);
        let dynamic = |others: &[Otherwise]| others.iter().filter(|one| **one == Otherwise::DynamicLimit).count();
        let likeliest: alloc::vec::Vec<_> =
            alternatives(&site, &site.likeliest_case(), &given).map(|(design, _)| design).collect();
        assert_eq!(dynamic(&likeliest), 0);
        let all: alloc::vec::Vec<_> = alternatives_over_all(&site, &given).iter().map(|other| other.design).collect();
        assert_eq!(dynamic(&all), 1, "{:?}", site.existing);
    }

    #[test]
    fn what_would_avoid_asking_is_shown_beside_the_design() {
        let beside = |sensing: bool| -> alloc::vec::Vec<(Otherwise, Outcome, Amps)> {
            let mut config = demo_config();
            config.charge_points.iter_mut().for_each(|point| point.load_sensing = sensing);
            let answers = home(1);
            let site = site::infer(&answers, &config);
            let given = Context::of(&answers, &config);
            alternatives(&site, &site.likeliest_case(), &given)
                .map(|(kind, other)| (kind, other.outcome, other.current))
                .collect()
        };
        assert!(beside(true).contains(&(Otherwise::WithoutLimit, Outcome::AskFirst, Amps::of(32.0))));
        let unlimited = beside(false);
        assert_eq!(unlimited[0], (Otherwise::DynamicLimit, Outcome::NotifyAfter, Amps::of(32.0)));
        assert!(unlimited[1..].iter().all(|(kind, outcome, current)| *kind == Otherwise::FixedLimit
            && *outcome == Outcome::NotifyAfter
            && *current >= Amps::of(6.0)));
    }
}
