//! The design context: what is certain about a home in every case. That is its answers, the config, and the charge point that is meant.

use crate::charge_point::suited;
use model::answers::{Answers, OperatorAnswer};
use model::config::{Config, OfferedPoint};
use model::units::Amps;

/// What is certain about a home in every case: the answers, the config, and the charge point that suits.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// The answers.
    pub answers: &'a Answers,
    /// The config.
    pub config: &'a Config,
    /// The charge point that suits, of the installer's list.
    pub point: &'a OfferedPoint,
}

/// The charge point that is designed with where the installer's list is empty: it costs nothing and can only charge.
static NOTHING_OFFERED: OfferedPoint = OfferedPoint::PLAIN;

impl<'a> Context<'a> {
    /// The context of a home. Nowhere else is it decided which charge point is meant.
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

    /// The demand above which the network operator is asked first: the limit that it set, or else the config's threshold for notifying
    /// afterwards; the main fuse where that is less.
    #[must_use]
    pub fn threshold(&self, fuse: Amps) -> Amps {
        self.operators_limit().unwrap_or(self.config.thresholds.ask_above).min(fuse)
    }
}
