//! The views: each draws what it is given, and has no rule and no sentence of its own.
//!
//! They are plain functions under one Yew component: each further component type would add some three kilobytes to the download.

mod choices;
mod contact;
mod emergency;
mod link;
mod notice;
mod photos;
mod plan;
mod question;
mod result;
mod screen;
mod sent;

pub use contact::contact_page;
#[cfg(feature = "prerender")]
pub use emergency::told;
pub use link::link_page;
#[cfg(feature = "prerender")]
pub use notice::notice;
#[cfg(feature = "prerender")]
pub use question::question_view;
pub use result::{class, likely, range, result_page, with};
pub use screen::screen_page;
pub use sent::sent_page;

use super::drawings::Sheet;
use super::speech::Speech;
use super::state::{Action, Form};
use model::config::FormPart;
use std::rc::Rc;
use yew::Callback;

/// Everything that a page is drawn from.
pub struct View<'a> {
    /// The form.
    pub form: &'a Rc<Form>,
    /// The installer's config, once it is there.
    pub config: Option<&'a FormPart>,
    /// The wording.
    pub speech: &'a Speech,
    /// The sketches.
    pub sheet: &'a Sheet,
    /// Takes the actions of the homeowner.
    pub done: &'a Callback<Action>,
}

impl View<'_> {
    /// A callback that sends an action when something is pressed.
    pub fn on_press(&self, action: impl Fn() -> Action + 'static) -> Callback<web_sys::Event> {
        let done = self.done.clone();
        Callback::from(move |_| done.emit(action()))
    }
}

#[cfg(all(test, feature = "prerender"))]
mod looking_tests;
#[cfg(all(test, feature = "prerender"))]
mod tests;
