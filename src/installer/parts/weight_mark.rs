//! A flag's weight as a shape drawn in the margin; the word for it always stands beside it.

use engine::flags::Weight;
use yew::prelude::*;

/// The mark's properties.
#[derive(PartialEq, Properties)]
pub struct WeightMarkProps {
    /// The weight; none draws a bare margin tick.
    pub weight: Option<Weight>,
}

/// The mark: a filled bar across for stop, an open box for something to settle, a measured stretch for the price, a tick for the rest.
#[component]
pub fn WeightMark(props: &WeightMarkProps) -> Html {
    let shape = match props.weight {
        Some(Weight::Stop) => {
            html! { <path class="solid" d="M2 8 8 2h8l6 6v8l-6 6H8l-6-6z M6 10.5v3h12v-3z" fill-rule="evenodd" /> }
        }
        Some(Weight::SettleBeforeBooking) => html! { <path d="M3 3h18v18H3z M12 7v6 M12 16v1.5" /> },
        Some(Weight::ChangesThePrice) => html! { <path d="M2 12h20 M2 6v12 M22 6v12 M8.7 9v6 M15.3 9v6" /> },
        Some(Weight::WorthKnowing) => html! { <path d="M12 8.5a3.5 3.5 0 1 1 0 7a3.5 3.5 0 1 1 0-7z" /> },
        None => html! { <path d="M7 12h10" /> },
    };
    html! {
        <svg class="mark" viewBox="0 0 24 24" aria-hidden="true" focusable="false">{ shape }</svg>
    }
}
