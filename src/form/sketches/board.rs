//! Boards: their fronts, their cases, and what a device shows on its front.

use super::{Line, Sketch, circle, grain, line, outline, rectangle, sketch, tinted};

/// Every drawing of a board.
pub fn sketches() -> Vec<Sketch> {
    let mut all = Vec::new();
    for word in ["fuse-wire", "breakers"] {
        all.push(sketch(&format!("protection-{word}"), protection(word)));
    }
    for word in ["none", "one", "two", "each-way"] {
        all.push(sketch(&format!("test-buttons-{word}"), buttons(word)));
    }
    for word in ["none", "one", "several"] {
        all.push(sketch(&format!("spare-ways-{word}"), ways(word)));
    }
    all.push(sketch("board-case-metal", metal()));
    all.push(sketch("board-case-plastic", plastic()));
    all.push(sketch("board-case-wood", wood()));
    for (word, marks) in RESIDUAL {
        all.push(sketch(&format!("rcd-type-{word}"), device(marks)));
    }
    all.push(sketch("surge-device", surge()));
    all.push(sketch("wall-space", space()));
    all
}

/// The board's case with its lid open above.
fn case() -> Vec<Line> {
    vec![outline("M6 24h108v48h-108z M6 24l8-14h92l8 14")]
}

/// Ways beside the main switch.
const WAYS: usize = 10;

/// The left edge of a way: each is eight units wide, and the first follows the main switch.
const fn way(at: usize) -> usize {
    28 + 8 * at
}

/// The main switch at the left, two ways wide, with its larger lever.
fn main_switch() -> Vec<Line> {
    vec![outline(rectangle(12, 34, 16, 28)), outline(rectangle(17, 40, 6, 15))]
}

/// One breaker with its small lever.
fn breaker(lines: &mut Vec<Line>, left: usize) {
    lines.push(outline(rectangle(left, 34, 8, 28)));
    lines.push(outline(rectangle(left + 2, 43, 4, 9)));
}

/// A board with fuse wire or with breakers.
fn protection(word: &str) -> Vec<Line> {
    let mut lines = case();
    if word == "fuse-wire" {
        for at in 0..4 {
            lines.push(tinted(rectangle(14 + 24 * at, 34, 18, 28)));
            lines.push(outline(format!("M{} 48h10", 18 + 24 * at)));
        }
    } else {
        lines.extend(main_switch());
        for left in (0..WAYS).map(way) {
            lines.push(tinted(rectangle(left, 34, 8, 28)));
            lines.push(outline(rectangle(left + 2, 43, 4, 9)));
        }
    }
    lines
}

/// A row with this many test buttons.
fn buttons(word: &str) -> Vec<Line> {
    let wide = match word {
        "one" => 1,
        "two" => 2,
        _ => 0,
    };
    let mut lines = [case(), main_switch()].concat();
    for at in 0..WAYS {
        let (left, device) = (way(at), at / 5);
        match at % 5 {
            // A wide device, two ways across, with its test button.
            0 if device < wide => {
                lines.push(outline(rectangle(left, 34, 16, 28)));
                lines.push(outline(rectangle(left + 2, 43, 4, 9)));
                lines.push(tinted(rectangle(left + 8, 44, 6, 6)));
            }
            1 if device < wide => {}
            _ => breaker(&mut lines, left),
        }
        if word == "each-way" {
            lines.push(tinted(rectangle(left + 2, 55, 4, 5)));
        }
    }
    lines
}

/// A row with this many spare ways at its end.
fn ways(word: &str) -> Vec<Line> {
    let gaps = match word {
        "one" => 1,
        "several" => 3,
        _ => 0,
    };
    let mut lines = [case(), main_switch()].concat();
    for at in 0..WAYS {
        if at < WAYS - gaps {
            breaker(&mut lines, way(at));
        } else {
            lines.push(tinted(rectangle(way(at), 34, 8, 28)));
        }
    }
    lines
}

/// Sheet steel: square corners, a folded edge, screws, knock-outs above.
fn metal() -> Vec<Line> {
    vec![
        tinted("M8 14h104v60h-104z"),
        outline("M14 20h92v48h-92z M26 36h68v18h-68z"),
        grain([circle(11, 17, 1), circle(109, 17, 1), circle(11, 71, 1), circle(109, 71, 1)].concat()),
        outline("M30 14a5 5 0 0 1 10 0 M55 14a5 5 0 0 1 10 0 M80 14a5 5 0 0 1 10 0"),
    ]
}

/// Plastic: round corners and a moulded lid on a hinge.
fn plastic() -> Vec<Line> {
    vec![
        tinted("M20 12h80q12 0 12 12v40q0 12-12 12h-80q-12 0-12-12v-40q0-12 12-12z"),
        outline("M26 30h68q6 0 6 6v18q0 6-6 6h-68q-6 0-6-6v-18q0-6 6-6z"),
        outline("M48 60h24v5q0 3-3 3h-18q-3 0-3-3z M34 30v-5h12v5 M74 30v-5h12v5"),
    ]
}

/// Wood: a frame with its grain.
fn wood() -> Vec<Line> {
    vec![
        tinted("M8 12h104v64h-104z"),
        outline("M20 24h80v40h-80z M8 12l12 12 M112 12l-12 12 M8 76l12-12 M112 76l-12-12"),
        grain("M24 18h30q6-3 12 0h30 M24 70h20q8 3 16 0h36 M13 28q3 14 0 28 M107 28q-3 14 0 28"),
        outline("M30 36h16v16h-16z M52 36h16v16h-16z M74 36h16v16h-16z"),
    ]
}

/// The marks of IEC 60755 on the front of a device, from memory: a wave for alternating current, humps over a line for pulsating
/// direct current, a row of quicker waves for mixed frequencies, a line over dashes for smooth direct current.
const RESIDUAL: [(&str, [&str; 3]); 4] =
    [("ac", [WAVE, "", ""]), ("a", [WAVE, HUMPS, ""]), ("f", [WAVE, HUMPS, QUICK]), ("b", [WAVE, HUMPS, SMOOTH])];
const WAVE: &str = "M46 26q7-18 14 0t14 0";
const HUMPS: &str = "M46 48h28 M46 48q5-17 10 0 M64 48q5-17 10 0";
const QUICK: &str = "M82 37q2-11 4 0t4 0t4 0t4 0t4 0";
const SMOOTH: &str = "M82 32h20 M82 40h4m4 0h4m4 0h4";

/// The front of a device, with its mark large.
fn device(marks: [&str; 3]) -> Vec<Line> {
    let mut lines =
        vec![outline("M8 4h104v76h-104z M14 58h18v14h-18z M40 62h12v8h-12z"), grain("M60 62h44 M60 66h44 M60 70h30")];
    let beside = !marks[2].is_empty();
    lines.push(tinted(if marks[1].is_empty() { rectangle(40, 12, 40, 28) } else { rectangle(40, 12, 40, 42) }));
    if beside {
        lines.push(tinted(rectangle(80, 12, 24, 42)));
    }
    lines.extend(marks.iter().filter(|mark| !mark.is_empty()).map(|mark| line("line strong", *mark)));
    lines
}

/// A surge protective device with the small windows that show whether it still protects.
fn surge() -> Vec<Line> {
    let mut lines = [case(), main_switch()].concat();
    for at in [0, 1, 2, 3, 7, 8, 9] {
        breaker(&mut lines, way(at));
    }
    lines.push(outline(rectangle(way(4), 34, 24, 28)));
    lines.push(tinted("M63 40h7v6h-7z M74 40h7v6h-7z"));
    lines.push(grain("M64 52h16 M64 56h12"));
    lines
}

/// A board with room for a small one beside it.
fn space() -> Vec<Line> {
    vec![
        outline("M6 20h62v44h-62z M14 32h46v20h-46z"),
        outline("M22 32v20m8-20v20m8-20v20m8-20v20"),
        line("line dotted tint", "M78 24h36v36h-36z"),
    ]
}
