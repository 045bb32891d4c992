//! How long enquiries are kept, how they are deleted, and what is handed out of them: never by one look at a clock, by nobody without a
//! right to, from every byte of the data folder.

use crate::command::presurvey;
use crate::house::{Answered, House, PASSWORD, SECRET, enquiry, picture, sha256};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use jiff::tz::Offset;
use jiff::{SignedDuration, Span, Timestamp};
use presurvey::config::demo_config;
use presurvey::service::{Service, app, events, export, tidy};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Once;

const fn hours(hours: i64) -> SignedDuration {
    SignedDuration::from_hours(hours)
}

const fn days(days: i64) -> SignedDuration {
    hours(24 * days)
}

/// A service with so many enquiries, all received now.
async fn house_with(enquiries: u64) -> House {
    let house = House::new().await;
    for key in 1..=enquiries {
        assert_eq!(house.post_enquiry(&enquiry(key)).await.status, StatusCode::CREATED);
    }
    house
}

fn path(key: u64) -> String {
    format!("/api/installer/enquiries/{key:032x}")
}

/// The service anew in the same folder.
async fn started_again(house: House) -> House {
    let House { folder, service, router } = house;
    drop(router);
    service.close().await;
    let service = Service::open(folder.path(), &demo_config(), None, false).await.unwrap();
    House { router: app(service.clone()), service, folder }
}

async fn kinds(house: &House) -> Vec<(String, i64)> {
    events(&house.service).await.unwrap().into_iter().map(|event| (event.kind, event.number)).collect()
}

thread_local! {
    /// What was logged by this test: each has a thread of its own.
    static LOG: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Writes to this thread's log.
struct Log;

impl Log {
    fn listen() {
        static ONCE: Once = Once::new();
        ONCE.call_once(|| tracing_subscriber::fmt().with_ansi(false).with_writer(|| Self).init());
    }

    /// What was logged since the last look.
    fn take() -> String {
        String::from_utf8(LOG.take()).unwrap()
    }
}

impl Write for Log {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        LOG.with_borrow_mut(|log| log.write(bytes))
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[tokio::test]
async fn a_clock_that_jumps_ahead_for_a_while_deletes_nothing_and_the_log_says_so() {
    Log::listen();
    let now = Timestamp::now();
    let house = house_with(3).await;
    assert_eq!(tidy(&house.service, now).await.unwrap(), 0);
    assert_eq!(Log::take(), "");
    let ahead = now + days(200);
    for at in [0, 1, 5, 6, 7, 23] {
        assert_eq!(tidy(&house.service, ahead + hours(at)).await.unwrap(), 0, "{at} hours after the jump");
        let said = Log::take();
        assert!(said.contains("deleting is put off") && said.contains("past=3"), "{said}");
        assert!(said.contains(&(ahead + hours(24)).to_string()), "until when: {said}");
    }
    // Set right again, nothing of it is left, however soon it happens again.
    assert_eq!(tidy(&house.service, now + hours(30)).await.unwrap(), 0);
    assert_eq!(Log::take(), "");
    for at in [30, 53] {
        assert_eq!(tidy(&house.service, ahead + hours(at)).await.unwrap(), 0);
        assert_ne!(Log::take(), "");
    }
    assert_eq!(house.count("enquiries").await, 3);
    assert_eq!(kinds(&house).await, [("deleting-put-off".to_owned(), 3), ("deleting-put-off".to_owned(), 3)]);
}

#[tokio::test]
async fn starting_again_neither_hastens_deleting_nor_begins_it_anew() {
    let now = Timestamp::now();
    let mut house = house_with(1).await;
    tidy(&house.service, now).await.unwrap();
    let ahead = now + days(200);
    for _ in 0..3 {
        house = started_again(house).await;
        assert_eq!(tidy(&house.service, ahead).await.unwrap(), 0);
    }
    assert_eq!(tidy(&house.service, ahead + hours(23)).await.unwrap(), 0);
    house = started_again(house).await;
    assert_eq!(tidy(&house.service, ahead + hours(24)).await.unwrap(), 1, "the first look counts after a start too");
}

#[tokio::test]
async fn a_folder_that_no_look_was_kept_in_goes_by_when_the_last_enquiry_came() {
    let now = Timestamp::now();
    let house = house_with(1).await;
    for at in [0, 7, 23] {
        assert_eq!(tidy(&house.service, now + days(200) + hours(at)).await.unwrap(), 0);
    }
    assert_eq!(tidy(&house.service, now + days(200) + hours(24)).await.unwrap(), 1);
}

#[tokio::test]
async fn time_that_really_passes_deletes_though_the_service_runs_one_day_a_week() {
    let now = Timestamp::now();
    let kept = i64::from(demo_config().keep_days);
    let house = house_with(1).await;
    assert_eq!(house.tidy_from_to(now, now + days(kept)).await, 0);
    assert_eq!(house.tidy_from_to(now + days(kept), now + days(kept + 2)).await, 1);

    let house = house_with(1).await;
    let mut deleted = Vec::new();
    for week in 0..=kept / 7 + 2 {
        deleted.push(tidy(&house.service, now + days(7 * week)).await.unwrap());
    }
    let (last, before) = deleted.split_last().unwrap();
    assert_eq!((*last, before.iter().sum::<u64>()), (1, 0), "two looks a week apart agree");
}

/// Has an enquiry say that it was received at this time.
async fn say_received(house: &House, key: u64, received: Timestamp) {
    let options = sqlx::sqlite::SqliteConnectOptions::new().filename(house.folder.path().join("presurvey.sqlite"));
    let pool = sqlx::SqlitePool::connect_with(options).await.unwrap();
    let said = "UPDATE enquiries SET received = ?1, keep_until = date(?1, '+' || ?2 || ' days') WHERE client_key = ?3";
    let said = sqlx::query(said).bind(received.to_string()).bind(demo_config().keep_days).bind(format!("{key:032x}"));
    assert_eq!(said.execute(&pool).await.unwrap().rows_affected(), 1);
    pool.close().await;
}

#[tokio::test]
async fn what_came_while_the_clock_was_years_behind_is_kept_as_long_as_what_came_before_it() {
    let now = Timestamp::now();
    let kept = i64::from(demo_config().keep_days);
    // By the third one's time it came three years before the first, and after the second.
    let house = house_with(3).await;
    let behind = now - days(3 * 365);
    say_received(&house, 3, behind).await;
    assert_eq!(house.tidy_from_to(now, now + days(kept - 2)).await, 0, "the clock is right again");
    assert_eq!(house.count("enquiries").await, 3);
    assert_eq!(house.tidy_from_to(now + days(kept - 2), now + days(kept + 3)).await, 3, "once, not again and again");

    // A clock that jumps ahead again for a while, after one came in at the first time, makes nothing last longer.
    let house = house_with(2).await;
    tidy(&house.service, now).await.unwrap();
    let ahead = now + days(10 * 365);
    say_received(&house, 1, ahead).await;
    for at in [0, 1, 7, 23] {
        assert_eq!(tidy(&house.service, ahead + hours(at)).await.unwrap(), 0);
    }
    assert_eq!(house.tidy_from_to(now + hours(30), now + days(kept + 3)).await, 1);

    // One whose time lies ahead says nothing of others before that time has come.
    let house = house_with(2).await;
    let ahead = now + days(10 * 365);
    say_received(&house, 1, ahead).await;
    assert_eq!(house.tidy_from_to(now, now + days(kept + 3)).await, 1);
    assert_eq!(house.count("enquiries").await, 1);
}

#[tokio::test]
async fn a_confirmed_jump_vouches_for_no_later_one() {
    let now = Timestamp::now();
    let house = house_with(1).await;
    tidy(&house.service, now).await.unwrap();
    // A service that was off for a week, and whose clock then jumps.
    assert_eq!(tidy(&house.service, now + days(7)).await.unwrap(), 0);
    for at in [0, 6, 23] {
        assert_eq!(tidy(&house.service, now + days(207) + hours(at)).await.unwrap(), 0, "{at}");
    }
    assert_eq!(house.count("enquiries").await, 1);
}

/// The first moment at which what was received at this time is past its day.
fn past(received: Timestamp) -> Timestamp {
    let day = Offset::UTC.to_datetime(received).date();
    let day = day.checked_add(Span::new().days(i64::from(demo_config().keep_days) + 1)).unwrap();
    Offset::UTC.to_timestamp(day.at(0, 0, 0, 0)).unwrap()
}

#[tokio::test]
async fn more_than_ordinary_running_brings_waits_for_a_day() {
    let now = Timestamp::now();
    let first = past(now);
    Log::listen();
    let house = house_with(21).await;
    assert_eq!(house.tidy_from_to(now, first - hours(1)).await, 0);
    Log::take();
    for at in [0, 6, 12, 29] {
        assert_eq!(tidy(&house.service, first + hours(at)).await.unwrap(), 0, "{at} hours after the first look");
    }
    assert!(Log::take().contains("more than usual"));
    assert_eq!(tidy(&house.service, first + hours(30)).await.unwrap(), 21, "a day after it was noticed");

    // So many of very many are a day like any other.
    let house = house_with(21).await;
    house.change(OTHERS).await;
    assert_eq!(house.tidy_from_to(now, first - hours(1)).await, 0);
    assert_eq!(tidy(&house.service, first).await.unwrap(), 0);
    assert_eq!(tidy(&house.service, first + hours(6)).await.unwrap(), 21);
    assert_eq!(house.count("enquiries").await, 199);
}

/// Makes 199 enquiries more, to be kept for long.
const OTHERS: &str = "WITH RECURSIVE numbers (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM numbers WHERE n < 199)
    INSERT INTO enquiries (client_key, reference, received, keep_until, deletion_hash, record, agreement, summary, gravity, weight)
    SELECT 'other ' || n, 'other ' || n, received, '2999-01-01', '', '{}', agreement, '{}', 0, 0
    FROM enquiries, numbers WHERE client_key = '00000000000000000000000000000001'";

#[test]
fn days_to_keep_that_are_absurd_are_refused_by_publish_and_no_reason_not_to_start() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("setup.json");
    let publish = |days: u16| {
        let mut setup = serde_json::to_value(presurvey::config::demo_setup()).unwrap();
        setup["keep_days"] = json!(days);
        std::fs::write(&file, setup.to_string()).unwrap();
        let output = presurvey(&["publish", file.to_str().unwrap()], "");
        (output.status.code(), String::from_utf8(output.stderr).unwrap())
    };
    for days in [0, 3651, u16::MAX] {
        let (code, words) = publish(days);
        let told = format!("`keep_days`: {days} is not allowed; it may be 1 to 3650 days");
        assert!(code == Some(2) && words.contains(&told), "{words}");
        // It gets as far as to say that nobody could sign in.
        let data = folder.path().join(format!("data-{days}"));
        let arguments =
            ["serve", "--data", data.to_str().unwrap(), "--setup", file.to_str().unwrap(), "--listen", "127.0.0.1:0"];
        let started = presurvey(&arguments, "");
        let words = String::from_utf8(started.stderr).unwrap();
        assert!(words.contains("no password is set") && words.contains(&told), "{words}");
        assert!(words.contains(if days == 0 { "1 is taken" } else { "3650 is taken" }), "{words}");
    }
    for days in [1, 3650] {
        assert_eq!(publish(days).0, Some(0), "{days}");
    }
}

#[tokio::test]
async fn the_installer_deletes_an_enquiry_with_its_photos_and_is_told_what() {
    let house = house_with(2).await;
    let reference = house.post_enquiry(&enquiry(1)).await.json()["reference"].clone();
    house.put_photo(&enquiry(1).envelope.client_key, &sha256(&picture(0)), picture(0)).await;
    assert_eq!(house.delete_as("", &path(1)).await.status, StatusCode::UNAUTHORIZED);
    let cookie = house.sign_in().await;
    let foreign = Request::delete(path(1)).header(header::COOKIE, &cookie).body(Body::empty()).unwrap();
    assert_eq!(house.send(foreign).await.status, StatusCode::FORBIDDEN, "not by another page");
    assert_eq!((house.count("enquiries").await, house.photo_files().len()), (2, 1));

    let deleted = house.delete_as(&cookie, &path(1)).await;
    assert_eq!((deleted.status, deleted.json()), (StatusCode::OK, json!({ "reference": reference, "photos": 1 })));
    assert_eq!(house.delete_as(&cookie, &path(1)).await.status, StatusCode::NOT_FOUND);
    assert_eq!((house.count("enquiries").await, house.count("photos").await), (1, 1));
    assert!(house.photo_files().is_empty());
    // The same is sent again by a page that does not know: it is a new one.
    assert_eq!(house.post_enquiry(&enquiry(1)).await.status, StatusCode::CREATED);
}

/// Posts a plain form without photos.
async fn plain(house: &House, accept: &str) -> Answered {
    let request = Request::post("/api/enquiries")
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
        .header(header::ACCEPT, accept);
    house.send(request.body("name=Invented+Plain&telephone=01632+960123&hazard=none".into()).unwrap()).await
}

async fn press(house: &House, at: &str, accept: &str, body: &str) -> Answered {
    let request = Request::post(at).header(header::ACCEPT, accept);
    house
        .send(
            request
                .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
                .body(body.to_owned().into())
                .unwrap(),
        )
        .await
}

fn page(answered: &Answered) -> String {
    assert!(answered.headers[header::CONTENT_TYPE].to_str().unwrap().starts_with("text/html"));
    String::from_utf8(answered.bytes.clone()).unwrap()
}

fn between<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let (_, rest) = text.split_once(before).unwrap_or_else(|| panic!("{before} in {text}"));
    rest.split_once(after).unwrap().0
}

#[tokio::test]
async fn who_sent_a_plain_form_deletes_it_by_a_link_whose_secret_no_server_sees() {
    let house = House::new().await;
    let sent = page(&plain(&house, "text/html").await);
    let link = between(&sent, "href=\"", "\"").to_owned();
    let reference = between(&sent, "reference: ", "<").to_owned();
    let (at, secret) = link.split_once('#').unwrap();
    assert!(sent.contains(&format!("by hand: {secret}")), "{sent}");
    assert!(sent.contains("rel=\"noopener noreferrer\""), "{sent}");
    let at = format!("/api/{at}");

    // Loaded again it is the same enquiry, and nobody is told its secret a second time.
    let again = page(&plain(&house, "text/html").await);
    assert!(again.contains(&reference) && !again.contains("href"), "{again}");

    // To look deletes nothing and tells nothing.
    let opened = house.get(&at).await;
    assert_eq!(opened.status, StatusCode::OK);
    let policy = opened.headers[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
    assert!(policy.contains("form-action 'self'") && policy.contains("frame-ancestors 'none'"), "{policy}");
    assert_eq!(opened.headers[header::REFERRER_POLICY], "no-referrer");
    let page_of_it = page(&opened);
    assert!(page_of_it.contains("<form method=\"post\">") && !page_of_it.contains(&reference), "{page_of_it}");
    assert_eq!(page(&house.get(&format!("/api/enquiries/{:032x}/deletion", 9)).await), page_of_it);
    assert_eq!(house.get("/api/deletion.js").await.headers[header::CONTENT_TYPE], "text/javascript; charset=utf-8");
    assert_eq!(house.count("enquiries").await, 1);

    for wrong in [
        "",
        "secret=",
        "secret=BCDF-GHJK-BCDF-GHJK-BCDF-GHJK",
        &format!("secret={reference}"),
        &format!("other={secret}"),
    ] {
        let refused = press(&house, &at, "*/*", wrong).await;
        assert!(refused.status.is_client_error(), "{wrong}");
        refused.error();
        assert!(page(&press(&house, &at, "text/html", wrong).await).contains("It was not taken"));
    }
    let elsewhere = format!("/api/enquiries/{:032x}/deletion", 9);
    assert_eq!(press(&house, &elsewhere, "*/*", &format!("secret={secret}")).await.status, StatusCode::NOT_FOUND);
    assert_eq!(house.count("enquiries").await, 1);

    // Typed by hand it is the same.
    let typed = format!("secret={}", secret.to_lowercase().replace('-', "+"));
    let deleted = page(&press(&house, &at, "text/html", &typed).await);
    assert!(deleted.contains("It is deleted") && deleted.contains(&reference), "{deleted}");
    assert_eq!(house.count("enquiries").await, 0);
    assert!(page(&press(&house, &at, "text/html", &typed).await).contains("opens nothing"));
    assert_eq!(kinds(&house).await, [("deleted-by-homeowner".to_owned(), 1)]);
}

#[tokio::test]
async fn a_script_that_posts_a_plain_form_is_given_the_secret_once_and_a_record_keeps_its_own() {
    let house = House::new().await;
    let sent = plain(&house, "*/*").await.json();
    let secret = sent["deletion_secret"].as_str().unwrap().to_owned();
    assert_eq!(plain(&house, "*/*").await.json().get("deletion_secret"), None);
    assert_eq!(house.post_enquiry(&enquiry(1)).await.json().get("deletion_secret"), None);
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let rows = list["enquiries"].as_array().unwrap();
    let key = rows.iter().find(|row| row["name"] == "Invented Plain").unwrap()["client_key"].as_str().unwrap();
    let request =
        Request::delete(format!("/api/enquiries/{key}")).header(header::AUTHORIZATION, format!("Bearer {secret}"));
    assert_eq!(house.send(request.body(Body::empty()).unwrap()).await.status, StatusCode::NO_CONTENT);
    // The page takes the secret that a form of ours keeps on the device, too.
    let at = format!("/api/enquiries/{:032x}/deletion", 1);
    let body = format!("secret={}", SECRET.replace(' ', "+"));
    assert_eq!(press(&house, &at, "*/*", &body).await.status, StatusCode::OK);
    assert_eq!(house.count("enquiries").await, 0);
}

/// Whether these bytes are in any file of a folder, at any depth.
fn is_anywhere(folder: &Path, bytes: &str) -> bool {
    std::fs::read_dir(folder).unwrap().any(|entry| {
        let place = entry.unwrap().path();
        if place.is_dir() {
            return is_anywhere(&place, bytes);
        }
        String::from_utf8_lossy(&std::fs::read(&place).unwrap()).contains(bytes)
    })
}

/// Enquiries of so many people, each with a photo, a correction and a link, whose names are found.
async fn house_of_people(people: u64) -> (House, String) {
    let house = House::new().await;
    let cookie = house.sign_in().await;
    for person in 0..people {
        let sent = person_of(person);
        house.post_enquiry(&sent).await;
        let key = &sent.envelope.client_key;
        house.put_photo(key, &sha256(&picture(0)), picture(0)).await;
        let path = format!("/api/installer/enquiries/{key}/answers");
        let answers = json!({ "answers": sent.payload.answers });
        assert_eq!(house.put_as(&cookie, &path, answers).await.status, StatusCode::OK);
    }
    assert!(is_anywhere(house.folder.path(), &name_of(people - 1)));
    (house, cookie)
}

/// As many as several pages of the database hold, so that some were divided.
const PEOPLE: u64 = 32;

fn name_of(person: u64) -> String {
    format!("Invented Person {person:04}.")
}

/// Keys in no order, so that rows come between others and pages of the database are divided.
fn person_of(person: u64) -> presurvey::enquiry::Enquiry {
    let mut sent = enquiry(1);
    sent.envelope.client_key = sha256(&person.to_be_bytes())[..32].to_owned();
    sent.payload.contact.name = name_of(person);
    sent.payload.contact.note = "a note of some length ".repeat(usize::try_from(person % 7).unwrap());
    sent
}

#[tokio::test]
async fn what_was_deleted_is_in_no_byte_of_the_data_folder() {
    let (house, cookie) = house_of_people(PEOPLE).await;
    for person in (0..PEOPLE).step_by(2) {
        let key = person_of(person).envelope.client_key;
        if person % 4 == 0 {
            let path = format!("/api/installer/enquiries/{key}");
            assert_eq!(house.delete_as(&cookie, &path).await.status, StatusCode::OK);
        } else {
            let request = Request::delete(format!("/api/enquiries/{key}"))
                .header(header::AUTHORIZATION, format!("Bearer {SECRET}"));
            assert_eq!(house.send(request.body(Body::empty()).unwrap()).await.status, StatusCode::NO_CONTENT);
        }
        assert!(!is_anywhere(house.folder.path(), &name_of(person)), "{person} is left after deleting");
    }
    let left: Vec<u64> = (0..PEOPLE).filter(|person| is_anywhere(house.folder.path(), &name_of(*person))).collect();
    assert_eq!(left, (1..PEOPLE).step_by(2).collect::<Vec<_>>(), "the others are there");

    // In time too.
    house.change("UPDATE enquiries SET keep_until = '2020-01-01' WHERE summary LIKE '%Person 0001.%'").await;
    let now = Timestamp::now();
    assert_eq!(house.tidy_from_to(now, now + hours(24)).await, 1);
    assert!(!is_anywhere(house.folder.path(), &name_of(1)));
    assert!(is_anywhere(house.folder.path(), &name_of(3)));
}

#[tokio::test]
async fn a_reader_who_is_slow_delays_erasing_but_nobody_who_writes() {
    let house = house_with(1).await;
    let options = sqlx::sqlite::SqliteConnectOptions::new().filename(house.folder.path().join("presurvey.sqlite"));
    let other = sqlx::SqlitePool::connect_with(options).await.unwrap();
    let mut reading = other.begin().await.unwrap();
    let _: i64 = sqlx::query_scalar("SELECT count(*) FROM enquiries").fetch_one(&mut *reading).await.unwrap();
    let cookie = house.sign_in().await;
    assert_eq!(house.delete_as(&cookie, &path(1)).await.status, StatusCode::OK);
    assert_eq!(house.post_enquiry(&enquiry(2)).await.status, StatusCode::CREATED);
    drop(reading);
    other.close().await;
    house.delete_as(&cookie, &path(2)).await;
    assert!(!is_anywhere(house.folder.path(), "Invented Homeowner"));
}

/// A ZIP's files by name; it is not compressed, and its central directory says where each is (APPNOTE, 4.3.12 and 4.3.16, from memory).
fn unzipped(zip: &[u8]) -> Vec<(String, Vec<u8>)> {
    let number =
        |at: usize, bytes: usize| zip[at..at + bytes].iter().rev().fold(0, |sum, byte| sum << 8 | usize::from(*byte));
    let end = zip.len() - 22;
    assert!(zip[end..].starts_with(b"PK\x05\x06"), "the end record is the last");
    let (count, mut at) = (number(end + 10, 2), number(end + 16, 4));
    let files = (0..count).map(|_| {
        assert!(zip[at..].starts_with(b"PK\x01\x02"));
        assert_eq!(number(at + 10, 2), 0, "stored as it is");
        let (size, name, more) = (number(at + 24, 4), number(at + 28, 2), number(at + 30, 2) + number(at + 32, 2));
        let head = number(at + 42, 4);
        let begin = head + 30 + number(head + 26, 2) + number(head + 28, 2);
        let file =
            (String::from_utf8(zip[at + 46..at + 46 + name].to_vec()).unwrap(), zip[begin..begin + size].to_vec());
        at += 46 + name + more;
        file
    });
    files.collect()
}

#[tokio::test]
async fn all_that_is_held_of_a_person_is_handed_out_without_a_secrets_hash() {
    let house = house_with(2).await;
    let sent = enquiry(1);
    let reference = house.post_enquiry(&sent).await.json()["reference"].as_str().unwrap().to_owned();
    house.put_photo(&sent.envelope.client_key, &sha256(&picture(0)), picture(0)).await;
    assert_eq!(house.get(&format!("{}/export", path(1))).await.status, StatusCode::UNAUTHORIZED);
    let cookie = house.sign_in().await;
    assert_eq!(house.get_as(&cookie, &format!("{}/export", path(9))).await.status, StatusCode::NOT_FOUND);
    let mut answers = sent.payload.answers.clone();
    answers.board.spare_ways = presurvey::answers::Answer::NotSure;
    house.put_as(&cookie, &format!("{}/answers", path(1)), json!({ "answers": answers })).await;
    let link = Request::post(format!("{}/link", path(1))).header(header::COOKIE, &cookie).header("x-presurvey", "1");
    let link = house.send(link.body(json!({ "questions": ["tenure"] }).to_string().into()).unwrap()).await;
    let token = link.json()["fragment"].as_str().unwrap().split_once('.').unwrap().1.to_owned();

    let exported = house.get_as(&cookie, &format!("{}/export", path(1))).await;
    assert_eq!(exported.status, StatusCode::OK);
    assert_eq!(exported.headers[header::CONTENT_TYPE], "application/zip");
    let named = exported.headers[header::CONTENT_DISPOSITION].to_str().unwrap();
    assert!(named.contains(&format!("{reference}.zip")), "{named}");
    let files = unzipped(&exported.bytes);
    let photo = format!("photos/{}.jpg", sha256(&picture(0)));
    assert_eq!(files.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>(), ["enquiry.json", &photo]);
    assert_eq!(files[1].1, picture(0));

    let written = String::from_utf8(files[0].1.clone()).unwrap();
    let held: Value = serde_json::from_str(&written).unwrap();
    assert_eq!(held["reference"], reference);
    assert_eq!(held["sent"]["payload"], serde_json::to_value(&sent.payload).unwrap());
    assert_eq!(held["changes"][0]["said_by"], "installer");
    assert!(held["changes"][0]["at"].is_string() && held["received"].is_string() && held["keep_until"].is_string());
    assert_eq!(held["links"], json!([{ "questions": ["tenure"] }]));
    assert_eq!(held["photos"][0]["file"], photo);
    assert_eq!(held["assessment"]["invented"], true);
    for secret in
        [&sent.envelope.deletion_hash, sent.envelope.addition_hash.as_ref().unwrap(), &sha256(token.as_bytes()), &token]
    {
        assert!(is_anywhere(house.folder.path(), secret) || *secret == token);
        assert!(!written.contains(secret.as_str()), "{secret}");
    }

    // The same by the command line, into a folder, while the service runs.
    let place = tempfile::tempdir().unwrap();
    let (data, to) = (house.folder.path().to_str().unwrap().to_owned(), place.path().join("out"));
    let said = |reference: &str, to: &Path| {
        let output =
            presurvey(&["export", "--data", &data, "--reference", reference, "--to", to.to_str().unwrap()], "");
        (output.status.code(), String::from_utf8([output.stdout, output.stderr].concat()).unwrap())
    };
    let (code, words) = said(&reference.to_lowercase().replace('-', ""), &to);
    assert!(code == Some(0) && words.contains("1 photos"), "{words}");
    assert_eq!(std::fs::read_to_string(to.join("enquiry.json")).unwrap(), written);
    assert_eq!(std::fs::read(to.join(&photo)).unwrap(), picture(0));
    let (code, words) = said(&reference, &to);
    assert!(code == Some(2) && words.contains("is there already"), "{words}");
    let never: PathBuf = place.path().join("never");
    for wrong in ["BCDF-2346", "Invented Homeowner"] {
        let (code, words) = said(wrong, &never);
        assert!(code == Some(2) && words.contains("no enquiry") && !never.exists(), "{words}");
    }
}

#[tokio::test]
async fn events_tell_what_was_done_and_no_more() {
    let house = house_with(2).await;
    let cookie = house.sign_in().await;
    for _ in 0..7 {
        house.try_password("not this one at all", None).await;
    }
    house.get_as(&cookie, &format!("{}/export", path(1))).await;
    house.delete_as(&cookie, &path(1)).await;
    let out = Request::delete("/api/session").header(header::COOKIE, &cookie).header("x-presurvey", "1");
    house.send(out.body(Body::empty()).unwrap()).await;
    let listed = presurvey(&["events", "--data", house.folder.path().to_str().unwrap()], "");
    assert!(listed.status.success(), "{}", String::from_utf8_lossy(&listed.stderr));
    let lines = String::from_utf8(listed.stdout).unwrap();
    let kinds: Vec<&str> = lines.lines().map(|line| line.split_once(' ').unwrap().1).collect();
    let failed = ["sign-in-failed"; 5];
    let expected = [
        &["password-set", "signed-in"],
        &failed[..],
        &["sign-in-locked", "exported", "deleted-by-installer", "signed-out"],
    ];
    assert_eq!(kinds, expected.concat());
    for line in lines.lines() {
        line.split(' ').next().unwrap().parse::<Timestamp>().unwrap();
    }
    for told in ["Invented", "01632", PASSWORD, &enquiry(1).envelope.client_key, "127.0.0.1"] {
        assert!(!lines.contains(told), "{told}");
    }
    let nothing = tempfile::tempdir().unwrap();
    let refused = presurvey(&["events", "--data", nothing.path().to_str().unwrap()], "");
    assert_eq!(refused.status.code(), Some(2));
}

/// A day so many days from now, as in JSON.
fn day_in(after: i64) -> String {
    Offset::UTC.to_datetime(Timestamp::now() + days(after)).date().to_string()
}

#[tokio::test]
async fn of_a_job_stays_what_the_law_asks_until_its_own_day_and_the_homeowner_is_told() {
    let now = Timestamp::now();
    let house = House::new().await;
    let mut sent = enquiry(1);
    let contact = &mut sent.payload.contact;
    (contact.name, contact.address) = ("Kept Name".into(), "1 Kept Street".into());
    (contact.note, contact.telephone) = ("gone-marker of the note".into(), "01632 960999".into());
    house.post_enquiry(&sent).await;
    let cookie = house.sign_in().await;
    let job = |became: Value, until: String| json!({ "became": became, "until": until });
    let put = async |job: Value| house.put_as(&cookie, &format!("{}/job", path(1)), job).await;
    for (job, field) in [
        (job(json!(["quotation"]), day_in(-1)), "until"),
        (job(json!(["quotation"]), day_in(366 * 31)), "until"),
        (job(json!(["another"]), day_in(1)), "became"),
    ] {
        let refused = put(job).await;
        assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
        assert!(String::from_utf8_lossy(&refused.bytes).contains(field), "{field}");
    }
    let until = day_in(900);
    let marked = put(job(json!(["invoice", "certificate"]), until.clone())).await;
    assert_eq!(marked.json()["job"], json!({ "became": ["invoice", "certificate"], "until": until }));
    // Taken away and put back.
    assert_eq!(put(job(json!([]), until.clone())).await.json()["job"], Value::Null);
    put(job(json!(["invoice"]), until.clone())).await;
    assert_eq!(house.get_as(&cookie, "/api/installer/jobs").await.json(), json!([]), "the enquiry itself is kept");

    let delete = Request::delete(format!("/api/enquiries/{:032x}", 1));
    let delete = delete.header(header::AUTHORIZATION, format!("Bearer {SECRET}"));
    let told = house.send(delete.body(Body::empty()).unwrap()).await;
    assert_eq!(told.status, StatusCode::OK, "something stays, and that is said");
    assert_eq!(told.json()["kept"], json!({ "became": ["invoice"], "until": until }));
    assert_eq!((house.count("enquiries").await, house.count("photos").await, house.photo_files().len()), (0, 0, 0));
    let apart = house.get_as(&cookie, "/api/installer/jobs").await.json();
    assert_eq!((&apart[0]["name"], &apart[0]["address"]), (&json!("Kept Name"), &json!("1 Kept Street")));
    assert_eq!(apart[0]["reference"], told.json()["reference"]);
    let fields: Vec<&String> = apart[0].as_object().unwrap().keys().collect();
    let all = ["address", "became", "client_key", "deleted", "name", "postcode", "received", "reference", "until"];
    assert_eq!(fields, all);
    let kept = |text| is_anywhere(house.folder.path(), text);
    assert!(kept("Kept Street") && !kept("gone-marker") && !kept("01632 960999"));
    // Whoever asks for what is held of them is given it.
    let to = house.folder.path().join("asked-for");
    export(&house.service, apart[0]["reference"].as_str().unwrap(), &to).await.unwrap();
    assert!(std::fs::read_to_string(to.join("enquiry.json")).unwrap().contains("Kept Street"));
    std::fs::remove_dir_all(to).unwrap();

    // It goes on its own day.
    house.tidy_from_to(now, now + days(900)).await;
    assert_eq!(house.count("jobs").await, 1);
    house.tidy_from_to(now + days(900), now + days(902)).await;
    assert_eq!(house.count("jobs").await, 0);
    assert!(!is_anywhere(house.folder.path(), "Kept Street"), "from every byte of the folder");
}

#[tokio::test]
async fn what_is_kept_of_a_job_stays_as_it_is_when_its_enquiry_is_sent_again() {
    let house = house_with(1).await;
    let cookie = house.sign_in().await;
    let job = |became: Value| json!({ "became": became, "until": day_in(900) });
    let put = async |became: Value| house.put_as(&cookie, &format!("{}/job", path(1)), job(became)).await;
    let delete = async || {
        let delete = Request::delete(format!("/api/enquiries/{:032x}", 1));
        let delete = delete.header(header::AUTHORIZATION, format!("Bearer {SECRET}"));
        house.send(delete.body(Body::empty()).unwrap()).await
    };
    assert_eq!(put(json!(["invoice"])).await.status, StatusCode::OK);
    let told = delete().await.json();
    let apart = house.get_as(&cookie, "/api/installer/jobs").await.json();
    assert_eq!((&apart[0]["name"], &apart[0]["reference"]), (&json!("Invented Homeowner"), &told["reference"]));

    // Whoever knows the key sends another in its place, which is no job.
    let mut other = enquiry(1);
    other.payload.contact.name = "Another Name".into();
    assert_eq!(house.post_enquiry(&other).await.status, StatusCode::CREATED);
    let refused = put(json!(["certificate"])).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(refused.error().contains("kept of the first"), "{}", refused.error());
    assert_eq!(put(json!([])).await.status, StatusCode::OK, "there is no mark to be taken away");
    assert_eq!(house.get_as(&cookie, "/api/installer/jobs").await.json(), apart);
    let told = delete().await;
    assert_eq!(told.json()["kept"], job(json!(["invoice"])), "that something is kept is said again");
    assert_eq!(house.get_as(&cookie, "/api/installer/jobs").await.json(), apart);

    // In time as well.
    assert_eq!(house.post_enquiry(&other).await.status, StatusCode::CREATED);
    let now = Timestamp::now();
    house.tidy_from_to(now, now + days(i64::from(demo_config().keep_days) + 2)).await;
    assert_eq!((house.count("enquiries").await, house.count("jobs").await), (0, 1));
    assert_eq!(house.get_as(&house.sign_in().await, "/api/installer/jobs").await.json(), apart);
}

#[tokio::test]
async fn time_sets_a_job_apart_too_and_the_page_that_deletes_says_what_stays() {
    let now = Timestamp::now();
    let house = house_with(3).await;
    let cookie = house.sign_in().await;
    for (key, until) in [(1, 900), (2, 10)] {
        let job = json!({ "became": ["quotation"], "until": day_in(until) });
        assert_eq!(house.put_as(&cookie, &format!("{}/job", path(key)), job).await.status, StatusCode::OK);
    }
    let kept = i64::from(demo_config().keep_days);
    assert_eq!(house.tidy_from_to(now, now + days(kept + 2)).await, 3);
    let apart = house.get_as(&house.sign_in().await, "/api/installer/jobs").await.json();
    assert_eq!(apart.as_array().unwrap().len(), 1, "one was no job, and the day of another was past");
    assert_eq!(apart[0]["client_key"], format!("{:032x}", 1));
    let cookie = house.sign_in().await;
    let of_it = format!("/api/installer/jobs/{:032x}", 1);
    assert_eq!(house.delete_as(&cookie, &of_it).await.status, StatusCode::NO_CONTENT);
    assert_eq!(house.delete_as(&cookie, &of_it).await.status, StatusCode::NOT_FOUND);
    assert_eq!(house.count("jobs").await, 0);

    house.post_enquiry(&enquiry(4)).await;
    let job = json!({ "became": ["quotation", "certificate"], "until": "2040-03-01" });
    house.put_as(&cookie, &format!("{}/job", path(4)), job).await;
    let at = format!("/api/enquiries/{:032x}/deletion", 4);
    let page = press(&house, &at, "text/html", &format!("secret={}", SECRET.replace(' ', "+"))).await;
    let page = String::from_utf8(page.bytes).unwrap();
    assert!(page.contains("One thing stays") && page.contains("until 1 March 2040"), "{page}");
    assert!(page.contains("a quotation that was accepted; a certificate"), "{page}");
}
