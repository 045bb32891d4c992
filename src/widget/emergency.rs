//! What to do at once when something alarming was noticed: who is rung, by sign and by place.
//!
//! Common practice, no source, but for the numbers: 999, 105 (network operators in Great Britain) and the gas emergency
//! number (from memory).

use crate::answers::{Answers, HazardPlace, HazardSign, Known};
use crate::wording::{Key, form as words};

/// One piece of advice: what to do, and whom to ring if there is one number for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Advice {
    /// What to do.
    pub text: Key,
    /// The number, and how the link to it reads.
    pub ring: Option<(&'static str, Key)>,
}

/// The advice, most pressing first; empty where nothing was noticed.
#[must_use]
pub fn advice(answers: &Answers) -> Vec<Advice> {
    let Known(signs) = &answers.hazard.signs else { return Vec::new() };
    let mut all = Vec::new();
    if [HazardSign::Smoke, HazardSign::Flame, HazardSign::Arcing].iter().any(|sign| signs.has(*sign)) {
        all.push(Advice { text: words::EMERGENCY_LEAVE, ring: Some(("999", words::RING_999)) });
    }
    if signs.has(HazardSign::GasSmell) {
        all.push(Advice { text: words::EMERGENCY_GAS, ring: Some(("0800111999", words::RING_GAS)) });
    }
    if signs.iter().any(|sign| sign != HazardSign::GasSmell) {
        let operator = Some(("105", words::RING_105));
        let (text, ring) = match answers.hazard.place {
            Known(HazardPlace::ServiceHead) => (words::EMERGENCY_SERVICE_HEAD, operator),
            Known(HazardPlace::Meter) => (words::EMERGENCY_METER, None),
            Known(HazardPlace::Board) => (words::EMERGENCY_BOARD, None),
            Known(HazardPlace::Elsewhere) => (words::EMERGENCY_ELSEWHERE, None),
            crate::answers::NotSure | crate::answers::NotAsked => (words::EMERGENCY_UNKNOWN_PLACE, operator),
        };
        all.push(Advice { text, ring });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{NotSure, Set};

    fn told(signs: &[HazardSign], place: crate::answers::Answer<HazardPlace>) -> Vec<&'static str> {
        let mut answers = Answers::default();
        answers.hazard.signs = Known(Set::of(signs));
        answers.hazard.place = place;
        advice(&answers).iter().map(|advice| advice.text.0).collect()
    }

    #[test]
    fn smoke_comes_before_whose_it_is() {
        use HazardSign::{Discolouration, GasSmell, Smoke};
        assert_eq!(told(&[Smoke], Known(HazardPlace::Meter)), ["emergency-leave", "emergency-meter"]);
        assert_eq!(told(&[Discolouration], Known(HazardPlace::ServiceHead)), ["emergency-service-head"]);
        assert_eq!(told(&[Discolouration], NotSure), ["emergency-unknown-place"]);
        assert_eq!(told(&[GasSmell], NotSure), ["emergency-gas"]);
        assert_eq!(told(&[], NotSure), [""; 0]);
    }
}
