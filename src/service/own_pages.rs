//! The form's pages as an installer's own: made of the built pages, which all installers share, when they are asked for.
//!
//! The built pages have the addresses of the first installer and the name of the demo's in them, many times in the first screen, which is
//! there before any script. They are replaced in the text: the addresses, because drafts on a homeowner's device are kept under the address of
//! the config as it is written in the page, so it must differ from installer to installer and stay as it is for the first; the name and the
//! number, because the first screen must not be another's. What stands around the form (`header`) is left out. Pages into which the first
//! installer wrote a name of their own stay as they are for the first.

use super::Service;
use axum::body::{Body, to_bytes};
use axum::extract::{Request, State};
use axum::http::{HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use headers::{ETag, HeaderMapExt, IfNoneMatch};
use model::config::{Config, demo_config};
use record::markup::escaped;
use sha2::{Digest, Sha384};
use std::path::Path;

/// The most bytes that a page may have; the build's have a fortieth of it. This program's choice.
const MOST_BYTES: usize = 1024 * 1024;
/// The script that keeps the pages for when there is no network; it knows each by its hash.
const WORKER: &str = "/offline.js";

/// Makes this installer's own of the pages, and of the script that knows their hashes; every other file stays as it is.
pub(super) async fn made(State(service): State<Service>, mut request: Request, next: Next) -> Response {
    let path = request.uri().path();
    let (is_page, is_worker) = (path.ends_with('/') || path.ends_with(".html"), path == WORKER);
    let reads = matches!(*request.method(), Method::GET | Method::HEAD);
    let (Some(pages), true) = (&service.pages, reads && (is_page || is_worker)) else {
        return next.run(request).await;
    };
    // The whole file as it is, whatever the browser has: it changes with the setup too, and the file's tag and time do not.
    *request.method_mut() = Method::GET;
    let known: Option<IfNoneMatch> = request.headers().typed_get();
    for name in [
        header::ACCEPT_ENCODING,
        header::RANGE,
        header::IF_RANGE,
        header::IF_MATCH,
        header::IF_NONE_MATCH,
        header::IF_MODIFIED_SINCE,
        header::IF_UNMODIFIED_SINCE,
    ] {
        request.headers_mut().remove(name);
    }
    let response = next.run(request).await;
    if response.status() != StatusCode::OK {
        return response;
    }
    let (mut parts, body) = response.into_parts();
    let read = to_bytes(body, MOST_BYTES).await.ok().and_then(|bytes| String::from_utf8(bytes.to_vec()).ok());
    let Some(text) = read else {
        tracing::error!(
            file = if is_worker { WORKER } else { "a page" },
            "this is no text, or too large; it is not served"
        );
        return StatusCode::INTERNAL_SERVER_ERROR.into_response();
    };
    let text = if is_worker {
        known_by_own_hashes(text, &pages.join("form"), service.further.as_deref(), &service.config.config).await
    } else {
        own(&text, service.further.as_deref(), &service.config.config)
    };
    for name in [header::LAST_MODIFIED, header::ACCEPT_RANGES, header::ETAG] {
        parts.headers.remove(name);
    }
    // A weak one (RFC 9110, 8.8.1): packed or not, it is the same page.
    if let Ok(tag) = format!("W/\"{}\"", hash(&text)).parse::<ETag>() {
        let has_it = known.is_some_and(|known| !known.precondition_passes(&tag));
        parts.headers.typed_insert(tag);
        if has_it {
            parts.status = StatusCode::NOT_MODIFIED;
            parts.headers.remove(header::CONTENT_LENGTH);
            return Response::from_parts(parts, Body::empty());
        }
    }
    parts.headers.insert(header::CONTENT_LENGTH, HeaderValue::from(text.len()));
    Response::from_parts(parts, Body::from(text))
}

/// A page as an installer's: of the first, or of the further one with this id.
fn own(page: &str, further: Option<&str>, config: &Config) -> String {
    let demos = demo_config().installer.name;
    match further {
        Some(id) => named(&page.replace("\"/api/", &format!("\"/{id}/api/")), config),
        None if config.installer.name != demos && said(page, "installer") == Some(&*escaped(&demos)) => {
            named(page, config)
        }
        None => page.to_owned(),
    }
}

/// What a page's form says in an attribute.
fn said<'a>(page: &'a str, attribute: &str) -> Option<&'a str> {
    let (form, _) = page.split_once("<presurvey-form")?.1.split_once('>')?;
    let (_, value) = form.split_once(&format!(" {attribute}=\""))?;
    value.split_once('"').map(|(value, _)| value).filter(|value| !value.is_empty())
}

/// What stands in a page for this installer's name, number, and number as it is dialled, until all of the other's are gone: what was put in
/// must not be taken for the other's, as of "First" and "First of Leeds". No page has these control characters.
const MARKS: [&str; 3] = ["\u{1}", "\u{2}", "\u{3}"];

/// A page with an installer's name and number in place of those that are in it.
fn named(page: &str, config: &Config) -> String {
    let installer = &config.installer;
    let [own_name, own_number, own_dialled] = MARKS;
    let mut made = page.to_owned();
    made = without(made, "<meta name=\"description\"", ">", "");
    made = without(made, "<header>", "</header>", &format!("<header><h1>{own_name}</h1></header>"));
    if let Some(number) = said(page, "telephone") {
        // As the form writes them.
        let dialled = dialled(number);
        made =
            made.replace(&format!("\"tel:{dialled}\""), &format!("\"tel:{own_dialled}\"")).replace(number, own_number);
    }
    if let Some(other) = said(page, "installer") {
        made = made.replace(other, own_name);
    }
    let number = escaped(&installer.telephone);
    let put_in = [escaped(&installer.name), number.clone(), dialled(&number)];
    MARKS.iter().zip(put_in).fold(made, |made, (mark, put_in)| made.replace(mark, &put_in))
}

/// A number as a link that dials has it.
fn dialled(number: &str) -> String {
    number.replace(' ', "")
}

/// A text with the first passage from one mark to the next replaced, if both are there.
fn without(text: String, from: &str, to: &str, instead: &str) -> String {
    let Some((before, (_, after))) =
        text.split_once(from).and_then(|(before, rest)| Some((before, rest.split_once(to)?)))
    else {
        return text;
    };
    [before, instead, after].concat()
}

/// The worker's script with the hashes of this installer's pages in place of the shared ones'.
async fn known_by_own_hashes(mut script: String, form: &Path, further: Option<&str>, config: &Config) -> String {
    let Ok(mut files) = tokio::fs::read_dir(form).await else { return script };
    while let Ok(Some(file)) = files.next_entry().await {
        if file.path().extension().is_none_or(|extension| extension != "html") {
            continue;
        }
        let Ok(page) = tokio::fs::read_to_string(file.path()).await else { continue };
        script = script.replace(&hash(&page), &hash(&own(&page, further, config)));
    }
    script
}

/// A hash as the attribute `integrity` takes it.
fn hash(text: &str) -> String {
    ["sha384-", &STANDARD.encode(Sha384::digest(text.as_bytes()))].concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::config::demo_config;

    const PAGE: &str = r#"<title>First &amp; Co: a page</title><meta name="description" content="First's"><header><h1>First &amp; Co</h1>
<p>Words of the first.</p></header><presurvey-form config="/api/config" submit="/api/enquiries" installer="First &amp; Co"
 telephone="01632 960 000"><template><header class="head">First &amp; Co</header><a href="tel:01632960000">01632 960 000</a><a
 href="tel:999">999</a></template></presurvey-form>"#;

    #[test]
    fn a_page_has_nothing_of_the_first_installer_and_what_is_put_in_is_text() {
        let mut config = demo_config();
        config.installer.name = "<Acme> & \"Sons\"".into();
        config.installer.telephone = "01632 960 777".into();
        let page = PAGE.replace("\n telephone", " telephone");
        let made = own(&page, Some("acme"), &config);
        for gone in ["First", "960 000", "960000", "\"/api/", "description", "Words"] {
            assert!(!made.contains(gone), "{gone} in {made}");
        }
        let name = "&lt;Acme&gt; &amp; &quot;Sons&quot;";
        for there in [
            &format!("<title>{name}: a page</title>"),
            &format!("<header><h1>{name}</h1></header>"),
            &format!(
                r#"config="/acme/api/config" submit="/acme/api/enquiries" installer="{name}" telephone="01632 960 777""#
            ),
            &format!(r#"<header class="head">{name}</header><a href="tel:01632960777">01632 960 777</a>"#),
            "tel:999",
        ] {
            assert!(made.contains(there), "no {there} in {made}");
        }
    }

    #[test]
    fn a_name_and_a_number_that_begin_as_the_first_ones_are_put_in_as_they_are() {
        let mut config = demo_config();
        config.installer.name = "First & Co of Leeds".into();
        config.installer.telephone = "016329600007".into();
        let page = PAGE.replace("01632 960 000", "01632960000").replace("\n telephone", " telephone");
        let made = own(&page, Some("acme"), &config);
        assert_eq!(
            made.matches("First &amp; Co").count(),
            made.matches("First &amp; Co of Leeds<").count() + 2,
            "{made}"
        );
        assert!(!made.contains("of Leeds of Leeds") && made.contains("<h1>First &amp; Co of Leeds</h1>"), "{made}");
        assert!(made.contains(r#""tel:016329600007">016329600007</a>"#), "{made}");
    }

    #[test]
    fn a_page_without_a_name_has_its_addresses_replaced_alone() {
        let frame =
            "<form action=\"/api/enquiries\"><presurvey-form><p>The form is on its way.</p></presurvey-form></form>";
        assert_eq!(own(frame, Some("acme"), &demo_config()), frame.replace("/api/", "/acme/api/"));
    }

    #[test]
    fn the_first_installers_page_is_named_after_them_unless_they_wrote_a_name_into_it() {
        let mut config = demo_config();
        let demos = PAGE.replace("First &amp; Co", &config.installer.name);
        assert_eq!(own(&demos, None, &config), demos, "the demo's");
        config.installer.name = "Acme & Sons".into();
        let made = own(&demos, None, &config);
        assert!(!made.contains(&demo_config().installer.name), "{made}");
        assert!(made.contains("installer=\"Acme &amp; Sons\"") && made.contains("config=\"/api/config\""), "{made}");
        assert_eq!(own(PAGE, None, &config), PAGE);
    }

    #[tokio::test]
    async fn the_worker_knows_the_page_that_is_served() {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("index.html"), PAGE).unwrap();
        let script = format!("const FILES = {{\"./\":\"{}\",\"a.js\":\"sha384-x\"}}", hash(PAGE));
        let made = known_by_own_hashes(script, folder.path(), Some("acme"), &demo_config()).await;
        let expected = hash(&own(PAGE, Some("acme"), &demo_config()));
        assert_eq!(made, format!("const FILES = {{\"./\":\"{expected}\",\"a.js\":\"sha384-x\"}}"));
    }
}
