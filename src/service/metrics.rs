//! What is counted, for Prometheus (`serve --metrics ADDRESS`): on an address of its own, never on the one that visitors reach. No label
//! holds what a visitor wrote.

use axum::Router;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use prometheus_client::encoding::{EncodeLabel, EncodeLabelSet, LabelSetEncoder};
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::histogram::Histogram;
use prometheus_client::metrics::info::Info;
use prometheus_client::registry::Registry;
use std::sync::Arc;

/// The upper ends of the classes of durations in seconds, from what a file takes to what thirty megabytes over a slow line do. This
/// program's choice.
const SECONDS: [f64; 13] = [0.001, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 5.0, 30.0, 120.0, 600.0];

/// Whose count it is: the installer's id, where the process serves several.
#[derive(Clone, Debug, Default, Hash, PartialEq, Eq)]
struct Whose(Option<Arc<str>>);

impl EncodeLabelSet for Whose {
    fn encode(&self, encoder: &mut LabelSetEncoder) -> Result<(), std::fmt::Error> {
        self.0.as_ref().map_or(Ok(()), |id| ("installer", &**id).encode(encoder.encode_label()))
    }
}

/// A request by method and route.
#[derive(Clone, Debug, Hash, PartialEq, Eq, EncodeLabelSet)]
struct Asked {
    #[prometheus(flatten)]
    whose: Whose,
    method: &'static str,
    route: String,
}

/// The same with the status of its answer.
#[derive(Clone, Debug, Hash, PartialEq, Eq, EncodeLabelSet)]
struct Answered {
    #[prometheus(flatten)]
    whose: Whose,
    method: &'static str,
    route: String,
    status: String,
}

/// A refusal by its kind.
#[derive(Clone, Debug, Hash, PartialEq, Eq, EncodeLabelSet)]
struct Refused {
    #[prometheus(flatten)]
    whose: Whose,
    kind: &'static str,
}

/// All counts of the process.
#[derive(Debug)]
struct Counts {
    registry: Registry,
    answered: Family<Answered, Counter>,
    took: Family<Asked, Histogram, fn() -> Histogram>,
    refused: Family<Refused, Counter>,
    enquiries: Family<Whose, Counter>,
    photos: Family<Whose, Counter>,
    waited: Family<Whose, Histogram, fn() -> Histogram>,
}

/// The counts of one installer.
#[derive(Debug)]
pub(super) struct Metrics {
    counts: Arc<Counts>,
    whose: Whose,
    /// Enquiries that were received, each once.
    pub(super) enquiries: Counter,
    /// Photos that were kept, each once.
    pub(super) photos: Counter,
    /// How long writing waited for the one connection that writes.
    pub(super) waited: Histogram,
}

/// An empty histogram of durations in seconds, with [`SECONDS`] as its buckets.
pub(super) fn durations() -> Histogram {
    Histogram::new(SECONDS)
}

impl Metrics {
    /// Nothing counted yet. With `installer`, an id, every count is labelled with it.
    pub(super) fn new(installer: Option<&str>) -> Self {
        let mut registry = Registry::with_prefix("presurvey");
        let answered = Family::<Answered, Counter>::default();
        let took = Family::<Asked, Histogram, fn() -> Histogram>::new_with_constructor(durations);
        let refused = Family::<Refused, Counter>::default();
        let (enquiries, photos) = (Family::<Whose, Counter>::default(), Family::<Whose, Counter>::default());
        let waited = Family::<Whose, Histogram, fn() -> Histogram>::new_with_constructor(durations);
        registry.register(
            "requests",
            "Requests by method, route and status; without a status the sender hung up",
            answered.clone(),
        );
        let about = "How long requests took until their answer began";
        registry.register("request_duration_seconds", about, took.clone());
        registry.register("refusals", "Refusals by kind", refused.clone());
        registry.register("enquiries_received", "Enquiries received, each once", enquiries.clone());
        registry.register("photos_kept", "Photos kept, each once", photos.clone());
        let about = "How long writing waited for the one connection that writes";
        registry.register("database_writer_wait_seconds", about, waited.clone());
        registry.register("build", "The version that runs", Info::new([("version", env!("CARGO_PKG_VERSION"))]));
        Self::of(Arc::new(Counts { registry, answered, took, refused, enquiries, photos, waited }), installer)
    }

    /// The counts of another installer in the same process, told together with these.
    pub(super) fn beside(&self, installer: &str) -> Self {
        Self::of(Arc::clone(&self.counts), Some(installer))
    }

    fn of(counts: Arc<Counts>, installer: Option<&str>) -> Self {
        let whose = Whose(installer.map(Into::into));
        let enquiries = counts.enquiries.get_or_create_owned(&whose);
        let photos = counts.photos.get_or_create_owned(&whose);
        let waited = counts.waited.get_or_create_owned(&whose);
        Self { counts, whose, enquiries, photos, waited }
    }

    /// Counts a request that was answered after so many seconds, or, without a status, one whose sender hung up before.
    pub(super) fn count(&self, method: &'static str, route: &str, status: Option<StatusCode>, seconds: f64) {
        let (route, whose) = (route.to_owned(), self.whose.clone());
        let status = status.map(|status| status.as_u16().to_string()).unwrap_or_default();
        let answered = Answered { whose: whose.clone(), method, route: route.clone(), status };
        self.counts.answered.get_or_create(&answered).inc();
        self.counts.took.get_or_create(&Asked { whose, method, route }).observe(seconds);
    }

    /// Counts one request that was refused, by the kind of its refusal (the variant of `Refusal`).
    pub(super) fn count_refusal(&self, kind: &'static str) {
        self.counts.refused.get_or_create(&Refused { whose: self.whose.clone(), kind }).inc();
    }
}

/// The router of the address of its own.
pub(super) fn routes(metrics: Arc<Metrics>) -> Router {
    Router::new().route("/metrics", get(told)).with_state(metrics)
}

async fn told(State(metrics): State<Arc<Metrics>>) -> Response {
    let mut text = String::new();
    match prometheus_client::encoding::text::encode(&mut text, &metrics.counts.registry) {
        Ok(()) => {
            let kind = "application/openmetrics-text; version=1.0.0; charset=utf-8";
            ([(header::CONTENT_TYPE, kind)], text).into_response()
        }
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}
