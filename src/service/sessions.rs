//! Signing in and out: a random token in a cookie, its hash in the database with whose it is. How often somebody may try is in `attempts`.
//!
//! Passwords are looked at one after the other, since hashing one takes much memory; a browser that signed in to the account before waits
//! behind one stranger at most, however many there are. A session ends at a fixed time, and earlier where nobody
//! uses it; when it was last used is kept to the hour and written beside the request, which waits for no writer.

use super::accounts::{AccountName, OWNER, Role};
use super::error::Refusal;
use super::events::{self, EventKind};
use super::limits::SECRET_BYTES;
use super::{MOST_CHARACTERS, Service, attempts, password, second_factor, secret, store};
use axum::Json;
use axum::body::Bytes;
use axum::extract::State;
use axum::extract::rejection::BytesRejection;
use axum::http::{Extensions, HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{AppendHeaders, IntoResponse, Response};
use cookie::{Cookie, SameSite};
use jiff::{SignedDuration, Timestamp};
use record::json::read_json;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::HashSet;
use std::sync::{MutexGuard, PoisonError};
use tokio::sync::{Semaphore, SemaphorePermit};

const SESSION: &str = "presurvey_session";
const KNOWN: &str = "presurvey_known";
/// Before the name of a cookie: browsers then take it over an encrypted connection alone, from this very host and for all of it (RFC 6265bis,
/// 4.1.3.2, from memory).
const HOST_ONLY: &str = "__Host-";
const SESSION_LASTS: SignedDuration = SignedDuration::from_hours(14 * 24);
/// How long a session lasts that nobody uses: this program's choice. Who looks twice a week, or comes back from a week away, stays signed in.
pub(super) const UNUSED_LASTS: SignedDuration = SignedDuration::from_hours(8 * 24);
/// How exactly it is kept when a session was last used: this program's choice, a row written in an hour.
const USED_TO: SignedDuration = SignedDuration::from_hours(1);
const KNOWN_LASTS: SignedDuration = SignedDuration::from_hours(365 * 24);
/// How many cookies of one name are looked at; a browser sends one. This program's choice.
const MOST_TOKENS: usize = 4;

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SignIn {
    /// The account's name; the owner's where it is left out, as by whoever knows a password alone.
    name: Option<String>,
    #[schemars(length(max = MOST_CHARACTERS))]
    password: String,
    /// The code of the second factor, where the account has one.
    code: Option<String>,
}

/// Who is signed in.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(super) struct SignedIn {
    name: String,
    pub(super) role: Role,
}

/// Answers who is signed in.
///
/// # Errors
/// [`Refusal::NotSignedIn`].
#[utoipa::path(
    get,
    path = "/api/session",
    operation_id = "read_session",
    description = "Who is signed in.",
    security(("session" = [])),
    responses(
        (status = 200, description = "This account is.", body = ref("#/components/schemas/SignedIn")),
        (status = 401, description = "Nobody is signed in.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn get(State(service): State<Service>, headers: HeaderMap) -> Result<Json<SignedIn>, Refusal> {
    holder(&service, &headers).await?.map(Json).ok_or(Refusal::NotSignedIn)
}

/// Signs in with what is in the body: sets the session's cookie, and the one by which this browser is known from now on.
///
/// # Errors
/// [`Refusal`]: name or password are wrong, a code is needed or wrong, there were too many attempts, or the body is not allowed.
#[utoipa::path(
    post,
    path = "/api/session",
    operation_id = "sign_in",
    description = "Signs in.",
    request_body = ref("#/components/schemas/SignIn"),
    responses(
        (status = 204, description = "Signed in: cookies are set."),
        (status = 400, description = "This is not JSON, or it did not arrive whole.", body = ref("#/components/schemas/Told")),
        (status = 413, description = "This is too large.", body = ref("#/components/schemas/Told")),
        (status = 422, description = "Something in it is not allowed; `fields` says what.", body = ref("#/components/schemas/Told")),
        (status = 401, description = "Name or password are not right, or the account's code is needed or not right.", body = ref("#/components/schemas/Told")),
        (status = 429, description = "Too many attempts; `Retry-After` says how long to wait.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn post(
    State(service): State<Service>,
    extensions: Extensions,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Result<Response, Refusal> {
    let body = body.map_err(|rejection| Refusal::of_body(&rejection, SECRET_BYTES))?;
    let SignIn { name, password, code } = read_json(&body)?;
    if password.chars().count() > MOST_CHARACTERS {
        return Err(Refusal::field("password", format!("it may have at most {MOST_CHARACTERS} characters")));
    }
    // What is no name is nobody's.
    let name = name
        .map_or_else(|| OWNER.to_owned(), |typed| typed.parse().map_or(typed, |name: AccountName| name.to_string()));
    let code = code.filter(|code| !code.trim().is_empty());
    let now = store::now();
    // A browser that an earlier build knew goes on being known: its cookie opens nothing.
    let known = tokens(&headers, &own_name(&service, KNOWN), true);
    let who = attempts::who_tries(&service, &extensions, &headers, &known, &name, now).await?;
    let attempt = locked_is_told(&service, attempts::begin(&service, &who, &name, now).await).await?;
    let account = looked_up(&service, &name).await?;
    let turn = service.signing_in.turn(who.is_stranger()).await?;
    let hash = account.as_ref().map(|account| account.password_hash.clone());
    let right = password::is_right(hash, password).await?;
    drop(turn);
    let Some(account) = account.filter(|_| right) else {
        events::note(&service, EventKind::SignInFailed).await;
        return Err(Refusal::WrongPassword);
    };
    if let Some(secret) = &account.totp_secret {
        let Some(code) = code else {
            // Half way is no failure; it tells no more than signing in would.
            attempts::forget_one(&service, attempt).await?;
            return Err(Refusal::CodeNeeded);
        };
        let taken = second_factor::take(&service, account.number, secret, &code, who.of_codes(), now).await;
        locked_is_told(&service, taken).await?;
    }
    attempts::forget_one(&service, attempt).await?;
    let secure = only_encrypted(&service, &headers);
    let cookies = begin_session(&service, &headers, &account, now, secure).await?;
    Ok((StatusCode::NO_CONTENT, AppendHeaders(cookies)).into_response())
}

/// Signs out: ends the session and has the browser drop its cookie.
#[utoipa::path(
    delete,
    path = "/api/session",
    operation_id = "sign_out",
    description = "Signs out.",
    responses(
        (status = 204, description = "Nobody is signed in any more."),
    ),
)]
pub(super) async fn delete(State(service): State<Service>, headers: HeaderMap) -> Result<Response, Refusal> {
    let name = own_name(&service, SESSION);
    for token in tokens(&headers, &name, true) {
        let delete = sqlx::query("DELETE FROM sessions WHERE token_hash = ?").bind(secret::hash_of(token));
        if service.database.execute(delete).await?.rows_affected() > 0 {
            events::note(&service, EventKind::SignedOut).await;
        }
    }
    let gone = AppendHeaders([
        (header::SET_COOKIE, set_cookie(&name, "", SignedDuration::ZERO, true)?),
        (header::SET_COOKIE, set_cookie(&name, "", SignedDuration::ZERO, false)?),
    ]);
    Ok((StatusCode::NO_CONTENT, gone).into_response())
}

/// Keeps an event where somebody is refused for having tried too often.
async fn locked_is_told<T>(service: &Service, tried: Result<T, Refusal>) -> Result<T, Refusal> {
    if let Err(Refusal::TooManyAttempts { .. }) = tried {
        events::note(service, EventKind::SignInLocked).await;
    }
    tried
}

/// Whose password is looked at: one after the other.
#[derive(Debug)]
pub(super) struct Turns {
    one: Semaphore,
    /// Strangers, of whom one at a time waits for its turn beside those who are known.
    strangers: Semaphore,
}

/// A turn, until it is dropped.
pub(super) struct Turn<'a> {
    _one: SemaphorePermit<'a>,
    _stranger: Option<SemaphorePermit<'a>>,
}

impl Default for Turns {
    fn default() -> Self {
        Self { one: Semaphore::new(1), strangers: Semaphore::new(1) }
    }
}

impl Turns {
    /// Waits until a password may be looked at, for somebody who is a stranger to the account or not.
    ///
    /// # Errors
    /// Never while the service runs.
    pub(super) async fn turn(&self, stranger: bool) -> Result<Turn<'_>, Refusal> {
        let stranger = if stranger { Some(self.strangers.acquire().await.map_err(Refusal::ours)?) } else { None };
        let one = self.one.acquire().await.map_err(Refusal::ours)?;
        Ok(Turn { _one: one, _stranger: stranger })
    }
}

/// Whether cookies are for encrypted connections alone; the demo's, whose data is invented, are not.
fn only_encrypted(service: &Service, headers: &HeaderMap) -> bool {
    !service.demo && service.surroundings.only_encrypted(headers)
}

/// An account as signing in needs it.
struct Account {
    number: i64,
    password_hash: String,
    totp_secret: Option<String>,
}

async fn looked_up(service: &Service, name: &str) -> Result<Option<Account>, sqlx::Error> {
    let found: Option<(i64, String, Option<String>)> =
        sqlx::query_as("SELECT id, password_hash, totp_secret FROM accounts WHERE name = ?")
            .bind(name)
            .fetch_optional(service.database.readers())
            .await?;
    Ok(found.map(|(number, password_hash, totp_secret)| Account { number, password_hash, totp_secret }))
}

/// Begins a session of an account by a token that was never sent before, in place of whatever session this browser had, and returns the
/// cookies.
///
/// # Errors
/// [`Refusal::WrongPassword`] where the account was removed or changed while its password was looked at.
async fn begin_session(
    service: &Service,
    headers: &HeaderMap,
    account: &Account,
    now: Timestamp,
    secure: bool,
) -> Result<[(header::HeaderName, HeaderValue); 2], Refusal> {
    let [session, known] = [(); 2].map(|()| hex::encode(rand::random::<[u8; 32]>()));
    let before: Vec<String> =
        tokens(headers, &own_name(service, SESSION), true).into_iter().map(secret::hash_of).collect();
    let mut transaction = service.database.write().await?;
    for hash in before {
        sqlx::query("DELETE FROM sessions WHERE token_hash = ?").bind(hash).execute(&mut *transaction).await?;
    }
    let begun = sqlx::query(
        "INSERT INTO sessions (token_hash, account, until, used)
         SELECT ?, id, ?, ? FROM accounts WHERE id = ? AND password_hash = ? AND totp_secret IS ?",
    )
    .bind(secret::hash_of(&session))
    .bind((now + SESSION_LASTS).to_string())
    .bind(now.to_string())
    .bind(account.number)
    .bind(&account.password_hash)
    .bind(&account.totp_secret)
    .execute(&mut *transaction)
    .await?;
    if begun.rows_affected() == 0 {
        transaction.commit().await?;
        return Err(Refusal::WrongPassword);
    }
    sqlx::query("INSERT INTO known_browsers (token_hash, account, until) VALUES (?, ?, ?)")
        .bind(secret::hash_of(&known))
        .bind(account.number)
        .bind((now + KNOWN_LASTS).to_string())
        .execute(&mut *transaction)
        .await?;
    events::tell(&mut transaction, EventKind::SignedIn, 1, now).await?;
    transaction.commit().await?;
    Ok([
        (header::SET_COOKIE, set_cookie(&own_name(service, SESSION), &session, SESSION_LASTS, secure)?),
        (header::SET_COOKIE, set_cookie(&own_name(service, KNOWN), &known, KNOWN_LASTS, secure)?),
    ])
}

/// Who is signed in by these headers.
///
/// # Errors
/// The database's own.
pub(super) async fn holder(service: &Service, headers: &HeaderMap) -> Result<Option<SignedIn>, Refusal> {
    // Where the address is known to be encrypted, a cookie that came by an open connection opens nothing.
    let plain_too = service.demo || service.surroundings.encrypted != Some(true);
    let now = store::now();
    for token in tokens(headers, &own_name(service, SESSION), plain_too) {
        let hash = secret::hash_of(token);
        let found: Option<(String, String, String)> = sqlx::query_as(
            "SELECT name, role, used FROM sessions JOIN accounts ON accounts.id = account
             WHERE token_hash = ? AND until > ? AND used > ?",
        )
        .bind(&hash)
        .bind(now.to_string())
        .bind((now - UNUSED_LASTS).to_string())
        .fetch_optional(service.database.readers())
        .await?;
        if let Some((name, role, used)) = found {
            if used.parse().is_ok_and(|used: Timestamp| now.duration_since(used) >= USED_TO) {
                note_use(service, hash, now);
            }
            return Ok(Some(SignedIn { name, role: role.parse().map_err(Refusal::ours)? }));
        }
    }
    Ok(None)
}

/// Has it written that a session was used, beside the request that used it. Of requests that come together one writes.
fn note_use(service: &Service, hash: String, now: Timestamp) {
    if !noting(service).insert(hash.clone()) {
        return;
    }
    let service = service.clone();
    tokio::spawn(async move {
        let update = sqlx::query("UPDATE sessions SET used = ? WHERE token_hash = ?").bind(now.to_string()).bind(&hash);
        if let Err(why) = service.database.execute(update).await {
            tracing::warn!(error = %why, "when a session was last used could not be kept; the next request tries again");
        }
        noting(&service).remove(&hash);
    });
}

fn noting(service: &Service) -> MutexGuard<'_, HashSet<String>> {
    service.noting_use.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The name of an installer's cookie. All installers of a service are one host to a browser, and a cookie for a host alone is for all of its
/// paths; so the names of a further installer's have its id.
fn own_name(service: &Service, name: &str) -> String {
    service.further.as_ref().map_or_else(|| name.to_owned(), |id| format!("{name}_{id}"))
}

/// The name of the session's cookie where the connection is encrypted.
pub(super) fn cookie_name() -> String {
    full_name(SESSION, true)
}

/// The name of a cookie as browsers know it.
fn full_name(name: &str, secure: bool) -> String {
    [if secure { HOST_ONLY } else { "" }, name].concat()
}

/// A `Set-Cookie` header that has a browser keep a value for this long, hidden from every script and never sent for a foreign page.
fn set_cookie(name: &str, value: &str, lasts: SignedDuration, secure: bool) -> Result<HeaderValue, Refusal> {
    let cookie = Cookie::build((full_name(name, secure), value.to_owned()))
        .http_only(true)
        .same_site(SameSite::Strict)
        .path("/")
        .max_age(cookie::time::Duration::seconds(lasts.as_secs()))
        .secure(secure);
    HeaderValue::from_str(&cookie.to_string()).map_err(Refusal::ours)
}

/// The tokens in cookies of this name: in the one for encrypted connections, and with `plain_too` in the one without.
fn tokens<'a>(headers: &'a HeaderMap, name: &str, plain_too: bool) -> Vec<&'a str> {
    let wanted = [full_name(name, true), full_name(name, false)];
    let wanted = &wanted[..if plain_too { 2 } else { 1 }];
    let cookies = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
    let cookies: Vec<_> = cookies.flat_map(Cookie::split_parse).filter_map(Result::ok).collect();
    let found = wanted.iter().flat_map(|name| cookies.iter().filter(|cookie| cookie.name() == *name));
    found.filter_map(Cookie::value_raw).take(MOST_TOKENS).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cookie_is_found_among_others() {
        let line = "a=1; presurvey_session=xyz; b=2; __Host-presurvey_session=abc";
        let headers = HeaderMap::from_iter([(header::COOKIE, HeaderValue::from_static(line))]);
        assert_eq!(tokens(&headers, SESSION, true), ["abc", "xyz"]);
        assert_eq!(tokens(&headers, SESSION, false), ["abc"]);
        assert_eq!(tokens(&headers, "presurvey", true), [""; 0]);
    }

    #[tokio::test]
    async fn that_a_session_is_used_is_written_beside_the_request_which_waits_for_no_writer() {
        let folder = tempfile::tempdir().unwrap();
        let service = Service::open(folder.path(), &model::config::demo_config(), None, false).await.unwrap();
        crate::set_password(&service, "an invented password").await.unwrap();
        let before = (store::now() - USED_TO).to_string();
        let insert = "INSERT INTO sessions (token_hash, account, until, used) SELECT ?, id, '9999', ? FROM accounts";
        service.database.execute(sqlx::query(insert).bind(secret::hash_of("abc")).bind(&before)).await.unwrap();
        let cookie = HeaderValue::from_static("presurvey_session=abc");
        let headers = HeaderMap::from_iter([(header::COOKIE, cookie)]);
        let writing = service.database.write().await.unwrap();
        for _ in 0..3 {
            assert_eq!(holder(&service, &headers).await.unwrap().unwrap().name, OWNER);
            assert_eq!(noting(&service).len(), 1, "one task waits for the writer, and no request does");
        }
        writing.commit().await.unwrap();
        while !noting(&service).is_empty() {
            tokio::task::yield_now().await;
        }
        let used: String =
            sqlx::query_scalar("SELECT used FROM sessions").fetch_one(service.database.readers()).await.unwrap();
        assert!(used > before, "{used} {before}");
    }

    #[tokio::test]
    async fn a_known_browser_waits_behind_one_stranger_at_most() {
        let (turns, order) = (Turns::default(), std::cell::RefCell::new(Vec::new()));
        let first = turns.turn(true).await.unwrap();
        let waits = async |who: &'static str| {
            let turn = turns.turn(who == "stranger").await.unwrap();
            order.borrow_mut().push(who);
            tokio::task::yield_now().await;
            drop(turn);
        };
        let began = async {
            tokio::task::yield_now().await;
            drop(first);
        };
        tokio::join!(waits("stranger"), waits("stranger"), waits("stranger"), waits("known"), began);
        assert_eq!(*order.borrow(), ["known", "stranger", "stranger", "stranger"]);
    }

    #[test]
    fn a_cookie_is_kept_from_scripts_and_foreign_pages() {
        let kept = set_cookie("a", "b", SignedDuration::from_secs(60), true).unwrap();
        let mut parts: Vec<&str> = kept.to_str().unwrap().split("; ").collect();
        assert_eq!(parts.remove(0), "__Host-a=b");
        parts.sort_unstable();
        assert_eq!(parts, ["HttpOnly", "Max-Age=60", "Path=/", "SameSite=Strict", "Secure"]);
        let gone = set_cookie("a", "", SignedDuration::ZERO, false).unwrap();
        assert!(gone.to_str().unwrap().contains("Max-Age=0") && !gone.to_str().unwrap().contains("Secure"));
    }
}
