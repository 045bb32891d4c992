//! The service head: its fuse carriers, the cables from the street, the conductors that leave it, and its earth.

use super::{Line, Sketch, earth, grain, line, outline, rectangle, sketch, tinted};

/// Every drawing of the head.
pub fn sketches() -> Vec<Sketch> {
    let mut all = Vec::new();
    for count in 1..=3 {
        all.push(sketch(&format!("fuse-carriers-{count}"), carriers(count)));
        all.push(sketch(&format!("street-cables-{count}"), street(count)));
    }
    for count in 2..=6 {
        all.push(sketch(&format!("head-conductors-{count}"), conductors(count, false)));
    }
    for count in 4..=6 {
        all.push(sketch(&format!("head-conductors-{count}-three-phase"), conductors(count, true)));
    }
    all.push(sketch("carrier-rating", rating()));
    all.push(sketch("earth-goes-service-head", [head(), earth("M56 46h30V10").to_vec()].concat()));
    all.push(sketch(
        "earth-goes-cable-sheath",
        [head(), vec![tinted("M30 66h20v7h-20z")], earth("M50 69h36V10").to_vec()].concat(),
    ));
    all.push(sketch("earth-goes-rod", rod()));
    all
}

/// The head with this many fuse carriers side by side, a seal at each.
fn carriers(count: usize) -> Vec<Line> {
    let width = 20 * count + 16;
    let left = 60 - width / 2;
    let mut lines = vec![line("cable", "M60 84V66"), outline(rectangle(left, 18, width, 48))];
    for at in 0..count {
        let x = left + 10 + 20 * at;
        lines.push(tinted(rectangle(x, 28, 16, 28)));
        lines.push(outline(format!("M{} 42h8", x + 4)));
        lines.push(outline(format!("M{} 56v4m-2 0h4v4h-4z", x + 8)));
    }
    lines
}

/// The head with this many thick cables coming up out of the ground.
fn street(count: usize) -> Vec<Line> {
    let first = 60 - 14 * (count - 1);
    let cable = |at: usize| line("cable lit", format!("M{} 84V40", first + 28 * at));
    let mut lines: Vec<Line> = (0..count).map(cable).collect();
    lines.push(outline("M24 10h72v30h-72z M54 17h12v16h-12z"));
    lines.push(outline("M6 70h12m8 0h14m40 0h14m8 0h12 M8 74l4-4m18 4l4-4m50 4l4-4m18 4l4-4"));
    lines
}

/// The head below and the meter above: the conductors that leave the head, and the meter's own that don't count.
fn conductors(count: usize, three_phase: bool) -> Vec<Line> {
    let colours: &[&'static str] = match (count, three_phase) {
        (2, _) => &["wire brown", "wire blue"],
        (3, _) => &["wire brown", "wire black", "wire blue"],
        (4, false) => &["wire brown", "wire blue", "wire brown", "wire blue"],
        (4, true) => &["wire brown", "wire black", "wire grey", "wire blue"],
        (5, false) => &["wire brown", "wire blue", "wire brown", "wire blue", "wire blue"],
        (_, false) => &["wire brown", "wire blue", "wire brown", "wire blue", "wire brown", "wire blue"],
        (5, true) => &["wire brown", "wire black", "wire grey", "wire blue", "wire blue"],
        (_, true) => &["wire brown", "wire black", "wire grey", "wire blue", "wire brown", "wire blue"],
    };
    // A meter of one phase takes two, one of three phases four.
    let to_meter = if three_phase { 4 } else { 2 + usize::from(count == 3) };
    let mut lines = vec![line("cable", "M46 84V72")];
    for (at, colour) in colours.iter().enumerate() {
        let x = 30 + 8 * at;
        // A conductor that does not go to this meter bends away to the side, to another board or another home.
        let way = if at < to_meter {
            format!("M{x} 52V26")
        } else {
            // The last one is drawn lowest, so that none crosses another and each can be counted.
            format!("M{x} 52V{}H120", 48 - 5 * (count - 1 - at))
        };
        lines.push(line(colour, way));
    }
    lines.extend(earth("M78 62H104V84"));
    lines.push(tinted("M18 52h60v20h-60z"));
    lines.push(outline("M24 56h12v12h-12z M24 4h52v22h-52z M32 9h24v8h-24z"));
    // The meter's own conductors, on their way to the board.
    if three_phase {
        lines.push(line("wire black thin", "M64 26v8h20v-30"));
        lines.push(line("wire grey thin", "M68 26v5h20v-27"));
    }
    lines.push(line("wire brown thin", if three_phase { "M60 26v11h20v-33" } else { "M66 26v4h12v-26" }));
    lines.push(line("wire blue thin", "M72 26v2h20v-24"));
    lines
}

/// A carrier from the front, with the place where a number is moulded.
fn rating() -> Vec<Line> {
    vec![
        outline("M34 4h52v76h-52z M42 14h36v56h-36z"),
        tinted("M47 44h26v12h-26z"),
        grain("M52 50h5m3 0h4m3 0h2 M50 22h20 M50 28h20 M50 34h20"),
        outline("M60 70v4m-2 0h4v4h-4z"),
    ]
}

/// The head on its cable, with two conductors going up.
fn head() -> Vec<Line> {
    vec![
        line("cable", "M40 84V58"),
        line("wire brown", "M34 34V4"),
        line("wire blue", "M46 34V4"),
        outline("M20 34h36v24h-36z M28 40h10v12h-10z"),
    ]
}

/// A rod in the ground, with its wire.
fn rod() -> Vec<Line> {
    let mut lines = vec![outline("M6 44h22m16 0h70 M10 50l5-6m38 6l5-6m32 6l5-6"), line("cable lit", "M36 34V80")];
    lines.extend(earth("M40 38h44V6"));
    lines.push(tinted("M30 34h12v8h-12z"));
    lines
}
