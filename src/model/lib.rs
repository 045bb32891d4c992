//! What every crate shares: units, answers, questions, the config and published tables.
//!
//! Without features it is `no_std` + `alloc`, so that no clock, file, thread or browser can be named in it.

#![cfg_attr(not(any(feature = "std", test)), no_std)]
#[doc(hidden)]
pub extern crate alloc;
#[cfg(feature = "schema")]
#[doc(hidden)]
pub use schemars;

pub mod answers;
pub mod config;
pub mod questions;
pub mod tables;
pub mod terms;
pub mod units;
