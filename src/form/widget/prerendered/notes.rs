//! Notices that only the page's script shows: that there is a draft on the device, that the form's program is being loaded, that it can't
//! be loaded.

use super::markup::made;
use crate::widget::el::{El, button, el, folded, paragraph};
use record::markup::{Node, Tag};
use wording::{Key, Words, start as words};
use yew::{AttrValue, Callback};

/// Draws the notices in one language.
pub struct Notes(Words<'static>);

impl Notes {
    /// With this wording.
    pub const fn new(words: Words<'static>) -> Self {
        Self(words)
    }

    fn say(&self, key: Key) -> AttrValue {
        AttrValue::Static(self.0.say(key))
    }

    /// A button that the script finds by its `data-does`.
    fn does(&self, class: &'static str, what: &'static str, text: Key) -> El {
        button(class, self.say(text), Callback::noop()).set("data-does", what)
    }

    /// What an installer is called whose name is not known.
    pub fn unnamed(&self) -> String {
        self.say(words::UNNAMED).to_string()
    }

    /// The notices beside a main button while the program is not loaded: one for waiting, one for a failure.
    pub fn waits(&self) -> Vec<Node> {
        let waiting = paragraph("waiting", self.say(words::WAITING)).set("role", "status").set("hidden", "");
        let absent = el("div")
            .class("notice absent")
            .set("role", "alert")
            .set("hidden", "")
            .with(el("p").text(self.say(words::ABSENT)))
            .with(self.does("quiet", "try", words::ABSENT_TRY));
        [waiting, absent].map(|view| Node::Tag(made(view))).into()
    }

    /// The panel shown first where the device has a draft.
    pub fn begun(&self) -> Tag {
        let actions = el("div").class("actions").with(self.does("main", "on", words::BEGUN_GO_ON));
        let again = folded("again", self.say(words::BEGUN_AGAIN)).with(self.does("quiet", "again", words::BEGUN_CLEAR));
        let head = el("header").class("head").with(el("h2").set("tabindex", "-1").text(self.say(words::BEGUN_TITLE)));
        let page = el("div").class("page").with(el("p").text(self.say(words::BEGUN_TEXT))).with(again).with(actions);
        let mut panel = made(el("div").class("form begun").with(head).with(page));
        panel.each(&mut |tag| {
            if tag.is("class", "actions") {
                tag.children.extend(self.waits());
            }
        });
        panel
    }
}
