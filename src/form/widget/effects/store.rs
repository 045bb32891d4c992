//! The store on the device, which `www/form/store.js` implements: the page's start script uses the same module. What a draft says is not
//! known here.

use crate::widget::state::KeepTrouble;
use js_sys::Promise;
use std::cell::RefCell;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::Blob;

#[wasm_bindgen(raw_module = "./store.js")]
extern "C" {
    #[wasm_bindgen(js_name = Store)]
    type Kept;
    #[wasm_bindgen(constructor, js_class = "Store")]
    fn new(form: &str) -> Kept;
    #[wasm_bindgen(method)]
    fn keep(this: &Kept, knew: &str, mine: &str) -> Promise;
    #[wasm_bindgen(method)]
    fn listen(this: &Kept, heard: &Closure<dyn FnMut(Option<String>)>);
    #[wasm_bindgen(method)]
    fn close(this: &Kept);
    #[wasm_bindgen(method)]
    fn drop(this: &Kept) -> Promise;
    #[wasm_bindgen(method)]
    fn photo(this: &Kept, name: &str) -> Promise;
    #[wasm_bindgen(method, js_name = keepPhoto)]
    fn keep_photo(this: &Kept, name: &str, blob: &Blob) -> Promise;
    #[wasm_bindgen(method, js_name = dropPhoto)]
    fn drop_photo(this: &Kept, name: &str) -> Promise;

    type Found;
    #[wasm_bindgen(method, getter)]
    fn draft(this: &Found) -> Option<String>;
    #[wasm_bindgen(method, getter)]
    fn trouble(this: &Found) -> Option<String>;
    #[wasm_bindgen(method, getter)]
    fn unread(this: &Found) -> Option<bool>;
}

/// Called when another page may have changed the same draft, with the draft as it is now.
type Listening = Closure<dyn FnMut(Option<String>)>;

/// The store of one form on one page.
pub struct Store {
    kept: Kept,
    listening: RefCell<Option<Listening>>,
}

impl Drop for Store {
    fn drop(&mut self) {
        self.kept.close();
    }
}

/// The outcome of storing a draft.
pub struct Keeping {
    /// Why the device does not keep it; `None` where it does.
    pub trouble: Option<KeepTrouble>,
    /// The draft as it is stored now, with the changes of other pages: `None` where it could not be read, `Some(None)` where another page
    /// deleted it.
    pub draft: Option<Option<String>>,
}

impl Store {
    /// The store of a form; `form` is the address of its config, which tells the forms on one site apart.
    #[must_use]
    pub fn of(form: &str) -> Self {
        Self { kept: Kept::new(form), listening: RefCell::default() }
    }

    /// Calls `heard` whenever another page may have changed the draft, with the draft as it is now (`None` where it was deleted).
    pub fn listen(&self, heard: impl FnMut(Option<String>) + 'static) {
        let heard = Closure::new(heard);
        self.kept.listen(&heard);
        self.listening.replace(Some(heard));
    }

    /// Stores a draft: `mine` as it is now, `knew` as this page stored it last. The change is noted synchronously before this returns, so
    /// that it survives if the page goes away at once.
    pub fn keep(&self, knew: &str, mine: &str) -> impl Future<Output = Keeping> + use<> {
        let kept = self.kept.keep(knew, mine);
        async {
            let found: Found = answer(kept).await.unchecked_into();
            let trouble = found.trouble();
            Keeping {
                trouble: trouble.map(|word| if word == FULL { KeepTrouble::Full } else { KeepTrouble::Refused }),
                draft: (!found.unread().unwrap_or(false)).then(|| found.draft()),
            }
        }
    }

    /// Deletes the draft and its photos.
    pub async fn drop(&self) {
        answer(self.kept.drop()).await;
    }

    /// A photo's bytes; `None` where the device does not have them.
    pub async fn photo(&self, sha256: &str) -> Option<Blob> {
        answer(self.kept.photo(sha256)).await.dyn_into().ok()
    }

    /// Stores a photo's bytes.
    ///
    /// # Errors
    /// Why the device does not keep it: no room, or the browser refuses.
    pub async fn keep_photo(&self, sha256: &str, blob: &Blob) -> Result<(), KeepTrouble> {
        answer(self.kept.keep_photo(sha256, blob))
            .await
            .as_string()
            .map_or(Ok(()), |word| Err(if word == FULL { KeepTrouble::PhotosFull } else { KeepTrouble::PhotosRefused }))
    }

    /// Deletes a photo.
    pub async fn drop_photo(&self, sha256: &str) {
        answer(self.kept.drop_photo(sha256)).await;
    }
}

/// The store's word for a device without room; any other word means that the browser refuses.
const FULL: &str = "full";

/// The store's promises never reject: a refusal is a word among their values.
async fn answer(promise: Promise) -> JsValue {
    JsFuture::from(promise).await.unwrap_or(JsValue::UNDEFINED)
}
