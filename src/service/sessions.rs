//! Signing in and out: a random token in a cookie, its hash in the database. Attempts are rate limited, but nobody is ever locked out for
//! good.
//!
//! One address may fail five times a minute, all strangers together sixty times. A browser that signed in before carries a second token and
//! is counted apart, so that a stranger who keeps trying, even from the same address or through the same proxy, does not keep the installer
//! out.

use super::error::Refusal;
use super::events::{self, EventKind};
use super::{MOST_CHARACTERS, Service, password, store};
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{ConnectInfo, State};
use axum::http::{Extensions, HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{AppendHeaders, IntoResponse, Response};
use cookie::{Cookie, SameSite};
use headers::{HeaderMapExt, Host};
use jiff::{SignedDuration, Timestamp};
use record::json::read_json;
use serde::Deserialize;
use sha2::{Digest, Sha256};
use std::net::SocketAddr;

const SESSION: &str = "presurvey_session";
const KNOWN: &str = "presurvey_known";
const SESSION_LASTS: SignedDuration = SignedDuration::from_hours(14 * 24);
const KNOWN_LASTS: SignedDuration = SignedDuration::from_hours(365 * 24);
const WINDOW: SignedDuration = SignedDuration::from_secs(60);
const MOST_OF_ONE: i64 = 5;
const MOST_OF_STRANGERS: i64 = 60;
const LARGEST_BODY: usize = 4096;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SignIn {
    password: String,
}

/// Answers whether the request is signed in: 204 if so.
///
/// # Errors
/// [`Refusal::NotSignedIn`].
pub(super) async fn get(State(service): State<Service>, headers: HeaderMap) -> Result<StatusCode, Refusal> {
    if holds(&service, &headers).await? { Ok(StatusCode::NO_CONTENT) } else { Err(Refusal::NotSignedIn) }
}

/// Signs in with the password in the body: sets the session's cookie, and the one by which this browser is known from now on.
///
/// # Errors
/// [`Refusal`]: the password is wrong, there were too many attempts, or the body is not allowed.
pub(super) async fn post(
    State(service): State<Service>,
    extensions: Extensions,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Result<Response, Refusal> {
    let body = body.map_err(|rejection| Refusal::of_body(&rejection, LARGEST_BODY))?;
    if body.len() > LARGEST_BODY {
        return Err(Refusal::TooLarge { most: LARGEST_BODY });
    }
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
    if !password::is_right(&service, password).await? {
        events::note(&service, EventKind::SignInFailed).await;
        return Err(Refusal::WrongPassword);
    }
    service.database.execute(sqlx::query("DELETE FROM attempts WHERE id = ?").bind(attempt)).await?;
    events::note(&service, EventKind::SignedIn).await;
    let secure = !service.demo && !from_this_machine(&headers);
    let cookies = AppendHeaders([
        (header::SET_COOKIE, keep_token(&service, Token::Session, now, secure).await?),
        (header::SET_COOKIE, keep_token(&service, Token::Known, now, secure).await?),
    ]);
    Ok((StatusCode::NO_CONTENT, cookies).into_response())
}

/// Signs out: ends the session and has the browser drop its cookie.
pub(super) async fn delete(State(service): State<Service>, headers: HeaderMap) -> Result<Response, Refusal> {
    if let Some(token) = cookie(&headers, SESSION) {
        let delete = sqlx::query("DELETE FROM sessions WHERE token_hash = ?").bind(hash_of(token));
        if service.database.execute(delete).await?.rows_affected() > 0 {
            events::note(&service, EventKind::SignedOut).await;
        }
    }
    let gone = set_cookie(SESSION, "", SignedDuration::ZERO, false)?;
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, gone)]).into_response())
}

/// Whether whoever sends these headers is signed in.
pub(super) async fn holds(service: &Service, headers: &HeaderMap) -> Result<bool, Refusal> {
    let Some(token) = cookie(headers, SESSION) else { return Ok(false) };
    let found: Option<i64> = sqlx::query_scalar("SELECT 1 FROM sessions WHERE token_hash = ? AND until > ?")
        .bind(hash_of(token))
        .bind(store::now().to_string())
        .fetch_optional(service.database.readers())
        .await?;
    Ok(found.is_some())
}

/// Whose count an attempt goes to: a browser's that signed in before, or else an address's.
async fn who_tries(
    service: &Service,
    extensions: &Extensions,
    headers: &HeaderMap,
    now: Timestamp,
) -> Result<Who, Refusal> {
    if let Some(token) = cookie(headers, KNOWN) {
        let hash = hash_of(token);
        let known: Option<i64> = sqlx::query_scalar("SELECT 1 FROM known_browsers WHERE token_hash = ? AND until > ?")
            .bind(&hash)
            .bind(now.to_string())
            .fetch_optional(service.database.readers())
            .await?;
        if known.is_some() {
            return Ok(Who { name: format!("browser {hash}"), stranger: false });
        }
    }
    let address = extensions.get::<ConnectInfo<SocketAddr>>().map(|ConnectInfo(address)| address.ip());
    let name = address.map_or("address unknown".to_owned(), |address| format!("address {address}"));
    Ok(Who { name, stranger: true })
}

struct Who {
    name: String,
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
           AND (SELECT count(*) FROM attempts WHERE who LIKE 'address %' AND at > ?3) < ?5
         RETURNING id",
    )
    .bind(&who.name)
    .bind(now.to_string())
    .bind(since)
    .bind(MOST_OF_ONE)
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

/// A `Set-Cookie` header that has a browser keep a value for this long, hidden from every script and never sent for a foreign page.
fn set_cookie(name: &str, value: &str, lasts: SignedDuration, secure: bool) -> Result<HeaderValue, Refusal> {
    let cookie = Cookie::build((name, value))
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

fn cookie<'a>(headers: &'a HeaderMap, name: &str) -> Option<&'a str> {
    headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(Cookie::split_parse)
        .find_map(|cookie| cookie.ok().filter(|cookie| cookie.name() == name)?.value_raw())
}

/// Whether the page was opened under a name of this very machine, where there is no encryption and no need for it.
fn from_this_machine(headers: &HeaderMap) -> bool {
    let host = headers.typed_get::<Host>();
    host.is_some_and(|host| matches!(host.hostname(), "localhost" | "127.0.0.1" | "[::1]"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_this_machine_goes_without_encryption() {
        let of = |host: &'static str| {
            from_this_machine(&HeaderMap::from_iter([(header::HOST, HeaderValue::from_static(host))]))
        };
        assert!(of("localhost:8080") && of("127.0.0.1:8080") && of("[::1]:8080") && of("localhost"));
        assert!(
            !of("installer.invalid") && !of("localhost.installer.invalid:80") && !of("127.0.0.1.installer.invalid")
        );
        assert!(!from_this_machine(&HeaderMap::new()));
    }

    #[test]
    fn a_cookie_is_found_among_others() {
        let headers =
            HeaderMap::from_iter([(header::COOKIE, HeaderValue::from_static("a=1; presurvey_session=xyz; b=2"))]);
        assert_eq!(cookie(&headers, SESSION), Some("xyz"));
        assert_eq!(cookie(&headers, "presurvey"), None);
    }

    #[test]
    fn a_cookie_is_kept_from_scripts_and_foreign_pages() {
        let kept = set_cookie("a", "b", SignedDuration::from_secs(60), true).unwrap();
        let mut parts: Vec<&str> = kept.to_str().unwrap().split("; ").collect();
        assert_eq!(parts.remove(0), "a=b");
        parts.sort_unstable();
        assert_eq!(parts, ["HttpOnly", "Max-Age=60", "Path=/", "SameSite=Strict", "Secure"]);
        let gone = set_cookie("a", "", SignedDuration::ZERO, false).unwrap();
        assert!(gone.to_str().unwrap().contains("Max-Age=0") && !gone.to_str().unwrap().contains("Secure"));
    }
}
