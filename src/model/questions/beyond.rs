//! Lengths so long that they must be a slip of a digit or of the unit. The homeowner is asked about them before anything is priced.
//!
//! Nothing is refused: somebody who means such a length tells the installer.

use super::{CATALOGUE, Question};
use crate::answers::{Answers, Length, METRES_IN_A_PACE, RawAnswer};
use crate::units::Metres;
use alloc::vec::Vec;

/// The greatest length that is believed, by question. Common practice, no source.
const MOST: &[(&str, Metres)] = &[
    ("route-length", Metres::of(150.0)),
    ("route-stretches", Metres::of(150.0)),
    ("wall-thickness", Metres::of(1.5)),
    ("lead-length", Metres::of(25.0)),
    ("spot-to-car", Metres::of(50.0)),
    ("meter-to-board", Metres::of(50.0)),
    ("feed-length", Metres::of(300.0)),
];

/// Whether an answer is longer than `MOST` allows. A pace is taken at its usual length, so that form and engine agree.
#[must_use]
pub fn is_beyond_use(question: &Question, answers: &Answers) -> bool {
    let Some((_, most)) = MOST.iter().find(|(id, _)| *id == question.id) else { return false };
    let (metres, far) = (|length: Length| length.in_metres(METRES_IN_A_PACE), *most + Metres::of(1.0));
    match (question.get)(answers) {
        RawAnswer::Distance(length) => metres(length) > *most,
        RawAnswer::Stretches(stretches) => {
            // Added up stretch by stretch and capped, since a sum of very great lengths would not be finite.
            stretches.iter().fold(Metres::ZERO, |sum, one| (sum + metres(one.length).min(far)).min(far)) > *most
        }
        _ => false,
    }
}

/// The ids of all questions whose answer counts and is too long to be meant.
#[must_use]
pub fn beyond_use(answers: &Answers) -> Vec<&'static str> {
    let in_stretches = crate::answers::said_in_stretches(answers).is_some();
    let counts = |question: &&Question| {
        is_beyond_use(question, answers)
            && (question.asked)(answers)
            // The rough answer no longer counts where there are stretches.
            && !(question.id == "route-length" && in_stretches)
    };
    CATALOGUE.iter().filter(counts).map(|question| question.id).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn beyond(json: &str) -> Vec<&'static str> {
        beyond_use(&serde_json::from_str(json).unwrap())
    }

    #[test]
    fn each_length_is_a_question_that_takes_one() {
        for (id, _) in MOST {
            let question = super::super::question(id).unwrap_or_else(|| panic!("{id} is no question"));
            assert!(
                matches!(question.kind, crate::answers::AnswerKind::Distance | crate::answers::AnswerKind::Stretches),
                "{id}"
            );
        }
    }

    #[test]
    fn a_slip_of_a_digit_or_of_the_unit_is_seen() {
        let route = |value: f64, unit: &str| {
            beyond(&alloc::format!(r#"{{"route":{{"length":{{"value":{value},"unit":"{unit}"}}}}}}"#))
        };
        assert_eq!(route(1000.0, "metres"), ["route-length"]);
        assert_eq!(route(40.0, "metres"), [""; 0], "a long way, but one that is met");
        assert_eq!(route(200.0, "feet"), [""; 0]);
        let wall = r#"{"route":{"walls":1,"wall_thickness":{"value":30,"unit":"metres"}}}"#;
        assert_eq!(beyond(wall), ["wall-thickness"]);
        assert_eq!(beyond(r#"{"route":{"walls":0,"wall_thickness":{"value":30,"unit":"metres"}}}"#), [""; 0]);
        let stretch =
            |metres: u32| alloc::format!(r#"{{"along":"inside","length":{{"value":{metres},"unit":"metres"}}}}"#);
        let rows = |a: u32, b: u32| {
            beyond(&alloc::format!(
                r#"{{"route":{{"length":{{"value":900,"unit":"metres"}},"stretches":[{},{}]}}}}"#,
                stretch(a),
                stretch(b)
            ))
        };
        assert_eq!(rows(100, 100), ["route-stretches"]);
        assert_eq!(rows(10, 10), [""; 0], "the rough answer no longer counts");
    }
}
