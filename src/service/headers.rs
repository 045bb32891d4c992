//! The headers of every response: what a page of ours may load, who may frame it, and what browsers may cache.
//!
//! README.md names the strictest policies under which the form works on somebody else's page. Those are that page's own; these are for
//! pages that the service serves.

use axum::extract::Request;
use axum::http::{HeaderMap, HeaderName, HeaderValue, header};
use axum::middleware::Next;
use axum::response::Response;

/// What a page of ours may load and run.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' blob: data:; connect-src 'self'; worker-src 'self' blob:; manifest-src 'self'; form-action 'self'; \
    base-uri 'none'";

/// The only page that a foreign page may frame: it holds no secret of a link, and its query names nothing private.
const FRAME: &str = "/frame.html";

/// The policy of the page that deletes an enquiry: nobody frames it, so that nobody has its button pressed unseen.
pub(super) const DELETION: HeaderValue = HeaderValue::from_static(
    "default-src 'none'; script-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
);

/// The policy of the small page shown after a form was posted without a script: it loads nothing. It may be framed, as the form may.
pub(super) const NOTHING_LOADED: HeaderValue = HeaderValue::from_static("default-src 'none'");

/// Headers of every answer of the API.
pub(super) async fn plain_headers(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    headers.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
    headers
        .entry(header::CONTENT_SECURITY_POLICY)
        .or_insert(HeaderValue::from_static("default-src 'none'; frame-ancestors 'none'"));
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Headers of the installer's page.
pub(super) async fn installer_headers(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    set_common(headers);
    refuse_frames(headers);
    response
}

/// Headers of the form's page and its files.
pub(super) async fn form_headers(request: Request, next: Next) -> Response {
    let may_be_framed = request.uri().path() == FRAME;
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    set_common(headers);
    if may_be_framed {
        set(headers, header::CONTENT_SECURITY_POLICY, POLICY);
    } else {
        refuse_frames(headers);
    }
    set(headers, HeaderName::from_static("cross-origin-resource-policy"), "cross-origin");
    response
}

fn refuse_frames(headers: &mut HeaderMap) {
    set(headers, header::CONTENT_SECURITY_POLICY, &format!("{POLICY}; frame-ancestors 'none'"));
    set(headers, header::X_FRAME_OPTIONS, "DENY");
}

fn set_common(headers: &mut HeaderMap) {
    set(headers, header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(headers, header::REFERRER_POLICY, "no-referrer");
    set(headers, HeaderName::from_static("permissions-policy"), "camera=(self), geolocation=(), microphone=()");
    // File names carry no hash: browsers keep the file but ask each time whether it changed, which costs a 304.
    set(headers, header::CACHE_CONTROL, "no-cache");
}

fn set(headers: &mut HeaderMap, name: HeaderName, value: &str) {
    let value = HeaderValue::from_str(value).expect("these are visible ASCII, written above");
    headers.insert(name, value);
}
