//! An enquiry in plain text, for an e-mail, a message or a printer: who asks, and every answer under the place where it was looked for.
//!
//! What was worked out is a text that whoever has an assessment hands over, so it can be written before the engine has been loaded.

use super::{Contact, SupplyNumber};
use alloc::borrow::Cow;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::mem::take;
use model::answers::{AnswerKind, Answers, Length, RawAnswer, Stretch, Word, in_digits};
use model::questions::{CATALOGUE, Place, Question};
use wording::{Key, Words, filled, form as words};

/// Writes an enquiry in plain text, a line for each detail of the contact and for each answer. `photos` is the number of photos that go
/// with it, `worked_out` what was worked out (put between contact and answers), `said_in` the form's wording, and `places` the values of
/// the places that every sentence may have, such as `{installer}`. A recorded hazard comes first; a supply number whose digits do not hold
/// is marked to be looked at again.
#[must_use]
pub fn plain_text(
    contact: &Contact,
    answers: &Answers,
    photos: usize,
    worked_out: &str,
    said_in: Words<'_>,
    places: &[(&str, &str)],
) -> String {
    let say = |key: Key| filled(said_in.say(key), places);
    let mut text = [&*say(words::SUMMARY_TITLE), "\n\n"].concat();
    let mut line = |parts: &[&str]| text.extend(parts.iter().copied().chain(["\n"]));
    if answers.hazard.is_noticed() {
        line(&[&say(words::SUMMARY_HAZARD), "\n"]);
    }
    let reach = contact.reach.map(|reach| find(said_in, &["reach-", reach.word()]).unwrap_or_default());
    let number = photos.to_string();
    for (key, value) in [
        (words::SUMMARY_NAME, &*contact.name),
        (words::CONTACT_TELEPHONE, &contact.telephone),
        (words::CONTACT_EMAIL, &contact.email),
        (words::CONTACT_ADDRESS, &contact.address),
        (words::CONTACT_SUPPLY_NUMBER, &contact.supply_number),
        (words::SUMMARY_REACH, reach.as_deref().unwrap_or_default()),
        (words::SUMMARY_WHEN, &contact.when),
        (words::SUMMARY_NOTE, &contact.note),
        (words::SUMMARY_LANGUAGE, &contact.language),
        (words::SUMMARY_OFFERS, if contact.offers { said_in.say(words::YES) } else { "" }),
        (words::SUMMARY_PHOTOS, if photos > 0 { &number } else { "" }),
    ] {
        if !value.is_empty() {
            line(&[&say(key), ": ", value]);
            if key == words::CONTACT_SUPPLY_NUMBER && SupplyNumber::read(value).is_err() {
                line(&[&say(words::SUMMARY_LOOK_AGAIN)]);
            }
        }
    }
    if !worked_out.is_empty() {
        line(&["\n", worked_out.trim_end()]);
    }
    for place in Place::ALL {
        let mut title = ["\n", &*find(said_in, &["place-", place.word()]).unwrap_or_default(), "\n"].concat();
        for question in CATALOGUE.iter().filter(|question| question.place == *place) {
            let Some(said) = in_words(question, &(question.get)(answers), said_in) else { continue };
            let asked = find(said_in, &["question-", question.id]).unwrap_or_default();
            line(&[&take(&mut title), "- ", &filled(&asked, places), " ", &said]);
        }
    }
    text
}

/// An answer in the form's wording; `None` where the question was not answered, or where the answer is of another kind than the question.
#[must_use]
pub fn in_words(question: &Question, given: &RawAnswer, said_in: Words<'_>) -> Option<String> {
    let option = |word: &str| {
        let own = find(said_in, &["option-", question.id, "-", word]);
        own.or_else(|| find(said_in, &["word-", word])).map_or_else(|| word.to_string(), Cow::into_owned)
    };
    let said = match (given, question.kind) {
        (RawAnswer::Nothing, _) => return None,
        (RawAnswer::NotSure, _) => said_in.say(words::NOT_SURE).to_string(),
        (RawAnswer::YesNo(yes), _) => said_in.say(if *yes { words::YES } else { words::NO }).to_string(),
        (RawAnswer::Count(count), _) => option(&count.to_string()),
        (RawAnswer::One(place), AnswerKind::One(words)) => option(words.get(usize::from(*place))?),
        (RawAnswer::Any(0), _) => find(said_in, &["option-", question.id, "-none"])
            .map_or_else(|| said_in.say(words::NONE_OF_THESE).to_string(), Cow::into_owned),
        (RawAnswer::Any(bits), AnswerKind::Any(words)) => {
            let chosen = words.iter().enumerate().filter(|(place, _)| bits & (1 << place) != 0);
            chosen.map(|(_, word)| option(word)).collect::<Vec<_>>().join("; ")
        }
        (RawAnswer::Distance(length), _) => distance(*length, said_in),
        (RawAnswer::Stretches(stretches), _) => {
            let stretch = |stretch: &Stretch| {
                let along = find(said_in, &["along-", stretch.along.word()]).unwrap_or_default();
                let key = if stretch.high { words::STRETCH_SAID_HIGH } else { words::STRETCH_SAID };
                let length = distance(stretch.length, said_in);
                filled(said_in.say(key), &[("along", &along), ("length", &length)]).into_owned()
            };
            stretches.iter().map(stretch).collect::<Vec<_>>().join("; ")
        }
        (RawAnswer::Figure(number), AnswerKind::Figure(bounds)) => [&*in_digits(*number), " ", bounds.symbol].concat(),
        (RawAnswer::Line(line), _) => line.clone(),
        (RawAnswer::One(_) | RawAnswer::Any(_) | RawAnswer::Figure(_), _) => return None, // an answer of another kind than its question's
    };
    Some(said)
}

fn distance(length: Length, said_in: Words<'_>) -> String {
    let unit = find(said_in, &["unit-", length.unit.word()]).unwrap_or_default();
    [&*in_digits(length.value.get()), " ", &unit].concat()
}

fn find<'a>(said_in: Words<'a>, key: &[&str]) -> Option<Cow<'a, str>> {
    said_in.find(&key.concat()).map(Cow::Borrowed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::enquiry::Reach;
    use wording;

    fn text(contact: &Contact, answers: &str, photos: usize) -> String {
        let answers: Answers = serde_json::from_str(answers).unwrap();
        let words = Words::new(wording::form::EN);
        plain_text(contact, &answers, photos, "Worked out: this.\n", words, &[("installer", "Invented Installer")])
    }

    #[test]
    fn who_asks_and_every_kind_of_answer_is_said() {
        let contact = Contact {
            name: "Invented Homeowner".into(),
            telephone: "01632 960123".into(),
            reach: Some(Reach::Message),
            note: "two\nlines".into(),
            address: "1 Invented Street, ZZ1 1AA".into(),
            supply_number: "10 1234 5678 903".into(),
            language: "pl".into(),
            offers: true,
            ..Contact::default()
        };
        let answers = r#"{"hazard":{"signs":[]},"home":{"postcode":"ZZ1 1AA","tenure":"not-sure","kind":"terrace"},
            "loads":{"hot_tub":false,"showers":2,"shower_power":9.5},"meter":{"fuse_carriers":1},
            "route":{"length":{"value":8,"unit":"paces"},"stretches":[{"along":"inside","length":{"value":4,"unit":"metres"}},
                {"along":"outside-wall","length":{"value":6.5,"unit":"feet"},"high":true}]},"wish":{"bought_maker":"invented maker"}}"#;
        let text = text(&contact, answers, 3);
        for part in [
            "Name: Invented Homeowner\nTelephone: 01632 960123\n",
            ": By text message\n",
            "two\nlines\n",
            "Full address: 1 Invented Street, ZZ1 1AA\nSupply number (MPAN): 10 1234 5678 903\n",
            "Filled in in: pl\n",
            "May be sent offers: Yes\n",
            "inside, 4 metres; along an outside wall, 6.5 feet, out of reach",
            ": 3\n\nWorked out: this.\n",
            "\nIndoors\n- What is the postcode? ZZ1 1AA\n- Is the home yours? Not sure\n",
            "A terraced house, ends of the row too",
            "electric showers are there? 2\n",
            "hot tub or a sauna? No\n",
            "9.5 kW\n",
            "8 paces\n",
            "invented maker\n",
            "Nothing like that\n",
        ] {
            assert!(text.contains(part), "{part:?} in\n{text}");
        }
        assert_eq!(text.matches("\nIndoors\n").count(), 1, "{text}");
        assert!(!text.contains('{') && !text.contains("E-mail"), "{text}");
    }

    #[test]
    fn digits_that_do_not_hold_are_queried() {
        let of = |number: &str| text(&Contact { supply_number: number.into(), ..Contact::default() }, "{}", 0);
        assert!(of("1012345678904").contains("1012345678904\n(Please look again"), "{}", of("1012345678904"));
        assert!(!of("10 1234 5678 903").contains("look again"));
    }

    #[test]
    fn a_hazard_is_said_before_all_else() {
        let text = text(&Contact::default(), r#"{"hazard":{"signs":["buzzing","smoke"],"place":"meter"}}"#, 0);
        let hazard = text.find("UNSAFE").expect("the hazard is told");
        assert!(hazard < text.find("Buzzing or crackling").unwrap(), "{text}");
        assert!(text.contains("Smoke; Buzzing"), "{text}");
    }

    #[test]
    fn nothing_said_is_a_title_alone() {
        let text = |worked_out| {
            plain_text(&Contact::default(), &Answers::default(), 0, worked_out, Words::new(wording::form::EN), &[])
        };
        assert_eq!(text("").trim().lines().count(), 1);
        assert!(text("x\n\n").ends_with("\n\nx\n"), "{:?}", text("x\n\n"));
    }

    #[test]
    fn an_installers_own_words_may_name_both() {
        let own = [("summary-name", "Who asks {installer}"), ("question-postcode", "Where? {telephone}")];
        let own = own.map(|(key, text)| (key.to_string(), text.to_string())).into_iter().collect();
        let words = Words::with_changes(wording::form::EN, &own);
        let contact = Contact { name: "Invented Homeowner".into(), ..Contact::default() };
        let answers: Answers = serde_json::from_str(r#"{"home":{"postcode":"ZZ1 1AA"}}"#).unwrap();
        let places = [("installer", "Invented Installer"), ("telephone", "01632 960 000")];
        let text = plain_text(&contact, &answers, 0, "", words, &places);
        assert!(text.contains("Who asks Invented Installer: Invented Homeowner\n"), "{text}");
        assert!(text.contains("- Where? 01632 960 000 ZZ1 1AA\n"), "{text}");
    }
}
