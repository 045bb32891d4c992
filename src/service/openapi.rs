//! `GET /api/openapi.json`: the API in the terms of OpenAPI 3.1, made of the routes themselves.
//!
//! A route is declared once (`service::app`), with its handler's `#[utoipa::path]`. What whole groups of routes share (a session, the header
//! of our own page, rate limits) is added where the group is put together. Bodies are the types that are read and written: their JSON Schemas
//! are those that `presurvey schema` prints, and of the same maker.

use super::additions::{Additions, Opened};
use super::corrections::{Correction, Handled};
use super::deletion::Erased;
use super::detail::Detail;
use super::error::Told;
use super::health::{Alive, Ready};
use super::jobs::{Job, Jobs};
use super::links::{Link, Wanted};
use super::list::List;
use super::outbox::Unsent;
use super::sessions::{self, SignIn, SignedIn};
use super::store::Receipt;
use axum::Extension;
use axum::body::Bytes;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use model::config::Config;
use record::enquiry::Enquiry;
use schemars::SchemaGenerator;
use serde_json::{Map, Value, json};
use std::sync::OnceLock;
use utoipa::openapi::path::{Operation, PathItem};
use utoipa::openapi::{ContentBuilder, OpenApi, Ref, ResponseBuilder};
use utoipa_axum::router::OpenApiRouter;

/// Where `schemars` puts the parts of a schema, and where OpenAPI has them.
const PARTS: [&str; 2] = ["#/$defs/", "#/components/schemas/"];

/// The media types of a refusal: JSON for a script, and a page for a browser that posted a form.
const JSON: [&str; 1] = ["application/json"];
const JSON_OR_PAGE: [&str; 2] = ["application/json", "text/html"];

/// The security schemes by the names that the handlers' attributes have for them.
const SESSION: &str = "session";
const SECRET: &str = "secret";
const OUR_PAGE: &str = "our_page";

/// What routes may refuse, as far as a group of them has it in common.
#[derive(Clone, Copy)]
pub(super) enum Refuses {
    /// Too much from one address, or more than there is room for.
    TooMuch,
    /// Without a session.
    NotSignedIn,
    /// A change without the header that only our own page sends.
    NotFromOurPage,
    /// A fault of the service's own.
    Ours,
}

impl Refuses {
    fn statuses(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Self::TooMuch => &[
                ("429", "Too many from this address; `Retry-After` says how long to wait."),
                ("503", "There is no room for it just now; `Retry-After` says how long to wait."),
            ],
            Self::NotSignedIn => &[("401", "Nobody is signed in.")],
            Self::NotFromOurPage => &[("403", "The header `X-Presurvey: 1` is missing.")],
            Self::Ours => &[("500", "Something is wrong at the service's end; nothing was changed.")],
        }
    }

    /// Whether a request of this kind can be refused so.
    fn concerns(self, change: bool, body: bool) -> bool {
        match self {
            Self::TooMuch => body,
            Self::NotFromOurPage => change,
            Self::NotSignedIn | Self::Ours => true,
        }
    }

    fn scheme(self) -> Option<&'static str> {
        match self {
            Self::NotSignedIn => Some(SESSION),
            Self::NotFromOurPage => Some(OUR_PAGE),
            Self::TooMuch | Self::Ours => None,
        }
    }
}

/// Adds to every route of a router so far that it may be refused so, and what it takes not to be.
pub(super) fn refusing<S>(mut router: OpenApiRouter<S>, refuses: Refuses) -> OpenApiRouter<S>
where
    S: Clone + Send + Sync + 'static,
{
    for item in router.get_openapi_mut().paths.paths.values_mut() {
        for (change, operation) in operations(item) {
            if !refuses.concerns(change, operation.request_body.is_some()) {
                continue;
            }
            let page = answers_with_a_page(operation);
            for (status, description) in refuses.statuses() {
                operation.responses.responses.entry((*status).to_owned()).or_insert_with(|| refusal(description, page));
            }
            if let Some(scheme) = refuses.scheme() {
                require(operation, scheme);
            }
        }
    }
    router
}

/// Each operation of a path, and whether it changes anything.
fn operations(item: &mut PathItem) -> impl Iterator<Item = (bool, &mut Operation)> {
    let PathItem { get, put, post, delete, .. } = item;
    let all = [(false, get), (true, put), (true, post), (true, delete)];
    all.into_iter().filter_map(|(change, operation)| operation.as_mut().map(|operation| (change, operation)))
}

fn answers_with_a_page(operation: &Operation) -> bool {
    let all = operation.responses.responses.values();
    all.filter_map(|response| match response {
        utoipa::openapi::RefOr::T(response) => Some(response),
        utoipa::openapi::RefOr::Ref(_) => None,
    })
    .any(|response| response.content.contains_key("text/html"))
}

fn refusal(description: &str, page: bool) -> utoipa::openapi::RefOr<utoipa::openapi::Response> {
    let kinds: &[&str] = if page { &JSON_OR_PAGE } else { &JSON };
    let mut response = ResponseBuilder::new().description(description);
    for kind in kinds {
        let content = ContentBuilder::new();
        let content = if *kind == JSON[0] { content.schema(Some(Ref::from_schema_name("Told"))) } else { content };
        response = response.content(*kind, content.build());
    }
    response.build().into()
}

/// Adds a scheme to those that an operation needs all of.
fn require(operation: &mut Operation, scheme: &str) {
    let needed = operation.security.take().unwrap_or_default();
    let mut together: Map<String, Value> = needed
        .iter()
        .filter_map(|one| serde_json::to_value(one).ok())
        .filter_map(|one| one.as_object().cloned())
        .flatten()
        .collect();
    together.insert(scheme.to_owned(), json!([]));
    operation.security = serde_json::from_value(json!([together])).ok();
}

/// The schemas of all bodies, by name.
fn schemas() -> Value {
    let mut generator = SchemaGenerator::default();
    generator.subschema_for::<Enquiry>();
    generator.subschema_for::<Config>();
    generator.subschema_for::<Additions>();
    generator.subschema_for::<Opened>();
    generator.subschema_for::<Correction>();
    generator.subschema_for::<Handled>();
    generator.subschema_for::<Erased>();
    generator.subschema_for::<Detail>();
    generator.subschema_for::<Told>();
    generator.subschema_for::<Alive>();
    generator.subschema_for::<Ready>();
    generator.subschema_for::<Link>();
    generator.subschema_for::<Wanted>();
    generator.subschema_for::<List>();
    generator.subschema_for::<Unsent>();
    generator.subschema_for::<SignIn>();
    generator.subschema_for::<SignedIn>();
    generator.subschema_for::<Receipt>();
    generator.subschema_for::<Job>();
    generator.subschema_for::<Jobs>();
    let parts = Value::Object(generator.take_definitions(true));
    let placed = parts.to_string().replace(PARTS[0], PARTS[1]);
    serde_json::from_str(&placed).expect("a place in the document is as good a text as another")
}

fn security_schemes() -> Value {
    json!({
        SESSION: {
            "type": "apiKey", "in": "cookie", "name": sessions::cookie_name(),
            "description": "Set by `POST /api/session`. Where nothing is encrypted, as in the demo, its name lacks `__Host-`.",
        },
        OUR_PAGE: {
            "type": "apiKey", "in": "header", "name": "X-Presurvey",
            "description": "`1`: a header that no page of another site may send.",
        },
        SECRET: {
            "type": "http", "scheme": "bearer",
            "description": "A secret of one enquiry: the one that deletes it, the one that adds photos, or a link's token.",
        },
    })
}

/// The document of these routes.
pub(super) fn document(routes: &OpenApi) -> Value {
    let mut document = serde_json::to_value(routes).expect("the document holds text alone");
    let operations = document["paths"].as_object_mut().into_iter().flat_map(Map::values_mut);
    for operation in operations.filter_map(Value::as_object_mut).flat_map(Map::values_mut) {
        if let Some(body) = operation.get_mut("requestBody").and_then(Value::as_object_mut) {
            body.insert("required".to_owned(), true.into()); // no route does anything with an empty one
        }
    }
    document["info"] = json!({
        "title": "presurvey",
        "description": "Receives enquiries, and hands them to the installer who signs in.",
        "version": env!("CARGO_PKG_VERSION"),
        "license": { "name": "MIT", "identifier": "MIT" },
    });
    document["components"] = json!({ "schemas": schemas(), "securitySchemes": security_schemes() });
    document
}

/// The document as it is sent.
#[derive(Clone)]
pub(super) struct Written(Bytes);

impl Written {
    /// Writes the document of these routes. They are the same whenever a router is made, so the first stands.
    pub(super) fn of(routes: &OpenApi) -> Self {
        static WRITTEN: OnceLock<Bytes> = OnceLock::new();
        Self(WRITTEN.get_or_init(|| document(routes).to_string().into()).clone())
    }
}

/// Answers a GET of the document.
#[utoipa::path(
    get,
    path = "/api/openapi.json",
    operation_id = "read_openapi",
    description = "This document.",
    responses((status = 200, description = "OpenAPI 3.1.", content_type = "application/json", body = inline(Object)))
)]
pub(super) async fn get(Extension(Written(document)): Extension<Written>) -> Response {
    ([(header::CONTENT_TYPE, "application/json")], document).into_response()
}
