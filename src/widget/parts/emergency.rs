//! The emergency advice: shown at once, before anything else is asked.

use super::View;
use crate::widget::el::{El, el, sign};
use crate::widget::emergency::advice;
use crate::widget::step::Step;
use crate::wording::form as words;

/// What to do first, and whom to ring; nothing where nothing was noticed.
pub fn emergency(view: &View) -> Option<El> {
    let speech = view.speech;
    let all = advice(&view.form.answers);
    if all.is_empty() {
        return None;
    }
    let title = el("h3")
        .with(sign("sign", "0 0 24 24", "M12 3L22 21H2z M12 10v5 M12 17.5v1"))
        .text(speech.say(words::EMERGENCY_TITLE));
    let lines = all.into_iter().map(|advice| {
        let ring = advice.ring.map(|(number, text)| {
            el("a").class("ring").attr("href", ["tel:", number].concat().into()).text(speech.say(text))
        });
        el("p").key(advice.text.0).text(speech.say(advice.text)).perhaps(ring)
    });
    let block = el("div").class("emergency").set("role", "alert").with(title).with(el("div").all(lines.collect()));
    let still = (view.form.step != Step::Sent).then(|| el("p").text(speech.say(words::EMERGENCY_THEN)));
    Some(block.perhaps(still))
}
