//! What to do at once when the homeowner noticed something alarming: whom to ring, by sign and by place.
//!
//! Common practice, no source, but for the numbers: 999, 105 (network operators in Great Britain) and the gas emergency
//! number (from memory); that a tingle may be a broken supply neutral: network operators' safety pages.

use model::answers::{Answers, HazardPlace, HazardSign, Known, NotAsked, NotSure, Set};
use wording::{Key, form as words};

/// Whom to ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ring {
    /// One number, and how the link to it reads.
    Number(&'static str, Key),
    /// An electrician: the installer's own number is the one at hand.
    Installer,
}

/// One piece of advice: what to do, whom to ring, and whom to ring instead if it is worse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Advice {
    /// What to do.
    pub text: Key,
    /// Whom to ring.
    pub ring: Ring,
    /// Whom to ring instead in the case that the text names.
    pub or: Option<Ring>,
}

const FIRE: Ring = Ring::Number("999", words::RING_999);
const OPERATOR: Ring = Ring::Number("105", words::RING_105);
const GAS: Ring = Ring::Number("0800111999", words::RING_GAS);

const LEAVE: Advice = Advice { text: words::EMERGENCY_LEAVE, ring: FIRE, or: None };
const SMELLS_OF_GAS: Advice = Advice { text: words::EMERGENCY_GAS, ring: GAS, or: None };
/// A supply neutral that fails makes lamps too bright or too dim, and destroys what is plugged in.
const LIGHTS: Advice = Advice { text: words::EMERGENCY_LIGHTS, ring: OPERATOR, or: Some(FIRE) };
/// A supply neutral that fails also makes metal parts live all through a home.
const NEUTRAL: Advice = Advice { text: words::EMERGENCY_NEUTRAL, ring: OPERATOR, or: Some(FIRE) };
/// The same for meter and service head: a homeowner can't be expected to tell them apart.
const AT_THE_METER: Advice = Advice { text: words::EMERGENCY_METER, ring: OPERATOR, or: None };
const AT_THE_BOARD: Advice = Advice { text: words::EMERGENCY_BOARD, ring: Ring::Installer, or: Some(FIRE) };
const ONE_APPLIANCE: Advice = Advice { text: words::EMERGENCY_APPLIANCE, ring: Ring::Installer, or: Some(OPERATOR) };
const ELSEWHERE: Advice = Advice { text: words::EMERGENCY_ELSEWHERE, ring: Ring::Installer, or: Some(FIRE) };
const SOMEWHERE: Advice = Advice { text: words::EMERGENCY_UNKNOWN_PLACE, ring: OPERATOR, or: None };

/// The advice for the answers about hazards, most urgent first; empty where nothing was noticed, or only something long past.
#[must_use]
pub fn advice(answers: &Answers) -> Vec<Advice> {
    let signs = answers.hazard.counting().unwrap_or(Set::NONE);
    let any = |of: &[HazardSign]| of.iter().any(|sign| signs.has(*sign));
    let mut all = Vec::new();
    if any(&[HazardSign::Smoke, HazardSign::Flame, HazardSign::Arcing]) {
        all.push(LEAVE);
    }
    if signs.has(HazardSign::GasSmell) {
        all.push(SMELLS_OF_GAS);
    }
    if signs.has(HazardSign::UnsteadyLights) {
        all.push(LIGHTS);
    }
    let is_the_supplys = |sign| match sign {
        HazardSign::UnsteadyLights => true,
        HazardSign::Tingle => !answers.hazard.place.is(HazardPlace::Appliance),
        _ => false,
    };
    if is_the_supplys(HazardSign::Tingle) && signs.has(HazardSign::Tingle) {
        all.push(NEUTRAL);
    }
    if signs.iter().any(|sign| sign != HazardSign::GasSmell && !is_the_supplys(sign)) {
        all.push(match answers.hazard.place {
            Known(HazardPlace::ServiceHead | HazardPlace::Meter) => AT_THE_METER,
            Known(HazardPlace::Board) => AT_THE_BOARD,
            Known(HazardPlace::Appliance) => ONE_APPLIANCE,
            Known(HazardPlace::Elsewhere) => ELSEWHERE,
            NotSure | NotAsked => SOMEWHERE,
        });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, HazardWhen, Word};

    fn told(signs: &[HazardSign], place: Answer<HazardPlace>) -> Vec<Advice> {
        let mut answers = Answers::default();
        answers.hazard.signs = Known(Set::of(signs));
        answers.hazard.place = place;
        advice(&answers)
    }

    #[test]
    fn smoke_comes_before_whose_it_is() {
        use HazardSign::{Discolouration, GasSmell, Smoke};
        assert_eq!(told(&[Smoke], Known(HazardPlace::Meter)), [LEAVE, AT_THE_METER]);
        assert_eq!(told(&[Discolouration], Known(HazardPlace::ServiceHead)), [AT_THE_METER]);
        assert_eq!(told(&[Discolouration], NotSure), [SOMEWHERE]);
        assert_eq!(told(&[GasSmell], NotSure), [SMELLS_OF_GAS]);
        let both = told(&[HazardSign::Tingle, Discolouration], Known(HazardPlace::Board));
        assert_eq!(both, [NEUTRAL, AT_THE_BOARD], "one danger does not silence another");
        assert_eq!(told(&[], NotSure), []);
    }

    #[test]
    fn a_tingle_or_unsteady_lights_ring_105_wherever_it_is_but_for_one_appliance_alone() {
        for place in HazardPlace::ALL.iter().copied().map(Known).chain([NotSure, NotAsked]) {
            let lights = told(&[HazardSign::UnsteadyLights], place);
            assert_eq!(lights, [LIGHTS], "{place:?}");
            let tingle = told(&[HazardSign::Tingle], place);
            let alone = place == Known(HazardPlace::Appliance);
            assert_eq!(tingle, [if alone { ONE_APPLIANCE } else { NEUTRAL }], "{place:?}");
        }
        assert_eq!(
            (NEUTRAL.ring, LIGHTS.ring, ONE_APPLIANCE.or),
            (OPERATOR, OPERATOR, Some(OPERATOR)),
            "105 where it is in doubt"
        );
        assert_eq!((NEUTRAL.or, LIGHTS.or), (Some(FIRE), Some(FIRE)), "999 where somebody is hurt or there is smoke");
    }

    #[test]
    fn anything_at_the_meter_rings_105_and_so_does_what_nobody_could_place() {
        for sign in HazardSign::ALL {
            for place in [Known(HazardPlace::Meter), Known(HazardPlace::ServiceHead), NotSure, NotAsked] {
                let told = told(&[*sign], place);
                let rings = told.last().map(|advice| advice.ring);
                let expected = if *sign == HazardSign::GasSmell { GAS } else { OPERATOR };
                assert_eq!(rings, Some(expected), "{sign:?} {place:?}");
            }
        }
    }

    #[test]
    fn a_board_is_an_electricians_and_growing_it_is_999() {
        let board = told(&[HazardSign::Buzzing], Known(HazardPlace::Board));
        assert_eq!((board[0].ring, board[0].or), (Ring::Installer, Some(FIRE)));
    }

    #[test]
    fn what_passed_long_ago_rings_nobody() {
        let mut answers = Answers::default();
        answers.hazard.signs = Known(Set::of(&[HazardSign::Arcing, HazardSign::Tingle]));
        answers.hazard.when = Known(HazardWhen::LongAgo);
        assert_eq!(advice(&answers), []);
        answers.hazard.signs = Known(Set::of(&[HazardSign::Arcing, HazardSign::BareMetal]));
        assert_eq!(advice(&answers), [SOMEWHERE]);
    }
}
