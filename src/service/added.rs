//! What a homeowner added to an enquiry after sending it, as the installer is told: how many photos of what, which questions were answered,
//! and whether a danger was reported. Nothing that anybody typed.

use super::letter::say;
use jiff::Timestamp;
use model::answers::{AnswerKind, Answers, Word};
use model::config::Config;
use model::questions::{CATALOGUE, question};
use record::enquiry::{PhotoPlace, in_words};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use wording::{Words, filled, form, service as words};

/// What was added, gathered over a short while.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub(super) struct Added {
    /// When the first of it came, in whole seconds.
    pub(super) at: Timestamp,
    /// How many photos, by what they show.
    pub(super) photos: BTreeMap<String, usize>,
    /// The questions that were answered, in the form's order.
    pub(super) answers: Vec<String>,
    /// Whether a danger was reported that was not known before.
    pub(super) danger: bool,
    /// The last change of the answers that it tells of.
    pub(super) correction: Option<i64>,
}

impl Added {
    /// The additions that begin at this time, with nothing in them yet.
    pub(super) const fn begun(at: Timestamp) -> Self {
        Self { at, photos: BTreeMap::new(), answers: Vec::new(), danger: false, correction: None }
    }

    /// Counts one more photo of this place.
    pub(super) fn photo(&mut self, place: PhotoPlace) {
        *self.photos.entry(place.word().to_owned()).or_default() += 1;
    }

    /// Takes up a change of the answers, which is kept under this number.
    pub(super) fn changed(&mut self, before: &Answers, after: &Answers, correction: i64) {
        let changed = CATALOGUE.iter().filter(|question| (question.get)(before) != (question.get)(after));
        self.answers = changed.map(|question| question.id.to_owned()).collect();
        let signs = |answers: &Answers| answers.hazard.counting().map_or(0, |signs| signs.iter().count());
        self.danger = signs(after) > signs(before);
        self.correction = Some(correction);
    }

    /// Takes up what came after it.
    pub(super) fn add(&mut self, later: &Self) {
        for (place, number) in &later.photos {
            *self.photos.entry(place.clone()).or_default() += number;
        }
        self.answers.extend(later.answers.iter().filter(|id| !self.answers.contains(id)).cloned().collect::<Vec<_>>());
        self.danger |= later.danger;
        self.correction = later.correction.or(self.correction);
    }

    /// A line for each kind of photo and each answer. `answers` are those after it.
    pub(super) fn lines(&self, answers: &Answers, config: &Config) -> Vec<String> {
        let danger = self.danger.then(|| say(words::MAIL_ADDED_DANGER_LINE, &[]));
        let photos = PhotoPlace::ALL.iter().filter_map(|place| {
            let number = self.photos.get(place.word())?.to_string();
            let key = match place {
                PhotoPlace::Parking => words::MAIL_ADDED_PHOTOS_PARKING,
                PhotoPlace::Meter => words::MAIL_ADDED_PHOTOS_METER,
                PhotoPlace::Board => words::MAIL_ADDED_PHOTOS_BOARD,
                PhotoPlace::Pipes => words::MAIL_ADDED_PHOTOS_PIPES,
                PhotoPlace::Other => words::MAIL_ADDED_PHOTOS_OTHER,
            };
            Some(say(key, &[("number", &number)]))
        });
        let installer = &config.installer;
        let places = [("installer", &*installer.name), ("telephone", &*installer.telephone)];
        let said_in = Words::with_changes(form::EN, &config.wording);
        let answered = self.answers.iter().filter_map(|id| question(id)).map(|question| {
            let asked = filled(said_in.find(&format!("question-{}", question.id)).unwrap_or(question.id), &places);
            let typed = matches!(question.kind, AnswerKind::Line);
            let said = if typed { None } else { in_words(question, &(question.get)(answers), said_in) };
            said.map_or_else(|| asked.to_string(), |said| format!("{asked} {said}"))
        });
        danger.into_iter().chain(photos).chain(answered).collect()
    }
}
