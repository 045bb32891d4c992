//! All that is held on the person who sent an enquiry, handed out: as a ZIP to the installer's page, as a folder by the command line.
//!
//! `enquiry.json` has what the database holds, no secrets' hashes among it; beside it are the photos as they arrived.

use super::error::Refusal;
use super::events::{self, EventKind};
use super::picture::PictureKind;
use super::service::make_private_folder;
use super::{OpenError, Service, jobs};
use axum::body::{Body, Bytes};
use axum::extract::{Path, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use http_body_util::channel::{Channel, Sender};
use record::enquiry::Reference;
use serde_json::{Value, json};
use std::io::{self, BufWriter, Write};
use std::path::{Path as FilePath, PathBuf};
use tokio::runtime::Handle;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// The file with all but the photos.
const WRITTEN: &str = "enquiry.json";
/// The folder of the photos.
const PHOTOS: &str = "photos";
/// How many bytes of a ZIP are handed on at once, and how many such pieces wait for a slow reader: this program's choice.
const PIECE: usize = 64 * 1024;
/// See [`PIECE`].
const PIECES: usize = 4;
/// What is left out of a record wherever it stands: the hashes of secrets.
const SECRETS: [&str; 2] = ["deletion_hash", "addition_hash"];

/// Why nothing was exported.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// There is no such enquiry.
    #[error("there is no enquiry {0:?}; a reference is two groups of four, such as BCDF-2346")]
    NotFound(String),
    /// The target is there already.
    #[error("{} is there already; name a folder that is not", .0.display())]
    Taken(PathBuf),
    /// A folder can't be made.
    #[error(transparent)]
    Folder(#[from] OpenError),
    /// The database can't be read, or what is in it.
    #[error("the enquiry can't be read: {0}")]
    Unreadable(Box<dyn std::error::Error + Send + Sync>),
    /// A file can't be read or written.
    #[error("a file can't be copied: {0}")]
    File(#[from] io::Error),
}

/// What was exported.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exported {
    /// How many photos.
    pub photos: usize,
    /// The photos that the enquiry lists and that never arrived, or are gone, by their hash.
    pub missing: Vec<String>,
}

/// All that is held of one enquiry: `enquiry.json`, and each photo's name in the export with where it lies.
struct Held {
    reference: String,
    written: Value,
    photos: Vec<(String, PathBuf)>,
    missing: Vec<String>,
}

/// Answers a GET of everything held of one enquiry, as a ZIP that is made while it is sent: no more than a few pieces of it are in memory.
///
/// # Errors
/// [`Refusal::NotFound`] if there is no such enquiry; the database's own. Where a file can't be read the answer breaks off.
#[utoipa::path(
    get,
    path = "/api/installer/enquiries/{client_key}/export",
    operation_id = "export_enquiry",
    description = "Everything that is held of one enquiry.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    responses(
        (status = 200, description = "`enquiry.json` and the photos.", body = Vec<u8>, content_type = "application/zip"),
        (status = 403, description = "The account is not an owner's.", body = ref("#/components/schemas/Told")),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn get(State(service): State<Service>, Path(client_key): Path<String>) -> Result<Response, Refusal> {
    let held = held(&service, &client_key).await?.ok_or(Refusal::NotFound)?;
    let name = format!("attachment; filename=\"{}.zip\"", held.reference);
    events::note(&service, EventKind::Exported).await;
    let (mut sender, body) = Channel::<Bytes, io::Error>::new(PIECES);
    tokio::task::spawn_blocking(move || {
        if let Err(why) = zipped(&held, Pieces { sender: &mut sender, runtime: Handle::current() }) {
            tracing::error!(error = %why, "an export broke off");
            sender.abort(io::Error::other(why));
        }
    });
    let headers = [(header::CONTENT_TYPE, "application/zip".to_owned()), (header::CONTENT_DISPOSITION, name)];
    Ok((headers, Body::new(body)).into_response())
}

/// Sends what is written into it as a response's body, and waits where nobody takes it.
struct Pieces<'a> {
    sender: &'a mut Sender<Bytes, io::Error>,
    runtime: Handle,
}

impl Write for Pieces<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let sent = self.runtime.block_on(self.sender.send_data(Bytes::copy_from_slice(bytes)));
        // Whoever asked for it went away.
        sent.map(|()| bytes.len()).map_err(|_| io::ErrorKind::BrokenPipe.into())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Writes everything held of the enquiry with this reference into the new folder `to`.
///
/// # Errors
/// [`ExportError`].
pub async fn export(service: &Service, reference: &str, to: &FilePath) -> Result<Exported, ExportError> {
    let unreadable = |why: sqlx::Error| ExportError::Unreadable(why.into());
    if to.exists() {
        return Err(ExportError::Taken(to.to_owned()));
    }
    let not_found = || ExportError::NotFound(reference.chars().take(60).collect());
    let known = Reference::read(reference).ok_or_else(not_found)?;
    let key: Option<String> = sqlx::query_scalar("SELECT client_key FROM enquiries WHERE reference = ?")
        .bind(known.as_str())
        .fetch_optional(service.database.readers())
        .await
        .map_err(unreadable)?;
    let Some(key) = key else {
        // Deleted, and something kept apart of it.
        let apart = jobs::apart(service, known.as_str()).await.map_err(unreadable)?;
        let apart = apart.first().ok_or_else(not_found)?;
        make_private_folder(to)?;
        let written = serde_json::to_value(apart).map_err(|why| ExportError::Unreadable(why.into()))?;
        std::fs::write(to.join(WRITTEN), pretty(&written))?;
        events::note(service, EventKind::Exported).await;
        return Ok(Exported::default());
    };
    let held = held(service, &key).await.map_err(unreadable)?.ok_or_else(not_found)?;
    make_private_folder(to)?;
    make_private_folder(&to.join(PHOTOS))?;
    std::fs::write(to.join(WRITTEN), pretty(&held.written))?;
    for (name, place) in &held.photos {
        std::fs::copy(place, to.join(name))?;
    }
    events::note(service, EventKind::Exported).await;
    Ok(Exported { photos: held.photos.len(), missing: held.missing })
}

type Columns = (String, String, String, String, Option<String>, String, String, bool);

/// Gathers everything held of one enquiry; `None` if there is none by this key.
async fn held(service: &Service, client_key: &str) -> Result<Option<Held>, sqlx::Error> {
    // One transaction that reads, so that all of it is of one moment.
    let mut reading = service.database.readers().begin().await?;
    let found: Option<Columns> = sqlx::query_as(
        "SELECT reference, received, keep_until, record, own_assessment, agreement, summary, handled
         FROM enquiries WHERE client_key = ?",
    )
    .bind(client_key)
    .fetch_optional(&mut *reading)
    .await?;
    let Some((reference, received, keep_until, record, own, agreement, summary, handled)) = found else {
        return Ok(None);
    };
    let changes: Vec<(String, String, String, String)> =
        sqlx::query_as("SELECT at, said_by, answers, assessment FROM corrections WHERE client_key = ? ORDER BY id")
            .bind(client_key)
            .fetch_all(&mut *reading)
            .await?;
    let links: Vec<String> = sqlx::query_scalar("SELECT questions FROM links WHERE client_key = ? ORDER BY rowid")
        .bind(client_key)
        .fetch_all(&mut *reading)
        .await?;
    let listed: Vec<(String, Option<String>, Option<String>)> =
        sqlx::query_as("SELECT sha256, kind, added FROM photos WHERE client_key = ? ORDER BY rowid")
            .bind(client_key)
            .fetch_all(&mut *reading)
            .await?;
    reading.commit().await?;
    let job = jobs::of(service, client_key).await?;

    let (mut photos, mut missing, mut told) = (Vec::new(), Vec::new(), Vec::new());
    for (sha256, kind, added) in listed {
        let place = service.photos.join(client_key).join(&sha256);
        let kind = kind.as_deref().and_then(PictureKind::of_media_type);
        let name = kind.filter(|_| place.is_file()).map(|kind| format!("{PHOTOS}/{sha256}.{}", ending(kind)));
        told.push(json!({ "sha256": sha256, "file": name, "added_later": added.as_deref().map(read) }));
        match name {
            Some(name) => photos.push((name, place)),
            None => missing.push(sha256),
        }
    }
    let mut sent = read(&record);
    without_secrets(&mut sent);
    let changes: Vec<Value> = changes
        .iter()
        .map(|(at, said_by, answers, assessment)| {
            json!({ "at": at, "said_by": said_by, "answers": read(answers), "assessment": read(assessment) })
        })
        .collect();
    let links: Vec<Value> =
        links.iter().map(|questions| json!({ "questions": questions.split(' ').collect::<Vec<_>>() })).collect();
    let written = json!({
        "reference": reference,
        "client_key": client_key,
        "received": received,
        "keep_until": keep_until,
        "handled": handled,
        "sent": sent,
        "assessment": own.as_deref().map(read),
        "agreement": agreement,
        "summary": read(&summary),
        "changes": changes,
        "links": links,
        "job": job,
        "photos": told,
    });
    Ok(Some(Held { reference, written, photos, missing }))
}

/// Kept JSON as it is; what is none, of another version's writing, as the text that it is.
fn read(json: &str) -> Value {
    serde_json::from_str(json).unwrap_or_else(|_| json.into())
}

fn without_secrets(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            fields.retain(|name, _| !SECRETS.contains(&name.as_str()));
            fields.values_mut().for_each(without_secrets);
        }
        Value::Array(items) => items.iter_mut().for_each(without_secrets),
        _ => {}
    }
}

/// The ending of a photo's file name.
const fn ending(kind: PictureKind) -> &'static str {
    match kind {
        PictureKind::Jpeg => "jpg",
        PictureKind::Webp => "webp",
    }
}

fn pretty(value: &Value) -> String {
    serde_json::to_string_pretty(value).expect("a JSON value can be written") + "\n"
}

/// Writes the export as a ZIP. Photos are compressed already, so nothing is compressed.
fn zipped(held: &Held, to: Pieces<'_>) -> Result<(), zip::result::ZipError> {
    let mut zip = ZipWriter::new_stream(BufWriter::with_capacity(PIECE, to));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    zip.start_file(WRITTEN, options)?;
    zip.write_all(pretty(&held.written).as_bytes())?;
    for (name, place) in &held.photos {
        zip.start_file(name.as_str(), options)?;
        io::copy(&mut std::fs::File::open(place)?, &mut zip)?;
    }
    zip.finish()?.into_inner().flush()?;
    Ok(())
}
