//! The pipeline from answers and config to the assessment, with its gates, complexity, obligations and band. It reads no clock, draws no
//! random number and does no I/O.

mod band;
mod complexity;
mod enough;
mod gates;
mod grant;
mod obligations;
mod pipeline;
mod settle;
mod types;
mod what_if;

pub use crate::charge_point::{Wish, Wished};
pub use gates::wait_key;
pub use pipeline::assess;
pub use types::*;
pub use what_if::{Choice, WhatIf, what_ifs};

/// Version of the engine: the crate's own.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");
