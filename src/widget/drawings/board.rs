//! The fronts of boards: fuses or breakers, test buttons, and gaps.

use super::{outline, rectangle, tinted};
use crate::widget::el::El;

/// The board's case with its lid open above.
fn case() -> Vec<El> {
    vec![outline("M6 24h108v48h-108z M6 24l8-14h92l8 14")]
}

/// One breaker with its small lever.
fn breaker(lines: &mut Vec<El>, left: usize) {
    lines.push(outline(rectangle(left, 34, 12, 28)));
    lines.push(outline(rectangle(left + 4, 43, 4, 9)));
}

/// What is in the board.
pub fn protection(word: &str) -> Vec<El> {
    let mut lines = case();
    if word == "fuse-wire" {
        for at in 0..4 {
            lines.push(tinted(rectangle(14 + 24 * at, 34, 18, 28)));
            lines.push(outline(["M", &(18 + 24 * at).to_string(), " 48h10"].concat()));
        }
    } else {
        for at in 0..8 {
            lines.push(tinted(rectangle(12 + 12 * at, 34, 12, 28)));
            lines.push(outline(rectangle(16 + 12 * at, 43, 4, 9)));
        }
    }
    lines
}

/// A row with so many test buttons.
pub fn buttons(word: &str) -> Vec<El> {
    let wide = match word {
        "one" => 1,
        "two" => 2,
        _ => 0,
    };
    let mut lines = case();
    for at in 0..8 {
        let (left, device) = (12 + 12 * at, at / 4);
        match at % 4 {
            // A wide device, two ways across, with its test button.
            0 if device < wide => {
                lines.push(outline(rectangle(left, 34, 24, 28)));
                lines.push(outline(rectangle(left + 5, 43, 4, 9)));
                lines.push(tinted(rectangle(left + 14, 44, 6, 6)));
            }
            1 if device < wide => {}
            _ => breaker(&mut lines, left),
        }
        if word == "each-way" {
            lines.push(tinted(rectangle(left + 3, 55, 6, 5)));
        }
    }
    lines
}

/// A row with so many gaps at its end.
pub fn ways(word: &str) -> Vec<El> {
    let gaps = match word {
        "one" => 1,
        "several" => 3,
        _ => 0,
    };
    let mut lines = case();
    for at in 0..8 {
        if at < 8 - gaps {
            breaker(&mut lines, 12 + 12 * at);
        } else {
            lines.push(tinted(rectangle(12 + 12 * at, 34, 12, 28)));
        }
    }
    lines
}
