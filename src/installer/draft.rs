//! A correction under way: what stands in a question's control, and how it becomes an answer or a reason why not.

use model::answers::{Answers, Given, Kind, Length, LengthUnit, Rows, Word};
use model::questions::Question;
use model::units::Ratio;
use wording::{Key, triage as key};

/// What the control shows: text for what is typed or chosen, bits for what is ticked, a unit for a distance.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// Typed text, or the chosen option's place.
    pub text: String,
    /// Ticked words.
    pub ticked: u32,
    /// Unit of a distance.
    pub unit: u8,
}

impl Draft {
    /// A draft that shows what is held now.
    #[must_use]
    pub fn of(given: &Given) -> Self {
        let text = |text: String| Self { text, ..Self::default() };
        match given {
            Given::Nothing | Given::NotSure => Self::default(),
            Given::Stretches(stretches) => text(Rows::of(stretches).write()),
            Given::One(place) => text(place.to_string()),
            Given::Any(bits) => Self { ticked: *bits, ..Self::default() },
            Given::YesNo(yes) => text(u8::from(*yes).to_string()),
            Given::Count(count) => text(count.to_string()),
            Given::Distance(length) => Self { unit: length.unit.place(), ..text(length.value.to_string()) },
            Given::Figure(number) => text(number.to_string()),
            Given::Line(line) => text(line.clone()),
        }
    }

    /// A draft that shows what is held now of a question; a route that nobody said begins with the rough answer.
    #[must_use]
    pub fn begun(question: &Question, answers: &Answers) -> Self {
        let draft = Self::of(&(question.get)(answers));
        if question.kind == Kind::Stretches && draft.text.is_empty() {
            return Self { text: Rows::begin(answers).write(), ..draft };
        }
        draft
    }

    /// The answer it makes.
    ///
    /// # Errors
    /// The key of a sentence that says what may stand there.
    pub fn read(&self, kind: Kind) -> Result<Given, Key> {
        let text = self.text.trim();
        let number = || text.replace(',', ".").parse::<f64>().ok().filter(|n| n.is_finite() && *n >= 0.0);
        match kind {
            Kind::One(words) => text
                .parse::<u8>()
                .ok()
                .filter(|place| usize::from(*place) < words.len())
                .map(Given::One)
                .ok_or(key::CORRECT_CHOOSE),
            Kind::YesNo => match text {
                "1" => Ok(Given::YesNo(true)),
                "0" => Ok(Given::YesNo(false)),
                _ => Err(key::CORRECT_CHOOSE),
            },
            Kind::Any(_) => Ok(Given::Any(self.ticked)),
            Kind::Count(least, most) => text
                .parse::<u8>()
                .ok()
                .filter(|count| (least..=most).contains(count))
                .map(Given::Count)
                .ok_or(key::CORRECT_CHOOSE),
            Kind::Distance => {
                let value = number().and_then(|n| Ratio::new(n).ok()).ok_or(key::CORRECT_NUMBER)?;
                let unit = LengthUnit::ALL.get(usize::from(self.unit)).copied().ok_or(key::CORRECT_CHOOSE)?;
                Ok(Given::Distance(Length { value, unit }))
            }
            Kind::Figure(_) => number().map(Given::Figure).ok_or(key::CORRECT_NUMBER),
            Kind::Stretches => {
                Rows::read(&self.text).given().filter(|given| *given != Given::Nothing).ok_or(key::CORRECT_STRETCHES)
            }
            Kind::Line if text.is_empty() => Err(key::CORRECT_LINE),
            Kind::Line | Kind::PostcodeLine | Kind::Day => Ok(Given::Line(text.to_owned())),
        }
    }
}

/// The answers with one of them changed.
///
/// # Errors
/// The key of a sentence that says what may stand there; the answers given stay as they are.
pub fn corrected(answers: &Answers, question: &Question, given: &Given) -> Result<Answers, Key> {
    let mut next = answers.clone();
    if (question.set)(&mut next, given) {
        return Ok(next);
    }
    Err(match question.kind {
        Kind::PostcodeLine => key::CORRECT_POSTCODE,
        Kind::Stretches => key::CORRECT_STRETCHES,
        Kind::Line => key::CORRECT_LINE,
        Kind::Day => key::CORRECT_DAY,
        Kind::Distance | Kind::Figure(_) => key::CORRECT_NUMBER,
        Kind::One(_) | Kind::Any(_) | Kind::YesNo | Kind::Count(..) => key::CORRECT_CHOOSE,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::questions::{CATALOGUE, any_question as question};

    #[test]
    fn what_a_control_shows_is_read_back_as_it_was() {
        let samples = [
            ("home", Given::One(2)),
            ("hazard", Given::Any(0b101)),
            ("hot-tub", Given::YesNo(true)),
            ("fuse-carriers", Given::Count(3)),
            ("route-length", Given::Distance(Length { value: Ratio::of(12.5), unit: LengthUnit::Feet })),
            ("solar-power", Given::Figure(3.68)),
            ("board-maker", Given::Line("as typed".into())),
            ("postcode", Given::Line("ZZ1 1AA".into())),
            (
                "route-stretches",
                Given::Stretches(vec![model::answers::Stretch {
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
        assert!(matches!(begun.read(question.kind), Ok(Given::Stretches(all)) if all[0].length == Length::metres(9.0)));
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
            assert!(refused || matches!(question.kind, Kind::Any(_)), "{}", question.id);
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
        assert_eq!(typed("4,6").read(<model::units::Kilowatts as model::answers::Field>::KIND), Ok(Given::Figure(4.6)));
        assert_eq!(typed("9").read(Kind::Count(1, 3)), Err(key::CORRECT_CHOOSE));
        let postcode = question("postcode").unwrap();
        assert_eq!(
            corrected(&Answers::default(), postcode, &Given::Line("nowhere".into())),
            Err(key::CORRECT_POSTCODE)
        );
    }
}
