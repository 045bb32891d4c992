//! Hand-made line drawings for choices that are quicker seen than read, and of things that a question asks the homeowner to find.
//!
//! The build writes them all into one text file for each language (`sketches-LANGUAGE.txt`), which the form fetches when it is idle, so
//! that they do not delay the first answer. Each subject has a file here. A drawing's name is a question's id, or a question's id and a
//! choice's word; one drawing belongs to a field of the contact.
//!
//! 1.5 px line, one flat tint for the part being talked about; conductors wear the colours of the wiring rules
//! (BS 7671, table 51: brown, black, grey for lines, blue for neutral, green-and-yellow for protection; from memory).

mod bill;
mod board;
mod car;
mod head;
mod home;
mod meter;
mod pipe;
mod way;

use wording::Words;

/// One line of a drawing: its class in the form's style sheet, and its SVG path in a view box of 120 by 84 units.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    class: &'static str,
    path: String,
}

/// One drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sketch {
    /// The question or the choice that it belongs to: `QUESTION`, or `QUESTION-WORD`.
    pub name: String,
    /// Its lines, from the back to the front.
    pub lines: Vec<Line>,
}

/// Every drawing.
#[must_use]
pub fn all() -> Vec<Sketch> {
    [
        home::sketches(),
        car::sketches(),
        way::sketches(),
        meter::sketches(),
        head::sketches(),
        board::sketches(),
        pipe::sketches(),
        bill::sketches(),
    ]
    .concat()
}

/// All drawings as the text that the form reads: for each its name, its title, its description and its lines, then an empty line.
///
/// # Panics
/// If a drawing has no title or no description in this wording; a test checks that all have.
#[must_use]
pub fn sheet(words: Words) -> String {
    let mut out = String::new();
    for sketch in all() {
        let title = words.find(&["title-", &sketch.name].concat());
        let text = text_of(&sketch.name, words);
        let (Some(title), Some(text)) = (title, text) else { panic!("`{}` is drawn and has no words", sketch.name) };
        out.push_str(&["\n", &sketch.name, "\n", title, "\n", text, "\n"].concat());
        for line in &sketch.lines {
            out.push_str(&[line.class, "\t", &line.path, "\n"].concat());
        }
    }
    out
}

/// A drawing's own description, or the one that all drawings of its question share.
fn text_of<'a>(name: &str, words: Words<'a>) -> Option<&'a str> {
    let mut at = Some(name);
    while let Some(name) = at {
        if let Some(text) = words.find(&["text-", name].concat()) {
            return Some(text);
        }
        at = name.rsplit_once('-').map(|(before, _)| before);
    }
    None
}

/// A drawing of these lines.
fn sketch(name: &str, lines: Vec<Line>) -> Sketch {
    Sketch { name: name.to_owned(), lines }
}

/// A line of a class.
fn line(class: &'static str, path: impl Into<String>) -> Line {
    Line { class, path: path.into() }
}

/// A plain outline.
fn outline(path: impl Into<String>) -> Line {
    line("line", path)
}

/// The texture of a surface, drawn thinner than an outline.
fn grain(path: impl Into<String>) -> Line {
    line("line fine", path)
}

/// An outline filled with the tint.
fn tinted(path: impl Into<String>) -> Line {
    line("line tint", path)
}

/// A rectangle as a path.
fn rectangle(left: usize, top: usize, width: usize, height: usize) -> String {
    format!("M{left} {top}h{width}v{height}h-{width}z")
}

/// A circle as a path.
fn circle(x: usize, y: usize, radius: usize) -> String {
    let (left, wide) = (x - radius, 2 * radius);
    format!("M{left} {y}a{radius} {radius} 0 1 0 {wide} 0a{radius} {radius} 0 1 0-{wide} 0z")
}

/// A green-and-yellow conductor: the yellow lies on the green.
fn earth(path: &str) -> [Line; 2] {
    [line("wire earth", path), line("wire earth stripes", path)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{AnswerKind, Word};
    use model::questions::{CATALOGUE, question};
    use wording::sketches::EN;

    #[test]
    fn each_belongs_to_a_question_or_to_one_of_its_choices_and_stands_once() {
        let mut names: Vec<String> = Vec::new();
        for Sketch { name, lines } in all() {
            assert!(!lines.is_empty(), "{name}");
            // Beside a field of the contact, which is no question.
            if name == "supply-number" {
                continue;
            }
            let belongs = CATALOGUE.iter().any(|question| {
                let Some(rest) = name.strip_prefix(question.id) else { return false };
                let Some(word) = rest.strip_prefix('-') else { return rest.is_empty() };
                match question.kind {
                    AnswerKind::One(words) | AnswerKind::Any(words) => words.contains(&word),
                    AnswerKind::Count(least, most) => {
                        let count = word.strip_suffix("-three-phase").unwrap_or(word);
                        count.parse().is_ok_and(|count: u8| (least..=most).contains(&count))
                    }
                    _ => false,
                }
            });
            assert!(belongs, "{name} is no question and no choice of one");
            assert!(!names.contains(&name), "{name} is drawn twice");
            names.push(name);
        }
    }

    #[test]
    fn what_is_counted_or_told_by_its_look_is_drawn_choice_by_choice() {
        let all: Vec<String> = all().into_iter().map(|sketch| sketch.name).collect();
        for id in [
            "fuse-carriers",
            "street-cables",
            "head-conductors",
            "protection",
            "test-buttons",
            "spare-ways",
            "meter-kind",
            "board-case",
            "rcd-type",
            "earth-goes",
            "route-mostly",
            "meter-place",
            "backing",
        ] {
            let words: Vec<String> = match question(id).unwrap().kind {
                AnswerKind::One(words) => words.iter().map(|word| (*word).to_owned()).collect(),
                AnswerKind::Count(least, most) => (least..=most).map(|count| count.to_string()).collect(),
                other => panic!("{id}: {other:?}"),
            };
            for word in words {
                assert!(all.contains(&format!("{id}-{word}")), "{id} {word}");
            }
        }
        for id in ["gas-clamp", "water-clamp", "surge-device", "switch-after", "carrier-rating"] {
            assert!(all.contains(&id.to_owned()), "{id}");
        }
        assert_eq!(
            model::answers::Along::ALL.len(),
            all.iter().filter(|name| name.starts_with("route-mostly-")).count()
        );
    }

    #[test]
    fn every_line_stays_on_the_sheet() {
        for Sketch { name, lines } in all() {
            for Line { path, .. } in &lines {
                for (x, y) in ends(path) {
                    assert!((0.0..=120.0).contains(&x) && (0.0..=84.0).contains(&y), "{name}: {x} {y} of {path}");
                }
            }
        }
    }

    /// Where each command of a path ends.
    fn ends(path: &str) -> Vec<(f64, f64)> {
        let mut ends = Vec::new();
        let (mut at, mut start) = ((0.0, 0.0), (0.0, 0.0));
        let mut rest = path;
        while let Some(command) = rest.chars().next() {
            rest = &rest[1..];
            let until = rest.find(|c: char| c.is_ascii_alphabetic()).unwrap_or(rest.len());
            let numbers = numbers(&rest[..until]);
            rest = &rest[until..];
            let (long, relative) = match command.to_ascii_lowercase() {
                'h' | 'v' => (1, command.is_lowercase()),
                'm' | 'l' | 't' => (2, command.is_lowercase()),
                'q' => (4, command.is_lowercase()),
                'c' => (6, command.is_lowercase()),
                'a' => (7, command.is_lowercase()),
                'z' => {
                    at = start;
                    continue;
                }
                ' ' => continue,
                other => panic!("`{other}` in {path}"),
            };
            assert!(
                !numbers.is_empty() && numbers.len().is_multiple_of(long),
                "{command} takes {long} numbers in {path}"
            );
            for part in numbers.chunks(long) {
                let from = if relative { at } else { (0.0, 0.0) };
                at = match command.to_ascii_lowercase() {
                    'h' => (from.0 + part[0], at.1),
                    'v' => (at.0, from.1 + part[0]),
                    _ => (from.0 + part[long - 2], from.1 + part[long - 1]),
                };
                ends.push(at);
                if command.eq_ignore_ascii_case(&'m') && ends.len() == ends.len() {
                    start = at;
                }
            }
        }
        ends
    }

    /// The numbers of a path's command, which may stand close together.
    fn numbers(text: &str) -> Vec<f64> {
        let spaced = text.replace('-', " -").replace(',', " ");
        spaced
            .split_whitespace()
            .map(|number| number.parse().unwrap_or_else(|_| panic!("{number} in {text}")))
            .collect()
    }

    #[test]
    fn every_drawing_has_its_words_and_every_word_its_drawing() {
        let sheet = sheet(Words::new(EN));
        assert_eq!(sheet.matches("\n\n").count() + 1, all().len(), "an empty line between two drawings");
        for (key, _) in EN.iter() {
            let used = match key.split_once('-') {
                Some(("title", name)) => all().iter().any(|sketch| sketch.name == name),
                Some(("text", name)) => all().iter().any(|sketch| {
                    text_of(&sketch.name, Words::new(EN)) == EN.find(key) && sketch.name.starts_with(name)
                }),
                _ => false,
            };
            assert!(used, "{key} is said nowhere");
        }
    }
}
