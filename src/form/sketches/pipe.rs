//! Pipes where they come in, and the clamp that joins one to the earth.

use super::{Line, Sketch, circle, earth, grain, line, outline, sketch, tinted};

/// Every drawing of a pipe.
pub fn sketches() -> Vec<Sketch> {
    let mut all = Vec::new();
    for what in ["gas", "water"] {
        all.push(sketch(&format!("{what}-pipe-metal"), metal()));
        all.push(sketch(&format!("{what}-pipe-plastic"), plastic()));
        all.push(sketch(&format!("{what}-clamp"), clamp(what)));
    }
    all
}

/// A metal pipe out of the floor with soldered joints, and its shine.
fn metal() -> Vec<Line> {
    vec![
        outline("M8 76h104"),
        tinted("M44 76V32q0-12 12-12h56v12h-52q-4 0-4 4v40z"),
        outline("M42 56h16v8h-16z M86 18v16h8v-16z"),
        grain("M47 50V34q0-10 10-10h26"),
    ]
}

/// A plastic pipe out of the floor: wider, with a coupling that is pushed on.
fn plastic() -> Vec<Line> {
    vec![
        outline("M8 76h104"),
        tinted("M42 76V10h18v66z"),
        outline("M38 30h26v24h-26z M38 36h26 M38 48h26"),
        grain("M42 62h18 M42 66h18 M42 70h18 M42 20h18"),
    ]
}

/// A clamp around a pipe, its label, and the wire that leaves it.
fn clamp(what: &str) -> Vec<Line> {
    let mut lines = vec![outline("M36 2V82 M52 2V82"), grain("M40 4v20m0 36v20")];
    lines.extend(earth("M58 42H104V80"));
    lines.push(tinted("M32 34h24v14h-24z"));
    lines.push(outline("M56 37h8v8h-8z M28 38h4v6h-4z"));
    lines.push(line("line paper", "M66 12l36 4v14l-36-4z"));
    lines.push(grain("M70 18l26 3 M70 23l20 2 M60 38l6-16"));
    if what == "water" {
        // The tap that shuts the water off.
        lines.push(outline("M44 64V56 M34 56h20 M30 64h28v8h-28z"));
    } else {
        lines.push(outline(circle(44, 66, 6)));
        lines.push(outline("M40 66h8"));
    }
    lines
}
