//! Hazards: what was noticed, or that nobody could tell.

use model::answers::{Answer, Answers, HazardPlace, HazardSign, Set};

/// What the hazard question came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HazardInference {
    /// Something was noticed.
    Seen {
        /// What.
        signs: Set<HazardSign>,
        /// Where, if they could tell.
        place: Option<HazardPlace>,
    },
    /// Something that passed: once, long ago, and not since. Nobody is kept away by it.
    LongAgo {
        /// What.
        signs: Set<HazardSign>,
    },
    /// Asked, and nothing of it.
    NothingSeen,
    /// They were not sure: nobody is sent near meter or board.
    NotSure,
    /// The question was not put.
    NotAsked,
}

impl HazardInference {
    /// Whether a danger is not ruled out: nobody could tell, or nobody was asked.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        match self {
            Self::NotSure | Self::NotAsked => true,
            Self::Seen { .. } | Self::LongAgo { .. } | Self::NothingSeen => false,
        }
    }

    /// Whether what was noticed may be the network operator's: a sign of a broken supply neutral wherever it is felt, but for one
    /// appliance alone; anything at the service head or the meter, which nobody can tell apart from where they stand; and what nobody
    /// could place. Not a smell of gas alone. Common practice, no source.
    #[must_use]
    pub fn may_be_the_operators(&self) -> bool {
        let Self::Seen { signs, place } = self else { return false };
        if *signs == Set::of(&[HazardSign::GasSmell]) {
            return false;
        }
        match place {
            Some(HazardPlace::ServiceHead | HazardPlace::Meter) | None => true,
            Some(HazardPlace::Board | HazardPlace::Elsewhere) => {
                signs.has(HazardSign::Tingle) || signs.has(HazardSign::UnsteadyLights)
            }
            Some(HazardPlace::Appliance) => signs.has(HazardSign::UnsteadyLights),
        }
    }
}

/// Reads the hazard answers.
#[must_use]
pub fn infer(answers: &Answers) -> HazardInference {
    match answers.hazard.signs {
        Answer::Known(all) => match answers.hazard.counting() {
            Some(signs) if !signs.is_empty() => {
                HazardInference::Seen { signs, place: answers.hazard.place.known().copied() }
            }
            _ if !all.is_empty() => HazardInference::LongAgo { signs: all },
            _ => HazardInference::NothingSeen,
        },
        Answer::NotSure => HazardInference::NotSure,
        Answer::NotAsked => HazardInference::NotAsked,
    }
}
