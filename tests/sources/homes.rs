//! The figures of whole homes by chance: the design allocates nothing, and what the register shows is what the assessment says.

use crate::support::any_home;
use presurvey::answers::Word;
use presurvey::config::demo_config;
use presurvey::context::Context;
use presurvey::design::{DecisionId, decide};
use presurvey::figures::{Working, working};
use presurvey::{assess, site};
use proptest::prelude::*;

#[test]
fn a_known_case_is_designed_without_allocating() {
    let one = allocation_counter::measure(|| drop(std::hint::black_box(vec![1])));
    assert_eq!(one.count_total, 1, "the counter counts");
    let config = demo_config();
    for seed in 0..100 {
        let answers = any_home(seed);
        let site = site::infer(&answers, &config);
        let given = Context::of(&answers, &config);
        let counted = allocation_counter::measure(|| {
            let case = site.likeliest_case();
            for id in DecisionId::ALL {
                std::hint::black_box(decide(*id, &case, &given));
            }
        });
        assert_eq!(counted.count_total, 0, "home {seed}");
    }
}

fn named<'a>(all: &'a [Working], name: &str) -> Option<&'a Working> {
    all.iter().find(|working| working.figure == name)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn what_is_shown_is_what_the_assessment_says(seed: u64) {
        let (answers, config) = (any_home(seed), demo_config());
        let (figures, all) = (assess(&answers, &config).figures, working(&answers, &config));
        let number = |name: &str| named(&all, name).and_then(|working| working.number);
        if figures.cable_kept {
            prop_assert_eq!(number("cable size"), None, "nothing is worked of a cable that is there");
            return Ok(());
        }
        prop_assert_eq!(number("cable size"), figures.cable_size.map(|size| size.get()));
        prop_assert_eq!(number("headroom"), Some(figures.headroom.get()));
        prop_assert_eq!(number("maximum demand with the charge point"), Some(figures.maximum_demand.get()));
        prop_assert_eq!(number("fixed limit").filter(|amps| *amps > 0.0), figures.fixed_limit.map(|amps| amps.get()));
        let by_ratings = number("existing demand by device ratings").unwrap();
        prop_assert!((by_ratings - figures.existing_by_ratings.get()).abs() < 1e-9);
        if figures.cable_size.is_some() {
            prop_assert!((number("voltage drop").unwrap() - figures.voltage_drop.get()).abs() < 1e-9);
            let zs = named(&all, "earth fault loop impedance").unwrap();
            let by = figures.disconnected_by.unwrap().word();
            prop_assert!(zs.value.contains(if by == "breaker" { "breaker disconnects" } else { "device is relied on" }), "{} {}", by, zs.value);
        }
        let governs = figures.cable_governed_by.unwrap().word().replace('-', " ");
        let shown = &named(&all, "cable size").unwrap().value;
        prop_assert!(shown.contains(&governs) || (governs == "smallest used" && shown.contains("the smallest used")), "{}", shown);
    }

    #[test]
    fn every_figure_of_a_home_can_be_worked(seed: u64) {
        for figure in working(&any_home(seed), &demo_config()) {
            // A rule has no number; above 100 A the table of tails has no row: said so in place of a size.
            let without = ["earthing measure", "meter tails"].contains(&figure.figure.as_str());
            let said = figure.number.is_some() || figure.value.starts_with("no size") || without;
            prop_assert!(said, "{}: {}", figure.figure, figure.value);
            prop_assert!(!figure.inputs.is_empty() && !figure.source.is_empty(), "{}", figure.figure);
        }
    }
}
