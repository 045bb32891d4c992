//! The pipeline itself: answers and config in, assessment out. Reads no clock, draws no chance, does no I/O.

mod complexity;
mod enough;
mod futures;
mod gates;
mod grant;
mod owed;
mod pipeline;
mod settle;
mod types;

pub use crate::context::{Wish, Wished};
pub use futures::{Choice, Future, futures};
pub use gates::wait_key;
pub use pipeline::assess;
pub use types::*;

/// Version of the engine: the crate's own.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");
