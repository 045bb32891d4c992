//! The decision in one line: the complexity in words, and its cause.

use super::words::{fill, flag_name, say, worded};
use engine::assessment::{Assessment, Complexity, Gatekeeper, Reason};
use engine::flags::Weight;
use std::borrow::Cow;
use wording::triage as key;

/// The parts of an assessment that a headline is made from.
pub struct Made<'a> {
    /// How involved the job is.
    pub complexity: Complexity,
    /// The reasons for that, gravest first.
    pub reasons: &'a [Reason],
    /// The gravest flag.
    pub flag: Option<(&'a str, Weight)>,
    /// Those who must act first.
    pub gates: &'a [Gatekeeper],
}

/// The cause in words: the gravest flag if it is grave enough to be the cause, or else who must act first, or else the gravest reason.
#[must_use]
pub fn because(made: &Made<'_>) -> Option<Cow<'static, str>> {
    let grave_enough = |weight| match made.complexity {
        Complexity::LookFirst => weight == Weight::Stop,
        Complexity::DependsOnOthers => weight <= Weight::SettleBeforeBooking,
        Complexity::NotCovered | Complexity::MoreInvolved | Complexity::Straightforward => true,
    };
    if let Some((code, weight)) = made.flag
        && grave_enough(weight)
    {
        return Some(flag_name(code));
    }
    if made.complexity == Complexity::DependsOnOthers && !made.gates.is_empty() {
        let who: Vec<_> = made.gates.iter().map(|gate| worded("gatekeeper", gate.word())).collect();
        return Some(Cow::Owned(who.join(say(key::JOIN_COMMA))));
    }
    made.reasons.first().map(|reason| worded("reason", reason.word()))
}

/// How the headline begins: the complexity, and whether it depends on something to be settled first. With a flag that says stop it is never
/// a light one (an earlier version called a home outside the area "straightforward").
#[must_use]
pub fn lead(complexity: Complexity, rests: bool, gravest: Option<Weight>) -> Cow<'static, str> {
    if gravest == Some(Weight::Stop) && complexity < Complexity::DependsOnOthers {
        return worded("weight", Weight::Stop.word());
    }
    let class = worded("complexity", complexity.word());
    match complexity {
        Complexity::Straightforward | Complexity::MoreInvolved if rests => {
            fill(key::LEAD_IF, &[("class", &class)]).into()
        }
        _ => class,
    }
}

/// The beginning of the headline of an assessment.
#[must_use]
pub fn because_of(assessment: &Assessment) -> Option<Cow<'static, str>> {
    let gates: Vec<Gatekeeper> = assessment.gates.iter().filter(|gate| gate.counts).map(|gate| gate.who).collect();
    because(&Made {
        complexity: assessment.complexity,
        reasons: &assessment.reasons,
        flag: assessment.flags.first().map(|flag| (flag.code.as_str(), flag.weight)),
        gates: &gates,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made<'a>(
        complexity: Complexity,
        reasons: &'a [Reason],
        flag: Option<(&'a str, Weight)>,
        gates: &'a [Gatekeeper],
    ) -> String {
        because(&Made { complexity, reasons, flag, gates }).unwrap_or_default().into_owned()
    }

    #[test]
    fn a_light_flag_is_not_given_as_the_cause_of_a_grave_matter() {
        let light = Some(("odd-flag", Weight::ChangesThePrice));
        assert_eq!(made(Complexity::MoreInvolved, &[Reason::Digging], light, &[]), "Odd flag");
        assert_eq!(
            made(Complexity::LookFirst, &[Reason::Contradiction], light, &[]),
            worded("reason", "contradiction"),
        );
        assert_eq!(
            made(Complexity::DependsOnOthers, &[Reason::SomebodyElseFirst], light, &[Gatekeeper::Landlord]),
            worded("gatekeeper", "landlord"),
        );
    }

    #[test]
    fn nothing_that_stops_is_called_straightforward() {
        assert_eq!(lead(Complexity::Straightforward, false, Some(Weight::Stop)), "Stop");
        assert_eq!(lead(Complexity::Straightforward, false, Some(Weight::WorthKnowing)), "Straightforward");
        assert_eq!(lead(Complexity::LookFirst, true, Some(Weight::Stop)), "Look first");
        assert_eq!(lead(Complexity::MoreInvolved, false, None), "More involved");
        let settled_first = Some(Weight::SettleBeforeBooking);
        assert_eq!(lead(Complexity::Straightforward, true, settled_first), "Straightforward, once this is settled");
    }

    #[test]
    fn a_grave_flag_is() {
        let grave = Some(("odd-flag", Weight::Stop));
        assert_eq!(made(Complexity::LookFirst, &[Reason::Unsafe], grave, &[]), "Odd flag");
        assert_eq!(made(Complexity::Straightforward, &[], None, &[]), "");
    }
}
