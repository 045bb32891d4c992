//! A bill, and where the supply number stands on it. Our own layout; that it often stands in a box with an S is from memory.

use super::{Line, Sketch, grain, line, outline, rectangle, sketch, tinted};

/// The one drawing of a bill.
pub fn sketches() -> Vec<Sketch> {
    vec![sketch("supply-number", supply_number())]
}

/// A sheet with lines of text; low on it a box in two rows, the thirteen digits in the lower one.
fn supply_number() -> Vec<Line> {
    let digits =
        |from: usize, count: usize| -> String { (0..count).map(|at| format!("M{} 62v6", from + 3 * at)).collect() };
    vec![
        outline("M22 4h64l12 10v66h-76z M86 4v10h12"),
        grain("M30 12h26 M30 18h18 M30 26h60 M30 32h48 M30 38h56"),
        line("line paper", rectangle(28, 46, 64, 28)),
        tinted(rectangle(40, 58, 52, 16)),
        outline("M28 46h64v28h-64z M40 46v28 M40 58h52"),
        outline("M37 57q-6-3-6 1q0 2 3 2t3 2.5q0 4-6 1"),
        grain("M44 52h8 M58 52h10 M74 52h10"),
        outline([digits(43, 2), digits(51, 4), digits(65, 4), digits(79, 3)].concat()),
    ]
}
