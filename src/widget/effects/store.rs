//! The device's own store: one line of text for each draft, and the photos' bytes.

use idb::{Database, DatabaseEvent, Error, Factory, ObjectStoreParams, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Blob;

const DRAFTS: &str = "drafts";
const PHOTOS: &str = "photos";

/// The store, for one form on one page.
pub struct Store {
    database: Database,
    key: JsValue,
    prefix: String,
}

impl Store {
    /// Opens it; `form` tells forms on one site apart.
    pub async fn open(form: &str) -> Result<Self, Error> {
        let mut opening = Factory::new()?.open("presurvey", Some(1))?;
        opening.on_upgrade_needed(|event| {
            if let Ok(database) = event.database() {
                // Fails only where it is there already.
                let _ = database.create_object_store(DRAFTS, ObjectStoreParams::new());
                let _ = database.create_object_store(PHOTOS, ObjectStoreParams::new());
            }
        });
        Ok(Self { database: opening.await?, key: JsValue::from_str(form), prefix: [form, " "].concat() })
    }

    /// The draft, if there is one.
    pub async fn draft(&self) -> Result<Option<String>, Error> {
        let found = self.get(DRAFTS, self.key.clone()).await?;
        Ok(found.and_then(|text| text.as_string()))
    }

    /// Keeps the draft.
    pub async fn keep_draft(&self, text: &str) -> Result<(), Error> {
        self.put(DRAFTS, &self.key, &JsValue::from_str(text)).await
    }

    /// Throws the draft away.
    pub async fn drop_draft(&self) -> Result<(), Error> {
        self.delete(DRAFTS, self.key.clone()).await
    }

    /// A photo's bytes.
    pub async fn photo(&self, sha256: &str) -> Result<Option<Blob>, Error> {
        let found = self.get(PHOTOS, self.photo_key(sha256)).await?;
        Ok(found.and_then(|blob| blob.dyn_into().ok()))
    }

    /// Keeps a photo's bytes.
    pub async fn keep_photo(&self, sha256: &str, blob: &Blob) -> Result<(), Error> {
        self.put(PHOTOS, &self.photo_key(sha256), blob).await
    }

    /// Throws a photo away.
    pub async fn drop_photo(&self, sha256: &str) -> Result<(), Error> {
        self.delete(PHOTOS, self.photo_key(sha256)).await
    }

    fn photo_key(&self, sha256: &str) -> JsValue {
        JsValue::from_str(&[&self.prefix, sha256].concat())
    }

    async fn get(&self, store: &str, key: JsValue) -> Result<Option<JsValue>, Error> {
        let transaction = self.database.transaction(&[store], TransactionMode::ReadOnly)?;
        transaction.object_store(store)?.get(key)?.await
    }

    async fn put(&self, store: &str, key: &JsValue, value: &JsValue) -> Result<(), Error> {
        let transaction = self.database.transaction(&[store], TransactionMode::ReadWrite)?;
        transaction.object_store(store)?.put(value, Some(key))?.await?;
        transaction.await?;
        Ok(())
    }

    async fn delete(&self, store: &str, key: JsValue) -> Result<(), Error> {
        let transaction = self.database.transaction(&[store], TransactionMode::ReadWrite)?;
        transaction.object_store(store)?.delete(key)?.await?;
        transaction.await?;
        Ok(())
    }
}
