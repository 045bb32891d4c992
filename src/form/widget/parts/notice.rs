//! The privacy notice: who receives the enquiry and for what, who else sees it, how long it is kept, and what the homeowner may ask for.
//!
//! An enquiry is a step before a contract that the person asks for, so no consent is needed here. Source: UK GDPR,
//! articles 6(1)(b) and 13, from memory.

use crate::widget::el::{El, el, paragraph, section};
use crate::widget::speech::Speech;
use wording::form as words;
use yew::AttrValue;

/// The notice for an enquiry that `who` is responsible for. The number of days that it is kept, and the address of the installer's own
/// notice, are named where they are known.
#[must_use]
pub fn notice(speech: &Speech, who: &str, days: Option<u16>, privacy: Option<AttrValue>) -> El {
    let say = |key| speech.fill(key, &[("who", who)]);
    let kept = match days {
        Some(days) => speech.fill(words::NOTICE_DAYS, &[("days", &days.to_string())]),
        None => say(words::NOTICE_DAYS_OPEN),
    };
    let link = |to: AttrValue| {
        let link = el("a").attr("href", to).set("target", "_blank").set("rel", "noopener");
        el("p").with(link.text(say(words::NOTICE_LINK)))
    };
    section("privacy", speech.say(words::NOTICE_TITLE))
        .with(paragraph("who", say(words::NOTICE_WHO)))
        .with(paragraph("who", say(words::NOTICE_ELSE)))
        .with(paragraph("kept", kept))
        .with(el("p").text(say(words::NOTICE_RIGHTS)))
        .perhaps(privacy.map(link))
}
