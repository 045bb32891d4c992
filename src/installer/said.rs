//! Answers in words, as the installer reads them.

use super::words::{fill, option, say, worded};
use model::answers::{AnswerKind, Length, RawAnswer};
use model::questions::Question;
use model::units::Ratio;
use wording::triage as key;

/// An answer in words; `pace` is the installer's length of a pace in metres.
#[must_use]
pub fn in_words(question: &Question, given: &RawAnswer, pace: Ratio) -> String {
    match (given, question.kind) {
        (RawAnswer::Nothing, _) => say(key::ANSWER_NOT_ASKED).to_owned(),
        (RawAnswer::NotSure, _) => say(key::ANSWER_NOT_SURE).to_owned(),
        (RawAnswer::YesNo(yes), _) => say(if *yes { key::ANSWER_YES } else { key::ANSWER_NO }).to_owned(),
        (RawAnswer::Count(count), _) => count.to_string(),
        (RawAnswer::One(place), AnswerKind::One(words)) => {
            words.get(usize::from(*place)).map(|word| option(question.id, word).into_owned()).unwrap_or_default()
        }
        (RawAnswer::Any(0), _) => say(key::ANSWER_NONE).to_owned(),
        (RawAnswer::Any(bits), AnswerKind::Any(words)) => {
            let chosen: Vec<_> = words
                .iter()
                .enumerate()
                .filter(|(place, _)| bits & (1 << place) != 0)
                .map(|(_, word)| option(question.id, word).into_owned())
                .collect();
            chosen.join("; ")
        }
        (RawAnswer::Distance(length), _) => distance(*length, pace),
        (RawAnswer::Figure(number), AnswerKind::Figure(bounds)) => format!("{number} {}", bounds.symbol),
        (RawAnswer::Figure(number), _) => number.to_string(),
        (RawAnswer::Line(line), AnswerKind::Day) => line.parse().map_or_else(|_| line.clone(), super::ago::day),
        (RawAnswer::Line(line), _) => line.clone(),
        (RawAnswer::Stretches(stretches), _) => {
            let said: Vec<String> = stretches
                .iter()
                .map(|stretch| {
                    let places = [
                        ("along", &*option("route-mostly", stretch.along.word())),
                        ("length", &*distance(stretch.length, pace)),
                    ];
                    fill(if stretch.high { key::STRETCH_HIGH } else { key::STRETCH }, &places)
                })
                .collect();
            said.join(say(key::JOIN_SEMICOLON))
        }
        (RawAnswer::One(_) | RawAnswer::Any(_), _) => String::new(), // no question of the catalogue has such an answer
    }
}

/// A distance as the homeowner measured it, with metres beside it.
fn distance(length: Length, pace: Ratio) -> String {
    let (value, unit) = (length.value.to_string(), length.unit.word());
    if unit == "metres" {
        return fill(key::ANSWER_METRES, &[("n", &value)]);
    }
    let metres = libm::round(length.in_metres(pace).get() * 10.0) / 10.0;
    fill(key::ANSWER_DISTANCE, &[("n", &value), ("unit", &worded("length", unit)), ("metres", &metres.to_string())])
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{LengthUnit, METRES_IN_A_PACE};
    use model::questions::question;

    fn said(id: &str, given: &RawAnswer) -> String {
        in_words(question(id).unwrap(), given, METRES_IN_A_PACE)
    }

    #[test]
    fn a_day_is_said_as_people_say_it() {
        let asked = model::questions::any_question("operator-asked-on").unwrap();
        assert_eq!(in_words(asked, &RawAnswer::Line("2026-07-14".into()), METRES_IN_A_PACE), "14 July 2026");
    }

    #[test]
    fn each_kind_is_said() {
        assert_eq!(said("solar-power", &RawAnswer::Figure(3.68)), "3.68 kW");
        assert_eq!(said("fuse-carriers", &RawAnswer::Count(1)), "1");
        assert_eq!(said("hot-tub", &RawAnswer::YesNo(false)), "No");
        assert_eq!(said("hazard", &RawAnswer::Any(0)), "Nothing of it");
        assert_eq!(said("hazard", &RawAnswer::Any(0b11)).split("; ").count(), 2);
        assert_eq!(said("postcode", &RawAnswer::Line("ZZ1 1AA".into())), "ZZ1 1AA");
        let paces = Length { value: Ratio::of(8.0), unit: LengthUnit::Paces };
        assert_eq!(said("route-length", &RawAnswer::Distance(paces)), "8 paces (6 m)");
        assert_eq!(said("route-length", &RawAnswer::Distance(Length::metres(6.5))), "6.5 m");
    }

    #[test]
    fn stretches_are_said_in_order() {
        let stretch = |along, metres, high| model::answers::Stretch { along, length: Length::metres(metres), high };
        let route =
            vec![stretch(model::answers::Along::Inside, 4.0, false), stretch(model::answers::Along::Paving, 8.5, true)];
        let text = said("route-mostly", &RawAnswer::Stretches(route));
        let (first, second) = text.split_once("; ").unwrap();
        assert!(first.ends_with(": 4 m"), "{text}");
        assert!(second.ends_with(": 8.5 m, high up"), "{text}");
    }

    #[test]
    fn not_sure_and_not_asked_are_said_apart() {
        assert_eq!(said("home", &RawAnswer::NotSure), "Not sure");
        assert_eq!(said("home", &RawAnswer::Nothing), "Not asked");
    }
}
