//! The engine: one pure function, [`assess`], from answers and config to an assessment.
//!
//! Its modules depend on each other in one direction. [`site`] infers facts from answers, [`design`] decides from facts, [`flags`] and
//! [`price`] use the decisions and know nothing of each other, and [`assessment`] puts everything together. A test reads the code and
//! checks this.
//!
//! Without features the crate is `no_std` + `alloc`, so that no clock, file, thread or browser can be used in it.

#![cfg_attr(not(any(feature = "std", test)), no_std)]
extern crate alloc;

pub mod assessment;
pub mod calculation;
pub mod charge_point;
pub mod context;
pub mod design;
pub mod flags;
pub mod price;
pub mod site;

pub use assessment::{Assessment, assess};
