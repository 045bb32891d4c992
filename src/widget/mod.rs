//! The homeowner's form: a custom element, drawn by Yew.
//!
//! [`state`] changes, [`parts`] show, [`effects`] touch the world. No rule about electricity is found here, no sentence
//! (those are in the wording files), and no answer waits for the engine.

pub mod app;
pub mod draft;
pub mod drawings;
pub mod effects;
pub mod el;
pub mod element;
pub mod emergency;
pub mod ending;
pub mod parts;
pub mod screens;
pub mod speech;
pub mod state;
pub mod step;
pub mod typed;
