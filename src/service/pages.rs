//! Serves both windows from their folders, compressed beforehand where the browser takes it, under strict headers.

use super::Service;
use axum::Router;
use axum::extract::Request;
use axum::http::{HeaderMap, HeaderName, HeaderValue, header};
use axum::middleware::{self, Next};
use axum::response::{Redirect, Response};
use axum::routing::get;
use std::path::Path;
use tower_http::cors::CorsLayer;
use tower_http::services::ServeDir;

/// What a page of ours may load and run.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' blob: data:; connect-src 'self'; worker-src 'self' blob:; manifest-src 'self'; form-action 'self'; \
    base-uri 'none'";

/// The one page that may stand in a frame of somebody else's: it holds no link's secret, and its query names nothing private.
const FRAME: &str = "/frame.html";

/// The homeowner's page at `/`, the installer's at `/installer/`; nothing where there is no folder.
pub(super) fn routes(folder: Option<&Path>, any_origin: CorsLayer) -> Router<Service> {
    let Some(folder) = folder else { return Router::new() };
    let installer = Router::new()
        .route("/installer", get(|| async { Redirect::permanent("/installer/") }))
        .nest_service("/installer/", files(&folder.join("triage")))
        .layer(middleware::from_fn(installer_headers));
    // The form's files may be loaded by the installer's own website, from another origin.
    let form = Router::new()
        .fallback_service(files(&folder.join("form")))
        .layer(middleware::from_fn(form_headers))
        .layer(any_origin);
    installer.merge(form)
}

fn files(folder: &Path) -> ServeDir {
    ServeDir::new(folder).precompressed_br().precompressed_gzip()
}

async fn installer_headers(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    set_common(headers);
    refuse_frames(headers);
    response
}

async fn form_headers(request: Request, next: Next) -> Response {
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
    // Names carry no hash: kept, but asked for again each time, which costs a 304.
    set(headers, header::CACHE_CONTROL, "no-cache");
}

fn set(headers: &mut HeaderMap, name: HeaderName, value: &str) {
    let value = HeaderValue::from_str(value).expect("these are visible ASCII, written above");
    headers.insert(name, value);
}
