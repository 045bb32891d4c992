//! Starts the service: opens its folder, binds its address, prints where the pages are, and stops in good order.

use super::again::{Progress, catch_up};
use super::connections::{self, Limits};
use super::demo::{self, SeedError};
use super::housekeeping::keep_tidy;
use super::password::{self, PasswordError, draw_password, set_password};
use super::{OpenError, Service, Surroundings, app};
use model::config::{Config, PointPapers};
use std::io::{self, Write};
use std::net::SocketAddr;
use std::path::PathBuf;

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
    /// Whether it is the demo with invented data.
    pub demo: bool,
    /// A password to set before starting.
    pub password: Option<String>,
    /// What it is told of where it stands.
    pub surroundings: Surroundings,
}

/// Why the service does not run; each says what to do.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// A page was not built.
    #[error("there is no {}; build the pages first (`cargo xtask demo` does), or leave --pages out", .0.display())]
    NoPage(PathBuf),
    /// The address is taken or not allowed.
    #[error(
        "can't listen on {listen}: {why}; stop what listens there, or choose another with --listen, such as 127.0.0.1:0 for any free port"
    )]
    Listen {
        /// Which address.
        listen: SocketAddr,
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
    let ServeOptions { data, pages, listen, config, papers, demo, password, surroundings } = options;
    if let Some(pages) = &pages {
        for page in ["form", "triage"].map(|name| pages.join(name).join("index.html")) {
            if !page.is_file() {
                return Err(ServeError::NoPage(page));
            }
        }
    }
    // Bound before anything is written, so that a second start by mistake changes nothing.
    let listener = tokio::net::TcpListener::bind(listen).await.map_err(|why| ServeError::Listen { listen, why })?;
    let untold = surroundings.encrypted.is_none() && !demo;
    let service = Service::open(&data, &config, pages.as_deref(), demo).await?;
    let service = service.with_papers(papers).standing_in(surroundings);
    mark(&service, &data, demo).await?;

    let drawn = demo.then(draw_password);
    if let Some(password) = drawn.as_ref().or(password.as_ref()) {
        set_password(&service, password).await?;
    }
    if password::kept(&service).await?.is_none() {
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
    let address = reachable(listener.local_addr()?);
    let mut out = io::stdout().lock();
    writeln!(out, "homeowner's page: http://{address}/")?;
    writeln!(out, "installer's page: http://{address}/installer/")?;
    if let Some(password) = drawn {
        writeln!(out, "password: {password}")?;
    }
    out.flush()?;
    drop(out);

    let (serving, stopped) = tokio::sync::watch::channel(());
    let tidying = tokio::spawn(keep_tidy(service.clone(), stopped));
    let catching_up = tokio::spawn(catch_up_in_peace(service.clone()));
    let router = app(service.clone());
    let (tell, told) = tokio::sync::mpsc::channel(1);
    let listening = tokio::spawn(async move {
        loop {
            signals.next().await;
            if tell.send(()).await.is_err() {
                return;
            }
        }
    });
    connections::serve(listener, router, Limits::default(), told).await;
    listening.abort();
    // A tidying run under way may end, so that the database closes with nothing half-done.
    drop(serving);
    // The next start begins this run anew.
    catching_up.abort();
    if let Err(why) = tidying.await {
        tracing::error!(error = %why, "tidying ended badly");
    }
    service.close().await;
    Ok(())
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
