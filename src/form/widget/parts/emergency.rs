//! The emergency advice: shown at once, before anything else is asked.

use super::View;
use crate::widget::el::{El, button, el, sign};
use crate::widget::emergency::{Advice, Ring, advice};
use crate::widget::state::Action;
use crate::widget::step::Step;
use wording::form as words;
use yew::AttrValue;

/// All advice for the answers, with the numbers to ring; `None` where there is none to give.
pub fn emergency(view: &View) -> Option<El> {
    let speech = view.speech;
    let all = advice(&view.form.answers);
    if all.is_empty() {
        return None;
    }
    let title = el("h3")
        .set("tabindex", "-1")
        .with(sign("sign", "0 0 24 24", "M12 3L22 21H2z M12 10v5 M12 17.5v1"))
        .text(speech.say(words::EMERGENCY_TITLE));
    let lines = all.into_iter().map(|advice| told(view, advice));
    let block = el("div").class("emergency").set("role", "alert").with(title).with(el("div").all(lines.collect()));
    let still = (view.form.step != Step::Sent).then(|| el("p").text(speech.say(words::EMERGENCY_THEN)));
    Some(block.perhaps(still))
}

/// One piece of advice, with the numbers to ring.
pub fn told(view: &View, Advice { text, ring, or }: Advice) -> El {
    // A number that several pieces of advice share is shown once.
    let rings = match ring {
        Ring::Number(number, _) => number,
        Ring::Installer => "installer",
    };
    el("div")
        .class("advice")
        .key(text.0)
        .set("data-ring", rings)
        .with(el("p").text(view.speech.say(text)))
        .perhaps(link(view, "ring", ring))
        .perhaps(or.and_then(|or| link(view, "ring or", or)))
}

/// A link that rings a number; `None` for an installer who gave none.
fn link(view: &View, class: &'static str, ring: Ring) -> Option<El> {
    let speech = view.speech;
    let (number, text): (AttrValue, AttrValue) = match ring {
        Ring::Number(number, text) => (number.into(), speech.say(text)),
        Ring::Installer if speech.telephone.is_empty() => return None,
        Ring::Installer => (speech.telephone.replace(' ', "").into(), speech.say(words::RING_INSTALLER)),
    };
    Some(el("a").class(class).attr("href", ["tel:", &number].concat().into()).text(text))
}

/// The ways on from the emergency advice: back to the list of signs, or to sending. They are less prominent than the number to ring.
pub fn after_danger(view: &View) -> Option<El> {
    view.form.answers.hazard.is_noticed().then(|| {
        let speech = view.speech;
        let else_ = button("quiet else", speech.say(words::SOMETHING_ELSE), view.on_press(|| Action::SignsListed));
        let send = el("button").set("type", "submit").class("quiet tell").text(speech.say(words::SEND));
        el("div").class("after").with(else_).with(send)
    })
}
