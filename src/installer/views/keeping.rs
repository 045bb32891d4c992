//! How long the enquiry is kept, all that is held of it as a file, and deleting it, which takes a second press elsewhere.

use super::enquiry::{EnquiryProps, OpenEnquiry};
use crate::ago::{day, day_of};
use crate::api::Job;
use crate::client::export_source;
use crate::state::{Action, Deleting, Progress};
use crate::words::{fill, say, worded};
use model::answers::Word;
use record::enquiry::{Became, Reference};
use web_sys::HtmlInputElement;
use wording::triage as key;
use yew::prelude::*;

/// The section with what is kept.
pub(super) fn view(props: &EnquiryProps, shown: &OpenEnquiry<'_>) -> Html {
    let envelope = &shown.detail.enquiry.envelope;
    html! {
        <section class="keeping" aria-labelledby="keeping-title">
            <h2 id="keeping-title">{ say(key::KEEPING_TITLE) }</h2>
            if let Some(until) = envelope.keep_until {
                <p>{ fill(key::KEEPING_UNTIL, &[("day", &day(until))]) }</p>
            }
            if props.desk.is_owners() {
                <p><a href={export_source(&shown.detail.client_key)} download="">{ say(key::KEEPING_EXPORT) }</a></p>
            }
            { job(props, shown) }
            if props.desk.is_owners() {
                { deleting(props, shown) }
            } else {
                <p class="quietly">{ say(key::KEEPING_OWNER) }</p>
            }
        </section>
    }
}

/// Whether the enquiry became a job, of which the law asks something to be kept when all else is deleted.
fn job(props: &EnquiryProps, shown: &OpenEnquiry<'_>) -> Html {
    let desk = &props.desk;
    let stored = shown.detail.job.clone().unwrap_or_default();
    let job = desk.job.clone().unwrap_or_else(|| stored.clone());
    let given = |job: Job| Action::JobGiven(job);
    let rows = Became::ALL.iter().map(|became| {
        let (job, became) = (job.clone(), *became);
        let onchange = props.on.reform({
            let job = job.clone();
            move |event: Event| {
                let mut job = job.clone();
                job.became.retain(|other| *other != became);
                if event.target_unchecked_into::<HtmlInputElement>().checked() {
                    job.became.push(became);
                }
                given(job)
            }
        });
        html! {
            <label class="choice">
                <input type="checkbox" checked={job.became.contains(&became)} {onchange} />
                <span>{ worded("became", became.word()) }</span>
            </label>
        }
    });
    let dated = props.on.reform({
        let job = job.clone();
        move |event: InputEvent| {
            let until = event.target_unchecked_into::<HtmlInputElement>().value();
            given(Job { until, ..job.clone() })
        }
    });
    let today = desk.clock.wall(desk.clock.now).date().to_string();
    let (busy, changed) = (desk.job_storing == Progress::Busy, job != stored);
    let onsubmit = props.on_job.reform({
        // Without a tick the mark is taken away, whatever the day.
        let job = if job.became.is_empty() { Job { until: today.clone(), ..job.clone() } } else { job.clone() };
        move |event: SubmitEvent| {
            event.prevent_default();
            job.clone()
        }
    });
    html! {
        <details class="job" open={!stored.became.is_empty() || changed}>
            <summary>{ say(key::JOB_TITLE) }</summary>
            <form {onsubmit}>
                <p>{ say(key::JOB_WHAT_STAYS) }</p>
                <fieldset>
                    <legend class="sr">{ say(key::JOB_BECAME) }</legend>
                    { for rows }
                </fieldset>
                <p>
                    <label for="job-until">{ say(key::JOB_UNTIL) }</label>
                    <input id="job-until" type="date" min={today} required={!job.became.is_empty()} value={job.until.clone()} oninput={dated} />
                </p>
                if let Progress::Failed(trouble) = &desk.job_storing {
                    <p class="error">{ trouble.sentence() }</p>
                }
                <p>
                    <button type="submit" id="job-store" aria-disabled={busy.then_some("true")}>{ say(key::JOB_STORE) }</button>
                    if !changed && !stored.became.is_empty() {
                        { " " }{ fill(key::JOB_IS_KEPT, &[("day", &day_of(&stored.until))]) }
                    }
                </p>
            </form>
        </details>
    }
}

fn deleting(props: &EnquiryProps, shown: &OpenEnquiry<'_>) -> Html {
    let ask = |asked| props.on.reform(move |_: MouseEvent| Action::DeletionAsked(asked));
    let deleting = &props.desk.deleting;
    if *deleting == Deleting::No {
        return html! {
            <p><button type="button" class="quiet" id="delete" onclick={ask(true)}>{ say(key::DELETE) }</button></p>
        };
    }
    let enquiry = &shown.detail.enquiry;
    let reference = enquiry.envelope.reference.as_ref().map(Reference::as_str).unwrap_or_default();
    let places = [("name", &*enquiry.payload.contact.name), ("reference", reference)];
    let busy = *deleting == Deleting::Busy;
    html! {
        <div class="notice" role="group" aria-labelledby="delete-ask">
            <p id="delete-ask" tabindex="-1">
                <strong>{ fill(key::DELETE_ASK, &places) }</strong>{ " " }{ say(key::DELETE_FOR_GOOD) }
                if shown.detail.job.is_some() {
                    { " " }{ say(key::DELETE_JOB) }
                }
            </p>
            if let Deleting::Failed(trouble) = deleting {
                <p class="error">{ trouble.sentence() }{ " " }{ say(key::NOT_DELETED) }</p>
            }
            <div class="acts">
                <button type="button" onclick={ask(false)}>{ say(key::DELETE_NOT) }</button>
                <button type="button" id="delete-now" onclick={props.on_delete.reform(|_: MouseEvent| ())}
                    aria-disabled={busy.then_some("true")}>
                    { say(if busy { key::DELETE_BUSY } else { key::DELETE_NOW }) }
                </button>
            </div>
        </div>
    }
}
