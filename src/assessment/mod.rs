//! The pipeline itself: answers and config in, assessment out. Reads no clock, draws no chance, does no I/O.

mod complexity;
mod enough;
mod futures;
mod gates;
mod grant;
mod lines;
mod owed;
mod pipeline;
mod settle;
mod shown;
mod types;

pub use crate::design::charge_point::{Wish, Wished};
pub use crate::design::working::{Input, TableRow, Working};
pub use futures::{Choice, Future, futures};
pub use pipeline::{assess, working};
pub use shown::{
    Awaited, Shown, ShownCause, ShownFlag, ShownFuture, ShownGate, ShownGrant, ShownOpen, Versions, how_much,
};
pub use types::*;

/// Version of the engine: the crate's own.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");
