//! The page a browser is shown that sent a plain form: a title and a few lines, without script or style.

use super::error::Refusal;
use super::store::Receipt;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use html_escape::encode_text;
use model::config::Config;
use wording::{self, Words, service as words};

/// Whether these headers are of a browser that shows what it is answered, not of a script that reads it.
pub(super) fn is_wanted(headers: &HeaderMap) -> bool {
    headers
        .get(header::ACCEPT)
        .and_then(|accept| accept.to_str().ok())
        .is_some_and(|accept| accept.contains("text/html"))
}

/// It is in.
pub(super) fn sent(receipt: &Receipt, status: StatusCode, config: &Config) -> Response {
    let reference = words_of().fill(words::SENT_REFERENCE, &[("reference", &receipt.reference)]);
    let text = words_of().fill(words::SENT_TEXT, &places(config));
    (status, page(words_of().say(words::SENT_TITLE), &[&reference, &text])).into_response()
}

/// It is not.
pub(super) fn refused(refusal: &Refusal, config: &Config) -> Response {
    let mut lines = vec![refusal.to_string()];
    // One alone is the sentence itself.
    let fields = refusal.fields();
    lines.extend(fields.iter().filter(|_| fields.len() > 1).map(|field| format!("{}: {}", field.path, field.message)));
    lines.push(words_of().fill(words::REFUSED_BACK, &places(config)));
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    (refusal.status(), page(words_of().say(words::REFUSED_TITLE), &lines)).into_response()
}

fn words_of() -> Words<'static> {
    Words::new(wording::service::EN)
}

fn places(config: &Config) -> [(&'static str, &str); 2] {
    [("installer", &config.installer.name), ("telephone", &config.installer.telephone)]
}

fn page(title: &str, lines: &[&str]) -> Response {
    let lines: String = lines.iter().map(|line| format!("<p>{}</p>\n", encode_text(line))).collect();
    let title = encode_text(title);
    let html = format!(
        "<!doctype html>\n<html lang=\"en-GB\">\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}</title>\n<h1>{title}</h1>\n{lines}"
    );
    // It may stand in a frame, as the form that was sent may.
    let policy = [(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static("default-src 'none'"))];
    (policy, Html(html)).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn what_a_stranger_sent_is_text_and_never_markup() {
        let body = page("<i>", &["<b title=\"x\">&"]).into_body();
        let body = axum::body::to_bytes(body, usize::MAX).await.unwrap();
        let page = str::from_utf8(&body).unwrap();
        assert!(page.contains("<title>&lt;i&gt;</title>"), "{page}");
        assert!(page.contains("<p>&lt;b title=\"x\"&gt;&amp;</p>"), "{page}");
    }
}
