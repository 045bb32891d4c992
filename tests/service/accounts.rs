//! Who gets in: accounts, what each may do, the second factor, how long a session lasts, and what an earlier folder brings along.

use crate::command::presurvey;
use crate::house::{Answered, House, PASSWORD, enquiry, picture, sha256};
use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::{Method, Request, StatusCode, header};
use jiff::{SignedDuration, Timestamp, Unit};
use presurvey::answers::{Answer, Set};
use presurvey::config::demo_config;
use presurvey::enquiry::Enquiry;
use presurvey::service::{
    AccountName, Role, SecondFactor, Service, accounts, add_account, app, events, remove_account, reset_account,
    set_password, set_password_of, tidy, turn_on_second_factor,
};
use serde_json::{Value, json};
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::sqlite::SqliteConnectOptions;
use sqlx::{AssertSqlSafe, SqlSafeStr, SqlitePool};
use std::io::{BufRead, BufReader, Write};
use std::net::SocketAddr;
use std::path::Path;
use std::process::{Command, Stdio};
use totp_rs::Totp;

const COLLEAGUES: &str = "a colleague's invented one";

fn name(of: &str) -> AccountName {
    of.parse().unwrap()
}

/// A service with an owner and the colleague `sam`.
async fn house_of_two() -> House {
    let house = House::new().await;
    set_password(&house.service, PASSWORD).await.unwrap();
    add_account(&house.service, &name("sam"), Role::Colleague, COLLEAGUES).await.unwrap();
    house
}

/// Signs in from an address, with the cookies that a browser has.
async fn tried(house: &House, body: Value, last: u8, cookie: &str) -> Answered {
    let request = Request::post("/api/session").header("x-presurvey", "1").header(header::COOKIE, cookie);
    let peer = ConnectInfo(SocketAddr::from(([192, 0, 2, last], 4711)));
    house.send(request.extension(peer).body(body.to_string().into()).unwrap()).await
}

/// The cookies of a sign-in.
fn cookies(answered: &Answered) -> String {
    assert_eq!(answered.status, StatusCode::NO_CONTENT, "{}", String::from_utf8_lossy(&answered.bytes));
    let lines = answered.headers.get_all(header::SET_COOKIE).iter();
    lines.map(|line| line.to_str().unwrap().split(';').next().unwrap()).collect::<Vec<_>>().join("; ")
}

async fn as_owner(house: &House) -> String {
    cookies(&tried(house, json!({ "password": PASSWORD }), 1, "").await)
}

async fn as_sam(house: &House) -> String {
    cookies(&tried(house, json!({ "name": "sam", "password": COLLEAGUES }), 2, "").await)
}

async fn who(house: &House, cookie: &str) -> Option<Value> {
    let answered = house.get_as(cookie, "/api/session").await;
    (answered.status == StatusCode::OK).then(|| answered.json())
}

async fn kinds(house: &House) -> Vec<String> {
    events(&house.service).await.unwrap().into_iter().map(|event| event.kind).collect()
}

/// Looks into the file itself, past the service.
async fn looked(folder: &Path, query: &str) -> Vec<String> {
    let pool = SqlitePool::connect_with(SqliteConnectOptions::new().filename(folder.join("presurvey.sqlite"))).await;
    let pool = pool.unwrap();
    let found = sqlx::query_scalar(AssertSqlSafe(query.to_owned())).fetch_all(&pool).await.unwrap();
    pool.close().await;
    found
}

/// Changes the file itself, past the service.
async fn change(house: &House, statement: &str) {
    let file = house.folder.path().join("presurvey.sqlite");
    let pool = SqlitePool::connect_with(SqliteConnectOptions::new().filename(file)).await.unwrap();
    sqlx::query(AssertSqlSafe(statement.to_owned())).execute(&pool).await.unwrap();
    pool.close().await;
}

fn now() -> Timestamp {
    Timestamp::now().round(Unit::Second).unwrap()
}

fn ago(time: SignedDuration) -> String {
    (now() - time).to_string()
}

/// An enquiry of a home in which nothing dangerous was noticed, so that everything may be asked.
fn sent() -> Enquiry {
    let mut sent = enquiry(1);
    sent.payload.answers.hazard.signs = Answer::Known(Set::NONE);
    sent
}

/// Every route behind the sign-in: what an owner is answered, and whether a colleague is answered the same. What deletes is last.
fn routes() -> Vec<(Method, String, Value, u16, bool)> {
    let key = enquiry(1).envelope.client_key;
    let of = |rest: &str| format!("/api/installer/enquiries/{key}{rest}");
    let answers = serde_json::to_value(sent().payload.answers).unwrap();
    let photo = of(&format!("/photos/{}", sha256(&picture(0))));
    let tomorrow = ago(SignedDuration::from_hours(-24))[.."2026-01-01".len()].to_owned();
    vec![
        (Method::GET, "/api/session".into(), Value::Null, 200, true),
        (Method::GET, "/api/installer/enquiries".into(), Value::Null, 200, true),
        (Method::GET, "/api/installer/outbox".into(), Value::Null, 200, true),
        (Method::GET, of(""), Value::Null, 200, true),
        (Method::GET, photo, Value::Null, 200, true),
        (Method::PUT, of("/answers"), json!({ "answers": answers }), 200, true),
        (Method::PUT, of("/handled"), json!({ "handled": true }), 204, true),
        (Method::POST, of("/link"), json!({ "questions": ["fuse-carriers"] }), 201, true),
        (Method::PUT, of("/job"), json!({ "became": ["invoice"], "until": tomorrow }), 200, true),
        (Method::GET, "/api/installer/jobs".into(), Value::Null, 200, true),
        (Method::GET, "/api/installer/anything".into(), Value::Null, 404, true),
        (Method::GET, of("/export"), Value::Null, 200, false),
        (Method::HEAD, of("/export"), Value::Null, 200, false),
        (Method::DELETE, of(""), Value::Null, 200, false),
        (Method::DELETE, format!("/api/installer/jobs/{key}"), Value::Null, 204, false),
    ]
}

async fn ask(house: &House, cookie: &str, method: &Method, path: &str, body: &Value) -> Answered {
    let request = Request::builder().method(method).uri(path).header(header::COOKIE, cookie).header("x-presurvey", "1");
    let body = if body.is_null() { Body::empty() } else { body.to_string().into() };
    house.send(request.body(body).unwrap()).await
}

#[tokio::test]
async fn every_operation_behind_the_sign_in_is_among_those_that_are_tried() {
    let document = House::new().await.get("/api/openapi.json").await.json();
    let tried: Vec<_> = routes().into_iter().map(|(method, path, ..)| (method.to_string(), path)).collect();
    let key = enquiry(1).envelope.client_key;
    let paths = document["paths"].as_object().unwrap().iter().filter(|(path, _)| path.starts_with("/api/installer/"));
    for (path, item) in paths {
        let path = path.replace("{client_key}", &key).replace("{sha256}", &sha256(&picture(0)));
        for method in item.as_object().unwrap().keys() {
            assert!(tried.contains(&(method.to_uppercase(), path.clone())), "{method} {path}");
        }
    }
}

#[tokio::test]
async fn every_route_is_open_to_whom_it_is_for_and_refused_it_changes_nothing() {
    let house = house_of_two().await;
    house.post_enquiry(&sent()).await;
    house.put_photo(&enquiry(1).envelope.client_key, &sha256(&picture(0)), picture(0)).await;
    let state = || async {
        let tables = ["enquiries", "enquiries WHERE handled = 1", "corrections", "links", "jobs", "events", "accounts"];
        let mut counts = Vec::new();
        for table in tables {
            counts.push(house.count(table).await);
        }
        (counts, house.photo_files().len())
    };
    let (owner, colleague) = (as_owner(&house).await, as_sam(&house).await);
    let before = state().await;
    for (method, path, body, ..) in routes() {
        assert_eq!(ask(&house, "", &method, &path, &body).await.status, 401, "{method} {path}");
    }
    assert_eq!(state().await, before, "nobody changes anything");
    for (method, path, body, status, _) in routes().into_iter().filter(|(.., same)| !same) {
        let refused = ask(&house, &colleague, &method, &path, &body).await;
        assert_eq!(refused.status, 403, "{method} {path} as a colleague, not {status}");
        if method != Method::HEAD {
            assert!(refused.error().contains("owner"), "{}", refused.error());
        }
    }
    assert_eq!(state().await, before, "what is refused changes nothing");
    for (method, path, body, status, same) in routes() {
        if same {
            let answered = ask(&house, &colleague, &method, &path, &body).await;
            assert_eq!(answered.status, status, "{method} {path} as a colleague");
        }
    }
    for (method, path, body, status, _) in routes() {
        assert_eq!(ask(&house, &owner, &method, &path, &body).await.status, status, "{method} {path} as the owner");
    }
    assert_eq!(
        (house.count("enquiries").await, house.photo_files().len()),
        (0, 0),
        "the owner's deleting went through"
    );
}

#[tokio::test]
async fn a_session_says_whose_it_is_and_a_password_alone_is_the_owners() {
    let house = house_of_two().await;
    let (owner, sam) = (as_owner(&house).await, as_sam(&house).await);
    assert_eq!(who(&house, &owner).await.unwrap(), json!({ "name": "owner", "role": "owner" }));
    assert_eq!(who(&house, &sam).await.unwrap(), json!({ "name": "sam", "role": "colleague" }));
    let named = tried(&house, json!({ "name": " Owner ", "password": PASSWORD }), 3, "").await;
    assert_eq!(who(&house, &cookies(&named)).await.unwrap()["name"], "owner", "however it is typed");
    // A password of one is no other's, and who there is can't be told from the answers.
    let mut told = Vec::new();
    for (at, body) in [
        json!({ "password": COLLEAGUES }),
        json!({ "name": "sam", "password": PASSWORD }),
        json!({ "name": "nobody", "password": PASSWORD }),
        json!({ "name": "no name at all' OR 1", "password": PASSWORD }),
        json!({ "name": "", "password": PASSWORD }),
    ]
    .into_iter()
    .enumerate()
    {
        let refused = tried(&house, body, 10 + at as u8, "").await;
        assert_eq!(refused.status, StatusCode::UNAUTHORIZED);
        assert_eq!(refused.json()["reason"], "wrong-password");
        told.push(refused.bytes);
    }
    assert!(told.iter().all(|one| *one == told[0]));
}

#[tokio::test]
async fn signing_in_draws_a_new_token_and_ends_the_one_that_was_sent() {
    let house = house_of_two().await;
    let before = as_owner(&house).await;
    let chosen = format!("presurvey_session={}", "a".repeat(64));
    let after = cookies(&tried(&house, json!({ "password": PASSWORD }), 1, &format!("{before}; {chosen}")).await);
    assert!(who(&house, &after).await.is_some());
    assert!(who(&house, &before).await.is_none(), "the one before is over");
    assert!(who(&house, &chosen).await.is_none(), "nobody's own choice opens anything");
    // Another browser's goes on.
    let other = as_owner(&house).await;
    assert!(who(&house, &after).await.is_some() && who(&house, &other).await.is_some());
}

#[tokio::test]
async fn setting_a_password_or_removing_an_account_signs_out_that_one_alone() {
    let house = house_of_two().await;
    let (owner, sam) = (as_owner(&house).await, as_sam(&house).await);
    set_password_of(&house.service, &name("sam"), "another invented one").await.unwrap();
    assert!(who(&house, &sam).await.is_none() && who(&house, &owner).await.is_some());
    let sam = cookies(&tried(&house, json!({ "name": "sam", "password": "another invented one" }), 2, "").await);
    set_password(&house.service, "another invented one").await.unwrap();
    assert!(who(&house, &sam).await.is_some() && who(&house, &owner).await.is_none());

    remove_account(&house.service, &name("sam")).await.unwrap();
    assert!(who(&house, &sam).await.is_none());
    assert_eq!(house.get_as(&sam, "/api/installer/enquiries").await.status, StatusCode::UNAUTHORIZED);
    let gone = tried(&house, json!({ "name": "sam", "password": "another invented one" }), 2, &sam).await;
    assert_eq!(gone.status, StatusCode::UNAUTHORIZED);
    assert_eq!(house.count("known_browsers JOIN accounts ON id = account WHERE name = 'sam'").await, 0);
    let told = kinds(&house).await;
    assert!(told.contains(&"account-added".to_owned()) && told.contains(&"account-removed".to_owned()), "{told:?}");
}

#[tokio::test]
async fn a_session_that_nobody_uses_ends_and_one_that_is_used_goes_on_to_its_end() {
    let house = house_of_two().await;
    let cookie = as_owner(&house).await;
    let days = |days: i64| SignedDuration::from_hours(24 * days);
    let used = || async { looked(house.folder.path(), "SELECT used FROM sessions").await.remove(0) };
    let fresh = used().await;
    change(&house, &format!("UPDATE sessions SET used = '{}'", ago(days(7)))).await;
    assert!(who(&house, &cookie).await.is_some(), "somebody comes back from a week away");
    // It is written beside the request; that it is written at all is what this waits for.
    while used().await < fresh {
        tokio::task::yield_now().await;
    }
    // Within the hour nothing is written.
    let lately = ago(SignedDuration::from_mins(50));
    change(&house, &format!("UPDATE sessions SET used = '{lately}'")).await;
    for _ in 0..20 {
        assert!(who(&house, &cookie).await.is_some());
    }
    tidy(&house.service, now()).await.unwrap(); // the writer's turn comes after whatever waits for it
    assert_eq!(used().await, lately);

    change(&house, &format!("UPDATE sessions SET used = '{}'", ago(days(8) + SignedDuration::from_mins(1)))).await;
    assert!(who(&house, &cookie).await.is_none());
    assert_eq!(house.count("sessions").await, 1);
    tidy(&house.service, now()).await.unwrap();
    assert_eq!(house.count("sessions").await, 0);

    let cookie = as_owner(&house).await;
    let until = looked(house.folder.path(), "SELECT until FROM sessions").await.remove(0);
    assert!(until > ago(-days(13)) && until <= ago(-days(14)), "{until}");
    change(&house, &format!("UPDATE sessions SET until = '{}'", ago(SignedDuration::ZERO))).await;
    assert!(who(&house, &cookie).await.is_none(), "however lately it was used");
}

/// Turns codes on and returns what an app would make of its address.
async fn with_codes(house: &House, of: &str) -> Totp {
    let factor = SecondFactor::draw(&name(of)).unwrap();
    let app = Totp::from_url(factor.address().unwrap()).unwrap();
    assert_eq!((app.issuer(), app.account_name()), (Some("presurvey"), of));
    let code = code(&app);
    turn_on_second_factor(&house.service, &name(of), &factor, &code).await.unwrap();
    app
}

/// The code that an app shows now.
fn code(app: &Totp) -> String {
    app.generate(Timestamp::now().as_second().unsigned_abs()).to_string()
}

/// A code that is none of those that are taken now.
fn wrong_code(app: &Totp) -> String {
    let now = Timestamp::now().as_second().unsigned_abs();
    // A minute more on either side, as time goes on.
    let near: Vec<String> = (0..9).map(|at| app.generate(now + 30 * at - 120).to_string()).collect();
    (0..).map(|number| format!("{number:06}")).find(|code| !near.contains(code)).unwrap()
}

fn with(code: &str) -> Value {
    json!({ "password": PASSWORD, "code": code })
}

#[tokio::test]
async fn a_code_is_asked_for_and_is_taken_once() {
    let house = house_of_two().await;
    let (owner, sam) = (as_owner(&house).await, as_sam(&house).await);
    let factor = SecondFactor::draw(&name("owner")).unwrap();
    let app = Totp::from_url(factor.address().unwrap()).unwrap();
    let refused = turn_on_second_factor(&house.service, &name("owner"), &factor, &wrong_code(&app)).await;
    assert!(refused.is_err() && who(&house, &owner).await.is_some(), "a wrong code turns nothing on");
    let proof = code(&app);
    turn_on_second_factor(&house.service, &name("owner"), &factor, &proof).await.unwrap();
    assert!(who(&house, &owner).await.is_none(), "who came in without a code is out");
    assert!(who(&house, &sam).await.is_some());

    let asked = tried(&house, json!({ "password": PASSWORD }), 1, "").await;
    assert_eq!((asked.status, &asked.json()["reason"]), (StatusCode::UNAUTHORIZED, &json!("code-needed")));
    assert!(asked.headers.get(header::SET_COOKIE).is_none());
    assert_eq!(tried(&house, with(""), 1, "").await.json()["reason"], "code-needed");
    assert_eq!(house.count("attempts").await, 0, "half way is no failure");
    let wrong = json!({ "password": "not this one at all", "code": code(&app) });
    assert_eq!(tried(&house, wrong, 1, "").await.json()["reason"], "wrong-password");
    let refused = tried(&house, with(&wrong_code(&app)), 1, "").await;
    assert_eq!((refused.status, &refused.json()["reason"]), (StatusCode::UNAUTHORIZED, &json!("wrong-code")));
    assert_eq!(
        tried(&house, with(&proof), 1, "").await.json()["reason"],
        "wrong-code",
        "it was taken for turning it on"
    );

    change(&house, "UPDATE accounts SET totp_step = 0").await;
    let now = code(&app);
    let spaced = format!("{} {}", &now[..3], &now[3..]);
    let signed_in = cookies(&tried(&house, with(&spaced), 1, "").await);
    assert_eq!(who(&house, &signed_in).await.unwrap()["role"], "owner");
    for code in [&now, &spaced] {
        let again = tried(&house, with(code), 3, "").await;
        assert_eq!((again.status, &again.json()["reason"]), (StatusCode::UNAUTHORIZED, &json!("wrong-code")));
    }
    // One that was shown before the one that was taken is over too, though its time is not.
    let before = app.generate(Timestamp::now().as_second().unsigned_abs() - 30).to_string();
    assert_eq!(tried(&house, with(&before), 4, "").await.status, StatusCode::UNAUTHORIZED);
    // Who has none needs none, and what is sent in its place does no harm.
    let sam = json!({ "name": "sam", "password": COLLEAGUES, "code": "000000" });
    assert_eq!(tried(&house, sam, 5, "").await.status, StatusCode::NO_CONTENT);

    assert!(reset_account(&house.service, &name("owner")).await.unwrap());
    assert!(who(&house, &signed_in).await.is_none());
    assert_eq!(tried(&house, json!({ "password": PASSWORD }), 6, "").await.status, StatusCode::NO_CONTENT);
    assert!(!reset_account(&house.service, &name("owner")).await.unwrap(), "it was off");
    let told = kinds(&house).await;
    let counted = |kind: &str| told.iter().filter(|one| *one == kind).count();
    let expected = [1, 5, 1, 2];
    let kinds = ["second-factor-on", "second-factor-failed", "second-factor-off", "signed-out-everywhere"];
    assert_eq!(kinds.map(counted), expected, "{told:?}");
}

#[tokio::test]
async fn of_two_that_send_one_code_at_once_one_gets_in() {
    let house = house_of_two().await;
    let app = with_codes(&house, "owner").await;
    change(&house, "UPDATE accounts SET totp_step = 0").await;
    let code = code(&app);
    let both = [7, 8].map(|last| {
        let request = Request::post("/api/session").header("x-presurvey", "1");
        let peer = ConnectInfo(SocketAddr::from(([192, 0, 2, last], 4711)));
        let request = request.extension(peer).body(Body::from(with(&code).to_string())).unwrap();
        let router = house.router.clone();
        tokio::spawn(async move { tower::ServiceExt::oneshot(router, request).await.unwrap().status() })
    });
    let mut statuses = Vec::new();
    for one in both {
        statuses.push(one.await.unwrap());
    }
    statuses.sort();
    assert_eq!(statuses, [StatusCode::NO_CONTENT, StatusCode::UNAUTHORIZED]);
}

#[tokio::test]
async fn codes_that_are_guessed_are_locked_for_strangers_and_not_for_a_browser_that_is_known() {
    let house = house_of_two().await;
    let app = with_codes(&house, "owner").await;
    change(&house, "UPDATE accounts SET totp_step = 0").await;
    let known = cookies(&tried(&house, with(&code(&app)), 1, "").await);
    for guess in 0..5 {
        assert_eq!(tried(&house, with(&wrong_code(&app)), 20, "").await.status, StatusCode::UNAUTHORIZED, "{guess}");
    }
    let slowed = tried(&house, with(&wrong_code(&app)), 20, "").await;
    assert_eq!(slowed.status, StatusCode::TOO_MANY_REQUESTS, "codes count as passwords do");
    // Twenty in a day, from wherever they come.
    for last in 21..36 {
        assert_eq!(tried(&house, with(&wrong_code(&app)), last, "").await.status, StatusCode::UNAUTHORIZED, "{last}");
    }
    change(&house, "UPDATE accounts SET totp_step = 0").await;
    let locked = tried(&house, with(&code(&app)), 40, "").await;
    assert_eq!(locked.status, StatusCode::TOO_MANY_REQUESTS, "the right one too");
    let wait: i64 = locked.headers[header::RETRY_AFTER].to_str().unwrap().parse().unwrap();
    assert!(wait > 23 * 3600 && wait <= 24 * 3600, "{wait}");
    assert_eq!(tried(&house, with(&code(&app)), 41, &known).await.status, StatusCode::NO_CONTENT);
    // A day later they are forgotten.
    change(&house, &format!("UPDATE wrong_codes SET at = '{}'", ago(SignedDuration::from_hours(24)))).await;
    change(&house, "UPDATE accounts SET totp_step = 0").await;
    assert_eq!(tried(&house, with(&code(&app)), 42, "").await.status, StatusCode::NO_CONTENT);
    tidy(&house.service, now()).await.unwrap();
    assert_eq!(house.count("wrong_codes").await, 0);
}

#[tokio::test]
async fn guesses_at_one_account_from_many_addresses_are_slowed_and_lock_nobody_out() {
    let house = house_of_two().await;
    let known = as_owner(&house).await;
    for of in ["owner", "nobody"] {
        let guess = |last: u8| tried(&house, json!({ "name": of, "password": "a wrong guess" }), last, "");
        // Thirty are fewer than all strangers together may send in a minute: that is not what slows them.
        for last in 100..130 {
            assert_eq!(guess(last).await.status, StatusCode::UNAUTHORIZED);
        }
        change(&house, &format!("UPDATE attempts SET at = '{}'", ago(SignedDuration::from_mins(10)))).await;
        let slowed = guess(100).await;
        assert_eq!(slowed.status, StatusCode::TOO_MANY_REQUESTS, "{of}: one that failed before");
        let wait: i64 = slowed.headers[header::RETRY_AFTER].to_str().unwrap().parse().unwrap();
        assert!(wait > 45 * 60 && wait <= 50 * 60, "until its own failure is an hour old: {wait}");
        assert_eq!(guess(200).await.status, StatusCode::UNAUTHORIZED, "{of}: one that did not");
        change(&house, "DELETE FROM attempts WHERE who LIKE '%.200'").await;
    }
    let right = |last: u8, cookie: String| {
        let house = &house;
        async move { tried(house, json!({ "password": PASSWORD }), last, &cookie).await.status }
    };
    assert_eq!(right(100, String::new()).await, StatusCode::TOO_MANY_REQUESTS);
    assert_eq!(right(100, known).await, StatusCode::NO_CONTENT, "a browser that signed in before");
    assert_eq!(right(201, String::new()).await, StatusCode::NO_CONTENT, "a new telephone");
    // A browser that is known as somebody else is a stranger at this account, and others' accounts are not slowed.
    let sam = json!({ "name": "sam", "password": COLLEAGUES });
    let sams = cookies(&tried(&house, sam, 100, "").await);
    assert_eq!(right(100, sams).await, StatusCode::TOO_MANY_REQUESTS);
}

/// A folder as the tables were before there were accounts: with a password, a session and a browser that is known.
async fn folder_of_before(password: Option<&str>) -> tempfile::TempDir {
    const EARLIER: [(i64, &str, &str); 4] = [
        (1, "enquiries", include_str!("../../src/service/migrations/sqlite/0001_enquiries.sql")),
        (2, "additions", include_str!("../../src/service/migrations/sqlite/0002_additions.sql")),
        (3, "outbox", include_str!("../../src/service/migrations/sqlite/0003_outbox.sql")),
        (5, "events", include_str!("../../src/service/migrations/sqlite/0005_events.sql")),
    ];
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("presurvey.sqlite");
    let options = SqliteConnectOptions::new().filename(&file).create_if_missing(true);
    let pool = SqlitePool::connect_with(options).await.unwrap();
    let earlier = EARLIER.map(|(version, name, sql)| {
        Migration::new(version, name.into(), MigrationType::Simple, sql.into_sql_str(), false)
    });
    Migrator::with_migrations(earlier.into()).run(&pool).await.unwrap();
    if let Some(password) = password {
        let house = House::new().await;
        set_password(&house.service, password).await.unwrap();
        let hash = looked(house.folder.path(), "SELECT password_hash FROM accounts").await.remove(0);
        sqlx::query("INSERT INTO settings (name, value) VALUES ('password', ?)")
            .bind(hash)
            .execute(&pool)
            .await
            .unwrap();
        let until = ago(-SignedDuration::from_hours(300));
        for (table, token) in [("sessions", "session of before"), ("known_browsers", "browser of before")] {
            let insert = format!("INSERT INTO {table} (token_hash, until) VALUES (?, ?)");
            let insert = sqlx::query(AssertSqlSafe(insert)).bind(sha256(token.as_bytes())).bind(&until);
            insert.execute(&pool).await.unwrap();
        }
        sqlx::query("INSERT INTO attempts (who, at) VALUES ('address 192.0.2.9', ?)")
            .bind(ago(SignedDuration::from_secs(5)))
            .execute(&pool)
            .await
            .unwrap();
    }
    pool.close().await;
    folder
}

#[tokio::test]
async fn a_folder_of_before_has_its_password_and_its_sessions_and_they_are_the_owners() {
    let folder = folder_of_before(Some(PASSWORD)).await;
    let service = Service::open(folder.path(), &demo_config(), None, false).await.unwrap();
    let house = House { router: app(service.clone()), service, folder };
    let session = "presurvey_session=session of before";
    assert_eq!(who(&house, session).await.unwrap(), json!({ "name": "owner", "role": "owner" }));
    assert_eq!(house.get_as(session, "/api/installer/enquiries").await.status, StatusCode::OK);
    for guess in 0..5 {
        assert_eq!(house.try_password("a wrong guess", None).await.status, StatusCode::UNAUTHORIZED, "{guess}");
    }
    assert_eq!(house.try_password(PASSWORD, None).await.status, StatusCode::TOO_MANY_REQUESTS);
    let known = "presurvey_known=browser of before";
    assert_eq!(house.try_password(PASSWORD, Some(known)).await.status, StatusCode::NO_CONTENT);
    let elsewhere = tried(&house, json!({ "password": PASSWORD }), 3, "").await;
    assert_eq!(elsewhere.status, StatusCode::NO_CONTENT);
    assert_eq!(house.count("settings WHERE name = 'password'").await, 0, "no second copy of the hash stays");
    let listed = presurvey(&["account", "list", "--data", house.folder.path().to_str().unwrap()], "");
    assert_eq!(String::from_utf8(listed.stdout).unwrap(), "owner owner password\n");
}

#[tokio::test]
async fn a_folder_of_before_without_a_password_has_no_account() {
    let folder = folder_of_before(None).await;
    let service = Service::open(folder.path(), &demo_config(), None, false).await.unwrap();
    assert!(accounts(&service).await.unwrap().is_empty());
    let refused = add_account(&service, &name("sam"), Role::Colleague, COLLEAGUES).await.unwrap_err();
    assert!(refused.to_string().contains("presurvey password"), "{refused}");
}

/// What a command says, and its code.
fn said(arguments: &[&str], input: &str) -> (Option<i32>, String) {
    let output = presurvey(arguments, input);
    (output.status.code(), String::from_utf8([output.stdout, output.stderr].concat()).unwrap())
}

#[tokio::test]
async fn accounts_are_added_listed_and_removed_from_the_command_line() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let data = data.to_str().unwrap();
    let account = |words: &[&str], input: &str| {
        let arguments: Vec<&str> = ["account"].iter().chain(words).chain(&["--data", data]).copied().collect();
        said(&arguments, input)
    };
    let sam = ["add", "--name", "sam", "--role", "colleague"];
    let (code, words) = account(&sam, COLLEAGUES);
    assert!(code == Some(2) && words.contains(data) && !Path::new(data).exists(), "{words}");
    assert_eq!(said(&["password", "--data", data], PASSWORD).0, Some(0));
    let (code, words) = account(&sam, "short");
    assert!(code == Some(2) && words.contains("12") && words.contains(data), "{words}");
    assert_eq!(account(&sam, &format!("{COLLEAGUES}\n")).0, Some(0));
    let (code, words) = account(&["list"], "");
    assert_eq!((code, &*words), (Some(0), "owner owner password\nsam colleague password\n"));
    for (arguments, part) in [
        (&["add", "--name", "Sam", "--role", "owner"][..], "already"),
        (&["add", "--name", "sam smith", "--role", "owner"], "letters a to z"),
        (&["add", "--name", "alex", "--role", "boss"], "colleague"),
        (&["remove", "--name", "owner"], "last owner"),
        (&["remove", "--name", "alex"], "no account alex"),
        (&["reset", "--name", "alex"], "no account alex"),
        (&["totp", "--name", "alex"], "no account alex"),
        (&["totp", "--name", "sam"], "no code was given"),
    ] {
        let (code, words) = account(arguments, if arguments[0] == "add" { COLLEAGUES } else { "" });
        assert!(code == Some(2) && words.contains(part), "{arguments:?}: {code:?} {words}");
    }
    assert_eq!(account(&["remove", "--name", "sam"], "").0, Some(0));
    let kept = account(&["add", "--name", "owner", "--role", "colleague"], COLLEAGUES);
    assert!(kept.0 == Some(2) && kept.1.contains("owner's"), "{}", kept.1);
    let (code, words) = said(&["password", "--data", data, "--name", "sam"], PASSWORD);
    assert!(code == Some(2) && words.contains("no account sam"), "{words}");

    // Another owner, and then the first may go.
    assert_eq!(account(&["add", "--name", "alex", "--role", "owner"], COLLEAGUES).0, Some(0));
    assert_eq!(said(&["password", "--data", data, "--name", "alex"], "another invented one").0, Some(0));
    assert_eq!(account(&["remove", "--name", "owner"], "").0, Some(0));
    assert_eq!(account(&["list"], "").1, "alex owner password\n");
    let service = Service::open(Path::new(data), &demo_config(), None, false).await.unwrap();
    let house = House { router: app(service.clone()), service, folder };
    let alex = json!({ "name": "alex", "password": "another invented one" });
    assert_eq!(tried(&house, alex, 1, "").await.status, StatusCode::NO_CONTENT);
    assert_eq!(tried(&house, json!({ "password": PASSWORD }), 1, "").await.status, StatusCode::UNAUTHORIZED);
}

#[test]
fn a_second_factor_is_turned_on_once_a_code_is_right_and_taken_off_again() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().to_str().unwrap();
    assert_eq!(said(&["password", "--data", data], PASSWORD).0, Some(0));
    let arguments = ["account", "totp", "--data", data, "--name", "owner"];
    let list = || said(&["account", "list", "--data", data], "").1;
    // An app reads what is printed and shows a code; three wrong ones turn nothing on.
    for (wrong, right) in [(3, false), (1, true)] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_presurvey"))
            .args(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let lines: Vec<String> =
            BufReader::new(child.stdout.take().unwrap()).lines().take(2).map(Result::unwrap).collect();
        let app = Totp::from_url(&lines[0]).unwrap();
        let groups = lines[1].strip_prefix("secret: ").unwrap();
        assert_eq!(groups.replace(' ', ""), app.secret().to_base32());
        assert!(groups.split(' ').all(|group| group.len() == 4), "{groups}");
        let mut typed = format!("{}\n", wrong_code(&app)).repeat(wrong);
        if right {
            typed += &code(&app);
        }
        child.stdin.take().unwrap().write_all(typed.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        let words = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(if right { 0 } else { 2 }), "{words}");
        assert!(!words.contains(&app.secret().to_base32()), "{words}");
        assert_eq!(list(), if right { "owner owner password and code\n" } else { "owner owner password\n" });
    }
    let (code, words) = said(&["account", "reset", "--data", data, "--name", "owner"], "");
    assert!(code == Some(0) && words.contains("signed out"), "{words}");
    assert_eq!(list(), "owner owner password\n");
    let (_, words) = said(&["events", "--data", data], "");
    let kinds: Vec<&str> = words.lines().map(|line| line.split_once(' ').unwrap().1).collect();
    assert_eq!(kinds, ["password-set", "second-factor-on", "second-factor-off", "signed-out-everywhere"]);
}
