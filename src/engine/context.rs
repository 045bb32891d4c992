//! What is certain of a home whatever the case: what was said, the config, and the charge point that is meant.

use crate::charge_point::suited;
use model::answers::{Answers, OperatorAnswer};
use model::config::{Config, OfferedPoint};
use model::units::Amps;

/// What is certain of a home whatever the case: what was said, what is offered, and the charge point that suits.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// What was said.
    pub answers: &'a Answers,
    /// The config.
    pub config: &'a Config,
    /// The charge point that suits, of the installer's list.
    pub point: &'a OfferedPoint,
}

/// What is designed with where the installer's list is empty: a charge point that costs nothing and can nothing but charge.
static NOTHING_OFFERED: OfferedPoint = OfferedPoint::PLAIN;

impl<'a> Context<'a> {
    /// The context of a home: the one place where it is decided which charge point is meant.
    #[must_use]
    pub fn of(answers: &'a Answers, config: &'a Config) -> Self {
        Self { answers, config, point: suited(answers, config).unwrap_or(&NOTHING_OFFERED) }
    }

    /// The limit that the operator set on the whole home, where it answered with one.
    #[must_use]
    pub fn operators_limit(&self) -> Option<Amps> {
        let operator = &self.answers.operator;
        operator.limit.known().copied().filter(|_| operator.answer.is(OperatorAnswer::Limited))
    }

    /// The demand above which the operator is asked: the limit that it set, or else the threshold for telling afterwards; the main
    /// fuse where that is less.
    #[must_use]
    pub fn threshold(&self, fuse: Amps) -> Amps {
        self.operators_limit().unwrap_or(self.config.thresholds.ask_above).min(fuse)
    }
}
