//! The installer's side: behind a password, gravest first, corrected answers beside the original.

use crate::house::{House, PASSWORD, enquiry, picture, sha256, sign_in_from};
use axum::body::Body;
use axum::http::{Method, Request, StatusCode, header};
use jiff::civil::date;
use presurvey::answers::{Answer, HazardSign, OtherPoint, Set};
use presurvey::enquiry::Enquiry;
use serde_json::{Value, json};

const EVERY_ROUTE: [(Method, &str); 10] = [
    (Method::GET, "/api/session"),
    (Method::GET, "/api/installer/enquiries"),
    (Method::GET, "/api/installer/enquiries/KEY"),
    (Method::GET, "/api/installer/enquiries/KEY/photos/HASH"),
    (Method::PUT, "/api/installer/enquiries/KEY/answers"),
    (Method::PUT, "/api/installer/enquiries/KEY/handled"),
    (Method::POST, "/api/installer/enquiries/KEY/link"),
    (Method::GET, "/api/installer/"),
    (Method::GET, "/api/installer/anything"),
    (Method::POST, "/api/installer/enquiries/KEY/anything"),
];

fn fill(path: &str) -> String {
    path.replace("KEY", &enquiry(1).envelope.client_key).replace("HASH", &sha256(&picture(0)))
}

async fn house_with_one() -> House {
    let house = House::new().await;
    house.post_enquiry(&enquiry(1)).await;
    house.put_photo(&enquiry(1).envelope.client_key, &sha256(&picture(0)), picture(0)).await;
    house
}

#[tokio::test]
async fn without_signing_in_there_is_nothing_to_see() {
    let house = house_with_one().await;
    house.sign_in().await;
    for cookie in ["", "presurvey_session=", "presurvey_session=0000", "presurvey_known=1"] {
        for (method, path) in EVERY_ROUTE {
            let request = Request::builder().method(&method).uri(fill(path)).header(header::COOKIE, cookie);
            let request =
                request.header("x-presurvey", "1").body(Body::from(r#"{"handled":true,"answers":{}}"#)).unwrap();
            let answered = house.send(request).await;
            let allowed = [StatusCode::UNAUTHORIZED, StatusCode::NOT_FOUND];
            assert!(allowed.contains(&answered.status), "{method} {path}: {}", answered.status);
            assert!(!String::from_utf8_lossy(&answered.bytes).contains("Invented Homeowner"), "{path}");
        }
    }
    assert_eq!(house.count("corrections").await, 0);
    assert_eq!(house.count("enquiries WHERE handled = 1").await, 0);
}

#[tokio::test]
async fn another_page_can_change_nothing_even_with_the_cookie() {
    let house = house_with_one().await;
    let cookie = house.sign_in().await;
    for (method, path) in [
        (Method::PUT, "/api/installer/enquiries/KEY/answers"),
        (Method::PUT, "/api/installer/enquiries/KEY/handled"),
        (Method::POST, "/api/installer/enquiries/KEY/link"),
        (Method::DELETE, "/api/session"),
    ] {
        let request = Request::builder().method(&method).uri(fill(path)).header(header::COOKIE, &cookie);
        let answered = house.send(request.body(Body::from(r#"{"handled":true}"#)).unwrap()).await;
        assert_eq!(answered.status, StatusCode::FORBIDDEN, "{method} {path}");
    }
    assert_eq!(house.get_as(&cookie, "/api/session").await.status, StatusCode::OK);
}

#[tokio::test]
async fn the_session_ends_when_signed_out_and_when_the_password_is_changed() {
    let house = House::new().await;
    let cookie = house.sign_in().await;
    assert_eq!(house.get_as(&cookie, "/api/session").await.status, StatusCode::OK);
    let out = Request::delete("/api/session").header(header::COOKIE, &cookie).header("x-presurvey", "1");
    assert_eq!(house.send(out.body(Body::empty()).unwrap()).await.status, StatusCode::NO_CONTENT);
    assert_eq!(house.get_as(&cookie, "/api/session").await.status, StatusCode::UNAUTHORIZED);

    let cookie = house.sign_in().await;
    presurvey::service::set_password(&house.service, "another invented one").await.unwrap();
    assert_eq!(house.get_as(&cookie, "/api/session").await.status, StatusCode::UNAUTHORIZED);
}

#[tokio::test]
async fn guessing_is_slowed_and_a_browser_that_signed_in_before_is_not_kept_out() {
    let house = House::new().await;
    let cookie = house.sign_in().await;
    for _ in 0..5 {
        assert_eq!(house.try_password("a wrong guess", None).await.status, StatusCode::UNAUTHORIZED);
    }
    let slowed = house.try_password(PASSWORD, None).await;
    assert_eq!(slowed.status, StatusCode::TOO_MANY_REQUESTS);
    assert_eq!(slowed.headers[header::RETRY_AFTER], "60");
    slowed.error();
    // Refused attempts are not counted, so the wait does not grow: nobody is locked out for good.
    assert_eq!(house.count("attempts").await, 5);
    assert_eq!(house.try_password(PASSWORD, Some(&cookie)).await.status, StatusCode::NO_CONTENT);
}

#[tokio::test]
async fn many_guesses_at_once_are_counted_too() {
    let house = House::new().await;
    house.sign_in().await;
    let guesses: Vec<_> = (0..12)
        .map(|_| {
            let request = sign_in_from("a wrong guess", None, [192, 0, 2, 1]);
            let router = house.router.clone();
            tokio::spawn(async move { tower::ServiceExt::oneshot(router, request).await.unwrap().status() })
        })
        .collect();
    let mut looked_at = 0;
    for guess in guesses {
        looked_at += usize::from(guess.await.unwrap() == StatusCode::UNAUTHORIZED);
    }
    assert_eq!(looked_at, 5);
}

fn with_hazard(key: u64) -> Enquiry {
    let mut sent = enquiry(key);
    sent.payload.answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Discolouration]));
    sent
}

#[tokio::test]
async fn the_gravest_is_first_what_is_handled_is_last_and_parts_follow_each_other() {
    let house = House::new().await;
    for sent in [enquiry(1), enquiry(2), with_hazard(3), enquiry(4), with_hazard(5)] {
        house.post_enquiry(&sent).await;
    }
    let cookie = house.sign_in().await;
    let path = format!("/api/installer/enquiries/{:032x}/handled", 3);
    assert_eq!(house.put_as(&cookie, &path, json!({ "handled": true })).await.status, StatusCode::NO_CONTENT);

    let mut keys = Vec::new();
    let mut after = String::new();
    for part in 0.. {
        assert!(part < 4, "the list has no end");
        let part = house.get_as(&cookie, &format!("/api/installer/enquiries?limit=2{after}")).await.json();
        assert_eq!((&part["total"], &part["unhandled"]), (&json!(5), &json!(4)));
        for row in part["enquiries"].as_array().unwrap() {
            keys.push(u64::from_str_radix(row["client_key"].as_str().unwrap(), 16).unwrap());
        }
        match part["next"].as_str() {
            Some(key) => after = format!("&after={key}"),
            None => break,
        }
    }
    assert_eq!(keys, [5, 1, 2, 4, 3]);
}

#[tokio::test]
async fn a_row_says_what_is_needed_to_choose() {
    let house = house_with_one().await;
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let row = &list["enquiries"][0];
    let own = presurvey::assess(&enquiry(1).payload.answers, &presurvey::config::demo_config());
    assert_eq!(row["complexity"], own.complexity.word());
    assert_eq!(row["band"], serde_json::to_value(own.band).unwrap());
    assert_eq!((&row["postcode"], &row["name"]), (&json!("ZZ1"), &json!("Invented Homeowner")));
    assert_eq!(row["photos"], json!({ "arrived": 1, "listed": 1 }));
    assert_eq!((&row["handled"], &row["corrected"], &row["invented"]), (&json!(false), &json!(false), &json!(true)));
    let counts: u64 = row["flag_counts"].as_object().unwrap().values().map(|count| count.as_u64().unwrap()).sum();
    assert_eq!(counts, own.flags.len() as u64);
    assert!(row["top_flags"].as_array().unwrap().len() <= 3);
    assert_eq!(row["asked"], Value::Null, "nobody was asked");

    let mut answers = enquiry(1).payload.answers;
    answers.loads.other_point = Answer::Known(OtherPoint::Kept);
    answers.operator.asked_on = Answer::Known(date(2026, 3, 2));
    let path = fill("/api/installer/enquiries/KEY/answers");
    let owed = house.put_as(&cookie, &path, json!({ "answers": answers })).await.json();
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let asked = &list["enquiries"][0]["asked"];
    assert_eq!(asked["on"], "2026-03-02");
    assert!(asked["answered"].is_null(), "{asked}");
    let owed = owed["corrected"]["assessment"]["owed"].as_array().unwrap();
    assert!(owed.iter().any(|owed| owed["asked"] == *asked), "as the enquiry itself has it");
}

#[tokio::test]
async fn corrected_answers_are_assessed_again_and_the_original_stays() {
    let house = house_with_one().await;
    let cookie = house.sign_in().await;
    let path = fill("/api/installer/enquiries/KEY");
    let mut answers = enquiry(1).payload.answers;
    answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::MeltedPlastic]));
    let answered = house.put_as(&cookie, &format!("{path}/answers"), json!({ "answers": answers })).await;
    assert_eq!(answered.status, StatusCode::OK);
    let detail = answered.json();
    let mut recorded = serde_json::to_value(&answers).unwrap();
    recorded["recorded"] = json!(["hazard.signs"]);
    assert_eq!(detail["corrected"]["answers"], recorded, "and it is kept that the installer said so");
    assert_eq!(detail["corrected"]["assessment"]["complexity"], "look-first");
    assert_eq!(detail["enquiry"]["payload"]["answers"], serde_json::to_value(enquiry(1).payload.answers).unwrap());
    assert_eq!(house.get_as(&cookie, &path).await.json(), detail);
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    assert_eq!(list["enquiries"][0]["complexity"], "look-first", "the list goes by the corrected answers");
    assert_eq!(list["enquiries"][0]["corrected"], true);

    let refused = house
        .put_as(&cookie, &format!("{path}/answers"), json!({ "answers": { "meter": { "fuse_carriers": 9 } } }))
        .await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(refused.json()["fields"][0]["path"], "answers.meter.fuse_carriers");
    assert!(refused.error().contains("1 to 3"));
    assert_eq!(house.count("corrections").await, 1);
}

#[tokio::test]
async fn a_photo_is_shown_as_it_came_and_kept_by_no_cache() {
    let house = house_with_one().await;
    let cookie = house.sign_in().await;
    let answered = house.get_as(&cookie, &fill("/api/installer/enquiries/KEY/photos/HASH")).await;
    assert_eq!(answered.bytes, picture(0));
    assert_eq!(answered.headers[header::CONTENT_TYPE], "image/jpeg");
    assert_eq!(answered.headers[header::CACHE_CONTROL], "private, no-store");
    assert_eq!(answered.headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
    let missing = house.get_as(&cookie, &fill("/api/installer/enquiries/KEY/photos/0")).await;
    assert_eq!(missing.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_part_that_cannot_be_is_refused_in_words() {
    let house = house_with_one().await;
    let cookie = house.sign_in().await;
    let refused = house.get_as(&cookie, "/api/installer/enquiries?limit=many").await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(refused.json()["fields"][0]["path"], "limit");
    assert_eq!(house.get_as(&cookie, "/api/installer/enquiries?limit=-5").await.status, StatusCode::OK);
}
