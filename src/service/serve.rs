//! Starts the service: opens its folder, binds its address, prints where the pages are, and stops in good order.

use super::again::{Progress, catch_up};
use super::connections::{self, Limits};
use super::demo::{self, SeedError};
use super::housekeeping::keep_tidy;
use super::metrics;
use super::observe::observed;
use super::outbox::keep_sending;
use super::password::{PasswordError, draw_password, set_password};
use super::{OpenError, Service, Surroundings, Telling, accounts, app};
use axum::Router;
use model::config::{Config, PointPapers};
use std::convert::Infallible;
use std::io::{self, Write};
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;
use tokio::sync::{mpsc, watch};
use tokio::task::JoinHandle;

/// How the service is to run.
#[derive(Debug)]
pub struct ServeOptions {
    /// Where it keeps everything.
    pub data: PathBuf,
    /// Where the built pages are: `form` and `triage` in it.
    pub pages: Option<PathBuf>,
    /// Where it listens.
    pub listen: SocketAddr,
    /// The config that it publishes.
    pub config: Config,
    /// What the network operator's form asks of each charge point; private to the installer.
    pub papers: Vec<PointPapers>,
    /// Whom it tells of enquiries; private to the installer.
    pub telling: Telling,
    /// Whether it is the demo with invented data.
    pub demo: bool,
    /// A password to set before starting, for the account `owner`.
    pub password: Option<String>,
    /// What it is told of where it stands.
    pub surroundings: Surroundings,
    /// Where metrics are told, if anywhere.
    pub metrics: Option<SocketAddr>,
    /// Reads the setup anew when it is told to (SIGHUP), if there is a file to read.
    pub reread: Option<Reread>,
}

/// What of a setup is given to the service.
#[derive(Clone, Debug)]
pub struct Given {
    /// The config that it publishes.
    pub config: Config,
    /// What the network operator's form asks of each charge point.
    pub papers: Vec<PointPapers>,
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
    #[error("no password is set; set one with `presurvey password --data {}`, which reads it from standard input", .0.display())]
    NoPassword(PathBuf),
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
    let ServeOptions { data, pages, listen, config, papers, telling, demo, password, metrics, reread, surroundings } =
        options;
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
    let untold = surroundings.encrypted.is_none() && !demo;
    let service = Service::open(&data, &config, pages.as_deref(), demo).await?;
    let service = service.with_papers(papers).with_telling(telling).standing_in(surroundings);
    mark(&service, &data, demo).await?;

    let drawn = demo.then(draw_password);
    if let Some(password) = drawn.as_ref().or(password.as_ref()) {
        set_password(&service, password).await?;
    }
    if !accounts::any(&service).await? {
        return Err(ServeError::NoPassword(data));
    }
    if demo {
        demo::seed(&service).await?;
    }

    if untold {
        tracing::warn!(
            "no public address is named (`public_address` in the setup, or --address): signing in works over https, and on this machine"
        );
    }
    let mut signals = Signals::listen()?;
    let hangups = Hangups::listen(reread.is_some());
    let address = reachable(listener.local_addr()?);
    let mut out = io::stdout().lock();
    writeln!(out, "homeowner's page: http://{address}/")?;
    writeln!(out, "installer's page: http://{address}/installer/")?;
    if let Some(password) = drawn {
        writeln!(out, "password: {password}")?;
    }
    if let Some(measured) = &measured {
        writeln!(out, "metrics: http://{}/metrics", reachable(measured.local_addr()?))?;
    }
    out.flush()?;
    drop(out);

    let (serving, stopped) = watch::channel(());
    let sending = tokio::spawn(keep_sending(service.clone(), stopped.clone()));
    let tidying = tokio::spawn(keep_tidy(service.clone(), stopped));
    let measuring = measured.map(|listener| tokio::spawn(tell_metrics(listener, service.clone())));
    let (tell, told) = mpsc::channel(1);
    let listening = tokio::spawn(async move {
        loop {
            signals.next().await;
            if tell.send(()).await.is_err() {
                return;
            }
        }
    });
    let (newest, routers) = watch::channel(routed(service.clone()));
    let mut running = Running { catching_up: tokio::spawn(catch_up_in_peace(service.clone())), service, newest };
    tokio::select! {
        () = connections::serve(listener, routers, Limits::default(), told) => {}
        never = running.take_setups(reread, hangups) => match never {},
    }
    let Running { service, catching_up, .. } = running;
    listening.abort();
    if let Some(measuring) = measuring {
        measuring.abort();
    }
    // A tidying run under way may end, so that the database closes with nothing half-done.
    drop(serving);
    // The next start begins this run anew.
    catching_up.abort();
    if let Err(why) = tidying.await {
        tracing::error!(error = %why, "tidying ended badly");
    }
    if let Err(why) = sending.await {
        tracing::error!(error = %why, "sending ended badly");
    }
    service.close().await;
    Ok(())
}

/// Listens on an address that an option gave.
async fn bound(listen: SocketAddr, option: &'static str) -> Result<tokio::net::TcpListener, ServeError> {
    tokio::net::TcpListener::bind(listen).await.map_err(|why| ServeError::Listen { listen, option, why })
}

/// Every route, with the times that requests are held to and all that is noted of them.
fn routed(service: Service) -> Router {
    let metrics = Arc::clone(&service.metrics);
    observed(connections::timed(app(service), Limits::default()), metrics)
}

/// Tells metrics until it is aborted, to few at once.
async fn tell_metrics(listener: tokio::net::TcpListener, service: Service) {
    let limits = Limits { connections: 8, ..Limits::default() };
    let routers = watch::channel(connections::timed(metrics::routes(service.metrics), limits)).1;
    let (_tell, never) = mpsc::channel(1);
    connections::serve(listener, routers, limits, never).await;
}

/// The service that runs, and where its newest router is given to connections.
struct Running {
    service: Service,
    newest: watch::Sender<Router>,
    catching_up: JoinHandle<()>,
}

impl Running {
    /// Takes the setup anew whenever it is told to.
    async fn take_setups(&mut self, reread: Option<Reread>, mut hangups: Hangups) -> Infallible {
        let reread = reread.map(Arc::new);
        loop {
            hangups.next().await;
            let Some(reread) = reread.clone() else { continue };
            match tokio::task::spawn_blocking(move || (reread.0)()).await {
                Ok(Ok(given)) => self.take(given),
                Ok(Err(why)) => tracing::error!("{why}; the setup that was read before stays"),
                Err(why) => tracing::error!(error = %why, "the setup can't be read; the one before stays"),
            }
        }
    }

    /// Has requests that begin from now on answered by another setup; those under way end by the one with which they began.
    fn take(&mut self, Given { config, papers }: Given) {
        let id = &self.service.config.config.installer.id;
        if *id != config.installer.id {
            let given = &config.installer.id;
            tracing::error!(
                "`installer.id` can't be changed while the service runs: it is {id:?} and {given:?} was given, so forms that are open \
                 now could no longer send; the setup that was read before stays"
            );
            return;
        }
        let version = config.version.clone();
        self.service = self.service.with_config(config).with_papers(papers);
        let _before = self.newest.send_replace(routed(self.service.clone()));
        // What it has done already it does not do again.
        self.catching_up.abort();
        self.catching_up = tokio::spawn(catch_up_in_peace(self.service.clone()));
        tracing::info!(version, "the setup is read anew; addresses and folders stay as they were given at the start");
    }
}

/// Assesses again what an earlier engine kept, while the service runs already.
async fn catch_up_in_peace(service: Service) {
    match catch_up(&service).await {
        Ok(None) => {}
        Ok(Some(Progress { of, done, left })) => tracing::info!(of, done, left, "assessed again by this version"),
        Err(why) => tracing::error!(error = %why, "kept enquiries could not be assessed again"),
    }
}

/// Marks a new folder as the demo's or as real, and refuses an existing one of the other kind.
async fn mark(service: &Service, data: &std::path::Path, demo: bool) -> Result<(), ServeError> {
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
