//! What the homeowner sees: the form (`widget`), the plans of route and drive that it loads on demand (`plans`), the sketches beside its
//! choices (`sketches`), and money, numbers and days as a language writes them (`intl`). Markup that is prerendered at build time is made
//! by the form's own views (`widget/prerendered`).
//!
//! Holds no rule about electricity and no price: those are the engine's. Nor any sentence: those are in the wording files.

extern crate alloc;

#[cfg(any(feature = "views", feature = "plans"))]
pub mod intl;
#[cfg(feature = "plans")]
pub mod plans;
#[cfg(feature = "prerender")]
pub mod sketches;
#[cfg(feature = "views")]
pub mod widget;
