//! The answers by part of the home, each with a control to correct it.

use super::correct::Correct;
use super::enquiry::{EnquiryProps, OpenEnquiry};
use crate::changes::{Change, band_in_figures, changes};
use crate::parts::Notice;
use crate::said::in_words;
use crate::state::{Action, Progress};
use crate::words::{counted, fill, question, say, worded};
use model::answers::{RawAnswer, Word};
use model::questions::{CATALOGUE, INSTALLERS, Place, Question};
use std::rc::Rc;
use wording::triage as key;
use yew::prelude::*;

/// The section with the answers.
pub(super) fn view(shown: &OpenEnquiry<'_>, props: &EnquiryProps) -> Html {
    let (told, untold): (Vec<&'static Question>, Vec<&'static Question>) = CATALOGUE
        .iter()
        .chain(INSTALLERS)
        .filter(|question| listed(question, shown, props))
        .partition(|question| stands_open(question, shown, props));
    html! {
        <section class="answers" aria-labelledby="answers">
            <h2 id="answers" tabindex="-1">{ say(key::ANSWERS_TITLE) }</h2>
            if shown.config.is_none() {
                <p class="quietly">{ say(key::ANSWERS_NO_CONFIG) }</p>
            }
            { for Place::ALL.iter().map(|place| of_place(*place, &told, shown, props)) }
            if !untold.is_empty() {
                <details>
                    <summary>{ counted(key::ANSWERS_UNTOLD_ONE, key::ANSWERS_UNTOLD, untold.len()) }</summary>
                    { for Place::ALL.iter().map(|place| of_place(*place, &untold, shown, props)) }
                </details>
            }
        </section>
    }
}

/// Whether a question is listed: it was answered, it applies given the answers, or it was just corrected.
fn listed(question: &Question, shown: &OpenEnquiry<'_>, props: &EnquiryProps) -> bool {
    (question.get)(shown.answers) != RawAnswer::Nothing
        || (question.asked)(shown.answers)
        || props.desk.correction.done == Some(question.id)
}

/// Whether a question is listed with the answered ones: it has an answer, had one when the enquiry was sent, or was just corrected.
fn stands_open(question: &Question, shown: &OpenEnquiry<'_>, props: &EnquiryProps) -> bool {
    let correction = &props.desk.correction;
    (question.get)(shown.answers) != RawAnswer::Nothing
        || correction.done == Some(question.id)
        || (question.get)(&shown.detail.enquiry.payload.answers) != RawAnswer::Nothing
}

fn of_place(place: Place, among: &[&'static Question], shown: &OpenEnquiry<'_>, props: &EnquiryProps) -> Html {
    let questions: Vec<&'static Question> = among.iter().copied().filter(|question| question.place == place).collect();
    if questions.is_empty() {
        return Html::default();
    }
    html! {
        <div class="place">
            <h3>{ worded("place", place.word()) }</h3>
            <ul class="plain ruled">
                { for questions.into_iter().map(|question| line(question, shown, props)) }
            </ul>
        </div>
    }
}

fn line(asked: &'static Question, shown: &OpenEnquiry<'_>, props: &EnquiryProps) -> Html {
    let given = (asked.get)(shown.answers);
    let sent = (asked.get)(&shown.detail.enquiry.payload.answers);
    let correction = &props.desk.correction;
    let known = !matches!(given, RawAnswer::Nothing | RawAnswer::NotSure);
    let text = question(asked.id);
    html! {
        <li key={asked.id} class={if known { "answer" } else { "answer unknown" }}>
            <p class="question" id={format!("question-{}", asked.id)}>{ text.clone() }</p>
            <p class="given">
                { in_words(asked, &given, shown.pace) }
                if given != sent {
                    <span class="quietly">{ " " }{ fill(key::ANSWER_WAS, &[("sent", &in_words(asked, &sent, shown.pace))]) }</span>
                }
            </p>
            if correction.open == Some(asked.id) {
                <Correct question={asked.id} answers={shown.answers.clone()} on_correct={props.on_correct.clone()}
                    on_close={props.on.reform(|()| Action::CorrectionOpened(None))} />
            } else if shown.config.is_some() {
                <button type="button" class="quiet" id={format!("correct-{}", asked.id)}
                    aria-describedby={format!("question-{}", asked.id)}
                    onclick={props.on.reform(move |_: MouseEvent| Action::CorrectionOpened(Some(asked.id)))}>
                    { say(key::CORRECT) }
                </button>
            }
            if correction.done == Some(asked.id) {
                { what_changed(shown, props) }
            }
        </li>
    }
}

/// What the last correction changed, and whether it is stored.
fn what_changed(shown: &OpenEnquiry<'_>, props: &EnquiryProps) -> Html {
    let correction = &props.desk.correction;
    let list = match (&correction.before, shown.assessment) {
        (Some(before), Some(after)) => changes(before, after),
        _ => Vec::new(),
    };
    let again = props.on_store.reform(|_: MouseEvent| ());
    html! {
        <div class="changed">
            <h4>{ say(key::CHANGED_TITLE) }</h4>
            if !correction.assessed {
                <p>{ say(key::CHANGED_WORKING) }</p>
            } else if list.is_empty() {
                <p>{ say(key::CHANGED_NOTHING) }</p>
            } else {
                <ul class="plain">{ for list.iter().map(one_change) }</ul>
            }
            { match &correction.storing {
                Progress::Idle => html! { <p class="quietly">{ say(key::STORED) }</p> },
                Progress::Busy => html! { <p class="quietly">{ say(key::STORING) }</p> },
                Progress::Failed(trouble) => html! {
                    <Notice trouble={trouble.clone()} again={again} besides={AttrValue::from(say(key::NOT_STORED))} />
                },
            } }
        </div>
    }
}

fn one_change(change: &Change) -> Html {
    match change {
        Change::Said(sentence) => html! { <li>{ sentence.clone() }</li> },
        Change::Band(before, after) => html! {
            <li>
                { say(key::CHANGED_BAND_WORD) }{ " " }
                <del><span class="sr">{ say(key::CHANGED_BEFORE) }{ " " }</span>{ band_in_figures(before.as_ref()) }</del>
                { " " }
                <ins><span class="sr">{ say(key::CHANGED_AFTER) }{ " " }</span>{ band_in_figures(after.as_ref()) }</ins>
            </li>
        },
    }
}

/// A callback given the corrected question and all answers after the correction.
pub(super) type Correcting = Callback<(&'static str, Rc<model::answers::Answers>)>;
