//! The plans: the way of the cable, stretch by stretch, and which lead reaches the car.
//!
//! A program of its own beside the form's, fetched when one of them is wanted. It makes no element: it says by a tree of
//! [`Tag`](record::markup::Tag)s what there is to be, and `www/form/draw.js` puts that into the page, hears its fields and hands on
//! what was done. So no second view framework travels, and the form holds a place and a text.

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

/// A path of whole numbers: each after its command.
fn strokes(parts: &[(&str, i64)]) -> String {
    let mut path = String::new();
    for (command, number) in parts {
        path.push_str(command);
        path.push_str(&number.to_string());
    }
    path
}

/// Metres to a tenth.
fn tenths(length: Metres) -> Metres {
    Metres::new(libm::round(length.get() * 10.0) / 10.0).unwrap_or(length)
}

/// An element of a class.
fn of_class(name: &str, class: &str) -> Tag {
    Tag::new(name).attr("class", class)
}

/// A sheet with its title, and the same in words.
fn sheet(class: &str, view: &str, title: String, text: String) -> Tag {
    let svg = of_class("svg", class).attr("viewBox", view).attr("role", "img").attr("focusable", "false");
    svg.with(Tag::new("title").text(title)).with(Tag::new("desc").text(text))
}

/// A line on a sheet.
fn path(class: &str, line: &str) -> Tag {
    of_class("path", class).attr("d", line)
}

/// A word on a sheet, held at its `start`, `middle` or `end`.
fn label((x, y): (i64, i64), held: &str, text: String) -> Tag {
    let at = of_class("text", "small").attr("x", &x.to_string()).attr("y", &y.to_string());
    at.attr("text-anchor", held).text(text)
}

/// A button that does something of the plan's own.
fn button(does: &str, text: String) -> Tag {
    of_class("button", "quiet").attr("type", "button").attr("data-does", does).text(text)
}

/// A list of these lines.
fn list(lines: impl IntoIterator<Item = String>) -> Tag {
    Tag::new("ul").all(lines.into_iter().map(|line| Tag::new("li").text(line)))
}
