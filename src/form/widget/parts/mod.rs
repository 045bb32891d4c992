//! The views: each shows what it is given and owns no rule and no text.
//!
//! Plain functions under one component: every further component type costs a stranger on a phone some three kilobytes.

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
pub use result::result_page;
pub use screen::screen_page;
pub use sent::sent_page;

use super::drawings::Sheet;
use super::speech::Speech;
use super::state::{Action, Form};
use model::config::FormPart;
use std::rc::Rc;
use yew::Callback;

/// What every page is shown from.
pub struct View<'a> {
    /// The form.
    pub form: &'a Rc<Form>,
    /// The installer's config, once it is there.
    pub config: Option<&'a FormPart>,
    /// The wording.
    pub speech: &'a Speech,
    /// The drawings.
    pub sheet: &'a Sheet,
    /// What was done.
    pub done: &'a Callback<Action>,
}

impl View<'_> {
    /// Does this when pressed.
    pub fn on_press(&self, action: impl Fn() -> Action + 'static) -> Callback<web_sys::Event> {
        let done = self.done.clone();
        Callback::from(move |_| done.emit(action()))
    }
}

#[cfg(all(test, feature = "prerender"))]
mod looking_tests;
#[cfg(all(test, feature = "prerender"))]
mod tests;
