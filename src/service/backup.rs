//! Backup and restore: a data folder copied whole, also while a service writes into it. A backup is a data folder itself, so the way back is
//! the same copy.
//!
//! The database is copied at one moment (`VACUUM INTO`, which reads a snapshot and ends however much is written meanwhile; SQLite's online
//! backup starts again at each write of another connection). The photos that it names are copied after it, because a photo is written
//! before it is named. What was deleted before is not in the copy, not even as an unused page.

use super::installers::{FURTHER, further_installers};
use super::photos::{flush_folder, write_whole};
use super::service::make_private_folder;
use super::{OpenError, database};
use sha2::{Digest, Sha256};
use sqlx::sqlite::{SqliteConnection, SqliteJournalMode};
use sqlx::{AssertSqlSafe, ConnectOptions, Connection};
use std::io;
use std::path::{Path, PathBuf};

/// The name of the database file in a data folder.
pub(super) const DATABASE: &str = "presurvey.sqlite";
/// The name of the photo folder in a data folder.
pub(super) const PHOTOS: &str = "photos";

/// The tables whose rows are in no copy; a folder of an earlier program, which is copied as it is, may lack some.
const LEFT_OUT: [&str; 5] = ["sessions", "known_browsers", "attempts", "wrong_codes", "copies"];

/// What was copied.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Copied {
    /// How many enquiries.
    pub enquiries: u64,
    /// How many photos.
    pub photos: u64,
    /// The photos that the database names and that are not there, or have other bytes: the enquiry's reference with the photo's hash. In
    /// the copy they count as not arrived.
    pub missing: Vec<String>,
}

/// Why a folder could not be copied; nothing is left of the copy then.
#[derive(Debug, thiserror::Error)]
pub enum CopyError {
    /// There is no database.
    #[error("{}: no service has kept anything in this folder", .0.display())]
    NothingThere(PathBuf),
    /// The target is there already.
    #[error("{} is there already; name a folder that is not", .0.display())]
    Taken(PathBuf),
    /// A folder can't be made.
    #[error(transparent)]
    Folder(#[from] OpenError),
    /// The database can't be read or written.
    #[error("the database can't be copied: {0}")]
    Database(#[from] sqlx::Error),
    /// The database is damaged.
    #[error("the database of {} is damaged: {found}", folder.display())]
    Damaged {
        /// The folder it was copied from.
        folder: PathBuf,
        /// What SQLite's own check says.
        found: String,
    },
    /// A file can't be read or written.
    #[error("a file can't be copied: {0}")]
    File(#[from] io::Error),
}

/// Copies the data folder `from` into the new folder `to`, with the data of every installer in it. `told` is called after each photo with how
/// many of the installer's photos were copied, of how many.
/// Sessions, known browsers, attempts to sign in and wrong codes are left out: who is signed in now is not signed in after a restore. So
/// are the hashes of addresses to which a copy was mailed: they are promised to be kept for a day, and a backup stays longer.
///
/// # Errors
/// [`CopyError`].
pub async fn copy_data(from: &Path, to: &Path, mut told: impl FnMut(usize, usize)) -> Result<Copied, CopyError> {
    if !from.join(DATABASE).is_file() {
        return Err(CopyError::NothingThere(from.to_owned()));
    }
    if to.exists() {
        return Err(CopyError::Taken(to.to_owned()));
    }
    // Under another name until it is whole: a folder that has its own name can be relied on.
    let mut draft = to.as_os_str().to_owned();
    draft.push(".unfinished");
    let draft = PathBuf::from(draft);
    match std::fs::remove_dir_all(&draft) {
        Err(why) if why.kind() != io::ErrorKind::NotFound => return Err(why.into()),
        _ => make_private_folder(&draft)?,
    }
    let copied = copy_all(from, &draft, &mut told).await;
    let whole = copied.and_then(|copied| {
        std::fs::rename(&draft, to)?;
        to.parent().filter(|parent| !parent.as_os_str().is_empty()).map_or(Ok(()), flush_folder)?;
        Ok(copied)
    });
    if whole.is_err() {
        let _ = std::fs::remove_dir_all(&draft); // the first error is the one to report
    }
    whole
}

/// Copies the data of the first installer and of every further one.
async fn copy_all(from: &Path, draft: &Path, told: &mut impl FnMut(usize, usize)) -> Result<Copied, CopyError> {
    let mut all = copy_into(from, draft, told).await?;
    for id in further_installers(from)? {
        let [from, draft] = [from, draft].map(|data| data.join(FURTHER).join(&id));
        make_private_folder(&draft)?;
        let Copied { enquiries, photos, missing } = copy_into(&from, &draft, told).await?;
        all.enquiries += enquiries;
        all.photos += photos;
        all.missing.extend(missing.into_iter().map(|photo| format!("{id}: {photo}")));
    }
    if draft.join(FURTHER).is_dir() {
        flush_folder(&draft.join(FURTHER))?;
        flush_folder(draft)?;
    }
    Ok(all)
}

async fn copy_into(from: &Path, draft: &Path, told: &mut impl FnMut(usize, usize)) -> Result<Copied, CopyError> {
    let file = draft.join(DATABASE);
    let mut live = database::options(&from.join(DATABASE)).read_only(true).connect().await?;
    sqlx::query("VACUUM INTO ?").bind(file.to_string_lossy()).execute(&mut live).await?;
    database::make_private(&file)?;
    let mut copy = database::options(&file).journal_mode(SqliteJournalMode::Delete).connect().await?;
    let found: String = sqlx::query_scalar("PRAGMA integrity_check").fetch_one(&mut copy).await?;
    if found != "ok" {
        return Err(CopyError::Damaged { folder: from.to_owned(), found });
    }
    for table in LEFT_OUT {
        let there: Option<i64> = sqlx::query_scalar("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?")
            .bind(table)
            .fetch_optional(&mut copy)
            .await?;
        if there.is_some() {
            sqlx::query(AssertSqlSafe(["DELETE FROM ", table].concat())).execute(&mut copy).await?;
        }
    }

    let photos: Vec<(String, String)> =
        sqlx::query_as("SELECT client_key, sha256 FROM photos WHERE kind IS NOT NULL ORDER BY client_key, sha256")
            .fetch_all(&mut copy)
            .await?;
    let mut missing = Vec::new();
    for (at, (key, name)) in photos.iter().enumerate() {
        if !copy_photo(&from.join(PHOTOS), &draft.join(PHOTOS), key, name).await? {
            missing.extend(gone(&mut live, &mut copy, key, name).await?);
        }
        told(at + 1, photos.len());
    }
    let enquiries: i64 = sqlx::query_scalar("SELECT count(*) FROM enquiries").fetch_one(&mut copy).await?;
    let photos: i64 =
        sqlx::query_scalar("SELECT count(*) FROM photos WHERE kind IS NOT NULL").fetch_one(&mut copy).await?;
    copy.close().await?;
    live.close().await?;
    std::fs::File::open(&file)?.sync_all()?;
    flush_folder(draft)?;
    Ok(Copied { enquiries: enquiries.unsigned_abs(), photos: photos.unsigned_abs(), missing })
}

/// Copies a photo if it is there and has the bytes that its name says.
async fn copy_photo(from: &Path, to: &Path, key: &str, name: &str) -> Result<bool, CopyError> {
    let bytes = match tokio::fs::read(from.join(key).join(name)).await {
        Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(false),
        read => read?,
    };
    let (folder, arriving, name) = (to.join(key), to.join(super::photos::ARRIVING), name.to_owned());
    let written = tokio::task::spawn_blocking(move || {
        if hex::encode(Sha256::digest(&bytes)) != name {
            return Ok(false);
        }
        write_whole(&arriving, &folder, &name, &bytes).map(|()| true)
    });
    Ok(written.await.map_err(io::Error::other)??)
}

/// Deals with a photo that could not be copied. Where its enquiry was deleted meanwhile, the copy forgets it too; else the photo counts as
/// not arrived there, and what to report is returned.
async fn gone(
    live: &mut SqliteConnection,
    copy: &mut SqliteConnection,
    key: &str,
    name: &str,
) -> Result<Option<String>, CopyError> {
    let reference: Option<String> = sqlx::query_scalar("SELECT reference FROM enquiries WHERE client_key = ?")
        .bind(key)
        .fetch_optional(live)
        .await?;
    let Some(reference) = reference else {
        sqlx::query("DELETE FROM enquiries WHERE client_key = ?").bind(key).execute(copy).await?;
        return Ok(None);
    };
    sqlx::query("UPDATE photos SET kind = NULL WHERE client_key = ? AND sha256 = ?")
        .bind(key)
        .bind(name)
        .execute(copy)
        .await?;
    Ok(Some(format!("{reference}: {name}")))
}
