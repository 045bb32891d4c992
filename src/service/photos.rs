//! Photos: each comes by an idempotent PUT, is stored under its own hash in its enquiry's folder, and is shown to the installer.

use super::Service;
use super::bodies::{Turn, said_length};
use super::error::Refusal;
use super::limits::PHOTO_BYTES;
use super::picture::{PictureKind, check_picture};
use axum::extract::{Path, Request, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use http_body_util::BodyExt;
use sha2::{Digest, Sha256};
use std::io::{self, Write};
use std::path::{Path as FilePath, PathBuf};
use tokio::io::AsyncWriteExt;
use tracing::Instrument;

/// Where photos are written until they are complete; on the same disk, so that the last step is a rename.
pub(super) const ARRIVING: &str = ".arriving";

/// Answers a PUT of a photo that an enquiry lists: stores it. Nothing is read of one that no enquiry lists.
///
/// # Errors
/// As for [`keep`]; and for a body that is too large or not whole.
#[utoipa::path(
    put,
    path = "/api/enquiries/{client_key}/photos/{sha256}",
    operation_id = "send_photo",
    description = "Sends a photo that an enquiry lists.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits."), ("sha256" = String, Path, description = "SHA-256 of the photo's bytes: 64 hexadecimal digits.")),
    request_body(content((Vec<u8> = "image/jpeg"), (Vec<u8> = "image/webp"))),
    responses(
        (status = 204, description = "It is stored."),
        (status = 400, description = "It did not arrive whole.", body = ref("#/components/schemas/Told")),
        (status = 404, description = "No enquiry lists it.", body = ref("#/components/schemas/Told")),
        (status = 408, description = "It took too long to arrive.", body = ref("#/components/schemas/Told")),
        (status = 413, description = "This is too large.", body = ref("#/components/schemas/Told")),
        (status = 415, description = "It is neither a JPEG nor a WebP.", body = ref("#/components/schemas/Told")),
        (status = 422, description = "Its bytes are not those that were said, or it is not plain.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn put(
    State(service): State<Service>,
    Path((client_key, sha256)): Path<(String, String)>,
    request: Request,
) -> Result<StatusCode, Refusal> {
    let arrived = has_arrived(&service, &client_key, &sha256).await?;
    let said = request
        .headers()
        .get(header::CONTENT_TYPE)
        .and_then(|value| value.to_str().ok())
        .and_then(PictureKind::of_media_type)
        .ok_or(Refusal::NotAPhoto)?;
    if said_length(&request).is_some_and(|length| length > PHOTO_BYTES as u64) {
        return Err(Refusal::TooLarge { most: PHOTO_BYTES });
    }
    let mut body = request.into_body();
    let mut arriving = if arrived { None } else { Some(Arriving::begin(&service).await?) };
    let mut length = 0;
    while let Some(frame) = body.frame().await {
        let Ok(piece) = frame.map_err(|_| Refusal::NotWhole)?.into_data() else { continue };
        length += piece.len();
        if length > PHOTO_BYTES {
            return Err(Refusal::TooLarge { most: PHOTO_BYTES });
        }
        if let Some(arriving) = &mut arriving {
            arriving.write(&piece).await?;
        }
    }
    let Some(arriving) = arriving else { return Ok(StatusCode::NO_CONTENT) };
    let draft = arriving.finish().await?;
    let turn = service.bodies.looked_at.turn().await?;
    // As for the enquiry: a page that is closed meanwhile does not cancel this.
    let task = {
        let service = service.clone();
        tokio::spawn(async move { keep(&service, &client_key, &sha256, said, draft, turn).await }.in_current_span())
    };
    task.await.map_err(Refusal::ours)??;
    Ok(StatusCode::NO_CONTENT)
}

/// Whether a photo that an enquiry lists is there already.
///
/// # Errors
/// [`Refusal::NotFound`] where no enquiry lists it.
async fn has_arrived(service: &Service, client_key: &str, sha256: &str) -> Result<bool, Refusal> {
    let listed: Option<Option<String>> =
        sqlx::query_scalar("SELECT kind FROM photos WHERE client_key = ? AND sha256 = ?")
            .bind(client_key)
            .bind(sha256)
            .fetch_optional(service.database.readers())
            .await?;
    Ok(listed.ok_or(Refusal::NotFound)?.is_some())
}

/// A photo on its way into a file, hashed as it comes, so that it is never held whole.
pub(super) struct Arriving {
    file: tokio::fs::File,
    hash: Sha256,
    draft: Draft,
}

/// A photo in a file of its own that nothing refers to yet; the file goes with it.
#[derive(Debug)]
pub(super) struct Draft {
    file: PathBuf,
    /// SHA-256 of its bytes.
    pub(super) sha256: String,
    /// How many bytes it has.
    pub(super) length: usize,
}

impl Drop for Draft {
    fn drop(&mut self) {
        // It is not there any more where the photo was kept.
        let _ = std::fs::remove_file(&self.file);
    }
}

impl Arriving {
    /// Begins a file in the folder of arrivals.
    pub(super) async fn begin(service: &Service) -> io::Result<Self> {
        let folder = service.photos.join(ARRIVING);
        tokio::fs::create_dir_all(&folder).await?;
        let draft = folder.join(hex::encode(rand::random::<[u8; 16]>()));
        let file = tokio::fs::File::create_new(&draft).await?;
        Ok(Self { file, hash: Sha256::new(), draft: Draft { file: draft, sha256: String::new(), length: 0 } })
    }

    /// Writes a piece at the end.
    pub(super) async fn write(&mut self, piece: &[u8]) -> io::Result<()> {
        self.hash.update(piece);
        self.draft.length += piece.len();
        self.file.write_all(piece).await
    }

    /// All of it has come.
    pub(super) async fn finish(mut self) -> io::Result<Draft> {
        self.file.flush().await?;
        self.draft.sha256 = hex::encode(self.hash.finalize());
        Ok(self.draft)
    }
}

impl Draft {
    /// A draft of bytes that are in memory already.
    pub(super) async fn of(service: &Service, bytes: &[u8]) -> io::Result<Self> {
        let mut arriving = Arriving::begin(service).await?;
        arriving.write(bytes).await?;
        arriving.finish().await
    }

    /// Looks at all its bytes on a thread apart; gives the turn back with what was seen.
    ///
    /// # Errors
    /// The system's own.
    pub(super) async fn looked_at<T: Send + 'static>(
        &self,
        mut turn: Turn,
        look: impl FnOnce(&[u8]) -> T + Send + 'static,
    ) -> Result<(Turn, T), Refusal> {
        let file = self.file.clone();
        let looking = tokio::task::spawn_blocking(move || turn.read(&file).map(look).map(|seen| (turn, seen)));
        Ok(looking.await.map_err(Refusal::ours)??)
    }

    /// Puts the file where it belongs, so that it is there whole or not at all, even after a power cut: flush to the disk, rename, and
    /// flush the folders that name it.
    fn put_into(&self, folder: &FilePath, name: &str) -> io::Result<()> {
        std::fs::create_dir_all(folder)?;
        std::fs::File::open(&self.file)?.sync_all()?;
        put_in_place(&self.file, folder, name)
    }
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
    draft: Draft,
    mut turn: Turn,
) -> Result<(), Refusal> {
    // Only a listed photo goes on. Its key and hash were checked to be hexadecimal digits on arrival, so both are safe in the path below.
    if has_arrived(service, client_key, sha256).await? {
        return Ok(());
    }
    let (folder, name) = (service.photos.join(client_key), sha256.to_owned());
    let kind = tokio::task::spawn_blocking(move || {
        let found = &draft.sha256;
        if *found != name {
            return Err(Refusal::field(
                "sha256",
                format!("the photo's SHA-256 is {found}; it may only be the one in its address"),
            ));
        }
        let kind = check_picture(turn.read(&draft.file)?).map_err(|why| Refusal::field("photo", why.to_string()))?;
        if kind != said {
            return Err(Refusal::field(
                "Content-Type",
                format!("{} is not allowed; it may be {}", said.media_type(), kind.media_type()),
            ));
        }
        draft.put_into(&folder, &name)?;
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
        .and_then(|()| put_in_place(&draft, folder, name));
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

/// Moves a file that is on the disk whole, and flushes the folders that name it.
fn put_in_place(draft: &FilePath, folder: &FilePath, name: &str) -> io::Result<()> {
    std::fs::rename(draft, folder.join(name))?;
    flush_folder(folder)?;
    folder.parent().map_or(Ok(()), flush_folder)
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
#[utoipa::path(
    get,
    path = "/api/installer/enquiries/{client_key}/photos/{sha256}",
    operation_id = "read_photo",
    description = "A photo of an enquiry.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits."), ("sha256" = String, Path, description = "SHA-256 of the photo's bytes: 64 hexadecimal digits.")),
    responses(
        (status = 200, description = "The photo.", content((Vec<u8> = "image/jpeg"), (Vec<u8> = "image/webp"))),
        (status = 404, description = "There is no such photo, or it has not arrived.", body = ref("#/components/schemas/Told")),
    ),
)]
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
