//! Keeps the form on the device after each change and takes it up again on a reload.

use super::ByAddress;
use super::store::Store;
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

/// Keeps the form under this name. The photos of the draft that it began with are found again first; before that nothing is
/// changed on the device. `began` is that draft, and whether its own step was left then. Returns whether
/// they have been.
#[hook]
pub fn use_saved_form(
    name: &AttrValue,
    began: (&Option<AttrValue>, bool),
    form: &Rc<Form>,
    blobs: &Blobs,
    done: &Callback<Action>,
) -> bool {
    let (lines, leaves) = began;
    let store = use_state(|| None::<ByAddress<Store>>);
    // What the first screen kept may not be in yet: then all of it is put in here as well.
    let known = use_mut_ref(|| lines.as_ref().filter(|_| !leaves).map(ToString::to_string).unwrap_or_default());
    {
        let (store, blobs, done) = (store.setter(), blobs.clone(), done.clone());
        use_effect_with((name.clone(), lines.clone()), move |(name, lines)| {
            let (opened, draft) = (Store::of(name), lines.as_deref().and_then(Draft::read));
            spawn_local(async move {
                if let Some(draft) = draft {
                    restore_photos(&opened, &draft, &blobs, &done).await;
                }
                store.set(Some(ByAddress(Rc::new(opened))));
            });
        });
    }
    {
        let (blobs, done) = (blobs.clone(), done.clone());
        use_effect_with((ByAddress(form.clone()), (*store).clone()), move |(form, store)| {
            if let Some(store) = store.clone() {
                let form = form.0.clone();
                spawn_local(async move { keep(&store.0, &form, &blobs, &known, &done).await });
            }
        });
    }
    store.is_some()
}

/// Finds a draft's photos on the device.
async fn restore_photos(store: &Store, draft: &Draft, blobs: &Blobs, done: &Callback<Action>) {
    for name in draft.photo_names() {
        let Some(blob) = store.photo(name).await else { continue };
        let Ok(shown_at) = Url::create_object_url_with_blob(&blob) else { continue };
        let photo = draft.kept_photo(name, shown_at);
        blobs.borrow_mut().push((name.to_owned(), blob));
        photo.into_iter().for_each(|photo| done.emit(Action::PhotoKept(photo)));
    }
}

/// Writes what there is; photos that are gone from the form go from the device.
async fn keep(store: &Store, form: &Form, blobs: &Blobs, known: &RefCell<String>, done: &Callback<Action>) {
    let draft = Draft::of(form);
    let mine = draft.write();
    let knew = known.replace(mine.clone());
    if knew == mine {
        return;
    }
    let before = Draft::read(&knew);
    if draft.is_begun() {
        // The answers first: a photo that finds no room must not hold them up.
        done.emit(Action::KeepingCame(store.keep(&knew, &mine).await));
    } else if before.as_ref().is_some_and(Draft::is_begun) {
        store.drop().await;
    }
    let had = |draft: &Draft, name: &str| draft.photo_names().any(|other| other == name);
    for name in draft.photo_names().filter(|name| !before.as_ref().is_some_and(|before| had(before, name))) {
        if let Some(blob) = blob(blobs, name)
            && let Err(trouble) = store.keep_photo(name, &blob).await
        {
            done.emit(Action::KeepingCame(Some(trouble)));
        }
    }
    for name in before.iter().flat_map(Draft::photo_names).filter(|name| !had(&draft, name)) {
        store.drop_photo(name).await;
        blobs.borrow_mut().retain(|(other, _)| other != name);
    }
}
