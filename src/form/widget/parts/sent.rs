//! The page after sending: the reference in large letters, to be read out on the telephone, and a way to add photos.

use super::View;
use super::emergency::emergency;
use crate::widget::el::{El, button, el, list, paragraph, section};
use crate::widget::state::Action;
use crate::widget::step::Step;
use wording::form as words;

/// The reference, and what happens next.
#[must_use]
pub fn sent_page(view: &View) -> El {
    let View { form, speech, .. } = view;
    let mut page = el("div").class("page sent").key("sent").perhaps(emergency(view));
    if let Some(reference) = form.reference.as_ref().filter(|reference| !reference.is_empty()) {
        page = page
            .with(el("p").text(speech.say(words::SENT_REFERENCE)))
            .with(paragraph("reference", reference.clone().into()));
    }
    let next = section("next", speech.say(words::NEXT_TITLE))
        .with(list("ol", vec![speech.say(words::NEXT_2), speech.say(words::NEXT_3)]));
    page = page.with(el("p").text(speech.say(words::SENT_TEXT))).with(next);
    if form.adds_to().is_some() {
        // The link itself is drawn by a script that is loaded on demand.
        let add = button("quiet", speech.say(words::ADD_PHOTO), view.on_press(|| Action::WentTo(Step::Link)));
        let more = section("adding", speech.say(words::ADD_LATER_TITLE)).with(add);
        page = page.with(if form.link.is_some() {
            more
        } else {
            more.with(paragraph("hint", speech.say(words::ADD_LATER_TEXT))).with(el("div").class("link"))
        });
    }
    if form.link.is_some() {
        return page;
    }
    let again = view.on_press(|| Action::StartedAgain);
    page.with(el("div").class("actions").with(button("quiet", speech.say(words::START_AGAIN), again)))
}
