//! What a cable runs along.

use super::{Line, Sketch, circle, grain, line, outline, sketch};

/// Every drawing of what a cable runs along.
pub fn sketches() -> Vec<Sketch> {
    [
        ("route-mostly-inside", inside()),
        ("route-mostly-loft-or-floor", loft()),
        ("route-mostly-outside-wall", outside_wall()),
        ("route-mostly-fence", fence()),
        ("route-mostly-soft-ground", soft_ground()),
        ("route-mostly-paving", paving()),
    ]
    .into_iter()
    .map(|(name, lines)| sketch(name, lines))
    .collect()
}

/// The cable, with its clips.
fn run(path: &str, clips: &[(usize, usize)]) -> Vec<Line> {
    let clips: String = clips.iter().map(|(x, y)| circle(*x, *y, 2)).collect();
    let mut lines = vec![line("cable lit thin", path)];
    if !clips.is_empty() {
        lines.push(outline(clips));
    }
    lines
}

/// A room with a door, the cable above the skirting.
fn inside() -> Vec<Line> {
    let room = vec![outline("M6 8h108 M20 8v56l-14 12 M20 64h94 M76 64V26h24v38"), grain("M20 58h56m24 0h14 M94 46h3")];
    [room, run("M20 50h48v-36h46", &[(36, 50), (68, 34), (92, 14)])].concat()
}

/// Under the roof, over the joists.
fn loft() -> Vec<Line> {
    let roof = vec![
        outline("M6 62L60 8L114 62 M6 62h108v6h-108z"),
        grain("M24 62v6m18-6v6m18-6v6m18-6v6m18-6v6 M60 8v54 M33 35l27 27 M87 35l-27 27"),
    ];
    [roof, run("M18 56h84", &[(38, 56), (82, 56)])].concat()
}

/// Clipped to bricks.
fn outside_wall() -> Vec<Line> {
    let bricks = vec![
        grain(
            "M6 8h108 M6 22h108 M6 36h108 M6 50h108 M6 64h108 M24 8v14m36-14v14m36-14v14 M6 22v14m36-14v14m36-14v14m36-14v14 M24 36v14m36-14v14m36-14v14 M6 50v14m36-14v14m36-14v14m36-14v14",
        ),
        outline("M2 76h116"),
    ];
    [bricks, run("M6 43h70v33", &[(24, 43), (52, 43), (76, 60)])].concat()
}

/// Along posts and boards.
fn fence() -> Vec<Line> {
    let boards = vec![
        outline("M10 14h8v62h-8z M56 14h8v62h-8z M102 14h8v62h-8z M2 76h116"),
        outline("M18 22h38 M18 60h38 M64 22h38 M64 60h38"),
        grain("M25 22v38m7-38v38m7-38v38m7-38v38 M71 22v38m7-38v38m7-38v38m7-38v38"),
    ];
    [boards, run("M2 40h116", &[(14, 40), (60, 40), (106, 40)])].concat()
}

/// Under grass.
fn soft_ground() -> Vec<Line> {
    let grass = vec![
        outline("M4 30h112"),
        outline(
            "M12 30l-3-9m3 9l3-10 M32 30l-3-8m3 8l4-9 M54 30l-4-9m4 9l2-10 M76 30l-3-9m3 9l4-8 M98 30l-3-10m3 10l4-9",
        ),
        grain("M16 42h3m20-2h3m24 4h3m26-3h3 M10 72h3m18 3h3m30-4h3m34 3h3"),
    ];
    [grass, run("M14 0V58H106V0", &[])].concat()
}

/// Under slabs.
fn paving() -> Vec<Line> {
    let slabs = vec![
        outline("M4 26h112v9h-112z M32 26v9m28-9v9m28-9v9"),
        grain("M4 41h112 M12 47h2m14 2h2m18-3h2m20 3h2m22-3h2 M10 72h3m18 3h3m30-4h3m34 3h3"),
    ];
    [slabs, run("M14 0V60H106V0", &[])].concat()
}
