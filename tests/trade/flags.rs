//! Flags: every one that two hundred homes raise says what was seen, how sure that is and where it comes from, in two separate texts.

use presurvey::answers::{Answers, Word};
use presurvey::assess;
use presurvey::config::demo_config;
use presurvey::flags::{FLAGS, Weight};
use presurvey::wording::{Words, flags_homeowner, flags_installer};

#[test]
fn every_flag_says_what_was_seen_how_sure_and_why_in_two_texts() {
    let (installer, homeowner) = (Words::new(flags_installer::EN), Words::new(flags_homeowner::EN));
    let (config, mut raised) = (demo_config(), 0);
    for home in include_str!("../homes/two-hundred.jsonl").lines() {
        let answers: Answers = serde_json::from_str(home).unwrap();
        for flag in assess(&answers, &config).flags {
            raised += 1;
            assert!(!flag.evidence.is_empty() && flag.evidence.iter().all(|seen| !seen.is_empty()), "{}", flag.code);
            assert!(flag.probability.get() > 0.0 && !flag.source.is_empty(), "{}", flag.code);
            let told = homeowner.find(&format!("flag-{}", flag.code)).unwrap();
            for part in ["why", "do"] {
                assert_ne!(installer.find(&format!("flag-{}-{part}", flag.code)).unwrap(), told, "{}", flag.code);
            }
        }
    }
    assert!(raised > 1000, "{raised}");
}

/// Four weights, each in use: stop, settle before booking, changes the price, worth knowing.
#[test]
fn there_are_four_weights_and_each_is_used() {
    assert_eq!(Weight::ALL.len(), 4);
    for weight in Weight::ALL {
        assert!(FLAGS.iter().any(|flag| flag.weight == *weight), "{weight:?}");
    }
}

/// The page that is kept beside the code says what the code says.
#[test]
fn the_page_of_flags_is_up_to_date() {
    let page = concat!(env!("CARGO_MANIFEST_DIR"), "/../../FLAGS.md");
    crate::support::is_kept(std::path::Path::new(page), &presurvey::flag_report::report());
}

#[test]
fn there_are_fifty_flags_at_least_and_each_has_a_source() {
    assert!(FLAGS.len() >= 50);
    assert_eq!(presurvey::flag_report::report().matches("\n- Source: ").count(), FLAGS.len());
}
