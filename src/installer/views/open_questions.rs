//! Questions whose answers would narrow the band or settle something, most useful first.

use crate::tape::pounds;
use crate::words::{fill, question, say};
use engine::assessment::Open;
use model::units::Pence;
use wording::triage as key;
use yew::prelude::*;

/// The section; a question that narrows the band by less than `least` is left out.
pub(super) fn view(open: &[Open], least: Pence) -> Html {
    let worth_asking = open.iter().any(|open| open.settles || open.narrows_by >= least);
    html! {
        <section class="open" aria-labelledby="open-title">
            <h2 id="open-title">{ say(key::OPEN_TITLE) }</h2>
            if !worth_asking {
                <p>{ say(key::OPEN_NONE) }</p>
            } else {
                <ol>
                    { for open.iter().filter(|open| open.settles || open.narrows_by >= least).map(|open| html! {
                        <li key={open.question.clone()}>
                            <a href="#answers" onclick={go_to(&open.question)}>{ question(&open.question) }</a>
                            <span class="quietly">
                                if open.narrows_by >= least {
                                    { " " }{ fill(key::OPEN_NARROWS, &[("money", &pounds(open.narrows_by))]) }
                                }
                                if open.settles {
                                    { " " }{ say(key::OPEN_SETTLES) }
                                }
                            </span>
                        </li>
                    }) }
                </ol>
            }
        </section>
    }
}

/// Scrolls to the question below without changing the address, which names the enquiry.
fn go_to(id: &str) -> Callback<MouseEvent> {
    let id = format!("correct-{id}");
    Callback::from(move |event: MouseEvent| {
        event.prevent_default();
        crate::focus::by_id(&id);
    })
}
