//! After sending: the reference, large enough to read out.

use super::View;
use super::emergency::emergency;
use crate::widget::el::{El, button, el, list, paragraph, section};
use crate::widget::state::{Action, Sending};
use crate::wording::form as words;

/// The reference, and what happens next.
#[must_use]
pub fn sent_page(view: &View) -> El {
    let View { form, speech, .. } = view;
    let again = view.on_press(|| Action::StartedAgain);
    let mut page = el("div").class("page sent").key("sent").perhaps(emergency(view));
    if let Sending::Done(reference) = &form.sending {
        page = page
            .with(el("p").text(speech.say(words::SENT_REFERENCE)))
            .with(paragraph("reference", reference.clone().into()));
    }
    let next = section("next", speech.say(words::NEXT_TITLE))
        .with(list("ol", vec![speech.say(words::NEXT_2), speech.say(words::NEXT_3)]));
    page.with(el("p").text(speech.say(words::SENT_TEXT))).with(next).with(el("div").class("actions").with(button(
        "quiet",
        speech.say(words::START_AGAIN),
        again,
    )))
}
