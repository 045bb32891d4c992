//! Hazards: what was noticed, or that nobody could tell.

use model::answers::{Answer, Answers, HazardPlace, HazardSign, Set};

/// What the hazard answers say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HazardInference {
    /// Something was noticed.
    Seen {
        /// What.
        signs: Set<HazardSign>,
        /// Where, if they could tell.
        place: Option<HazardPlace>,
    },
    /// Something was noticed that ceased by itself, once and long ago. It keeps nobody away.
    LongAgo {
        /// What.
        signs: Set<HazardSign>,
    },
    /// They were asked and noticed nothing.
    NothingSeen,
    /// They were not sure: nobody is sent near meter or board.
    NotSure,
    /// The question was not asked.
    NotAsked,
}

impl HazardInference {
    /// Whether a danger is not ruled out: they could not tell, or were not asked.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        match self {
            Self::NotSure | Self::NotAsked => true,
            Self::Seen { .. } | Self::LongAgo { .. } | Self::NothingSeen => false,
        }
    }

    /// Whether the signs may concern the network operator. They may where they were at the service head or the meter, which a homeowner
    /// cannot tell apart, or where nobody could say where; elsewhere, where they point to a broken supply neutral, beyond one appliance
    /// alone. A smell of gas alone does not. Common practice, no source.
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

/// Infers what the hazard answers say.
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
