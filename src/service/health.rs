//! `GET /live` and `GET /ready`, for whoever watches over the service: a process manager, a proxy, a monitor.
//!
//! Ready means that a write into the database and one into the photo folder really worked. It is tried at most once in a while, however
//! often it is asked and by whomever; until then the last outcome is the answer.

use super::photos::{ARRIVING, write_and_remove};
use super::{Service, store};
use axum::Json;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::Serialize;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::{Mutex, Semaphore};
use tokio::time::Instant;
use tracing::Instrument;

/// What a trial may take and how often there is one. The default is this program's choice.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pace {
    /// How long an outcome stands before it is tried again.
    pub(super) stands: Duration,
    /// How long each of both writes may take.
    pub(super) within: Duration,
}

impl Default for Pace {
    fn default() -> Self {
        Self { stands: Duration::from_secs(5), within: Duration::from_secs(3) }
    }
}

/// The last trial, and whether a write into the photo folder is under way.
#[derive(Debug)]
pub(super) struct Health {
    pace: Pace,
    last: Mutex<Option<(Instant, Vec<Part>)>>,
    /// A write that hangs in the system can't be called off; no second one is begun beside it.
    writing: Arc<Semaphore>,
}

impl Default for Health {
    fn default() -> Self {
        Self::with(Pace::default())
    }
}

impl Health {
    pub(super) fn with(pace: Pace) -> Self {
        Self { pace, last: Mutex::default(), writing: Arc::new(Semaphore::new(1)) }
    }
}

/// What may fail, by the word that the answer has for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Database,
    Photos,
}

const BOTH: [Part; 2] = [Part::Database, Part::Photos];

impl Part {
    const fn word(self) -> &'static str {
        match self {
            Self::Database => "database",
            Self::Photos => "photos",
        }
    }
}

/// What `/live` says.
#[derive(Serialize, JsonSchema)]
pub(super) struct Alive {
    live: bool,
}

/// What `/ready` says.
#[derive(Serialize, JsonSchema)]
pub(super) struct Ready {
    /// What can't be written: `database`, `photos`; of a further installer's with its id before it, as in `ID/photos`.
    failing: Vec<String>,
    ready: bool,
}

/// Answers while the process does.
#[utoipa::path(
    get,
    path = "/live",
    operation_id = "read_live",
    description = "Answers while the process does.",
    responses(
        (status = 200, description = "It answers.", body = ref("#/components/schemas/Alive")),
    ),
)]
pub(super) async fn live() -> Response {
    ([(header::CACHE_CONTROL, "no-store")], Json(Alive { live: true })).into_response()
}

/// Answers 200 if both writes worked when they were last tried, else 503 with the words of those that did not.
#[utoipa::path(
    get,
    path = "/ready",
    operation_id = "read_ready",
    description = "Whether enquiries and photos can be stored.",
    responses(
        (status = 200, description = "They can.", body = ref("#/components/schemas/Ready")),
        (status = 503, description = "They can't.", body = ref("#/components/schemas/Ready")),
    ),
)]
pub(super) async fn ready(State(service): State<Service>) -> Response {
    told(words_of(service).await)
}

/// Answers for several installers: ready if all are. What fails of a further one's has its id before it.
pub(super) async fn all_ready(State(services): State<Arc<[Service]>>) -> Response {
    let tried: Vec<_> =
        services.iter().cloned().map(|service| tokio::spawn(words_of(service).in_current_span())).collect();
    let mut failing = Vec::new();
    for (service, tried) in services.iter().zip(tried) {
        let words = tried.await.unwrap_or_else(|_| BOTH.map(Part::word).map(str::to_owned).into());
        let id = service.further.as_ref().map(|id| format!("{id}/")).unwrap_or_default();
        failing.extend(words.into_iter().map(|word| format!("{id}{word}")));
    }
    told(failing)
}

/// The words of what failed at the last trial.
async fn words_of(service: Service) -> Vec<String> {
    // As a task of its own: whoever hangs up must not leave the trial half-done.
    let failing = tokio::spawn(async move { failing(&service).await }.in_current_span()).await.unwrap_or_else(|why| {
        tracing::error!(error = %why, "the trial of readiness ended badly");
        BOTH.into()
    });
    failing.into_iter().map(|part| part.word().to_owned()).collect()
}

fn told(failing: Vec<String>) -> Response {
    let status = if failing.is_empty() { StatusCode::OK } else { StatusCode::SERVICE_UNAVAILABLE };
    let told = Ready { ready: failing.is_empty(), failing };
    (status, [(header::CACHE_CONTROL, "no-store")], Json(told)).into_response()
}

/// What failed at the last trial, or at a new one if that is too old; several askers wait for one trial.
async fn failing(service: &Service) -> Vec<Part> {
    let health = &service.health;
    let mut last = health.last.lock().await;
    if let Some((_, failing)) = last.as_ref().filter(|(at, _)| at.elapsed() < health.pace.stands) {
        return failing.clone();
    }
    let (database, photos) =
        tokio::join!(within(health.pace.within, write_row(service)), within(health.pace.within, write_file(service)),);
    let outcomes = [(Part::Database, database), (Part::Photos, photos)];
    let failing = outcomes
        .into_iter()
        .filter_map(|(part, outcome)| {
            outcome.inspect_err(|why| tracing::error!(part = part.word(), error = %why, "not ready")).err()?;
            Some(part)
        })
        .collect::<Vec<_>>();
    if failing.is_empty() && last.as_ref().is_some_and(|(_, before)| !before.is_empty()) {
        tracing::info!("ready again");
    }
    *last = Some((Instant::now(), failing.clone()));
    failing
}

type Outcome = Result<(), Box<dyn std::error::Error + Send + Sync>>;

async fn within(time: Duration, trial: impl Future<Output = Outcome>) -> Outcome {
    tokio::time::timeout(time, trial).await.unwrap_or_else(|_| Err("it took too long".into()))
}

async fn write_row(service: &Service) -> Outcome {
    let statement = "INSERT INTO settings (name, value) VALUES ('ready', ?)
        ON CONFLICT (name) DO UPDATE SET value = excluded.value";
    service.database.execute(sqlx::query(statement).bind(store::now().to_string())).await?;
    Ok(())
}

async fn write_file(service: &Service) -> Outcome {
    let turn = Arc::clone(&service.health.writing).acquire_owned().await?;
    let arriving = service.photos.join(ARRIVING);
    tokio::task::spawn_blocking(move || {
        let written = write_and_remove(&arriving);
        drop(turn);
        written
    })
    .await??;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::body::to_bytes;
    use model::config::demo_config;

    /// Far longer than anything here takes.
    const LONG: Duration = Duration::from_secs(600);

    async fn opened(pace: Pace) -> (tempfile::TempDir, Service) {
        let folder = tempfile::tempdir().unwrap();
        let mut service = Service::open(folder.path(), &demo_config(), None, false).await.unwrap();
        service.health = Arc::new(Health::with(pace));
        (folder, service)
    }

    async fn asked(service: &Service) -> (StatusCode, String) {
        let response = ready(State(service.clone())).await;
        let status = response.status();
        (status, String::from_utf8(to_bytes(response.into_body(), 1000).await.unwrap().to_vec()).unwrap())
    }

    /// How often the row was written; the database counts itself.
    async fn writes(service: &Service) -> i64 {
        sqlx::query_scalar("SELECT count(*) FROM written").fetch_one(service.database.readers()).await.unwrap()
    }

    async fn count_writes(service: &Service) {
        for statement in [
            "CREATE TABLE written (name TEXT)",
            "CREATE TRIGGER a AFTER INSERT ON settings BEGIN INSERT INTO written VALUES (new.name); END",
            "CREATE TRIGGER b AFTER UPDATE ON settings BEGIN INSERT INTO written VALUES (new.name); END",
        ] {
            service.database.execute(sqlx::query(statement)).await.unwrap();
        }
    }

    #[tokio::test]
    async fn however_often_and_by_however_many_it_is_asked_it_writes_once_in_a_while() {
        let (_folder, service) = opened(Pace { stands: LONG, within: LONG }).await;
        count_writes(&service).await;
        let askers: Vec<_> = (0..20)
            .map(|_| {
                let service = service.clone();
                tokio::spawn(async move { asked(&service).await })
            })
            .collect();
        for asker in askers {
            let (status, told) = asker.await.unwrap();
            assert_eq!((status, told.as_str()), (StatusCode::OK, r#"{"failing":[],"ready":true}"#));
        }
        assert_eq!(writes(&service).await, 1);
        assert_eq!(std::fs::read_dir(service.photos.join(ARRIVING)).unwrap().count(), 0, "and leaves nothing");
    }

    #[tokio::test]
    async fn an_outcome_that_is_old_is_tried_again() {
        let (_folder, service) = opened(Pace { stands: Duration::ZERO, within: LONG }).await;
        count_writes(&service).await;
        for _ in 0..3 {
            asked(&service).await;
        }
        assert_eq!(writes(&service).await, 3);
    }

    #[tokio::test]
    async fn a_database_that_does_not_come_to_writing_is_named_and_what_hangs_is_not_waited_for() {
        let (_folder, service) = opened(Pace { stands: Duration::ZERO, within: Duration::from_millis(50) }).await;
        let held = service.database.write().await.unwrap();
        let (status, told) = asked(&service).await;
        assert_eq!(
            (status, told.as_str()),
            (StatusCode::SERVICE_UNAVAILABLE, r#"{"failing":["database"],"ready":false}"#)
        );
        drop(held);
    }

    #[tokio::test]
    async fn a_photo_folder_that_can_not_be_written_is_named_and_ready_again_afterwards() {
        let (_folder, service) = opened(Pace { stands: Duration::ZERO, within: LONG }).await;
        // A file in its place: that holds for an administrator too, for whom rights do not.
        std::fs::remove_dir_all(&service.photos).unwrap();
        std::fs::write(&service.photos, "").unwrap();
        let (status, told) = asked(&service).await;
        assert_eq!(
            (status, told.as_str()),
            (StatusCode::SERVICE_UNAVAILABLE, r#"{"failing":["photos"],"ready":false}"#)
        );
        std::fs::remove_file(&service.photos).unwrap();
        std::fs::create_dir(&service.photos).unwrap();
        assert_eq!(asked(&service).await.0, StatusCode::OK);
    }

    #[tokio::test]
    async fn beside_a_write_that_hangs_no_second_one_is_begun() {
        let (_folder, service) = opened(Pace { stands: Duration::ZERO, within: Duration::from_millis(50) }).await;
        let hangs = Arc::clone(&service.health.writing).acquire_owned().await.unwrap();
        assert!(asked(&service).await.1.contains("photos"));
        assert!(!service.photos.join(ARRIVING).exists(), "nothing was tried");
        drop(hangs);
    }
}
