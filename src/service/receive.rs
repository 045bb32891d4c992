//! `POST /api/enquiries`: an enquiry is acknowledged only once it is on the disk; sent twice it is stored once.
//!
//! The body is a record as JSON, whose photos follow one by one, or a plain form with its photos, for visitors without a script.

use super::error::Refusal;
use super::limits::{ENQUIRY_BYTES, FORM_BYTES};
use super::picture::PictureKind;
use super::store::{self, Receipt};
use super::{Service, multipart, photos, plain_page};
use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, FromRequest, Multipart, Request, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};

/// Receives an enquiry as a record or as a plain form, and answers with its receipt: 201 if it is new, 200 if it was stored already. A
/// browser that posted a plain form is answered with a page.
pub(super) async fn post(State(service): State<Service>, request: Request) -> Response {
    let form = is_form(request.headers());
    let shows = form && plain_page::is_wanted(request.headers());
    let taken = if form { take_form(&service, request).await } else { take_record(&service, request).await };
    let config = &service.config.config;
    match taken {
        Ok(receipt) => {
            let status = if receipt.again { StatusCode::OK } else { StatusCode::CREATED };
            if shows { plain_page::sent(&receipt, status, config) } else { (status, Json(receipt)).into_response() }
        }
        Err(refusal) if shows => plain_page::refused(&refusal, config),
        Err(refusal) => refusal.into_response(),
    }
}

fn is_form(headers: &HeaderMap) -> bool {
    let kind = headers.get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
    kind.is_some_and(|kind| kind.trim_start().to_ascii_lowercase().starts_with("multipart/form-data"))
}

async fn take_record(service: &Service, mut request: Request) -> Result<Receipt, Refusal> {
    DefaultBodyLimit::max(ENQUIRY_BYTES).apply(&mut request);
    let json = Bytes::from_request(request, &()).await;
    let json = json.map_err(|rejection| Refusal::of_body(&rejection, ENQUIRY_BYTES))?;
    let service = service.clone();
    // A homeowner who closes the page must not cancel the transaction half-way: it runs to its end as a task of its own.
    let task = tokio::spawn(async move { store::receive(&service, &json, store::now(), rand::random).await });
    task.await.map_err(Refusal::ours)?
}

async fn take_form(service: &Service, mut request: Request) -> Result<Receipt, Refusal> {
    DefaultBodyLimit::max(FORM_BYTES).apply(&mut request);
    let form = Multipart::from_request(request, &()).await.map_err(|why| Refusal::NotAForm(why.body_text()))?;
    let letter = multipart::read(service, form).await?;
    let service = service.clone();
    let task = tokio::spawn(async move {
        let mut receipt = store::receive(&service, &letter.record, store::now(), rand::random).await?;
        let key = store::read(&letter.record)?.envelope.client_key;
        for photo in letter.photos {
            // If the enquiry was sent before, the first one stands: a photo that it did not list is not stored.
            if receipt.photos_missing.contains(&photo.sha256) {
                photos::keep(&service, &key, &photo.sha256, PictureKind::Jpeg, photo.bytes).await?;
                receipt.photos_missing.retain(|missing| *missing != photo.sha256);
            }
        }
        Ok(receipt)
    });
    task.await.map_err(Refusal::ours)?
}
