//! Starts the service: opens its folder, binds its address, prints where the pages are, and stops in good order.

use super::again::{Progress, catch_up};
use super::connections::{self, Limits};
use super::demo::{self, SeedError};
use super::housekeeping::keep_tidy;
use super::installers::{self, WrongInstaller, installer_folder};
use super::metrics::{self, Metrics};
use super::observe::observed;
use super::outbox::keep_sending;
use super::password::{PasswordError, draw_password, set_password};
use super::{OpenError, Service, Surroundings, Telling, accounts, app, headers, health, keep_setup};
use axum::Router;
use axum::middleware;
use axum::routing::get;
use model::config::{Config, PointPapers};
use std::convert::Infallible;
use std::io::{self, Write};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tokio::sync::{Semaphore, mpsc, watch};
use tokio::task::JoinHandle;
use tracing::{Instrument, Span};

/// How the service is to run.
#[derive(Debug)]
pub struct ServeOptions {
    /// Where it keeps everything.
    pub data: PathBuf,
    /// Where the built pages are: `form` and `triage` in it.
    pub pages: Option<PathBuf>,
    /// Where it listens.
    pub listen: SocketAddr,
    /// The installer at `/`, whose data is in that folder itself.
    pub first: Installer,
    /// Further ones, each under its id. That they go together is checked before ([`check_installers`](super::check_installers)).
    pub further: Vec<Installer>,
    /// Whether it is the demo with invented data.
    pub demo: bool,
    /// A password to set before starting, the first installer's.
    pub password: Option<String>,
    /// Where metrics are told, if anywhere.
    pub metrics: Option<SocketAddr>,
}

/// An installer, as the service is to run for them.
#[derive(Debug)]
pub struct Installer {
    /// What their setup gives.
    pub given: Given,
    /// Reads the setup anew when the service is told to (SIGHUP), if it can be read again.
    pub reread: Option<Reread>,
}

/// What of a setup is given to the service.
#[derive(Debug)]
pub struct Given {
    /// The config that it publishes.
    pub config: Config,
    /// What the network operator's form asks of each charge point; private to the installer.
    pub papers: Vec<PointPapers>,
    /// Whom it tells of enquiries; private to the installer.
    pub telling: Telling,
    /// What it is told of where it stands.
    pub surroundings: Surroundings,
    /// The setup itself, to be kept as a version; `None` where it is not to be.
    pub text: Option<String>,
}

/// Reads the setup anew, or says what is wrong with it and where.
pub struct Reread(pub Box<dyn Fn() -> Result<Given, String> + Send + Sync>);

impl std::fmt::Debug for Reread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Reread")
    }
}

/// Why the service does not run; each says what to do.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// A page was not built.
    #[error("there is no {}; build the pages first (`cargo xtask demo` does), or leave --pages out", .0.display())]
    NoPage(PathBuf),
    /// The address is taken or not allowed.
    #[error(
        "can't listen on {listen}: {why}; stop what listens there, or choose another with {option}, such as 127.0.0.1:0 for any free port"
    )]
    Listen {
        /// Which address.
        listen: SocketAddr,
        /// The option that chooses it.
        option: &'static str,
        /// The system's words.
        why: io::Error,
    },
    /// A real start on the demo's data, or a demo's start on real data.
    #[error("{} holds {}; choose another folder with --data", data.display(), if *.demo { "real data, which the demo leaves alone" } else { "the invented demo" })]
    OtherData {
        /// Which folder.
        data: PathBuf,
        /// Whether a demo was asked for.
        demo: bool,
    },
    /// No password is set, so nobody could sign in.
    #[error(
        "no password is set; set one with `presurvey password --data {}{}`, which reads it from standard input",
        data.display(),
        further.as_ref().map(|id| format!(" --installer {id}")).unwrap_or_default()
    )]
    NoPassword {
        /// Of which data folder.
        data: PathBuf,
        /// Of which further installer.
        further: Option<String>,
    },
    /// Installers that don't go together.
    #[error(transparent)]
    Installer(#[from] WrongInstaller),
    /// The folder can't be opened.
    #[error(transparent)]
    Open(#[from] OpenError),
    /// The password can't be set.
    #[error(transparent)]
    Password(#[from] PasswordError),
    /// The demo's data can't be made.
    #[error(transparent)]
    Seed(#[from] SeedError),
    /// The database's fault.
    #[error("the database can't be read: {0}")]
    Database(#[from] sqlx::Error),
    /// Serving itself failed.
    #[error("serving failed: {0}")]
    Io(#[from] io::Error),
}

/// Runs the service until it is told to stop (SIGINT or SIGTERM); told a second time, it stops at once.
///
/// # Errors
/// [`ServeError`]: what is wrong, and what to do about it.
pub async fn serve(options: ServeOptions) -> Result<(), ServeError> {
    let ServeOptions { data, pages, listen, first, further, demo, password, metrics } = options;
    if let Some(pages) = &pages {
        for page in ["form", "triage"].map(|name| pages.join(name).join("index.html")) {
            if !page.is_file() {
                return Err(ServeError::NoPage(page));
            }
        }
    }
    // Bound before anything is written, so that a second start by mistake changes nothing.
    let listener = bound(listen, "--listen").await?;
    let measured = match metrics {
        Some(address) => Some(bound(address, "--metrics").await?),
        None => None,
    };
    let drawn = demo.then(draw_password);
    let password = drawn.clone().or(password);
    let catching_up = Arc::new(Semaphore::new(1));
    let several = !further.is_empty();
    let opened = open(&data, first, pages.as_deref(), demo, password.as_deref(), &catching_up);
    let (first, counts) = opened.await.map(|one| one.counted(several, None))?;
    let mut all = vec![first];
    for installer in further {
        let id = installer.given.config.installer.id.clone();
        let one = open_further(&data, installer, pages.as_deref(), &all[0].service, &catching_up).await?;
        all.push(one.counted(several, Some(counts.beside(&id))).0);
    }
    for One { service, .. } in &all {
        if service.surroundings.encrypted.is_none() && !demo {
            tracing::warn!(
                installer = service.further.as_deref(),
                "no public address is named (`public_address` in the setup, or --address): signing in works over https, and on this machine"
            );
        }
    }
    let mut signals = Signals::listen()?;
    let hangups = Hangups::listen(all.iter().any(|one| one.reread.is_some()));
    let address = reachable(listener.local_addr()?);
    let mut out = io::stdout().lock();
    writeln!(out, "homeowner's page: http://{address}/")?;
    writeln!(out, "installer's page: http://{address}/installer/")?;
    for id in all.iter().filter_map(|one| one.service.further.as_ref()) {
        writeln!(out, "homeowner's page of {id}: http://{address}/{id}/")?;
        writeln!(out, "installer's page of {id}: http://{address}/{id}/installer/")?;
    }
    if let Some(password) = drawn {
        writeln!(out, "password: {password}")?;
    }
    if let Some(measured) = &measured {
        writeln!(out, "metrics: http://{}/metrics", reachable(measured.local_addr()?))?;
    }
    out.flush()?;
    drop(out);

    let (serving, stopped) = watch::channel(());
    let measuring = measured.map(|listener| tokio::spawn(tell_metrics(listener, Arc::clone(&all[0].service.metrics))));
    let (tell, told) = mpsc::channel(1);
    let listening = tokio::spawn(async move {
        loop {
            signals.next().await;
            if tell.send(()).await.is_err() {
                return;
            }
        }
    });
    let (newest, routers) = watch::channel(routed(&all));
    let background: Vec<_> = all.iter_mut().flat_map(|one| one.begin(&stopped)).collect();
    let mut running = Running { all, newest };
    tokio::select! {
        () = connections::serve(listener, routers, Limits::default(), told) => {}
        never = running.take_setups(hangups) => match never {},
    }
    listening.abort();
    if let Some(measuring) = measuring {
        measuring.abort();
    }
    // A tidying run under way may end, so that the database closes with nothing half-done.
    drop(serving);
    for one in &running.all {
        // The next start begins this run anew.
        one.catching_up.iter().for_each(JoinHandle::abort);
    }
    for task in background {
        if let Err(why) = task.await {
            tracing::error!(error = %why, "what goes on beside the requests ended badly");
        }
    }
    for One { service, newest, .. } in running.all {
        drop(newest);
        service.close().await;
    }
    Ok(())
}

/// Opens the first installer's service, or that of the only one.
async fn open(
    data: &Path,
    installer: Installer,
    pages: Option<&Path>,
    demo: bool,
    password: Option<&str>,
    turns: &Arc<Semaphore>,
) -> Result<One, ServeError> {
    let Installer { given, reread } = installer;
    let service = Service::open(data, &given.config, pages, demo).await?;
    mark(&service, data, demo).await?;
    if let Some(password) = password {
        set_password(&service, password).await?;
    }
    if !accounts::any(&service).await? {
        return Err(ServeError::NoPassword { data: data.to_owned(), further: None });
    }
    let one = One::taking(service, given, reread, turns).await?;
    if demo {
        demo::seed(&one.service).await?;
    }
    Ok(one)
}

/// Opens a further installer's service beside the first one's.
async fn open_further(
    data: &Path,
    installer: Installer,
    pages: Option<&Path>,
    first: &Service,
    turns: &Arc<Semaphore>,
) -> Result<One, ServeError> {
    let Installer { given, reread } = installer;
    let id = given.config.installer.id.clone();
    let folder = installer_folder(data, Some(&id))?;
    let service = Service::open(&folder, &given.config, pages, false).await?.further(&id).sharing(first);
    mark(&service, &folder, false).await?;
    if !accounts::any(&service).await? {
        return Err(ServeError::NoPassword { data: data.to_owned(), further: Some(id) });
    }
    Ok(One::taking(service, given, reread, turns).await?)
}

/// Listens on an address that an option gave.
async fn bound(listen: SocketAddr, option: &'static str) -> Result<tokio::net::TcpListener, ServeError> {
    tokio::net::TcpListener::bind(listen).await.map_err(|why| ServeError::Listen { listen, option, why })
}

/// Every route, with the times that requests are held to and all that is noted of them.
fn routed(all: &[One]) -> Router {
    let of = |router, service: &Service| {
        observed(connections::timed(router, Limits::default()), Arc::clone(&service.metrics))
    };
    let (first, further) = all.split_first().expect("there is always a first installer");
    let first = &first.service;
    let router = of(app(first.clone()), first);
    if further.is_empty() {
        return router;
    }
    let services: Arc<[Service]> = all.iter().map(|one| one.service.clone()).collect();
    let ready = Router::new()
        .route("/ready", get(health::all_ready))
        .layer(middleware::from_fn(headers::plain_headers))
        .with_state(services);
    let of_further = further.iter().filter_map(|One { service, .. }| {
        Some((Arc::clone(service.further.as_ref()?), of(app(service.clone()), service)))
    });
    installers::together(
        (first.config.config.installer.id.as_str().into(), router),
        of_further.collect(),
        of(ready, first),
    )
}

/// Tells metrics until it is aborted, to few at once.
async fn tell_metrics(listener: tokio::net::TcpListener, counts: Arc<Metrics>) {
    let limits = Limits { connections: 8, ..Limits::default() };
    let routers = watch::channel(connections::timed(metrics::routes(counts), limits)).1;
    let (_tell, never) = mpsc::channel(1);
    connections::serve(listener, routers, limits, never).await;
}

/// The services that run, the first installer's first, and where their newest router is given to connections.
struct Running {
    all: Vec<One>,
    newest: watch::Sender<Router>,
}

impl Running {
    /// Takes the setups anew whenever it is told to, each by itself: one that is not allowed keeps no other from being taken.
    async fn take_setups(&mut self, mut hangups: Hangups) -> Infallible {
        loop {
            hangups.next().await;
            for one in &mut self.all {
                let span = one.span.clone();
                one.take_setup().instrument(span).await;
            }
            let _before = self.newest.send_replace(routed(&self.all));
        }
    }
}

/// One installer's service as it runs.
struct One {
    service: Service,
    /// Where the newest service is given to what goes on beside the requests.
    newest: watch::Sender<Service>,
    catching_up: Option<JoinHandle<()>>,
    /// Whose turn it is to assess again: one after the other, whoever's enquiries they are.
    turns: Arc<Semaphore>,
    reread: Option<Arc<Reread>>,
    /// What stands on every line of the log that is about this installer alone.
    span: Span,
}

impl One {
    /// This service by a setup, which is kept as its newest version.
    async fn taking(
        service: Service,
        given: Given,
        reread: Option<Reread>,
        turns: &Arc<Semaphore>,
    ) -> Result<Self, sqlx::Error> {
        if let Some(text) = &given.text {
            let (number, new) = keep_setup(&service, text).await?;
            if new {
                tracing::info!(installer = service.further.as_deref(), number, "the setup is kept as a new version");
            }
        }
        let service = service.by(given);
        let newest = watch::channel(service.clone()).0;
        let (turns, reread) = (Arc::clone(turns), reread.map(Arc::new));
        Ok(Self { service, newest, catching_up: None, turns, reread, span: Span::none() })
    }

    /// This with its counts where they are told: among those of a first one, or as the first. Where there are `several`, counts and lines of
    /// the log say whose they are.
    fn counted(mut self, several: bool, counts: Option<Metrics>) -> (Self, Arc<Metrics>) {
        let id = &self.service.config.config.installer.id;
        if several {
            self.span = tracing::error_span!("service", installer = id);
            let counts = counts.unwrap_or_else(|| Metrics::new(Some(id)));
            self.service = self.service.counted_in(counts);
            self.newest.send_replace(self.service.clone());
        }
        let counts = Arc::clone(&self.service.metrics);
        (self, counts)
    }

    /// Begins what goes on beside the requests, until the service has stopped.
    fn begin(&mut self, stopped: &watch::Receiver<()>) -> [JoinHandle<()>; 2] {
        self.catch_up();
        let sending = keep_sending(self.newest.subscribe(), stopped.clone());
        let tidying = keep_tidy(self.service.clone(), stopped.clone());
        [tokio::spawn(sending.instrument(self.span.clone())), tokio::spawn(tidying.instrument(self.span.clone()))]
    }

    /// Has what an earlier engine kept assessed again by the newest setup. What is done already is not done again.
    fn catch_up(&mut self) {
        self.catching_up.iter().for_each(JoinHandle::abort);
        let task = catch_up_in_peace(self.service.clone(), Arc::clone(&self.turns));
        self.catching_up = Some(tokio::spawn(task.instrument(self.span.clone())));
    }

    /// Reads the setup anew; what is not allowed changes nothing.
    async fn take_setup(&mut self) {
        let Some(reread) = self.reread.clone() else { return };
        match tokio::task::spawn_blocking(move || (reread.0)()).await {
            Ok(Ok(given)) => self.take(given).await,
            Ok(Err(why)) => tracing::error!("{why}; the setup that was read before stays"),
            Err(why) => tracing::error!(error = %why, "the setup can't be read; the one before stays"),
        }
    }

    /// Has requests that begin from now on answered by another setup; those under way end by the one with which they began.
    async fn take(&mut self, given: Given) {
        let id = &self.service.config.config.installer.id;
        if *id != given.config.installer.id {
            let given = &given.config.installer.id;
            tracing::error!(
                "`installer.id` can't be changed while the service runs: it is {id:?} and {given:?} was given, so forms that are open \
                 now could no longer send; the setup that was read before stays"
            );
            return;
        }
        if let Some(text) = &given.text
            && let Err(why) = keep_setup(&self.service, text).await
        {
            tracing::error!(error = %why, "the setup can't be kept; the one before stays");
            return;
        }
        let version = given.config.version.clone();
        self.service = self.service.by(given);
        self.newest.send_replace(self.service.clone());
        self.catch_up();
        tracing::info!(
            version,
            "the setup is read anew; addresses, folders and whose setups are read stay as they were given at the start"
        );
    }
}

/// Assesses again what an earlier engine kept, while the service runs already.
async fn catch_up_in_peace(service: Service, turns: Arc<Semaphore>) {
    let Ok(_turn) = turns.acquire().await else { return };
    match catch_up(&service).await {
        Ok(None) => {}
        Ok(Some(Progress { of, done, left })) => tracing::info!(of, done, left, "assessed again by this version"),
        Err(why) => tracing::error!(error = %why, "kept enquiries could not be assessed again"),
    }
}

/// Marks a new folder as the demo's or as real, and refuses an existing one of the other kind.
async fn mark(service: &Service, data: &Path, demo: bool) -> Result<(), ServeError> {
    let kind = if demo { "demo" } else { "real" };
    service
        .database
        .execute(
            sqlx::query("INSERT INTO settings (name, value) VALUES ('kind', ?) ON CONFLICT (name) DO NOTHING")
                .bind(kind),
        )
        .await?;
    let found: String = sqlx::query_scalar("SELECT value FROM settings WHERE name = 'kind'")
        .fetch_one(service.database.readers())
        .await?;
    if found == kind { Ok(()) } else { Err(ServeError::OtherData { data: data.to_owned(), demo }) }
}

/// The address to print: one that a browser on this machine can open, also if the service listens on all.
fn reachable(mut address: SocketAddr) -> SocketAddr {
    if address.ip().is_unspecified() {
        let this = if address.is_ipv4() { [127, 0, 0, 1].into() } else { std::net::Ipv6Addr::LOCALHOST.into() };
        address.set_ip(this);
    }
    address
}

/// The signals that tell the service to stop.
#[cfg(unix)]
struct Signals {
    interrupt: tokio::signal::unix::Signal,
    terminate: tokio::signal::unix::Signal,
}

#[cfg(unix)]
impl Signals {
    /// Listens from now on.
    fn listen() -> io::Result<Self> {
        use tokio::signal::unix::{SignalKind, signal};
        Ok(Self { interrupt: signal(SignalKind::interrupt())?, terminate: signal(SignalKind::terminate())? })
    }

    /// Completes at the next one.
    async fn next(&mut self) {
        tokio::select! { _ = self.interrupt.recv() => {}, _ = self.terminate.recv() => {} }
    }
}

/// The signal that tells the service to read its setup anew.
struct Hangups {
    #[cfg(unix)]
    signal: Option<tokio::signal::unix::Signal>,
}

impl Hangups {
    /// Listens from now on, if it is wanted; else the signal does what it does to any program.
    fn listen(wanted: bool) -> Self {
        #[cfg(unix)]
        {
            let signal = || tokio::signal::unix::signal(tokio::signal::unix::SignalKind::hangup());
            let listened = wanted.then(signal).transpose();
            let signal = listened.inspect_err(|why| tracing::error!(error = %why, "SIGHUP can't be listened for"));
            Self { signal: signal.ok().flatten() }
        }
        #[cfg(not(unix))]
        {
            let _ = wanted;
            Self {}
        }
    }

    /// Completes at the next one.
    async fn next(&mut self) {
        #[cfg(unix)]
        if let Some(signal) = &mut self.signal
            && signal.recv().await.is_some()
        {
            return;
        }
        std::future::pending::<()>().await;
    }
}

#[cfg(not(unix))]
struct Signals;

#[cfg(not(unix))]
impl Signals {
    fn listen() -> io::Result<Self> {
        Ok(Self)
    }

    async fn next(&mut self) {
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await; // the signal can't be listened for; the process can still be killed
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::error::Refusal;
    use super::super::limits::FORMS_AT_ONCE;
    use super::super::surroundings::Sender;
    use super::*;
    use model::config::demo_config;

    fn installer(id: &str) -> Installer {
        let mut config = demo_config();
        config.installer.id = id.into();
        let (telling, surroundings) = (Telling::default(), Surroundings::default());
        Installer { given: Given { config, papers: Vec::new(), telling, surroundings, text: None }, reread: None }
    }

    #[tokio::test]
    async fn all_installers_have_one_room_in_memory_so_that_its_bound_is_the_process_s() {
        let data = tempfile::tempdir().unwrap();
        let turns = Arc::new(Semaphore::new(1));
        let password = Some("an invented password");
        let first = open(data.path(), installer("first"), None, false, password, &turns).await.unwrap().service;
        let folder = installer_folder(data.path(), Some("second")).unwrap();
        let before = Service::open(&folder, &demo_config(), None, false).await.unwrap();
        set_password(&before, "another invented password").await.unwrap();
        before.close().await;
        let second = open_further(data.path(), installer("second"), None, &first, &turns).await.unwrap().service;

        let places: Vec<_> =
            (0..FORMS_AT_ONCE).map(|_| first.bodies.place_of_a_form(Sender::Unnamed).unwrap()).collect();
        assert!(matches!(second.bodies.place_of_a_form(Sender::Unnamed), Err(Refusal::Full { .. })));
        drop(places);
        assert!(second.bodies.place_of_a_form(Sender::Unnamed).is_ok());
        assert!(
            Arc::ptr_eq(&first.signing_in, &second.signing_in),
            "hashing a password takes much memory: one at a time"
        );
        let places: Vec<_> = std::iter::from_fn(|| first.cleaning.place()).collect();
        assert!(!places.is_empty() && second.cleaning.place().is_none());
    }
}
