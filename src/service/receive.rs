//! `POST /api/enquiries`: an enquiry is acknowledged only once it is on the disk; sent twice it is stored once.
//!
//! The body is a record as JSON, whose photos follow one by one, or a plain form with its photos, for visitors without a script.

use super::bodies::{Held, Unparsed, said_length};
use super::error::Refusal;
use super::limits::FORM_BYTES;
use super::picture::PictureKind;
use super::plain_form::{self, Letter};
use super::store::{self, Receipt};
use super::{Service, photos, plain_page};
use axum::Json;
use axum::extract::{DefaultBodyLimit, FromRequest, Multipart, Request, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use tracing::Instrument;

/// Receives an enquiry as a record or as a plain form, and answers with its receipt: 201 if it is new, 200 if it was stored already. A
/// browser that posted a plain form is answered with a page.
///
/// # Errors
/// [`Refusal`]; nothing is stored then.
#[utoipa::path(
    post,
    path = "/api/enquiries",
    operation_id = "send_enquiry",
    description = "Sends an enquiry: a record, whose photos follow one by one, or a plain form with its photos. Sent twice it is stored once.",
    request_body(content((ref("#/components/schemas/Enquiry") = "application/json"), (Object = "multipart/form-data"), (Object = "application/x-www-form-urlencoded"))),
    responses(
        (status = 200, description = "It was stored before; the first stands.", content((ref("#/components/schemas/Receipt") = "application/json"), (String = "text/html"))),
        (status = 201, description = "It is stored.", content((ref("#/components/schemas/Receipt") = "application/json"), (String = "text/html"))),
        (status = 400, description = "This is not JSON, or it did not arrive whole.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 413, description = "This is too large.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 422, description = "Something in it is not allowed; `fields` says what.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 408, description = "It took too long to arrive.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 415, description = "It is a form that lost its photos or whose fields can't be told apart.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
    ),
)]
pub(super) async fn post(State(service): State<Service>, request: Request) -> Result<Response, Refusal> {
    let browser = plain_page::is_wanted(request.headers());
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    let kind = kind.split(';').next().unwrap_or_default().trim().to_ascii_lowercase();
    let (receipt, form) = match kind.as_str() {
        "multipart/form-data" => (take_form(&service, request).await?, true),
        URLENCODED => take_fields(&service, request).await?,
        // The third way in which a browser posts a form; nobody can tell its fields apart for certain.
        "text/plain" if browser => return Err(Refusal::NotMultipart),
        _ => (take_record(&service, Held::from_request(request, &service).await?).await?, false),
    };
    let status = if receipt.again { StatusCode::OK } else { StatusCode::CREATED };
    Ok(if form && browser {
        plain_page::sent(&receipt, status, &service.config.config)
    } else {
        (status, Json(receipt)).into_response()
    })
}

/// Answers any other method: a browser that opens the address, or a form that does not post.
pub(super) async fn other_method() -> Response {
    ([(header::ALLOW, "POST")], Refusal::NotPosted).into_response()
}

const URLENCODED: &str = "application/x-www-form-urlencoded";

/// Takes a form without photos, or a record that a script sent under a form's type, as some do for anything; and says which it was.
async fn take_fields(service: &Service, request: Request) -> Result<(Receipt, bool), Refusal> {
    let body = Held::from_request(request, service).await?;
    // In a form this sign is written otherwise.
    if body.trim_ascii_start().starts_with(b"{") {
        return Ok((take_record(service, body).await?, false));
    }
    let letter = plain_form::read_urlencoded(service, &body).await?;
    Ok((keep(service, letter).await?, true))
}

async fn take_record(service: &Service, json: Held) -> Result<Receipt, Refusal> {
    let service = service.clone();
    // A homeowner who closes the page must not cancel the transaction half-way: it runs to its end as a task of its own.
    let task = tokio::spawn(
        async move { store::receive(&service, &json, store::now(), rand::random).await }.in_current_span(),
    );
    task.await.map_err(Refusal::ours)?
}

async fn take_form(service: &Service, mut request: Request) -> Result<Receipt, Refusal> {
    if said_length(&request).is_some_and(|length| length > FORM_BYTES as u64) {
        return Err(Refusal::FormTooLarge);
    }
    let sender = service.surroundings.sender(request.extensions(), request.headers());
    let _place = service.bodies.place_of_a_form(sender)?;
    let texts = service.bodies.texts_of_a_form(sender);
    let unparsed = Unparsed::default();
    request = request.map(|body| unparsed.watched(body));
    DefaultBodyLimit::max(FORM_BYTES).apply(&mut request);
    let form = Multipart::from_request(request, &()).await.map_err(|why| Refusal::NotAForm(why.body_text()))?;
    keep(service, plain_form::read(service, form, texts, &unparsed).await?).await
}

async fn keep(service: &Service, letter: Letter) -> Result<Receipt, Refusal> {
    let service = service.clone();
    let task = tokio::spawn(
        async move {
            let mut receipt = store::receive(&service, &letter.record, store::now(), rand::random).await?;
            let key = store::read(&letter.record)?.envelope.client_key;
            for photo in letter.photos {
                // If the enquiry was sent before, the first one stands: a photo that it did not list is not stored.
                if receipt.photos_missing.contains(&photo.sha256) {
                    let turn = service.bodies.looked_at_in_forms.turn().await?;
                    photos::keep(&service, &key, &photo.sha256, PictureKind::Jpeg, photo.draft, turn).await?;
                    receipt.photos_missing.retain(|missing| *missing != photo.sha256);
                }
            }
            // Sent again it is the first whose secret counts, and nobody but its sender was told that one.
            receipt.deletion_secret = letter.deletion_secret.filter(|_| !receipt.again);
            Ok(receipt)
        }
        .in_current_span(),
    );
    task.await.map_err(Refusal::ours)?
}
