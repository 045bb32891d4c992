//! `GET /api/config`: what the installer published, and nothing else of theirs; in the format that the form reads.

use super::Service;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use model::config::{Config, FORMATS};

/// The published config with its bytes made once. The private setup is not reachable from here.
#[derive(Debug)]
pub(super) struct Published {
    pub(super) config: Config,
    /// For forms that were copied before some of its fields existed; the first for those that ask for no format.
    formats: Vec<Format>,
}

/// The config in one format.
#[derive(Debug)]
struct Format {
    /// As it is asked for.
    accept: &'static str,
    json: Vec<u8>,
    tag: HeaderValue,
}

impl Published {
    pub(super) fn new(config: Config) -> Self {
        // The version of a config that was not published by us may hold anything: such a one gets no tag of its own.
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
