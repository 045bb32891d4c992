//! What a homeowner adds after sending: photos by the secret made with the enquiry, answers by a link that asks for them.

use crate::house::{Answered, House, PHOTO_SECRET, SECRET, enquiry, picture, sha256};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use jiff::{SignedDuration, Timestamp};
use presurvey::enquiry::Photo;
use serde_json::{Value, json};

const HOME: &str = "/api/enquiries/00000000000000000000000000000001";

async fn open(house: &House, secret: &str) -> Answered {
    let request = Request::get(format!("{HOME}/additions")).header(header::AUTHORIZATION, format!("Bearer {secret}"));
    house.send(request.body(Body::empty()).unwrap()).await
}

async fn add(house: &House, secret: &str, additions: Value) -> Answered {
    let request = Request::post(format!("{HOME}/additions")).header(header::AUTHORIZATION, format!("Bearer {secret}"));
    house.send(request.body(additions.to_string().into()).unwrap()).await
}

async fn make_link(house: &House, cookie: &str, questions: Value) -> Answered {
    let request = Request::post("/api/installer/enquiries/00000000000000000000000000000001/link");
    let request = request.header(header::COOKIE, cookie).header("x-presurvey", "1");
    house.send(request.body(json!({ "questions": questions }).to_string().into()).unwrap()).await
}

/// The token of a link that asks these questions.
async fn token(house: &House, cookie: &str, questions: Value) -> String {
    let made = make_link(house, cookie, questions).await;
    assert_eq!(made.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&made.bytes));
    let fragment = made.json()["fragment"].as_str().unwrap().to_owned();
    let (key, token) = fragment.strip_prefix("presurvey-link=").unwrap().split_once('.').unwrap();
    assert_eq!(key, enquiry(1).envelope.client_key);
    token.to_owned()
}

async fn detail(house: &House, cookie: &str) -> Value {
    house.get_as(cookie, "/api/installer/enquiries/00000000000000000000000000000001").await.json()
}

fn one_photo(bytes: &[u8]) -> Value {
    let photo = Photo { sha256: sha256(bytes), ..enquiry(1).payload.photos[0].clone() };
    json!({ "photos": [photo], "photo_sizes": [bytes.len()] })
}

/// An enquiry of a home where nothing was noticed, so that meter and board may be asked about.
async fn house_with_one() -> (House, String) {
    let house = House::new().await;
    let mut sent = enquiry(1);
    sent.payload.answers.hazard.signs = presurvey::answers::Answer::Known(presurvey::answers::Set::NONE);
    assert_eq!(house.post_enquiry(&sent).await.status, StatusCode::CREATED);
    let cookie = house.sign_in().await;
    (house, cookie)
}

#[tokio::test]
async fn a_photo_is_added_later_and_reaches_the_installer_once() {
    let (house, cookie) = house_with_one().await;
    house
        .put_as(&cookie, "/api/installer/enquiries/00000000000000000000000000000001/handled", json!({"handled": true}))
        .await;
    assert_eq!(open(&house, PHOTO_SECRET).await.json()["questions"], json!([]));
    let later = picture(5);
    for _ in 0..2 {
        let receipt = add(&house, PHOTO_SECRET, one_photo(&later)).await;
        assert_eq!(receipt.status, StatusCode::OK, "{}", String::from_utf8_lossy(&receipt.bytes));
        assert!(receipt.json()["photos_missing"].as_array().unwrap().contains(&json!(sha256(&later))));
    }
    let key = &enquiry(1).envelope.client_key;
    assert_eq!(house.put_photo(key, &sha256(&later), later.clone()).await.status, StatusCode::NO_CONTENT);
    let detail = detail(&house, &cookie).await;
    let photos = detail["enquiry"]["payload"]["photos"].as_array().unwrap();
    assert_eq!(photos.len(), 2);
    assert_eq!(photos[1]["sha256"], sha256(&later));
    assert_eq!(detail["enquiry"]["envelope"]["photo_sizes"][1], later.len());
    assert_eq!(detail["photos_arrived"], json!([sha256(&later)]));
    assert_eq!(detail["handled"], false, "what came later is to be looked at");
    assert_eq!(detail["corrected"], Value::Null);
}

#[tokio::test]
async fn the_secret_for_photos_opens_nothing_else() {
    let (house, _) = house_with_one().await;
    let refused = add(&house, PHOTO_SECRET, json!({ "answers": { "board": { "protection": "breakers" } } })).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(refused.json()["fields"][0]["path"], "answers.board.protection");
    let delete = Request::delete(HOME).header(header::AUTHORIZATION, format!("Bearer {PHOTO_SECRET}"));
    assert_eq!(house.send(delete.body(Body::empty()).unwrap()).await.status, StatusCode::FORBIDDEN);
    for wrong in ["", SECRET, "another", &enquiry(1).envelope.addition_hash.unwrap()] {
        let refused = add(&house, wrong, one_photo(&picture(5))).await;
        assert_eq!(refused.status, StatusCode::NOT_FOUND, "{wrong}");
        assert!(refused.error().contains("link"), "{}", refused.error());
    }
    assert_eq!((house.count("enquiries").await, house.count("photos").await), (1, 1));
}

#[tokio::test]
async fn an_enquiry_holds_so_many_photos_and_no_more() {
    let (house, _) = house_with_one().await;
    let photos: Vec<Value> =
        (0..40).map(|at| json!({ "sha256": sha256(&[at]), "place": "other", "width": 1, "height": 1 })).collect();
    let all = json!({ "photos": photos, "photo_sizes": vec![1; 40] });
    let refused = add(&house, PHOTO_SECRET, all).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(refused.error().contains("at most 40"));
    let bad =
        json!({ "photos": [{ "sha256": "../x", "place": "other", "width": 1, "height": 1 }], "photo_sizes": [1] });
    assert_eq!(add(&house, PHOTO_SECRET, bad).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(add(&house, PHOTO_SECRET, json!({ "photos": photos })).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(house.count("photos").await, 1, "nothing of what was refused is there");
}

#[tokio::test]
async fn a_link_takes_just_the_answers_it_asks_for_and_keeps_the_earlier_ones() {
    let (house, cookie) = house_with_one().await;
    let token = token(&house, &cookie, json!(["fuse-carriers", "head-conductors"])).await;
    assert_eq!(open(&house, &token).await.json()["questions"], json!(["fuse-carriers", "head-conductors"]));

    let beside = json!({ "answers": { "meter": { "fuse_carriers": 1 }, "home": { "postcode": "ZZ9" } } });
    let refused = add(&house, &token, beside).await;
    assert_eq!(refused.json()["fields"][0]["path"], "answers.home.postcode");
    assert_eq!(house.count("corrections").await, 0);

    let answers =
        json!({ "answers": { "as_of": "2026-11-26", "meter": { "fuse_carriers": 1, "head_conductors": 4 } } });
    for _ in 0..2 {
        assert_eq!(add(&house, &token, answers.clone()).await.status, StatusCode::OK);
    }
    assert_eq!(house.count("corrections").await, 1, "what comes twice is there once");
    let first = detail(&house, &cookie).await;
    assert_eq!(first["corrected"]["said_by"], "homeowner");
    assert_eq!(first["corrected"]["answers"]["meter"], json!({ "fuse_carriers": 1, "head_conductors": 4 }));
    assert_eq!(first["corrected"]["answers"]["home"]["postcode"], "ZZ1 1AA");
    assert_eq!(first["corrected"]["answers"]["as_of"], first["enquiry"]["payload"]["answers"]["as_of"]);
    assert!(first["corrected"]["assessment"]["flags"].to_string().contains("looped-supply"));
    assert_eq!(first["enquiry"]["payload"]["answers"]["meter"], Value::Null, "as sent stays as sent");

    // A later answer to the same link stands, and one left open changes nothing.
    let later = json!({ "answers": { "meter": { "fuse_carriers": 3 } } });
    assert_eq!(add(&house, &token, later).await.status, StatusCode::OK);
    let second = detail(&house, &cookie).await;
    assert_eq!(second["corrected"]["answers"]["meter"], json!({ "fuse_carriers": 3, "head_conductors": 4 }));
    assert_eq!(house.count("corrections").await, 2);
}

#[tokio::test]
async fn a_link_asks_only_what_is_asked_of_that_home() {
    let house = House::new().await;
    // Nothing is known of hazards: nobody is sent to the meter.
    house.post_enquiry(&enquiry(1)).await;
    let cookie = house.sign_in().await;
    let refused = make_link(&house, &cookie, json!(["tenure", "fuse-carriers", "colour"])).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    let fields = refused.json()["fields"].clone();
    assert_eq!((&fields[0]["path"], &fields[1]["path"]), (&json!("questions[1]"), &json!("questions[2]")));
    for none in [json!([]), json!(vec!["tenure"; 13]), json!("tenure")] {
        assert_eq!(make_link(&house, &cookie, none).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    }
    assert_eq!(make_link(&house, "", json!(["hazard"])).await.status, StatusCode::UNAUTHORIZED);
    assert_eq!(house.count("links").await, 0);
    token(&house, &cookie, json!(["hazard"])).await;
}

#[tokio::test]
async fn a_link_goes_with_its_enquiry() {
    let (house, cookie) = house_with_one().await;
    let token = token(&house, &cookie, json!(["tenure"])).await;
    for wrong in ["", "0", &token[..31], &enquiry(1).envelope.deletion_hash] {
        let refused = open(&house, wrong).await;
        assert_eq!(refused.status, StatusCode::NOT_FOUND);
        assert!(refused.error().contains("opens nothing"));
    }
    house.change("UPDATE enquiries SET keep_until = '2020-01-01'").await;
    assert_eq!(open(&house, &token).await.status, StatusCode::NOT_FOUND);
    assert_eq!(house.tidy_from_to(Timestamp::now(), Timestamp::now() + SignedDuration::from_hours(24)).await, 1);
    assert_eq!((house.count("enquiries").await, house.count("links").await), (0, 0));
    assert_eq!(open(&house, &token).await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_is_found_on_looking_later_is_added_by_either_secret_and_ends_the_looking() {
    for by_link in [true, false] {
        let (house, cookie) = house_with_one().await;
        let link = token(&house, &cookie, json!(["fuse-carriers", "tenure"])).await;
        let secret = if by_link { link.as_str() } else { PHOTO_SECRET };
        assert_eq!(open(&house, secret).await.json()["looks"], true);
        let found = json!({ "answers": { "hazard":
            { "signs": ["discolouration"], "place": "board", "when": "now", "found_at": "board" } } });
        for _ in 0..2 {
            let taken = add(&house, secret, found.clone()).await;
            assert_eq!(taken.status, StatusCode::OK, "{}", String::from_utf8_lossy(&taken.bytes));
        }
        assert_eq!(house.count("corrections").await, 1, "what comes twice is there once");
        let opened = open(&house, &link).await.json();
        assert_eq!(
            (&opened["looks"], &opened["questions"]),
            (&json!(false), &json!([])),
            "nothing more is asked beside a danger"
        );
        assert_eq!(open(&house, PHOTO_SECRET).await.json()["looks"], false);
        let now = detail(&house, &cookie).await;
        assert_eq!(now["corrected"]["answers"]["hazard"], found["answers"]["hazard"]);
        assert_eq!(now["corrected"]["assessment"]["complexity"], "look-first");
        assert_eq!(now["corrected"]["assessment"]["flags"][0]["code"], "hazard-seen");
        assert_eq!(now["handled"], false, "the installer is told");

        // It is not taken away by saying that there is nothing, nor does another sign replace it.
        let nothing = json!({ "answers": { "hazard": { "signs": [] } } });
        assert_eq!(add(&house, secret, nothing).await.status, StatusCode::OK);
        let another = json!({ "answers": { "hazard": { "signs": ["buzzing"], "place": "meter", "when": "now" } } });
        assert_eq!(add(&house, secret, another).await.status, StatusCode::OK);
        let now = detail(&house, &cookie).await;
        assert_eq!(now["corrected"]["answers"]["hazard"]["signs"], json!(["buzzing", "discolouration"]));

        // A question of the meter can't be asked any more; an answer that was seen before is taken all the same.
        let refused = make_link(&house, &cookie, json!(["head-conductors"])).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
        let seen_before = json!({ "answers": { "meter": { "fuse_carriers": 1 } } });
        assert_eq!(add(&house, &link, seen_before).await.status, StatusCode::OK);
        let last = detail(&house, &cookie).await;
        assert_eq!(last["corrected"]["answers"]["meter"], json!({ "fuse_carriers": 1 }));
    }
}

#[tokio::test]
async fn whoever_is_not_sure_any_more_is_not_sent_to_look() {
    let (house, cookie) = house_with_one().await;
    let unsure = json!({ "answers": { "hazard": { "signs": "not-sure" } } });
    assert_eq!(add(&house, PHOTO_SECRET, unsure).await.status, StatusCode::OK);
    assert_eq!(open(&house, PHOTO_SECRET).await.json()["looks"], false);
    let now = detail(&house, &cookie).await;
    assert_eq!(now["corrected"]["answers"]["hazard"]["signs"], "not-sure");
    assert_eq!(now["corrected"]["assessment"]["complexity"], "look-first");
}
