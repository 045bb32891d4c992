//! The whole page: the state, and the effects that reach outside it: address, clock, service, engine, focus.

use super::ago::Clock;
use super::api::{Job, SignIn};
use super::location::Location;
use super::state::{Action, Deleting, Desk, Progress, Session};
use super::views::{EnquiryView, ListView, PhotoView, SignInView};
use super::words::{fill, say};
use super::{client, focus};
use engine::assessment::assess;
use gloo::events::{EventListener, EventListenerOptions};
use gloo::timers::callback::{Interval, Timeout};
use model::answers::Answers;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use wording::triage as key;
use yew::prelude::*;

type Send = UseReducerDispatcher<Desk>;

/// The clock of this browser.
fn clock() -> Clock {
    let now = js_sys::Date::new_0();
    Clock {
        now: jiff::Timestamp::from_millisecond(now.get_time() as i64).unwrap_or_default(),
        ahead: -(now.get_timezone_offset() as i32),
    }
}

/// The place in the browser's address.
fn place() -> Location {
    Location::read(&gloo::utils::window().location().hash().unwrap_or_default())
}

/// The installer's page.
#[component]
pub fn Page() -> Html {
    let desk = use_reducer(|| Desk::new(place(), clock()));
    let send = desk.dispatcher();
    {
        let send = send.clone();
        use_effect_with((), move |()| wake(send));
    }
    {
        let (send, session, place) = (send.clone(), desk.session.clone(), desk.place.clone());
        let key = place.key().map(str::to_owned);
        let has_config = desk.config.is_some();
        let store_again = desk.unstored().then(|| store(&send, &desk));
        use_effect_with((session, key), move |(session, key)| {
            if matches!(session, Session::In(_)) {
                fetch(&send, key.as_deref());
                if let Some(store_again) = store_again {
                    store_again.emit(()); // the session ended before the correction was stored
                }
                if !has_config {
                    fetch_config(send);
                }
            }
        });
    }
    let there = desk.opened.as_ref().is_some_and(|opened| Some(opened.detail.client_key.as_str()) == desk.place.key());
    use_title(&desk);
    use_warning(desk.unstored());
    use_focus(&desk.place, there, desk.rows.is_some());
    use_question(desk.deleting != Deleting::No);

    let on = Callback::from({
        let send = send.clone();
        move |action| send.dispatch(action)
    });
    let again = Callback::from({
        let (send, key) = (send.clone(), desk.place.key().map(str::to_owned));
        move |()| fetch(&send, key.as_deref())
    });
    let state = Rc::new((*desk).clone());
    let view = match (&desk.session, &desk.place) {
        (Session::Asking, _) => html! {
            <main><h1>{ say(key::LIST_TITLE) }</h1><p class="quietly">{ say(key::ASKING) }</p></main>
        },
        (Session::Out { busy, trouble, expired, code }, _) => html! {
            <SignInView busy={*busy} trouble={trouble.clone()} expired={*expired} code={*code} name={desk.name.clone()}
                on_sign_in={sign_in(&send)} />
        },
        (Session::In(_), Location::Enquiry { photo: Some(photo), .. }) if there => {
            let detail = desk.opened.as_ref().map(|opened| opened.detail.clone());
            detail.map_or_else(Html::default, |detail| html! { <PhotoView {detail} sha256={photo.clone()} /> })
        }
        (Session::In(_), Location::Enquiry { .. }) => html! {
            <EnquiryView desk={state} {on} {again} on_correct={correct(&send, &desk)} on_store={store(&send, &desk)}
                on_mark={mark(&send, &desk)} on_job={job(&send, &desk)} on_delete={delete(&send, &desk)} />
        },
        (Session::In(_), Location::List) => html! {
            <ListView desk={state} {on} {again} on_store={store(&send, &desk)} sign_out={sign_out(&send)} />
        },
    };
    html! {
        <>
            { view }
            <p class="sr" role="status">{ &desk.announced }</p>
        </>
    }
}

/// Runs once on mounting: asks whether the installer is signed in, follows the address, updates the clock, and fetches again when the
/// connection is back.
fn wake(send: Send) -> impl FnOnce() {
    let window = gloo::utils::window();
    let followed = {
        let send = send.clone();
        EventListener::new(&window, "hashchange", move |_| send.dispatch(Action::WentTo(place())))
    };
    let back_on_line = {
        let send = send.clone();
        EventListener::new(&window, "online", move |_| fetch(&send, place().key()))
    };
    let told = {
        let send = send.clone();
        Interval::new(60_000, move || send.dispatch(Action::ClockTold(clock())))
    };
    spawn_local(async move {
        match client::session().await {
            Ok(who) => send.dispatch(Action::SessionKnown(who)),
            Err(trouble) => send.dispatch(Action::SessionUnknown(trouble)),
        }
    });
    move || drop((followed, back_on_line, told))
}

/// Fetches what the place needs: the enquiry with this key, or the list.
fn fetch(send: &Send, key: Option<&str>) {
    let send = send.clone();
    match key.map(str::to_owned) {
        None => spawn_local(async move {
            send.dispatch(Action::ListAsked);
            match client::list().await {
                Ok(rows) => send.dispatch(Action::ListCame(rows)),
                Err(trouble) => send.dispatch(Action::ListFailed(trouble)),
            }
            // Where it can't be asked the list itself says that something is wrong.
            if let Ok(outbox) = client::outbox().await {
                send.dispatch(Action::OutboxCame(outbox));
            }
            if let Ok(apart) = client::apart().await {
                send.dispatch(Action::ApartCame(apart));
            }
        }),
        Some(key) => spawn_local(async move {
            send.dispatch(Action::DetailAsked);
            match client::detail(&key).await {
                Ok(detail) => send.dispatch(Action::DetailCame(Box::new(detail))),
                Err(trouble) => send.dispatch(Action::DetailFailed(key, trouble)),
            }
        }),
    }
}

/// Fetches the published config; without it nothing can be corrected, and the page says so.
fn fetch_config(send: Send) {
    spawn_local(async move {
        if let Ok(config) = client::config().await {
            send.dispatch(Action::ConfigCame(Box::new(config)));
        }
    });
}

fn sign_in(send: &Send) -> Callback<SignIn> {
    let send = send.clone();
    Callback::from(move |typed: SignIn| {
        let send = send.clone();
        send.dispatch(Action::SigningIn);
        spawn_local(async move {
            match client::sign_in(&typed).await {
                Ok(Some(who)) => send.dispatch(Action::SignedIn(who)),
                Ok(None) => send.dispatch(Action::CodeAsked),
                Err(trouble) => send.dispatch(Action::SignInFailed(trouble)),
            }
        });
    })
}

fn sign_out(send: &Send) -> Callback<()> {
    let send = send.clone();
    Callback::from(move |()| {
        let send = send.clone();
        spawn_local(async move {
            match client::sign_out().await {
                Ok(()) => send.dispatch(Action::SignedOut),
                Err(trouble) => send.dispatch(Action::ListFailed(trouble)),
            }
        });
    })
}

/// The callback for a correction: it is shown at once, then assessed after the browser has painted, and stored.
fn correct(send: &Send, desk: &Desk) -> Callback<(&'static str, Rc<Answers>)> {
    let (send, config, key) = (send.clone(), desk.config.clone(), desk.place.key().map(str::to_owned));
    Callback::from(move |(question, answers): (&'static str, Rc<Answers>)| {
        let (Some(config), Some(key)) = (config.clone(), key.clone()) else { return };
        let send = send.clone();
        send.dispatch(Action::Corrected(question, answers.clone()));
        // A timer, so that the answer is painted first.
        Timeout::new(0, move || {
            focus::by_id(&format!("correct-{question}"));
            let assessment = assess(&answers, &config);
            send.dispatch(Action::Reassessed(answers.clone(), Rc::new(assessment)));
            spawn_local(async move { put(&send, &key, &answers).await });
        })
        .forget();
    })
}

/// The callback that stores a correction again.
fn store(send: &Send, desk: &Desk) -> Callback<()> {
    let send = send.clone();
    let key = desk.opened.as_ref().map(|opened| opened.detail.client_key.clone());
    let answers = desk.opened.as_ref().map(|opened| opened.answers.clone());
    Callback::from(move |()| {
        let (Some(key), Some(answers), send) = (key.clone(), answers.clone(), send.clone()) else { return };
        send.dispatch(Action::Storing);
        spawn_local(async move { put(&send, &key, &answers).await });
    })
}

async fn put(send: &Send, key: &str, answers: &Answers) {
    match client::store_answers(key, answers).await {
        Ok(detail) => send.dispatch(Action::Stored(Box::new(detail))),
        Err(trouble) => send.dispatch(Action::NotStored(trouble)),
    }
}

fn mark(send: &Send, desk: &Desk) -> Callback<bool> {
    let (send, key, busy) = (send.clone(), desk.place.key().map(str::to_owned), desk.marking == Progress::Busy);
    Callback::from(move |handled: bool| {
        let (Some(key), false) = (key.clone(), busy) else { return };
        let send = send.clone();
        send.dispatch(Action::Marking);
        spawn_local(async move {
            match client::mark(&key, handled).await {
                Ok(()) => send.dispatch(Action::Marked(key, handled)),
                Err(trouble) => send.dispatch(Action::NotMarked(trouble)),
            }
        });
    })
}

fn job(send: &Send, desk: &Desk) -> Callback<Job> {
    let (send, key, busy) = (send.clone(), desk.place.key().map(str::to_owned), desk.job_storing == Progress::Busy);
    Callback::from(move |job: Job| {
        let (Some(key), false) = (key.clone(), busy) else { return };
        let send = send.clone();
        send.dispatch(Action::JobStoring);
        spawn_local(async move {
            match client::store_job(&key, &job).await {
                Ok(detail) => send.dispatch(Action::JobStored(Box::new(detail))),
                Err(trouble) => send.dispatch(Action::JobNotStored(trouble)),
            }
        });
    })
}

fn delete(send: &Send, desk: &Desk) -> Callback<()> {
    let (send, key, busy) = (send.clone(), desk.place.key().map(str::to_owned), desk.deleting == Deleting::Busy);
    Callback::from(move |()| {
        let (Some(key), false) = (key.clone(), busy) else { return };
        let send = send.clone();
        send.dispatch(Action::Deleting);
        spawn_local(async move {
            match client::delete(&key).await {
                Ok(erased) => {
                    let there = place().key() == Some(&key);
                    send.dispatch(Action::Deleted(key, erased));
                    if there {
                        // In place of its address, which leads nowhere any more. This fails only for an address that can't be read.
                        let _ = gloo::utils::window().location().replace(&Location::List.address());
                    }
                }
                Err(trouble) => send.dispatch(Action::NotDeleted(trouble)),
            }
        });
    })
}

/// Puts the place into the window's title.
#[hook]
fn use_title(desk: &Desk) {
    let title = match (&desk.session, &desk.place, &desk.opened) {
        (Session::In(_), Location::Enquiry { .. }, Some(opened)) => {
            fill(key::TITLE_ENQUIRY, &[("name", &opened.detail.enquiry.payload.contact.name)])
        }
        (Session::In(_), ..) => say(key::TITLE_LIST).to_owned(),
        _ => say(key::TITLE_SIGN_IN).to_owned(),
    };
    use_effect_with(title, |title| gloo::utils::document().set_title(title));
}

/// Has the browser ask before the page is closed while a correction is not stored.
#[hook]
fn use_warning(unstored: bool) {
    use_effect_with(unstored, |unstored| {
        let listening = unstored.then(|| {
            let options = EventListenerOptions::enable_prevent_default();
            EventListener::new_with_options(&gloo::utils::window(), "beforeunload", options, |event| {
                event.prevent_default()
            })
        });
        move || drop(listening)
    });
}

/// Opening an enquiry moves the focus to its heading; going back moves it to the row that was opened.
#[hook]
fn use_focus(place: &Location, there: bool, listed: bool) {
    let came_from = use_mut_ref(|| None::<String>);
    let here = (place.clone(), there, listed);
    use_effect_with(here, move |(place, there, listed)| match place {
        Location::Enquiry { key, .. } if *there => {
            *came_from.borrow_mut() = Some(key.clone());
            focus::first("h1[tabindex]");
        }
        Location::List if *listed => {
            if let Some(key) = came_from.borrow_mut().take() {
                // Where the row is gone, to what says so.
                focus::first(&format!("#row-{key}, #deleted"));
            }
        }
        Location::Enquiry { .. } | Location::List => {}
    });
}

/// Asking whether to delete moves the focus to the question, where a second press of the same key does nothing; calling it off moves it back.
#[hook]
fn use_question(asked: bool) {
    let before = use_mut_ref(|| false);
    use_effect_with(asked, move |asked| {
        if before.replace(*asked) != *asked {
            focus::by_id(if *asked { "delete-ask" } else { "delete" });
            if *asked {
                // The buttons under the question too, which the main button at the foot would cover.
                focus::show_whole(".keeping .notice");
            }
        }
    });
}
