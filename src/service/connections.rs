//! Connections: how many there may be at once, how long a head, a silence and a request may last, and how they end when the service is told
//! to stop.
//!
//! axum's own loop bounds none of this: a connection that sends nothing would stay open for ever, and one that hangs would keep the
//! service from stopping.

use super::lingering::Lingering;
use axum::Router;
use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::{StatusCode, header};
use hyper::body::Incoming;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Semaphore, mpsc, watch};
use tokio::task::JoinSet;
use tokio_io_timeout::TimeoutStream;
use tower::ServiceExt;
use tower_http::timeout::TimeoutLayer;

/// How long the service waits before it accepts again where the system refused a connection, for want of file handles for example.
const REFUSED_FOR: Duration = Duration::from_millis(200);

/// The most bytes that are held of a connection before somebody reads them, its head among them: this program's choice. Left to itself
/// hyper takes six times as much.
const PIECE: usize = 64 * 1024;

/// What connections may take. The default is this program's choice.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// How many there may be at once; further ones wait to be accepted.
    pub(super) connections: usize,
    /// How long the head of a request may take from its first byte on.
    pub(super) head: Duration,
    /// How long a connection may be silent, in either direction.
    pub(super) silence: Duration,
    /// How long a request may take as a whole. Thirty megabytes over a line that sends fifty kilobytes a second take ten minutes.
    pub(super) request: Duration,
    /// How long requests under way may take once the service is told to stop.
    pub(super) stopping: Duration,
}

impl Default for Limits {
    fn default() -> Self {
        let seconds = Duration::from_secs;
        Self {
            connections: 512,
            head: seconds(15),
            silence: seconds(60),
            request: seconds(1200),
            stopping: seconds(20),
        }
    }
}

/// This router with every request held to its time.
pub(super) fn timed(router: Router, limits: Limits) -> Router {
    router.layer(TimeoutLayer::with_status_code(StatusCode::REQUEST_TIMEOUT, limits.request))
}

/// Serves until it is told to stop, then lets requests under way end: until the time for that is over, or it is told again.
///
/// Each request is answered by the router that is the newest when it begins.
pub(super) async fn serve(
    listener: TcpListener,
    routers: watch::Receiver<Router>,
    limits: Limits,
    mut told: mpsc::Receiver<()>,
) {
    let slots = Arc::new(Semaphore::new(limits.connections));
    let graceful = GracefulShutdown::new();
    let mut connections = JoinSet::new();
    let mut http = http1::Builder::new();
    http.timer(TokioTimer::new()).header_read_timeout(limits.head).max_buf_size(PIECE);
    loop {
        let next = async {
            let slot = Arc::clone(&slots).acquire_owned().await.expect("the slots are never closed");
            (slot, listener.accept().await)
        };
        let (slot, accepted) = tokio::select! {
            next = next => next,
            Some(()) = told.recv() => break,
        };
        let (stream, peer) = match accepted {
            Ok(accepted) => accepted,
            Err(why) => {
                tracing::warn!(error = %why, "a connection could not be accepted");
                tokio::time::sleep(REFUSED_FOR).await;
                continue;
            }
        };
        let routers = routers.clone();
        let answering = service_fn(move |request: hyper::Request<Incoming>| {
            // Whoever asks before sending is not told to go on if nobody reads it.
            let asks_first = request.headers().contains_key(header::EXPECT);
            let mut request = request
                .map(|body| if asks_first { Body::new(body) } else { Body::new(Lingering::new(body, limits.request)) });
            request.extensions_mut().insert(ConnectInfo(peer));
            let router = routers.borrow().clone();
            router.oneshot(request)
        });
        let connection = http.serve_connection(TokioIo::new(Box::pin(bounded(stream, limits))), answering);
        let connection = graceful.watch(connection);
        connections.spawn(async move {
            // Whoever hangs up, or is too slow, is nothing to report.
            let _ = connection.await;
            drop(slot);
        });
        while connections.try_join_next().is_some() {}
    }
    drop(listener);
    let cut = tokio::select! {
        () = graceful.shutdown() => false,
        () = tokio::time::sleep(limits.stopping) => true,
        Some(()) = told.recv() => true,
    };
    if cut {
        tracing::warn!(connections = connections.len(), "told to stop: what was still under way is cut");
    }
    connections.shutdown().await;
}

/// A stream that ends with an error where nothing moves for too long.
fn bounded(stream: TcpStream, limits: Limits) -> TimeoutStream<TcpStream> {
    let mut stream = TimeoutStream::new(stream);
    stream.set_read_timeout(Some(limits.silence));
    stream.set_write_timeout(Some(limits.silence));
    stream
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::routing::{get, post};
    use std::future::pending;
    use std::net::SocketAddr;
    use tokio::io::{AsyncReadExt, AsyncWriteExt};
    use tokio::task::JoinHandle;

    /// Far longer than anything here takes; a test that waits so long has failed.
    const LONG: Duration = Duration::from_secs(60);
    const SHORT: Duration = Duration::from_millis(150);

    struct Served {
        address: SocketAddr,
        tell: mpsc::Sender<()>,
        ended: JoinHandle<()>,
    }

    /// Serves a page that answers, one that takes a body, and one that never answers.
    async fn served(limits: Limits) -> Served {
        let router = Router::new()
            .route("/", get(|| async { "here" }))
            .route("/body", post(|body: String| async move { body }))
            .route("/refused", post(|| async { (StatusCode::PAYLOAD_TOO_LARGE, "too much") }))
            .route("/never", get(pending::<String>));
        let routers = watch::channel(timed(router, limits)).1;
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let (tell, told) = mpsc::channel(2);
        Served { address, tell, ended: tokio::spawn(serve(listener, routers, limits, told)) }
    }

    fn patient() -> Limits {
        Limits { connections: 100, head: LONG, silence: LONG, request: LONG, stopping: LONG }
    }

    async fn sent(served: &Served, text: &str) -> TcpStream {
        let mut stream = TcpStream::connect(served.address).await.unwrap();
        stream.write_all(text.as_bytes()).await.unwrap();
        stream
    }

    /// Everything that comes until the service hangs up.
    async fn rest(mut stream: TcpStream) -> String {
        let mut bytes = Vec::new();
        let read = tokio::time::timeout(LONG, stream.read_to_end(&mut bytes)).await;
        let _ = read.expect("the service hangs up"); // a connection that is reset has ended too
        String::from_utf8(bytes).unwrap()
    }

    async fn is_answered(served: &Served) {
        let text = rest(sent(served, "GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n").await).await;
        assert!(text.starts_with("HTTP/1.1 200") && text.ends_with("here"), "{text}");
    }

    #[tokio::test]
    async fn half_a_head_is_cut_off() {
        let served = served(Limits { head: SHORT, ..patient() }).await;
        let text = rest(sent(&served, "GET / HTTP/1.1\r\nHos").await).await;
        assert!(!text.contains("200 OK"), "{text}");
        is_answered(&served).await;
    }

    #[tokio::test]
    async fn a_connection_that_says_nothing_is_cut_off_before_the_head_and_within_the_body() {
        let served = served(Limits { silence: SHORT, ..patient() }).await;
        for text in ["", "POST /body HTTP/1.1\r\nHost: x\r\nContent-Length: 10\r\n\r\nhalf"] {
            let text = rest(sent(&served, text).await).await;
            assert!(!text.contains("200 OK"), "{text}");
        }
        is_answered(&served).await;
    }

    #[tokio::test]
    async fn a_request_that_takes_too_long_is_answered_so() {
        let served = served(Limits { request: SHORT, ..patient() }).await;
        let text = rest(sent(&served, "GET /never HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n").await).await;
        assert!(text.starts_with("HTTP/1.1 408"), "{text}");
    }

    #[tokio::test]
    async fn whoever_is_refused_may_send_to_the_end_and_reads_why() {
        let served = served(patient()).await;
        // More than what the system keeps of a connection.
        let length = 32 * 1024 * 1024;
        let head = |path| format!("POST {path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n");
        let refused = format!("{}Content-Length: {length}\r\n\r\n", head("/refused"));
        let mut stream = sent(&served, &refused).await;
        stream.write_all(&vec![b' '; length]).await.unwrap();
        let text = rest(stream).await;
        assert!(text.starts_with("HTTP/1.1 413") && text.ends_with("too much"), "{text}");
        // Who asks first is answered, not told to go on.
        let asks = format!("{}Content-Length: 4\r\nExpect: 100-continue\r\n\r\n", head("/refused"));
        let text = rest(sent(&served, &asks).await).await;
        assert!(text.starts_with("HTTP/1.1 413"), "{text}");
        is_answered(&served).await;
    }

    #[tokio::test]
    async fn one_connection_too_many_waits_for_another_to_end() {
        let served = served(Limits { connections: 2, ..patient() }).await;
        let held = [sent(&served, "GET").await, sent(&served, "GET").await];
        let mut third = sent(&served, "GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n").await;
        let mut byte = [0];
        assert!(tokio::time::timeout(SHORT, third.read(&mut byte)).await.is_err(), "nobody has accepted it");
        drop(held);
        assert!(rest(third).await.ends_with("here"));
    }

    #[tokio::test]
    async fn told_to_stop_it_answers_what_is_under_way_and_accepts_nothing_more() {
        let served = served(patient()).await;
        let mut stream = sent(&served, "POST /body HTTP/1.1\r\nHost: x\r\nContent-Length: 4\r\n\r\nha").await;
        is_answered(&served).await; // so the other one was accepted before
        served.tell.send(()).await.unwrap();
        while TcpStream::connect(served.address).await.is_ok() {
            tokio::task::yield_now().await;
        }
        assert!(!served.ended.is_finished());
        stream.write_all(b"lf").await.unwrap();
        assert!(rest(stream).await.ends_with("half"));
        tokio::time::timeout(LONG, served.ended).await.unwrap().unwrap();
    }

    #[tokio::test]
    async fn what_hangs_is_cut_in_time_or_at_once() {
        for (stopping, again) in [(SHORT, false), (LONG, true)] {
            let served = served(Limits { stopping, ..patient() }).await;
            let hangs = sent(&served, "GET /never HTTP/1.1\r\nHost: x\r\n\r\n").await;
            is_answered(&served).await;
            served.tell.send(()).await.unwrap();
            if again {
                served.tell.send(()).await.unwrap();
            }
            assert_eq!(rest(hangs).await, "");
            tokio::time::timeout(LONG / 2, served.ended).await.expect("it ends").unwrap();
        }
    }
}
