//! A plain form posted whole: a proper enquiry with its photos, or a refusal in words and nothing stored.

use crate::house::{Answered, House, enquiry, picture, picture_with, sha256};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use presurvey::enquiry::Reference;
use serde_json::json;

const BOUNDARY: &str = "an-invented-boundary";
const KEY: &str = "0123456789abcdef0123456789abcdef";

/// One part: its name, a file's name and type where it is a file, and what is in it.
type Part<'a> = (&'a str, Option<(&'a str, &'a str)>, Vec<u8>);

fn text<'a>(name: &'a str, value: &str) -> Part<'a> {
    (name, None, value.as_bytes().to_vec())
}

fn file(bytes: Vec<u8>) -> Part<'static> {
    ("photo", Some(("photo.jpg", "image/jpeg")), bytes)
}

fn person<'a>() -> Vec<Part<'a>> {
    vec![text("name", "Invented Homeowner"), text("telephone", "01632 960123")]
}

fn written(parts: &[Part]) -> Vec<u8> {
    let mut body = Vec::new();
    for (name, file, bytes) in parts {
        body.extend(format!("--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"{name}\"").into_bytes());
        if let Some((named, kind)) = file {
            body.extend(format!("; filename=\"{named}\"\r\nContent-Type: {kind}").into_bytes());
        }
        body.extend(b"\r\n\r\n");
        body.extend(bytes);
        body.extend(b"\r\n");
    }
    body.extend(format!("--{BOUNDARY}--\r\n").into_bytes());
    body
}

async fn post(house: &House, accept: &str, body: Vec<u8>) -> Answered {
    let request = Request::post("/api/enquiries")
        .header(header::CONTENT_TYPE, format!("multipart/form-data; boundary={BOUNDARY}"))
        .header(header::ACCEPT, accept);
    house.send(request.body(Body::from(body)).unwrap()).await
}

async fn nothing_stored(house: &House) {
    assert_eq!(house.count("enquiries").await, 0);
    assert!(house.photo_files().is_empty());
}

#[tokio::test]
async fn a_plain_form_is_an_enquiry_with_answers_contact_and_photos() {
    let house = House::new().await;
    let mut parts = person();
    parts.extend([
        text("postcode", "zz1 1aa"),
        text("hazard", "buzzing"),
        text("hazard[]", "discolouration"),
        text("hazard-place", "board"),
        text("when", "evenings"),
        text("note", "two\nlines"),
        text("language", "pl"),
        text("summary", "for whoever reads the mail"),
        text("client_key", KEY),
        file(picture(0)),
        file(picture(3)),
        file(Vec::new()),
    ]);
    let answered = post(&house, "*/*", written(&parts)).await;
    assert_eq!(answered.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&answered.bytes));
    assert!(Reference::read(answered.json()["reference"].as_str().unwrap()).is_some());
    assert_eq!(answered.json()["photos_missing"], json!([]));

    let cookie = house.sign_in().await;
    let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{KEY}")).await.json();
    let payload = &detail["enquiry"]["payload"];
    assert_eq!(payload["answers"]["home"]["postcode"], "ZZ1 1AA");
    assert_eq!(payload["answers"]["hazard"], json!({ "signs": ["buzzing", "discolouration"], "place": "board" }));
    assert_eq!(payload["contact"]["note"], "two\nlines");
    assert_eq!(payload["contact"]["language"], "pl");
    assert_eq!((&payload["photos"][0]["width"], &payload["photos"][0]["height"]), (&json!(640), &json!(480)));
    assert_eq!(detail["photos_arrived"], json!([sha256(&picture(0)), sha256(&picture(3))]));
    assert_eq!(detail["own_assessment"]["complexity"], "look-first");

    // Sent again, as a page that is loaded again does, it is the same enquiry.
    let again = post(&house, "*/*", written(&parts)).await;
    assert_eq!((again.status, &again.json()["reference"]), (StatusCode::OK, &answered.json()["reference"]));
    assert_eq!((house.count("enquiries").await, house.photo_files().len()), (1, 2));
}

#[tokio::test]
async fn a_browser_is_shown_a_page_and_a_script_json() {
    let house = House::new().await;
    let browser = "text/html,application/xhtml+xml,*/*;q=0.8";
    let answered = post(&house, browser, written(&person())).await;
    assert_eq!(answered.status, StatusCode::CREATED);
    assert!(answered.headers[header::CONTENT_TYPE].to_str().unwrap().starts_with("text/html"));
    assert_eq!(answered.headers[header::CONTENT_SECURITY_POLICY], "default-src 'none'");
    let page = String::from_utf8(answered.bytes).unwrap();
    assert!(page.contains("Your reference: ") && !page.contains("<script") && !page.contains("style"), "{page}");

    let bad = [text("name", "<b>Invented</b>"), text("<i>what</i>", "")];
    let refused = post(&house, browser, written(&bad)).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    let page = String::from_utf8(refused.bytes).unwrap();
    assert!(page.contains("&lt;i&gt;what") && !page.contains("<i>"), "{page}");
}

#[tokio::test]
async fn a_record_beside_the_fields_is_the_record() {
    let house = House::new().await;
    let sent = enquiry(1);
    let mut parts = person();
    let record = ("enquiry", Some(("enquiry.json", "application/json")), serde_json::to_vec(&sent).unwrap());
    parts.extend([record.clone(), file(picture(0))]);
    assert_eq!(post(&house, "*/*", written(&parts)).await.status, StatusCode::CREATED);
    let cookie = house.sign_in().await;
    let path = format!("/api/installer/enquiries/{}", sent.envelope.client_key);
    let detail = house.get_as(&cookie, &path).await.json();
    assert_eq!(detail["enquiry"]["payload"]["answers"], serde_json::to_value(&sent.payload.answers).unwrap());
    assert_eq!(detail["photos_arrived"], json!([sha256(&picture(0))]));

    let unlisted = post(&house, "*/*", written(&[record, file(picture(9))])).await;
    assert!(unlisted.error().contains("photo 1"), "{}", unlisted.error());
}

#[tokio::test]
async fn an_enquiry_is_taken_with_what_earlier_forms_asked_to_tick_and_without_it() {
    let house = House::new().await;
    let cookie = house.sign_in().await;
    let contact = async |key: String| {
        let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{key}")).await.json();
        detail["enquiry"]["payload"]["contact"].clone()
    };
    for (at, ticked) in [None, Some("consent"), Some("offers")].into_iter().enumerate() {
        let key = at.to_string().repeat(32);
        let mut parts = person();
        parts.push(("client_key", None, key.clone().into_bytes()));
        parts.extend(ticked.map(|name| text(name, "yes")));
        assert_eq!(post(&house, "*/*", written(&parts)).await.status, StatusCode::CREATED, "{ticked:?}");
        let kept = contact(key).await;
        for name in ["consent", "offers"] {
            assert_eq!(kept.get(name), (ticked == Some(name)).then_some(&json!(true)), "{ticked:?}: {name}");
        }
    }
    // The record itself, as earlier forms wrote it and as this one does.
    let mut record = serde_json::to_value(enquiry(1)).unwrap();
    for (digit, consent) in [("a", Some(true)), ("b", Some(false)), ("c", None)] {
        record["envelope"]["client_key"] = json!(digit.repeat(32));
        let contact = record["payload"]["contact"].as_object_mut().unwrap();
        contact.remove("consent");
        contact.extend(consent.map(|said| ("consent".to_owned(), json!(said))));
        assert_eq!(house.post(record.to_string()).await.status, StatusCode::CREATED, "{consent:?}");
    }
}

#[tokio::test]
async fn what_is_not_allowed_is_named_by_its_field_and_nothing_is_stored() {
    let house = House::new().await;
    let with = |part: Part<'static>| {
        let mut parts = person();
        parts.push(part);
        parts
    };
    let told = [
        (vec![text("name", "Invented Homeowner")], "telephone"),
        (vec![text("telephone", "01632 960123")], "name"),
        (with(text("postcode", "nowhere at all")), "postcode"),
        (with(text("hazard", "a bad feeling")), "hazard"),
        (with(text("hazard-place", "roof")), "hazard-place"),
        (with(text("client_key", "../../etc/passwd")), "client_key"),
        (with(text("reach", "pigeon")), "reach"),
        (with(text("surprise", "1")), "surprise"),
        (with(text("enquiry", "{")), ""),
        (with(file(b"no picture".to_vec())), "photo"),
        (with(file(picture(0)[..picture(0).len() / 2].to_vec())), "photo"),
        (with(file(picture_with(0xe1, b"Exif\0\0II*\0"))), "photo"),
        (with(("note", None, vec![0xff, 0xfe])), "note"),
    ];
    for (parts, path) in told {
        let answered = post(&house, "application/json", written(&parts)).await;
        assert!(answered.status.is_client_error(), "{path}: {}", answered.status);
        let found = answered.json()["fields"][0]["path"].as_str().unwrap_or_default().to_owned();
        assert!(found.ends_with(path), "{path}: {found}, {}", answered.error());
        assert!(!answered.error().is_empty());
    }
    nothing_stored(&house).await;
}

#[tokio::test]
async fn a_form_cut_anywhere_or_too_large_stores_nothing() {
    let house = House::new().await;
    let mut parts = person();
    parts.push(file(picture(0)));
    let whole = written(&parts);
    // Up to the last boundary: after its name the form is whole.
    for at in (0..whole.len() - 4).step_by(whole.len() / 40) {
        let answered = post(&house, "*/*", whole[..at].to_vec()).await;
        assert!(answered.status.is_client_error(), "cut at {at}: {}", answered.status);
        answered.error();
    }
    parts.push(file(vec![0; 6 * 1024 * 1024 + 1]));
    let answered = post(&house, "*/*", written(&parts)).await;
    assert_eq!(answered.status, StatusCode::PAYLOAD_TOO_LARGE);
    let answered = post(&house, "*/*", written(&[text("note", &"x".repeat(33 * 1024 * 1024))])).await;
    assert_eq!(answered.status, StatusCode::PAYLOAD_TOO_LARGE);
    nothing_stored(&house).await;
}
