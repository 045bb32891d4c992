//! Converts the nodes of a Yew view into a tree of markup.

use crate::widget::el::El;
use record::markup::{Node, Tag};
use yew::Html;

/// A view as markup.
#[must_use]
pub fn made(view: El) -> Tag {
    let mut nodes = Vec::new();
    put(&view.html(), &mut nodes);
    match nodes.pop() {
        Some(Node::Tag(tag)) if nodes.is_empty() => tag,
        _ => unreachable!("an `El` is one element"),
    }
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
