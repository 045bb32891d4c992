//! The plans: the builder of a cable's route, stretch by stretch, and the drawing of which lead reaches the car.
//!
//! They are a program of their own beside the form's, loaded on demand. It makes no elements: it returns a tree of
//! [`Tag`]s, from which `www/form/draw.js` builds the page's elements; that script also passes on what the homeowner
//! does in them. So the plans need no view framework, and the form only provides an empty element and the text field that keeps the rows.

mod drive;
mod from_above;
mod reach;
mod rolled_out;
mod route;
mod speech;
mod stretches;
mod way;

pub use reach::{Reach, Told};
pub use route::Route;
pub use speech::{Speech, written};

use model::units::Metres;
use record::markup::Tag;

/// An SVG path: each command followed by its whole number.
fn strokes(parts: &[(&str, i64)]) -> String {
    let mut path = String::new();
    for (command, number) in parts {
        path.push_str(command);
        path.push_str(&number.to_string());
    }
    path
}

/// A length rounded to a tenth of a metre.
fn tenths(length: Metres) -> Metres {
    Metres::new(libm::round(length.get() * 10.0) / 10.0).unwrap_or(length)
}

/// An element of a class.
fn of_class(name: &str, class: &str) -> Tag {
    Tag::new(name).attr("class", class)
}

/// An SVG drawing of this view box, with its title and its description in words.
fn sheet(class: &str, view: &str, title: String, text: String) -> Tag {
    let svg = of_class("svg", class).attr("viewBox", view).attr("role", "img").attr("focusable", "false");
    svg.with(Tag::new("title").text(title)).with(Tag::new("desc").text(text))
}

/// A path in a drawing.
fn path(class: &str, line: &str) -> Tag {
    of_class("path", class).attr("d", line)
}

/// A label in a drawing, anchored at its `start`, `middle` or `end`.
fn label((x, y): (i64, i64), held: &str, text: String) -> Tag {
    let at = of_class("text", "small").attr("x", &x.to_string()).attr("y", &y.to_string());
    at.attr("text-anchor", held).text(text)
}

/// A button of the plan; `does` names the action that `draw.js` passes back when it is pressed.
fn button(does: &str, text: String) -> Tag {
    of_class("button", "quiet").attr("type", "button").attr("data-does", does).text(text)
}

/// A list of these lines.
fn list(lines: impl IntoIterator<Item = String>) -> Tag {
    Tag::new("ul").all(lines.into_iter().map(|line| Tag::new("li").text(line)))
}
