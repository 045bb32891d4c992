//! An enquiry arrives: once, also when sent twice; assessed again; deleted by its secret; gone after its day.

use crate::house::{House, SECRET, enquiry, picture, sha256};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use jiff::civil::date;
use jiff::{SignedDuration, Timestamp};
use presurvey::config::demo_config;
use presurvey::enquiry::Reference;
use presurvey::service::tidy;

#[tokio::test]
async fn a_first_enquiry_is_acknowledged_with_a_reference_and_what_is_missing() {
    let house = House::new().await;
    let sent = enquiry(1);
    let answered = house.post_enquiry(&sent).await;
    assert_eq!(answered.status, StatusCode::CREATED);
    let receipt = answered.json();
    assert!(Reference::read(receipt["reference"].as_str().unwrap()).is_some());
    assert_eq!(receipt["photos_missing"], serde_json::json!([sent.payload.photos[0].sha256]));
    let received: Timestamp = receipt["received"].as_str().unwrap().parse().unwrap();
    let keep_until: jiff::civil::Date = receipt["keep_until"].as_str().unwrap().parse().unwrap();
    let day = jiff::tz::Offset::UTC.to_datetime(received).date();
    assert_eq!(keep_until, day.checked_add(jiff::Span::new().days(i64::from(demo_config().keep_days))).unwrap());
}

#[tokio::test]
async fn sent_twice_it_is_one_enquiry_and_the_first_stands() {
    let house = House::new().await;
    let first = house.post_enquiry(&enquiry(1)).await;
    let mut other = enquiry(1);
    other.payload.contact.name = "Invented Homeowner, changed".into();
    for again in [enquiry(1), other] {
        let answered = house.post_enquiry(&again).await;
        assert_eq!(answered.status, StatusCode::OK);
        assert_eq!(answered.json()["reference"], first.json()["reference"]);
    }
    assert_eq!(house.count("enquiries").await, 1);
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    assert_eq!(list["enquiries"][0]["name"], "Invented Homeowner");
}

#[tokio::test]
async fn two_taps_at_the_same_moment_are_one_enquiry() {
    let house = House::new().await;
    let sent = enquiry(1);
    let (a, b) = tokio::join!(house.post_enquiry(&sent), house.post_enquiry(&sent));
    let mut statuses = [a.status, b.status];
    statuses.sort();
    assert_eq!(statuses, [StatusCode::OK, StatusCode::CREATED]);
    assert_eq!(a.json()["reference"], b.json()["reference"]);
    assert_eq!(house.count("enquiries").await, 1);
}

#[tokio::test]
async fn the_same_answers_are_assessed_again_and_compared_where_date_and_versions_are_equal() {
    let house = House::new().await;
    let mut tampered = enquiry(2);
    tampered.payload.assessment.as_mut().unwrap().invented = false;
    let mut older = enquiry(3);
    older.payload.assessment.as_mut().unwrap().config = "an older one".into();
    let mut other_day = enquiry(4);
    other_day.payload.assessment.as_mut().unwrap().as_of = date(2026, 1, 1);
    let cookie = house.sign_in().await;
    for (sent, agreement) in
        [(enquiry(1), "equal"), (tampered, "different"), (older, "not-compared"), (other_day, "not-compared")]
    {
        house.post_enquiry(&sent).await;
        let path = format!("/api/installer/enquiries/{}", sent.envelope.client_key);
        let detail = house.get_as(&cookie, &path).await.json();
        assert_eq!(detail["agreement"], agreement);
        // Both are kept, whatever came of comparing them.
        assert_eq!(detail["enquiry"]["payload"]["assessment"], serde_json::to_value(&sent.payload.assessment).unwrap());
        assert_eq!(detail["own_assessment"]["invented"], true);
    }
}

#[tokio::test]
async fn one_sent_without_an_assessment_is_worked_out_on_arrival() {
    let house = House::new().await;
    let whole = enquiry(1);
    let mut sent = enquiry(2);
    sent.payload.assessment = None;
    let mut null = serde_json::to_value(enquiry(3)).unwrap();
    null["payload"]["assessment"] = serde_json::Value::Null;
    assert!(!serde_json::to_string(&sent).unwrap().contains("assessment"));
    assert_eq!(house.post_enquiry(&sent).await.status, StatusCode::CREATED);
    assert_eq!(house.post(null.to_string()).await.status, StatusCode::CREATED);
    let cookie = house.sign_in().await;
    for key in [2_u64, 3] {
        let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{key:032x}")).await.json();
        assert_eq!(detail["own_assessment"], serde_json::to_value(&whole.payload.assessment).unwrap());
        assert_eq!(detail["agreement"], "not-compared");
        assert!(detail["enquiry"]["payload"].get("assessment").is_none());
    }
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    assert_eq!(list["enquiries"][0]["complexity"], detail_word(&whole));
}

fn detail_word(sent: &presurvey::enquiry::Enquiry) -> serde_json::Value {
    serde_json::to_value(sent.payload.assessment.as_ref().unwrap().complexity).unwrap()
}

#[tokio::test]
async fn an_enquiry_for_another_installer_is_refused_by_name() {
    let house = House::new().await;
    let mut sent = enquiry(1);
    sent.envelope.installer = "somebody-else".into();
    let answered = house.post_enquiry(&sent).await;
    assert_eq!(answered.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answered.error().contains("somebody-else"));
    assert_eq!(answered.json()["fields"][0]["path"], "envelope.installer");
    assert_eq!(house.count("enquiries").await, 0);
}

#[tokio::test]
async fn version_0_opens_and_version_2_is_refused_with_words() {
    let house = House::new().await;
    let old = include_str!("../fixtures/enquiry-v0.json");
    let answered = house.post(old).await;
    assert_eq!(answered.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&answered.bytes));
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let key = list["enquiries"][0]["client_key"].as_str().unwrap();
    let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{key}")).await.json();
    assert_eq!(detail["enquiry"]["version"], 1);
    assert_eq!(detail["enquiry"]["payload"]["contact"]["name"], "Invented Homeowner of version 0");

    let mut newer = serde_json::to_value(enquiry(1)).unwrap();
    newer["version"] = 2.into();
    let refused = house.post(newer.to_string()).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(refused.error().contains("newer"), "{}", refused.error());
    assert_eq!(refused.json()["fields"][0]["path"], "version");
    assert_eq!(house.count("enquiries").await, 1);
}

async fn delete(house: &House, key: &str, authorization: Option<&str>) -> StatusCode {
    let mut request = Request::delete(format!("/api/enquiries/{key}"));
    if let Some(value) = authorization {
        request = request.header(header::AUTHORIZATION, value);
    }
    let answered = house.send(request.body(Body::empty()).unwrap()).await;
    if !answered.status.is_success() {
        answered.error();
    }
    answered.status
}

#[tokio::test]
async fn the_homeowner_alone_takes_an_enquiry_back_with_its_photos() {
    let house = House::new().await;
    let sent = enquiry(1);
    let key = &sent.envelope.client_key;
    house.post_enquiry(&sent).await;
    house.put_photo(key, &sha256(&picture(0)), picture(0)).await;
    assert_eq!(house.photo_files().len(), 1);

    assert_eq!(delete(&house, key, None).await, StatusCode::UNAUTHORIZED);
    assert_eq!(delete(&house, key, Some("Bearer another secret")).await, StatusCode::FORBIDDEN);
    // Who reads the stored hash still doesn't hold the secret.
    let hash = format!("Bearer {}", sent.envelope.deletion_hash);
    assert_eq!(delete(&house, key, Some(&hash)).await, StatusCode::FORBIDDEN);
    assert_eq!((house.count("enquiries").await, house.photo_files().len()), (1, 1));

    let right = format!("Bearer {SECRET}");
    assert_eq!(delete(&house, key, Some(&right)).await, StatusCode::NO_CONTENT);
    assert_eq!(delete(&house, key, Some(&right)).await, StatusCode::NOT_FOUND);
    for table in ["enquiries", "photos", "corrections"] {
        assert_eq!(house.count(table).await, 0, "{table}");
    }
    assert!(house.photo_files().is_empty());
}

#[tokio::test]
async fn what_is_past_its_day_is_deleted_and_not_a_day_earlier() {
    let house = House::new().await;
    house.post_enquiry(&enquiry(1)).await;
    house.put_photo(&enquiry(1).envelope.client_key, &sha256(&picture(0)), picture(0)).await;
    let last_day = Timestamp::now() + SignedDuration::from_hours(24 * i64::from(demo_config().keep_days));
    assert_eq!(house.tidy_from_to(Timestamp::now(), last_day).await, 0);
    assert_eq!((house.count("enquiries").await, house.photo_files().len()), (1, 1));
    let day = |hours: i64| SignedDuration::from_hours(24 + hours);
    assert_eq!(tidy(&house.service, last_day + day(0)).await.unwrap(), 0, "one look deletes nothing");
    assert_eq!(tidy(&house.service, last_day + day(5)).await.unwrap(), 0, "two are to be some hours apart");
    assert_eq!(tidy(&house.service, last_day + day(6)).await.unwrap(), 1);
    assert_eq!((house.count("enquiries").await, house.count("photos").await), (0, 0));
    assert!(house.photo_files().is_empty());
}

#[tokio::test]
async fn a_page_of_any_origin_may_send_but_never_with_cookies() {
    let house = House::new().await;
    let ask = Request::options("/api/enquiries")
        .header(header::ORIGIN, "https://installer.invalid")
        .header(header::ACCESS_CONTROL_REQUEST_METHOD, "POST")
        .header(header::ACCESS_CONTROL_REQUEST_HEADERS, "content-type");
    let answered = house.send(ask.body(Body::empty()).unwrap()).await;
    assert_eq!(answered.headers[header::ACCESS_CONTROL_ALLOW_ORIGIN], "*");
    assert!(!answered.headers.contains_key(header::ACCESS_CONTROL_ALLOW_CREDENTIALS));
    // The installer's side answers no other origin.
    for path in ["/api/installer/enquiries", "/api/session"] {
        let ask = Request::options(path)
            .header(header::ORIGIN, "https://installer.invalid")
            .header(header::ACCESS_CONTROL_REQUEST_METHOD, "PUT")
            .header(header::ACCESS_CONTROL_REQUEST_HEADERS, "x-presurvey");
        let answered = house.send(ask.body(Body::empty()).unwrap()).await;
        assert!(!answered.headers.contains_key(header::ACCESS_CONTROL_ALLOW_ORIGIN), "{path}");
    }
}
