//! Passwords: kept as Argon2id hashes, set from the command line, drawn at random for the demo.

use super::accounts::{self, AccountError, AccountName};
use super::error::Refusal;
use super::events::{self, EventKind};
use super::hashing::OneAtATime;
use super::{Service, store};
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use record::enquiry::Reference;
use sqlx::SqliteConnection;
use std::sync::OnceLock;

/// The fewest characters a password may have.
pub const LEAST_CHARACTERS: usize = 12;
/// The most: hashing is slow on purpose, and slower with length.
pub const MOST_CHARACTERS: usize = 200;

/// Why a password is not set.
#[derive(Debug, thiserror::Error)]
pub enum PasswordError {
    /// Too short or too long.
    #[error("a password of {given} characters is not allowed; it may have {LEAST_CHARACTERS} to {MOST_CHARACTERS}")]
    Length {
        /// How many it has.
        given: usize,
    },
    /// It can't be hashed.
    #[error("the password can't be hashed: {0}")]
    Hash(String),
    /// It can't be stored.
    #[error("the password can't be stored: {0}")]
    Database(#[from] sqlx::Error),
}

/// Draws a password that nobody can guess (73 bits) and anybody can type.
#[must_use]
pub fn draw_password() -> String {
    let [first, second] = [0, 1].map(|_| Reference::from_bits(rand::random()).as_str().to_lowercase());
    format!("{first}-{second}")
}

/// Sets the password of the account `owner`, which is made where there is none; whoever is signed in as it is signed out.
///
/// # Errors
/// [`PasswordError`]; the old password stands then.
pub async fn set_password(service: &Service, password: &str) -> Result<(), PasswordError> {
    let hash = hashed(password).await?;
    let mut transaction = service.database.write().await?;
    sqlx::query(
        "INSERT INTO accounts (name, role, password_hash) VALUES ('owner', 'owner', ?)
         ON CONFLICT (name) DO UPDATE SET password_hash = excluded.password_hash",
    )
    .bind(hash)
    .execute(&mut *transaction)
    .await?;
    let number =
        sqlx::query_scalar("SELECT id FROM accounts WHERE name = 'owner'").fetch_one(&mut *transaction).await?;
    was_set(&mut transaction, number).await?;
    Ok(transaction.commit().await?)
}

/// Sets the password of an account; whoever is signed in as it is signed out.
///
/// # Errors
/// [`AccountError`]: there is no such account, or the password is not allowed. The old password stands then.
pub async fn set_password_of(service: &Service, name: &AccountName, password: &str) -> Result<(), AccountError> {
    let hash = hashed(password).await?;
    let mut transaction = service.database.write().await?;
    let number = accounts::number_of(&mut transaction, name).await?;
    sqlx::query("UPDATE accounts SET password_hash = ? WHERE id = ?")
        .bind(hash)
        .bind(number)
        .execute(&mut *transaction)
        .await?;
    was_set(&mut transaction, number).await?;
    Ok(transaction.commit().await?)
}

async fn was_set(connection: &mut SqliteConnection, number: i64) -> Result<(), sqlx::Error> {
    accounts::sign_out_everywhere(connection, number).await?;
    events::tell(connection, EventKind::PasswordSet, 1, store::now()).await
}

/// The hash to keep of a password.
pub(super) async fn hashed(password: &str) -> Result<String, PasswordError> {
    let given = password.chars().count();
    if !(LEAST_CHARACTERS..=MOST_CHARACTERS).contains(&given) {
        return Err(PasswordError::Length { given });
    }
    let words = password.to_owned();
    tokio::task::spawn_blocking(move || hash_now(&words))
        .await
        .map_err(|why| PasswordError::Hash(why.to_string()))?
        .map_err(PasswordError::Hash)
}

fn hash_now(words: &str) -> Result<String, String> {
    let hash = OneAtATime.hash_password(words.as_bytes());
    hash.map(|hash: PasswordHash| hash.to_string()).map_err(|why| why.to_string())
}

/// Whether this is the password of which a hash is kept. Where none is, looking takes as long, so that nobody learns by the time which names
/// there are.
pub(super) async fn is_right(kept: Option<String>, password: String) -> Result<bool, Refusal> {
    static NOBODYS: OnceLock<Result<String, String>> = OnceLock::new();
    tokio::task::spawn_blocking(move || {
        let there = kept.is_some();
        let hash = match kept {
            Some(hash) => hash,
            None => NOBODYS.get_or_init(|| hash_now(&draw_password())).clone().map_err(Refusal::ours)?,
        };
        let hash = PasswordHash::new(&hash).map_err(|why| Refusal::ours(why.to_string()))?;
        Ok(OneAtATime.verify_password(password.as_bytes(), &hash).is_ok() && there)
    })
    .await
    .map_err(Refusal::ours)?
}
