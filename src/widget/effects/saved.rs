//! Keeps the form on the device after each change and takes it up again on a reload.

use super::ByAddress;
use super::store::{Refused, Store};
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
    let kept_photos = use_mut_ref(Vec::<String>::new);
    {
        let (asked, store, blobs, done) = (asked.setter(), store.clone(), blobs.clone(), done.clone());
        use_effect_with(name.clone(), move |name| {
            let name = name.clone();
            spawn_local(async move {
                let opened = Store::of(&name);
                if restore(&opened, &blobs, &done).await.is_err() {
                    done.emit(Action::NothingKept);
                }
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
                spawn_local(async move {
                    if !form.keeps_nothing && keep(&store, &form, &blobs, &kept_photos).await.is_err() {
                        done.emit(Action::NothingKept);
                    }
                });
            }
        });
    }
    *asked
}

/// Takes a draft up again, photos and all.
async fn restore(store: &Store, blobs: &Blobs, done: &Callback<Action>) -> Result<(), Refused> {
    let Some(draft) = store.draft().await?.and_then(|text| Draft::read(&text)).filter(Draft::is_begun) else {
        return Ok(());
    };
    let mut photos = Vec::new();
    for name in draft.photo_names() {
        let Some(blob) = store.photo(name).await? else { continue };
        let Ok(shown_at) = Url::create_object_url_with_blob(&blob) else { continue };
        photos.extend(draft.kept_photo(name, shown_at));
        blobs.borrow_mut().push((name.to_owned(), blob));
    }
    done.emit(Action::DraftFound(Box::new(draft)));
    for photo in photos {
        done.emit(Action::PhotoKept(photo));
    }
    Ok(())
}

/// Writes what there is; photos that are gone from the form go from the device.
async fn keep(store: &Store, form: &Form, blobs: &Blobs, kept: &RefCell<Vec<String>>) -> Result<(), Refused> {
    let draft = Draft::of(form);
    let now: Vec<String> = draft.photo_names().map(str::to_owned).collect();
    let before = kept.replace(now.clone());
    for name in now.iter().filter(|name| !before.contains(name)) {
        if let Some(blob) = blob(blobs, name) {
            store.keep_photo(name, &blob).await?;
        }
    }
    if draft.is_begun() {
        store.keep_draft(&draft.write()).await?
    } else {
        store.drop_draft().await?
    }
    for name in before.iter().filter(|name| !now.contains(name)) {
        store.drop_photo(name).await?;
        blobs.borrow_mut().retain(|(other, _)| other != name);
    }
    Ok(())
}
