//! The list, gravest first, with a filter for handled enquiries and a search by reference.

use super::row::RowView;
use crate::ago::day_of;
use crate::api::{Apart, Unsent};
use crate::enquiry_rows::{Filter, shown};
use crate::parts::Notice;
use crate::state::{Action, Desk, Progress};
use crate::tape::Scale;
use crate::words::{counted, fill, say, worded};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, InputEvent, KeyboardEvent};
use wording::triage as key;
use yew::prelude::*;

/// The list's properties.
#[derive(PartialEq, Properties)]
pub struct ListProps {
    /// The state.
    pub desk: Rc<Desk>,
    /// Called with what happened.
    pub on: Callback<Action>,
    /// Called to fetch again.
    pub again: Callback<()>,
    /// Called to store a correction again.
    pub on_store: Callback<()>,
    /// Called to sign out.
    pub sign_out: Callback<()>,
}

/// The list.
#[component]
pub fn ListView(props: &ListProps) -> Html {
    let desk = &props.desk;
    let again = props.again.reform(|_: MouseEvent| ());
    let sign_out = props.sign_out.reform(|_: MouseEvent| ());
    let refresh = again.clone();
    html! {
        <main class="list">
            <header class="head">
                <h1>{ say(key::LIST_TITLE) }</h1>
                <div class="acts">
                    <button type="button" class="quiet" onclick={refresh}>{ say(key::LIST_REFRESH) }</button>
                    <button type="button" class="quiet" onclick={sign_out}>{ say(key::SIGN_OUT) }</button>
                </div>
            </header>
            if let Some(deleted) = &desk.deleted {
                <p id="deleted" tabindex="-1"><strong>{ deleted }</strong></p>
            }
            if let Progress::Failed(trouble) = &desk.list {
                <Notice trouble={trouble.clone()} again={again}
                    besides={desk.rows.is_some().then(|| AttrValue::from(say(key::KEPT_SHOWN)))} />
            }
            { for desk.outbox.unsent().map(|unsent| not_sent(&unsent)) }
            { unstored(props) }
            { body(props) }
            { apart(&desk.apart) }
        </main>
    }
}

/// What is kept of jobs whose enquiries were deleted.
fn apart(apart: &[Apart]) -> Html {
    if apart.is_empty() {
        return Html::default();
    }
    html! {
        <details class="apart">
            <summary>{ say(key::APART_TITLE) }</summary>
            <p>{ say(key::APART_WHY) }</p>
            <ul>
                { for apart.iter().map(|one| {
                    let became: Vec<_> = one.became.iter().map(|became| worded("became", became.word())).collect();
                    let places = [
                        ("name", &*one.name),
                        ("postcode", &*one.postcode),
                        ("reference", &*one.reference),
                        ("became", &*became.join("; ")),
                        ("day", &*day_of(&one.until)),
                    ];
                    html! { <li>{ fill(key::APART_ONE, &places) }</li> }
                }) }
            </ul>
        </details>
    }
}

/// What could not be sent, why, and whether it is still tried.
fn not_sent(unsent: &Unsent<'_>) -> Html {
    let (one, several) =
        if unsent.mails { (key::OUTBOX_MAIL, key::OUTBOX_MAILS) } else { (key::OUTBOX_WEBHOOK, key::OUTBOX_WEBHOOKS) };
    let what = counted(one, several, unsent.number);
    html! {
        <div class="notice unsent">
            <p>
                <strong>{ what }{ say(key::JOIN_COLON) }</strong>{ unsent.why }{ ". " }
                { say(if unsent.given_up { key::OUTBOX_GIVEN_UP } else { key::OUTBOX_AGAIN }) }
            </p>
        </div>
    }
}

/// A notice about a correction of an enquiry that was left before the correction was stored.
fn unstored(props: &ListProps) -> Html {
    let (Progress::Failed(trouble), true, Some(opened)) =
        (&props.desk.correction.storing, props.desk.unstored(), &props.desk.opened)
    else {
        return Html::default();
    };
    let besides = fill(key::NOT_STORED_OF, &[("name", &opened.detail.enquiry.payload.contact.name)]);
    html! {
        <Notice trouble={trouble.clone()} again={props.on_store.reform(|_: MouseEvent| ())} besides={AttrValue::from(besides)} />
    }
}

fn body(props: &ListProps) -> Html {
    let desk = &props.desk;
    let Some(rows) = &desk.rows else {
        return html! {
            if desk.list == Progress::Busy || desk.list == Progress::Idle {
                <p class="quietly">{ say(key::LIST_LOADING) }</p>
            }
        };
    };
    if rows.is_empty() {
        return html! {
            <div class="empty">
                <p>{ say(key::LIST_EMPTY) }</p>
                <p>{ say(key::LIST_EMPTY_THEN) }</p>
            </div>
        };
    }
    let visible = shown(rows, desk.shown, &desk.search);
    let scale = Scale::over(rows.iter().filter_map(|row| row.band.as_ref()));
    let count = counted(key::LIST_SHOWN_ONE, key::LIST_SHOWN, visible.len());
    html! {
        <>
            { choosing(props) }
            <p class="count">
                { count }{ " " }
                { if desk.search.trim().is_empty() { say(key::LIST_ORDER).to_owned() } else { fill(key::LIST_FOUND, &[("text", desk.search.trim())]) } }
            </p>
            if visible.is_empty() {
                <p class="empty">{ say(if desk.search.trim().is_empty() { key::LIST_NONE_SUCH } else { key::LIST_NOT_FOUND }) }</p>
            } else {
                <div class="columns" aria-hidden="true">
                    <span></span>
                    <span>{ say(key::COLUMN_WHAT) }</span>
                    <span>{ say(key::COLUMN_WHERE) }</span>
                    <span>{ say(key::COLUMN_WHEN) }</span>
                    <span>{ say(key::COLUMN_BAND) }</span>
                    <span>{ say(key::COLUMN_STATE) }</span>
                </div>
                <ol class="rows" onkeydown={walk_rows}>
                    { for visible.into_iter().map(|row| html! {
                        <RowView key={row.key.clone()} row={row.clone()} {scale} clock={desk.clock} />
                    }) }
                </ol>
            }
        </>
    }
}

/// The filter and the search field.
fn choosing(props: &ListProps) -> Html {
    let on_search = props
        .on
        .reform(|event: InputEvent| Action::Searched(event.target_unchecked_into::<HtmlInputElement>().value()));
    html! {
        <form class="choosing" role="search" onsubmit={|event: SubmitEvent| event.prevent_default()}>
            <fieldset>
                <legend>{ say(key::SHOW_LEGEND) }</legend>
                { for Filter::ALL.into_iter().map(|choice| {
                    let onchange = props.on.reform(move |_: Event| Action::Chose(choice));
                    html! {
                        <label class="choice">
                            <input type="radio" name="shown" value={choice.word()} checked={props.desk.shown == choice} {onchange} />
                            <span>{ worded("show", choice.word()) }</span>
                        </label>
                    }
                }) }
            </fieldset>
            <div class="search">
                <label for="search">{ say(key::SEARCH_LABEL) }</label>
                <input id="search" type="search" value={props.desk.search.clone()} oninput={on_search}
                    autocomplete="off" autocapitalize="characters" spellcheck="false" />
            </div>
        </form>
    }
}

/// Moves the focus between the rows' links with the up and down keys; the tab key works as well.
fn walk_rows(event: KeyboardEvent) {
    let key = event.key();
    if !matches!(key.as_str(), "ArrowDown" | "ArrowUp" | "Home" | "End") {
        return;
    }
    let Some(from) = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()) else { return };
    let Some(row) = from.closest("li.row").ok().flatten() else { return };
    let next = match key.as_str() {
        "ArrowDown" => row.next_element_sibling(),
        "ArrowUp" => row.previous_element_sibling(),
        "Home" => row.parent_element().and_then(|list| list.first_element_child()),
        _ => row.parent_element().and_then(|list| list.last_element_child()),
    };
    let link = next.and_then(|row| row.query_selector("a[data-row]").ok().flatten());
    if let Some(link) = link.and_then(|link| link.dyn_into::<HtmlElement>().ok()) {
        event.prevent_default();
        let _ = link.focus(); // a link that can't be focused is no error
    }
}
