//! `POST /api/enquiries`: acknowledged only when it is on the disk; sent twice it is one enquiry.

use super::Service;
use super::error::Refusal;
use super::service::ENQUIRY_BYTES;
use super::store::{self, Receipt};
use axum::Json;
use axum::body::Bytes;
use axum::extract::State;
use axum::extract::rejection::BytesRejection;
use axum::http::StatusCode;

pub(super) async fn post(
    State(service): State<Service>,
    body: Result<Bytes, BytesRejection>,
) -> Result<(StatusCode, Json<Receipt>), Refusal> {
    let json = body.map_err(|rejection| Refusal::of_body(&rejection, ENQUIRY_BYTES))?;
    // A homeowner who closes the page must not cancel the transaction half-way: it runs to its end on a task of its own.
    let task = tokio::spawn(async move { store::receive(&service, &json, store::now(), rand::random).await });
    let receipt = task.await.map_err(Refusal::ours)??;
    let status = if receipt.again { StatusCode::OK } else { StatusCode::CREATED };
    Ok((status, Json(receipt)))
}
