//! A route under way: its rows, which of them is worked on, and what was done to the list last.

use super::{Speech, stretches};
use model::answers::{
    Along, Answer, Answers, Length, LengthUnit, StretchRow, StretchRowChange, StretchRows, Word, thousandths,
};
use model::units::{Metres, Ratio};
use record::markup::Tag;

/// A route under way.
pub struct Route {
    /// What it says.
    pub(super) speech: Speech,
    /// Its rows.
    pub(super) rows: StretchRows,
    /// Metres in a pace.
    pub(super) pace: Ratio,
    /// The row that is worked on.
    pub(super) at: usize,
    /// What was done to the list last.
    pub(super) did: Option<StretchRowChange>,
}

impl Route {
    /// A route without a row; one is taken up by [`Route::take_up`].
    #[must_use]
    pub fn new(speech: Speech, pace: Ratio) -> Self {
        Self { speech, rows: StretchRows::default(), pace, at: 0, did: None }
    }

    /// Takes up the rows as they were written; where there are none it begins with what was said roughly, in words as answers
    /// write them: along what, how far, in what.
    pub fn take_up(&mut self, text: &str, roughly: [&str; 3]) {
        self.rows = if text.is_empty() { begun(roughly) } else { StretchRows::read(text) };
        (self.at, self.did) = (self.at.min(self.rows.0.len().saturating_sub(1)), None);
    }

    /// The rows as they are kept.
    #[must_use]
    pub fn written(&self) -> String {
        self.rows.write()
    }

    /// The row that is come to.
    pub fn come_to(&mut self, at: usize) {
        self.at = at;
    }

    /// Changes the row at a place by a word and, where a field was filled in, what stands there now. Tells whether anything is
    /// another now.
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

    /// Where the focus belongs after what was done to the list: it moved what had it, or took it away.
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

    /// How it is drawn; `complains` is the id of the error that is to be tied to what is still open.
    #[must_use]
    pub fn view(&self, complains: Option<&str>) -> Tag {
        stretches::view(self, complains)
    }

    /// A row's length in metres, as far as it can be read.
    pub(super) fn metres(&self, row: &StretchRow) -> Metres {
        row.stretch().map(|stretch| stretch.length.in_metres(self.pace)).unwrap_or_default()
    }
}

/// The id of a row's control.
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
