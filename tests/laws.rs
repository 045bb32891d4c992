//! What is true of every home, over homes by chance.

mod causes;
mod support;

use causes::{CAUSES, Cause, May};
use presurvey::answers::said::TOPICS;
use presurvey::answers::{Answer, Answers, Count, Door, Given, HazardSign, Set};
use presurvey::assessment::Complexity;
use presurvey::config::{Config, demo_config};
use presurvey::questions::CATALOGUE;
use presurvey::site::case::each_case;
use presurvey::units::{Pence, Probability};
use presurvey::{Assessment, assess};
use proptest::prelude::*;
use support::{Chance, any_home};

fn works(seed: u64) -> (Answers, Config, Assessment) {
    let (answers, config) = (any_home(seed), demo_config());
    let assessment = assess(&answers, &config);
    (answers, config, assessment)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_same_answers_give_the_same_bytes(seed: u64) {
        let (answers, config, assessment) = works(seed);
        let read_back: Answers = serde_json::from_str(&serde_json::to_string(&answers).unwrap()).unwrap();
        prop_assert_eq!(&read_back, &answers);
        prop_assert_eq!(
            serde_json::to_string(&assess(&read_back, &config)).unwrap(),
            serde_json::to_string(&assessment).unwrap()
        );
    }

    #[test]
    fn an_assessment_survives_the_way_there_and_back(seed: u64) {
        let json = serde_json::to_string(&works(seed).2).unwrap();
        let read: Assessment = serde_json::from_str(&json).unwrap();
        prop_assert_eq!(serde_json::to_string(&read).unwrap(), json);
    }

    #[test]
    fn the_order_of_answers_changes_nothing(seed: u64, turn in 0..50_usize) {
        let (answers, config, assessment) = works(seed);
        let doors: Vec<&Door> = TOPICS.iter().flat_map(|(_, doors)| *doors).collect();
        let mut turned = Answers::default();
        for at in 0..doors.len() {
            let door = doors[(at + turn) % doors.len()];
            prop_assert!((door.set)(&mut turned, &(door.get)(&answers)));
        }
        prop_assert_eq!(assess(&turned, &config), assessment);
    }

    #[test]
    fn a_band_is_in_order_and_never_beside_look_first(seed: u64) {
        let (_, config, assessment) = works(seed);
        if let Some(band) = assessment.band {
            prop_assert!(Pence(0) < band.low && band.low <= band.likely && band.likely <= band.high);
            prop_assert_eq!(band.low.0 % config.rates.step.0, 0);
            prop_assert_eq!(band.high.0 % config.rates.step.0, 0);
            prop_assert!(assessment.complexity != Complexity::LookFirst);
            prop_assert!(assessment.no_band.is_none());
        } else {
            prop_assert!(assessment.no_band.is_some());
        }
    }

    #[test]
    fn a_hazard_always_looks_first_and_never_has_a_price(seed: u64) {
        let (mut answers, config, _) = works(seed);
        answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::MeltedPlastic]));
        let assessment = assess(&answers, &config);
        prop_assert_eq!(assessment.complexity, Complexity::LookFirst);
        prop_assert_eq!(assessment.band, None);
        prop_assert!(assessment.work.is_empty() && assessment.open.iter().all(|open| open.narrows_by == Pence(0)));
    }

    #[test]
    fn not_sure_never_removes_a_gate_that_the_benign_answer_keeps(seed: u64, at in 0..CATALOGUE.len()) {
        let (mut answers, config, _) = works(seed);
        let question = &CATALOGUE[at];
        prop_assume!(question.place != presurvey::questions::Place::First);
        // The benign answer: the one that leaves the fewest gates of all that may be given.
        let mut chance = Chance::new(seed);
        let by_chance: Vec<Given> = (0..12).map(|_| support::any_answer(question.kind, &mut chance)).collect();
        // Twelve by chance may all be large ones, or all "yes".
        let fewest = by_chance.into_iter().chain(support::ends(question.kind)).filter_map(|given| {
            if matches!(given, Given::Nothing | Given::NotSure) {
                return None;
            }
            (question.set)(&mut answers, &given);
            Some(assess(&answers, &config).gates.len())
        }).min();
        (question.set)(&mut answers, &Given::NotSure);
        let unsure = assess(&answers, &config).gates.len();
        prop_assert!(fewest.is_none_or(|fewest| unsure >= fewest), "{}: {unsure} gates, {fewest:?} at best", question.id);
    }

    #[test]
    fn probabilities_of_every_fact_add_up(seed: u64) {
        for fact in works(seed).2.facts {
            let sum: f64 = fact.values.iter().map(|value| value.probability.get()).sum();
            prop_assert!((sum - 1.0).abs() < 1e-6, "{}: {sum}", fact.fact);
        }
    }

    #[test]
    fn more_load_never_leaves_more_headroom(seed: u64) {
        let (mut answers, config, _) = works(seed);
        let mut before = f64::INFINITY;
        for showers in 0..=4 {
            answers.loads.showers = Answer::Known(Count::new(showers).unwrap());
            let headroom = assess(&answers, &config).figures.headroom.get();
            // A limit may come in and hold the demand where it was: never more than was left without it.
            prop_assert!(headroom <= before.max(config.thresholds.ask_above.get()), "{headroom} after {before}");
            before = headroom;
        }
    }
}

#[test]
fn twenty_unsure_facts_do_not_multiply_out() {
    let mut answers = Answers::default();
    for question in CATALOGUE.iter().filter(|question| question.id != "hazard") {
        assert!((question.set)(&mut answers, &Given::NotSure));
    }
    let config = demo_config();
    let site = presurvey::site::read(&answers, &config);
    let all: usize =
        <presurvey::site::FactId as presurvey::answers::Word>::ALL.iter().map(|id| site.count(*id)).product();
    let point = presurvey::design::charge_point::suited(&answers, &config).unwrap();
    let given = presurvey::design::Given { answers: &answers, config: &config, point };
    let design = presurvey::design::Design::of(&site, &given);
    let list = presurvey::price::PriceList::of(&given);
    let met: usize =
        presurvey::price::groups(&site, &given, &design, &list).iter().map(|group| group.cases.len()).sum();
    assert!(all > 1_000_000, "everything together would be {all} cases");
    assert!(met < 3000, "{met} cases were worked");
}

#[test]
fn a_decision_names_every_fact_it_rests_on() {
    let (config, answers) = (demo_config(), Answers::default());
    let site = presurvey::site::read(&answers, &config);
    let mut whole = 0.0;
    each_case(
        &site,
        |case| (case.gas(), case.rests_on()),
        |met, (_, rests_on)| {
            whole += met.weight;
            assert!(rests_on.has(presurvey::site::FactId::GasBonding));
            assert!(!rests_on.has(presurvey::site::FactId::WaterBonding));
        },
    );
    assert!((whole - 1.0).abs() < 1e-9);
}

#[test]
fn unconfirmed_rates_show_no_stranger_a_price() {
    let mut config = demo_config();
    config.rates_confirmed = false;
    let assessment = assess(&Answers::default(), &config);
    assert_eq!(assessment.band, None);
    assert_eq!(assessment.no_band, Some(presurvey::assessment::NoBand::RatesNotConfirmed));
}

#[test]
fn the_date_spoken_of_is_an_input() {
    let (mut answers, config) = (Answers::default(), demo_config());
    assert_eq!(assess(&answers, &config).as_of, config.published);
    let day: jiff::civil::Date = "2027-03-01".parse().unwrap();
    answers.as_of = Some(day);
    assert_eq!(assess(&answers, &config).as_of, day);
}

#[test]
fn a_gate_counts_from_the_threshold_on() {
    let mut config = demo_config();
    config.thresholds.gate = Probability::of(0.01);
    let counted = assess(&Answers::default(), &config);
    assert!(counted.gates.iter().all(|gate| gate.counts == (gate.probability >= config.thresholds.gate)));
    assert!(counted.gates.iter().any(|gate| gate.counts));
}

/// A setup in which nobody but the supplier makes tails dead, and no charge point holds back or is steered, so that every flag can be met.
fn strict_config() -> Config {
    let mut config = demo_config();
    config.thresholds.may_draw_fuse = false;
    for point in &mut config.charge_points {
        (point.load_sensing, point.off_peak) = (false, None);
    }
    config
}

/// A home before and after a flag's cause, where that raised the flag and it was not there before. Where a cause may stand in place
/// of a graver answer, its questions are unanswered before: so it replaces nothing.
fn before_and_after(cause: &Cause, seed: u64, config: &Config) -> Option<[Assessment; 2]> {
    let mut answers = any_home(seed);
    if matches!(cause.may_lower, May::InPlaceOfAGraver(_)) {
        support::unsay(&mut answers, cause.said);
    }
    let raised = |assessment: &Assessment| assessment.flags.iter().any(|flag| flag.code == cause.flag);
    let before = assess(&answers, config);
    support::say_over(&mut answers, cause.said);
    let after = assess(&answers, config);
    (!raised(&before) && raised(&after)).then_some([before, after])
}

#[test]
fn every_flag_has_its_cause_and_each_cause_raises_it() {
    let codes: Vec<&str> = presurvey::flags::FLAGS.iter().map(|flag| flag.code).collect();
    let causes: Vec<&str> = CAUSES.iter().map(|cause| cause.flag).collect();
    assert_eq!(causes, codes, "tests/causes/mod.rs holds one row for every flag, in the register's order");
    for cause in CAUSES {
        let raises = |config: &Config| (0..60).any(|seed| before_and_after(cause, seed, config).is_some());
        assert!(raises(&demo_config()) || raises(&strict_config()), "{} is raised in no home by its cause", cause.flag);
        if let May::ForThis(why) | May::InPlaceOfAGraver(why) = cause.may_lower {
            assert!(why.len() > 10, "{} says why it may lower the complexity", cause.flag);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn adding_a_flags_cause_never_lowers_complexity(at in 0..CAUSES.len(), seed: u64, strict: bool) {
        let cause = &CAUSES[at];
        let config = if strict { strict_config() } else { demo_config() };
        if let (May::Never | May::InPlaceOfAGraver(_), Some([before, after])) =
            (cause.may_lower, before_and_after(cause, seed, &config))
        {
            prop_assert!(
                after.complexity >= before.complexity,
                "{}: from {:?} {:?} to {:?} {:?}",
                cause.flag, before.complexity, before.reasons, after.complexity, after.reasons
            );
        }
    }
}
