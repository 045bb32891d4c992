//! Who may sign in: accounts with a name, one of two roles, a password (`password`) and perhaps a second factor (`second_factor`). They are
//! made and removed from the command line alone.

use super::events::{self, EventKind};
use super::{PasswordError, Service, password, store};
use schemars::JsonSchema;
use serde::Serialize;
use sqlx::SqliteConnection;
use std::fmt;
use std::str::FromStr;

/// The name of the account that a password without a name is for.
pub const OWNER: &str = "owner";
/// The most characters of a name: this program's choice.
const MOST_IN_A_NAME: usize = 32;

/// What an account may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema, strum::EnumString, strum::IntoStaticStr)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum Role {
    /// Everything.
    Owner,
    /// Reads, corrects, makes links and marks as handled; neither deletes nor exports.
    Colleague,
}

/// The name of an account: 1 to 32 of the letters a to z, digits and hyphens, a letter first. Capital letters count as small ones.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AccountName(String);

/// What was given is no name of an account.
#[derive(Clone, Copy, Debug, thiserror::Error)]
#[error(
    "a name may have 1 to {MOST_IN_A_NAME} of the letters a to z, digits and hyphens, and begins with a letter; capital letters count as small ones"
)]
pub struct NoName;

impl FromStr for AccountName {
    type Err = NoName;

    fn from_str(typed: &str) -> Result<Self, NoName> {
        let name = typed.trim().to_ascii_lowercase();
        let plain = name.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
        let begins = name.starts_with(|first: char| first.is_ascii_lowercase());
        if plain && begins && name.len() <= MOST_IN_A_NAME { Ok(Self(name)) } else { Err(NoName) }
    }
}

impl AccountName {
    /// The account that a password without a name is for.
    #[must_use]
    pub fn owner() -> Self {
        Self(OWNER.to_owned())
    }

    /// The name as the database has it, in small letters.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for AccountName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Why nothing was changed about an account.
#[derive(Debug, thiserror::Error)]
pub enum AccountError {
    /// There is no such account.
    #[error("there is no account {0}")]
    NoSuch(AccountName),
    /// There is one of this name.
    #[error("there is an account {0} already; choose another name, or remove that one first")]
    Taken(AccountName),
    /// The name is kept for an owner.
    #[error("the account {OWNER} is an owner's: whoever signs in with a password alone is it; choose another name")]
    KeptForAnOwner,
    /// Nobody else could delete, export or manage accounts.
    #[error("{0} is the last owner, and somebody must be; add another owner first")]
    LastOwner(AccountName),
    /// A colleague needs an owner beside them.
    #[error("there is no owner yet; set the owner's password first (`presurvey password`)")]
    NoOwner,
    /// The code is not one of the secret that is to be turned on.
    #[error("this code is not the one of this moment")]
    WrongCode,
    /// The password can't be set.
    #[error(transparent)]
    Password(#[from] PasswordError),
    /// The database's fault.
    #[error("the database can't be read or written: {0}")]
    Database(#[from] sqlx::Error),
}

/// An account as it is listed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Account {
    /// Its name.
    pub name: String,
    /// The word of its role.
    pub role: String,
    /// Whether a code is asked for beside the password.
    pub second_factor: bool,
}

/// Every account, by name.
///
/// # Errors
/// The database's own.
pub async fn accounts(service: &Service) -> Result<Vec<Account>, sqlx::Error> {
    let rows: Vec<(String, String, bool)> =
        sqlx::query_as("SELECT name, role, totp_secret IS NOT NULL FROM accounts ORDER BY name")
            .fetch_all(service.database.readers())
            .await?;
    Ok(rows.into_iter().map(|(name, role, second_factor)| Account { name, role, second_factor }).collect())
}

/// Whether anybody can sign in.
pub(super) async fn any(service: &Service) -> Result<bool, sqlx::Error> {
    sqlx::query_scalar("SELECT EXISTS (SELECT 1 FROM accounts)").fetch_one(service.database.readers()).await
}

/// Adds an account.
///
/// # Errors
/// [`AccountError`]; nothing is changed then.
pub async fn add_account(
    service: &Service,
    name: &AccountName,
    role: Role,
    password: &str,
) -> Result<(), AccountError> {
    if name.as_str() == OWNER && role != Role::Owner {
        return Err(AccountError::KeptForAnOwner);
    }
    let hash = password::hashed(password).await?;
    let mut transaction = service.database.write().await?;
    if role == Role::Colleague && owners(&mut transaction).await? == 0 {
        return Err(AccountError::NoOwner);
    }
    let word: &str = role.into();
    let added =
        sqlx::query("INSERT INTO accounts (name, role, password_hash) VALUES (?, ?, ?) ON CONFLICT (name) DO NOTHING")
            .bind(name.as_str())
            .bind(word)
            .bind(hash)
            .execute(&mut *transaction)
            .await?;
    if added.rows_affected() == 0 {
        return Err(AccountError::Taken(name.clone()));
    }
    events::tell(&mut transaction, EventKind::AccountAdded, 1, store::now()).await?;
    Ok(transaction.commit().await?)
}

/// Removes an account; its sessions end at once.
///
/// # Errors
/// [`AccountError`]; nothing is changed then.
pub async fn remove_account(service: &Service, name: &AccountName) -> Result<(), AccountError> {
    let mut transaction = service.database.write().await?;
    let role: Option<String> = sqlx::query_scalar("SELECT role FROM accounts WHERE name = ?")
        .bind(name.as_str())
        .fetch_optional(&mut *transaction)
        .await?;
    let role = role.ok_or_else(|| AccountError::NoSuch(name.clone()))?;
    if role.parse() == Ok(Role::Owner) && owners(&mut transaction).await? == 1 {
        return Err(AccountError::LastOwner(name.clone()));
    }
    // What belongs to it goes with it.
    sqlx::query("DELETE FROM accounts WHERE name = ?").bind(name.as_str()).execute(&mut *transaction).await?;
    events::tell(&mut transaction, EventKind::AccountRemoved, 1, store::now()).await?;
    Ok(transaction.commit().await?)
}

/// How many owners there are.
async fn owners(connection: &mut SqliteConnection) -> Result<i64, sqlx::Error> {
    sqlx::query_scalar("SELECT count(*) FROM accounts WHERE role = 'owner'").fetch_one(connection).await
}

/// The number of the account of this name in its table.
pub(super) async fn number_of(connection: &mut SqliteConnection, name: &AccountName) -> Result<i64, AccountError> {
    let number: Option<i64> = sqlx::query_scalar("SELECT id FROM accounts WHERE name = ?")
        .bind(name.as_str())
        .fetch_optional(connection)
        .await?;
    number.ok_or_else(|| AccountError::NoSuch(name.clone()))
}

/// Ends every session of an account and forgets its browsers and its wrong codes.
pub(super) async fn sign_out_everywhere(connection: &mut SqliteConnection, number: i64) -> Result<(), sqlx::Error> {
    for forget in [
        "DELETE FROM sessions WHERE account = ?",
        "DELETE FROM known_browsers WHERE account = ?",
        "DELETE FROM wrong_codes WHERE account = ?",
    ] {
        sqlx::query(forget).bind(number).execute(&mut *connection).await?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_plain_and_capitals_count_as_small_letters() {
        assert_eq!(" Sam-2 ".parse::<AccountName>().unwrap().as_str(), "sam-2");
        assert!("a".repeat(MOST_IN_A_NAME).parse::<AccountName>().is_ok());
        let long = "a".repeat(MOST_IN_A_NAME + 1);
        for wrong in ["", " ", "2sam", "-sam", "sam smith", "sam@home", "sám", "sam\n2", &long] {
            assert!(wrong.parse::<AccountName>().is_err(), "{wrong:?}");
        }
    }
}
