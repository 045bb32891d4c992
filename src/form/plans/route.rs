//! The state of the route builder: the rows of the route, which of them is being worked on, and the last change to the list.

use super::{Speech, stretches};
use model::answers::{
    Along, Answer, Answers, Length, LengthUnit, StretchRow, StretchRowChange, StretchRows, Word, thousandths,
};
use model::units::{Metres, Ratio};
use record::markup::Tag;

/// A route that is being filled in.
pub struct Route {
    /// The wording.
    pub(super) speech: Speech,
    /// Its rows.
    pub(super) rows: StretchRows,
    /// Metres in a pace.
    pub(super) pace: Ratio,
    /// The index of the row that is being worked on.
    pub(super) at: usize,
    /// The last change to the list (a row added, moved, split or removed); it is announced to a screen reader.
    pub(super) did: Option<StretchRowChange>,
}

impl Route {
    /// A route without rows; [`Route::take_up`] gives it some. `pace` is the number of metres in a pace.
    #[must_use]
    pub fn new(speech: Speech, pace: Ratio) -> Self {
        Self { speech, rows: StretchRows::default(), pace, at: 0, did: None }
    }

    /// Replaces the rows by those of a text that [`Route::written`] gave. From an empty text the route begins with one row out of the
    /// rougher answers `roughly`: what the route mostly runs along, its length, and the length's unit, each as the answers write it.
    pub fn take_up(&mut self, text: &str, roughly: [&str; 3]) {
        self.rows = if text.is_empty() { begun(roughly) } else { StretchRows::read(text) };
        (self.at, self.did) = (self.at.min(self.rows.0.len().saturating_sub(1)), None);
    }

    /// The rows as a text, a line each: the text that the form's field keeps.
    #[must_use]
    pub fn written(&self) -> String {
        self.rows.write()
    }

    /// Sets the row that is being worked on, by its index.
    pub fn come_to(&mut self, at: usize) {
        self.at = at;
    }

    /// Makes a change to the row at an index: `what` is the change's word, and `value` the content of the field that was filled in. Returns
    /// whether anything changed; an unknown word or an impossible change does nothing.
    pub fn change(&mut self, at: usize, what: &str, value: &str) -> bool {
        let change = match what {
            "along" => StretchRowChange::Along(Along::named(value)),
            "length" => StretchRowChange::Length(value.to_owned()),
            "unit" => StretchRowChange::Unit(LengthUnit::named(value).unwrap_or(LengthUnit::Metres)),
            "high" => StretchRowChange::High(!value.is_empty()),
            "add" => StretchRowChange::AddAfter,
            "earlier" => StretchRowChange::Earlier,
            "later" => StretchRowChange::Later,
            "split" => StretchRowChange::Split,
            "out" => StretchRowChange::TakeOut,
            _ => return false,
        };
        if !self.rows.may(at, &change) {
            return false;
        }
        let before = self.rows.clone();
        let is_of_a_field = is_of_a_field(&change);
        self.at = self.rows.change(at, change.clone());
        if !is_of_a_field {
            self.did = Some(change);
        }
        !is_of_a_field || self.rows != before
    }

    /// The id of the element to focus after a change to the list, which may have moved or removed the element that had the focus.
    #[must_use]
    pub fn focus(&self) -> String {
        let what = match self.did {
            Some(StretchRowChange::Earlier) => "earlier",
            Some(StretchRowChange::Later) => "later",
            Some(StretchRowChange::Split) => "split",
            _ => "along",
        };
        field(self.at, what)
    }

    /// The route builder as markup. `complains` is the id of the error message that fields still to be filled in refer to.
    #[must_use]
    pub fn view(&self, complains: Option<&str>) -> Tag {
        stretches::view(self, complains)
    }

    /// A row's length in metres; nought where it is not complete or can't be read.
    pub(super) fn metres(&self, row: &StretchRow) -> Metres {
        row.stretch().map(|stretch| stretch.length.in_metres(self.pace)).unwrap_or_default()
    }
}

/// The id of a control in the row at an index.
pub(super) fn field(at: usize, what: &str) -> String {
    ["s-", &at.to_string(), "-", what].concat()
}

const fn is_of_a_field(change: &StretchRowChange) -> bool {
    matches!(
        change,
        StretchRowChange::Along(_)
            | StretchRowChange::Length(_)
            | StretchRowChange::Unit(_)
            | StretchRowChange::High(_)
    )
}

fn begun([along, length, unit]: [&str; 3]) -> StretchRows {
    let mut answers = Answers::default();
    answers.route.mostly = Along::named(along).map_or(Answer::NotAsked, Answer::Known);
    if let (Some(length), Some(unit)) = (thousandths(length), LengthUnit::named(unit)) {
        let value = Ratio::new(length as f64 / 1000.0);
        answers.route.length = value.map_or(Answer::NotAsked, |value| Answer::Known(Length { value, unit }));
    }
    StretchRows::begin(&answers)
}
