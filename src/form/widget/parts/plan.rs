//! The place where a plan is drawn by the program that is fetched for it: the way of the cable, or the reach of the leads.

use super::View;
use crate::widget::el::{El, el, paragraph};
use crate::widget::state::Action;
use model::answers::AnswerKind;
use model::questions::Question;
use web_sys::{Event, HtmlInputElement};
use wording::form as words;
use yew::virtual_dom::ListenerKind;
use yew::{Callback, TargetCast};

/// A question's place for its plan, where it has one. What is drawn in it is no child of this view's; a route's rows come back as the
/// text of the field before it. In the core, where nothing is measured yet, the reach is not drawn.
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
