//! What the installer changes: corrected answers, which are kept beside the original and assessed again, and whether the enquiry is
//! handled.

use super::detail::{self, Detail};
use super::error::Refusal;
use super::limits::ENQUIRY_BYTES;
use super::store::{self, json_of};
use super::summary::{Summary, Urgency};
use super::{Service, said_by};
use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use model::answers::Answers;
use record::json::read_json;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Correction {
    answers: Answers,
}

/// Answers a PUT of corrected answers: assesses and stores them, and returns the enquiry after that.
///
/// # Errors
/// [`Refusal`]: answers that are not allowed, or no such enquiry.
#[utoipa::path(
    put,
    path = "/api/installer/enquiries/{client_key}/answers",
    operation_id = "correct_answers",
    description = "Corrects the answers of an enquiry.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    request_body = ref("#/components/schemas/Correction"),
    responses(
        (status = 200, description = "The enquiry after that.", body = ref("#/components/schemas/Detail")),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
        (status = 400, description = "This is not JSON, or it did not arrive whole.", body = ref("#/components/schemas/Told")),
        (status = 413, description = "This is too large.", body = ref("#/components/schemas/Told")),
        (status = 422, description = "Something in it is not allowed; `fields` says what.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn put(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    body: Result<Bytes, BytesRejection>,
) -> Result<Json<Detail>, Refusal> {
    let json = body.map_err(|rejection| Refusal::of_body(&rejection, ENQUIRY_BYTES))?;
    let Correction { answers } = read_json(&json)?;
    let record: Option<String> = sqlx::query_scalar("SELECT record FROM enquiries WHERE client_key = ?")
        .bind(&client_key)
        .fetch_optional(service.database.readers())
        .await?;
    let enquiry = store::read_kept(record.ok_or(Refusal::NotFound)?.as_bytes()).map_err(Refusal::ours)?;
    let mut changes = said_by::changes_of(&mut *service.database.readers().acquire().await?, &client_key).await?;
    changes.push(said_by::Change { by_installer: true, answers });
    let answers = said_by::latest(&enquiry.payload.answers, changes);
    let assessment = store::assess_apart(&service, answers.clone())
        .await
        .ok_or_else(|| Refusal::ours("the engine gave up on corrected answers"))?;
    let urgency = Urgency::of(Some(&assessment));

    let mut transaction = service.database.write().await?;
    let found = sqlx::query("UPDATE enquiries SET summary = ?, gravity = ?, weight = ? WHERE client_key = ?")
        .bind(Summary::of(&enquiry.payload.contact, &answers, Some(&assessment)).json())
        .bind(urgency.gravity)
        .bind(urgency.weight)
        .bind(&client_key)
        .execute(&mut *transaction)
        .await?;
    if found.rows_affected() == 0 {
        return Err(Refusal::NotFound); // deleted by the homeowner meanwhile
    }
    sqlx::query("INSERT INTO corrections (client_key, at, answers, assessment) VALUES (?, ?, ?, ?)")
        .bind(&client_key)
        .bind(store::now().to_string())
        .bind(json_of(&answers))
        .bind(json_of(&assessment))
        .execute(&mut *transaction)
        .await?;
    transaction.commit().await?;
    detail::of(&service, client_key).await.map(Json)
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Handled {
    handled: bool,
}

/// Answers a PUT that marks an enquiry as handled, or not.
///
/// # Errors
/// [`Refusal::NotFound`] if there is no such enquiry.
#[utoipa::path(
    put,
    path = "/api/installer/enquiries/{client_key}/handled",
    operation_id = "mark_handled",
    description = "Marks an enquiry as handled, or not.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    request_body = ref("#/components/schemas/Handled"),
    responses(
        (status = 204, description = "It is marked."),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
        (status = 400, description = "This is not JSON, or it did not arrive whole.", body = ref("#/components/schemas/Told")),
        (status = 413, description = "This is too large.", body = ref("#/components/schemas/Told")),
        (status = 422, description = "Something in it is not allowed; `fields` says what.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn put_handled(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    body: Result<Bytes, BytesRejection>,
) -> Result<StatusCode, Refusal> {
    let json = body.map_err(|rejection| Refusal::of_body(&rejection, ENQUIRY_BYTES))?;
    let Handled { handled } = read_json(&json)?;
    let found = service
        .database
        .execute(sqlx::query("UPDATE enquiries SET handled = ? WHERE client_key = ?").bind(handled).bind(&client_key))
        .await?;
    if found.rows_affected() == 0 { Err(Refusal::NotFound) } else { Ok(StatusCode::NO_CONTENT) }
}
