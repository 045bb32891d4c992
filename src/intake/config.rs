//! `GET /api/config`: what the installer published, and nothing else of theirs.

use super::Service;
use crate::config::Config;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};

/// The published config with its bytes made once. The private setup is not reachable from here.
#[derive(Debug)]
pub(super) struct Published {
    pub(super) config: Config,
    json: Vec<u8>,
    tag: HeaderValue,
}

impl Published {
    pub(super) fn new(config: Config) -> Self {
        let json = serde_json::to_vec(&config).expect("a config holds only numbers, text and lists");
        // The version of a config that was not published by us may hold anything: such a one gets no tag of its own.
        let tag = HeaderValue::from_str(&format!("\"{}\"", config.version.escape_default()))
            .unwrap_or(HeaderValue::from_static("\"config\""));
        Self { config, json, tag }
    }
}

pub(super) async fn get(State(service): State<Service>, headers: HeaderMap) -> Response {
    let published = &service.config;
    let fresh = [
        (header::ETAG, published.tag.clone()),
        (header::CACHE_CONTROL, HeaderValue::from_static("public, max-age=60")),
    ];
    let known = headers.get(header::IF_NONE_MATCH).and_then(|tags| tags.to_str().ok());
    let tag = published.tag.to_str().unwrap_or_default();
    if known.is_some_and(|tags| tags.split(',').any(|one| one.trim().trim_start_matches("W/") == tag)) {
        return (StatusCode::NOT_MODIFIED, fresh).into_response();
    }
    let json = [(header::CONTENT_TYPE, HeaderValue::from_static("application/json"))];
    (fresh, json, published.json.clone()).into_response()
}
