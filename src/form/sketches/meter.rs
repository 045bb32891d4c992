//! Meters: where they hang, their kinds, what is behind them and what follows them.

use super::{Line, Sketch, circle, grain, line, outline, rectangle, sketch, tinted};

/// Every drawing of a meter.
pub fn sketches() -> Vec<Sketch> {
    [
        ("meter-place-indoors", indoors()),
        ("meter-place-outside-box", outside_box()),
        ("meter-place-cupboard", cupboard()),
        ("meter-place-communal", communal()),
        ("meter-kind-one-rate", one_rate()),
        ("meter-kind-two-rate", two_rate()),
        ("meter-kind-smart", smart()),
        ("meter-kind-prepayment", prepayment()),
        (
            "backing-wood",
            backing("M20 20q30-4 80 0 M20 66q40 5 80 0 M20 30h18 M20 44q8 4 18 0 M20 56h18 M82 32q10-3 18 0 M82 50h18"),
        ),
        ("backing-dark-or-fibrous", dark()),
        ("backing-other", bare()),
        ("switch-after", switch_after()),
    ]
    .into_iter()
    .map(|(name, lines)| sketch(name, lines))
    .collect()
}

/// A meter's body with its terminal cover, and the four conductors under it.
fn body() -> Vec<Line> {
    vec![
        line("wire brown", "M48 68V84"),
        line("wire blue", "M56 68V84"),
        line("wire blue", "M64 68V84"),
        line("wire brown", "M72 68V84"),
        outline("M36 4h48v50h-48z M38 54h44v14h-44z"),
    ]
}

/// Figures in a window.
fn figures(left: usize, top: usize) -> String {
    (0..5).map(|at| format!("M{} {}v6", left + 4 + 6 * at, top + 3)).collect()
}

fn one_rate() -> Vec<Line> {
    [body(), vec![tinted(rectangle(44, 14, 32, 12)), grain(figures(44, 14)), grain("M46 38h28 M46 44h18")]].concat()
}

/// Two rows of figures, one for the day and one for the night.
fn two_rate() -> Vec<Line> {
    let rows = vec![
        tinted(rectangle(44, 10, 32, 12)),
        tinted(rectangle(44, 28, 32, 12)),
        grain(figures(44, 10)),
        grain(figures(44, 28)),
    ];
    let sun = "M24 12v-4m0 16v4m-8-12h4m12 0h-4 M20 16a4 4 0 1 0 8 0a4 4 0 1 0-8 0z";
    [body(), rows, vec![outline(sun), outline("M26 30a6 6 0 1 0 4 9a5 5 0 0 1-4-9z")]].concat()
}

/// A screen, a button, and waves, since it reports by itself.
fn smart() -> Vec<Line> {
    let front = vec![
        tinted(rectangle(44, 12, 32, 18)),
        grain("M48 18h14 M48 24h20"),
        outline(circle(50, 42, 3)),
        outline(circle(62, 42, 3)),
        outline("M92 22a10 10 0 0 1 0 14 M98 17a18 18 0 0 1 0 24"),
    ];
    [body(), front].concat()
}

/// A window, and the slot that takes a key or card.
fn prepayment() -> Vec<Line> {
    let front = vec![
        outline(rectangle(44, 10, 32, 12)),
        grain(figures(44, 10)),
        tinted("M50 32h20v12h-20z"),
        outline("M60 38h36 M84 38v5m6-5v5"),
        outline(circle(102, 38, 6)),
    ];
    [body(), front].concat()
}

/// A small meter, for drawings of where it hangs.
fn small(left: usize, top: usize) -> Vec<Line> {
    vec![
        tinted(rectangle(left, top, 18, 24)),
        outline(rectangle(left + 4, top + 4, 10, 6)),
        outline(format!("M{} {}h18", left, top + 17)),
    ]
}

/// On a wall of a room.
fn indoors() -> Vec<Line> {
    let room = vec![outline("M6 6h108 M6 72h108 M18 6v58 M6 72l12-8h90 M72 64v-40h26v40"), grain("M92 46h3")];
    [room, small(34, 22)].concat()
}

/// In a box on a brick wall, its door shut with a small lock.
fn outside_box() -> Vec<Line> {
    vec![
        grain(
            "M6 12h24m60 0h24 M6 24h24m60 0h24 M6 36h24m60 0h24 M6 48h24m60 0h24 M6 60h24m60 0h24 M18 12v12m84-12v12 M10 24v12m100-12v12 M22 36v12m76-12v12 M12 48v12m96-12v12",
        ),
        outline("M6 74h108"),
        tinted("M32 8h56v58h-56z"),
        outline("M37 13h46v48h-46z"),
        outline(circle(78, 37, 2)),
    ]
}

/// Behind a door that stands open.
fn cupboard() -> Vec<Line> {
    [
        vec![outline("M20 8h50v66h-50z M70 8l30 8v66l-30-8"), grain("M92 48v5 M6 74h14"), outline("M20 56h50")],
        small(36, 20),
    ]
    .concat()
}

/// One meter among several.
fn communal() -> Vec<Line> {
    let mut lines = vec![outline("M6 6h108v68h-108z")];
    for (left, top) in [(14, 10), (40, 10), (92, 10), (14, 44), (40, 44), (66, 44), (92, 44)] {
        lines.push(outline(rectangle(left, top, 14, 22)));
        lines.push(grain(rectangle(left + 3, top + 4, 8, 5)));
    }
    lines.push(tinted(rectangle(66, 10, 14, 22)));
    lines.push(grain(rectangle(69, 14, 8, 5)));
    lines
}

/// A board behind the meter, with its grain.
fn backing(look: &str) -> Vec<Line> {
    vec![
        tinted("M14 8h92v68h-92z"),
        grain(look),
        line("line paper", "M42 20h36v44h-36z"),
        outline("M48 28h24v10h-24z M42 52h36"),
    ]
}

/// A dark one, of pressed fibres.
fn dark() -> Vec<Line> {
    let look: String = (0..11)
        .map(|at| format!("M{} 8v68", 20 + 8 * at))
        .chain((0..8).map(|at| format!("M14 {}h92", 12 + 8 * at)))
        .collect();
    backing(&look)
}

/// No board: the bare wall.
fn bare() -> Vec<Line> {
    vec![
        grain(
            "M6 16h30m48 0h30 M6 32h30m48 0h30 M6 48h30m48 0h30 M6 64h30m48 0h30 M22 16v16m76-16v16 M14 32v16m92-16v16 M26 48v16m68-16v16",
        ),
        line("line paper", "M42 14h36v54h-36z"),
        tinted("M42 14h36v54h-36z"),
        outline("M48 22h24v12h-24z M42 54h36"),
    ]
}

/// A switch of its own between meter and board.
fn switch_after() -> Vec<Line> {
    vec![
        line("wire brown", "M34 46H90"),
        line("wire blue", "M34 54H90"),
        outline("M6 24h28v38h-28z M11 30h18v8h-18z"),
        line("line paper", "M50 34h20v30h-20z"),
        tinted("M50 34h20v30h-20z"),
        outline("M57 42h6v10h-6z"),
        line("line paper", "M86 22h28v42h-28z"),
        outline("M86 22h28v42h-28z M90 34h20v14h-20z M95 34v14m5-14v14m5-14v14"),
    ]
}
