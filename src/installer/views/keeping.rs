//! How long the enquiry is kept, all that is held of it as a file, and deleting it, which takes a second press elsewhere.

use super::enquiry::{EnquiryProps, OpenEnquiry};
use crate::ago::day;
use crate::client::export_source;
use crate::state::{Action, Deleting};
use crate::words::{fill, say};
use record::enquiry::Reference;
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
                { deleting(props, shown) }
            } else {
                <p class="quietly">{ say(key::KEEPING_OWNER) }</p>
            }
        </section>
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
