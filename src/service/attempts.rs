//! Attempts to sign in, counted in the database. They are rate limited, but nobody is ever locked out for good.
//!
//! One address may fail five times a minute (the visitor's own, which a trusted proxy names), all strangers together sixty times, and at one
//! account thirty times an hour. Beyond the sixty and the thirty an address that has not failed within the hour is still looked at, and a
//! browser that signed in to the account before carries a second token and is counted apart: so strangers who keep trying, even from many
//! addresses or from the installer's own, keep nobody out for good.

use super::error::Refusal;
use super::surroundings::Sender;
use super::{Service, secret};
use axum::http::{Extensions, HeaderMap};
use jiff::{SignedDuration, Timestamp};

/// Within this time an address or a browser may fail so many times, and all strangers together so many: this program's choice.
const WINDOW: SignedDuration = SignedDuration::from_secs(60);
const MOST_OF_ONE: i64 = 5; // this program's choice
const MOST_OF_STRANGERS: i64 = 60; // this program's choice
/// Within this time strangers may fail so many times at one account; beyond that each of their addresses is looked at once in this time.
/// This program's choice.
const LONG_WINDOW: SignedDuration = SignedDuration::from_hours(1);
const MOST_AT_AN_ACCOUNT: i64 = 30; // this program's choice

/// Whose count an attempt goes to.
pub(super) struct Who {
    name: String,
    most: i64,
    /// Whether it is somebody who has not signed in to this account from this browser.
    stranger: bool,
    /// Whether a stranger has an address of their own, so that others are told apart from them.
    told_apart: bool,
}

impl Who {
    /// Whether it is somebody who has not signed in to this account from this browser.
    pub(super) const fn is_stranger(&self) -> bool {
        self.stranger
    }

    /// Whose wrong codes these are.
    pub(super) fn of_codes(&self) -> &str {
        if self.stranger { "strangers" } else { &self.name }
    }
}

/// Whose count an attempt at the account of this name goes to: a browser's that signed in to it before, or else an address's.
/// `known` are the tokens by which a browser may be known.
///
/// # Errors
/// The database's own.
pub(super) async fn who_tries(
    service: &Service,
    extensions: &Extensions,
    headers: &HeaderMap,
    known: &[&str],
    account: &str,
    now: Timestamp,
) -> Result<Who, Refusal> {
    for token in known {
        let hash = secret::hash_of(token);
        let found: Option<i64> = sqlx::query_scalar(
            "SELECT 1 FROM known_browsers JOIN accounts ON accounts.id = account WHERE token_hash = ? AND until > ? AND name = ?",
        )
        .bind(&hash)
        .bind(now.to_string())
        .bind(account)
        .fetch_optional(service.database.readers())
        .await?;
        if found.is_some() {
            return Ok(Who { name: format!("browser {hash}"), most: MOST_OF_ONE, stranger: false, told_apart: true });
        }
    }
    let (name, most, told_apart) = match service.surroundings.sender(extensions, headers) {
        Sender::At(address) => (format!("address {address}"), MOST_OF_ONE, true),
        // All of them share this count: it must not be one stranger's to use up.
        Sender::Unnamed => ("address unknown".to_owned(), MOST_OF_STRANGERS, false),
    };
    Ok(Who { name, most, stranger: true, told_apart })
}

/// Counts an attempt at the account of this name before the password is checked, and returns its number. What it is decided by and the row
/// are of one transaction, so that simultaneous attempts are counted too. Names that nobody has are counted as any other.
///
/// # Errors
/// [`Refusal::TooManyAttempts`]; this attempt is not counted then.
pub(super) async fn begin(service: &Service, who: &Who, account: &str, now: Timestamp) -> Result<i64, Refusal> {
    let [minute, hour] = [WINDOW, LONG_WINDOW].map(|window| (now - window).to_string());
    // Names are a stranger's text, so their hash is kept.
    let account = secret::hash_of(account);
    let mut transaction = service.database.write().await?;
    let (own, own_long, latest): (i64, i64, Option<String>) = sqlx::query_as(
        "SELECT count(*) FILTER (WHERE at > ?2), count(*), max(at) FROM attempts WHERE who = ?1 AND at > ?3",
    )
    .bind(&who.name)
    .bind(&minute)
    .bind(&hour)
    .fetch_one(&mut *transaction)
    .await?;
    let (all, there): (i64, i64) = sqlx::query_as(
        "SELECT (SELECT count(*) FROM attempts WHERE who LIKE 'address %' AND at > ?1),
           (SELECT count(*) FROM attempts WHERE account = ?2 AND who LIKE 'address %' AND at > ?3)",
    )
    .bind(&minute)
    .bind(&account)
    .bind(&hour)
    .fetch_one(&mut *transaction)
    .await?;
    // Somebody who has not failed within the hour is looked at however many others have.
    let failed_before = who.stranger && own_long > 0;
    let until_forgotten = || {
        let latest: Option<Timestamp> = latest.and_then(|latest| latest.parse().ok());
        latest.map_or(LONG_WINDOW, |latest| latest + LONG_WINDOW - now)
    };
    let wait = if own >= who.most || (failed_before && all >= MOST_OF_STRANGERS) {
        Some(WINDOW)
    } else if failed_before && who.told_apart && there >= MOST_AT_AN_ACCOUNT {
        Some(until_forgotten())
    } else {
        None
    };
    if let Some(wait) = wait {
        transaction.commit().await?;
        return Err(Refusal::TooManyAttempts { seconds: wait.as_secs().max(1) }); // arithmetic: no wait of nothing
    }
    let begun = sqlx::query_scalar("INSERT INTO attempts (who, at, account) VALUES (?, ?, ?) RETURNING id")
        .bind(&who.name)
        .bind(now.to_string())
        .bind(account)
        .fetch_one(&mut *transaction)
        .await?;
    transaction.commit().await?;
    Ok(begun)
}

/// Forgets an attempt that did not fail.
///
/// # Errors
/// The database's own.
pub(super) async fn forget_one(service: &Service, attempt: i64) -> Result<(), sqlx::Error> {
    service.database.execute(sqlx::query("DELETE FROM attempts WHERE id = ?").bind(attempt)).await.map(drop)
}

/// Forgets the attempts that count no more.
///
/// # Errors
/// The database's own.
pub(super) async fn forget(service: &Service, now: Timestamp) -> Result<(), sqlx::Error> {
    let delete = sqlx::query("DELETE FROM attempts WHERE at < ?").bind((now - LONG_WINDOW).to_string());
    service.database.execute(delete).await.map(drop)
}
