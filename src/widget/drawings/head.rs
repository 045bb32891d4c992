//! The service head: its fuse carriers, the cables from the street, and the conductors that leave it.

use super::{outline, rectangle, tinted};
use yew::prelude::*;

/// The head with so many fuse carriers side by side, a seal at each.
pub fn carriers(count: usize) -> Html {
    let width = 20 * count + 16;
    let left = 60 - width / 2;
    html! {
        <>
            <path class="cable" d="M60 84V66" />
            { outline(rectangle(left, 18, width, 48)) }
            { for (0..count).map(|at| {
                let x = left + 10 + 20 * at;
                html! {
                    <>
                        { tinted(rectangle(x, 28, 16, 28)) }
                        { outline(["M", &(x + 4).to_string(), " 42h8"].concat()) }
                        { outline(["M", &(x + 8).to_string(), " 56v4m-2 0h4v4h-4z"].concat()) }
                    </>
                }
            }) }
        </>
    }
}

/// The head with so many thick cables coming up out of the ground.
pub fn street(count: usize) -> Html {
    let first = 60 - 14 * (count - 1);
    html! {
        <>
            { for (0..count).map(|at| html! {
                <path class="cable lit" d={["M", &(first + 28 * at).to_string(), " 84V40"].concat()} />
            }) }
            { outline("M24 10h72v30h-72z M54 17h12v16h-12z M6 70h12m8 0h14m40 0h14m8 0h12 M8 74l4-4m18 4l4-4m50 4l4-4m18 4l4-4") }
        </>
    }
}

/// The head below and the meter above: the conductors that leave the head, and the meter's own that don't count.
pub fn conductors(count: usize, three_phase: bool) -> Html {
    let colours: &[&str] = match (count, three_phase) {
        (2, _) => &["brown", "blue"],
        (3, _) => &["brown", "black", "blue"],
        (4, false) => &["brown", "blue", "brown", "blue"],
        (4, true) => &["brown", "black", "grey", "blue"],
        (5, _) => &["brown", "black", "grey", "blue", "blue"],
        _ => &["brown", "black", "grey", "blue", "brown", "blue"],
    };
    let to_meter = if three_phase || count == 3 { count } else { 2 };
    html! {
        <>
            <path class="cable" d="M46 84V72" />
            { for colours.iter().enumerate().map(|(at, colour)| {
                let x = 30 + 8 * at;
                // What does not go up to this meter bends away to the side, to another board or another home.
                let bend = if at < to_meter {
                    ["M", &x.to_string(), " 52V26"].concat()
                } else {
                    ["M", &x.to_string(), " 52V", &(42 - 6 * (at - to_meter).min(2)).to_string(), "H120"].concat()
                };
                html! {
                    <path class={classes!("wire", *colour)} d={bend} />
                }
            }) }
            <path class="wire earth" d="M78 62H104V84" />
            <path class="wire earth stripes" d="M78 62H104V84" />
            { tinted("M18 52h60v20h-60z") }
            { outline("M24 56h12v12h-12z M24 4h52v22h-52z M32 9h24v8h-24z") }
            <path class="wire brown thin" d="M66 26v5h12v-27" />
            <path class="wire blue thin" d="M72 26v2h12v-24" />
        </>
    }
}
