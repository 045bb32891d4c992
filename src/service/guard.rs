//! What a request passes before its handler: the session, and the header that only our own page sends.

use super::accounts::Role;
use super::error::Refusal;
use super::sessions::SignedIn;
use super::{Service, sessions};
use axum::extract::{Request, State};
use axum::http::{HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// The header that only a script of our own page can send with a request that changes something.
const OURS: &str = "x-presurvey";

/// Lets through only who is signed in; who that is lies in the request as an extension.
pub(super) async fn signed_in(State(service): State<Service>, mut request: Request, next: Next) -> Response {
    match sessions::holder(&service, request.headers()).await {
        Ok(Some(holder)) => {
            request.extensions_mut().insert(holder);
            let mut response = next.run(request).await;
            response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static("private, no-store"));
            response
        }
        Ok(None) => Refusal::NotSignedIn.into_response(),
        Err(refusal) => refusal.into_response(),
    }
}

/// Lets only an owner through, behind [`signed_in`].
pub(super) async fn owner_alone(request: Request, next: Next) -> Response {
    match request.extensions().get::<SignedIn>() {
        Some(SignedIn { role: Role::Owner, .. }) => next.run(request).await,
        Some(_) => Refusal::OwnerAlone.into_response(),
        None => Refusal::NotSignedIn.into_response(),
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
