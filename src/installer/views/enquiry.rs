//! One opened enquiry: the decision first, below it what the decision rests on.

use super::{
    answers, bill, contact, decision, estimate, facts, flags, keeping, obligations, open_questions, photos, van,
};
use crate::ago::{ago, day_and_time};
use crate::api::{Detail, Job};
use crate::headline::{because_of, lead};
use crate::parts::Notice;
use crate::state::{Action, Desk, Opened, Progress};
use crate::trouble::Trouble;
use crate::words::{fill, say};
use engine::assessment::{Assessment, NoBand};
use model::answers::{Answers, METRES_IN_A_PACE};
use model::config::{Config, Thresholds};
use model::units::{Pence, Ratio};
use std::rc::Rc;
use wording::triage as key;
use yew::prelude::*;

/// The view's properties.
#[derive(PartialEq, Properties)]
pub struct EnquiryProps {
    /// The state.
    pub desk: Rc<Desk>,
    /// Called with what happened.
    pub on: Callback<Action>,
    /// Called to fetch again.
    pub again: Callback<()>,
    /// Called with a corrected question and all answers after the correction.
    pub on_correct: Callback<(&'static str, Rc<Answers>)>,
    /// Called to store a correction again.
    pub on_store: Callback<()>,
    /// Called to mark the enquiry as handled, or not.
    pub on_mark: Callback<bool>,
    /// Called to store what is said of the job that it became.
    pub on_job: Callback<Job>,
    /// Called to delete the enquiry, once that is confirmed.
    pub on_delete: Callback<()>,
}

/// The data that every section of an opened enquiry is made from.
pub(super) struct OpenEnquiry<'a> {
    pub detail: &'a Detail,
    pub answers: &'a Rc<Answers>,
    pub assessment: Option<&'a Rc<Assessment>>,
    pub config: Option<&'a Rc<Config>>,
    pub pace: Ratio,
    pub worth_asking: Pence,
}

/// The view of one opened enquiry.
#[component]
pub fn EnquiryView(props: &EnquiryProps) -> Html {
    let desk = &props.desk;
    let opened = desk.opened.as_ref().filter(|opened| Some(opened.detail.client_key.as_str()) == desk.place.key());
    let again = match &desk.detail {
        Progress::Failed(Trouble::NotFound) => None,
        _ => Some(props.again.reform(|_: MouseEvent| ())),
    };
    html! {
        <main class="enquiry">
            <p class="back"><a href="#">{ say(key::BACK_TO_LIST) }</a></p>
            if opened.is_none() {
                <h1 tabindex="-1">{ say(key::ENQUIRY_TITLE) }</h1>
            }
            if let Progress::Failed(trouble) = &desk.detail {
                <Notice trouble={trouble.clone()} {again}
                    besides={opened.is_some().then(|| AttrValue::from(say(key::KEPT_SHOWN)))} />
            }
            { match opened {
                Some(opened) => sections(props, opened),
                None => html! {
                    if desk.detail == Progress::Busy || desk.detail == Progress::Idle {
                        <p class="quietly">{ say(key::ENQUIRY_LOADING) }</p>
                    }
                },
            } }
        </main>
    }
}

fn sections(props: &EnquiryProps, opened: &Opened) -> Html {
    let desk = &props.desk;
    let shown = OpenEnquiry {
        detail: &opened.detail,
        answers: &opened.answers,
        assessment: opened.assessment.as_ref(),
        config: desk.config.as_ref(),
        pace: desk.config.as_ref().map_or(METRES_IN_A_PACE, |config| config.thresholds.pace),
        worth_asking: desk
            .config
            .as_ref()
            .map_or_else(|| Thresholds::default().worth_asking, |config| config.thresholds.worth_asking),
    };
    html! {
        <>
            { head(props, &shown) }
            <div class="spread">
                <div class="first">
                    if let Some(assessment) = shown.assessment {
                        { decision::view(&shown, assessment) }
                        { flags::view(&assessment.flags) }
                    } else {
                        <p class="notice">{ say(key::NEVER_ASSESSED) }</p>
                    }
                </div>
                <div class="beside">
                    { photos::view(&shown) }
                    if let Some(assessment) = shown.assessment {
                        { open_questions::view(&assessment.open, shown.worth_asking) }
                    }
                </div>
            </div>
            if let Some(assessment) = shown.assessment {
                { estimate::view(assessment, shown.answers, shown.config) }
                { bill::view(assessment) }
                if !assessment.no_band.is_some_and(NoBand::leaves_no_class) {
                    { van::view(&assessment.work) }
                }
                { obligations::view(&shown, assessment, desk.clock.wall(desk.clock.now).date()) }
            }
            { answers::view(&shown, props) }
            if let Some(assessment) = shown.assessment {
                { facts::view(&shown, assessment) }
            }
            { keeping::view(props, &shown) }
            { acts(props, &shown) }
        </>
    }
}

/// The heading: name, complexity in words with its cause, reference, time of arrival.
fn head(props: &EnquiryProps, shown: &OpenEnquiry<'_>) -> Html {
    let detail = shown.detail;
    let envelope = &detail.enquiry.envelope;
    let received = envelope.received.as_ref().and_then(|text| text.parse::<jiff::Timestamp>().ok());
    let outward = shown.answers.home.postcode.known().map(|postcode| postcode.as_str().to_owned());
    html! {
        <header class="head">
            <h1 tabindex="-1">
                { &detail.enquiry.payload.contact.name }
                if let Some(outward) = outward {
                    <span class="outward">{ " " }{ outward }</span>
                }
            </h1>
            if let Some(assessment) = shown.assessment {
                <p class="verdict">
                    <strong>{ lead(
                        assessment.complexity,
                        !assessment.settle.is_empty(),
                        assessment.flags.first().map(|flag| flag.weight),
                    ) }</strong>
                    if let Some(cause) = because_of(assessment) {
                        { say(key::JOIN_COLON) }{ cause }
                    }
                </p>
            }
            <p class="facts-line">
                if let Some(reference) = &envelope.reference {
                    <span>{ fill(key::REFERENCE, &[("reference", reference.as_str())]) }</span>
                }
                if let Some(received) = received {
                    <span>{ fill(key::RECEIVED, &[
                        ("when", &day_and_time(received, props.desk.clock)),
                        ("ago", &ago(received, props.desk.clock)),
                    ]) }</span>
                }
                if detail.handled {
                    <span>{ say(key::ROW_HANDLED) }</span>
                }
                if detail.corrected.is_some() {
                    <span>{ say(key::ROW_CORRECTED) }</span>
                }
            </p>
            { contact::view(shown) }
        </header>
    }
}

/// The one main action, within reach of a thumb.
fn acts(props: &EnquiryProps, shown: &OpenEnquiry<'_>) -> Html {
    let (handled, busy) = (shown.detail.handled, props.desk.marking == Progress::Busy);
    let onclick = props.on_mark.reform(move |_: MouseEvent| !handled);
    html! {
        <div class="act">
            if let Progress::Failed(trouble) = &props.desk.marking {
                <p class="error">{ trouble.sentence() }{ " " }{ say(key::NOT_MARKED) }</p>
            }
            <button type="button" class="main" {onclick} aria-disabled={busy.then_some("true")}>
                { say(match (busy, handled) {
                    (true, _) => key::MARK_BUSY,
                    (false, true) => key::MARK_WAITING,
                    (false, false) => key::MARK_HANDLED,
                }) }
            </button>
        </div>
    }
}
