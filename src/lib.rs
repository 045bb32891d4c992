//! presurvey: what a home needs before a car charge point is fitted, from what its owner can see.
//!
//! The house, in the order a newcomer should walk through it. The whole program is one pure function,
//! [`assess`](assessment::assess), with two windows on it: the homeowner's form and the installer's page.
//! Rooms above [`widget`] are pure: without features this library is `no_std` + `alloc`, so that no clock,
//! file, thread or browser can be named in them.

#![cfg_attr(not(feature = "std"), no_std)]
extern crate alloc;

pub mod units;

pub mod answers;
pub mod config;
pub mod questions;

pub mod design;
pub mod flags;
pub mod price;
pub mod site;
pub mod tables;

pub mod assessment;
pub mod enquiry;
pub mod wording;

#[cfg(feature = "native")]
pub mod intake;
#[cfg(any(feature = "views", feature = "plans"))]
pub mod intl;
#[cfg(any(feature = "plans", feature = "native"))]
pub mod markup;
#[cfg(feature = "plans")]
pub mod plans;
#[cfg(feature = "native")]
pub mod rates;
#[cfg(feature = "render")]
pub mod sketches;
#[cfg(feature = "triage")]
pub mod triage;
#[cfg(any(feature = "form", feature = "render"))]
pub mod widget;

pub use assessment::{Assessment, assess};
