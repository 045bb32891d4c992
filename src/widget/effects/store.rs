//! The device's own store: one line of text for each draft, and the photos' bytes.
//!
//! A few lines of script do what IndexedDB wants done by events; a library for it weighs ten times as much.

use js_sys::Promise;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::Blob;

#[wasm_bindgen(module = "/src/widget/effects/store.js")]
extern "C" {
    /// One call of an object store.
    #[wasm_bindgen(variadic)]
    fn stored(store: &str, mode: &str, method: &str, said: Vec<JsValue>) -> Promise;
}

const DRAFTS: &str = "drafts";
const PHOTOS: &str = "photos";

/// The browser keeps nothing, or nothing more.
#[derive(Debug)]
pub struct Refused;

/// The store, for one form on one page.
pub struct Store {
    form: String,
}

impl Store {
    /// The store of a form; `form` tells forms on one site apart.
    #[must_use]
    pub fn of(form: &str) -> Self {
        Self { form: form.to_owned() }
    }

    /// The draft, if there is one.
    pub async fn draft(&self) -> Result<Option<String>, Refused> {
        Ok(call(DRAFTS, "get", vec![self.key("")]).await?.as_string())
    }

    /// Keeps the draft.
    pub async fn keep_draft(&self, text: &str) -> Result<(), Refused> {
        call(DRAFTS, "put", vec![JsValue::from_str(text), self.key("")]).await.map(drop)
    }

    /// Throws the draft away.
    pub async fn drop_draft(&self) -> Result<(), Refused> {
        call(DRAFTS, "delete", vec![self.key("")]).await.map(drop)
    }

    /// A photo's bytes.
    pub async fn photo(&self, sha256: &str) -> Result<Option<Blob>, Refused> {
        Ok(call(PHOTOS, "get", vec![self.key(sha256)]).await?.dyn_into().ok())
    }

    /// Keeps a photo's bytes.
    pub async fn keep_photo(&self, sha256: &str, blob: &Blob) -> Result<(), Refused> {
        call(PHOTOS, "put", vec![blob.into(), self.key(sha256)]).await.map(drop)
    }

    /// Throws a photo away.
    pub async fn drop_photo(&self, sha256: &str) -> Result<(), Refused> {
        call(PHOTOS, "delete", vec![self.key(sha256)]).await.map(drop)
    }

    fn key(&self, of: &str) -> JsValue {
        JsValue::from_str(&[self.form.as_str(), " ", of].concat())
    }
}

async fn call(store: &str, method: &str, said: Vec<JsValue>) -> Result<JsValue, Refused> {
    let mode = if method == "get" { "readonly" } else { "readwrite" };
    JsFuture::from(stored(store, mode, method, said)).await.map_err(|_| Refused)
}
