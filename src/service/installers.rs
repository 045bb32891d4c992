//! Several installers in one process: where each one's data lies, at which addresses each is, and that none has what is another's.
//!
//! Each is a [`Service`] of its own: a database file, a photo folder, accounts and sessions of its own. No query can reach another's rows,
//! because they are in another file. The first is in the data folder itself and at the addresses that there are with one installer; each
//! further one is in `installers/ID` of it and under `/ID/`.

use super::backup::DATABASE;
use axum::Router;
use axum::extract::{Request, State};
use axum::http::uri::PathAndQuery;
use axum::http::{HeaderValue, StatusCode, Uri, header};
use axum::response::{IntoResponse, Redirect, Response};
use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tower::ServiceExt;

/// The folder of the further installers' data folders.
pub(super) const FURTHER: &str = "installers";
/// What stands first in addresses of the first installer, beside the files of the pages.
const TAKEN: [&str; 4] = ["api", "installer", "live", "ready"];
/// Where all installers together say whether they are ready.
const READY: &str = "/ready";

/// Why installers can't be served together.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WrongInstaller {
    /// The id is none.
    #[error("{0:?} is no installer's id: that is 1 to 40 small letters, digits and hyphens")]
    NoId(String),
    /// The id is the first part of an address that there is already.
    #[error(
        "a further installer can't have the id {0:?}: /{0} is an address of the first one already; choose another `installer.id`"
    )]
    Taken(String),
    /// Two have the same id.
    #[error("two setups have the `installer.id` {0:?}; each installer needs one of its own")]
    Twice(String),
    /// The first one's setup is a further one's.
    #[error("the first setup is that of {id:?}, whose data is in {}; name the setup of the installer at `/` first", folder.display())]
    IsFurther {
        /// Whose setup.
        id: String,
        /// Where that one's data is.
        folder: PathBuf,
    },
    /// A further one's setup is the first one's.
    #[error("the setup of {0:?} is not the first one named, but {0:?} is the installer at `/`; name its setup first")]
    IsFirst(String),
}

/// The data folder of an installer: of the first, or of the further one with this id.
///
/// # Errors
/// [`WrongInstaller::NoId`], so that no path leads out of the folder.
pub fn installer_folder(data: &Path, further: Option<&str>) -> Result<PathBuf, WrongInstaller> {
    match further {
        None => Ok(data.to_owned()),
        Some(id) if model::config::is_installer_id(id) => Ok(data.join(FURTHER).join(id)),
        Some(id) => Err(WrongInstaller::NoId(id.chars().take(60).collect())),
    }
}

/// The ids of the further installers that a data folder has anything of, in the order of the alphabet.
///
/// # Errors
/// The system's.
pub fn further_installers(data: &Path) -> io::Result<Vec<String>> {
    let folders = match std::fs::read_dir(data.join(FURTHER)) {
        Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        read => read?,
    };
    let mut ids = Vec::new();
    for folder in folders {
        let folder = folder?;
        let id = folder.file_name().into_string().unwrap_or_default();
        if model::config::is_installer_id(&id) && folder.path().join(DATABASE).is_file() {
            ids.push(id);
        }
    }
    ids.sort();
    Ok(ids)
}

/// Checks that installers can be served together: the first one's id, the id by which it ran before, and those of the further ones. `pages`
/// is the folder of the built pages.
///
/// # Errors
/// [`WrongInstaller`].
pub fn check_installers(
    data: &Path,
    pages: Option<&Path>,
    first: &str,
    before: Option<&str>,
    further: &[String],
) -> Result<(), WrongInstaller> {
    let mut seen = vec![first];
    for id in further {
        let folder = installer_folder(data, Some(id))?;
        let file_of_a_page = pages.is_some_and(|pages| pages.join("form").join(id).exists());
        if TAKEN.contains(&id.as_str()) || file_of_a_page {
            return Err(WrongInstaller::Taken(id.clone()));
        }
        if seen.contains(&id.as_str()) {
            return Err(if id == first && folder.join(DATABASE).is_file() {
                WrongInstaller::IsFurther { id: id.clone(), folder }
            } else {
                WrongInstaller::Twice(id.clone())
            });
        }
        if before == Some(id) {
            return Err(WrongInstaller::IsFirst(id.clone()));
        }
        seen.push(id);
    }
    Ok(())
}

/// Whose request it is, where there are several installers; lies in the request as an extension.
#[derive(Clone, Debug)]
pub(super) struct Asked(pub(super) Arc<str>);

/// The routers of several installers.
#[derive(Debug)]
struct Together {
    first: (Arc<str>, Router),
    further: BTreeMap<Arc<str>, Router>,
    ready: Router,
}

/// One router for all: `/ID/…` is answered by that one's router as `/…`, `ready` answers for all of them, and all else is the first one's.
pub(super) fn together(first: (Arc<str>, Router), further: BTreeMap<Arc<str>, Router>, ready: Router) -> Router {
    Router::new().fallback(answer).with_state(Arc::new(Together { first, further, ready }))
}

async fn answer(State(all): State<Arc<Together>>, mut request: Request) -> Response {
    let path = request.uri().path();
    let (name, rest) = path
        .strip_prefix('/')
        .map_or(("", None), |path| path.split_once('/').map_or((path, None), |(name, rest)| (name, Some(rest))));
    let query = request.uri().query().map(|query| format!("?{query}")).unwrap_or_default();
    match (all.further.get_key_value(name), rest) {
        (Some((id, _)), None) => Redirect::permanent(&format!("/{id}/{query}")).into_response(),
        (Some((id, router)), Some(rest)) => {
            let Some(uri) = with_path(request.uri(), &format!("/{rest}{query}")) else {
                return StatusCode::BAD_REQUEST.into_response();
            };
            *request.uri_mut() = uri;
            request.extensions_mut().insert(Asked(Arc::clone(id)));
            let mut response = asked(router, request).await;
            // An address that its router names is its own.
            let within = response.headers().get(header::LOCATION).and_then(|place| place.to_str().ok());
            let place = within.filter(|place| place.starts_with('/')).map(|place| format!("/{id}{place}"));
            if let Some(place) = place.and_then(|place| HeaderValue::from_str(&place).ok()) {
                response.headers_mut().insert(header::LOCATION, place);
            }
            response
        }
        (None, _) => {
            let (id, router) = &all.first;
            let router = if path == READY { &all.ready } else { router };
            request.extensions_mut().insert(Asked(Arc::clone(id)));
            asked(router, request).await
        }
    }
}

async fn asked(router: &Router, request: Request) -> Response {
    match router.clone().oneshot(request).await {
        Ok(response) => response,
        Err(never) => match never {},
    }
}

/// This address with another path and query.
fn with_path(uri: &Uri, path: &str) -> Option<Uri> {
    let mut parts = uri.clone().into_parts();
    parts.path_and_query = Some(PathAndQuery::try_from(path).ok()?);
    Uri::from_parts(parts).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::body::{Body, to_bytes};

    fn telling(whose: &'static str) -> Router {
        let told = move |uri: Uri| async move { format!("{whose} {uri}") };
        Router::new()
            .route("/installer", axum::routing::get(|| async { Redirect::permanent("/installer/") }))
            .fallback(told)
    }

    async fn told(path: &str) -> String {
        let further = BTreeMap::from([("acme".into(), telling("acme")), ("b-2".into(), telling("b-2"))]);
        let all = together(("one".into(), telling("one")), further, telling("all"));
        let response = all.oneshot(Request::get(path).body(Body::empty()).unwrap()).await.unwrap();
        if let Some(place) = response.headers().get(header::LOCATION) {
            return format!("to {}", place.to_str().unwrap());
        }
        String::from_utf8(to_bytes(response.into_body(), 1000).await.unwrap().to_vec()).unwrap()
    }

    #[tokio::test]
    async fn a_path_leads_to_the_installer_that_it_begins_with_and_else_to_the_first() {
        for (path, expected) in [
            ("/", "one /"),
            ("/api/config?a=b", "one /api/config?a=b"),
            ("/acme", "to /acme/"),
            ("/acme?language=pl", "to /acme/?language=pl"),
            ("/acme/", "acme /"),
            ("/acme/?a=b", "acme /?a=b"),
            ("/acme/api/config?a=b", "acme /api/config?a=b"),
            ("/b-2/api/config", "b-2 /api/config"),
            ("/acme/b-2/api", "acme /b-2/api"),
            ("/acmes/api", "one /acmes/api"),
            ("/Acme/api", "one /Acme/api"),
            ("/%61cme/api", "one /%61cme/api"),
            ("//acme/api", "one //acme/api"),
            ("/acme//api", "acme //api"),
            ("/acme/../b-2/api", "acme /../b-2/api"),
            ("/ready", "all /ready"),
            ("/acme/ready", "acme /ready"),
            ("/installer", "to /installer/"),
            ("/acme/installer", "to /acme/installer/"),
        ] {
            assert_eq!(told(path).await, expected, "{path}");
        }
    }

    #[test]
    fn an_id_is_a_folder_name_and_nothing_else() {
        let data = Path::new("data");
        assert_eq!(installer_folder(data, None).unwrap(), data);
        assert_eq!(installer_folder(data, Some("acme-2")).unwrap(), Path::new("data/installers/acme-2"));
        for wrong in ["", ".", "..", "../a", "a/b", "a\\b", "A", "a b", "ä", "a.b", "/", &"a".repeat(41)] {
            assert!(installer_folder(data, Some(wrong)).is_err(), "{wrong:?}");
        }
    }

    #[test]
    fn installers_that_would_be_taken_for_one_another_are_refused() {
        let place = tempfile::tempdir().unwrap();
        let (data, pages) = (place.path().join("data"), place.path().join("pages"));
        std::fs::create_dir_all(pages.join("form/snippets")).unwrap();
        std::fs::create_dir_all(data.join("installers/second")).unwrap();
        std::fs::write(data.join("installers/second").join(DATABASE), "").unwrap();
        std::fs::create_dir_all(data.join("installers/empty")).unwrap();
        assert_eq!(further_installers(&data).unwrap(), ["second"]);
        let check = |first: &str, before: Option<&str>, further: &[&str]| {
            let further: Vec<_> = further.iter().map(|id| (*id).to_owned()).collect();
            check_installers(&data, Some(&pages), first, before, &further).map_err(|why| why.to_string())
        };
        assert_eq!(check("first", None, &["second", "third"]), Ok(()));
        assert_eq!(check("renamed", Some("first"), &["second"]), Ok(()), "as it always could at a start");
        for (first, before, further, part) in [
            ("first", None, "api", "address"),
            ("first", None, "installer", "address"),
            ("first", None, "live", "address"),
            ("first", None, "ready", "address"),
            ("first", None, "snippets", "address"),
            ("first", None, "first", "two setups"),
            ("second", Some("first"), "second", "name the setup of the installer at `/` first"),
            ("third", Some("first"), "first", "not the first one named"),
            ("first", None, "../first", "no installer's id"),
        ] {
            let words = check(first, before, &[further]).unwrap_err();
            assert!(words.contains(part), "{words}");
        }
    }
}
