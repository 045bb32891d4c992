//! Keeps the form on the device at each change, and takes over what other pages with the same draft put in.

use super::ByAddress;
use super::store::{Keeping, Store};
use crate::widget::draft::Draft;
use crate::widget::state::{Action, Form};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, Url};
use yew::prelude::*;

/// The photos' bytes by name, as long as the page lives.
pub type Blobs = Rc<RefCell<Vec<(String, Blob)>>>;

/// One photo's bytes.
#[must_use]
pub fn blob(blobs: &Blobs, sha256: &str) -> Option<Blob> {
    blobs.borrow().iter().find(|(name, _)| name == sha256).map(|(_, blob)| blob.clone())
}

/// Keeps the form under this name for so many days. `began` is the draft that it began with, and whether its own step was left
/// then; its photos are found again. Returns what keeps the form as it is now, at once, and whether they have been found.
#[hook]
pub fn use_saved_form(
    name: &AttrValue,
    began: (&Option<AttrValue>, bool),
    days: Option<u16>,
    form: &Rc<Form>,
    blobs: &Blobs,
    done: &Callback<Action>,
) -> (Callback<Rc<Form>>, bool) {
    let (lines, leaves) = began;
    let ready = use_state(|| false);
    let keeper = use_memo(name.clone(), |name| {
        // What the first screen kept may not be in yet: then all of it is put in here as well. Of a whole draft only that is
        // known here which this program understands: the rest is not its own to take away.
        let known = lines.as_deref().filter(|_| !leaves).map(|lines| Draft::of(&Form::begun(Some(lines), false)));
        Keeper {
            store: Store::of(name),
            blobs: blobs.clone(),
            done: done.clone(),
            seen: RefCell::new(known.clone()),
            mine: RefCell::new(known.unwrap_or_default()),
        }
    });
    {
        let (keeper, ready) = (keeper.clone(), ready.setter());
        use_effect_with((name.clone(), lines.clone()), move |(_, lines)| {
            let (keeping, draft) = (Rc::clone(&keeper), lines.as_deref().and_then(Draft::read));
            spawn_local(async move {
                bring_photos(keeping, draft.unwrap_or_default()).await;
                ready.set(true);
            });
            let listener = Rc::downgrade(&keeper);
            keeper.store.listen(move |draft| {
                if let Some(keeper) = listener.upgrade() {
                    take_over(&keeper, draft);
                }
            });
        });
    }
    let at_once = {
        let keeper = keeper.clone();
        use_callback((ByAddress(keeper.clone()), days), move |form: Rc<Form>, (_, days)| keep(&keeper, &form, *days))
    };
    // What other pages and the installer's own number of days changed.
    use_effect_with((ByAddress(form.clone()), days), move |(form, days)| keep(&keeper, &form.0, *days));
    (at_once, *ready)
}

/// Keeps one form.
struct Keeper {
    store: Store,
    blobs: Blobs,
    done: Callback<Action>,
    /// The draft as this page has it.
    mine: RefCell<Draft>,
    /// The draft as it was on the device when this page looked last.
    seen: RefCell<Option<Draft>>,
}

/// Keeps what there is, at once; photos that are gone from the form go from the device.
fn keep(keeper: &Rc<Keeper>, form: &Form, days: Option<u16>) {
    let draft = Draft::of(form).lasting(days);
    let before = keeper.mine.replace(draft.clone());
    if draft.says_as(&before) {
        return;
    }
    let Keeper { store, blobs, .. } = &**keeper;
    if draft.is_begun() {
        // The answers first: a photo that finds no room must not hold them up.
        let (kept, keeper) = (store.keep(&before.write(), &draft.write()), Rc::clone(keeper));
        spawn_local(async move {
            let Keeping { trouble, draft } = kept.await;
            keeper.done.emit(Action::KeepingCame(trouble));
            draft.into_iter().for_each(|draft| take_over(&keeper, draft));
        });
    } else if before.is_begun() {
        keeper.seen.replace(None);
        let keeper = Rc::clone(keeper);
        spawn_local(async move { keeper.store.drop().await });
    }
    let had = |draft: &Draft, name: &str| draft.photo_names().any(|other| other == name);
    for name in draft.photo_names().filter(|name| !had(&before, name)) {
        let (Some(blob), name, keeper) = (blob(blobs, name), name.to_owned(), Rc::clone(keeper)) else { continue };
        spawn_local(async move {
            if let Err(trouble) = keeper.store.keep_photo(&name, &blob).await {
                keeper.done.emit(Action::KeepingCame(Some(trouble)));
            }
        });
    }
    for name in before.photo_names().filter(|name| !had(&draft, name)) {
        blobs.borrow_mut().retain(|(other, _)| other != name);
        let (name, keeper) = (name.to_owned(), Rc::clone(keeper));
        spawn_local(async move { keeper.store.drop_photo(&name).await });
    }
}

/// Takes over what other pages put into the draft; without one they threw it away.
fn take_over(keeper: &Rc<Keeper>, draft: Option<String>) {
    let now = draft.as_deref().and_then(Draft::read);
    let seen = keeper.seen.replace(now.clone());
    let Some(now) = now else {
        if seen.is_some() {
            keeper.mine.take();
            keeper.done.emit(Action::StartedAgain);
        }
        return;
    };
    let news = now.news(seen.as_ref(), &keeper.mine.borrow());
    if news.is_empty() {
        return;
    }
    keeper.mine.borrow_mut().take(&news);
    let photos = news.iter().filter(|(name, value)| name.starts_with("photo ") && !value.is_empty()).cloned();
    let photos = Draft::from_iter(photos);
    keeper.done.emit(Action::ToldElsewhere(news));
    spawn_local(bring_photos(Rc::clone(keeper), photos));
}

/// Finds a draft's photos on the device.
async fn bring_photos(keeper: Rc<Keeper>, draft: Draft) {
    for name in draft.photo_names() {
        let Some(blob) = keeper.store.photo(name).await else { continue };
        let Ok(shown_at) = Url::create_object_url_with_blob(&blob) else { continue };
        if let Some(photo) = draft.kept_photo(name, shown_at) {
            keeper.mine.borrow_mut().have_photo(&photo);
            keeper.blobs.borrow_mut().push((name.to_owned(), blob));
            keeper.done.emit(Action::PhotoKept(photo));
        }
    }
}
