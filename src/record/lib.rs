//! What is written down or sent: the enquiry, and what of an assessment a homeowner is shown.

#![cfg_attr(not(any(feature = "std", test)), no_std)]
extern crate alloc;

pub mod enquiry;
#[cfg(feature = "std")]
pub mod json;
mod lines;
pub mod markup;
mod view_model;

pub use view_model::{
    Awaited, CauseView, FlagView, GateView, GrantView, OpenView, Versions, ViewModel, WhatIfView, how_much,
};
