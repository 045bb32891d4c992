//! Signing in and out: a random token in a cookie, its hash in the database. Attempts are rate limited, but nobody is ever locked out for
//! good.
//!
//! One address may fail five times a minute (the visitor's own, which a trusted proxy names), all strangers together sixty times. Beyond the
//! sixty an address that has not failed within the hour is still looked at, and a browser that signed in before carries a second token and is
//! counted apart: so strangers who keep trying, even from many addresses or from the installer's own, keep nobody out for good. Passwords
//! are looked at one after the other, since hashing one takes much memory.

use super::error::Refusal;
use super::events::{self, EventKind};
use super::limits::SECRET_BYTES;
use super::surroundings::Sender;
use super::{MOST_CHARACTERS, Service, password, store};
use axum::body::Bytes;
use axum::extract::State;
use axum::extract::rejection::BytesRejection;
use axum::http::{Extensions, HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{AppendHeaders, IntoResponse, Response};
use cookie::{Cookie, SameSite};
use jiff::{SignedDuration, Timestamp};
use record::json::read_json;
use schemars::JsonSchema;
use serde::Deserialize;
use sha2::{Digest, Sha256};

const SESSION: &str = "presurvey_session";
const KNOWN: &str = "presurvey_known";
/// Before the name of a cookie: browsers then take it over an encrypted connection alone, from this very host and for all of it (RFC 6265bis,
/// 4.1.3.2, from memory).
const HOST_ONLY: &str = "__Host-";
const SESSION_LASTS: SignedDuration = SignedDuration::from_hours(14 * 24);
const KNOWN_LASTS: SignedDuration = SignedDuration::from_hours(365 * 24);
const WINDOW: SignedDuration = SignedDuration::from_secs(60);
const MOST_OF_ONE: i64 = 5;
const MOST_OF_STRANGERS: i64 = 60;
/// How many cookies of one name are looked at; a browser sends one. This program's choice.
const MOST_TOKENS: usize = 4;

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SignIn {
    #[schemars(length(max = MOST_CHARACTERS))]
    password: String,
}

/// Answers whether the request is signed in: 204 if so.
///
/// # Errors
/// [`Refusal::NotSignedIn`].
#[utoipa::path(
    get,
    path = "/api/session",
    operation_id = "read_session",
    description = "Whether somebody is signed in.",
    security(("session" = [])),
    responses(
        (status = 204, description = "Somebody is."),
        (status = 401, description = "Nobody is signed in.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn get(State(service): State<Service>, headers: HeaderMap) -> Result<StatusCode, Refusal> {
    if holds(&service, &headers).await? { Ok(StatusCode::NO_CONTENT) } else { Err(Refusal::NotSignedIn) }
}

/// Signs in with the password in the body: sets the session's cookie, and the one by which this browser is known from now on.
///
/// # Errors
/// [`Refusal`]: the password is wrong, there were too many attempts, or the body is not allowed.
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
        (status = 401, description = "The password is not right.", body = ref("#/components/schemas/Told")),
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
    let SignIn { password } = read_json(&body)?;
    if password.chars().count() > MOST_CHARACTERS {
        return Err(Refusal::field("password", format!("it may have at most {MOST_CHARACTERS} characters")));
    }
    let now = store::now();
    let who = who_tries(&service, &extensions, &headers, now).await?;
    let attempt = match begin_attempt(&service, &who, now).await {
        Err(refusal @ Refusal::TooManyAttempts { .. }) => {
            events::note(&service, EventKind::SignInLocked).await;
            return Err(refusal);
        }
        begun => begun?,
    };
    let turn = service.signing_in.acquire().await.map_err(Refusal::ours)?;
    let right = password::is_right(&service, password).await?;
    drop(turn);
    if !right {
        events::note(&service, EventKind::SignInFailed).await;
        return Err(Refusal::WrongPassword);
    }
    service.database.execute(sqlx::query("DELETE FROM attempts WHERE id = ?").bind(attempt)).await?;
    events::note(&service, EventKind::SignedIn).await;
    let secure = only_encrypted(&service, &headers);
    let cookies = AppendHeaders([
        (header::SET_COOKIE, keep_token(&service, Token::Session, now, secure).await?),
        (header::SET_COOKIE, keep_token(&service, Token::Known, now, secure).await?),
    ]);
    Ok((StatusCode::NO_CONTENT, cookies).into_response())
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
    for token in tokens(&headers, SESSION, true) {
        let delete = sqlx::query("DELETE FROM sessions WHERE token_hash = ?").bind(hash_of(token));
        if service.database.execute(delete).await?.rows_affected() > 0 {
            events::note(&service, EventKind::SignedOut).await;
        }
    }
    let gone = AppendHeaders([
        (header::SET_COOKIE, set_cookie(SESSION, "", SignedDuration::ZERO, true)?),
        (header::SET_COOKIE, set_cookie(SESSION, "", SignedDuration::ZERO, false)?),
    ]);
    Ok((StatusCode::NO_CONTENT, gone).into_response())
}

/// Whether cookies are for encrypted connections alone; the demo's, whose data is invented, are not.
fn only_encrypted(service: &Service, headers: &HeaderMap) -> bool {
    !service.demo && service.surroundings.only_encrypted(headers)
}

/// Whether whoever sends these headers is signed in.
pub(super) async fn holds(service: &Service, headers: &HeaderMap) -> Result<bool, Refusal> {
    // Where the address is known to be encrypted, a cookie that came by an open connection opens nothing.
    let plain_too = service.demo || service.surroundings.encrypted != Some(true);
    for token in tokens(headers, SESSION, plain_too) {
        let found: Option<i64> = sqlx::query_scalar("SELECT 1 FROM sessions WHERE token_hash = ? AND until > ?")
            .bind(hash_of(token))
            .bind(store::now().to_string())
            .fetch_optional(service.database.readers())
            .await?;
        if found.is_some() {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Whose count an attempt goes to: a browser's that signed in before, or else an address's.
async fn who_tries(
    service: &Service,
    extensions: &Extensions,
    headers: &HeaderMap,
    now: Timestamp,
) -> Result<Who, Refusal> {
    // One of an earlier build goes on counting: it opens nothing.
    for token in tokens(headers, KNOWN, true) {
        let hash = hash_of(token);
        let known: Option<i64> = sqlx::query_scalar("SELECT 1 FROM known_browsers WHERE token_hash = ? AND until > ?")
            .bind(&hash)
            .bind(now.to_string())
            .fetch_optional(service.database.readers())
            .await?;
        if known.is_some() {
            return Ok(Who { name: format!("browser {hash}"), most: MOST_OF_ONE, stranger: false });
        }
    }
    let (name, most) = match service.surroundings.sender(extensions, headers) {
        Sender::At(address) => (format!("address {address}"), MOST_OF_ONE),
        // All of them share this count: it must not be one stranger's to use up.
        Sender::Unnamed => ("address unknown".to_owned(), MOST_OF_STRANGERS),
    };
    Ok(Who { name, most, stranger: true })
}

struct Who {
    name: String,
    most: i64,
    stranger: bool,
}

/// Counts an attempt before the password is checked. This is one statement, so that simultaneous attempts are counted too.
async fn begin_attempt(service: &Service, who: &Who, now: Timestamp) -> Result<i64, Refusal> {
    let since = (now - WINDOW).to_string();
    let most_of_all = if who.stranger { MOST_OF_STRANGERS } else { i64::MAX };
    let mut transaction = service.database.write().await?;
    let begun: Option<i64> = sqlx::query_scalar(
        "INSERT INTO attempts (who, at) SELECT ?1, ?2
         WHERE (SELECT count(*) FROM attempts WHERE who = ?1 AND at > ?3) < ?4
           AND ((SELECT count(*) FROM attempts WHERE who LIKE 'address %' AND at > ?3) < ?5
                OR NOT EXISTS (SELECT 1 FROM attempts WHERE who = ?1))
         RETURNING id",
    )
    .bind(&who.name)
    .bind(now.to_string())
    .bind(since)
    .bind(who.most)
    .bind(most_of_all)
    .fetch_optional(&mut *transaction)
    .await?;
    transaction.commit().await?;
    begun.ok_or(Refusal::TooManyAttempts { seconds: WINDOW.as_secs() })
}

#[derive(Clone, Copy)]
enum Token {
    Session,
    Known,
}

/// Draws a token, stores its hash, and returns the cookie that carries it.
async fn keep_token(service: &Service, kind: Token, now: Timestamp, secure: bool) -> Result<HeaderValue, Refusal> {
    let token = hex::encode(rand::random::<[u8; 32]>());
    let (statement, name, lasts) = match kind {
        Token::Session => ("INSERT INTO sessions (token_hash, until) VALUES (?, ?)", SESSION, SESSION_LASTS),
        Token::Known => ("INSERT INTO known_browsers (token_hash, until) VALUES (?, ?)", KNOWN, KNOWN_LASTS),
    };
    service.database.execute(sqlx::query(statement).bind(hash_of(&token)).bind((now + lasts).to_string())).await?;
    set_cookie(name, &token, lasts, secure)
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

fn hash_of(token: &str) -> String {
    hex::encode(Sha256::digest(token.as_bytes()))
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
