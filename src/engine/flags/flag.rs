//! What a flag is: a code that lives on, a weight, a source, and a rule.

use super::Weight;
use crate::design::{Decided, DecisionId, Design};
use crate::site::Site;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use model::answers::Answers;
use model::config::{Config, OfferedPoint};
use model::units::{Metres, Probability};

/// One flag.
pub struct Flag {
    /// Lives on in stored enquiries; once retired, never used again.
    pub code: &'static str,
    /// How grave.
    pub weight: Weight,
    /// Where the rule comes from.
    pub source: Source,
    /// Whether it holds of nearly every home, so that it is worth no line of its own.
    pub usual: bool,
    /// The rule.
    pub raise: fn(&Seen<'_>) -> Option<Evidence>,
}

/// What a rule may look at.
#[derive(Clone, Copy, Debug)]
pub struct Seen<'a> {
    /// What was said.
    pub answers: &'a Answers,
    /// The config.
    pub config: &'a Config,
    /// The charge point that is meant.
    pub point: &'a OfferedPoint,
    /// The reading.
    pub site: &'a Site,
    /// The decisions over their cases.
    pub design: &'a Design,
}

/// Where a rule comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A clause or a named publication.
    Published(&'static str),
    /// A habit of the trade.
    CommonPractice,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Published(source) => source,
            Self::CommonPractice => "common practice, no source",
        })
    }
}

/// What was seen or said, and how sure it makes us.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// How probable the flag is to be so.
    pub probability: Probability,
    /// What was seen or said, in the installer's words.
    pub seen: Vec<String>,
}

impl Evidence {
    /// It is so.
    #[must_use]
    pub fn certain(seen: &str) -> Option<Self> {
        Self::with(Probability::CERTAIN, seen)
    }

    /// It is so with this probability; nothing where that is zero.
    #[must_use]
    pub fn with(probability: Probability, seen: &str) -> Option<Self> {
        (probability > Probability::NEVER).then(|| Self { probability, seen: alloc::vec![seen.to_string()] })
    }

    /// The same, seen in one more way.
    #[must_use]
    pub fn and(mut self, seen: &str) -> Self {
        self.seen.push(seen.to_string());
        self
    }
}

/// Raises one flag for a home, for the tests at the foot of each flag's file.
/// Length of the cable in the likeliest case, as it stands among the figures: with what comes from the home to an outbuilding.
pub(super) fn likely_length(seen: &Seen<'_>) -> Metres {
    // The first case is the one with every fact at its likeliest.
    match seen.design.outcomes(DecisionId::Cable).cases.first() {
        Some((_, Decided::Cable(cable))) => cable.length,
        _ => seen.site.route_length.likeliest(),
    }
}

#[cfg(test)]
pub(super) fn raised(flag: &Flag, say: impl FnOnce(&mut Answers)) -> Option<Evidence> {
    raised_with(flag, &model::config::demo_config(), say)
}

/// The same under another config.
#[cfg(test)]
pub(super) fn raised_with(flag: &Flag, config: &Config, say: impl FnOnce(&mut Answers)) -> Option<Evidence> {
    let mut answers = Answers::default();
    say(&mut answers);
    let site = crate::site::infer(&answers, config);
    let given = crate::context::Context::of(&answers, config);
    let design = Design::of(&site, &given);
    (flag.raise)(&Seen { answers: &answers, config, point: given.point, site: &site, design: &design })
}

/// Says of a single-phase home since 2000 that it cooks by electricity and has no other large load.
#[cfg(test)]
pub(super) fn electric_cooking_alone(answers: &mut Answers) {
    use model::answers::{Age, Answer, BoundedCount, Cooking, Heating, OtherPoint};
    answers.loads.showers = Answer::Known(BoundedCount::new(0).expect("none is a count of showers"));
    answers.loads.cooking = Answer::Known(Cooking::Electric);
    answers.loads.heating = Answer::Known(Heating::None);
    answers.loads.hot_tub = Answer::Known(false);
    answers.loads.other_point = Answer::Known(OtherPoint::None);
    answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).expect("one is a count of carriers"));
    answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).expect("two is a count of conductors"));
    answers.home.age = Answer::Known(Age::Since2000);
}
