//! Markup as a tree: written as HTML, or put into a page by whoever gets it.

use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt::Write as _;

/// Tags that hold nothing.
const EMPTY: [&str; 3] = ["img", "input", "meta"];

/// One element.
#[derive(Clone, Debug, PartialEq)]
pub struct Tag {
    /// Its name.
    pub name: String,
    /// What tells it from its neighbours, where the view says so.
    pub key: Option<String>,
    /// Its attributes, in order.
    pub attributes: Vec<(String, String)>,
    /// What it holds.
    pub children: Vec<Node>,
}

/// An element or a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Node {
    /// An element.
    Tag(Tag),
    /// A text.
    Text(String),
}

impl Tag {
    /// An element that holds nothing yet.
    #[must_use]
    pub fn new(name: &str) -> Self {
        Self { name: name.to_owned(), key: None, attributes: Vec::new(), children: Vec::new() }
    }

    /// With an attribute.
    #[must_use]
    pub fn attr(mut self, name: &str, value: &str) -> Self {
        self.set(name, value);
        self
    }

    /// With an attribute, where there is a value.
    #[must_use]
    pub fn maybe(self, name: &str, value: Option<&str>) -> Self {
        match value {
            Some(value) => self.attr(name, value),
            None => self,
        }
    }

    /// With a text in it.
    #[must_use]
    pub fn text(mut self, text: impl Into<String>) -> Self {
        self.children.push(Node::Text(text.into()));
        self
    }

    /// With an element in it.
    #[must_use]
    pub fn with(mut self, child: Self) -> Self {
        self.children.push(Node::Tag(child));
        self
    }

    /// With several in it.
    #[must_use]
    pub fn all(mut self, children: impl IntoIterator<Item = Self>) -> Self {
        self.children.extend(children.into_iter().map(Node::Tag));
        self
    }

    /// An attribute's value.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(other, _)| other == name).map(|(_, value)| value.as_str())
    }

    /// Whether an attribute has this value.
    #[must_use]
    pub fn is(&self, name: &str, value: &str) -> bool {
        self.get(name) == Some(value)
    }

    /// Sets an attribute.
    pub fn set(&mut self, name: &str, value: &str) {
        self.attributes.retain(|(other, _)| other != name);
        self.attributes.push((name.to_owned(), value.to_owned()));
    }

    /// Does this with it and with each element in it.
    pub fn each(&mut self, does: &mut impl FnMut(&mut Self)) {
        does(self);
        for child in &mut self.children {
            if let Node::Tag(tag) = child {
                tag.each(does);
            }
        }
    }

    /// As HTML.
    #[must_use]
    pub fn html(&self) -> String {
        let mut out = String::new();
        self.write(&mut out);
        out
    }

    fn write(&self, out: &mut String) {
        out.extend(["<", &self.name]);
        for (name, value) in &self.attributes {
            if value.is_empty() {
                out.extend([" ", name]);
            } else {
                write!(out, " {name}=\"{}\"", escaped(value)).expect("a String takes all");
            }
        }
        out.push('>');
        if EMPTY.contains(&self.name.as_str()) {
            return;
        }
        for child in &self.children {
            match child {
                Node::Tag(tag) => tag.write(out),
                Node::Text(text) => out.push_str(&escaped(text)),
            }
        }
        out.extend(["</", &self.name, ">"]);
    }
}

/// A text as HTML has it, between tags or in an attribute's quotes. Nothing else in the program escapes: what is text goes through a
/// [`Node::Text`], Yew's own rendering, or a script's `textContent`.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
