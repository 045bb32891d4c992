//! The service head: its fuse carriers, the cables from the street, and the conductors that leave it.

use super::{outline, rectangle, tinted};
use crate::widget::el::{El, path};

/// The head with so many fuse carriers side by side, a seal at each.
pub fn carriers(count: usize) -> Vec<El> {
    let width = 20 * count + 16;
    let left = 60 - width / 2;
    let mut lines = vec![path("cable", "M60 84V66".into()), outline(rectangle(left, 18, width, 48))];
    for at in 0..count {
        let x = left + 10 + 20 * at;
        lines.push(tinted(rectangle(x, 28, 16, 28)));
        lines.push(outline(["M", &(x + 4).to_string(), " 42h8"].concat()));
        lines.push(outline(["M", &(x + 8).to_string(), " 56v4m-2 0h4v4h-4z"].concat()));
    }
    lines
}

/// The head with so many thick cables coming up out of the ground.
pub fn street(count: usize) -> Vec<El> {
    let first = 60 - 14 * (count - 1);
    let cable = |at: usize| path("cable lit", ["M", &(first + 28 * at).to_string(), " 84V40"].concat().into());
    let mut lines: Vec<El> = (0..count).map(cable).collect();
    lines.push(outline(
        "M24 10h72v30h-72z M54 17h12v16h-12z M6 70h12m8 0h14m40 0h14m8 0h12 M8 74l4-4m18 4l4-4m50 4l4-4m18 4l4-4",
    ));
    lines
}

/// The head below and the meter above: the conductors that leave the head, and the meter's own that don't count.
pub fn conductors(count: usize, three_phase: bool) -> Vec<El> {
    let colours: &[&'static str] = match (count, three_phase) {
        (2, _) => &["wire brown", "wire blue"],
        (3, _) => &["wire brown", "wire black", "wire blue"],
        (4, false) => &["wire brown", "wire blue", "wire brown", "wire blue"],
        (4, true) => &["wire brown", "wire black", "wire grey", "wire blue"],
        (5, _) => &["wire brown", "wire black", "wire grey", "wire blue", "wire blue"],
        _ => &["wire brown", "wire black", "wire grey", "wire blue", "wire brown", "wire blue"],
    };
    let to_meter = if three_phase || count == 3 { count } else { 2 };
    let mut lines = vec![path("cable", "M46 84V72".into())];
    for (at, colour) in colours.iter().enumerate() {
        let x = (30 + 8 * at).to_string();
        // What does not go up to this meter bends away to the side, to another board or another home.
        let way = if at < to_meter {
            ["M", &x, " 52V26"].concat()
        } else {
            ["M", &x, " 52V", &(42 - 6 * (at - to_meter).min(2)).to_string(), "H120"].concat()
        };
        lines.push(path(colour, way.into()));
    }
    for class in ["wire earth", "wire earth stripes"] {
        lines.push(path(class, "M78 62H104V84".into()));
    }
    lines.push(tinted("M18 52h60v20h-60z"));
    lines.push(outline("M24 56h12v12h-12z M24 4h52v22h-52z M32 9h24v8h-24z"));
    lines.push(path("wire brown thin", "M66 26v5h12v-27".into()));
    lines.push(path("wire blue thin", "M72 26v2h12v-24".into()));
    lines
}
