//! Markup as a tree, taken from what a view made and written as HTML.

use crate::widget::el::El;
use std::fmt::Write as _;
use yew::Html;

/// Tags that hold nothing.
const EMPTY: [&str; 2] = ["img", "input"];

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
    /// What a view made.
    #[must_use]
    pub fn of(made: El) -> Self {
        let mut nodes = Vec::new();
        put(&made.html(), &mut nodes);
        match nodes.pop() {
            Some(Node::Tag(tag)) if nodes.is_empty() => tag,
            _ => unreachable!("an `El` is one element"),
        }
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

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
}

fn put(made: &Html, nodes: &mut Vec<Node>) {
    match made {
        Html::VText(text) => nodes.push(Node::Text(text.text.to_string())),
        Html::VList(list) => list.iter().for_each(|child| put(child, nodes)),
        Html::VTag(tag) => {
            let mut attributes: Vec<(String, String)> =
                tag.attributes.iter().map(|(name, value)| (name.to_owned(), value.to_owned())).collect();
            attributes.extend(tag.value().map(|value| ("value".to_owned(), value.to_string())));
            let mut children = Vec::new();
            tag.children().into_iter().for_each(|inner| put(inner, &mut children));
            let key = tag.key.as_ref().map(ToString::to_string);
            nodes.push(Node::Tag(Tag { name: tag.tag().to_owned(), key, attributes, children }));
        }
        _ => unreachable!("the form's views make elements and texts"),
    }
}
