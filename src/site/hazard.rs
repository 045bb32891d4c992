//! Hazards: what was noticed, or that nobody could tell.

use crate::answers::{Answer, Answers, HazardPlace, HazardSign, Set};

/// What the hazard question came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HazardReading {
    /// Something was noticed.
    Seen {
        /// What.
        signs: Set<HazardSign>,
        /// Where, if they could tell.
        place: Option<HazardPlace>,
    },
    /// Asked, and nothing of it.
    NothingSeen,
    /// They were not sure: nobody is sent near meter or board.
    NotSure,
    /// The question was not put.
    NotAsked,
}

/// Reads the hazard answers.
#[must_use]
pub fn read(answers: &Answers) -> HazardReading {
    match answers.hazard.signs {
        Answer::Known(signs) if !signs.is_empty() => {
            HazardReading::Seen { signs, place: answers.hazard.place.known().copied() }
        }
        Answer::Known(_) => HazardReading::NothingSeen,
        Answer::NotSure => HazardReading::NotSure,
        Answer::NotAsked => HazardReading::NotAsked,
    }
}
