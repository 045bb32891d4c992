//! The row that the installer's list shows of an enquiry, made when it arrives or is corrected, and what the list is sorted by.

use engine::assessment::{Asked, Assessment, Band, Complexity, NoBand, Reason};
use engine::flags::Weight;
use model::answers::{Answers, Word};
use record::enquiry::Contact;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// How many flags a row names; the rest are counted.
const NAMED_FLAGS: usize = 3;

/// What the list shows of an enquiry besides the table's own columns.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Summary {
    name: String,
    postcode: Option<String>,
    complexity: Complexity,
    reasons: Vec<Reason>,
    /// What has to be settled for the class to hold, by code.
    settle: Vec<String>,
    band: Option<Band>,
    no_band: Option<NoBand>,
    invented: bool,
    flag_counts: BTreeMap<&'static str, usize>,
    top_flags: Vec<TopFlag>,
    gates: Vec<&'static str>,
    /// What the network operator was asked and when; whether its answer is overdue depends on the day on which the list is read.
    #[serde(skip_serializing_if = "Option::is_none")]
    asked: Option<Asked>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct TopFlag {
    code: String,
    weight: Weight,
    evidence: Vec<String>,
}

impl Summary {
    /// The row of an enquiry. One without an assessment has the class of those to look at first, and nothing else is said of it.
    pub(super) fn of(contact: &Contact, answers: &Answers, assessment: Option<&Assessment>) -> Self {
        let mut flags: Vec<_> = assessment.iter().flat_map(|assessment| &assessment.flags).collect();
        let count = |weight: &Weight| flags.iter().filter(|flag| flag.weight == *weight).count();
        let flag_counts = Weight::ALL.iter().map(|weight| (weight.word(), count(weight))).collect();
        flags.sort_by_key(|flag| flag.weight); // stable: among equals the assessment's own order stays
        Self {
            name: contact.name.clone(),
            postcode: answers.home.postcode.known().map(|postcode| postcode.outward().to_owned()),
            complexity: assessment.map_or(Complexity::LookFirst, |assessment| assessment.complexity),
            reasons: assessment.map(|assessment| assessment.reasons.clone()).unwrap_or_default(),
            settle: assessment.map(|assessment| assessment.settle.clone()).unwrap_or_default(),
            band: assessment.and_then(|assessment| assessment.band),
            no_band: assessment.map_or(Some(NoBand::LookFirst), |assessment| assessment.no_band),
            invented: assessment.is_some_and(|assessment| assessment.invented),
            flag_counts,
            top_flags: flags
                .iter()
                .take(NAMED_FLAGS)
                .map(|flag| TopFlag { code: flag.code.clone(), weight: flag.weight, evidence: flag.evidence.clone() })
                .collect(),
            gates: assessment
                .iter()
                .flat_map(|assessment| &assessment.gates)
                .filter(|gate| gate.counts)
                .map(|gate| gate.who.word())
                .collect(),
            asked: assessment.and_then(|assessment| assessment.owed.iter().find_map(|owed| owed.asked)),
        }
    }

    /// The summary as JSON, as it is kept in the column.
    pub(super) fn json(&self) -> String {
        serde_json::to_string(self).expect("a summary holds only text, numbers and lists")
    }
}

/// The sort key of the list, smallest first: gravest complexity, then settled before unsettled, then heaviest flag.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Urgency {
    pub(super) gravity: i64,
    pub(super) weight: i64,
}

/// Larger than any weight of a flag.
const UNSETTLED: i64 = 10;

impl Urgency {
    /// The sort key of an assessment; an enquiry without one comes first.
    pub(super) fn of(assessment: Option<&Assessment>) -> Self {
        let Some(assessment) = assessment else { return Self { gravity: 0, weight: 0 } };
        let heaviest = assessment.flags.iter().map(|flag| flag.weight).min();
        let weight = heaviest.map_or(Weight::ALL.len() as i64, |weight| i64::from(weight.place()));
        // Within a class, unsettled enquiries come after settled ones; among those to look at first all are alike in this.
        let rests = assessment.complexity != Complexity::LookFirst && !assessment.settle.is_empty();
        Self {
            gravity: i64::from(assessment.complexity.in_a_list()),
            weight: weight + if rests { UNSETTLED } else { 0 },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::assessment::Raised;
    use model::config::demo_config;
    use model::units::Probability;

    fn assessment(complexity: Complexity, weights: &[Weight]) -> Assessment {
        let mut assessment = engine::assess(&Answers::default(), &demo_config());
        assessment.complexity = complexity;
        let settled_first = weights.iter().filter(|weight| **weight == Weight::SettleBeforeBooking);
        assessment.settle = settled_first.map(|weight| weight.word().into()).collect();
        assessment.flags = weights
            .iter()
            .map(|weight| Raised {
                code: weight.word().into(),
                weight: *weight,
                probability: Probability::CERTAIN,
                evidence: Vec::new(),
                source: String::new(),
                usual: false,
            })
            .collect();
        assessment
    }

    #[test]
    fn the_gravest_comes_first_and_then_the_heaviest_flag() {
        let of = |complexity, weights: &[Weight]| Urgency::of(Some(&assessment(complexity, weights)));
        let in_order = [
            Urgency::of(None),
            of(Complexity::LookFirst, &[]),
            of(Complexity::DependsOnOthers, &[Weight::WorthKnowing, Weight::Stop]),
            of(Complexity::DependsOnOthers, &[Weight::SettleBeforeBooking]),
            of(Complexity::MoreInvolved, &[Weight::Stop]),
            of(Complexity::Straightforward, &[Weight::WorthKnowing]),
            of(Complexity::Straightforward, &[]),
            of(Complexity::Straightforward, &[Weight::SettleBeforeBooking]),
            of(Complexity::NotCovered, &[Weight::Stop]),
        ];
        assert!(in_order.is_sorted_by(|a, b| a < b), "{in_order:?}");
    }

    #[test]
    fn flags_are_counted_by_weight_and_the_gravest_named() {
        let weights = [Weight::WorthKnowing, Weight::Stop, Weight::WorthKnowing, Weight::ChangesThePrice];
        let summary =
            Summary::of(&Contact::default(), &Answers::default(), Some(&assessment(Complexity::LookFirst, &weights)));
        assert_eq!(summary.flag_counts["worth-knowing"], 2);
        assert_eq!(summary.flag_counts["settle-before-booking"], 0);
        let named: Vec<_> = summary.top_flags.iter().map(|flag| flag.code.as_str()).collect();
        assert_eq!(named, ["stop", "changes-the-price", "worth-knowing"]);
    }
}
