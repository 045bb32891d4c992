//! What a flag consists of: a code, a weight, a source and a rule.

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
    /// Stored enquiries hold it, so it never changes; the code of a flag that was removed is never used again.
    pub code: &'static str,
    /// How grave.
    pub weight: Weight,
    /// Where the rule comes from.
    pub source: Source,
    /// Whether it applies to nearly every home, and so is not shown among the first.
    pub usual: bool,
    /// The rule.
    pub raise: fn(&Seen<'_>) -> Option<Evidence>,
}

/// What a rule may use.
#[derive(Clone, Copy, Debug)]
pub struct Seen<'a> {
    /// The answers.
    pub answers: &'a Answers,
    /// The config.
    pub config: &'a Config,
    /// The charge point that is meant.
    pub point: &'a OfferedPoint,
    /// The facts inferred from the answers.
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

/// What was seen or answered, and how probable that makes the flag.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// The probability that the flag applies.
    pub probability: Probability,
    /// What was seen or answered, in the installer's words.
    pub seen: Vec<String>,
}

impl Evidence {
    /// Evidence that the flag certainly applies.
    #[must_use]
    pub fn certain(seen: &str) -> Option<Self> {
        Self::with(Probability::CERTAIN, seen)
    }

    /// Evidence that the flag applies with this probability; `None` where that is zero.
    #[must_use]
    pub fn with(probability: Probability, seen: &str) -> Option<Self> {
        (probability > Probability::NEVER).then(|| Self { probability, seen: alloc::vec![seen.to_string()] })
    }

    /// The same evidence with one more observation.
    #[must_use]
    pub fn and(mut self, seen: &str) -> Self {
        self.seen.push(seen.to_string());
        self
    }
}

/// Length of the cable in the likeliest case, as the figures give it: with the new cable from the home to an outbuilding, if any.
pub(super) fn likely_length(seen: &Seen<'_>) -> Metres {
    // In the first case every fact has its likeliest value.
    match seen.design.outcomes(DecisionId::Cable).cases.first() {
        Some((_, Decided::Cable(cable))) => cable.length,
        _ => seen.site.route_length.likeliest(),
    }
}

/// The evidence with which a flag is raised for the answers that `say` gives, under the demo's config; for the tests of each flag.
#[cfg(test)]
pub(super) fn raised(flag: &Flag, say: impl FnOnce(&mut Answers)) -> Option<Evidence> {
    raised_with(flag, &model::config::demo_config(), say)
}

/// As [`raised`], under another config.
#[cfg(test)]
pub(super) fn raised_with(flag: &Flag, config: &Config, say: impl FnOnce(&mut Answers)) -> Option<Evidence> {
    let mut answers = Answers::default();
    say(&mut answers);
    let site = crate::site::infer(&answers, config);
    let given = crate::context::Context::of(&answers, config);
    let design = Design::of(&site, &given);
    (flag.raise)(&Seen { answers: &answers, config, point: given.point, site: &site, design: &design })
}

/// Answers for a single-phase home built since 2000 that cooks by electricity and has no other large load.
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
