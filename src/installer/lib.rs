//! The installer's page: the list that reads as decisions, and one enquiry opened with all it rests on.
//!
//! Holds no rule of the trade and no text: it shows an assessment, and asks `assess` for a new one after a correction.
//! Does not keep anything in the browser: what is stored is the service's.

mod ago;
mod api;
mod changes;
mod client;
mod draft;
mod enquiry_rows;
mod focus;
mod headline;
mod location;
mod mishap;
mod page;
mod parts;
mod said;
mod state;
mod sure;
mod tape;
mod trouble;
mod views;
mod words;

#[cfg(test)]
pub(crate) mod sample;

pub use mishap::{mind_faults, say_how_to_go_on};
pub use page::Page;
