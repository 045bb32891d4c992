//! Deleting an enquiry with all that belongs to it: by the homeowner with the secret made at sending, by the installer, or in time
//! (`housekeeping`).
//!
//! `DELETE /api/enquiries/{client_key}` is for a script, which puts the secret into a header. `/api/enquiries/{client_key}/deletion` is for
//! whoever sent a plain form: a small page with one button, whose secret comes in the part of the link after `#`, which no server and no
//! log sees, or is typed. Opening the page deletes nothing.

use super::error::Refusal;
use super::events::{self, EventKind};
use super::jobs::{self, Job};
use super::limits::SECRET_BYTES;
use super::{Service, photos, plain_page, secret, store};
use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::Serialize;

/// What the page that deletes posts.
#[derive(utoipa::ToSchema)]
#[expect(dead_code, reason = "it describes a form, which is read field by field")]
struct DeletionForm {
    /// The code that was shown with the reference.
    #[schema(pattern = r"\S")]
    secret: String,
}

/// What was deleted.
#[derive(Serialize, JsonSchema)]
pub(super) struct Erased {
    reference: String,
    /// How many photos had arrived.
    photos: i64,
    /// What the installer keeps apart of it, because it became a job.
    #[serde(skip_serializing_if = "Option::is_none")]
    kept: Option<Job>,
}

/// Deletes an enquiry for whoever holds its deletion secret; where something is kept apart of it, the answer says what for and until when.
///
/// # Errors
/// [`Refusal`]: no secret, a wrong one, or no such enquiry.
#[utoipa::path(
    delete,
    path = "/api/enquiries/{client_key}",
    operation_id = "delete_enquiry",
    description = "Deletes an enquiry with all that belongs to it.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    security(("secret" = [])),
    responses(
        (status = 200, description = "It is deleted, but for what the installer has to keep.", body = ref("#/components/schemas/Erased")),
        (status = 204, description = "It is deleted."),
        (status = 401, description = "The secret is missing.", body = ref("#/components/schemas/Told")),
        (status = 403, description = "The secret is another one.", body = ref("#/components/schemas/Told")),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn delete(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    headers: HeaderMap,
) -> Result<Response, Refusal> {
    let said = secret::bearer(&headers).ok_or(Refusal::NoSecret)?;
    let kept = hash_kept(&service, &client_key).await?.ok_or(Refusal::NotFound)?;
    if !secret::opens(&said, &kept) {
        return Err(Refusal::WrongSecret);
    }
    let erased = erase(service, client_key, EventKind::DeletedByHomeowner).await?;
    Ok(if erased.kept.is_some() { Json(erased).into_response() } else { StatusCode::NO_CONTENT.into_response() })
}

/// The page with the button that deletes; it says nothing of the enquiry, not even whether there is one.
#[utoipa::path(
    get,
    path = "/api/enquiries/{client_key}/deletion",
    operation_id = "show_deletion",
    description = "A page with one button, which deletes the enquiry.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    responses(
        (status = 200, description = "The page, whether there is such an enquiry or not.", body = String, content_type = "text/html"),
    ),
)]
pub(super) async fn page(State(service): State<Service>) -> Response {
    plain_page::deletion(&service.config.config)
}

/// The script that takes the secret out of the page's address into its field.
#[utoipa::path(
    get,
    path = "/api/deletion.js",
    operation_id = "read_deletion_script",
    description = "The script of the page that deletes.",
    responses(
        (status = 200, description = "The script.", body = String, content_type = "text/javascript"),
    ),
)]
pub(super) async fn script() -> Response {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], include_str!("deletion.js")).into_response()
}

/// Deletes an enquiry for whoever posts its deletion secret from that page.
///
/// # Errors
/// [`Refusal::LinkOpensNothing`], whether there is no such enquiry or the secret is wrong.
#[utoipa::path(
    post,
    path = "/api/enquiries/{client_key}/deletion",
    operation_id = "post_deletion",
    description = "Deletes an enquiry, as its page asks.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    request_body(content = inline(DeletionForm), content_type = "application/x-www-form-urlencoded"),
    responses(
        (status = 200, description = "It is deleted.", content((ref("#/components/schemas/Erased") = "application/json"), (String = "text/html"))),
        (status = 400, description = "It did not arrive whole.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 404, description = "There is no such enquiry, or the secret is another one.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 413, description = "This is too large.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
        (status = 422, description = "The secret is missing.", content((ref("#/components/schemas/Told") = "application/json"), (String = "text/html"))),
    ),
)]
pub(super) async fn post(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Result<Response, Refusal> {
    let body = body.map_err(|rejection| Refusal::of_body(&rejection, SECRET_BYTES))?;
    let said = form_urlencoded::parse(&body).find(|(name, _)| name == "secret").map(|(_, said)| said.trim().to_owned());
    let said = said.filter(|said| !said.is_empty()).ok_or_else(|| {
        Refusal::field("secret", "the code is missing; it was shown with the reference when the enquiry was sent")
    })?;
    let kept = hash_kept(&service, &client_key).await?.ok_or(Refusal::LinkOpensNothing)?;
    let typed = secret::typed(&said);
    if !secret::opens(&said, &kept) && !typed.is_some_and(|typed| secret::opens(&typed, &kept)) {
        return Err(Refusal::LinkOpensNothing);
    }
    let config = service.config.clone();
    let erased = erase(service, client_key, EventKind::DeletedByHomeowner).await?;
    if plain_page::is_wanted(&headers) {
        return Ok(plain_page::deleted(&erased.reference, erased.kept.as_ref(), &config.config));
    }
    Ok(Json(erased).into_response())
}

/// Deletes an enquiry for the installer, and says what was deleted.
///
/// # Errors
/// [`Refusal::NotFound`] if there is no such enquiry.
#[utoipa::path(
    delete,
    path = "/api/installer/enquiries/{client_key}",
    operation_id = "delete_enquiry_as_installer",
    description = "Deletes an enquiry with all that belongs to it.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    responses(
        (status = 200, description = "It is deleted.", body = ref("#/components/schemas/Erased")),
        (status = 403, description = "The account is not an owner's, or the header `X-Presurvey: 1` is missing.", body = ref("#/components/schemas/Told")),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn by_installer(
    State(service): State<Service>,
    Path(client_key): Path<String>,
) -> Result<Json<Erased>, Refusal> {
    erase(service, client_key, EventKind::DeletedByInstaller).await.map(Json)
}

async fn hash_kept(service: &Service, client_key: &str) -> Result<Option<String>, sqlx::Error> {
    sqlx::query_scalar("SELECT deletion_hash FROM enquiries WHERE client_key = ?")
        .bind(client_key)
        .fetch_optional(service.database.readers())
        .await
}

/// Deletes an enquiry with its photos from every file of the data folder. A page that is closed meanwhile does not cancel this.
///
/// # Errors
/// [`Refusal::NotFound`] if there is no such enquiry.
async fn erase(service: Service, client_key: String, by: EventKind) -> Result<Erased, Refusal> {
    let task = tokio::spawn(async move {
        // The row goes first: from then on nothing refers to the photos, and housekeeping removes them if this is interrupted.
        let mut transaction = service.database.write().await?;
        let photos = sqlx::query_scalar("SELECT count(*) FROM photos WHERE client_key = ? AND kind IS NOT NULL")
            .bind(&client_key)
            .fetch_one(&mut *transaction)
            .await?;
        let now = store::now();
        let kept = jobs::set_apart(&mut transaction, &client_key, now).await?;
        let reference: Option<String> =
            sqlx::query_scalar("DELETE FROM enquiries WHERE client_key = ? RETURNING reference")
                .bind(&client_key)
                .fetch_optional(&mut *transaction)
                .await?;
        let reference = reference.ok_or(Refusal::NotFound)?;
        events::tell(&mut transaction, by, 1, now).await?;
        transaction.commit().await?;
        photos::remove_all(&service, &client_key).await?;
        // The enquiry is gone in any case; what the journal still holds of it goes at the next tidying if not now.
        match service.database.forget_journal().await {
            Ok(true) => {}
            Ok(false) => tracing::info!("the database's journal is in use; it is emptied within the hour"),
            Err(why) => {
                tracing::error!(error = %why, "the database's journal can't be emptied; it is tried again in an hour")
            }
        }
        Ok(Erased { reference, photos, kept })
    });
    task.await.map_err(Refusal::ours)?
}
