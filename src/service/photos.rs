//! Photos: each comes by an idempotent PUT, is stored under its own hash in its enquiry's folder, and is shown to the installer.

use super::Service;
use super::error::Refusal;
use super::limits::PHOTO_BYTES;
use super::picture::{PictureKind, check_picture};
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use sha2::{Digest, Sha256};
use std::io::{self, Write};
use std::path::{Path as FilePath, PathBuf};
use tracing::Instrument;

/// Where photos are written until they are complete; on the same disk, so that the last step is a rename.
pub(super) const ARRIVING: &str = ".arriving";

/// Answers a PUT of a photo that an enquiry lists: stores it.
///
/// # Errors
/// As for [`keep`]; and for a body that is too large or not whole.
pub(super) async fn put(
    State(service): State<Service>,
    Path((client_key, sha256)): Path<(String, String)>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Result<StatusCode, Refusal> {
    let bytes = body.map_err(|rejection| Refusal::of_body(&rejection, PHOTO_BYTES))?;
    let said = headers
        .get(header::CONTENT_TYPE)
        .and_then(|value| value.to_str().ok())
        .and_then(PictureKind::of_media_type)
        .ok_or(Refusal::NotAPhoto)?;
    // As for the enquiry: a page that is closed meanwhile does not cancel this.
    let task = tokio::spawn(async move { keep(&service, &client_key, &sha256, said, bytes).await }.in_current_span());
    task.await.map_err(Refusal::ours)??;
    Ok(StatusCode::NO_CONTENT)
}

/// Stores a photo that its enquiry lists; storing it again changes nothing.
///
/// # Errors
/// [`Refusal`] where the enquiry does not list it, its bytes have another hash or kind than was said, or it is not plain
/// ([`check_picture`]).
pub(super) async fn keep(
    service: &Service,
    client_key: &str,
    sha256: &str,
    said: PictureKind,
    bytes: Bytes,
) -> Result<(), Refusal> {
    // Only a listed photo goes on. Its key and hash were checked to be hexadecimal digits on arrival, so both are safe in the path below.
    let listed: Option<Option<String>> =
        sqlx::query_scalar("SELECT kind FROM photos WHERE client_key = ? AND sha256 = ?")
            .bind(client_key)
            .bind(sha256)
            .fetch_optional(service.database.readers())
            .await?;
    if listed.ok_or(Refusal::NotFound)?.is_some() {
        return Ok(());
    }
    let (folder, name) = (service.photos.join(client_key), sha256.to_owned());
    let arriving = service.photos.join(ARRIVING);
    let kind = tokio::task::spawn_blocking(move || {
        let found = hex::encode(Sha256::digest(&bytes));
        if found != name {
            return Err(Refusal::field(
                "sha256",
                format!("the photo's SHA-256 is {found}; it may only be the one in its address"),
            ));
        }
        let kind = check_picture(&bytes).map_err(|why| Refusal::field("photo", why.to_string()))?;
        if kind != said {
            return Err(Refusal::field(
                "Content-Type",
                format!("{} is not allowed; it may be {}", said.media_type(), kind.media_type()),
            ));
        }
        write_whole(&arriving, &folder, &name, &bytes)?;
        Ok(kind)
    })
    .await
    .map_err(Refusal::ours)??;
    let marked = service
        .database
        .execute(
            sqlx::query("UPDATE photos SET kind = ? WHERE client_key = ? AND sha256 = ?")
                .bind(kind.media_type())
                .bind(client_key)
                .bind(sha256),
        )
        .await?;
    service.metrics.photos.inc_by(marked.rows_affected().min(1));
    if marked.rows_affected() == 0 {
        // The enquiry was deleted while its photo was being written: the photo goes too.
        remove_all(service, client_key).await?;
        return Err(Refusal::NotFound);
    }
    Ok(())
}

/// Writes a file so that it is complete or absent, even after a power cut: write, flush to the disk, rename, and flush the folders that
/// name it.
pub(super) fn write_whole(arriving: &FilePath, folder: &FilePath, name: &str, bytes: &[u8]) -> io::Result<()> {
    std::fs::create_dir_all(arriving)?;
    std::fs::create_dir_all(folder)?;
    let draft = arriving.join(hex::encode(rand::random::<[u8; 16]>()));
    let written = std::fs::File::create_new(&draft)
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
        .and_then(|()| std::fs::rename(&draft, folder.join(name)))
        .and_then(|()| flush_folder(folder))
        .and_then(|()| folder.parent().map_or(Ok(()), flush_folder));
    if written.is_err() {
        let _ = std::fs::remove_file(&draft); // the first error is the one to report
    }
    written
}

/// Writes a file of some size among those that arrive, flushes it to the disk and removes it: whether photos can be kept.
pub(super) fn write_and_remove(arriving: &FilePath) -> io::Result<()> {
    // This program's choice: more than a file system keeps in an entry of its own, far less than a photo.
    const SIZE: usize = 64 * 1024;
    std::fs::create_dir_all(arriving)?;
    let draft = arriving.join(hex::encode(rand::random::<[u8; 16]>()));
    let written = std::fs::File::create_new(&draft)
        .and_then(|mut file| file.write_all(&[0x5a; SIZE]).and_then(|()| file.sync_all()));
    match std::fs::remove_file(&draft) {
        Err(why) if why.kind() != io::ErrorKind::NotFound => written.and(Err(why)),
        _ => written, // what could not be made is not there
    }
}

#[cfg(unix)]
pub(super) fn flush_folder(folder: &FilePath) -> io::Result<()> {
    std::fs::File::open(folder)?.sync_all()
}

/// Other systems don't open folders as files; there the rename itself has to do.
#[cfg(not(unix))]
pub(super) fn flush_folder(_: &FilePath) -> io::Result<()> {
    Ok(())
}

/// Removes the photos of an enquiry; having none is no error.
pub(super) async fn remove_all(service: &Service, client_key: &str) -> Result<(), io::Error> {
    if client_key.len() != 32 || !client_key.bytes().all(|digit| digit.is_ascii_hexdigit()) {
        return Ok(()); // no enquiry has such a key, and it must not become part of a path
    }
    let folder: PathBuf = service.photos.join(client_key);
    match tokio::fs::remove_dir_all(folder).await {
        Err(why) if why.kind() == io::ErrorKind::NotFound => Ok(()),
        done => done,
    }
}

/// Answers a GET of a photo, for the installer.
///
/// # Errors
/// [`Refusal::NotFound`] if it is not listed or has not arrived.
pub(super) async fn get(
    State(service): State<Service>,
    Path((client_key, sha256)): Path<(String, String)>,
) -> Result<Response, Refusal> {
    let kind: Option<Option<String>> =
        sqlx::query_scalar("SELECT kind FROM photos WHERE client_key = ? AND sha256 = ?")
            .bind(&client_key)
            .bind(&sha256)
            .fetch_optional(service.database.readers())
            .await?;
    let kind = kind.flatten().ok_or(Refusal::NotFound)?;
    let bytes = tokio::fs::read(service.photos.join(client_key).join(sha256)).await?;
    Ok(([(header::CONTENT_TYPE, kind)], bytes).into_response())
}
