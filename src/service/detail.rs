//! `GET /api/installer/enquiries/{client_key}`: one enquiry as it was sent, as the service assessed it, and as it was corrected.

use super::Service;
use super::error::Refusal;
use super::{additions, jobs, said_by, store};
use axum::Json;
use axum::extract::{Path, State};
use engine::assessment::Assessment;
use model::answers::Answers;
use model::config::PointPapers;
use record::enquiry::{Enquiry, Reference};
use schemars::JsonSchema;
use serde::Serialize;

/// One enquiry as the installer's page is given it.
#[derive(Serialize, JsonSchema)]
pub(super) struct Detail {
    client_key: String,
    handled: bool,
    /// As sent, with the fields that the service assigns filled in.
    enquiry: Enquiry,
    /// The service's own assessment of the answers as sent.
    own_assessment: Option<Assessment>,
    agreement: String,
    corrected: Option<Corrected>,
    photos_arrived: Vec<String>,
    /// That it became a job, if it was marked so.
    job: Option<jobs::Job>,
    /// What the network operator's form asks of each charge point.
    papers: Vec<PointPapers>,
}

#[derive(Serialize, JsonSchema)]
pub(super) struct Corrected {
    at: String,
    /// Who changed them: `installer`, or `homeowner` through a link.
    said_by: String,
    /// All answers after the change, those that the installer recorded marked.
    answers: Answers,
    assessment: Assessment,
}

type Columns = (String, String, String, String, Option<String>, String, bool);

/// Answers a GET of one enquiry.
///
/// # Errors
/// As for [`of`].
#[utoipa::path(
    get,
    path = "/api/installer/enquiries/{client_key}",
    operation_id = "read_enquiry",
    description = "One enquiry.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    responses(
        (status = 200, description = "The enquiry.", body = ref("#/components/schemas/Detail")),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn get(
    State(service): State<Service>,
    Path(client_key): Path<String>,
) -> Result<Json<Detail>, Refusal> {
    of(&service, client_key).await.map(Json)
}

/// One enquiry with everything that the installer's page shows of it.
///
/// # Errors
/// [`Refusal::NotFound`] where there is none by this key; the database's own.
pub(super) async fn of(service: &Service, client_key: String) -> Result<Detail, Refusal> {
    let found: Option<Columns> = sqlx::query_as(
        "SELECT reference, received, keep_until, record, own_assessment, agreement, handled
         FROM enquiries WHERE client_key = ?",
    )
    .bind(&client_key)
    .fetch_optional(service.database.readers())
    .await?;
    let (reference, received, keep_until, record, own, agreement, handled) = found.ok_or(Refusal::NotFound)?;
    // The record was accepted when it arrived: failing to read it now is the service's fault, not a bad request.
    let mut enquiry = store::read_kept(record.as_bytes()).map_err(Refusal::ours)?;
    enquiry.envelope.reference = Reference::read(&reference);
    enquiry.envelope.received = Some(received);
    enquiry.envelope.keep_until = Some(keep_until.parse().map_err(|why: jiff::Error| Refusal::ours(why))?);
    for (photo, bytes) in additions::photos_of(service, &client_key).await? {
        enquiry.envelope.photo_sizes.push(bytes);
        enquiry.payload.photos.push(photo);
    }
    let mut own_assessment = own.and_then(|json| readable(&json));
    if own_assessment.is_none() && enquiry.payload.assessment.is_none() {
        // It came without an assessment and another version kept it: this version assesses it from the answers.
        own_assessment = store::assess_apart(service, enquiry.payload.answers.clone()).await;
    }

    let latest: Option<(String, String, String)> =
        sqlx::query_as("SELECT at, said_by, assessment FROM corrections WHERE client_key = ? ORDER BY id DESC LIMIT 1")
            .bind(&client_key)
            .fetch_optional(service.database.readers())
            .await?;
    let corrected = match latest {
        None => None,
        Some((at, said_by, assessment)) => {
            let changes = said_by::changes_of(&mut *service.database.readers().acquire().await?, &client_key).await?;
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
            .fetch_all(service.database.readers())
            .await?;
    let job = jobs::of(service, &client_key).await?;
    Ok(Detail {
        client_key,
        handled,
        enquiry,
        own_assessment,
        agreement,
        corrected,
        photos_arrived,
        job,
        papers: service.papers.to_vec(),
    })
}

/// A kept assessment, by this program or an earlier one. `None` if it has another shape: that must not keep the enquiry from opening, as
/// the answers are what counts and can be assessed again.
fn readable(json: &str) -> Option<Assessment> {
    serde_json::from_str(json)
        .inspect_err(|why| tracing::warn!(error = %why, "an assessment kept by another version can't be read"))
        .ok()
}
