//! `GET /api/config`: what the installer published, and nothing else of theirs; in the format that the form reads.

use super::Service;
use crate::config::{Config, FORMAT};
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};

/// The published config with its bytes made once. The private setup is not reachable from here.
#[derive(Debug)]
pub(super) struct Published {
    pub(super) config: Config,
    json: Vec<u8>,
    tag: HeaderValue,
    /// For forms that were copied before some of its fields existed.
    format_1: Vec<u8>,
    format_1_tag: HeaderValue,
}

impl Published {
    pub(super) fn new(config: Config) -> Self {
        let json = serde_json::to_vec(&config).expect("a config holds only numbers, text and lists");
        let format_1 = config.in_format_1().to_string().into_bytes();
        // The version of a config that was not published by us may hold anything: such a one gets no tag of its own.
        let tag = |format: &str| {
            HeaderValue::from_str(&format!("\"{}{format}\"", config.version.escape_default()))
                .unwrap_or(HeaderValue::from_static("\"config\""))
        };
        let (tag, format_1_tag) = (tag(""), tag("-1"));
        Self { config, json, tag, format_1, format_1_tag }
    }
}

pub(super) async fn get(State(service): State<Service>, headers: HeaderMap) -> Response {
    let published = &service.config;
    let reads = headers.get(header::ACCEPT).and_then(|kinds| kinds.to_str().ok()).unwrap_or_default();
    let (json, tag) = if reads.split(',').any(|kind| kind.trim() == FORMAT) {
        (&published.json, &published.tag)
    } else {
        (&published.format_1, &published.format_1_tag)
    };
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
