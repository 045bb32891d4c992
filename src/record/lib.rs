//! What is written down or sent: the enquiry, and the view model, which is the part of an assessment that a homeowner is shown.
//!
//! Holds no rule about electricity and no price: those are the engine's. Neither draws, stores nor sends anything.

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
