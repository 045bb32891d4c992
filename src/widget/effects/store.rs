//! The device's own store, as `store.js` keeps it: the same module serves the page's start script.

use crate::widget::state::KeepTrouble;
use js_sys::Promise;
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
    fn drop(this: &Kept) -> Promise;
    #[wasm_bindgen(method)]
    fn photo(this: &Kept, name: &str) -> Promise;
    #[wasm_bindgen(method, js_name = keepPhoto)]
    fn keep_photo(this: &Kept, name: &str, blob: &Blob) -> Promise;
    #[wasm_bindgen(method, js_name = dropPhoto)]
    fn drop_photo(this: &Kept, name: &str) -> Promise;

    type Found;
    #[wasm_bindgen(method, getter)]
    fn trouble(this: &Found) -> Option<String>;
}

/// The store, for one form on one page.
pub struct Store(Kept);

impl Store {
    /// The store of a form; the address of its config tells forms on one site apart.
    #[must_use]
    pub fn of(form: &str) -> Self {
        Self(Kept::new(form))
    }

    /// Keeps a draft that this page had otherwise before (`knew`). Returns what keeps the device from keeping it.
    pub async fn keep(&self, knew: &str, mine: &str) -> Option<KeepTrouble> {
        let found: Found = answer(self.0.keep(knew, mine)).await.unchecked_into();
        found.trouble().map(|word| if word == FULL { KeepTrouble::Full } else { KeepTrouble::Refused })
    }

    /// Throws the draft and its photos away.
    pub async fn drop(&self) {
        answer(self.0.drop()).await;
    }

    /// A photo's bytes.
    pub async fn photo(&self, sha256: &str) -> Option<Blob> {
        answer(self.0.photo(sha256)).await.dyn_into().ok()
    }

    /// Keeps a photo's bytes.
    pub async fn keep_photo(&self, sha256: &str, blob: &Blob) -> Result<(), KeepTrouble> {
        answer(self.0.keep_photo(sha256, blob))
            .await
            .as_string()
            .map_or(Ok(()), |word| Err(if word == FULL { KeepTrouble::PhotosFull } else { KeepTrouble::PhotosRefused }))
    }

    /// Throws a photo away.
    pub async fn drop_photo(&self, sha256: &str) {
        answer(self.0.drop_photo(sha256)).await;
    }
}

/// The store's word for a device without room; any other is that the browser refuses.
const FULL: &str = "full";

/// The store's promises hold: what is refused comes as a word.
async fn answer(promise: Promise) -> JsValue {
    JsFuture::from(promise).await.unwrap_or(JsValue::UNDEFINED)
}
