//! One question: its text, where to look, its control, what is missing, and why it is asked.

use super::View;
use super::choices::choices;
use crate::answers::{Given, Kind, LengthUnit, Word};
use crate::questions::Question;
use crate::widget::ending::{Ending, endings};
use crate::widget::speech::Speech;
use crate::widget::state::{Action, Form};
use crate::wording::{Key, form as words};
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// One question of the catalogue.
pub fn question_view(view: &View, question: &'static Question) -> Html {
    let (View { form, config, speech, done }, id) = (view, question.id);
    let ids = ["q-", "h-", "e-"].map(|prefix| [prefix, id].concat());
    let [legend_id, hint_id, error_id] = &ids;
    let hint = speech.find(&["hint-", id]);
    let complaint = (form.complaints > 0 && form.stands_open(question)).then(|| complaint(question, form));
    let described = match (&hint, complaint) {
        (_, Some(_)) => Some([hint_id, " ", error_id].concat()),
        (Some(_), None) => Some(hint_id.clone()),
        (None, None) => None,
    };
    let typed = matches!(question.kind, Kind::Distance | Kind::Figure(_) | Kind::Line | Kind::PostcodeLine);
    let told = endings(&form.answers, *config);
    html! {
        <fieldset class="question" id={["f-", id].concat()} aria-describedby={described.clone()}>
            <legend id={legend_id.clone()}>{ speech.made(&["question-", id]) }</legend>
            if let Some(hint) = hint {
                <p class="hint" id={hint_id.clone()}>{ hint }</p>
            }
            if typed {
                { field(question, form, speech, done, complaint.is_some().then_some(error_id.as_str())) }
            }
            { choices(view, question) }
            if let Some(key) = complaint {
                <p class="trouble" id={error_id.clone()} role="alert">{ speech.say(key) }</p>
            }
            { for told.into_iter().filter(|ending| ending.question() == id).map(|ending| html! {
                <p class="ending" role="status">{ speech.made(&["ending-", Ending::word(ending)]) }</p>
            }) }
            <details class="why">
                <summary>{ speech.say(words::WHY_OPEN) }</summary>
                <p>{ speech.made(&["why-", id]) }</p>
            </details>
        </fieldset>
    }
}

/// What is missing, by the kind of control.
fn complaint(question: &Question, form: &Form) -> Key {
    match (question.kind, form.unreadable(question)) {
        (Kind::PostcodeLine, true) => words::UNREADABLE_POSTCODE,
        (Kind::Line, true) => words::UNREADABLE_LINE,
        (_, true) => words::UNREADABLE_NUMBER,
        (Kind::Any(_), false) => words::CHOOSE_SOME,
        (Kind::One(_) | Kind::YesNo | Kind::Count(..), false) => words::CHOOSE_ONE,
        (_, false) => words::FILL_IN,
    }
}

/// The field of an answer that is typed.
fn field(
    question: &'static Question,
    form: &Form,
    speech: &Speech,
    done: &Callback<Action>,
    error_id: Option<&str>,
) -> Html {
    let oninput = {
        let done = done.clone();
        Callback::from(move |event: InputEvent| {
            done.emit(Action::Typed(question, event.target_unchecked_into::<HtmlInputElement>().value()));
        })
    };
    let (inputmode, narrow) = match question.kind {
        Kind::Distance | Kind::Figure(_) => ("decimal", true),
        Kind::PostcodeLine => ("text", true),
        _ => ("text", false),
    };
    let unit_now = form.unit_of(question);
    let onchange = {
        let done = done.clone();
        Callback::from(move |event: Event| {
            let chosen = event.target_unchecked_into::<HtmlSelectElement>().value();
            let unit = LengthUnit::ALL.iter().find(|unit| unit.word() == chosen);
            done.emit(Action::MeasuredIn(question, unit.copied().unwrap_or(LengthUnit::Metres)));
        })
    };
    html! {
        <div class="field">
            <input
                class={classes!(narrow.then_some("narrow"))}
                type="text"
                id={["i-", question.id].concat()}
                {inputmode}
                autocomplete={if question.kind == Kind::PostcodeLine { "postal-code" } else { "off" }}
                value={form.text_of(question)}
                aria-labelledby={["q-", question.id].concat()}
                aria-invalid={error_id.map(|_| "true")}
                aria-describedby={error_id.map(str::to_owned)}
                {oninput}
            />
            if question.kind == Kind::Distance {
                <select aria-label={speech.say(words::DISTANCE_IN)} {onchange}>
                    { for LengthUnit::ALL.iter().map(|unit| html! {
                        <option value={unit.word()} selected={*unit == unit_now}>{ speech.made(&["unit-", unit.word()]) }</option>
                    }) }
                </select>
            }
            if let Kind::Figure(symbol) = question.kind {
                <span class="unit">{ symbol }</span>
            }
            if !matches!((question.get)(&form.answers), Given::Nothing | Given::NotSure) && question.kind == Kind::PostcodeLine {
                <span class="unit read">{ crate::widget::typed::shown(&(question.get)(&form.answers)) }</span>
            }
        </div>
    }
}
