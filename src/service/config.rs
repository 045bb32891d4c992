//! `GET /api/config`: the published config, in the format that the form asks for. Nothing else of the installer's setup is served.

use super::Service;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use model::config::{Config, FORMATS};

/// The published config, written once in every format. The private setup can't be reached from here.
#[derive(Debug)]
pub(super) struct Published {
    pub(super) config: Config,
    /// One for each format. Copies of the form on other websites may be older than some fields; a form that asks for no format gets the
    /// first.
    formats: Vec<Format>,
}

/// The config in one format.
#[derive(Debug)]
struct Format {
    /// The media type by which a form asks for it.
    accept: &'static str,
    json: Vec<u8>,
    tag: HeaderValue,
}

impl Published {
    /// Writes the config in every format.
    pub(super) fn new(config: Config) -> Self {
        // A version that this program did not write may hold characters that no header may: such a config gets a fixed tag.
        let one = |(format, accept)| Format {
            accept,
            json: config.in_format(format).to_string().into_bytes(),
            tag: HeaderValue::from_str(&format!("\"{}-{format}\"", config.version.escape_default()))
                .unwrap_or(HeaderValue::from_static("\"config\"")),
        };
        let formats = [(1, "")].into_iter().chain(FORMATS).map(one).collect();
        Self { config, formats }
    }
}

/// Answers a GET with the config in the format that `Accept` names, or with 304 if the browser has it already.
#[utoipa::path(
    get,
    path = "/api/config",
    operation_id = "read_config",
    description = "The published config, in the format that `Accept` names; the first one without.",
    responses(
        (status = 200, description = "The config.", body = ref("#/components/schemas/Config")),
        (status = 304, description = "It is the one that `If-None-Match` names."),
    ),
)]
pub(super) async fn get(State(service): State<Service>, headers: HeaderMap) -> Response {
    let published = &service.config;
    let reads = headers.get(header::ACCEPT).and_then(|kinds| kinds.to_str().ok()).unwrap_or_default();
    let asked = |format: &&Format| reads.split(',').any(|kind| kind.trim() == format.accept);
    let Format { json, tag, .. } = published.formats.iter().rev().find(asked).unwrap_or(&published.formats[0]);
    let fresh = [
        (header::ETAG, tag.clone()),
        (header::CACHE_CONTROL, HeaderValue::from_static("public, max-age=60")),
        (header::VARY, HeaderValue::from_static("accept")),
    ];
    let known = headers.get(header::IF_NONE_MATCH).and_then(|tags| tags.to_str().ok());
    let tag = tag.to_str().unwrap_or_default();
    if known.is_some_and(|tags| tags.split(',').any(|one| one.trim().trim_start_matches("W/") == tag)) {
        return (StatusCode::NOT_MODIFIED, fresh).into_response();
    }
    let kind = [(header::CONTENT_TYPE, HeaderValue::from_static("application/json"))];
    (fresh, kind, json.clone()).into_response()
}
