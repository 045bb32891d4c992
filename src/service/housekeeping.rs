//! Deletes what has passed its day: enquiries with their photos, sessions, sign-in attempts, events, the rate limit's counts of addresses that
//! sent nothing of late, and files that no row refers to.
//!
//! An enquiry is never deleted by one look at a clock. Two looks, hours apart, must find its day past; and where the clock has jumped
//! forward, or more is to be deleted than ordinary running ever brings, nothing is deleted until a look a day later finds the same. What was
//! seen is kept in the database: starting again neither hastens this nor begins it anew. A clock that goes back undoes what was seen ahead
//! of it.

use super::copies;
use super::events::{self, EventKind};
use super::photos::{self, ARRIVING};
use super::sessions::UNUSED_LASTS;
use super::{Service, attempts, jobs, second_factor, store};
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use sqlx::SqliteConnection;
use std::io;
use std::time::Duration;

/// An upload takes minutes at most: a file that has been in the folder of arrivals for longer belongs to none.
const UPLOADS_LAST: Duration = Duration::from_secs(3600);
/// How far apart the two looks are that must find an enquiry's day past: this program's choice.
const LOOKS_APART: SignedDuration = SignedDuration::from_hours(6);
/// A clock that is further ahead of the last look than this has jumped: this program's choice. A service that runs looks every hour; for
/// one that was off for longer, deleting only waits.
const JUMP: SignedDuration = SignedDuration::from_hours(48);
/// How long nothing is deleted after a jump, or where there is much to delete: this program's choice, long enough for a clock to be set
/// right and for somebody to read the log.
const PUT_OFF: SignedDuration = SignedDuration::from_hours(24);
/// Up to so many enquiries are deleted by one look without a further one: this program's choice, several times what an hour brings.
const MOST_AT_ONCE: i64 = 20;
/// More than [`MOST_AT_ONCE`] are as well if they are no more than one in so many of all that are kept: this program's choice. With 180 days
/// to keep and as many enquiries each day, a day's are one in 180.
const ONE_IN: i64 = 10;

/// Why tidying stopped.
#[derive(Debug, thiserror::Error)]
pub enum TidyError {
    /// The database's fault.
    #[error("the database can't be tidied: {0}")]
    Database(#[from] sqlx::Error),
    /// What is to be kept apart of an enquiry can't be read.
    #[error("what is to be kept of an enquiry that became a job can't be read: {0}")]
    Unreadable(String),
    /// The photo folder's fault.
    #[error("the photo folder can't be tidied: {0}")]
    Files(#[from] io::Error),
}

/// Tidies once and returns how many enquiries were deleted because their day had come.
///
/// # Errors
/// `TidyError`; the next run does what was not done.
pub async fn tidy(service: &Service, now: Timestamp) -> Result<u64, TidyError> {
    let deleted = delete_past(service, now).await?;
    for statement in ["DELETE FROM sessions WHERE until <= ?", "DELETE FROM known_browsers WHERE until <= ?"] {
        service.database.execute(sqlx::query(statement).bind(now.to_string())).await?;
    }
    let unused = sqlx::query("DELETE FROM sessions WHERE used <= ?").bind((now - UNUSED_LASTS).to_string());
    service.database.execute(unused).await?;
    attempts::forget(service, now).await?;
    second_factor::forget(service, now).await?;
    copies::forget(service, now).await?;
    remove_unnamed(service).await?;
    service.rate_limits.forget();
    // At every run, for one before it may not have been able to.
    service.database.forget_journal().await?;
    Ok(deleted)
}

/// Looks which enquiries are past their day, and deletes those that an earlier look found past it too.
async fn delete_past(service: &Service, now: Timestamp) -> Result<u64, TidyError> {
    let mut transaction = service.database.write().await?;
    let last = match moment(&mut transaction, "looked").await? {
        None => latest_received(&mut transaction).await?,
        last => last,
    };
    let jumped = last.is_some_and(|last| now.duration_since(last) > JUMP);
    // What was seen by a clock that was ahead of this one was not seen.
    let put_off = moment(&mut transaction, "deleting put off").await?.filter(|since| *since <= now);
    let today = store::day_of(now).to_string();
    sqlx::query("UPDATE enquiries SET past_since = NULL WHERE keep_until >= ? OR past_since > ?")
        .bind(&today)
        .bind(now.to_string())
        .execute(&mut *transaction)
        .await?;
    sqlx::query("UPDATE enquiries SET past_since = ? WHERE past_since IS NULL AND keep_until < ?")
        .bind(now.to_string())
        .bind(&today)
        .execute(&mut *transaction)
        .await?;
    let before = (now - LOOKS_APART).to_string();
    let (due, past, all): (i64, i64, i64) =
        sqlx::query_as("SELECT count(*) FILTER (WHERE past_since <= ?), count(past_since), count(*) FROM enquiries")
            .bind(&before)
            .fetch_one(&mut *transaction)
            .await?;
    let many = due > MOST_AT_ONCE && due.saturating_mul(ONE_IN) > all;
    let confirmed = put_off.is_some_and(|since| now.duration_since(since) >= PUT_OFF);
    let deletes = if put_off.is_some() { confirmed } else { !jumped && !many };
    let mut deleted = 0;
    if deletes && due > 0 {
        put_right(&mut transaction, now, &before).await?;
        let marked: Vec<String> =
            sqlx::query_scalar("SELECT client_key FROM enquiries JOIN jobs USING (client_key) WHERE past_since <= ?")
                .bind(&before)
                .fetch_all(&mut *transaction)
                .await?;
        for client_key in marked {
            // Where one can't be read nothing is deleted, or what the law asks to be kept would go with it; the log says so.
            jobs::set_apart(&mut transaction, &client_key, now)
                .await
                .map_err(|why| TidyError::Unreadable(why.to_string()))?;
        }
        let delete = sqlx::query("DELETE FROM enquiries WHERE past_since <= ?").bind(&before);
        deleted = delete.execute(&mut *transaction).await?.rows_affected();
        if deleted > 0 {
            events::tell(&mut transaction, EventKind::DeletedInTime, deleted.cast_signed(), now).await?;
        }
    }
    if put_off.is_none() && !jumped {
        let apart = jobs::forget(&mut transaction, now).await?;
        if apart > 0 {
            events::tell(&mut transaction, EventKind::DeletedInTime, apart.cast_signed(), now).await?;
        }
    }
    // A jump is put off anew even where it confirms an earlier one: what only this clock found past waits for the next look.
    let put_off_now = if deletes { jumped.then_some(now) } else { put_off.or(Some(now)) };
    keep_moment(&mut transaction, "deleting put off", put_off_now).await?;
    if put_off.is_none() && put_off_now.is_some() && past > 0 {
        events::tell(&mut transaction, EventKind::DeletingPutOff, past, now).await?;
    }
    keep_moment(&mut transaction, "looked", Some(now)).await?;
    transaction.commit().await?;
    if let (false, Some(since), true) = (deletes, put_off_now, past > 0) {
        let until = since + PUT_OFF;
        let last = last.map(|last| last.to_string()).unwrap_or_default();
        tracing::warn!(past, all, %until, last, "deleting is put off: by this clock enquiries are past their day, but the clock has jumped \
            since the last look or they are more than usual. They are deleted after this time if it still says so; if the clock is wrong, set it right");
    }
    // Asked of the clock again once the deleting is sure: events may go by a clock that enquiries may go by.
    if put_off_now.is_none() {
        events::forget(service, now).await?;
    }
    Ok(deleted)
}

/// Finds enquiries among those that are to be deleted that are past their day only because the clock was behind when they came: one that was
/// stored before came later by its own time. They are kept as long as if they had come with that one. An enquiry whose time is still ahead of
/// this clock says nothing of others.
async fn put_right(connection: &mut SqliteConnection, now: Timestamp, before: &str) -> Result<(), sqlx::Error> {
    let behind: Vec<(String, String, String, String)> = sqlx::query_as(
        "WITH stored AS (SELECT client_key, received, keep_until, past_since, came_after,
             max(CASE WHEN received <= ?1 THEN received END) OVER (ORDER BY rowid) AS latest FROM enquiries)
         SELECT client_key, received, keep_until, latest FROM stored
         WHERE past_since <= ?2 AND came_after IS NULL AND latest > received",
    )
    .bind(now.to_string())
    .bind(before)
    .fetch_all(&mut *connection)
    .await?;
    for (client_key, received, keep_until, latest) in behind {
        let (Ok(received), Ok(keep_until), Ok(after)) =
            (received.parse(), keep_until.parse::<Date>(), latest.parse::<Timestamp>())
        else {
            continue;
        };
        let later = store::day_of(received).until(store::day_of(after)).and_then(|days| keep_until.checked_add(days));
        let Some(until) = later.ok().filter(|until| *until > keep_until) else { continue };
        sqlx::query("UPDATE enquiries SET came_after = ?, keep_until = ?, past_since = NULL WHERE client_key = ?")
            .bind(&latest)
            .bind(until.to_string())
            .bind(&client_key)
            .execute(&mut *connection)
            .await?;
        tracing::warn!(%until, "an enquiry came while the clock was behind; it is kept as long as if it had come with the one before it");
    }
    Ok(())
}

/// When the latest enquiry was received: where no look was kept yet, the clock was right then at the latest.
async fn latest_received(connection: &mut SqliteConnection) -> Result<Option<Timestamp>, sqlx::Error> {
    let latest: Option<String> =
        sqlx::query_scalar("SELECT max(received) FROM enquiries").fetch_one(connection).await?;
    Ok(latest.and_then(|latest| latest.parse().ok()))
}

/// A time that an earlier look kept.
async fn moment(connection: &mut SqliteConnection, name: &str) -> Result<Option<Timestamp>, sqlx::Error> {
    let kept: Option<String> =
        sqlx::query_scalar("SELECT value FROM settings WHERE name = ?").bind(name).fetch_optional(connection).await?;
    Ok(kept.and_then(|kept| kept.parse().ok()))
}

/// Keeps a time for later looks, or drops it.
async fn keep_moment(
    connection: &mut SqliteConnection,
    name: &str,
    moment: Option<Timestamp>,
) -> Result<(), sqlx::Error> {
    let statement = match moment {
        Some(moment) => sqlx::query(
            "INSERT INTO settings (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        )
        .bind(name)
        .bind(moment.to_string()),
        None => sqlx::query("DELETE FROM settings WHERE name = ?").bind(name),
    };
    statement.execute(connection).await.map(drop)
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
