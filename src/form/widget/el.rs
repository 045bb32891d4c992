//! A builder for the elements of a view.
//!
//! Yew's own `html!` macro generates some 350 bytes of program for each element, this builder 60; views are most of the program that a
//! phone has to download.

use std::rc::Rc;
use web_sys::Event;
use yew::virtual_dom::{Listener, ListenerKind, VList, VNode, VTag, VText};
use yew::{AttrValue, Callback, Html};

/// An element that is being built.
///
/// It is boxed so that a chain of calls passes on one pointer, not the whole element.
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

    /// Sets an attribute to a constant value.
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

    /// Sets a boolean attribute, or leaves it out.
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

    /// Sets the key that tells it from its siblings.
    #[must_use]
    #[inline(never)]
    pub fn key(mut self, key: &str) -> Self {
        self.0.key = Some(key.into());
        self
    }

    /// Sets the value of a field.
    #[must_use]
    #[inline(never)]
    pub fn value(mut self, value: AttrValue) -> Self {
        self.0.set_value(value);
        self
    }

    /// Sets whether it is ticked.
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

    /// Adds a finished node.
    #[must_use]
    #[inline(never)]
    pub fn put(mut self, child: Html) -> Self {
        self.0.add_child(child);
        self
    }

    /// Adds an element, or an empty node in its place.
    ///
    /// The empty node keeps the positions of the siblings after it: Yew matches siblings without keys by position, and a mismatched one
    /// would be created anew and lose its focus and caret.
    #[must_use]
    #[inline(never)]
    pub fn perhaps(self, child: Option<El>) -> Self {
        self.put(child.map(El::html).unwrap_or_default())
    }

    /// Adds several elements as one list.
    #[must_use]
    #[inline(never)]
    pub fn all(self, children: Vec<El>) -> Self {
        self.put(VList::with_children(children.into_iter().map(El::html).collect(), None).into())
    }

    /// Calls `does` at each event of a kind.
    #[must_use]
    #[inline(never)]
    pub fn on(mut self, kind: ListenerKind, does: Callback<Event>) -> Self {
        self.0.add_listener(Rc::new(Hears { kind, does }));
        self
    }

    /// Calls `does` when it is clicked.
    #[must_use]
    pub fn press(self, does: Callback<Event>) -> Self {
        self.on(ListenerKind::onclick, does)
    }

    /// The finished node.
    #[inline(never)]
    pub fn html(self) -> Html {
        VNode::from(*self.0)
    }
}

/// A listener for one kind of event.
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

/// An error message, which a screen reader announces at once.
#[must_use]
#[inline(never)]
pub fn trouble(text: AttrValue) -> El {
    paragraph("trouble", text).set("role", "alert")
}

/// A button other than the main one, which leads on.
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

/// A section that is folded under its summary.
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

/// An SVG drawing with its view box, its title and its description.
#[must_use]
#[inline(never)]
pub fn drawing(class: &'static str, sheet: &'static str, title: AttrValue, text: AttrValue) -> El {
    let svg = el("svg").class(class).set("viewBox", sheet).set("role", "img").set("focusable", "false");
    svg.with(el("title").text(title)).with(el("desc").text(text))
}

/// A small icon beside words, hidden from screen readers.
#[must_use]
#[inline(never)]
pub fn sign(class: &'static str, sheet: &'static str, line: &'static str) -> El {
    let svg = el("svg").class(class).set("viewBox", sheet).set("aria-hidden", "true").set("focusable", "false");
    svg.with(path("line", AttrValue::Static(line)))
}
