//! Deletes what has passed its day: enquiries with their photos, sessions, sign-in attempts, the rate limit's counts of addresses that sent
//! nothing of late, and files that no row refers to.

use super::photos::{self, ARRIVING};
use super::{Service, store};
use jiff::{SignedDuration, Timestamp};
use std::io;
use std::time::Duration;

/// An upload takes minutes at most: a file that has been in the folder of arrivals for longer belongs to none.
const UPLOADS_LAST: Duration = Duration::from_secs(3600);

/// Why tidying stopped.
#[derive(Debug, thiserror::Error)]
pub enum TidyError {
    /// The database's fault.
    #[error("the database can't be tidied: {0}")]
    Database(#[from] sqlx::Error),
    /// The photo folder's fault.
    #[error("the photo folder can't be tidied: {0}")]
    Files(#[from] io::Error),
}

/// Tidies once and returns how many enquiries had passed their day.
///
/// # Errors
/// `TidyError`; the next run does what was not done.
pub async fn tidy(service: &Service, now: Timestamp) -> Result<u64, TidyError> {
    let past = service
        .database
        .execute(sqlx::query("DELETE FROM enquiries WHERE keep_until < ?").bind(store::day_of(now).to_string()))
        .await?
        .rows_affected();
    for statement in ["DELETE FROM sessions WHERE until <= ?", "DELETE FROM known_browsers WHERE until <= ?"] {
        service.database.execute(sqlx::query(statement).bind(now.to_string())).await?;
    }
    let hour_ago = now - SignedDuration::from_hours(1);
    service.database.execute(sqlx::query("DELETE FROM attempts WHERE at < ?").bind(hour_ago.to_string())).await?;
    remove_unnamed(service).await?;
    service.rate_limits.forget();
    Ok(past)
}

/// Removes photo folders of enquiries that are gone, and uploads that were never completed.
async fn remove_unnamed(service: &Service) -> Result<(), TidyError> {
    let mut folders = tokio::fs::read_dir(&service.photos).await?;
    while let Some(folder) = folders.next_entry().await? {
        let name = folder.file_name().to_string_lossy().into_owned();
        if name == ARRIVING {
            continue;
        }
        // Asked after the folder was listed: a folder is only made once its enquiry is stored, so this can't remove a new one.
        let named: Option<i64> = sqlx::query_scalar("SELECT 1 FROM enquiries WHERE client_key = ?")
            .bind(&name)
            .fetch_optional(service.database.readers())
            .await?;
        if named.is_none() {
            photos::remove_all(service, &name).await?;
        }
    }
    let mut drafts = match tokio::fs::read_dir(service.photos.join(ARRIVING)).await {
        Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(()),
        opened => opened?,
    };
    while let Some(draft) = drafts.next_entry().await? {
        let age = draft.metadata().await?.modified()?.elapsed().unwrap_or_default();
        if age > UPLOADS_LAST {
            tokio::fs::remove_file(draft.path()).await?;
        }
    }
    Ok(())
}

/// Tidies now and every hour until the service has stopped; a failure is logged and tried again.
pub(super) async fn keep_tidy(service: Service, mut stopped: tokio::sync::watch::Receiver<()>) {
    let mut hours = tokio::time::interval(Duration::from_secs(3600));
    loop {
        tokio::select! {
            _ = hours.tick() => {}
            _ = stopped.changed() => return, // the sender is dropped when nothing is served any more
        }
        match tidy(&service, store::now()).await {
            Ok(0) => {}
            Ok(past) => tracing::info!(past, "deleted enquiries that were past their day"),
            Err(why) => tracing::error!(error = %why, "tidying failed; it is tried again in an hour"),
        }
    }
}
