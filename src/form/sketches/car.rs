//! The car: where its inlet is, and what the charge point offers it.

use super::{Line, Sketch, circle, grain, line, outline, sketch, tinted};

/// Every drawing of a car and its plug.
pub fn sketches() -> Vec<Sketch> {
    let mut all: Vec<Sketch> =
        INLETS.iter().map(|(word, x, y)| sketch(&format!("inlet-{word}"), from_above(*x, *y))).collect();
    all.push(sketch("outlet-socket", socket()));
    all.push(sketch("outlet-lead", lead()));
    all
}

/// Where the inlet lies on a car seen from above, its nose up.
const INLETS: [(&str, usize, usize); 6] = [
    ("front", 60, 8),
    ("front-left", 43, 23),
    ("front-right", 77, 23),
    ("rear-left", 43, 64),
    ("rear-right", 77, 64),
    ("rear", 60, 76),
];

/// A car from above, its nose up, with a lead to its inlet.
fn from_above(x: usize, y: usize) -> Vec<Line> {
    let way = if x < 60 { format!("M{x} {y}H2") } else { format!("M{x} {y}H118") };
    vec![
        outline("M44 14Q44 2 60 2Q76 2 76 14V70Q76 82 60 82Q44 82 44 70z"),
        grain("M48 12l5-4 M72 12l-5-4 M44 26h-4v3h4 M76 26h4v3h-4"),
        outline("M47 28Q60 21 73 28L70 36H50z M50 62H70L72 68Q60 73 48 68z"),
        grain("M50 40v18 M70 40v18"),
        line("cable lit thin", way),
        tinted(circle(x, y, 6)),
    ]
}

/// A charge point with a socket: seven holes under a flat top.
fn socket() -> Vec<Line> {
    let holes: String = [(55, 27), (65, 27), (51, 35), (60, 35), (69, 35), (55, 43), (65, 43)]
        .iter()
        .map(|(x, y)| circle(*x, *y, 2))
        .collect();
    vec![
        outline("M36 4h48v72h-48z"),
        tinted("M47 21h26q4 6 4 14a17 16 0 0 1-34 0q0-8 4-14z"),
        outline(holes),
        grain("M52 64h16"),
    ]
}

/// A charge point with a lead that hangs from it.
fn lead() -> Vec<Line> {
    vec![
        outline("M22 4h40v64h-40z"),
        grain("M34 16h16 M34 22h16"),
        line("cable lit thin", "M42 68q0 12 14 12q12 0 12-14V34q0-18 14-18q12 0 12 14v10"),
        tinted("M86 40h16v16q0 6-8 6t-8-6z"),
        outline("M102 44h7v8h-7"),
    ]
}
