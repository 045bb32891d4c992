//! One element of a view, made by plain calls.
//!
//! The drawing library's own macro writes some 350 bytes of program for each element, this 60: views are most of
//! what a stranger on a phone is sent.

use std::rc::Rc;
use web_sys::Event;
use yew::virtual_dom::{Listener, ListenerKind, VList, VNode, VTag, VText};
use yew::{AttrValue, Callback, Html};

/// One element, as far as it has been made.
///
/// Boxed: a chain of calls then hands on one word, not the whole element.
pub struct El(Box<VTag>);

/// Begins an element.
#[must_use]
#[inline(never)]
pub fn el(tag: &'static str) -> El {
    El(Box::new(VTag::new(tag)))
}

impl El {
    /// Sets an attribute.
    #[must_use]
    #[inline(never)]
    pub fn attr(mut self, name: &'static str, value: AttrValue) -> Self {
        self.0.add_attribute(name, value);
        self
    }

    /// Sets an attribute to a word of the source.
    #[must_use]
    #[inline(never)]
    pub fn set(self, name: &'static str, value: &'static str) -> Self {
        self.attr(name, AttrValue::Static(value))
    }

    /// Sets an attribute, where there is a value.
    #[must_use]
    #[inline(never)]
    pub fn maybe(self, name: &'static str, value: Option<AttrValue>) -> Self {
        match value {
            Some(value) => self.attr(name, value),
            None => self,
        }
    }

    /// Sets an attribute that is there or is not.
    #[must_use]
    #[inline(never)]
    pub fn flag(self, name: &'static str, there: bool) -> Self {
        if there { self.set(name, name) } else { self }
    }

    /// Sets its classes.
    #[must_use]
    #[inline(never)]
    pub fn class(self, names: &'static str) -> Self {
        self.set("class", names)
    }

    /// Names it among its neighbours.
    #[must_use]
    #[inline(never)]
    pub fn key(mut self, key: &str) -> Self {
        self.0.key = Some(key.into());
        self
    }

    /// What stands in a field.
    #[must_use]
    #[inline(never)]
    pub fn value(mut self, value: AttrValue) -> Self {
        self.0.set_value(value);
        self
    }

    /// Whether it is ticked.
    #[must_use]
    #[inline(never)]
    pub fn checked(mut self, checked: bool) -> Self {
        self.0.set_checked(checked);
        self
    }

    /// Adds text.
    #[must_use]
    #[inline(never)]
    pub fn text(self, text: AttrValue) -> Self {
        self.put(VNode::from(VText::new(text)))
    }

    /// Adds an element.
    #[must_use]
    #[inline(never)]
    pub fn with(self, child: El) -> Self {
        self.put(child.html())
    }

    /// Adds what was made already.
    #[must_use]
    #[inline(never)]
    pub fn put(mut self, child: Html) -> Self {
        self.0.add_child(child);
        self
    }

    /// Adds an element, where there is one.
    ///
    /// Where there is none its place is kept: neighbours are told apart by their places, and one that was taken for
    /// another would be made anew, with the focus and the caret lost.
    #[must_use]
    #[inline(never)]
    pub fn perhaps(self, child: Option<El>) -> Self {
        self.put(child.map(El::html).unwrap_or_default())
    }

    /// Adds several, in one place.
    #[must_use]
    #[inline(never)]
    pub fn all(self, children: Vec<El>) -> Self {
        self.put(VList::with_children(children.into_iter().map(El::html).collect(), None).into())
    }

    /// What happens at an event.
    #[must_use]
    #[inline(never)]
    pub fn on(mut self, kind: ListenerKind, does: Callback<Event>) -> Self {
        self.0.add_listener(Rc::new(Hears { kind, does }));
        self
    }

    /// What happens when it is pressed.
    #[must_use]
    pub fn press(self, does: Callback<Event>) -> Self {
        self.on(ListenerKind::onclick, does)
    }

    /// Finished.
    #[inline(never)]
    pub fn html(self) -> Html {
        VNode::from(*self.0)
    }
}

/// Hears one kind of event.
struct Hears {
    kind: ListenerKind,
    does: Callback<Event>,
}

impl Listener for Hears {
    fn kind(&self) -> ListenerKind {
        self.kind.clone()
    }

    fn handle(&self, event: Event) {
        self.does.emit(event);
    }

    fn passive(&self) -> bool {
        false
    }
}

/// A paragraph of a class.
#[must_use]
#[inline(never)]
pub fn paragraph(class: &'static str, text: AttrValue) -> El {
    el("p").class(class).text(text)
}

/// What is said aloud at once because something is missing or went wrong.
#[must_use]
#[inline(never)]
pub fn trouble(text: AttrValue) -> El {
    paragraph("trouble", text).set("role", "alert")
}

/// A button that does something other than going on.
#[must_use]
#[inline(never)]
pub fn button(class: &'static str, text: AttrValue, does: Callback<Event>) -> El {
    el("button").set("type", "button").class(class).text(text).press(does)
}

/// A section under its title.
#[must_use]
#[inline(never)]
pub fn section(class: &'static str, title: AttrValue) -> El {
    el("section").class(class).with(el("h3").text(title))
}

/// Something folded away under its summary.
#[must_use]
#[inline(never)]
pub fn folded(class: &'static str, summary: AttrValue) -> El {
    el("details").class(class).with(el("summary").text(summary))
}

/// A list of these lines.
#[must_use]
#[inline(never)]
pub fn list(tag: &'static str, lines: Vec<AttrValue>) -> El {
    el(tag).all(lines.into_iter().map(|line| el("li").text(line)).collect())
}

/// An outline in a drawing.
#[must_use]
#[inline(never)]
pub fn path(class: &'static str, line: AttrValue) -> El {
    el("path").class(class).attr("d", line)
}

/// A drawing: its sheet, its title and its description.
#[must_use]
#[inline(never)]
pub fn drawing(class: &'static str, sheet: &'static str, title: AttrValue, text: AttrValue) -> El {
    let svg = el("svg").class(class).set("viewBox", sheet).set("role", "img").set("focusable", "false");
    svg.with(el("title").text(title)).with(el("desc").text(text))
}

/// A small sign beside words, silent to a screen reader.
#[must_use]
#[inline(never)]
pub fn sign(class: &'static str, sheet: &'static str, line: &'static str) -> El {
    let svg = el("svg").class(class).set("viewBox", sheet).set("aria-hidden", "true").set("focusable", "false");
    svg.with(path("line", AttrValue::Static(line)))
}
