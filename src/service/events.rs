//! What was done with what is kept: rows of a time and a kind, without names, references, addresses or secrets.

use super::{Service, store};
use jiff::{SignedDuration, Timestamp};
use sqlx::SqliteConnection;

/// How long an event is kept: this program's choice, a year to look back over.
const KEPT_FOR: SignedDuration = SignedDuration::from_hours(365 * 24);
/// The most events that are kept, whatever their age, of those that strangers can make and of all others each: this program's choice, some
/// megabytes.
const MOST_KEPT: i64 = 100_000;
/// Attempts to sign in while they are locked are one event in this time, for they may come without end.
const LOCKED_ONCE_IN: SignedDuration = SignedDuration::from_secs(60);

/// What was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EventKind {
    /// Somebody signed in.
    SignedIn,
    /// Somebody tried a wrong password, or a name that nobody has.
    SignInFailed,
    /// Somebody tried to sign in after too many attempts; at most one event a minute.
    SignInLocked,
    /// Somebody signed out.
    SignedOut,
    /// The password of an account was set; whoever was signed in to it is signed out.
    PasswordSet,
    /// An account was added.
    AccountAdded,
    /// An account was removed; whoever was signed in to it is signed out.
    AccountRemoved,
    /// A code is asked for from now on; whoever was signed in to the account is signed out.
    SecondFactorOn,
    /// No code is asked for any more.
    SecondFactorOff,
    /// Somebody sent a wrong code with the right password, or one that was taken before.
    SecondFactorFailed,
    /// An account was signed out everywhere.
    SignedOutEverywhere,
    /// All that is held of one enquiry was handed out.
    Exported,
    /// The installer deleted an enquiry.
    DeletedByInstaller,
    /// The homeowner deleted an enquiry.
    DeletedByHomeowner,
    /// Enquiries were deleted because their day had come.
    DeletedInTime,
    /// Deleting was put off, because the clock had jumped or more was to be deleted than usual.
    DeletingPutOff,
}

impl EventKind {
    /// The word that is kept and printed.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::SignedIn => "signed-in",
            Self::SignInFailed => "sign-in-failed",
            Self::SignInLocked => "sign-in-locked",
            Self::SignedOut => "signed-out",
            Self::PasswordSet => "password-set",
            Self::AccountAdded => "account-added",
            Self::AccountRemoved => "account-removed",
            Self::SecondFactorOn => "second-factor-on",
            Self::SecondFactorOff => "second-factor-off",
            Self::SecondFactorFailed => "second-factor-failed",
            Self::SignedOutEverywhere => "signed-out-everywhere",
            Self::Exported => "exported",
            Self::DeletedByInstaller => "deleted-by-installer",
            Self::DeletedByHomeowner => "deleted-by-homeowner",
            Self::DeletedInTime => "deleted-in-time",
            Self::DeletingPutOff => "deleting-put-off",
        }
    }
}

/// One event as it is printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// When, RFC 3339 in UTC.
    pub at: String,
    /// What: a word of [`EventKind`], or one of a newer program's.
    pub kind: String,
    /// How many enquiries it is about; 1 where it is about none.
    pub number: i64,
}

/// Every event that is kept, oldest first.
///
/// # Errors
/// The database's own.
pub async fn events(service: &Service) -> Result<Vec<Event>, sqlx::Error> {
    let rows: Vec<(String, String, i64)> =
        sqlx::query_as("SELECT at, kind, number FROM events ORDER BY id").fetch_all(service.database.readers()).await?;
    Ok(rows.into_iter().map(|(at, kind, number)| Event { at, kind, number }).collect())
}

/// Keeps an event together with what else a transaction does.
///
/// # Errors
/// The database's own.
pub(super) async fn tell(
    connection: &mut SqliteConnection,
    kind: EventKind,
    number: i64,
    now: Timestamp,
) -> Result<(), sqlx::Error> {
    sqlx::query("INSERT INTO events (at, kind, number) VALUES (?, ?, ?)")
        .bind(now.to_string())
        .bind(kind.word())
        .bind(number)
        .execute(connection)
        .await?;
    Ok(())
}

/// Keeps an event by itself. One that can't be kept is no reason to refuse what it tells of: that goes to the log.
pub(super) async fn note(service: &Service, kind: EventKind) {
    if let Err(why) = try_note(service, kind, store::now()).await {
        tracing::error!(error = %why, kind = kind.word(), "an event could not be kept");
    }
}

async fn try_note(service: &Service, kind: EventKind, now: Timestamp) -> Result<(), sqlx::Error> {
    if kind == EventKind::SignInLocked {
        // Looked up by a reader, so that nobody can have the service write by trying on.
        let told: Option<i64> = sqlx::query_scalar("SELECT 1 FROM events WHERE kind = ? AND at > ? AND at <= ?")
            .bind(kind.word())
            .bind((now - LOCKED_ONCE_IN).to_string())
            .bind(now.to_string())
            .fetch_optional(service.database.readers())
            .await?;
        if told.is_some() {
            return Ok(());
        }
    }
    let mut transaction = service.database.write().await?;
    tell(&mut transaction, kind, 1, now).await?;
    transaction.commit().await
}

/// Deletes the events that are too old or too many. Those that anybody can make as often as they like push out no others.
///
/// # Errors
/// The database's own.
pub(super) async fn forget(service: &Service, now: Timestamp) -> Result<(), sqlx::Error> {
    forget_over(service, now, MOST_KEPT).await
}

async fn forget_over(service: &Service, now: Timestamp, most: i64) -> Result<(), sqlx::Error> {
    let old = sqlx::query("DELETE FROM events WHERE at < ?").bind((now - KEPT_FOR).to_string());
    service.database.execute(old).await?;
    let [failed, locked, deleted] =
        [EventKind::SignInFailed, EventKind::SignInLocked, EventKind::DeletedByHomeowner].map(EventKind::word);
    for strangers in [true, false] {
        let many = sqlx::query(
            "DELETE FROM events WHERE (kind IN (?1, ?2, ?3)) = ?4 AND id <=
               (SELECT id FROM events WHERE (kind IN (?1, ?2, ?3)) = ?4 ORDER BY id DESC LIMIT 1 OFFSET ?5)",
        );
        let many = many.bind(failed).bind(locked).bind(deleted).bind(strangers).bind(most);
        service.database.execute(many).await?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::config::demo_config;

    #[tokio::test]
    async fn events_are_kept_for_a_year_and_trying_on_writes_no_more_than_one_a_minute() {
        let folder = tempfile::tempdir().unwrap();
        let service = Service::open(folder.path(), &demo_config(), None, false).await.unwrap();
        let start: Timestamp = "2026-01-01T00:00:00Z".parse().unwrap();
        for seconds in [0, 1, 59, 60, 61] {
            try_note(&service, EventKind::SignInLocked, start + SignedDuration::from_secs(seconds)).await.unwrap();
        }
        try_note(&service, EventKind::SignInFailed, start).await.unwrap();
        try_note(&service, EventKind::SignInFailed, start).await.unwrap();
        let kinds: Vec<String> = events(&service).await.unwrap().into_iter().map(|event| event.kind).collect();
        assert_eq!(kinds, ["sign-in-locked", "sign-in-locked", "sign-in-failed", "sign-in-failed"]);
        forget(&service, start + KEPT_FOR).await.unwrap();
        assert_eq!(events(&service).await.unwrap().len(), 4);
        forget(&service, start + KEPT_FOR + SignedDuration::from_secs(1)).await.unwrap();
        assert_eq!(events(&service).await.unwrap().len(), 1, "the one of a minute later");
    }

    #[tokio::test]
    async fn what_strangers_do_pushes_out_nothing_that_others_did() {
        let folder = tempfile::tempdir().unwrap();
        let service = Service::open(folder.path(), &demo_config(), None, false).await.unwrap();
        let now: Timestamp = "2026-01-01T00:00:00Z".parse().unwrap();
        for kind in [EventKind::Exported, EventKind::DeletedByInstaller, EventKind::Exported] {
            try_note(&service, kind, now).await.unwrap();
        }
        for _ in 0..5 {
            try_note(&service, EventKind::SignInFailed, now).await.unwrap();
        }
        try_note(&service, EventKind::DeletedByHomeowner, now).await.unwrap();
        forget_over(&service, now, 2).await.unwrap();
        let kinds: Vec<String> = events(&service).await.unwrap().into_iter().map(|event| event.kind).collect();
        assert_eq!(kinds, ["deleted-by-installer", "exported", "sign-in-failed", "deleted-by-homeowner"]);
    }
}
