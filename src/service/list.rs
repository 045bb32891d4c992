//! `GET /api/installer/enquiries`: the list. Unhandled enquiries come first, then the gravest class, the heaviest flag, the oldest.

use super::Service;
use super::error::Refusal;
use super::limits::{LISTED_AT_ONCE, MOST_LISTED};
use super::summary::Summary;
use axum::Json;
use axum::extract::rejection::QueryRejection;
use axum::extract::{Query, State};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use utoipa::IntoParams;

/// Which part of the list a request asks for: how many rows at most, and after which enquiry.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub(super) struct Part {
    /// How many, 1 to 200; more or fewer are taken as the nearest that may be.
    limit: Option<i64>,
    /// The key of the last one of the part before.
    after: Option<String>,
}

/// A part of the list, with the key after which the next part begins, the number of all enquiries, and of those not handled.
#[derive(Serialize, JsonSchema)]
pub(super) struct List {
    enquiries: Vec<Row>,
    next: Option<String>,
    total: i64,
    unhandled: i64,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Row {
    client_key: String,
    reference: String,
    received: String,
    keep_until: String,
    photos: Photos,
    handled: bool,
    corrected: bool,
    /// The row made on arrival or correction; its fields stand beside those above.
    #[serde(flatten)]
    #[schemars(with = "Summary")]
    summary: Map<String, Value>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Photos {
    arrived: i64,
    listed: i64,
}

type Columns = (String, String, String, String, String, bool, bool, i64, i64);

/// Answers a GET of the list.
///
/// # Errors
/// [`Refusal`] for a limit that is not a number.
#[utoipa::path(
    get,
    path = "/api/installer/enquiries",
    operation_id = "list_enquiries",
    description = "The enquiries: those not handled first, then by urgency.",
    params(Part),
    responses(
        (status = 200, description = "A part of the list.", body = ref("#/components/schemas/List")),
        (status = 422, description = "Something asked for is not allowed.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn get(
    State(service): State<Service>,
    part: Result<Query<Part>, QueryRejection>,
) -> Result<Json<List>, Refusal> {
    let Query(part) =
        part.map_err(|_| Refusal::field("limit", format!("it may be a whole number from 1 to {MOST_LISTED}")))?;
    let limit = part.limit.unwrap_or(LISTED_AT_ONCE).clamp(1, MOST_LISTED);
    let mut rows: Vec<Columns> = sqlx::query_as(
        "SELECT client_key, reference, received, keep_until, summary, handled,
           EXISTS (SELECT 1 FROM corrections c WHERE c.client_key = e.client_key),
           (SELECT count(*) FROM photos p WHERE p.client_key = e.client_key AND p.kind IS NOT NULL),
           (SELECT count(*) FROM photos p WHERE p.client_key = e.client_key)
         FROM enquiries e
         WHERE ?1 IS NULL OR (handled, gravity, weight, received, client_key) >
           (SELECT handled, gravity, weight, received, client_key FROM enquiries WHERE client_key = ?1)
         ORDER BY handled, gravity, weight, received, client_key
         LIMIT ?2",
    )
    .bind(&part.after)
    .bind(limit + 1) // one more tells whether there is a next part
    .fetch_all(service.database.readers())
    .await?;
    let more = rows.len() as i64 > limit;
    if more {
        rows.pop();
    }
    let (total, unhandled) = sqlx::query_as("SELECT count(*), count(*) FILTER (WHERE handled = 0) FROM enquiries")
        .fetch_one(service.database.readers())
        .await?;
    let next = rows.last().filter(|_| more).map(|row| row.0.clone());
    let enquiries = rows.into_iter().map(row).collect::<Result<_, _>>()?;
    Ok(Json(List { enquiries, next, total, unhandled }))
}

fn row(columns: Columns) -> Result<Row, Refusal> {
    let (client_key, reference, received, keep_until, summary, handled, corrected, arrived, listed) = columns;
    let summary = serde_json::from_str(&summary).map_err(Refusal::ours)?;
    let photos = Photos { arrived, listed };
    Ok(Row { client_key, reference, received, keep_until, photos, handled, corrected, summary })
}
