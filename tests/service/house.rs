//! What the tests share: a service in a folder of its own, requests without a port, an invented enquiry and picture.

use axum::body::{Body, to_bytes};
use axum::extract::ConnectInfo;
use axum::http::{HeaderMap, Request, StatusCode, header};
use axum::{Router, response::Response};
use jiff::{SignedDuration, Timestamp};
use presurvey::answers::{Answer, Answers, Postcode};
use presurvey::assess;
use presurvey::config::{Config, PointPapers, demo_config};
use presurvey::enquiry::{CURRENT_VERSION, Contact, Enquiry, Envelope, Payload, Photo, PhotoPlace};
use presurvey::service::{Service, Surroundings, Telling, app, set_password, tidy};
use serde_json::Value;
use sha2::{Digest, Sha256};
use sqlx::sqlite::SqliteConnectOptions;
use sqlx::{AssertSqlSafe, SqlitePool};
use std::net::SocketAddr;
use std::path::PathBuf;
use tempfile::TempDir;
use tower::ServiceExt;

pub const PASSWORD: &str = "an invented password";
pub const PHOTO_SECRET: &str = "an invented secret for photos";
pub const SECRET: &str = "an invented deletion secret";

pub struct House {
    pub folder: TempDir,
    pub service: Service,
    pub router: Router,
}

pub struct Answered {
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub bytes: Vec<u8>,
}

impl Answered {
    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.bytes)
            .unwrap_or_else(|why| panic!("{why}: {}", String::from_utf8_lossy(&self.bytes)))
    }

    /// The sentence of a refusal; every refusal has one.
    pub fn error(&self) -> String {
        let error = self.json()["error"].as_str().unwrap_or_default().to_owned();
        assert!(!error.is_empty(), "a refusal without a sentence: {}", self.status);
        error
    }
}

impl House {
    pub async fn new() -> Self {
        Self::with(&demo_config(), None).await
    }

    pub async fn with(config: &Config, pages: Option<PathBuf>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let service = Service::open(folder.path(), config, pages.as_deref(), false).await.unwrap();
        Self { router: app(service.clone()), service, folder }
    }

    /// The same with what the network operator's form asks of each charge point.
    pub fn with_papers(self, papers: Vec<PointPapers>) -> Self {
        let service = self.service.with_papers(papers);
        Self { router: app(service.clone()), service, folder: self.folder }
    }

    /// The same with those whom it tells of enquiries.
    pub fn with_telling(self, telling: Telling) -> Self {
        let service = self.service.with_telling(telling);
        Self { router: app(service.clone()), service, folder: self.folder }
    }

    /// The same, told where it stands.
    pub fn standing_in(self, surroundings: Surroundings) -> Self {
        let service = self.service.standing_in(surroundings);
        Self { router: app(service.clone()), service, folder: self.folder }
    }

    pub async fn send(&self, request: Request<Body>) -> Answered {
        let response: Response = self.router.clone().oneshot(request).await.unwrap();
        let (status, headers) = (response.status(), response.headers().clone());
        let bytes = to_bytes(response.into_body(), 64 * 1024 * 1024).await.unwrap().to_vec();
        Answered { status, headers, bytes }
    }

    pub async fn get(&self, path: &str) -> Answered {
        self.send(Request::get(path).body(Body::empty()).unwrap()).await
    }

    pub async fn post(&self, json: impl Into<Body>) -> Answered {
        let request = Request::post("/api/enquiries").header(header::CONTENT_TYPE, "application/json");
        self.send(request.body(json.into()).unwrap()).await
    }

    pub async fn post_enquiry(&self, enquiry: &Enquiry) -> Answered {
        self.post(serde_json::to_vec(enquiry).unwrap()).await
    }

    pub async fn put_photo(&self, key: &str, sha256: &str, bytes: Vec<u8>) -> Answered {
        let request = Request::put(format!("/api/enquiries/{key}/photos/{sha256}"));
        self.send(request.header(header::CONTENT_TYPE, "image/jpeg").body(bytes.into()).unwrap()).await
    }

    /// Signs in; returns the cookies to send from then on.
    pub async fn sign_in(&self) -> String {
        set_password(&self.service, PASSWORD).await.unwrap();
        let answered = self.try_password(PASSWORD, None).await;
        assert_eq!(answered.status, StatusCode::NO_CONTENT);
        let cookies = answered.headers.get_all(header::SET_COOKIE).iter();
        cookies.map(|line| line.to_str().unwrap().split(';').next().unwrap()).collect::<Vec<_>>().join("; ")
    }

    pub async fn try_password(&self, password: &str, cookie: Option<&str>) -> Answered {
        self.send(sign_in_from(password, cookie, [192, 0, 2, 1])).await
    }

    pub async fn get_as(&self, cookie: &str, path: &str) -> Answered {
        self.send(Request::get(path).header(header::COOKIE, cookie).body(Body::empty()).unwrap()).await
    }

    pub async fn put_as(&self, cookie: &str, path: &str, json: Value) -> Answered {
        let request = Request::put(path).header(header::COOKIE, cookie).header("x-presurvey", "1");
        self.send(request.body(json.to_string().into()).unwrap()).await
    }

    pub async fn delete_as(&self, cookie: &str, path: &str) -> Answered {
        let request = Request::delete(path).header(header::COOKIE, cookie).header("x-presurvey", "1");
        self.send(request.body(Body::empty()).unwrap()).await
    }

    /// Tidies now and then from this time to that one, as a service that runs does; returns how many enquiries were deleted.
    pub async fn tidy_from_to(&self, from: Timestamp, to: Timestamp) -> u64 {
        let last_but_one = to - SignedDuration::from_hours(8);
        let (mut now, mut deleted) = (from, 0);
        while now < last_but_one {
            deleted += tidy(&self.service, now).await.unwrap();
            now += SignedDuration::from_hours(47);
        }
        for now in [last_but_one, to] {
            deleted += tidy(&self.service, now).await.unwrap();
        }
        deleted
    }

    /// Looks into the file itself, past the service.
    pub async fn count(&self, table: &str) -> i64 {
        let options = SqliteConnectOptions::new().filename(self.folder.path().join("presurvey.sqlite"));
        let pool = SqlitePool::connect_with(options).await.unwrap();
        let count = sqlx::query_scalar(AssertSqlSafe(format!("SELECT count(*) FROM {table}")));
        let count = count.fetch_one(&pool).await.unwrap();
        pool.close().await;
        count
    }

    /// Changes the file itself, past the service.
    pub async fn change(&self, statement: &'static str) {
        let options = SqliteConnectOptions::new().filename(self.folder.path().join("presurvey.sqlite"));
        let pool = SqlitePool::connect_with(options).await.unwrap();
        sqlx::query(statement).execute(&pool).await.unwrap();
        pool.close().await;
    }

    /// Every file under the photo folder.
    pub fn photo_files(&self) -> Vec<PathBuf> {
        let mut found = Vec::new();
        for folder in std::fs::read_dir(self.folder.path().join("photos")).unwrap() {
            found.extend(std::fs::read_dir(folder.unwrap().path()).unwrap().map(|file| file.unwrap().path()));
        }
        found
    }
}

/// An attempt to sign in from an address.
pub fn sign_in_from(password: &str, cookie: Option<&str>, address: [u8; 4]) -> Request<Body> {
    let body = serde_json::json!({ "password": password }).to_string();
    let request = Request::post("/api/session").header("x-presurvey", "1").header(header::COOKIE, cookie.unwrap_or(""));
    let peer = ConnectInfo(SocketAddr::from((address, 4711)));
    request.extension(peer).body(body.into()).unwrap()
}

/// An invented enquiry with one photo listed; `key` tells it apart.
pub fn enquiry(key: u64) -> Enquiry {
    let config = demo_config();
    let mut answers = Answers { as_of: Some(config.published), ..Answers::default() };
    answers.home.postcode = Answer::Known(Postcode::new("ZZ1 1AA").unwrap());
    let assessment = assess(&answers, &config);
    let picture = picture(0);
    Enquiry {
        version: CURRENT_VERSION,
        envelope: Envelope {
            installer: config.installer.id.clone(),
            client_key: format!("{key:032x}"),
            deletion_hash: sha256(SECRET.as_bytes()),
            addition_hash: Some(sha256(PHOTO_SECRET.as_bytes())),
            photo_sizes: vec![picture.len() as u64],
            reference: None,
            received: None,
            keep_until: None,
        },
        payload: Payload {
            contact: Contact {
                name: "Invented Homeowner".into(),
                telephone: "01632 960123".into(),
                consent: true,
                ..Contact::default()
            },
            answers,
            as_of: assessment.as_of,
            engine: assessment.engine.clone(),
            config: assessment.config.clone(),
            assessment: Some(assessment),
            photos: vec![Photo {
                sha256: sha256(&picture),
                place: PhotoPlace::Meter,
                width: 640,
                height: 480,
                marks: Vec::new(),
            }],
        },
    }
}

pub fn sha256(bytes: &[u8]) -> String {
    hex::encode(Sha256::digest(bytes))
}

/// One of the demo's drawings; a trailing number makes different bytes that are still a plain JPEG.
pub fn picture(number: u8) -> Vec<u8> {
    let drawing = include_bytes!("../../src/service/demo/drawings/head-plain.jpg");
    let mut bytes = drawing.to_vec();
    if number > 0 {
        // Another density in the JFIF header: other bytes, the same pixels.
        bytes[15] = number;
    }
    bytes
}

/// The same picture with a segment put in after its first one, as a camera would.
pub fn picture_with(marker: u8, payload: &[u8]) -> Vec<u8> {
    let plain = picture(0);
    let length = u16::try_from(payload.len() + 2).unwrap().to_be_bytes();
    [&plain[..20], &[0xff, marker], &length, payload, &plain[20..]].concat()
}
