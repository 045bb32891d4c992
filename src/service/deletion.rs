//! `DELETE /api/enquiries/{client_key}`: the homeowner withdraws the enquiry; it is deleted with its photos.

use super::Service;
use super::error::Refusal;
use super::{photos, secret};
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};

/// Deletes an enquiry for whoever holds its deletion secret.
///
/// # Errors
/// [`Refusal`]: no secret, a wrong one, or no such enquiry.
pub(super) async fn delete(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    headers: HeaderMap,
) -> Result<StatusCode, Refusal> {
    let said = secret::bearer(&headers).ok_or(Refusal::NoSecret)?;
    let kept: Option<String> = sqlx::query_scalar("SELECT deletion_hash FROM enquiries WHERE client_key = ?")
        .bind(&client_key)
        .fetch_optional(service.database.readers())
        .await?;
    let kept = kept.ok_or(Refusal::NotFound)?;
    if !secret::opens(&said, &kept) {
        return Err(Refusal::WrongSecret);
    }
    // The row goes first: from then on nothing refers to the photos, and housekeeping removes them if this is interrupted.
    service.database.execute(sqlx::query("DELETE FROM enquiries WHERE client_key = ?").bind(&client_key)).await?;
    photos::remove_all(&service, &client_key).await?;
    Ok(StatusCode::NO_CONTENT)
}
