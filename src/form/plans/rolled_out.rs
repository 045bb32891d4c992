//! The drawing of the route: its stretches to scale one after the other, what each runs along, and a tape measure under it.

use super::way::{Bit, SHEET, Way};
use super::{Speech, label, path, sheet};
use record::markup::Tag;
use wording::plans as words;

/// Draws a route of these stretches; the one at the index `now` is tinted. `said` names the stretches in words, for the description, and
/// `total` is the route's length as it is written at the end of the tape.
#[must_use]
pub fn rolled_out(bits: &[Bit], now: usize, said: &str, total: String, speech: &Speech) -> Tag {
    let way = Way::of(bits);
    let text = speech.fill(words::WAY_TEXT, &[("stretches", said)]);
    let tint = way.drawn.get(now).map(|drawn| path("tint", &drawn.area));
    let numbered = (1..).zip(&way.drawn).flat_map(|(nth, drawn)| {
        let class = if drawn.buried { "line run buried" } else { "line run" };
        let number = drawn.number.map(|x| label((x, 129), "middle", i32::to_string(&nth)));
        [Some(path(class, &drawn.line)), number].into_iter().flatten()
    });
    sheet("plan way", SHEET, speech.say(words::WAY_TITLE), text)
        .all(tint)
        .all(way.drawn.iter().map(|drawn| path("line faint", &drawn.marks)))
        .with(path("line", &way.walls))
        .all(numbered)
        .with(path("line run", &way.end))
        .with(path("line lit", "M12 56h16v20h-16z M298 56h10v20h-10z"))
        .with(path("line", &way.tape))
        .with(label((4, 11), "start", speech.say(words::WAY_BOARD)))
        .with(label((316, 11), "end", speech.say(words::WAY_POINT)))
        .with(label((28, 166), "middle", speech.number(0)))
        .with(label((292, 166), "end", total))
}
