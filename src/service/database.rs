//! The database: opens the SQLite file, brings its tables up to date, and is read and written.
//!
//! SQLite lets one writer in at a time, and who waits for it in SQLite itself is let in by chance. So one connection writes, for which the
//! service's own tasks queue, and others read, which wait for no writer. Another process on the same file is waited for by SQLite.

use super::metrics;
use prometheus_client::metrics::histogram::Histogram;
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::pool::PoolConnection;
use sqlx::query::Query;
use sqlx::sqlite::{
    SqliteArguments, SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteQueryResult, SqliteSynchronous,
};
use sqlx::{AssertSqlSafe, SqlSafeStr, Sqlite, SqliteConnection, SqlitePool};
use std::ops::{Deref, DerefMut};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// How many connections read.
const READERS: u32 = 4;
/// How long SQLite waits for another process that writes.
const OTHER_WRITER: Duration = Duration::from_secs(10);

/// How long emptying the journal waits for whoever still reads what was there before: this program's choice.
const EMPTYING: Duration = Duration::from_millis(500);

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

/// The database. A clone uses the same connections.
#[derive(Clone, Debug)]
pub(super) struct Database {
    writer: SqlitePool,
    readers: SqlitePool,
    /// How long writing waited for its connection.
    pub(super) waited: Histogram,
}

impl Database {
    /// The connections that read. What was committed before a query began is seen by it.
    pub(super) const fn readers(&self) -> &SqlitePool {
        &self.readers
    }

    /// Begins to write, once nobody else of this service does. Nothing but the database should be awaited until it is committed.
    ///
    /// # Errors
    /// The database's own.
    pub(super) async fn write(&self) -> Result<Transaction, sqlx::Error> {
        let since = Instant::now();
        let connection = self.writer.acquire().await?;
        self.waited.observe(since.elapsed().as_secs_f64());
        // From here on whatever fails takes the connection along.
        let mut transaction = Transaction { connection, ended: false };
        sqlx::query("BEGIN IMMEDIATE").execute(&mut *transaction).await?;
        Ok(transaction)
    }

    /// Writes by one statement.
    ///
    /// # Errors
    /// The database's own; nothing is changed then.
    pub(super) async fn execute(
        &self,
        statement: Query<'_, Sqlite, SqliteArguments>,
    ) -> Result<SqliteQueryResult, sqlx::Error> {
        let mut transaction = self.write().await?;
        let done = statement.execute(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(done)
    }

    /// How a commit reaches the disk: the journal mode and SQLite's `synchronous` level (2 is FULL) of the connection that writes.
    ///
    /// # Errors
    /// The database's own.
    pub(super) async fn durability(&self) -> Result<(String, i64), sqlx::Error> {
        let mode = sqlx::query_scalar("PRAGMA journal_mode").fetch_one(&self.writer).await?;
        Ok((mode, sqlx::query_scalar("PRAGMA synchronous").fetch_one(&self.writer).await?))
    }

    /// Empties the journal into the file and cuts it to nothing, so that what was deleted is in neither: the file overwrites what it deletes,
    /// the journal holds it until this. Says whether it could; it can't while somebody still reads what was there before.
    ///
    /// # Errors
    /// The database's own.
    pub(super) async fn forget_journal(&self) -> Result<bool, sqlx::Error> {
        let mut writer = self.writer.acquire().await?;
        // Nobody who writes should wait here for a slow reader, such as a backup.
        wait_for_others(&mut writer, EMPTYING).await?;
        let done = sqlx::query_as("PRAGMA wal_checkpoint(TRUNCATE)").fetch_one(&mut *writer).await;
        wait_for_others(&mut writer, OTHER_WRITER).await?;
        let (busy, _, _): (i64, i64, i64) = done?;
        Ok(busy == 0)
    }

    /// Waits for running queries to end and closes every connection; the one that writes is the last, which empties the journal.
    pub(super) async fn close(self) {
        self.readers.close().await;
        self.writer.close().await;
    }
}

/// A transaction that writes. Dropped without a commit it is rolled back, by closing its connection: after a COMMIT that failed, because
/// the disk is full for example, a transaction may still be open in it, and whoever was given the connection next could begin none.
#[derive(Debug)]
pub(super) struct Transaction {
    connection: PoolConnection<Sqlite>,
    ended: bool,
}

impl Transaction {
    /// Commits: what was written is on the disk when this returns.
    ///
    /// # Errors
    /// The database's own; nothing is changed then.
    pub(super) async fn commit(mut self) -> Result<(), sqlx::Error> {
        sqlx::query("COMMIT").execute(&mut *self).await?;
        self.ended = true;
        Ok(())
    }
}

impl Deref for Transaction {
    type Target = SqliteConnection;

    fn deref(&self) -> &SqliteConnection {
        &self.connection
    }
}

impl DerefMut for Transaction {
    fn deref_mut(&mut self) -> &mut SqliteConnection {
        &mut self.connection
    }
}

impl Drop for Transaction {
    fn drop(&mut self) {
        if !self.ended {
            self.connection.close_on_drop();
        }
    }
}

/// Sets how long SQLite waits for others on this connection.
async fn wait_for_others(connection: &mut SqliteConnection, most: Duration) -> Result<(), sqlx::Error> {
    let statement = format!("PRAGMA busy_timeout = {}", most.as_millis());
    sqlx::query(AssertSqlSafe(statement)).execute(connection).await.map(drop)
}

/// What every connection to such a file is opened with: another process is waited for, deleted data is overwritten, and rows go with those
/// that they belong to.
pub(super) fn options(file: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(file)
        .foreign_keys(true)
        .busy_timeout(OTHER_WRITER)
        .pragma("secure_delete", "ON")
}

/// Opens the database file, creating it if needed, and brings its tables up to date.
///
/// A commit is on the disk before it is acknowledged (`synchronous = FULL` holds for the write-ahead log too). Deleted data is overwritten,
/// as it was personal.
///
/// # Errors
/// [`DatabaseError`] if the file does not open or its tables can't be brought up to date.
pub(super) async fn open(file: &Path) -> Result<Database, DatabaseError> {
    make_private(file).map_err(|why| DatabaseError::Open { file: file.to_owned(), why: sqlx::Error::Io(why) })?;
    let options =
        options(file).create_if_missing(true).journal_mode(SqliteJournalMode::Wal).synchronous(SqliteSynchronous::Full);
    let not_opened = |why| DatabaseError::Open { file: file.to_owned(), why };
    let readers = SqlitePoolOptions::new().max_connections(READERS);
    let reading = options.clone().read_only(true).create_if_missing(false);
    let writer = SqlitePoolOptions::new().max_connections(1).connect_with(options).await.map_err(not_opened)?;
    migrations().run(&writer).await.map_err(|why| DatabaseError::Migrate { file: file.to_owned(), why })?;
    let readers = readers.connect_with(reading).await.map_err(not_opened)?;
    Ok(Database { writer, readers, waited: metrics::durations() })
}

/// Creates the file, if there is none, readable by the service's own user alone whatever folder it is in; SQLite gives the files beside it
/// the same rights.
pub(super) fn make_private(file: &Path) -> std::io::Result<()> {
    let mut options = std::fs::OpenOptions::new();
    options.append(true).create(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(file).map(drop)
}

#[cfg(test)]
mod tests {
    use super::*;

    async fn opened() -> (tempfile::TempDir, Database) {
        let folder = tempfile::tempdir().unwrap();
        let database = open(&folder.path().join("presurvey.sqlite")).await.unwrap();
        (folder, database)
    }

    async fn values(database: &Database) -> Vec<String> {
        sqlx::query_scalar("SELECT value FROM settings WHERE name LIKE 'test %' ORDER BY name")
            .fetch_all(database.readers())
            .await
            .unwrap()
    }

    const SET: &str = "INSERT INTO settings (name, value) VALUES ('test ' || ?1, ?1)";

    #[tokio::test]
    async fn after_a_commit_that_failed_the_next_transaction_begins() {
        let (_folder, database) = opened().await;
        let mut transaction = database.write().await.unwrap();
        sqlx::query("PRAGMA defer_foreign_keys = ON").execute(&mut *transaction).await.unwrap();
        let orphan = "INSERT INTO photos (client_key, sha256) VALUES ('of no enquiry', 'x')";
        sqlx::query(orphan).execute(&mut *transaction).await.unwrap();
        // What the photo belongs to is only looked for at the end.
        assert!(transaction.commit().await.is_err());
        for value in ["a", "b"] {
            database.execute(sqlx::query(SET).bind(value)).await.unwrap();
        }
        assert_eq!(values(&database).await, ["a", "b"]);
    }

    #[tokio::test]
    async fn a_statement_that_fails_changes_nothing_and_the_next_one_works() {
        let (_folder, database) = opened().await;
        database.execute(sqlx::query(SET).bind("a")).await.unwrap();
        assert!(database.execute(sqlx::query(SET).bind("a")).await.is_err(), "there is one already");
        database.execute(sqlx::query(SET).bind("b")).await.unwrap();
        assert_eq!(values(&database).await, ["a", "b"]);
    }

    #[tokio::test]
    async fn readers_wait_for_no_writer_and_writers_come_in_turn() {
        let (_folder, database) = opened().await;
        let mut transaction = database.write().await.unwrap();
        sqlx::query(SET).bind("a").execute(&mut *transaction).await.unwrap();
        let others: Vec<_> = ["b", "c"]
            .map(|value| {
                let database = database.clone();
                tokio::spawn(async move { database.execute(sqlx::query(SET).bind(value)).await })
            })
            .into();
        // As many readers as there are connections, all while something is being written.
        for _ in 0..READERS * 2 {
            assert_eq!(values(&database).await, [""; 0], "nothing of it is seen before it is committed");
        }
        assert!(others.iter().all(|other| !other.is_finished()), "they wait for the first");
        transaction.commit().await.unwrap();
        for other in others {
            other.await.unwrap().unwrap();
        }
        assert_eq!(values(&database).await, ["a", "b", "c"]);
    }

    #[tokio::test]
    async fn what_waited_in_the_outbox_before_it_was_made_again_still_waits() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("presurvey.sqlite");
        let mut before = migrations();
        before.migrations.to_mut().retain(|migration| migration.version <= 5);
        let options = options(&file).create_if_missing(true);
        let pool = SqlitePoolOptions::new().max_connections(1).connect_with(options).await.unwrap();
        before.run(&pool).await.unwrap();
        let rows = "INSERT INTO enquiries VALUES ('k', 'r', 't', 'd', 'h', '{}', NULL, 'equal', '{}', 0, 0, 0, NULL, NULL);
            INSERT INTO outbox VALUES ('id', 'k', 'webhook', 'https://x.invalid/', 'made', 'waiting', 'due', NULL, 3, 'why');
            INSERT INTO outbox VALUES ('other', 'k', 'mail', '', 'made', 'sent', 'due', NULL, 1, NULL);";
        sqlx::raw_sql(rows).execute(&pool).await.unwrap();
        pool.close().await;
        let database = open(&file).await.unwrap();
        type Row = (String, String, String, String, String, i64, Option<String>);
        let kept: Vec<Row> = sqlx::query_as("SELECT id, what, way, url, state, tries, failure FROM outbox ORDER BY id")
            .fetch_all(database.readers())
            .await
            .unwrap();
        let row = |row: [&str; 5], tries, why: Option<&str>| {
            let [id, what, way, url, state] = row.map(str::to_owned);
            (id, what, way, url, state, tries, why.map(str::to_owned))
        };
        let waiting = row(["id", "enquiry", "webhook", "https://x.invalid/", "waiting"], 3, Some("why"));
        assert_eq!(kept, [waiting, row(["other", "enquiry", "mail", "", "sent"], 1, None)]);
        // A row still goes with its enquiry.
        database.execute(sqlx::query("DELETE FROM enquiries")).await.unwrap();
        let left: i64 = sqlx::query_scalar("SELECT count(*) FROM outbox").fetch_one(database.readers()).await.unwrap();
        assert_eq!(left, 0);
    }

    #[tokio::test]
    async fn a_reader_can_write_nothing() {
        let (_folder, database) = opened().await;
        assert!(sqlx::query(SET).bind("a").execute(database.readers()).await.is_err());
    }
}
