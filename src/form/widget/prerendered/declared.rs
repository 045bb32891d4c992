//! The names of events and draft lines that the page's scripts use: the constants that they import from `declared.js`.
//!
//! There is no such file. The build replaces each import by the constants of this list, so that no name is written twice and a script holds
//! only the constants that it uses.

use crate::widget::step::Step;
use model::answers::Word;
use record::enquiry::PhotoPlace;
use record::enquiry::draft_lines::{DraftLine, VERSION, VERSION_BEFORE};
use record::enquiry::events::{Failure, PageEvent};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The topic of the answers about danger with a point: followed by a field's name, it is the path of that answer.
const HAZARD: &str = "hazard.";

/// The fields of the plain form that belong to the contact.
const CONTACT: [&str; 5] = ["name", "telephone", "email", "when", "note"];

/// Every constant, by its name.
pub fn declared() -> BTreeMap<String, Value> {
    let mut all = BTreeMap::new();
    let mut put = |name: &str, value: Value| all.insert(name.to_owned(), value);
    for event in PageEvent::ALL {
        // `presurvey-ready` is EVENT_READY.
        put(&constant("EVENT", event.word().trim_start_matches("presurvey-")), event.word().into());
    }
    put("EVENTS", PageEvent::WORDS.into());
    for failure in Failure::ALL {
        put(&constant("FAILURE", failure.word()), failure.word().into());
    }
    for line in DraftLine::ALL {
        put(&constant("LINE", line.word()), line.word().into());
    }
    put("DRAFT_VERSION", VERSION.into());
    put("DRAFT_VERSION_BEFORE", VERSION_BEFORE.into());
    put("FIRST_STEP", first_step().into());
    // The beginning of the names of the lines about danger: `signs`, `when` or `place` follows.
    put("LINES_OF_HAZARD", DraftLine::Answer.of(HAZARD).into());
    let mut contact: Map<_, _> =
        CONTACT.iter().map(|name| ((*name).to_owned(), DraftLine::Contact.of(name).into())).collect();
    contact.insert("postcode".into(), DraftLine::Typed.of("postcode").into());
    put("LINES_OF_CONTACT", Value::Object(contact));
    put("LINES_THAT_MOVE", moving().into());
    put("PHOTO_OF_ANYTHING", PhotoPlace::Other.word().into());
    all
}

/// A constant's name in a script.
fn constant(kind: &str, word: &str) -> String {
    [kind, "_", &word.replace('-', "_").to_uppercase()].concat()
}

/// The value of a draft's line `step` at the first screen.
fn first_step() -> String {
    let (kind, id) = Step::first().name();
    [kind.word(), " ", id].concat()
}

/// The names of lines that are carried to another device, as a regular expression. What tells lines of a kind apart is a path of an answer
/// or a question's id: no longer than sixty characters (this program's choice).
fn moving() -> String {
    let (several, alone): (Vec<_>, Vec<_>) =
        DraftLine::ALL.iter().filter(|line| line.moves()).partition(|line| line.is_of_a_field());
    let words = |lines: Vec<&DraftLine>| lines.into_iter().map(|line| line.word()).collect::<Vec<_>>().join("|");
    format!("^(({}) [\\w.-]{{1,60}}|{})$", words(several), words(alone))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widget::draft::Draft;
    use crate::widget::state::Form;

    #[test]
    fn every_line_that_a_script_writes_is_one_that_the_program_reads() {
        let declared = declared();
        let mut lines = vec![("version".to_owned(), VERSION.to_owned())];
        for (name, value) in [("signs", "[\"smoke\"]"), ("when", "\"now\""), ("place", "\"service-head\"")] {
            lines.push(([declared["LINES_OF_HAZARD"].as_str().unwrap(), name].concat(), value.to_owned()));
        }
        for name in CONTACT.iter().chain(&["postcode"]) {
            lines.push((declared["LINES_OF_CONTACT"][*name].as_str().unwrap().to_owned(), "ZZ1".to_owned()));
        }
        let draft: Draft = lines.iter().cloned().collect();
        let form = Form::begun(Some(&draft.write()), false);
        let again = Draft::of(&form).write();
        for (name, value) in lines {
            let line = serde_json::to_string(&(name, value)).unwrap();
            assert!(again.contains(&line), "{line} is not in {again}");
        }
    }

    #[test]
    fn what_moves_is_answers_and_where_one_is() {
        assert_eq!(moving(), "^((answer|typed|unit) [\\w.-]{1,60}|step|walked|result)$");
        assert_eq!(first_step(), "screen hazard");
        assert_eq!(declared()["FAILURE_NO_ANSWER"], "no-answer");
        assert_eq!(declared()["EVENT_READY"], "presurvey-ready");
    }
}
