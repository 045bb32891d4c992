//! A correction being made: the state of a question's control, and how it becomes an answer or the reason why it can't.

use model::answers::{AnswerKind, Answers, Length, LengthUnit, RawAnswer, StretchRows, Word};
use model::questions::Question;
use model::units::Ratio;
use wording::{Key, triage as key};

/// The state of a control: text for what is typed or chosen, bits for what is ticked, a unit for a distance.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// Typed text, or the index of the chosen option.
    pub text: String,
    /// Ticked options, one bit each.
    pub ticked: u32,
    /// The index of a distance's unit.
    pub unit: u8,
}

impl Draft {
    /// The control's state for a present answer.
    #[must_use]
    pub fn of(given: &RawAnswer) -> Self {
        let text = |text: String| Self { text, ..Self::default() };
        match given {
            RawAnswer::Nothing | RawAnswer::NotSure => Self::default(),
            RawAnswer::Stretches(stretches) => text(StretchRows::of(stretches).write()),
            RawAnswer::One(place) => text(place.to_string()),
            RawAnswer::Any(bits) => Self { ticked: *bits, ..Self::default() },
            RawAnswer::YesNo(yes) => text(u8::from(*yes).to_string()),
            RawAnswer::Count(count) => text(count.to_string()),
            RawAnswer::Distance(length) => Self { unit: length.unit.place(), ..text(length.value.to_string()) },
            RawAnswer::Figure(number) => text(number.to_string()),
            RawAnswer::Line(line) => text(line.clone()),
        }
    }

    /// The control's state for a question's present answer; for a route that was not described stretch by stretch it begins with the rough
    /// answer.
    #[must_use]
    pub fn begun(question: &Question, answers: &Answers) -> Self {
        let draft = Self::of(&(question.get)(answers));
        if question.kind == AnswerKind::Stretches && draft.text.is_empty() {
            return Self { text: StretchRows::begin(answers).write(), ..draft };
        }
        draft
    }

    /// The answer that this state stands for.
    ///
    /// # Errors
    /// The key of a sentence that says what may be given.
    pub fn read(&self, kind: AnswerKind) -> Result<RawAnswer, Key> {
        let text = self.text.trim();
        let number = || text.replace(',', ".").parse::<f64>().ok().filter(|n| n.is_finite() && *n >= 0.0);
        match kind {
            AnswerKind::One(words) => text
                .parse::<u8>()
                .ok()
                .filter(|place| usize::from(*place) < words.len())
                .map(RawAnswer::One)
                .ok_or(key::CORRECT_CHOOSE),
            AnswerKind::YesNo => match text {
                "1" => Ok(RawAnswer::YesNo(true)),
                "0" => Ok(RawAnswer::YesNo(false)),
                _ => Err(key::CORRECT_CHOOSE),
            },
            AnswerKind::Any(_) => Ok(RawAnswer::Any(self.ticked)),
            AnswerKind::Count(least, most) => text
                .parse::<u8>()
                .ok()
                .filter(|count| (least..=most).contains(count))
                .map(RawAnswer::Count)
                .ok_or(key::CORRECT_CHOOSE),
            AnswerKind::Distance => {
                let value = number().and_then(|n| Ratio::new(n).ok()).ok_or(key::CORRECT_NUMBER)?;
                let unit = LengthUnit::ALL.get(usize::from(self.unit)).copied().ok_or(key::CORRECT_CHOOSE)?;
                Ok(RawAnswer::Distance(Length { value, unit }))
            }
            AnswerKind::Figure(_) => number().map(RawAnswer::Figure).ok_or(key::CORRECT_NUMBER),
            AnswerKind::Stretches => StretchRows::read(&self.text)
                .given()
                .filter(|given| *given != RawAnswer::Nothing)
                .ok_or(key::CORRECT_STRETCHES),
            AnswerKind::Line if text.is_empty() => Err(key::CORRECT_LINE),
            AnswerKind::Line | AnswerKind::PostcodeLine | AnswerKind::Day => Ok(RawAnswer::Line(text.to_owned())),
        }
    }
}

/// The answers with one of them changed.
///
/// # Errors
/// The key of a sentence that says what may be given; the answers passed in stay as they are.
pub fn corrected(answers: &Answers, question: &Question, given: &RawAnswer) -> Result<Answers, Key> {
    let mut next = answers.clone();
    if (question.set)(&mut next, given) {
        return Ok(next);
    }
    Err(match question.kind {
        AnswerKind::PostcodeLine => key::CORRECT_POSTCODE,
        AnswerKind::Stretches => key::CORRECT_STRETCHES,
        AnswerKind::Line => key::CORRECT_LINE,
        AnswerKind::Day => key::CORRECT_DAY,
        AnswerKind::Distance | AnswerKind::Figure(_) => key::CORRECT_NUMBER,
        AnswerKind::One(_) | AnswerKind::Any(_) | AnswerKind::YesNo | AnswerKind::Count(..) => key::CORRECT_CHOOSE,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::questions::{CATALOGUE, any_question as question};

    #[test]
    fn what_a_control_shows_is_read_back_as_it_was() {
        let samples = [
            ("home", RawAnswer::One(2)),
            ("hazard", RawAnswer::Any(0b101)),
            ("hot-tub", RawAnswer::YesNo(true)),
            ("fuse-carriers", RawAnswer::Count(3)),
            ("route-length", RawAnswer::Distance(Length { value: Ratio::of(12.5), unit: LengthUnit::Feet })),
            ("solar-power", RawAnswer::Figure(3.68)),
            ("board-maker", RawAnswer::Line("as typed".into())),
            ("postcode", RawAnswer::Line("ZZ1 1AA".into())),
            (
                "route-stretches",
                RawAnswer::Stretches(vec![model::answers::Stretch {
                    along: model::answers::Along::Fence,
                    length: Length { value: Ratio::of(12.5), unit: LengthUnit::Feet },
                    high: true,
                }]),
            ),
        ];
        for (id, given) in samples {
            let question = question(id).unwrap();
            assert_eq!(Draft::of(&given).read(question.kind), Ok(given.clone()), "{id}");
            let answers = corrected(&Answers::default(), question, &given).unwrap();
            assert_eq!((question.get)(&answers), given, "{id}");
        }
    }

    #[test]
    fn a_route_that_nobody_said_begins_with_the_rough_answer() {
        let mut answers = Answers::default();
        answers.route.length = model::answers::Answer::Known(Length::metres(9.0));
        answers.route.mostly = model::answers::Answer::Known(model::answers::Along::Paving);
        let question = question("route-stretches").unwrap();
        let begun = Draft::begun(question, &answers);
        assert!(
            matches!(begun.read(question.kind), Ok(RawAnswer::Stretches(all)) if all[0].length == Length::metres(9.0))
        );
        let open = Draft::begun(question, &Answers::default());
        assert_eq!(open.read(question.kind), Err(key::CORRECT_STRETCHES));
    }

    #[test]
    fn every_question_says_why_an_empty_control_is_no_answer() {
        for question in CATALOGUE {
            let read = Draft::default().read(question.kind);
            let refused = match &read {
                Ok(given) => corrected(&Answers::default(), question, given).is_err(),
                Err(_) => true,
            };
            assert!(refused || matches!(question.kind, AnswerKind::Any(_)), "{}", question.id);
        }
    }

    #[test]
    fn nonsense_changes_nothing_and_says_so() {
        let typed = |text: &str| Draft { text: text.into(), ..Draft::default() };
        assert_eq!(
            typed("-3").read(<model::units::Kilowatts as model::answers::Field>::KIND),
            Err(key::CORRECT_NUMBER)
        );
        assert_eq!(
            typed("NaN").read(<model::units::Kilowatts as model::answers::Field>::KIND),
            Err(key::CORRECT_NUMBER)
        );
        assert_eq!(
            typed("4,6").read(<model::units::Kilowatts as model::answers::Field>::KIND),
            Ok(RawAnswer::Figure(4.6))
        );
        assert_eq!(typed("9").read(AnswerKind::Count(1, 3)), Err(key::CORRECT_CHOOSE));
        let postcode = question("postcode").unwrap();
        assert_eq!(
            corrected(&Answers::default(), postcode, &RawAnswer::Line("nowhere".into())),
            Err(key::CORRECT_POSTCODE)
        );
    }
}
