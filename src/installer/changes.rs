//! What a correction changed: compares two assessments and keeps only what differs.

use super::tape::pounds;
use super::words::{fill, flag_name, say, worded};
use engine::assessment::{Assessment, Band};
use wording::triage as key;

/// One thing that changed.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The band, before and after.
    Band(Option<Band>, Option<Band>),
    /// Anything else, as a sentence.
    Said(String),
}

/// All differences between two assessments, most important first; empty if the correction changed nothing.
#[must_use]
pub fn changes(before: &Assessment, after: &Assessment) -> Vec<Change> {
    let mut list = Vec::new();
    if before.complexity != after.complexity {
        let (from, to) = (before.complexity.word(), after.complexity.word());
        list.push(Change::Said(fill(
            key::CHANGED_COMPLEXITY,
            &[("before", &worded("complexity", from)), ("after", &worded("complexity", to))],
        )));
    }
    if before.band != after.band {
        list.push(Change::Band(before.band, after.band));
    }
    let raised = |of: &Assessment, code: &str| of.flags.iter().any(|flag| flag.code == code);
    for flag in after.flags.iter().filter(|flag| !raised(before, &flag.code)) {
        list.push(Change::Said(fill(key::CHANGED_FLAG_NEW, &[("flag", &flag_name(&flag.code))])));
    }
    for flag in before.flags.iter().filter(|flag| !raised(after, &flag.code)) {
        list.push(Change::Said(fill(key::CHANGED_FLAG_GONE, &[("flag", &flag_name(&flag.code))])));
    }
    let waits = |of: &Assessment, who| of.gates.iter().any(|gate| gate.counts && gate.who == who);
    for gate in after.gates.iter().filter(|gate| gate.counts && !waits(before, gate.who)) {
        list.push(Change::Said(fill(key::CHANGED_GATE_NEW, &[("who", &worded("gatekeeper", gate.who.word()))])));
    }
    for gate in before.gates.iter().filter(|gate| gate.counts && !waits(after, gate.who)) {
        list.push(Change::Said(fill(key::CHANGED_GATE_GONE, &[("who", &worded("gatekeeper", gate.who.word()))])));
    }
    list
}

/// A band in figures, or a sentence that there is none.
#[must_use]
pub fn band_in_figures(band: Option<&Band>) -> String {
    match band {
        Some(band) => fill(
            key::BAND_FIGURES,
            &[("low", &pounds(band.low)), ("likely", &pounds(band.likely)), ("high", &pounds(band.high))],
        ),
        None => say(key::BAND_NONE).to_owned(),
    }
}

/// All changes as one text, for the live region.
#[must_use]
pub fn in_one_breath(changes: &[Change]) -> String {
    if changes.is_empty() {
        return say(key::CHANGED_NOTHING).to_owned();
    }
    let said: Vec<String> = changes
        .iter()
        .map(|change| match change {
            Change::Said(sentence) => sentence.clone(),
            Change::Band(before, after) => fill(
                key::CHANGED_BAND,
                &[("before", &band_in_figures(before.as_ref())), ("after", &band_in_figures(after.as_ref()))],
            ),
        })
        .collect();
    said.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::assessment::{Complexity, Gate, Gatekeeper, Raised, assess};
    use engine::flags::Weight;
    use model::answers::Answers;
    use model::config::demo_config;
    use model::units::{Pence, Probability};

    #[test]
    fn only_what_differs_is_said() {
        let before = assess(&Answers::default(), &demo_config());
        assert_eq!(changes(&before, &before), []);
        assert_eq!(in_one_breath(&[]), say(key::CHANGED_NOTHING));

        let mut after = before.clone();
        after.complexity = if before.complexity == Complexity::LookFirst {
            Complexity::Straightforward
        } else {
            Complexity::LookFirst
        };
        after.band = Some(Band {
            low: Pence(1),
            likely: Pence(2),
            high: Pence(3),
            vat: Pence(0),
            charge_point: Pence(0),
            plainest: Pence(1),
            before_vat: None,
        });
        after.flags.push(Raised {
            code: "new-one".into(),
            weight: Weight::Stop,
            probability: Probability::CERTAIN,
            evidence: Vec::new(),
            source: String::new(),
            usual: false,
        });
        after.gates = vec![Gate {
            who: Gatekeeper::Landlord,
            probability: Probability::CERTAIN,
            counts: true,
            on_paper: false,
            why: Vec::new(),
            wait: String::new(),
            wait_source: String::new(),
        }];
        let mut quiet = before.clone();
        quiet.gates.clear();
        let list = changes(&quiet, &after);
        assert!(matches!(list[1], Change::Band(_, Some(_))), "{list:?}");
        assert_eq!(list.iter().filter(|change| matches!(change, Change::Said(_))).count(), 3, "{list:?}");
        let back = changes(&after, &quiet);
        assert_eq!(back.len(), list.len());
    }
}
