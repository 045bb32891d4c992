//! Markup as a tree of elements and texts. It is written as HTML here ([`Tag::html`]), or made into elements of a page by the script that
//! receives the tree.

use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt::Write as _;

/// The elements used here that HTML closes by themselves (void elements).
const EMPTY: [&str; 3] = ["img", "input", "meta"];

/// One element.
#[derive(Clone, Debug, PartialEq)]
pub struct Tag {
    /// Its tag name.
    pub name: String,
    /// The key that tells it from its siblings, where the view gave one.
    pub key: Option<String>,
    /// Its attributes, in order.
    pub attributes: Vec<(String, String)>,
    /// The elements and texts in it, in order.
    pub children: Vec<Node>,
}

/// An element or a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Node {
    /// An element.
    Tag(Tag),
    /// A text, not escaped.
    Text(String),
}

impl Tag {
    /// An empty element of this tag name.
    #[must_use]
    pub fn new(name: &str) -> Self {
        Self { name: name.to_owned(), key: None, attributes: Vec::new(), children: Vec::new() }
    }

    /// The element with an attribute set; an earlier value of the same attribute is replaced.
    #[must_use]
    pub fn attr(mut self, name: &str, value: &str) -> Self {
        self.set(name, value);
        self
    }

    /// The element with an attribute set, or unchanged where the value is `None`.
    #[must_use]
    pub fn maybe(self, name: &str, value: Option<&str>) -> Self {
        match value {
            Some(value) => self.attr(name, value),
            None => self,
        }
    }

    /// The element with a text added at its end.
    #[must_use]
    pub fn text(mut self, text: impl Into<String>) -> Self {
        self.children.push(Node::Text(text.into()));
        self
    }

    /// The element with a child added at its end.
    #[must_use]
    pub fn with(mut self, child: Self) -> Self {
        self.children.push(Node::Tag(child));
        self
    }

    /// The element with several children added at its end.
    #[must_use]
    pub fn all(mut self, children: impl IntoIterator<Item = Self>) -> Self {
        self.children.extend(children.into_iter().map(Node::Tag));
        self
    }

    /// The value of an attribute; `None` where the element does not have it.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(other, _)| other == name).map(|(_, value)| value.as_str())
    }

    /// Whether an attribute has this value.
    #[must_use]
    pub fn is(&self, name: &str, value: &str) -> bool {
        self.get(name) == Some(value)
    }

    /// Sets an attribute; an earlier value is replaced.
    pub fn set(&mut self, name: &str, value: &str) {
        self.attributes.retain(|(other, _)| other != name);
        self.attributes.push((name.to_owned(), value.to_owned()));
    }

    /// Calls `does` with this element, then with every element below it, parents before their children.
    pub fn each(&mut self, does: &mut impl FnMut(&mut Self)) {
        does(self);
        for child in &mut self.children {
            if let Node::Tag(tag) = child {
                tag.each(does);
            }
        }
    }

    /// The element and everything in it as HTML; an attribute with an empty value is written as its name alone.
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
                write!(out, " {name}=\"{}\"", escaped(value)).expect("a String never refuses");
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

/// Escapes a text for HTML, whether it stands between tags or in an attribute's quotes. The only escaping in the program: every other text
/// reaches a page through a [`Node::Text`], Yew's own rendering, or a script's `textContent`.
#[must_use]
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
