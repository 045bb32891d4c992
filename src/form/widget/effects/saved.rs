//! Stores the form on the device at each change, and takes over changes that other pages made to the same draft.

use super::ByAddress;
use super::store::{Keeping, Store};
use crate::widget::draft::Draft;
use crate::widget::state::{Action, Form};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, Url};
use yew::prelude::*;

/// The photos' bytes by the SHA-256 that names them, kept in memory while the page is open.
pub type Blobs = Rc<RefCell<Vec<(String, Blob)>>>;

/// One photo's bytes, if they are in memory.
#[must_use]
pub fn blob(blobs: &Blobs, sha256: &str) -> Option<Blob> {
    blobs.borrow().iter().find(|(name, _)| name == sha256).map(|(_, blob)| blob.clone())
}

/// Stores the form on the device under `name` at each change, for at most `days` days. `began` is the draft that the form started from and
/// whether it started at the step after the draft's own; the draft's photos are read from the device. Returns a callback that stores a
/// given form at once, and whether the photos have been read.
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
        // After the prerendered first screen (`leaves`), its draft may not be in the database yet: nothing counts as stored, so all of it
        // is written again. Of any other draft the lines that this program understands count as stored; it never removes the others.
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
    // Also stores changes that came from other pages, and a new number of days.
    use_effect_with((ByAddress(form.clone()), days), move |(form, days)| keep(&keeper, &form.0, *days));
    (at_once, *ready)
}

/// What is needed to store one form.
struct Keeper {
    store: Store,
    blobs: Blobs,
    done: Callback<Action>,
    /// The draft as this page stored it last.
    mine: RefCell<Draft>,
    /// The draft as it was on the device when this page last read it.
    seen: RefCell<Option<Draft>>,
}

/// Stores the form at once if it changed; photos that were added are stored, and photos that were removed are deleted.
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

/// Takes over the changes that other pages made to the draft; `None` means that one of them deleted it.
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

/// Reads a draft's photos from the device.
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
