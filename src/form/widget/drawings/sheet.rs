//! The sketches beside choices and questions, read from a sheet that is fetched when the form is idle.
//!
//! Until it is there, an empty element keeps each sketch's place, so that nothing moves when it appears. `crate::sketches` writes the
//! sheet.

use crate::widget::el::{El, drawing, el, path};
use model::questions::{Place, Question};
use std::rc::Rc;

/// The questions whose choices have sketches; each of their rows has a place for one.
const CHOICES: &[&str] = &[
    "home",
    "parking",
    "inlet",
    "outlet",
    "route-mostly",
    "meter-place",
    "meter-kind",
    "backing",
    "fuse-carriers",
    "street-cables",
    "head-conductors",
    "earth-goes",
    "protection",
    "test-buttons",
    "spare-ways",
    "board-case",
    "rcd-type",
    "gas-pipe",
    "water-pipe",
];

/// The questions that show a sketch of the thing that they ask the homeowner to find.
const FOUND: &[&str] = &["switch-after", "carrier-rating", "surge-device", "wall-space", "gas-clamp", "water-clamp"];

/// The one sketch that belongs to no question: it is shown beside a field of the contact.
const SUPPLY_NUMBER: &str = "supply-number";

/// The sheet of sketches, empty until it has been fetched; cheap to clone.
#[derive(Clone, Default, PartialEq)]
pub struct Sheet(Option<Rc<str>>);

impl Sheet {
    /// The sheet with this text.
    #[must_use]
    pub fn of(text: String) -> Self {
        Self(Some(text.into()))
    }

    /// Whether it has been fetched.
    #[must_use]
    pub fn is_there(&self) -> bool {
        self.0.is_some()
    }

    /// The sketch beside a choice, or an empty element in its place; `None` where no choice of the question has one.
    #[must_use]
    pub fn beside(&self, question: &Question, word: &str, three_phase: bool) -> Option<El> {
        CHOICES.contains(&question.id).then(|| {
            let name = [question.id, "-", word].concat();
            let class = class(question);
            let of_three = three_phase.then(|| self.find(class, &[&name, "-three-phase"].concat())).flatten();
            of_three.or_else(|| self.find(class, &name)).unwrap_or_else(|| place(class))
        })
    }

    /// The sketch of the thing that a question asks to find, or an empty element in its place; `None` where the question has none.
    #[must_use]
    pub fn under(&self, question: &Question) -> Option<El> {
        FOUND.contains(&question.id).then(|| self.named(class(question), question.id))
    }

    /// The sketch that shows where the supply number is on a bill, or an empty element in its place.
    #[must_use]
    pub fn of_supply_number(&self) -> El {
        self.named("drawing large", SUPPLY_NUMBER)
    }

    /// A sketch by its name, or an empty element in its place.
    fn named(&self, class: &'static str, name: &str) -> El {
        self.find(class, name).unwrap_or_else(|| place(class))
    }

    /// A sketch by its name; `None` where the sheet lacks it.
    fn find(&self, class: &'static str, name: &str) -> Option<El> {
        let (_, block) = self.0.as_deref()?.split_once(&["\n", name, "\n"].concat())?;
        let mut lines = block.lines().map(ToOwned::to_owned);
        let (title, text) = (lines.next()?, lines.next()?);
        let drawn = lines.map_while(|line| {
            let (class, way) = line.split_once('\t')?;
            Some(el("path").attr("class", class.to_owned().into()).attr("d", way.to_owned().into()))
        });
        Some(drawing(class, SHEET, title.into(), text.into()).all(drawn.collect()))
    }
}

const SHEET: &str = "0 0 120 84";

/// The empty element that keeps the place of a sketch.
fn place(class: &'static str) -> El {
    el("svg").class(class).set("viewBox", SHEET).set("aria-hidden", "true").with(path("", "".into()))
}

/// The class of a question's sketches: those in which something is counted are drawn larger.
fn class(question: &Question) -> &'static str {
    match question.place {
        Place::Meter | Place::Board | Place::Pipes => "drawing large",
        _ => "drawing",
    }
}

#[cfg(all(test, feature = "prerender"))]
mod tests {
    use super::*;
    use crate::sketches::{all, sheet};
    use model::questions::{CATALOGUE, question};
    use wording::{Words, sketches::EN};

    #[test]
    fn places_are_kept_for_what_is_drawn_and_for_nothing_else() {
        let names: Vec<String> = all().into_iter().map(|sketch| sketch.name).collect();
        for asked in CATALOGUE {
            let choice = names.iter().any(|name| {
                let rest = name.strip_prefix(asked.id).and_then(|rest| rest.strip_prefix('-'));
                // A name may begin like another question's.
                rest.is_some() && !CATALOGUE.iter().any(|other| name == other.id)
            });
            assert_eq!(CHOICES.contains(&asked.id), choice, "{}", asked.id);
            assert_eq!(FOUND.contains(&asked.id), names.iter().any(|name| name == asked.id), "{}", asked.id);
        }
    }

    #[test]
    fn every_drawing_is_found_on_the_sheet() {
        let made = Sheet::of(sheet(Words::new(EN)));
        for sketch in all() {
            assert!(made.find(class(question("home").unwrap()), &sketch.name).is_some(), "{}", sketch.name);
        }
        assert!(made.find("drawing", SUPPLY_NUMBER).is_some() && made.find("drawing", "no-such").is_none());
    }
}
