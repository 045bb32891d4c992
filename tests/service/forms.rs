//! A plain form posted whole: a proper enquiry with its photos, or a refusal in words and nothing stored.

use crate::house::{Answered, House, enquiry, picture, picture_with, sha256};
use axum::body::Body;
use axum::http::{Method, Request, StatusCode, header};
use presurvey::enquiry::Reference;
use presurvey::service::{PictureKind, check_picture};
use serde_json::{Value, json};

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

/// What a browser sends of itself when it opens a page.
const BROWSER: &str = "text/html,application/xhtml+xml,*/*;q=0.8";
const URLENCODED: &str = "application/x-www-form-urlencoded";

async fn post_as(house: &House, kind: &str, accept: &str, body: impl Into<Body>) -> Answered {
    let request = Request::post("/api/enquiries").header(header::CONTENT_TYPE, kind).header(header::ACCEPT, accept);
    house.send(request.body(body.into()).unwrap()).await
}

/// The page of a refusal, which never has markup of a stranger.
fn page(answered: &Answered) -> String {
    assert!(answered.headers[header::CONTENT_TYPE].to_str().unwrap().starts_with("text/html"));
    assert_eq!(answered.headers[header::CONTENT_SECURITY_POLICY], "default-src 'none'");
    let page = String::from_utf8(answered.bytes.clone()).unwrap();
    assert!(page.contains("It was not taken") && page.contains("01632"), "{page}");
    page
}

/// The contact of each enquiry that is kept, the latest first.
async fn contacts(house: &House) -> Vec<Value> {
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let mut contacts = Vec::new();
    for row in list["enquiries"].as_array().unwrap() {
        let path = format!("/api/installer/enquiries/{}", row["client_key"].as_str().unwrap());
        contacts.push(house.get_as(&cookie, &path).await.json()["enquiry"]["payload"]["contact"].clone());
    }
    contacts
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

    let bad = [text("name", "<b>Invented</b>"), text("<i>what</i>", "x")];
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
        (with(text("hazards", "smoke")), "hazards"),
        (with(text("hazard_place", "board")), "hazard_place"),
        (with(text("surprise", &"a word ".repeat(300))), "note"),
        (with(("photos", Some(("photo.jpg", "image/jpeg")), picture(0))), "photos"),
        (with(text("enquiry", "{")), ""),
        (with(file(b"no picture".to_vec())), "photo"),
        (with(file(picture(0)[..picture(0).len() / 2].to_vec())), "photo"),
        (with(file(b"\0\0\0\x18ftypheic".to_vec())), "photo"),
        (with(("note", None, vec![0xff, 0xfe])), "note"),
        (with(("surprise", None, vec![0xff, 0xfe])), "surprise"),
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

#[tokio::test]
async fn a_form_without_an_enctype_is_taken_as_far_as_it_has_no_photos() {
    let house = House::new().await;
    let body = "hazard=buzzing&hazard%5B%5D=smoke&name=Inv%C3%A9nted+Homeowner&telephone=01632+960123&note=one%0D%0Atwo&photo=";
    let answered = post_as(&house, URLENCODED, "*/*", body).await;
    assert_eq!(answered.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&answered.bytes));
    let same = [
        text("hazard", "buzzing"),
        text("hazard", "smoke"),
        text("name", "Invénted Homeowner"),
        text("telephone", "01632 960123"),
        text("note", "one\ntwo"),
    ];
    assert_eq!(post(&house, "*/*", written(&same)).await.status, StatusCode::OK, "the same form in another type");
    let kept = contacts(&house).await;
    assert_eq!(kept, [json!({"name": "Invénted Homeowner", "telephone": "01632 960123", "note": "one\ntwo"})]);
    let shown = post_as(&house, URLENCODED, BROWSER, body).await;
    assert!(String::from_utf8(shown.bytes).unwrap().contains("Your reference: "));

    // What some command lines send a record as.
    let record = serde_json::to_vec(&enquiry(1)).unwrap();
    assert_eq!(post_as(&house, URLENCODED, "*/*", record).await.status, StatusCode::CREATED);

    for (kind, body, told) in [
        (URLENCODED, "name=Invented&telephone=1&photo=meter.jpg", "enctype"),
        (URLENCODED, "name=Inv%E9nted&telephone=1", "UTF-8"),
        ("text/plain", "name=Invented\r\ntelephone=1\r\n", "enctype"),
        ("multipart/form-data", "", "boundary"),
    ] {
        let refused = post_as(&house, kind, BROWSER, body).await;
        assert!(refused.status.is_client_error());
        assert!(page(&refused).contains(told), "{kind}: {}", page(&refused));
    }
    assert_eq!(house.count("enquiries").await, 2);
}

#[tokio::test]
async fn every_refusal_is_a_page_for_a_browser_and_json_for_a_script() {
    let house = House::new().await;
    let large = || vec![b'x'; 600 * 1024];
    let form = format!("multipart/form-data; boundary={BOUNDARY}");
    let whole = written(&[text("note", &"x".repeat(33 * 1024 * 1024))]);
    let photo = written(&[file(picture(0)), file(vec![0; 6 * 1024 * 1024 + 1])]);
    let unread = written(&[file(picture(0)), file(b"no picture".to_vec())]);
    for (method, kind, body, status, told) in [
        (Method::GET, "", Vec::new(), 405, "method=&quot;post&quot;"),
        (Method::PUT, "", Vec::new(), 405, "method=&quot;post&quot;"),
        (Method::POST, URLENCODED, large(), 413, "524288"),
        (Method::POST, "", large(), 413, "524288"),
        (Method::POST, "application/json", b"{".to_vec(), 400, "JSON"),
        (Method::POST, &form, b"nothing".to_vec(), 400, "form"),
        (Method::POST, &form, whole, 413, "32 MB"),
        (Method::POST, &form, photo, 413, "photo 2"),
        (Method::POST, &form, unread, 422, "photo 2"),
        (Method::POST, &form, written(&[text("name", "Invented")]), 422, "telephone"),
    ] {
        for accept in [BROWSER, "application/json"] {
            let request = Request::builder().method(method.clone()).uri("/api/enquiries");
            let request = request.header(header::CONTENT_TYPE, kind).header(header::ACCEPT, accept);
            let answered = house.send(request.body(Body::from(body.clone())).unwrap()).await;
            assert_eq!(answered.status.as_u16(), status, "{told}");
            if accept == BROWSER {
                assert!(page(&answered).contains(told), "{}", page(&answered));
            } else {
                let error = answered.error();
                assert!(error.contains(&told.replace("&quot;", "\"")), "{error}");
            }
            if status == 405 {
                assert_eq!(answered.headers[header::ALLOW], "POST");
            }
        }
    }
    nothing_stored(&house).await;

    let too_many = async |accept: &str| {
        let mut last = None;
        for _ in 0..80 {
            let mut request = Request::post("/api/enquiries").header(header::ACCEPT, accept);
            request = request.header("x-forwarded-for", "192.0.2.9");
            let mut request = request.body(Body::empty()).unwrap();
            let peer = std::net::SocketAddr::from(([127, 0, 0, 1], 1));
            request.extensions_mut().insert(axum::extract::ConnectInfo(peer));
            last = Some(house.send(request).await).filter(|answered| answered.status == 429);
        }
        last.unwrap()
    };
    let answered = too_many(BROWSER).await;
    assert!(page(&answered).contains("too many enquiries") && answered.headers.contains_key(header::RETRY_AFTER));
    too_many("*/*").await.error();
}

#[tokio::test]
async fn a_box_without_a_value_is_ticked() {
    let house = House::new().await;
    let forms = [("offers", "on"), ("consent", "on"), ("offers", "no"), ("consent", "off")];
    for (name, value) in forms {
        let form = [person(), vec![text("note", value), text(name, value)]].concat();
        assert_eq!(post(&house, "*/*", written(&form)).await.status, StatusCode::CREATED);
    }
    let kept = contacts(&house).await;
    assert_eq!(kept.len(), forms.len());
    for name in ["offers", "consent"] {
        let ticked: Vec<_> =
            kept.iter().filter(|contact| contact[name] == true).map(|contact| &contact["note"]).collect();
        assert_eq!(ticked, ["on"], "{name}");
    }
}

#[tokio::test]
async fn what_is_in_a_field_that_is_not_known_is_kept_with_the_note() {
    let house = House::new().await;
    let note = async |parts: &[Part]| {
        let all = [person(), parts.to_vec()].concat();
        let answered = post(&house, "*/*", written(&all)).await;
        assert_eq!(answered.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&answered.bytes));
        let reference = answered.json()["reference"].clone();
        let cookie = house.sign_in().await;
        let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
        let row =
            list["enquiries"].as_array().unwrap().iter().find(|row| row["reference"] == reference).unwrap().clone();
        let path = format!("/api/installer/enquiries/{}", row["client_key"].as_str().unwrap());
        let detail = house.get_as(&cookie, &path).await.json();
        detail["enquiry"]["payload"]["contact"]["note"].as_str().unwrap_or_default().to_owned()
    };
    let empty =
        [text("website", ""), text("submit", "Send"), text("_token", "abc"), ("file", Some(("", "")), Vec::new())];
    assert_eq!(
        note(&empty).await,
        "",
        "a trap that caught nobody, a button, the site's own, a file that was not chosen"
    );
    let said = [text("note", "mine"), text("message", "two\r\nname: lines"), text("note", "and more")];
    assert_eq!(note(&said).await, "mine\n\nOther fields of the form:\nmessage: two\n  name: lines\nnote: and more");
    let strange = note(&[text("we\tb", "a\u{1b}[2Jb"), text(&"n".repeat(90), "x")]).await;
    assert_eq!(strange, format!("Other fields of the form:\nwe b: a[2Jb\n{}: x", "n".repeat(60)));
    let caught = note(&[text("note", "mine"), text("website", "https://robot.invalid")]).await;
    assert_eq!(
        caught,
        "Perhaps a robot’s: a field that people do not see was filled in.\n\nmine\n\nOther fields of the form:\nwebsite: https://robot.invalid"
    );
    // A script says how long filling it in took; nobody is refused for it, and what is no number is not lost.
    let fast = "Perhaps a robot’s: it was sent 2 seconds after the form was begun.\n\n";
    assert_eq!(note(&[text("note", "quick"), text("seconds", "2")]).await, format!("{fast}quick"));
    assert_eq!(note(&[text("note", "slow"), text("seconds", "3")]).await, "slow");
    assert_eq!(
        note(&[text("note", "odd"), text("seconds", "soon")]).await,
        "odd\n\nOther fields of the form:\nseconds: soon"
    );
    let full = "x".repeat(2000);
    assert_eq!(note(&[text("note", &full), text("seconds", "0")]).await, full, "a mark alone costs no enquiry");
    let code = note(&[text("state", &"c".repeat(5000)), text("message", &"word ".repeat(300))]).await;
    assert!(code.contains(&format!("state: {}…\nmessage: word word", "c".repeat(100))), "{code}");

    // A slip in the name of a field that must be there is named.
    let slipped = [text("name", "Invented Homeowner"), text("phone", "01632 960123")];
    let refused = post(&house, "*/*", written(&slipped)).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(refused.error().contains("`phone`"), "{}", refused.error());
}

#[tokio::test]
async fn a_note_of_as_many_lines_as_its_field_allows_is_taken() {
    let house = House::new().await;
    let lines = [person(), vec![text("note", &format!("{}y", "x\r\n".repeat(999)))]].concat();
    assert_eq!(post(&house, "*/*", written(&lines)).await.status, StatusCode::CREATED);
}

#[tokio::test]
async fn without_a_key_the_same_form_is_one_enquiry_and_any_other_another() {
    let house = House::new().await;
    let with = |parts: &[Part<'static>]| [person(), parts.to_vec()].concat();
    let forms = [
        with(&[]),
        with(&[text("note", "one")]),
        with(&[text("note", "two")]),
        with(&[text("when", "two")]),
        with(&[text("unheard-of", "two")]),
        with(&[text("hazard", "none")]),
        with(&[text("hazard", "smoke")]),
        with(&[file(picture(0))]),
        with(&[file(picture(3))]),
        with(&[file(picture_with(0xfe, b"a comment"))]),
        with(&[file(picture(0)), file(picture(3))]),
    ];
    for form in &forms {
        let first = post(&house, "*/*", written(form)).await;
        assert_eq!(first.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&first.bytes));
        let again = [form.clone(), vec![text("_token", "another"), text("website", ""), text("seconds", "7")]].concat();
        let again = post(&house, "*/*", written(&again)).await;
        let mut expected = first.json();
        // Whoever sends it again is told no secret: the first one's counts.
        assert!(expected.as_object_mut().unwrap().remove("deletion_secret").is_some());
        assert_eq!((again.status, again.json()), (StatusCode::OK, expected));
    }
    assert_eq!(house.count("enquiries").await, forms.len() as i64);
}

#[tokio::test]
async fn a_photo_is_stored_without_what_the_camera_wrote_into_it() {
    let house = House::new().await;
    let telling = [
        picture_with(0xe1, b"Exif\0\0II*\0secret"),
        picture_with(0xe1, b"http://ns.adobe.com/xap/1.0/\0secret"),
        picture_with(0xed, b"Photoshop 3.0\0secret"),
        picture_with(0xe2, b"MPF\0secret"),
        picture_with(0xfe, b"secret"),
        [picture(0), b"secret".to_vec()].concat(),
        // EXIF that has it turned: a TIFF file of one entry, orientation 6.
        picture_with(0xe1, b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0secret"),
    ];
    for (at, photo) in telling.into_iter().enumerate() {
        let key = format!("{at:032x}");
        let parts = [person(), vec![text("client_key", &key), file(photo)]].concat();
        for status in [StatusCode::CREATED, StatusCode::OK] {
            let answered = post(&house, "*/*", written(&parts)).await;
            assert_eq!(answered.status, status, "{}", String::from_utf8_lossy(&answered.bytes));
            assert_eq!(answered.json()["photos_missing"], json!([]));
        }
    }
    let files = house.photo_files();
    assert_eq!(files.len(), 7);
    for path in files {
        let bytes = std::fs::read(&path).unwrap();
        assert_eq!(check_picture(&bytes), Ok(PictureKind::Jpeg));
        assert!(!bytes.windows(6).any(|part| part == b"secret"));
        let turned = path.parent().unwrap().ends_with(format!("{:032x}", 6));
        assert_eq!(bytes == picture(0), !turned, "its pixels are the same to the bit unless it had to be turned");
    }
    let cookie = house.sign_in().await;
    let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{:032x}", 6)).await.json();
    let photo = &detail["enquiry"]["payload"]["photos"][0];
    assert_eq!((&photo["width"], &photo["height"]), (&json!(480), &json!(640)));

    // A record lists its photos by their hashes: beside one nothing is changed, and nothing is let through.
    let photo = picture_with(0xfe, b"a comment");
    let mut sent = enquiry(99);
    sent.payload.photos[0].sha256 = sha256(&photo);
    let record = ("enquiry", Some(("enquiry.json", "application/json")), serde_json::to_vec(&sent).unwrap());
    let refused = post(&house, "*/*", written(&[record, file(photo)])).await;
    assert!(refused.error().contains("photo 1: this picture still carries a comment"), "{}", refused.error());
}
