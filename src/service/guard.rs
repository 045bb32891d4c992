//! What a request passes before its handler: the session, and the header that only our own page sends.

use super::error::Refusal;
use super::{Service, sessions};
use axum::extract::{Request, State};
use axum::http::{HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// The header that only a script of our own page can send with a request that changes something.
const OURS: &str = "x-presurvey";

/// Lets only a signed-in installer through.
pub(super) async fn signed_in(State(service): State<Service>, request: Request, next: Next) -> Response {
    match sessions::holds(&service, request.headers()).await {
        Ok(true) => {
            let mut response = next.run(request).await;
            response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static("private, no-store"));
            response
        }
        Ok(false) => Refusal::NotSignedIn.into_response(),
        Err(refusal) => refusal.into_response(),
    }
}

/// Refuses a change that a foreign page asks for. Beside the cookie's `SameSite=Strict` this needs a header that a foreign page may not
/// send without a CORS permission, which these routes never give.
pub(super) async fn only_from_our_page(request: Request, next: Next) -> Response {
    let reads = matches!(*request.method(), Method::GET | Method::HEAD);
    let ours = request.headers().get(OURS).is_some_and(|value| value == "1");
    if reads || ours { next.run(request).await } else { Refusal::NotFromOurPage.into_response() }
}

/// The answer to a path of the API that does not exist.
pub(super) async fn nothing_here() -> Refusal {
    Refusal::NotFound
}
