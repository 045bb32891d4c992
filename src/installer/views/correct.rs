//! The control that corrects one answer, by the kind of its answer; "not sure" and "not asked" can always be chosen.

use super::answers::Correcting;
use super::correct_stretches::CorrectStretches;
use crate::draft::{Draft, corrected};
use crate::words::{option, say, worded};
use model::answers::{AnswerKind, Answers, LengthUnit, RawAnswer, Word};
use model::questions;
use std::rc::Rc;
use web_sys::{HtmlInputElement, HtmlSelectElement, SubmitEvent};
use wording::{Key, triage as key};
use yew::prelude::*;

/// The control's properties.
#[derive(PartialEq, Properties)]
pub struct CorrectProps {
    /// The question's id.
    pub question: &'static str,
    /// All answers before the correction.
    pub answers: Rc<Answers>,
    /// Called with all answers after the correction.
    pub on_correct: Correcting,
    /// Called to leave the answer as it is.
    pub on_close: Callback<()>,
}

/// The control.
#[component]
pub fn Correct(props: &CorrectProps) -> Html {
    let question = questions::any_question(props.question).expect("the list is made from the catalogue");
    let draft = use_state(|| Draft::begun(question, &props.answers));
    let error = use_state(|| None::<Key>);
    let form = use_node_ref();
    {
        let form = form.clone();
        use_effect_with((), move |()| {
            let first =
                form.cast::<web_sys::Element>().and_then(|form| form.query_selector("select, input").ok().flatten());
            if let Some(field) =
                first.and_then(|field| wasm_bindgen::JsCast::dyn_into::<web_sys::HtmlElement>(field).ok())
            {
                let _ = field.focus(); // a field that can't be focused is no error
            }
        });
    }
    let take = {
        let (answers, on_correct, error) = (props.answers.clone(), props.on_correct.clone(), error.clone());
        move |given: Result<RawAnswer, Key>| match given.and_then(|given| corrected(&answers, question, &given)) {
            Ok(next) => on_correct.emit((question.id, Rc::new(next))),
            Err(why) => error.set(Some(why)),
        }
    };
    let onsubmit = {
        let (take, draft) = (take.clone(), draft.clone());
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            take(draft.read(question.kind));
        })
    };
    let set = |given: RawAnswer| {
        let take = take.clone();
        Callback::from(move |_: MouseEvent| take(Ok(given.clone())))
    };
    let close = {
        let (on_close, id) = (props.on_close.clone(), format!("correct-{}", question.id));
        Callback::from(move |_: MouseEvent| {
            on_close.emit(());
            let id = id.clone();
            gloo::timers::callback::Timeout::new(0, move || crate::focus::by_id(&id)).forget();
        })
    };
    let error_id = format!("correct-error-{}", question.id);
    html! {
        <form class="correct" ref={form} {onsubmit} aria-labelledby={format!("question-{}", question.id)} novalidate=true>
            { control(question, &draft, error.is_some().then(|| error_id.clone())) }
            if let Some(why) = *error {
                <p class="error" id={error_id} role="alert">{ say(why) }</p>
            }
            <div class="acts">
                <button type="submit">{ say(key::CORRECT_STORE) }</button>
                <button type="button" class="quiet" onclick={set(RawAnswer::NotSure)}>{ say(key::CORRECT_NOT_SURE) }</button>
                <button type="button" class="quiet" onclick={set(RawAnswer::Nothing)}>{ say(key::CORRECT_NOT_ASKED) }</button>
                <button type="button" class="quiet" onclick={close}>{ say(key::CORRECT_LEAVE) }</button>
            </div>
        </form>
    }
}

fn control(question: &'static questions::Question, draft: &UseStateHandle<Draft>, error: Option<String>) -> Html {
    let typed = {
        let draft = draft.clone();
        Callback::from(move |event: InputEvent| {
            let text = event.target_unchecked_into::<HtmlInputElement>().value();
            draft.set(Draft { text, ..(*draft).clone() });
        })
    };
    let chosen = {
        let draft = draft.clone();
        Callback::from(move |event: Event| {
            let text = event.target_unchecked_into::<HtmlSelectElement>().value();
            draft.set(Draft { text, ..(*draft).clone() });
        })
    };
    let labelled = format!("question-{}", question.id);
    let invalid = error.is_some().then_some("true");
    let select = |options: Vec<(String, String)>| {
        html! {
            <select aria-labelledby={labelled.clone()} aria-invalid={invalid} aria-describedby={error.clone()} onchange={chosen.clone()}>
                <option value="" selected={draft.text.is_empty()}>{ say(key::CORRECT_PLEASE) }</option>
                { for options.into_iter().map(|(value, text)| {
                    let selected = draft.text == value;
                    html! { <option {value} {selected}>{ text }</option> }
                }) }
            </select>
        }
    };
    let field = |kind: &'static str, mode: &'static str| {
        html! {
            <input type={kind} inputmode={mode} autocomplete="off" value={draft.text.clone()} oninput={typed.clone()}
                aria-labelledby={labelled.clone()} aria-invalid={invalid} aria-describedby={error.clone()} />
        }
    };
    match question.kind {
        AnswerKind::One(words) => select(
            words
                .iter()
                .enumerate()
                .map(|(nth, word)| (nth.to_string(), option(question.id, word).into_owned()))
                .collect(),
        ),
        AnswerKind::YesNo => select(vec![
            ("1".to_owned(), say(key::ANSWER_YES).to_owned()),
            ("0".to_owned(), say(key::ANSWER_NO).to_owned()),
        ]),
        AnswerKind::Count(least, most) => select((least..=most).map(|n| (n.to_string(), n.to_string())).collect()),
        AnswerKind::Any(words) => ticks(question.id, words, draft),
        AnswerKind::Distance => html! { <div class="measure">{ field("text", "decimal") }{ unit(draft) }</div> },
        AnswerKind::Figure(bounds) => {
            html! { <div class="measure">{ field("text", "decimal") }<span>{ bounds.symbol }</span></div> }
        }
        AnswerKind::Line | AnswerKind::PostcodeLine => field("text", "text"),
        AnswerKind::Day => field("date", "numeric"),
        AnswerKind::Stretches => {
            let on_text = {
                let draft = draft.clone();
                Callback::from(move |text: String| draft.set(Draft { text, ..(*draft).clone() }))
            };
            html! { <CorrectStretches text={draft.text.clone()} {error} {on_text} /> }
        }
    }
}

fn ticks(id: &'static str, words: &'static [&'static str], draft: &UseStateHandle<Draft>) -> Html {
    html! {
        <fieldset>
            <legend class="sr">{ say(key::CORRECT_ANY) }</legend>
            { for words.iter().enumerate().map(|(nth, word)| {
                let bit = 1_u32 << nth;
                let onchange = {
                    let draft = draft.clone();
                    Callback::from(move |_: Event| draft.set(Draft { ticked: draft.ticked ^ bit, ..(*draft).clone() }))
                };
                html! {
                    <label class="choice">
                        <input type="checkbox" checked={draft.ticked & bit != 0} {onchange} />
                        <span>{ option(id, word) }</span>
                    </label>
                }
            }) }
        </fieldset>
    }
}

fn unit(draft: &UseStateHandle<Draft>) -> Html {
    let onchange = {
        let draft = draft.clone();
        Callback::from(move |event: Event| {
            let unit = event.target_unchecked_into::<HtmlSelectElement>().value().parse().unwrap_or(0);
            draft.set(Draft { unit, ..(*draft).clone() });
        })
    };
    html! {
        <select aria-label={say(key::CORRECT_UNIT)} {onchange}>
            { for LengthUnit::ALL.iter().map(|unit| {
                let place = unit.place();
                html! { <option value={place.to_string()} selected={draft.unit == place}>{ worded("length", unit.word()) }</option> }
            }) }
        </select>
    }
}
