//! The state that every handler is given, and the router as a plain function that a test can call without a port.

use super::backup::{DATABASE, PHOTOS};
use super::bodies::Bodies;
use super::database::{self, Database, DatabaseError};
use super::metrics::Metrics;
use super::openapi::{self, Refuses};
use super::rate_limit::{self, RateLimits};
use super::surroundings::Surroundings;
use super::{
    Given, Telling, additions, cleaning, config, corrections, deletion, detail, export, guard, headers, health, jobs,
    limits, links, list, outbox, pages, photos, plain_page, receive, sessions,
};
use axum::extract::DefaultBodyLimit;
use axum::http::{Method, header};
use axum::middleware;
use axum::{Extension, Router};
use model::config::{Config, PointPapers};
use std::collections::HashSet;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::time::Duration;
use tower_http::cors::{Any, CorsLayer};
use utoipa_axum::router::{OpenApiRouter, UtoipaMethodRouterExt};
use utoipa_axum::routes;

/// An empty file that is locked while the folder is opened.
const OPENING: &str = "opening.lock";

/// Why the data folder can't be opened.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// A folder can't be made.
    #[error("the folder {} can't be made: {why}; choose another with --data", folder.display())]
    Folder {
        /// Which.
        folder: PathBuf,
        /// The system's words.
        why: std::io::Error,
    },
    /// It can't be made sure that nobody else opens it.
    #[error("the file {} can't be locked while the folder is opened: {why}", file.display())]
    Lock {
        /// Which.
        file: PathBuf,
        /// The system's words.
        why: std::io::Error,
    },
    /// The database can't be opened.
    #[error(transparent)]
    Database(#[from] DatabaseError),
}

/// The service's state: its database, its photo folder and what it publishes; cheap to clone.
#[derive(Clone, Debug)]
pub struct Service {
    pub(super) database: Database,
    pub(super) photos: Arc<Path>,
    pub(super) config: Arc<config::Published>,
    /// What the network operator's form asks of each charge point; for the signed-in installer alone.
    pub(super) papers: Arc<[PointPapers]>,
    /// Whom to tell of an enquiry; private.
    pub(super) telling: Arc<Telling>,
    pub(super) pages: Option<Arc<Path>>,
    pub(super) rate_limits: Arc<RateLimits>,
    pub(super) cleaning: Arc<cleaning::Turns>,
    pub(super) health: Arc<health::Health>,
    pub(super) metrics: Arc<Metrics>,
    /// Whether all data is invented: then a cookie may be sent without encryption.
    pub(super) demo: bool,
    pub(super) bodies: Arc<Bodies>,
    /// Whose password is being looked at.
    pub(super) signing_in: Arc<sessions::Turns>,
    /// The sessions, by the hash of their token, of which it is being written that they were used.
    pub(super) noting_use: Arc<Mutex<HashSet<String>>>,
    pub(super) surroundings: Arc<Surroundings>,
    /// The id that its addresses begin with, where it is a further installer's; the first one's begin with nothing.
    pub(super) further: Option<Arc<str>>,
}

impl Service {
    /// Opens a data folder, creating what is missing.
    ///
    /// # Errors
    /// [`OpenError`] if a folder or the database can't be made or read.
    pub async fn open(data: &Path, config: &Config, pages: Option<&Path>, demo: bool) -> Result<Self, OpenError> {
        let photos = data.join(PHOTOS);
        make_private_folder(data)?;
        make_private_folder(&photos)?;
        let opening = first_at_once(data).await?;
        let mut database = database::open(&data.join(DATABASE)).await?;
        drop(opening);
        let metrics = Metrics::new(None);
        database.waited = metrics.waited.clone();
        Ok(Self {
            metrics: Arc::new(metrics),
            database,
            photos: photos.into(),
            config: Arc::new(config::Published::new(config.clone())),
            papers: Arc::default(),
            telling: Arc::default(),
            pages: pages.map(Into::into),
            rate_limits: Arc::default(),
            cleaning: Arc::default(),
            health: Arc::default(),
            demo,
            bodies: Arc::default(),
            signing_in: Arc::default(),
            noting_use: Arc::default(),
            surroundings: Arc::default(),
            further: None,
        })
    }

    /// This service as that of a further installer, whose addresses begin with its id.
    #[must_use]
    pub fn further(self, id: &str) -> Self {
        Self { further: Some(id.into()), ..self }
    }

    /// This service with its room in memory, and its turns at what takes much of it, shared with another in the same process.
    #[must_use]
    pub(super) fn sharing(self, other: &Self) -> Self {
        Self {
            bodies: Arc::clone(&other.bodies),
            cleaning: Arc::clone(&other.cleaning),
            signing_in: Arc::clone(&other.signing_in),
            ..self
        }
    }

    /// This service with its counts kept in these metrics.
    #[must_use]
    pub(super) fn counted_in(mut self, metrics: Metrics) -> Self {
        self.database.waited = metrics.waited.clone();
        Self { metrics: Arc::new(metrics), ..self }
    }

    /// This service with what the network operator's form asks of each charge point.
    #[must_use]
    pub fn with_papers(self, papers: Vec<PointPapers>) -> Self {
        Self { papers: papers.into(), ..self }
    }

    /// This service by another setup: the same data, connections and counts.
    #[must_use]
    pub(super) fn by(&self, given: Given) -> Self {
        let Given { config, papers, telling, surroundings, text: _ } = given;
        let config = Arc::new(config::Published::new(config));
        Self { config, ..self.clone() }.with_papers(papers).with_telling(telling).standing_in(surroundings)
    }

    /// This service with those whom it tells of enquiries.
    #[must_use]
    pub fn with_telling(self, telling: Telling) -> Self {
        // Whoever waits for news goes on hearing it, also from a request that began before.
        let telling = Telling { news: Arc::clone(&self.telling.news), ..telling };
        Self { telling: telling.into(), ..self }
    }

    /// This service with what it is told of where it stands.
    #[must_use]
    pub fn standing_in(self, surroundings: Surroundings) -> Self {
        Self { surroundings: surroundings.into(), ..self }
    }

    /// How safely a commit reaches the disk: the journal mode and SQLite's `synchronous` level (2 is FULL).
    ///
    /// # Errors
    /// The database's own.
    pub async fn durability(&self) -> Result<(String, i64), sqlx::Error> {
        self.database.durability().await
    }

    /// Waits for running queries to end and closes every connection to the database.
    pub async fn close(self) {
        self.database.close().await;
    }
}

/// Waits until no other process opens this folder: several that are started at once would make the same tables. The wait ends when what is
/// returned is dropped, or with its process.
async fn first_at_once(data: &Path) -> Result<std::fs::File, OpenError> {
    let file = data.join(OPENING);
    let locked = {
        let file = file.clone();
        tokio::task::spawn_blocking(move || {
            database::make_private(&file)?;
            let opened = std::fs::File::options().append(true).open(&file)?;
            opened.lock().map(|()| opened)
        })
    };
    locked.await.map_err(std::io::Error::from).flatten().map_err(|why| OpenError::Lock { file, why })
}

/// Makes a folder that only the service's own user may read: it holds names, telephone numbers and photos.
pub(super) fn make_private_folder(folder: &Path) -> Result<(), OpenError> {
    let mut builder = std::fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder).map_err(|why| OpenError::Folder { folder: folder.to_owned(), why })
}

/// The router with every route of the service, which answers requests without listening on a port.
pub fn app(service: Service) -> Router {
    let any_origin = CorsLayer::new()
        .allow_origin(Any)
        .allow_methods([Method::GET, Method::POST, Method::PUT, Method::DELETE])
        .allow_headers([header::CONTENT_TYPE, header::AUTHORIZATION])
        .expose_headers([header::RETRY_AFTER, header::DATE])
        .max_age(Duration::from_secs(3600));

    let limited = middleware::from_fn_with_state(service.clone(), rate_limit::limited);
    let for_browsers = middleware::from_fn_with_state(service.clone(), plain_page::for_browsers);
    let public = OpenApiRouter::new()
        .routes(routes!(config::get))
        .routes(
            routes!(receive::post)
                .map(|routes| routes.fallback(receive::other_method))
                .layer(limited.clone())
                .layer(for_browsers.clone()),
        )
        .routes(routes!(deletion::delete))
        .routes(
            routes!(deletion::page, deletion::post)
                .layer(DefaultBodyLimit::max(limits::SECRET_BYTES))
                .layer(limited.clone())
                .layer(for_browsers),
        )
        .routes(routes!(deletion::script))
        .routes(routes!(photos::put).layer(limited.clone()))
        .routes(routes!(additions::get, additions::post).layer(limited));
    let public = openapi::refusing(public, Refuses::TooMuch).layer(any_origin.clone());

    let session = OpenApiRouter::new()
        .routes(routes!(sessions::get, sessions::post, sessions::delete))
        .layer(DefaultBodyLimit::max(limits::SECRET_BYTES));
    let session =
        openapi::refusing(session, Refuses::NotFromOurPage).layer(middleware::from_fn(guard::only_from_our_page));

    // What only an owner may do; all else under this path is for everybody who is signed in.
    let owner_alone = middleware::from_fn(guard::owner_alone);
    let installer = OpenApiRouter::new()
        .routes(routes!(list::get))
        .routes(routes!(outbox::get))
        .routes(routes!(detail::get))
        .routes(routes!(deletion::by_installer).layer(owner_alone.clone()))
        .routes(routes!(export::get).layer(owner_alone.clone()))
        .routes(routes!(photos::get))
        .routes(routes!(corrections::put))
        .routes(routes!(corrections::put_handled))
        .routes(routes!(links::post))
        .routes(routes!(jobs::put))
        .routes(routes!(jobs::list))
        .routes(routes!(jobs::delete).layer(owner_alone))
        // Any other path under this one needs the password too, so that a route forgotten above lets no one in.
        .route("/api/installer/{*rest}", axum::routing::any(guard::nothing_here));
    let installer = openapi::refusing(installer, Refuses::NotSignedIn)
        .layer(middleware::from_fn_with_state(service.clone(), guard::signed_in));
    let installer =
        openapi::refusing(installer, Refuses::NotFromOurPage).layer(middleware::from_fn(guard::only_from_our_page));

    let api = OpenApiRouter::new()
        .merge(public)
        .merge(session)
        .merge(installer)
        .routes(routes!(health::live))
        .routes(routes!(health::ready))
        .routes(routes!(openapi::get))
        .route("/api/{*rest}", axum::routing::any(guard::nothing_here));
    let (api, document) = openapi::refusing(api, Refuses::Ours).split_for_parts();
    let api = api.layer(Extension(openapi::Written::of(&document))).layer(middleware::from_fn(headers::plain_headers));

    let pages = pages::routes(&service, any_origin);
    api.merge(pages).with_state(service)
}
