//! The homeowner's window: the form, the plans that it draws, the sketches beside its choices, and what is made of them at build time.

extern crate alloc;

#[cfg(any(feature = "views", feature = "plans"))]
pub mod intl;
#[cfg(feature = "plans")]
pub mod plans;
#[cfg(feature = "prerender")]
pub mod sketches;
#[cfg(feature = "views")]
pub mod widget;
