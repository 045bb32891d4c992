//! Everything of the form that reaches outside its state: storage, network, camera, random numbers, the page around it. Holds no rule and
//! no sentence.

mod after_paint;
mod assessment;
mod config;
mod http;
mod letter;
mod look;
mod photo;
mod saved;
mod secrets;
mod send;
mod share;
mod sheet;
mod store;
mod tell_page;

pub use assessment::{Assessed, Made, Waits, to_send, use_assessment};
pub use config::{Fetched, use_config};
pub use http::pause;
pub use letter::Letter;
pub use look::use_word_to_look;
pub use photo::take;
pub use saved::{Blobs, use_saved_form};
pub use secrets::make_secrets;
pub use send::{Runs, send};
pub use share::{draw_plan, offer_ways, print_copy, show_link, show_move};
pub use sheet::use_sheet;
pub use tell_page::{report, tell_failed, tell_result, tell_sent, tell_step, today};

use std::rc::Rc;

/// A shared value that compares equal only to itself (pointer equality). Hooks depend on it, so that no large value is compared field by
/// field.
pub struct ByAddress<T>(pub Rc<T>);

impl<T> Clone for ByAddress<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> PartialEq for ByAddress<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}
