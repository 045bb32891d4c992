//! The place in which the program of the plans, which is loaded on demand, draws the route builder or the reach of the leads.

use super::View;
use crate::widget::el::{El, el, paragraph};
use crate::widget::state::Action;
use model::answers::AnswerKind;
use model::questions::Question;
use web_sys::{Event, HtmlInputElement};
use wording::form as words;
use yew::virtual_dom::ListenerKind;
use yew::{Callback, TargetCast};

/// The place for a question's plan, where it has one. Yew does not own what is drawn in it; the rows of a route come back as the text of
/// the field before it. In the core, where nothing has been measured yet, the reach of the leads is not drawn.
pub fn plan(question: &'static Question, view: &View) -> Option<El> {
    let View { form, speech, done, .. } = view;
    let of_route = question.kind == AnswerKind::Stretches;
    let draws = match question.id {
        _ if of_route => "route",
        "lead-length" | "spot-to-car" => "reach",
        "inlet" if form.reached_result => "reach",
        _ => return None,
    };
    let rows = of_route.then(|| {
        let done = (*done).clone();
        let typed = Callback::from(move |event: Event| {
            done.emit(Action::Typed(question, event.target_unchecked_into::<HtmlInputElement>().value()));
        });
        el("input").set("type", "hidden").value(form.text_of(question).into()).on(ListenerKind::oninput, typed)
    });
    Some(
        el("div")
            .key(question.id)
            .perhaps(rows)
            .with(el("div").set("data-draws", draws))
            .with(paragraph("aside", speech.say(words::PLAN_WAITS))),
    )
}
