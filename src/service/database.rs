//! Opens the SQLite file and brings its tables up to date.

use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{SqlSafeStr, SqlitePool};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Why the database can't be used.
#[derive(Debug, thiserror::Error)]
pub enum DatabaseError {
    /// It does not open.
    #[error("the database {} can't be opened: {why}", file.display())]
    Open {
        /// Which file.
        file: PathBuf,
        /// The database's own message. It reaches the terminal of whoever started the service, never a visitor.
        why: sqlx::Error,
    },
    /// Its tables can't be brought up to date.
    #[error("the tables of {} can't be brought up to date: {why}; was it written by a newer program?", file.display())]
    Migrate {
        /// Which file.
        file: PathBuf,
        /// The database's own message.
        why: sqlx::migrate::MigrateError,
    },
}

// `MIGRATIONS`: number, name and text of every file in `migrations/sqlite`, in numerical order. The build script writes it.
include!(concat!(env!("OUT_DIR"), "/migrations.rs"));

/// Every migration, oldest first. A released one is never edited; a change of the tables is a new file.
fn migrations() -> Migrator {
    Migrator::with_migrations(
        MIGRATIONS
            .iter()
            .map(|(version, name, sql)| {
                Migration::new(*version, (*name).into(), MigrationType::Simple, (*sql).into_sql_str(), false)
            })
            .collect(),
    )
}

/// Opens the database file, creating it if needed, and brings its tables up to date.
///
/// A commit is on the disk before it is acknowledged (`synchronous = FULL` holds for the write-ahead log too). Deleted data is overwritten,
/// as it was personal.
///
/// # Errors
/// [`DatabaseError`] if the file does not open or its tables can't be brought up to date.
pub(super) async fn open(file: &Path) -> Result<SqlitePool, DatabaseError> {
    make_private(file).map_err(|why| DatabaseError::Open { file: file.to_owned(), why: sqlx::Error::Io(why) })?;
    let options = SqliteConnectOptions::new()
        .filename(file)
        .create_if_missing(true)
        .journal_mode(SqliteJournalMode::Wal)
        .synchronous(SqliteSynchronous::Full)
        .foreign_keys(true)
        .busy_timeout(Duration::from_secs(10))
        .pragma("secure_delete", "ON");
    let pool = SqlitePoolOptions::new()
        .max_connections(4)
        .connect_with(options)
        .await
        .map_err(|why| DatabaseError::Open { file: file.to_owned(), why })?;
    migrations().run(&pool).await.map_err(|why| DatabaseError::Migrate { file: file.to_owned(), why })?;
    Ok(pool)
}

/// Creates the file, if there is none, readable by the service's own user alone whatever folder it is in; SQLite gives the files beside it
/// the same rights.
fn make_private(file: &Path) -> std::io::Result<()> {
    let mut options = std::fs::OpenOptions::new();
    options.append(true).create(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(file).map(drop)
}
