//! The homeowner's form, drawn by Yew in the element that the page's own script has made.
//!
//! [`state`] changes, [`parts`] show, [`effects`] touch the world. No rule about electricity is found here, no sentence
//! (those are in the wording files), and no answer waits for the engine.

pub mod app;
pub mod draft;
pub mod drawings;
pub mod effects;
pub mod el;
pub mod emergency;
pub mod ending;
#[cfg(feature = "form")]
pub mod mount;
pub mod navigation;
pub mod parts;
#[cfg(feature = "prerender")]
pub mod prerendered;
pub mod screens;
pub mod speech;
pub mod state;
pub mod step;
pub mod typed;
