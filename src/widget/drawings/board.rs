//! The fronts of boards: fuses or breakers, test buttons, and gaps.

use super::{outline, rectangle, tinted};
use yew::prelude::*;

/// The board's case with its lid open above.
fn case() -> Html {
    outline("M6 24h108v48h-108z M6 24l8-14h92l8 14")
}

/// One breaker with its small lever.
fn breaker(left: usize) -> Html {
    html! {
        <>
            { outline(rectangle(left, 34, 12, 28)) }
            { outline(rectangle(left + 4, 43, 4, 9)) }
        </>
    }
}

/// One wide device with a test button.
fn tested(left: usize) -> Html {
    html! {
        <>
            { outline(rectangle(left, 34, 24, 28)) }
            { outline(rectangle(left + 5, 43, 4, 9)) }
            { tinted(rectangle(left + 14, 44, 6, 6)) }
        </>
    }
}

/// What is in the board.
pub fn protection(word: &str) -> Html {
    html! {
        <>
            { case() }
            if word == "fuse-wire" {
                { for (0..4).map(|at| html! {
                    <>
                        { tinted(rectangle(14 + 24 * at, 34, 18, 28)) }
                        { outline(["M", &(18 + 24 * at).to_string(), " 48h10"].concat()) }
                    </>
                }) }
            } else {
                { for (0..8).map(|at| html! {
                    <>
                        { tinted(rectangle(12 + 12 * at, 34, 12, 28)) }
                        { outline(rectangle(16 + 12 * at, 43, 4, 9)) }
                    </>
                }) }
            }
        </>
    }
}

/// A row with so many test buttons.
pub fn buttons(word: &str) -> Html {
    let (wide, each) = match word {
        "one" => (1, false),
        "two" => (2, false),
        "each-way" => (0, true),
        _ => (0, false),
    };
    html! {
        <>
            { case() }
            { for (0..wide).map(|at| tested(12 + 48 * at)) }
            { for (0..8).filter(|at| !(0..wide).any(|other| (4 * other..4 * other + 2).contains(at))).map(|at| breaker(12 + 12 * at)) }
            if each {
                { for (0..8).map(|at| tinted(rectangle(15 + 12 * at, 55, 6, 5))) }
            }
        </>
    }
}

/// A row with so many gaps at its end.
pub fn ways(word: &str) -> Html {
    let gaps = match word {
        "one" => 1,
        "several" => 3,
        _ => 0,
    };
    html! {
        <>
            { case() }
            { for (0..8 - gaps).map(|at| breaker(12 + 12 * at)) }
            { for (8 - gaps..8).map(|at| tinted(rectangle(12 + 12 * at, 34, 12, 28))) }
        </>
    }
}
