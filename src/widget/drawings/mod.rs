//! Line drawings by hand: one for each choice that is quicker seen than read.
//!
//! 1.5 px line, one flat tint for the part being talked about; conductors wear the colours of the wiring rules
//! (BS 7671, table 51: brown, black, grey for lines, blue for neutral, green-and-yellow for protection; from memory).

mod board;
mod head;
mod plan;
mod tape;

pub use plan::plan;
pub use tape::tape;

use super::el::{El, drawing as sheet, path};
use super::speech::Speech;
use crate::answers::Answers;
use crate::questions::Question;
use crate::wording::{Key, form as words};
use yew::AttrValue;

/// The drawing that belongs to one choice of a question, if it has one. `word` is the choice's word or number.
#[must_use]
pub fn drawing(speech: &Speech, question: &Question, word: &str, answers: &Answers) -> Option<El> {
    if word == "not-sure" {
        return None;
    }
    let count = || word.parse::<usize>().ok();
    let named = |family: &str, text: Key, lines: Vec<El>| {
        Some(framed(speech.made(&["drawing-", family, "-", word]), speech.say(text), lines))
    };
    match question.id {
        "fuse-carriers" => {
            let text = speech.fill(words::DRAWING_CARRIERS_TEXT, &[("count", word)]);
            Some(framed(speech.made(&["drawing-carriers-", word]), text, head::carriers(count()?)))
        }
        "street-cables" => {
            let title = speech.fill(words::DRAWING_STREET_TITLE, &[("count", word)]);
            let text = speech.fill(words::DRAWING_STREET_TEXT, &[("count", word)]);
            Some(framed(title, text, head::street(count()?)))
        }
        "head-conductors" => {
            let three_phase = answers.meter.fuse_carriers.known().is_some_and(|carriers| carriers.get() == 3);
            let title = speech.fill(words::DRAWING_HEAD_TITLE, &[("count", word)]);
            Some(framed(title, speech.say(words::DRAWING_HEAD_TEXT), head::conductors(count()?, three_phase)))
        }
        "protection" => named("protection", words::DRAWING_PROTECTION_TEXT, board::protection(word)),
        "test-buttons" => named("buttons", words::DRAWING_BUTTONS_TEXT, board::buttons(word)),
        "spare-ways" => named("ways", words::DRAWING_WAYS_TEXT, board::ways(word)),
        _ => None,
    }
}

/// The common sheet: 120 by 84, title and description first.
fn framed(title: AttrValue, text: AttrValue, lines: Vec<El>) -> El {
    sheet("drawing", "0 0 120 84", title, text).all(lines)
}

/// A plain outline.
fn outline(line: impl Into<AttrValue>) -> El {
    path("line", line.into())
}

/// An outline with the one tint.
fn tinted(line: impl Into<AttrValue>) -> El {
    path("line tint", line.into())
}

/// A rectangle as a path.
fn rectangle(left: usize, top: usize, width: usize, height: usize) -> String {
    [
        "M",
        &left.to_string(),
        " ",
        &top.to_string(),
        "h",
        &width.to_string(),
        "v",
        &height.to_string(),
        "h-",
        &width.to_string(),
        "z",
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Kind;
    use crate::questions::question;

    #[test]
    fn the_choices_that_are_counted_by_eye_are_drawn() {
        for id in ["fuse-carriers", "street-cables", "head-conductors", "protection", "test-buttons", "spare-ways"] {
            let question = question(id).unwrap();
            let words: Vec<String> = match question.kind {
                Kind::One(words) => words.iter().map(|word| (*word).to_owned()).collect(),
                Kind::Count(least, most) => (least..=most).map(|count| count.to_string()).collect(),
                other => panic!("{id}: {other:?}"),
            };
            for word in words {
                assert!(drawing(&Speech::default(), question, &word, &Answers::default()).is_some(), "{id} {word}");
            }
        }
    }
}
