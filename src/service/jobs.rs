//! Enquiries that became a job: what the law has an installer keep of one outlives the enquiry, apart from all others, until a day that the
//! installer names.
//!
//! The mark is made while the enquiry is kept and changes nothing yet. When the enquiry is deleted, by whomever, its photos, answers,
//! assessments, telephone number and e-mail address go as those of any other; left is who had the work done and where: reference, day of
//! arrival, name, address, postcode. What was quoted, invoiced or certified stands in the installer's own papers, which the reference finds.
//!
//! Once deleted, an enquiry may come again under its key, from anybody who knows that: nothing that is done to the new one changes what is
//! kept of the first. Only an owner deletes that, before its day.

use super::detail::{self, Detail};
use super::error::Refusal;
use super::events::{self, EventKind};
use super::limits::ENQUIRY_BYTES;
use super::{Service, said_by, store};
use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use jiff::civil::Date;
use jiff::{Span, Timestamp};
use model::answers::Word;
use record::enquiry::Became;
use record::json::read_json;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sqlx::SqliteConnection;

/// The longest that anything is kept apart, in years: this program's choice, far beyond what any record of such a job is kept for.
const MOST_YEARS: i64 = 30;

/// That an enquiry became a job.
#[derive(Clone, Debug, Deserialize, JsonSchema, PartialEq, Eq, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Job {
    /// What it became; nothing takes the mark away.
    pub(super) became: Vec<Became>,
    /// The last day on which the rest is kept.
    #[schemars(with = "model::answers::schema::Day")]
    pub(super) until: Date,
}

/// What is kept of an enquiry after it was deleted.
#[derive(Clone, Debug, JsonSchema, Serialize)]
pub(super) struct Apart {
    client_key: String,
    #[serde(flatten)]
    job: Job,
    deleted: String,
    reference: String,
    received: String,
    name: String,
    address: String,
    postcode: String,
}

/// All that is kept apart.
#[derive(Debug, JsonSchema, Serialize)]
pub(super) struct Jobs(Vec<Apart>);

impl Job {
    fn of(became: &str, until: &str) -> Option<Self> {
        let until = until.parse().ok()?;
        Some(Self { became: became.split(' ').filter_map(Became::named).collect(), until })
    }

    fn words(&self) -> String {
        Became::ALL.iter().filter(|one| self.became.contains(one)).map(|one| one.word()).collect::<Vec<_>>().join(" ")
    }
}

/// The mark of one enquiry, if it has one.
///
/// # Errors
/// The database's.
pub(super) async fn of(service: &Service, client_key: &str) -> Result<Option<Job>, sqlx::Error> {
    let found: Option<(String, String)> =
        sqlx::query_as("SELECT became, until FROM jobs WHERE client_key = ? AND deleted IS NULL")
            .bind(client_key)
            .fetch_optional(service.database.readers())
            .await?;
    Ok(found.and_then(|(became, until)| Job::of(&became, &until)))
}

/// Answers a PUT that marks an enquiry as a job, or takes the mark away, and returns the enquiry after that.
///
/// # Errors
/// [`Refusal`]: no such enquiry, or a day that is not allowed.
#[utoipa::path(
    put,
    path = "/api/installer/enquiries/{client_key}/job",
    operation_id = "mark_job",
    description = "Says that an enquiry became a job, or takes that back with an empty `became`.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    request_body = ref("#/components/schemas/Job"),
    responses(
        (status = 200, description = "The enquiry as it is now.", body = ref("#/components/schemas/Detail")),
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
    let job: Job = read_json(&json)?;
    let today = store::day_of(store::now());
    let latest = today.checked_add(Span::new().years(MOST_YEARS)).map_err(Refusal::ours)?;
    if !job.became.is_empty() && !(today..=latest).contains(&job.until) {
        let why = format!("{} is not allowed; it may be a day from {today} to {latest}", job.until);
        return Err(Refusal::field("until", why));
    }
    let mut transaction = service.database.write().await?;
    let known: Option<i64> = sqlx::query_scalar("SELECT 1 FROM enquiries WHERE client_key = ?")
        .bind(&client_key)
        .fetch_optional(&mut *transaction)
        .await?;
    known.ok_or(Refusal::NotFound)?;
    if job.became.is_empty() {
        sqlx::query("DELETE FROM jobs WHERE client_key = ? AND deleted IS NULL")
            .bind(&client_key)
            .execute(&mut *transaction)
            .await?;
    } else {
        let marked = sqlx::query(
            "INSERT INTO jobs (client_key, became, until) VALUES (?, ?, ?)
             ON CONFLICT (client_key) DO UPDATE SET became = excluded.became, until = excluded.until WHERE deleted IS NULL",
        )
        .bind(&client_key)
        .bind(job.words())
        .bind(job.until.to_string())
        .execute(&mut *transaction)
        .await?;
        if marked.rows_affected() == 0 {
            let why = "this was sent again after it was deleted, and what is kept of the first stands; an owner may delete that";
            return Err(Refusal::field("became", why));
        }
    }
    transaction.commit().await?;
    detail::of(&service, client_key).await.map(Json)
}

/// Sets apart what is to be kept of an enquiry that is about to be deleted, in the same transaction. `None` where nothing is: it has no mark,
/// or the day of its mark is past. What is kept already of one that came before under the same key stays as it is.
///
/// # Errors
/// The database's, and where what is kept can't be read.
pub(super) async fn set_apart(
    connection: &mut SqliteConnection,
    client_key: &str,
    now: Timestamp,
) -> Result<Option<Job>, Refusal> {
    let found: Option<(String, String, bool)> =
        sqlx::query_as("SELECT became, until, deleted IS NOT NULL FROM jobs WHERE client_key = ?")
            .bind(client_key)
            .fetch_optional(&mut *connection)
            .await?;
    let Some((became, until, apart)) = found else { return Ok(None) };
    let Some(job) = Job::of(&became, &until) else { return Ok(None) };
    if apart {
        return Ok(Some(job));
    }
    if job.until < store::day_of(now) {
        sqlx::query("DELETE FROM jobs WHERE client_key = ?").bind(client_key).execute(connection).await?;
        return Ok(None);
    }
    let row: Option<(String, String, String)> =
        sqlx::query_as("SELECT reference, received, record FROM enquiries WHERE client_key = ?")
            .bind(client_key)
            .fetch_optional(&mut *connection)
            .await?;
    let (reference, received, record) = row.ok_or(Refusal::NotFound)?;
    let contact = store::read_kept(record.as_bytes()).map_err(Refusal::ours)?.payload.contact;
    let answers = said_by::latest_of(&mut *connection, client_key).await?;
    let postcode = answers.home.postcode.known().map_or("", |postcode| postcode.as_str());
    sqlx::query(
        "UPDATE jobs SET deleted = ?, reference = ?, received = ?, name = ?, address = ?, postcode = ? WHERE client_key = ?",
    )
    .bind(now.to_string())
    .bind(reference)
    .bind(received)
    .bind(contact.name)
    .bind(contact.address)
    .bind(postcode)
    .bind(client_key)
    .execute(connection)
    .await?;
    Ok(Some(job))
}

/// Deletes what was kept apart until a day that is past.
///
/// # Errors
/// The database's.
pub(super) async fn forget(connection: &mut SqliteConnection, now: Timestamp) -> Result<u64, sqlx::Error> {
    let delete = sqlx::query("DELETE FROM jobs WHERE deleted IS NOT NULL AND until < ?");
    Ok(delete.bind(store::day_of(now).to_string()).execute(connection).await?.rows_affected())
}

type Columns = (String, String, String, String, String, String, String, String, String);

/// Answers a GET of all that is kept apart, the latest first.
///
/// # Errors
/// The database's.
#[utoipa::path(
    get,
    path = "/api/installer/jobs",
    operation_id = "list_jobs",
    description = "What is kept apart of enquiries that became jobs and were deleted.",
    responses((status = 200, description = "All of it, the latest first.", body = ref("#/components/schemas/Jobs"))),
)]
pub(super) async fn list(State(service): State<Service>) -> Result<Json<Jobs>, Refusal> {
    Ok(Json(Jobs(apart(&service, "").await?)))
}

/// What is kept apart: all of it, or what has this reference.
///
/// # Errors
/// The database's.
pub(super) async fn apart(service: &Service, reference: &str) -> Result<Vec<Apart>, sqlx::Error> {
    let rows: Vec<Columns> = sqlx::query_as(
        "SELECT client_key, became, until, deleted, reference, received, name, address, postcode FROM jobs
         WHERE deleted IS NOT NULL AND (?1 = '' OR reference = ?1) ORDER BY received DESC, client_key",
    )
    .bind(reference)
    .fetch_all(service.database.readers())
    .await?;
    let row = |(client_key, became, until, deleted, reference, received, name, address, postcode): Columns| {
        let job = Job::of(&became, &until)?;
        Some(Apart { client_key, job, deleted, reference, received, name, address, postcode })
    };
    Ok(rows.into_iter().filter_map(row).collect())
}

/// Answers a DELETE of what is kept apart of one enquiry, before its day.
///
/// # Errors
/// [`Refusal::NotFound`] if nothing is.
#[utoipa::path(
    delete,
    path = "/api/installer/jobs/{client_key}",
    operation_id = "delete_job",
    description = "Deletes what is kept apart of an enquiry, before its day.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    responses(
        (status = 204, description = "It is deleted."),
        (status = 403, description = "The account is not an owner's, or the header `X-Presurvey: 1` is missing.", body = ref("#/components/schemas/Told")),
        (status = 404, description = "Nothing is kept apart of it.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn delete(
    State(service): State<Service>,
    Path(client_key): Path<String>,
) -> Result<StatusCode, Refusal> {
    let mut transaction = service.database.write().await?;
    let deleted = sqlx::query("DELETE FROM jobs WHERE client_key = ? AND deleted IS NOT NULL")
        .bind(client_key)
        .execute(&mut *transaction)
        .await?;
    if deleted.rows_affected() == 0 {
        return Err(Refusal::NotFound);
    }
    events::tell(&mut transaction, EventKind::DeletedByInstaller, 1, store::now()).await?;
    transaction.commit().await?;
    service.database.forget_journal().await?;
    Ok(StatusCode::NO_CONTENT)
}
