//! What the service makes of where it stands: cookies by its public address, visitors by the proxies that it trusts, so many enquiries a day.

use crate::command::presurvey;
use crate::house::{Answered, House, PASSWORD, SECRET, enquiry, picture, sha256, sign_in_from};
use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::{HeaderValue, Request, StatusCode, header};
use presurvey::config::{Config, demo_setup};
use presurvey::service::{Surroundings, set_password};
use serde_json::json;
use std::net::SocketAddr;

fn told(address: Option<&str>, proxies: Option<&[&str]>, a_day: Option<u32>) -> Surroundings {
    let proxies: Option<Vec<String>> = proxies.map(|list| list.iter().map(|one| (*one).to_owned()).collect());
    Surroundings::read(address, proxies.as_deref(), a_day.map(|most| most.try_into().unwrap())).unwrap()
}

async fn house(surroundings: Surroundings) -> House {
    let house = House::new().await.standing_in(surroundings);
    set_password(&house.service, PASSWORD).await.unwrap();
    house
}

/// Signs in as a browser does: from a page of an origin, through a proxy that hands on a host of its own.
async fn signed_in(house: &House, origin: Option<&str>, host: &str) -> Vec<String> {
    let mut request = sign_in_from(PASSWORD, None, [127, 0, 0, 1]);
    request.headers_mut().insert(header::HOST, HeaderValue::from_str(host).unwrap());
    if let Some(origin) = origin {
        request.headers_mut().insert(header::ORIGIN, HeaderValue::from_str(origin).unwrap());
    }
    let answered = house.send(request).await;
    assert_eq!(answered.status, StatusCode::NO_CONTENT);
    set_by(&answered)
}

fn set_by(answered: &Answered) -> Vec<String> {
    answered.headers.get_all(header::SET_COOKIE).iter().map(|line| line.to_str().unwrap().to_owned()).collect()
}

#[tokio::test]
async fn cookies_go_by_the_public_address_and_not_by_what_a_proxy_hands_on() {
    for (address, origin, host, secure) in [
        // A default nginx names itself as the host.
        (Some("https://installer.invalid"), None, "127.0.0.1:8080", true),
        (Some("https://installer.invalid"), Some("http://localhost:8080"), "localhost:8080", true),
        (Some("http://localhost:8080"), None, "localhost:8080", false),
        (None, Some("https://installer.invalid"), "127.0.0.1:8080", true),
        (None, None, "127.0.0.1:8080", true),
        (None, Some("http://127.0.0.1:8080"), "127.0.0.1:8080", false),
    ] {
        let house = house(told(address, None, None)).await;
        let cookies = signed_in(&house, origin, host).await;
        assert_eq!(cookies.len(), 2);
        for line in &cookies {
            for part in ["HttpOnly", "SameSite=Strict", "Path=/"] {
                assert!(line.contains(part), "{part} in {line}");
            }
            assert_eq!(line.contains("Secure"), secure, "{address:?} {origin:?}: {line}");
            assert_eq!(line.starts_with("__Host-presurvey_"), secure, "{line}");
            assert!(!line.contains("Domain"), "{line}");
        }
        let cookie = cookies[0].split(';').next().unwrap();
        assert_eq!(house.get_as(cookie, "/api/session").await.status, StatusCode::OK);
    }
}

#[tokio::test]
async fn where_the_address_is_encrypted_a_cookie_that_is_not_opens_nothing() {
    let house = house(told(Some("https://installer.invalid"), None, None)).await;
    let cookies = signed_in(&house, None, "installer.invalid").await;
    let cookie = cookies[0].split(';').next().unwrap();
    let plain = cookie.strip_prefix("__Host-").unwrap();
    assert_eq!(house.get_as(plain, "/api/session").await.status, StatusCode::UNAUTHORIZED);
    // Signing out has a browser drop the cookie of either name.
    let out = Request::delete("/api/session").header(header::COOKIE, cookie).header("x-presurvey", "1");
    let answered = house.send(out.body(Body::empty()).unwrap()).await;
    let gone = set_by(&answered);
    assert!(gone.iter().all(|line| line.contains("Max-Age=0")), "{gone:?}");
    assert!(gone[0].starts_with("__Host-presurvey_session=;") && gone[0].contains("Secure"), "{gone:?}");
    assert!(gone[1].starts_with("presurvey_session=;"), "{gone:?}");
    assert_eq!(house.get_as(cookie, "/api/session").await.status, StatusCode::UNAUTHORIZED);
}

#[tokio::test]
async fn a_browser_that_an_earlier_build_knew_is_still_known() {
    let house = house(told(Some("https://installer.invalid"), None, None)).await;
    let cookies = signed_in(&house, None, "installer.invalid").await;
    // The cookie as earlier builds named it.
    let known = cookies[1].split(';').next().unwrap().strip_prefix("__Host-").unwrap();
    assert!(known.starts_with("presurvey_known="), "{known}");
    for _ in 0..5 {
        house.try_password("a wrong guess", None).await;
    }
    assert_eq!(house.try_password(PASSWORD, None).await.status, StatusCode::TOO_MANY_REQUESTS);
    assert_eq!(house.try_password(PASSWORD, Some(known)).await.status, StatusCode::NO_CONTENT);
}

/// As somebody whom a proxy on this machine names.
fn through_proxy(mut request: Request<Body>, visitor: &str) -> Request<Body> {
    request.extensions_mut().insert(ConnectInfo(SocketAddr::from(([127, 0, 0, 1], 4711))));
    request.headers_mut().insert("x-forwarded-for", HeaderValue::from_str(visitor).unwrap());
    request
}

#[tokio::test]
async fn behind_a_proxy_one_who_guesses_keeps_out_nobody_but_themselves() {
    let house = house(Surroundings::default()).await;
    let tries = |password, visitor: &str| house.send(through_proxy(sign_in_from(password, None, [0; 4]), visitor));
    for _ in 0..5 {
        assert_eq!(tries("a wrong guess", "2001:db8:0:5::1").await.status, StatusCode::UNAUTHORIZED);
    }
    // Another address of the same home, and whatever it writes before what the proxy adds.
    for same in ["2001:db8:0:5::2", "203.0.113.9, [2001:db8:0:5::3]:4711"] {
        assert_eq!(tries(PASSWORD, same).await.status, StatusCode::TOO_MANY_REQUESTS, "{same}");
    }
    assert_eq!(tries(PASSWORD, "2001:db8:0:6::1").await.status, StatusCode::NO_CONTENT, "the next home");
}

#[tokio::test]
async fn guesses_from_everywhere_lock_nobody_out() {
    let house = house(Surroundings::default()).await;
    let tries = |password, last| house.send(sign_in_from(password, None, [192, 0, 2, last]));
    for last in 0..60 {
        assert_eq!(tries("a wrong guess", last).await.status, StatusCode::UNAUTHORIZED);
    }
    assert_eq!(tries("a wrong guess", 0).await.status, StatusCode::TOO_MANY_REQUESTS, "one that failed before");
    assert_eq!(tries(PASSWORD, 200).await.status, StatusCode::NO_CONTENT, "one that did not");
}

fn posted(key: u64, visitor: &str) -> Request<Body> {
    let request = Request::post("/api/enquiries").header(header::CONTENT_TYPE, "application/json");
    through_proxy(request.body(serde_json::to_vec(&enquiry(key)).unwrap().into()).unwrap(), visitor)
}

#[tokio::test]
async fn photos_are_paced_apart_from_enquiries() {
    let house = House::new().await;
    assert_eq!(house.send(posted(1, "203.0.113.9")).await.status, StatusCode::CREATED);
    let path = format!("/api/enquiries/{:032x}/photos/{}", 1, sha256(&picture(0)));
    let put = |visitor: &str| {
        let request = Request::put(&path).header(header::CONTENT_TYPE, "image/jpeg");
        house.send(through_proxy(request.body(picture(0).into()).unwrap(), visitor))
    };
    // Room comes back while they are sent, the more the slower the machine is.
    let mut taken = 0;
    let slowed = loop {
        let answered = put("203.0.113.9").await;
        if answered.status != StatusCode::NO_CONTENT {
            break answered;
        }
        taken += 1;
    };
    assert!(taken >= 240, "{taken}");
    assert_eq!(slowed.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(slowed.headers.contains_key(header::RETRY_AFTER));
    assert!(slowed.error().contains("photos"), "{}", slowed.error());
    assert_eq!(put("203.0.113.10").await.status, StatusCode::NO_CONTENT);
    assert_eq!(house.send(posted(2, "203.0.113.9")).await.status, StatusCode::CREATED);
}

#[tokio::test]
async fn what_was_sent_and_deleted_again_counts_among_a_days_enquiries() {
    let house = House::new().await.standing_in(told(None, None, Some(2)));
    for key in 1..=2 {
        assert_eq!(house.post_enquiry(&enquiry(key)).await.status, StatusCode::CREATED);
        let delete = Request::delete(format!("/api/enquiries/{key:032x}"));
        let delete = delete.header(header::AUTHORIZATION, format!("Bearer {SECRET}"));
        assert_eq!(house.send(delete.body(Body::empty()).unwrap()).await.status, StatusCode::NO_CONTENT);
    }
    let later = house.post_enquiry(&enquiry(3)).await;
    assert_eq!(later.status, StatusCode::SERVICE_UNAVAILABLE, "each was told to the installer");
    assert!(later.headers.contains_key(header::RETRY_AFTER));
    house.change("UPDATE events SET at = strftime('%Y-%m-%dT%H:%M:%SZ', 'now', '-25 hours')").await;
    assert_eq!(house.post_enquiry(&enquiry(3)).await.status, StatusCode::CREATED, "a day later");
}

#[tokio::test]
async fn past_a_days_quota_new_enquiries_are_told_to_come_later() {
    let house = House::new().await.standing_in(told(None, None, Some(2)));
    for key in [1, 2] {
        assert_eq!(house.post_enquiry(&enquiry(key)).await.status, StatusCode::CREATED);
    }
    let later = house.post_enquiry(&enquiry(3)).await;
    assert_eq!(later.status, StatusCode::SERVICE_UNAVAILABLE);
    let wait: u32 = later.headers[header::RETRY_AFTER].to_str().unwrap().parse().unwrap();
    assert!((60..=900).contains(&wait), "{wait}");
    later.error();
    assert_eq!(house.count("enquiries").await, 2);
    assert_eq!(house.post_enquiry(&enquiry(1)).await.status, StatusCode::OK, "it is there already");
    let form = Request::post("/api/enquiries").header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    let form = form.header(header::ACCEPT, "text/html").body(Body::from("name=Invented&email=a%40b.invalid")).unwrap();
    let page = house.send(form).await;
    assert_eq!(page.status, StatusCode::SERVICE_UNAVAILABLE);
    assert!(page.headers.contains_key(header::RETRY_AFTER));
    assert!(String::from_utf8(page.bytes).unwrap().contains("01632"), "whom to ring meanwhile");
    // The day passes.
    house.change("UPDATE enquiries SET received = '2026-01-01T00:00:00Z'").await;
    assert_eq!(house.post_enquiry(&enquiry(3)).await.status, StatusCode::CREATED);
}

#[test]
fn a_setup_is_refused_by_the_name_of_what_is_not_allowed_and_none_of_it_is_published() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("setup.json");
    let with = |address: &str, proxy: &str| {
        let mut setup = serde_json::to_value(demo_setup()).unwrap();
        setup["public_address"] = json!(address);
        setup["proxies"] = json!(["127.0.0.1", proxy]);
        setup["enquiries_a_day"] = json!(7);
        std::fs::write(&file, setup.to_string()).unwrap();
        presurvey(&["publish", file.to_str().unwrap()], "")
    };
    let refused = with("http://installer.invalid", "10.0.0.0/40");
    assert_eq!(refused.status.code(), Some(2));
    let words = String::from_utf8(refused.stderr).unwrap();
    assert!(words.contains("`public_address`") && words.contains("`proxies[1]`"), "{words}");
    let published = with("https://installer.invalid", "10.0.0.0/8");
    assert!(published.status.success());
    let text = String::from_utf8(published.stdout).unwrap();
    assert_eq!(serde_json::from_str::<Config>(&text).unwrap(), presurvey::config::demo_config());
    assert!(!text.contains("installer.invalid") && !text.contains("proxies") && !text.contains("10.0.0.0"), "{text}");
}
