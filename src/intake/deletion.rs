//! `DELETE /api/enquiries/{client_key}`: the homeowner takes the enquiry back, photos and all.

use super::Service;
use super::error::Refusal;
use super::photos;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use sha2::{Digest, Sha256};

pub(super) async fn delete(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    headers: HeaderMap,
) -> Result<StatusCode, Refusal> {
    let secret = headers
        .get(header::AUTHORIZATION)
        .and_then(|value| value.to_str().ok())
        .and_then(|value| value.strip_prefix("Bearer "))
        .ok_or(Refusal::NoSecret)?;
    let kept: Option<String> = sqlx::query_scalar("SELECT deletion_hash FROM enquiries WHERE client_key = ?")
        .bind(&client_key)
        .fetch_optional(&service.pool)
        .await?;
    let kept = kept.ok_or(Refusal::NotFound)?;
    if !same(hex::encode(Sha256::digest(secret.trim().as_bytes())).as_bytes(), kept.as_bytes()) {
        return Err(Refusal::WrongSecret);
    }
    // The row first: from then on nothing leads to the photos, and the next tidying removes them should this be cut short.
    sqlx::query("DELETE FROM enquiries WHERE client_key = ?").bind(&client_key).execute(&service.pool).await?;
    photos::remove_all(&service, &client_key).await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Compares in a time that does not tell where the first difference is.
fn same(a: &[u8], b: &[u8]) -> bool {
    a.len() == b.len() && a.iter().zip(b).fold(0, |differs, (a, b)| differs | (a ^ b)) == 0
}

#[cfg(test)]
mod tests {
    use super::same;

    #[test]
    fn only_the_same_is_the_same() {
        assert!(same(b"abc", b"abc"));
        assert!(!same(b"abc", b"abd") && !same(b"abc", b"ab") && !same(b"", b"a"));
    }
}
