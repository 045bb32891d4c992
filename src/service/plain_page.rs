//! The page shown to a browser that posted a plain form, or came to where one is posted: a title and a few lines, without style. A script is in none but
//! the page that deletes, which does without it too.

use super::Service;
use super::error::Told;
use super::headers::NOTHING_LOADED;
use super::jobs::Job;
use super::store::Receipt;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{Html, IntoResponse, Response};
use model::config::Config;
use record::enquiry::Became;
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
    let mut told = vec![Tag::new("p").text(reference), Tag::new("p").text(text)];
    if let Some(secret) = &receipt.deletion_secret {
        // From `/api/enquiries`, whatever stands before it. Another window, as this one may be a frame, where that page does not open.
        let address = format!("enquiries/{}/deletion#{secret}", receipt.client_key);
        let link = Tag::new("a").attr("href", &address).attr("target", "_blank").attr("rel", "noopener noreferrer");
        told.push(Tag::new("p").text(words_of().say(words::SENT_DELETION)));
        told.push(Tag::new("p").with(link.text(words_of().say(words::SENT_DELETION_LINK))));
        told.push(Tag::new("p").text(words_of().fill(words::SENT_DELETION_CODE, &[("code", secret)])));
    }
    (status, page(words_of().say(words::SENT_TITLE), told, NOTHING_LOADED)).into_response()
}

/// The page with the one button that deletes an enquiry, for whoever holds its secret.
pub(super) fn deletion(config: &Config) -> Response {
    let field = Tag::new("input").attr("name", "secret").attr("autocomplete", "off").attr("required", "");
    let label = Tag::new("label").text(words_of().say(words::DELETION_CODE)).text(" ").with(field);
    let form = Tag::new("form")
        .attr("method", "post")
        .with(Tag::new("p").with(label))
        .with(Tag::new("p").with(Tag::new("button").text(words_of().say(words::DELETION_BUTTON))));
    let told = vec![
        Tag::new("p").text(words_of().fill(words::DELETION_TEXT, &places(config))),
        form,
        Tag::new("script").attr("src", "../../deletion.js"),
    ];
    page(words_of().say(words::DELETION_TITLE), told, super::headers::DELETION)
}

/// The page after an enquiry was deleted.
pub(super) fn deleted(reference: &str, kept: Option<&Job>, config: &Config) -> Response {
    let gone = words_of().fill(words::DELETED_TEXT, &[("reference", reference)]);
    let copies = words_of().fill(words::DELETED_COPIES, &places(config));
    let mut told = vec![Tag::new("p").text(gone), Tag::new("p").text(copies)];
    if let Some(job) = kept {
        let what: Vec<&str> = job
            .became
            .iter()
            .map(|became| match became {
                Became::Quotation => words_of().say(words::BECAME_QUOTATION),
                Became::Invoice => words_of().say(words::BECAME_INVOICE),
                Became::Certificate => words_of().say(words::BECAME_CERTIFICATE),
            })
            .collect();
        let day = job.until.strftime("%-d %B %Y").to_string();
        let [installer, telephone] = places(config);
        let places = [installer, telephone, ("what", &*what.join("; ")), ("day", &*day)];
        told.insert(1, Tag::new("p").text(words_of().fill(words::DELETED_KEPT, &places)));
    }
    page(words_of().say(words::DELETED_TITLE), told, NOTHING_LOADED)
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
    let Told { error, fields, .. } = told;
    let mut lines = vec![error.clone()];
    // A single field's message is the whole sentence.
    lines.extend(fields.iter().filter(|_| fields.len() > 1).map(|field| format!("{}: {}", field.path, field.message)));
    lines.push(words_of().fill(words::REFUSED_BACK, &places(config)));
    page(
        words_of().say(words::REFUSED_TITLE),
        lines.iter().map(|line| Tag::new("p").text(line)).collect(),
        NOTHING_LOADED,
    )
}

fn words_of() -> Words<'static> {
    Words::new(wording::service::EN)
}

fn places(config: &Config) -> [(&'static str, &str); 2] {
    [("installer", &config.installer.name), ("telephone", &config.installer.telephone)]
}

fn page(title: &str, told: Vec<Tag>, policy: HeaderValue) -> Response {
    ([(header::CONTENT_SECURITY_POLICY, policy)], Html(markup(title, told))).into_response()
}

fn markup(title: &str, told: Vec<Tag>) -> String {
    let head = Tag::new("head")
        .with(Tag::new("meta").attr("charset", "utf-8"))
        .with(Tag::new("meta").attr("name", "viewport").attr("content", "width=device-width"))
        .with(Tag::new("title").text(title));
    let body = Tag::new("body").with(Tag::new("h1").text(title)).all(told);
    let page = Tag::new("html").attr("lang", "en-GB").with(head).with(body);
    ["<!doctype html>\n", &page.html()].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_stranger_sent_is_text_and_never_markup() {
        let page = markup("<b title=\"x\">&", vec![Tag::new("p").text("</p><script>")]);
        let title = "&lt;b title=&quot;x&quot;&gt;&amp;";
        assert!(page.contains(&format!("<title>{title}</title></head><body><h1>{title}</h1>")), "{page}");
        assert!(page.ends_with("<p>&lt;/p&gt;&lt;script&gt;</p></body></html>"), "{page}");
    }
}
