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

/// Keeps the form under this name. Returns whether the device has been asked (before that nothing may be changed).
#[hook]
pub fn use_saved_form(name: &AttrValue, form: &Rc<Form>, blobs: &Blobs, done: &Callback<Action>) -> bool {
    let asked = use_state(|| false);
    let store = use_mut_ref(|| None::<Rc<Store>>);
    let known = use_mut_ref(String::new);
    {
        let (asked, store, blobs, done) = (asked.setter(), store.clone(), blobs.clone(), done.clone());
        use_effect_with(name.clone(), move |name| {
            let name = name.clone();
            spawn_local(async move {
                let opened = Store::of(&name);
                restore(&opened, &blobs, &done).await;
                *store.borrow_mut() = Some(Rc::new(opened));
                asked.set(true);
            });
        });
    }
    {
        let (blobs, done) = (blobs.clone(), done.clone());
        use_effect_with((ByAddress(form.clone()), *asked), move |(form, asked)| {
            let store = store.borrow().clone();
            if let (true, Some(store)) = (*asked, store) {
                let form = form.0.clone();
                spawn_local(async move { keep(&store, &form, &blobs, &known, &done).await });
            }
        });
    }
    *asked
}

/// Takes a draft up again, photos and all.
async fn restore(store: &Store, blobs: &Blobs, done: &Callback<Action>) {
    let found = store.read().await;
    done.emit(Action::KeepingCame(found.trouble));
    let Some(draft) = found.text.and_then(|text| Draft::read(&text)).filter(Draft::is_begun) else { return };
    let mut photos = Vec::new();
    for name in draft.photo_names() {
        let Some(blob) = store.photo(name).await else { continue };
        let Ok(shown_at) = Url::create_object_url_with_blob(&blob) else { continue };
        photos.extend(draft.kept_photo(name, shown_at));
        blobs.borrow_mut().push((name.to_owned(), blob));
    }
    done.emit(Action::DraftFound(Box::new(draft)));
    for photo in photos {
        done.emit(Action::PhotoKept(photo));
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
        let kept = store.keep(&knew, &mine).await;
        done.emit(Action::KeepingCame(kept.trouble));
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
