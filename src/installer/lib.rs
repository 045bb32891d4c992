//! The installer's page: the list, in which every row reads as a decision, and each enquiry with all that the decision rests on.
//!
//! Holds no rule of the trade and no text: it shows an assessment, and asks `assess` for a new one after a correction. Stores nothing in
//! the browser: everything that is kept is kept by the service.

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
