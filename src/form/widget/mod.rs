//! The homeowner's form, drawn by Yew in the element that the page's own script has made.
//!
//! [`state`] holds all that the form knows and how each action changes it; [`parts`] draw that state; [`effects`] do what reaches outside:
//! storage, network, camera. There is no rule about electricity here (those are the engine's) and no sentence (those are in the wording
//! files). Answering a question never waits for the engine.

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
mod worked_out;
