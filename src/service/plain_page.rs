//! The page shown to a browser that posted a plain form, or came to where one is posted: a title and a few lines, without script or style.

use super::Service;
use super::error::Told;
use super::store::Receipt;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::middleware::Next;
use axum::response::{Html, IntoResponse, Response};
use model::config::Config;
use record::markup::Tag;
use wording::{self, Words, service as words};

/// Whether these headers are of a browser that displays the response, not of a script that reads it.
pub(super) fn is_wanted(headers: &HeaderMap) -> bool {
    headers
        .get(header::ACCEPT)
        .and_then(|accept| accept.to_str().ok())
        .is_some_and(|accept| accept.contains("text/html"))
}

/// The page after an enquiry was accepted.
pub(super) fn sent(receipt: &Receipt, status: StatusCode, config: &Config) -> Response {
    let reference = words_of().fill(words::SENT_REFERENCE, &[("reference", &receipt.reference)]);
    let text = words_of().fill(words::SENT_TEXT, &places(config));
    (status, page(words_of().say(words::SENT_TITLE), &[&reference, &text])).into_response()
}

/// Makes a page of every refusal of an address, if a browser displays it; a script is given JSON.
pub(super) async fn for_browsers(State(service): State<Service>, request: Request, next: Next) -> Response {
    let wanted = is_wanted(request.headers());
    let response = next.run(request).await;
    match response.extensions().get::<Told>() {
        Some(told) if wanted => {
            let page = refused(told, &service.config.config);
            let (mut parts, _) = response.into_parts();
            parts.headers.remove(header::CONTENT_LENGTH);
            let (page, body) = page.into_parts();
            parts.headers.extend(page.headers);
            Response::from_parts(parts, body)
        }
        _ => response,
    }
}

/// The page after an enquiry was refused, with every reason.
fn refused(told: &Told, config: &Config) -> Response {
    let Told { error, fields } = told;
    let mut lines = vec![error.clone()];
    // A single field's message is the whole sentence.
    lines.extend(fields.iter().filter(|_| fields.len() > 1).map(|field| format!("{}: {}", field.path, field.message)));
    lines.push(words_of().fill(words::REFUSED_BACK, &places(config)));
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    page(words_of().say(words::REFUSED_TITLE), &lines)
}

fn words_of() -> Words<'static> {
    Words::new(wording::service::EN)
}

fn places(config: &Config) -> [(&'static str, &str); 2] {
    [("installer", &config.installer.name), ("telephone", &config.installer.telephone)]
}

fn page(title: &str, lines: &[&str]) -> Response {
    let html = markup(title, lines);
    // It may be framed, as the form that was posted may.
    let policy = [(header::CONTENT_SECURITY_POLICY, super::headers::NOTHING_LOADED)];
    (policy, Html(html)).into_response()
}

fn markup(title: &str, lines: &[&str]) -> String {
    let head = Tag::new("head")
        .with(Tag::new("meta").attr("charset", "utf-8"))
        .with(Tag::new("meta").attr("name", "viewport").attr("content", "width=device-width"))
        .with(Tag::new("title").text(title));
    let body =
        Tag::new("body").with(Tag::new("h1").text(title)).all(lines.iter().map(|line| Tag::new("p").text(*line)));
    let page = Tag::new("html").attr("lang", "en-GB").with(head).with(body);
    ["<!doctype html>\n", &page.html()].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_stranger_sent_is_text_and_never_markup() {
        let page = markup("<b title=\"x\">&", &["</p><script>"]);
        let title = "&lt;b title=&quot;x&quot;&gt;&amp;";
        assert!(page.contains(&format!("<title>{title}</title></head><body><h1>{title}</h1>")), "{page}");
        assert!(page.ends_with("<p>&lt;/p&gt;&lt;script&gt;</p></body></html>"), "{page}");
    }
}
