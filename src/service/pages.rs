//! Serves the form and the installer's page from their folders, precompressed where the browser accepts that, under strict headers.

use super::{Service, headers, own_pages};
use axum::Router;
use axum::middleware;
use axum::response::Redirect;
use axum::routing::get;
use std::path::Path;
use tower_http::compression::CompressionLayer;
use tower_http::cors::CorsLayer;
use tower_http::services::ServeDir;

/// The homeowner's page at `/` and the installer's at `/installer/`; no routes if there is no folder.
pub(super) fn routes(service: &Service, any_origin: CorsLayer) -> Router<Service> {
    let Some(folder) = &service.pages else { return Router::new() };
    let installer = Router::new()
        .route("/installer", get(|| async { Redirect::permanent("/installer/") }))
        .nest_service("/installer/", files(&folder.join("triage")))
        .layer(middleware::from_fn(headers::installer_headers));
    let mut form = Router::new().fallback_service(files(&folder.join("form")));
    if !service.demo {
        // What is made of a page has no packed file beside it.
        form =
            form.layer(middleware::from_fn_with_state(service.clone(), own_pages::made)).layer(CompressionLayer::new());
    }
    // The form's files may be loaded by the installer's own website, from another origin.
    let form = form.layer(middleware::from_fn(headers::form_headers)).layer(any_origin);
    installer.merge(form)
}

fn files(folder: &Path) -> ServeDir {
    ServeDir::new(folder).precompressed_br().precompressed_gzip()
}
