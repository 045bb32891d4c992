//! What earlier versions stored and handed out goes on working: a data folder of 0.1.0, a link of then, what a form of then sends.

use crate::house::{House, PASSWORD, SECRET, enquiry, sha256};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use presurvey::config::demo_config;
use presurvey::service::{Service, app, assess_again};
use serde_json::{Value, json};
use sqlx::migrate::Migrator;
use sqlx::sqlite::SqliteConnectOptions;
use sqlx::{AssertSqlSafe, Connection, SqliteConnection};
use std::path::{Path, PathBuf};

fn kept(of: &str) -> PathBuf {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).join("tests/earlier/0.1.0").join(of)
}

/// The service in a copy of what 0.1.0 kept.
async fn house_of_then() -> House {
    let folder = tempfile::tempdir().unwrap();
    std::fs::copy(kept("data/presurvey.sqlite"), folder.path().join("presurvey.sqlite")).unwrap();
    let photo = "photos/a31f4b735bf160a7618c24a28bacc2ca";
    std::fs::create_dir_all(folder.path().join(photo)).unwrap();
    for file in std::fs::read_dir(kept("data").join(photo)).unwrap() {
        let file = file.unwrap();
        std::fs::copy(file.path(), folder.path().join(photo).join(file.file_name())).unwrap();
    }
    let service = Service::open(folder.path(), &demo_config(), None, true).await.unwrap();
    House { router: app(service.clone()), service, folder }
}

const CORRECTED: &str = "/api/installer/enquiries/b35d866e2556d6d96d00d46a1262f40e";
const NOT_SURE: &str = "/api/installer/enquiries/a31f4b735bf160a7618c24a28bacc2ca";

#[tokio::test]
async fn every_enquiry_opens_with_its_photo_and_is_of_todays_making_once_assessed_again() {
    let house = house_of_then().await;
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    assert_eq!(list["enquiries"].as_array().unwrap().len(), 3);
    let before = house.get_as(&cookie, NOT_SURE).await.json();
    assert_eq!(before["own_assessment"]["complexity"], "depends-on-others", "as it was kept");
    let progress = assess_again(&house.service, |_| {}).await.unwrap();
    assert_eq!((progress.done, progress.left), (3, 0));
    let after = house.get_as(&cookie, NOT_SURE).await.json();
    assert_eq!(after["own_assessment"]["complexity"], "look-first", "a danger that is not ruled out");
    assert_eq!(after["enquiry"], before["enquiry"], "what was sent stays as it was");
    let photo = after["photos_arrived"][0].as_str().unwrap();
    let bytes = house.get_as(&cookie, &format!("{NOT_SURE}/photos/{photo}")).await.bytes;
    assert_eq!(crate::house::sha256(&bytes), photo);
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let classes: Vec<&Value> = list["enquiries"].as_array().unwrap().iter().map(|row| &row["complexity"]).collect();
    assert!(classes.contains(&&json!("look-first")), "{classes:?}");
}

#[tokio::test]
async fn who_said_what_is_read_from_the_corrections_of_then() {
    let house = house_of_then().await;
    let cookie = house.sign_in().await;
    let detail = house.get_as(&cookie, CORRECTED).await.json();
    let answers = &detail["corrected"]["answers"];
    assert_eq!(answers["recorded"], json!(["home.age", "board.maker", "operator.asked_on"]), "{answers}");
    assert_eq!((&answers["home"]["age"], &answers["meter"]["carrier_rating"]), (&json!("1930-1966"), &json!(80.0)));
    // Corrected again by the page of today it stays so.
    let mut answers = answers.clone();
    answers["board"]["spare_ways"] = json!("one");
    let body = json!({ "answers": answers });
    let detail = house.put_as(&cookie, &format!("{CORRECTED}/answers"), body).await.json();
    let recorded = &detail["corrected"]["answers"]["recorded"];
    assert_eq!(*recorded, json!(["home.age", "board.spare_ways", "board.maker", "operator.asked_on"]));
}

#[tokio::test]
async fn a_link_that_was_handed_out_opens_and_takes_what_it_asked_for() {
    let house = house_of_then().await;
    let link: Value = serde_json::from_slice(&std::fs::read(kept("data/link.json")).unwrap()).unwrap();
    let fragment = link["fragment"].as_str().unwrap().strip_prefix("presurvey-link=").unwrap();
    let (key, secret) = fragment.split_once('.').unwrap();
    let at = format!("/api/enquiries/{key}/additions");
    let bearer = format!("Bearer {secret}");
    let request = Request::get(&at).header(header::AUTHORIZATION, &bearer);
    let opened = house.send(request.body(Body::empty()).unwrap()).await;
    assert_eq!(opened.status, StatusCode::OK);
    assert_eq!(opened.json()["questions"], json!(["carrier-rating", "switch-after"]));
    assert_eq!(opened.json()["looks"], true, "nothing was noticed in this home");
    let added = json!({ "answers": { "meter": { "switch_after": true } } }).to_string();
    let request = Request::post(&at).header(header::AUTHORIZATION, &bearer);
    let taken = house.send(request.body(added.into()).unwrap()).await;
    assert_eq!(taken.status, StatusCode::OK, "{}", String::from_utf8_lossy(&taken.bytes));
    let cookie = house.sign_in().await;
    let detail = house.get_as(&cookie, CORRECTED).await.json();
    assert_eq!(detail["corrected"]["answers"]["meter"]["switch_after"], true);
}

#[tokio::test]
async fn an_assessment_that_cannot_be_read_refuses_no_enquiry_and_is_worked_out_again() {
    let house = House::new().await;
    let cookie = house.sign_in().await;
    let whole = serde_json::to_value(enquiry(1)).unwrap();
    assert!(whole["payload"]["assessment"]["labour"].is_number());
    let spoilt: [fn(&mut Value); 5] = [
        |assessment| drop(assessment.as_object_mut().unwrap().remove("labour")),
        |assessment| assessment["complexity"] = json!("a word of another version"),
        |assessment| assessment["a field of another version"] = json!(1),
        |assessment| *assessment = json!([1, "two"]),
        |assessment| *assessment = json!("none"),
    ];
    for (number, spoil) in spoilt.into_iter().enumerate() {
        let mut sent = serde_json::to_value(enquiry(number as u64 + 1)).unwrap();
        spoil(&mut sent["payload"]["assessment"]);
        let answered = house.post(sent.to_string()).await;
        assert_eq!(answered.status, StatusCode::CREATED, "{number}: {}", String::from_utf8_lossy(&answered.bytes));
        let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{:032x}", number + 1)).await.json();
        assert_eq!(detail["own_assessment"]["complexity"], whole["payload"]["assessment"]["complexity"], "{number}");
    }
    assert_eq!(house.count("enquiries").await, 5);
}

/// The hash of [`PASSWORD`](crate::house::PASSWORD) as every version so far has written it.
const HASH_OF_THEN: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$fUtUgqx75bT7XnLsb2mRZQ$eYiWl8blWWv1t+QzmBFEwAIXYlQgssRNNXAKlasTpkU";
/// A session's token of then.
const TOKEN: &str = "an invented token of a session";
const PHOTO_FOLDER: &str = "photos/a31f4b735bf160a7618c24a28bacc2ca";

/// A data folder whose tables are those of the first so many migrations, holding what 0.1.0 kept as far as those tables have room for it, a
/// password, a session, and a secret that is known here.
async fn folder_with_migrations(first: usize, all: &[PathBuf]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let migrations = tempfile::tempdir().unwrap();
    for file in &all[..first] {
        std::fs::copy(file, migrations.path().join(file.file_name().unwrap())).unwrap();
    }
    let options = SqliteConnectOptions::new().filename(folder.path().join("presurvey.sqlite")).create_if_missing(true);
    let mut connection = SqliteConnection::connect_with(&options).await.unwrap();
    Migrator::new(migrations.path()).await.unwrap().run(&mut connection).await.unwrap();
    let of_then = kept("data/presurvey.sqlite");
    let attach = format!("ATTACH '{}' AS then_kept", of_then.display());
    sqlx::query(AssertSqlSafe(attach)).execute(&mut connection).await.unwrap();
    for table in ["settings", "enquiries", "photos", "corrections", "links"] {
        let shared: Option<String> = sqlx::query_scalar(
            "SELECT group_concat(ours.name, ', ') FROM pragma_table_info(?1, 'main') ours
             JOIN pragma_table_info(?1, 'then_kept') theirs ON ours.name = theirs.name",
        )
        .bind(table)
        .fetch_one(&mut connection)
        .await
        .unwrap();
        let Some(columns) = shared else { continue };
        let copy = format!("INSERT INTO main.{table} ({columns}) SELECT {columns} FROM then_kept.{table}");
        sqlx::query(AssertSqlSafe(copy)).execute(&mut connection).await.unwrap();
    }
    let accounts: i64 = sqlx::query_scalar("SELECT count(*) FROM main.sqlite_master WHERE name = 'accounts'")
        .fetch_one(&mut connection)
        .await
        .unwrap();
    let [password, session] = if accounts == 0 {
        [
            "INSERT INTO main.settings (name, value) VALUES ('password', ?)",
            "INSERT INTO main.sessions (token_hash, until) VALUES (?, '2999-01-01T00:00:00Z')",
        ]
    } else {
        [
            "INSERT INTO main.accounts (name, role, password_hash) VALUES ('owner', 'owner', ?)",
            "INSERT INTO main.sessions (token_hash, account, until, used)
             SELECT ?, id, '2999-01-01T00:00:00Z', strftime('%Y-%m-%dT%H:%M:%SZ', 'now') FROM main.accounts",
        ]
    };
    for (statement, value) in [
        (password, HASH_OF_THEN.to_owned()),
        (session, sha256(TOKEN.as_bytes())),
        ("UPDATE main.enquiries SET deletion_hash = ?", sha256(SECRET.as_bytes())),
        // Past its day an enquiry takes no additions; the folder is older than that.
        ("UPDATE main.enquiries SET keep_until = ?", "2999-01-01".to_owned()),
    ] {
        sqlx::query(statement).bind(value).execute(&mut connection).await.unwrap();
    }
    connection.close().await.unwrap();
    std::fs::create_dir_all(folder.path().join(PHOTO_FOLDER)).unwrap();
    for file in std::fs::read_dir(kept("data").join("photos/a31f4b735bf160a7618c24a28bacc2ca")).unwrap() {
        let file = file.unwrap();
        std::fs::copy(file.path(), folder.path().join(PHOTO_FOLDER).join(file.file_name())).unwrap();
    }
    folder
}

#[tokio::test]
async fn a_folder_with_the_tables_of_any_version_opens_reads_is_exported_and_deleted() {
    let sql = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../service/migrations/sqlite"));
    let mut all: Vec<_> = std::fs::read_dir(sql).unwrap().map(|file| file.unwrap().path()).collect();
    all.sort();
    assert!(all.len() >= 4, "{all:?}");
    for first in 1..=all.len() {
        let folder = folder_with_migrations(first, &all).await;
        let service = Service::open(folder.path(), &demo_config(), None, true).await.unwrap();
        let house = House { router: app(service.clone()), service, folder };

        let session = format!("presurvey_session={TOKEN}");
        let list = house.get_as(&session, "/api/installer/enquiries").await;
        assert_eq!(list.status, StatusCode::OK, "a session of then, after {first} migrations");
        assert_eq!(list.json()["total"], 3);
        let again = house.try_password(PASSWORD, None).await;
        assert_eq!(again.status, StatusCode::NO_CONTENT, "the password of then, after {first} migrations");

        for row in list.json()["enquiries"].as_array().unwrap() {
            let at = format!("/api/installer/enquiries/{}", row["client_key"].as_str().unwrap());
            let detail = house.get_as(&session, &at).await;
            assert_eq!(detail.status, StatusCode::OK, "{at} after {first} migrations");
            let detail = detail.json();
            for photo in detail["photos_arrived"].as_array().unwrap() {
                let photo = photo.as_str().unwrap();
                let bytes = house.get_as(&session, &format!("{at}/photos/{photo}")).await.bytes;
                assert_eq!(sha256(&bytes), photo);
            }
            assert_eq!(
                house.get_as(&session, &format!("{at}/export")).await.headers["content-type"],
                "application/zip"
            );
            let corrected = house.put_as(&session, &format!("{at}/handled"), json!({ "handled": true })).await;
            assert_eq!(corrected.status, StatusCode::NO_CONTENT);
        }
        assert_eq!(house.photo_files().len(), 1);

        let homeowner = Request::delete("/api/enquiries/a31f4b735bf160a7618c24a28bacc2ca");
        let homeowner = homeowner.header(header::AUTHORIZATION, format!("Bearer {SECRET}"));
        let gone = house.send(homeowner.body(Body::empty()).unwrap()).await;
        assert_eq!(gone.status, StatusCode::NO_CONTENT, "by the secret of then, after {first} migrations");
        assert_eq!(house.delete_as(&session, CORRECTED).await.status, StatusCode::OK);
        assert_eq!(house.photo_files().len(), 0);
        assert_eq!(
            (house.count("enquiries").await, house.count("photos").await, house.count("links").await),
            (1, 0, 0)
        );
        let new = house.post_enquiry(&enquiry(1)).await;
        assert_eq!(new.status, StatusCode::CREATED, "a new one after {first} migrations");
    }
}
