//! What is still to come of a body that nobody reads any more, as of one that is refused: it is read and thrown away.
//!
//! A connection that is closed while its sender still sends is reset, and the answer is lost with it: a browser then shows a fault of the
//! connection in place of the words, and a proxy answers 502.

use super::limits::FORM_BYTES;
use axum::body::Bytes;
use http_body_util::BodyExt;
use hyper::body::{Body, Frame, Incoming, SizeHint};
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::sync::Semaphore;
use tokio::time::timeout;

/// The most bytes that are thrown away: twice the largest form. This program's choice.
const MOST_THROWN_AWAY: usize = 2 * FORM_BYTES;
/// How long its sender may be silent meanwhile: this program's choice.
const SILENCE: Duration = Duration::from_secs(5);

/// How many there may be at once in the process, since each connection holds a piece of its body: this program's choice. One more is closed at
/// once.
static PLACES: Semaphore = Semaphore::const_new(32);

/// A body as a handler is given it; dropped before its end, the rest of it is thrown away meanwhile.
#[derive(Debug)]
pub(super) struct Lingering {
    body: Option<Incoming>,
    /// How long the rest may take.
    most: Duration,
}

impl Lingering {
    pub(super) const fn new(body: Incoming, most: Duration) -> Self {
        Self { body: Some(body), most }
    }
}

impl Drop for Lingering {
    fn drop(&mut self) {
        let Some(body) = self.body.take().filter(|body| !body.is_end_stream()) else { return };
        // Without a runtime the service has ended already.
        let Ok(runtime) = tokio::runtime::Handle::try_current() else { return };
        let Ok(place) = PLACES.try_acquire() else { return };
        let most = self.most;
        // One that takes too long, or ends badly, is nothing to report: the connection ends with it.
        runtime.spawn(async move {
            let _ = timeout(most, thrown_away(body)).await;
            drop(place);
        });
    }
}

async fn thrown_away(mut body: Incoming) {
    let mut bytes = 0;
    while let Ok(Some(Ok(frame))) = timeout(SILENCE, body.frame()).await {
        bytes += frame.data_ref().map_or(0, Bytes::len);
        if bytes > MOST_THROWN_AWAY {
            return;
        }
    }
}

impl Body for Lingering {
    type Data = Bytes;
    type Error = hyper::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, hyper::Error>>> {
        self.body.as_mut().map_or(Poll::Ready(None), |body| Pin::new(body).poll_frame(context))
    }

    fn is_end_stream(&self) -> bool {
        self.body.as_ref().is_none_or(Body::is_end_stream)
    }

    fn size_hint(&self) -> SizeHint {
        self.body.as_ref().map_or_else(SizeHint::default, Body::size_hint)
    }
}
