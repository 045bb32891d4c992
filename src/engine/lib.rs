//! The engine: one pure function, [`assess`], answers and config in, assessment out.
//!
//! Its rooms are a line. [`site`] reads facts out of answers, [`design`] decides from facts, [`flags`] and [`price`] read what was decided
//! and know nothing of each other, and [`assessment`] puts all of it together. A test reads the code and holds them to it.
//!
//! Without features it is `no_std` + `alloc`, so that no clock, file, thread or browser can be named in it.

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
