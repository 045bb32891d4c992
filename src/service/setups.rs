//! The setups that a data folder keeps, in versions: a setup that differs from the newest one is kept as a new version when the service takes it.
//! None is ever changed or deleted here, so that it can be said by which setup an enquiry was assessed.
//!
//! A setup is kept as the text that it came as, so it comes out as it went in. What is read here opens a database of an earlier program
//! too, which has no such table, and changes nothing in it: it is read before a start has bound its address.

use super::backup::DATABASE;
use super::database;
use super::{Service, store};
use sha2::{Digest, Sha256};
use sqlx::{ConnectOptions, Connection};
use std::path::Path;

/// A version of a setup.
#[derive(Clone, PartialEq, Eq)]
pub struct KeptSetup {
    /// Its number, from 1.
    pub number: i64,
    /// When it was taken, RFC 3339, UTC.
    pub taken: String,
    /// SHA-256 of its text, in hexadecimal digits.
    pub sha256: String,
    /// Its text, JSON.
    pub setup: String,
}

impl std::fmt::Debug for KeptSetup {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // The text may hold passwords.
        f.debug_struct("KeptSetup").field("number", &self.number).field("sha256", &self.sha256).finish_non_exhaustive()
    }
}

/// Keeps a setup as a new version, if it differs from the newest. Returns the newest version's number, and whether it is new.
///
/// # Errors
/// The database's; nothing is kept then.
pub async fn keep_setup(service: &Service, text: &str) -> Result<(i64, bool), sqlx::Error> {
    let sha256 = hex::encode(Sha256::digest(text.as_bytes()));
    let mut transaction = service.database.write().await?;
    let newest: Option<(i64, String)> =
        sqlx::query_as("SELECT number, sha256 FROM setups ORDER BY number DESC LIMIT 1")
            .fetch_optional(&mut *transaction)
            .await?;
    if let Some((number, _)) = newest.filter(|(_, kept)| *kept == sha256) {
        return Ok((number, false));
    }
    let number = sqlx::query_scalar("INSERT INTO setups (taken, sha256, setup) VALUES (?, ?, ?) RETURNING number")
        .bind(store::now().to_string())
        .bind(sha256)
        .bind(text)
        .fetch_one(&mut *transaction)
        .await?;
    transaction.commit().await?;
    Ok((number, true))
}

/// Every version that a data folder keeps, oldest first; none where no service has kept anything in it.
///
/// # Errors
/// The database's.
pub async fn kept_setups(data: &Path) -> Result<Vec<KeptSetup>, sqlx::Error> {
    let file = data.join(DATABASE);
    if !file.is_file() {
        return Ok(Vec::new());
    }
    let mut reading = database::options(&file).read_only(true).connect().await?;
    let known: Option<i64> = sqlx::query_scalar("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'setups'")
        .fetch_optional(&mut reading)
        .await?;
    let rows: Vec<(i64, String, String, String)> = match known {
        Some(_) => {
            sqlx::query_as("SELECT number, taken, sha256, setup FROM setups ORDER BY number")
                .fetch_all(&mut reading)
                .await?
        }
        None => Vec::new(),
    };
    reading.close().await?;
    Ok(rows.into_iter().map(|(number, taken, sha256, setup)| KeptSetup { number, taken, sha256, setup }).collect())
}

/// The newest version that a data folder keeps.
///
/// # Errors
/// The database's.
pub async fn newest_setup(data: &Path) -> Result<Option<KeptSetup>, sqlx::Error> {
    Ok(kept_setups(data).await?.pop())
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::config::demo_config;

    #[tokio::test]
    async fn a_setup_is_a_new_version_only_if_it_differs_from_the_newest() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(kept_setups(folder.path()).await.unwrap(), [], "nothing is there yet");
        let service = Service::open(folder.path(), &demo_config(), None, true).await.unwrap();
        for (text, outcome) in [("{}", (1, true)), ("{}", (1, false)), ("{ }", (2, true)), ("{}", (3, true))] {
            assert_eq!(keep_setup(&service, text).await.unwrap(), outcome, "{text}");
        }
        let kept = kept_setups(folder.path()).await.unwrap();
        let texts: Vec<_> = kept.iter().map(|kept| (kept.number, &*kept.setup)).collect();
        assert_eq!(texts, [(1, "{}"), (2, "{ }"), (3, "{}")]);
        assert_eq!(newest_setup(folder.path()).await.unwrap().unwrap().number, 3);
        assert!(!format!("{kept:?}").contains("{ }"), "the text is not shown");
    }

    #[tokio::test]
    async fn a_database_of_an_earlier_program_keeps_none_and_is_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(DATABASE);
        let mut old = database::options(&file).create_if_missing(true).connect().await.unwrap();
        sqlx::query("CREATE TABLE settings (name TEXT)").execute(&mut old).await.unwrap();
        old.close().await.unwrap();
        let before = std::fs::read(&file).unwrap();
        assert_eq!(newest_setup(folder.path()).await.unwrap(), None);
        assert_eq!(std::fs::read(&file).unwrap(), before);
    }
}
