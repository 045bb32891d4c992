//! `GET /api/installer/enquiries/{client_key}`: one enquiry opened, as sent, as the service sees it, and as corrected.

use super::Service;
use super::error::Refusal;
use super::{additions, said_by, store};
use axum::Json;
use axum::extract::{Path, State};
use engine::assessment::Assessment;
use model::answers::Answers;
use model::config::PointPapers;
use record::enquiry::{Enquiry, Reference};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Detail {
    client_key: String,
    handled: bool,
    /// As sent, with what the service gave it filled in.
    enquiry: Enquiry,
    /// What the service made of the same answers on arrival.
    own_assessment: Option<Assessment>,
    agreement: String,
    corrected: Option<Corrected>,
    photos_arrived: Vec<String>,
    /// What the network operator's form asks of each charge point.
    papers: Vec<PointPapers>,
}

#[derive(Serialize)]
struct Corrected {
    at: String,
    /// `installer`, or `homeowner` where they came by a link.
    said_by: String,
    /// All of them, with what the installer recorded marked.
    answers: Answers,
    assessment: Assessment,
}

type Columns = (String, String, String, String, Option<String>, String, bool);

pub(super) async fn get(
    State(service): State<Service>,
    Path(client_key): Path<String>,
) -> Result<Json<Detail>, Refusal> {
    of(&service, client_key).await.map(Json)
}

/// One enquiry, opened.
pub(super) async fn of(service: &Service, client_key: String) -> Result<Detail, Refusal> {
    let found: Option<Columns> = sqlx::query_as(
        "SELECT reference, received, keep_until, record, own_assessment, agreement, handled
         FROM enquiries WHERE client_key = ?",
    )
    .bind(&client_key)
    .fetch_optional(&service.pool)
    .await?;
    let (reference, received, keep_until, record, own, agreement, handled) = found.ok_or(Refusal::NotFound)?;
    // What was taken in once is ours from then on: not being able to open it is our fault, not a bad request.
    let mut enquiry = store::read(record.as_bytes()).map_err(Refusal::ours)?;
    enquiry.envelope.reference = Reference::read(&reference);
    enquiry.envelope.received = Some(received);
    enquiry.envelope.keep_until = Some(keep_until.parse().map_err(|why: jiff::Error| Refusal::ours(why))?);
    for (photo, bytes) in additions::photos_of(service, &client_key).await? {
        enquiry.envelope.photo_sizes.push(bytes);
        enquiry.payload.photos.push(photo);
    }
    let mut own_assessment = own.and_then(|json| readable(&json));
    if own_assessment.is_none() && enquiry.payload.assessment.is_none() {
        // Sent without one and kept by another version: what was said is enough to work it out again.
        own_assessment = store::assess_apart(service, enquiry.payload.answers.clone()).await;
    }

    let latest: Option<(String, String, String)> =
        sqlx::query_as("SELECT at, said_by, assessment FROM corrections WHERE client_key = ? ORDER BY id DESC LIMIT 1")
            .bind(&client_key)
            .fetch_optional(&service.pool)
            .await?;
    let corrected = match latest {
        None => None,
        Some((at, said_by, assessment)) => {
            let changes = said_by::changes_of(&mut *service.pool.acquire().await?, &client_key).await?;
            let answers = said_by::latest(&enquiry.payload.answers, changes);
            let assessment = match readable(&assessment) {
                Some(assessment) => Some(assessment),
                None => store::assess_apart(service, answers.clone()).await,
            };
            assessment.map(|assessment| Corrected { at, said_by, answers, assessment })
        }
    };
    let photos_arrived =
        sqlx::query_scalar("SELECT sha256 FROM photos WHERE client_key = ? AND kind IS NOT NULL ORDER BY rowid")
            .bind(&client_key)
            .fetch_all(&service.pool)
            .await?;
    Ok(Detail {
        client_key,
        handled,
        enquiry,
        own_assessment,
        agreement,
        corrected,
        photos_arrived,
        papers: service.papers.to_vec(),
    })
}

/// An assessment kept by this program or an earlier one. One of another shape is no reason not to open the enquiry: what
/// was said is what counts, and it can be worked out again.
fn readable(json: &str) -> Option<Assessment> {
    serde_json::from_str(json)
        .inspect_err(|why| tracing::warn!(error = %why, "an assessment kept by another version can't be read"))
        .ok()
}
