//! The pipeline itself: answers and config in, assessment out. Reads no clock, draws no chance, does no I/O.

mod types;

pub use types::*;

/// Version of the engine: the crate's own.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");

use crate::answers::Answers;
use crate::config::Config;
use crate::units::{Amps, Metres, Minutes, Pence, SquareMillimetres, Volts};
use alloc::string::ToString;
use alloc::vec::Vec;

/// Placeholder until the rooms before it are furnished (next commit).
#[must_use]
pub fn assess(answers: &Answers, config: &Config) -> Assessment {
    Assessment {
        as_of: answers.as_of.unwrap_or(config.published),
        engine: ENGINE.to_string(),
        config: config.version.clone(),
        invented: config.invented,
        complexity: Complexity::Straightforward,
        reasons: Vec::new(),
        gates: Vec::new(),
        band: Some(Band { low: Pence(90_000), likely: Pence(102_000), high: Pence(125_000), vat: Pence(17_000), charge_point: Pence(62_000), plainest: Pence(90_000) }),
        no_band: None,
        flags: Vec::new(),
        work: Vec::new(),
        labour: Minutes::of(300.0),
        open: Vec::new(),
        facts: Vec::new(),
        decisions: Vec::new(),
        figures: Figures {
            existing_by_use: [Amps::of(20.0), Amps::of(30.0), Amps::of(45.0)],
            existing_by_ratings: Amps::of(90.0),
            maximum_demand: Amps::of(60.0),
            load_limit: true,
            headroom: Amps::of(60.0).headroom_under(Amps::of(100.0)),
            cable_length: Metres::of(8.0),
            cable_size: SquareMillimetres::of(6.0),
            voltage_drop: Volts::of(1.9),
        },
    }
}
