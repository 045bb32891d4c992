//! The installer's password: kept as an Argon2id hash, set from the command line, drawn at random for the demo.

use super::error::Refusal;
use super::events::{self, EventKind};
use super::hashing::OneRoom;
use super::{Service, store};
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use record::enquiry::Reference;

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

/// Sets the password; whoever is signed in is signed out.
///
/// # Errors
/// [`PasswordError`]; the old password stands then.
pub async fn set_password(service: &Service, password: &str) -> Result<(), PasswordError> {
    let given = password.chars().count();
    if !(LEAST_CHARACTERS..=MOST_CHARACTERS).contains(&given) {
        return Err(PasswordError::Length { given });
    }
    let words = password.to_owned();
    let hash = tokio::task::spawn_blocking(move || {
        OneRoom.hash_password(words.as_bytes()).map(|hash: PasswordHash| hash.to_string())
    })
    .await
    .map_err(|why| PasswordError::Hash(why.to_string()))?
    .map_err(|why| PasswordError::Hash(why.to_string()))?;
    let mut transaction = service.database.write().await?;
    sqlx::query(
        "INSERT INTO settings (name, value) VALUES ('password', ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
    )
    .bind(hash)
    .execute(&mut *transaction)
    .await?;
    for forget in ["DELETE FROM sessions", "DELETE FROM known_browsers"] {
        sqlx::query(forget).execute(&mut *transaction).await?;
    }
    events::tell(&mut transaction, EventKind::PasswordSet, 1, store::now()).await?;
    transaction.commit().await?;
    Ok(())
}

/// The stored hash; `None` if no password was set.
pub(super) async fn kept(service: &Service) -> Result<Option<String>, sqlx::Error> {
    sqlx::query_scalar("SELECT value FROM settings WHERE name = 'password'")
        .fetch_optional(service.database.readers())
        .await
}

/// Whether this is the installer's password; `false` if none was set.
pub(super) async fn is_right(service: &Service, password: String) -> Result<bool, Refusal> {
    let Some(hash) = kept(service).await? else { return Ok(false) };
    tokio::task::spawn_blocking(move || {
        let hash = PasswordHash::new(&hash).map_err(|why| Refusal::ours(why.to_string()))?;
        Ok(OneRoom.verify_password(password.as_bytes(), &hash).is_ok())
    })
    .await
    .map_err(Refusal::ours)?
}
