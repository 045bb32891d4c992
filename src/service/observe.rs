//! What is noted of every request: a line in the log and the counts. Both name the route's pattern and never the address, which may hold
//! an enquiry's key; the request's id stands on every line of it and in the answer's header `x-request-id`.

use super::error::Kind;
use super::installers::Asked;
use super::metrics::Metrics;
use axum::Router;
use axum::extract::{MatchedPath, Request, State};
use axum::http::{Extensions, Method};
use axum::middleware::{self, Next};
use axum::response::Response;
use std::sync::Arc;
use std::time::{Duration, Instant};
use tower_http::request_id::{MakeRequestUuid, PropagateRequestIdLayer, RequestId, SetRequestIdLayer};
use tower_http::trace::TraceLayer;
use tracing::Span;

/// The header that the id is in.
const ID: &str = "x-request-id";
/// What is asked of again and again, and has nothing to tell while it goes well.
const WATCHED: [&str; 2] = ["/live", "/ready"];

/// This router with every request noted. It goes around all other layers, so that what they answer is noted too.
pub(super) fn observed(router: Router, metrics: Arc<Metrics>) -> Router {
    router
        .layer(middleware::from_fn_with_state(metrics, noted))
        .layer(PropagateRequestIdLayer::x_request_id())
        .layer(
            TraceLayer::new_for_http()
                .make_span_with(span)
                .on_request(())
                .on_response(answered)
                .on_body_chunk(())
                .on_eos(())
                .on_failure(()),
        )
        .layer(SetRequestIdLayer::x_request_id(MakeRequestUuid))
        .layer(middleware::map_request(without_id))
}

/// An id that a stranger chose would stand in the log, whatever it is: each request is given one here.
async fn without_id(mut request: Request) -> Request {
    request.headers_mut().remove(ID);
    request
}

/// The span of a request; at the level of errors, so that it is there whenever anything of it is logged.
fn span(request: &Request) -> Span {
    let id = request.extensions().get::<RequestId>().and_then(|id| id.header_value().to_str().ok()).unwrap_or("-");
    let (method, route) = (method(request.method()), Route::of(request.extensions()));
    let span = tracing::error_span!("request", id, method, route = route.0.as_str(), installer = tracing::field::Empty);
    if let Some(Asked(installer)) = request.extensions().get() {
        span.record("installer", &**installer);
    }
    span
}

fn answered(response: &Response, took: Duration, _: &Span) {
    let (status, ms) = (response.status().as_u16(), u64::try_from(took.as_millis()).unwrap_or(u64::MAX));
    let refusal = response.extensions().get::<Kind>().map(|Kind(kind)| *kind);
    let route = response.extensions().get::<Route>();
    if route.is_some_and(|Route(route)| WATCHED.contains(&route.as_str())) {
        tracing::debug!(status, ms, refusal, "answered");
    } else {
        tracing::info!(status, ms, refusal, "answered");
    }
}

/// The pattern of a request's route.
#[derive(Clone, Debug)]
struct Route(String);

impl Route {
    fn of(extensions: &Extensions) -> Self {
        // Files of the pages have none: what is asked for there may be anything.
        Self(extensions.get::<MatchedPath>().map_or("(file)", MatchedPath::as_str).to_owned())
    }
}

/// A method by its name; a stranger may make up others.
fn method(method: &Method) -> &'static str {
    match *method {
        Method::GET => "GET",
        Method::HEAD => "HEAD",
        Method::POST => "POST",
        Method::PUT => "PUT",
        Method::DELETE => "DELETE",
        Method::OPTIONS => "OPTIONS",
        Method::PATCH => "PATCH",
        _ => "other",
    }
}

/// Counts a request, and leaves the route in its answer.
async fn noted(State(metrics): State<Arc<Metrics>>, request: Request, next: Next) -> Response {
    let (method, route) = (method(request.method()), Route::of(request.extensions()));
    let mut waiting = Waiting { metrics, method, route, since: Instant::now(), span: Some(Span::current()) };
    let mut response = next.run(request).await;
    waiting.span = None;
    let Waiting { metrics, route, since, .. } = &waiting;
    metrics.count(method, &route.0, Some(response.status()), since.elapsed().as_secs_f64());
    if let Some(Kind(kind)) = response.extensions().get::<Kind>() {
        metrics.count_refusal(kind);
    }
    response.extensions_mut().insert(route.clone());
    response
}

/// A request that is being answered. Dropped before it is, its sender hung up or it was cut off.
struct Waiting {
    metrics: Arc<Metrics>,
    method: &'static str,
    route: Route,
    since: Instant,
    /// Until it is answered.
    span: Option<Span>,
}

impl Drop for Waiting {
    fn drop(&mut self) {
        if let Some(span) = &self.span {
            let _entered = span.enter();
            let took = self.since.elapsed();
            tracing::info!(ms = u64::try_from(took.as_millis()).unwrap_or(u64::MAX), "ended before it was answered");
            self.metrics.count(self.method, &self.route.0, None, took.as_secs_f64());
        }
    }
}
