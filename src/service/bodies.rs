//! The bodies of strangers' requests: how many bytes of them are held at once.
//!
//! Small ones (records, additions, forms without photos) are held in memory while they arrive, within one limit for all senders and a share of
//! it for each. Forms with photos have places and a limit of their own, so that they take nothing from small ones; their photos, like those
//! put one by one, go to a file piece by piece and are read whole only when their turn has come to be looked at. A body that finds no room is
//! answered "later", and nothing is read of it.

use super::Service;
use super::error::Refusal;
use super::limits::{
    ENQUIRY_BYTES, FORM_TEXTS_HELD, FORMS_AT_ONCE, FORMS_OF_ONE, PHOTOS_LOOKED_AT, SMALL_HELD, SMALL_OF_ONE,
};
use super::surroundings::Sender;
use axum::body::{Body, HttpBody};
use axum::extract::{FromRequest, Request};
use axum::http::header;
use http_body_util::BodyExt;
use hyper::body::{Frame, SizeHint};
use std::collections::HashMap;
use std::fs::File;
use std::io::{self, Read};
use std::ops::Deref;
use std::path::Path;
use std::pin::Pin;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::sync::{OwnedSemaphorePermit, Semaphore};

/// How long a small body may take to arrive: twice as long as the form waits for an answer. This program's choice.
const SMALL_TAKES: Duration = Duration::from_secs(120);
/// When to come back if there is no room: this program's choice.
const COME_BACK: i64 = 20;
/// The most bytes of a form that may go by before a part of it has come out of the parser: what it keeps to itself. Arithmetic: four pieces
/// as they come from a connection.
const MOST_UNPARSED: usize = 256 * 1024;

/// What is held, and whose it is.
#[derive(Debug)]
pub(super) struct Bodies {
    small: Arc<Pool>,
    forms: Arc<Pool>,
    form_texts: Arc<Pool>,
    /// Photos put one by one that are being looked at.
    pub(super) looked_at: Desk,
    /// Photos of forms that are being looked at.
    pub(super) looked_at_in_forms: Desk,
}

impl Default for Bodies {
    fn default() -> Self {
        Self {
            small: Pool::of(SMALL_HELD, SMALL_OF_ONE),
            forms: Pool::of(FORMS_AT_ONCE, FORMS_OF_ONE),
            form_texts: Pool::of(FORM_TEXTS_HELD, FORM_TEXTS_HELD),
            looked_at: Desk::of(PHOTOS_LOOKED_AT),
            looked_at_in_forms: Desk::of(PHOTOS_LOOKED_AT),
        }
    }
}

impl Bodies {
    /// A place among the forms that arrive.
    ///
    /// # Errors
    /// [`Refusal::Full`] where there is none left, or the sender has enough of them.
    pub(super) fn place_of_a_form(&self, sender: Sender) -> Result<Share, Refusal> {
        let mut share = self.forms.share(sender);
        share.grow(1)?;
        Ok(share)
    }

    /// Room for the texts of a form, still empty.
    pub(super) fn texts_of_a_form(&self, sender: Sender) -> Share {
        self.form_texts.share(sender)
    }
}

/// Room for so many photos to be looked at, which is used again: given back, megabytes would stay with the allocator, in a part of it for each
/// thread that ever had some.
#[derive(Debug)]
pub(super) struct Desk {
    turns: Arc<Semaphore>,
    rooms: Arc<Mutex<Vec<Vec<u8>>>>,
}

impl Desk {
    fn of(turns: usize) -> Self {
        Self { turns: Arc::new(Semaphore::new(turns)), rooms: Arc::default() }
    }

    /// Waits for a turn.
    ///
    /// # Errors
    /// Never while the service runs.
    pub(super) async fn turn(&self) -> Result<Turn, Refusal> {
        let permit = Arc::clone(&self.turns).acquire_owned().await.map_err(Refusal::ours)?;
        let room = self.rooms.lock().unwrap_or_else(PoisonError::into_inner).pop().unwrap_or_default();
        Ok(Turn { room, rooms: Arc::clone(&self.rooms), _permit: permit })
    }
}

/// A turn to look at photos, one after the other.
#[derive(Debug)]
pub(super) struct Turn {
    room: Vec<u8>,
    rooms: Arc<Mutex<Vec<Vec<u8>>>>,
    _permit: OwnedSemaphorePermit,
}

impl Turn {
    /// Reads a file whole. Not for a thread that answers others.
    ///
    /// # Errors
    /// The system's own.
    pub(super) fn read(&mut self, file: &Path) -> io::Result<&[u8]> {
        self.room.clear();
        File::open(file)?.read_to_end(&mut self.room)?;
        Ok(&self.room)
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        self.rooms.lock().unwrap_or_else(PoisonError::into_inner).push(std::mem::take(&mut self.room));
    }
}

/// So much of something for everybody, and so much of it for one sender. Those whom no proxy names are held to the whole alone.
#[derive(Debug)]
struct Pool {
    most: usize,
    of_one: usize,
    taken: Mutex<Taken>,
}

#[derive(Debug, Default)]
struct Taken {
    all: usize,
    by: HashMap<Sender, usize>,
}

impl Pool {
    fn of(most: usize, of_one: usize) -> Arc<Self> {
        Arc::new(Self { most, of_one, taken: Mutex::default() })
    }

    fn share(self: &Arc<Self>, sender: Sender) -> Share {
        Share { pool: Arc::clone(self), sender, holds: 0 }
    }
}

/// What one request has of a pool; given back when it is dropped.
#[derive(Debug)]
pub(super) struct Share {
    pool: Arc<Pool>,
    sender: Sender,
    holds: usize,
}

impl Share {
    /// Takes so much more.
    ///
    /// # Errors
    /// [`Refusal::Full`] where there is not so much left.
    pub(super) fn grow(&mut self, more: usize) -> Result<(), Refusal> {
        let Pool { most, of_one, taken } = &*self.pool;
        let mut taken = taken.lock().unwrap_or_else(PoisonError::into_inner);
        let own = taken.by.get(&self.sender).copied().unwrap_or_default();
        let enough = self.sender != Sender::Unnamed && own + more > *of_one;
        if enough || taken.all + more > *most {
            return Err(Refusal::Full { seconds: COME_BACK });
        }
        taken.all += more;
        taken.by.insert(self.sender, own + more);
        self.holds += more;
        Ok(())
    }
}

impl Drop for Share {
    fn drop(&mut self) {
        let mut taken = self.pool.taken.lock().unwrap_or_else(PoisonError::into_inner);
        taken.all -= self.holds;
        if let Some(own) = taken.by.get_mut(&self.sender) {
            *own -= self.holds;
            if *own == 0 {
                taken.by.remove(&self.sender);
            }
        }
    }
}

/// A small body, whole, with the room that it takes.
#[derive(Debug)]
pub(super) struct Held {
    bytes: Vec<u8>,
    _share: Share,
}

impl Deref for Held {
    type Target = [u8];

    fn deref(&self) -> &[u8] {
        &self.bytes
    }
}

impl FromRequest<Service> for Held {
    type Rejection = Refusal;

    async fn from_request(request: Request, service: &Service) -> Result<Self, Refusal> {
        let sender = service.surroundings.sender(request.extensions(), request.headers());
        if said_length(&request).is_some_and(|length| length > ENQUIRY_BYTES as u64) {
            return Err(Refusal::TooLarge { most: ENQUIRY_BYTES });
        }
        let reading = held(request.into_body(), service.bodies.small.share(sender));
        tokio::time::timeout(SMALL_TAKES, reading).await.map_err(|_| Refusal::TooSlow)?
    }
}

async fn held(mut body: Body, mut share: Share) -> Result<Held, Refusal> {
    let mut bytes = Vec::new();
    while let Some(frame) = body.frame().await {
        let Ok(piece) = frame.map_err(|_| Refusal::NotWhole)?.into_data() else { continue };
        if bytes.len() + piece.len() > ENQUIRY_BYTES {
            return Err(Refusal::TooLarge { most: ENQUIRY_BYTES });
        }
        share.grow(piece.len())?;
        // Not twice as much as there is, as a vector would take by itself.
        bytes.reserve_exact(piece.len());
        bytes.extend_from_slice(&piece);
    }
    Ok(Held { bytes, _share: share })
}

/// The length that a request says its body has.
pub(super) fn said_length(request: &Request) -> Option<u64> {
    request.headers().get(header::CONTENT_LENGTH)?.to_str().ok()?.parse().ok()
}

/// Counts the bytes that went into a parser since something came out of it.
#[derive(Clone, Debug, Default)]
pub(super) struct Unparsed(Arc<AtomicUsize>);

impl Unparsed {
    /// Notes that a part, or a piece of one, has come out of the parser: counting begins at nothing again.
    pub(super) fn came_out(&self) {
        self.0.store(0, Ordering::Relaxed);
    }

    /// The body as a parser is to read it: it ends with an error where the parser would have to keep more than is good.
    pub(super) fn watched(&self, body: Body) -> Body {
        Body::new(Watched { body, unparsed: self.clone() })
    }
}

struct Watched {
    body: Body,
    unparsed: Unparsed,
}

/// A part of a form has no end.
#[derive(Debug, thiserror::Error)]
#[error("a part of it begins with more than it may")]
struct NoPartBegins;

impl HttpBody for Watched {
    type Data = axum::body::Bytes;
    type Error = axum::BoxError;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Self::Data>, Self::Error>>> {
        let frame = std::task::ready!(Pin::new(&mut self.body).poll_frame(context));
        Poll::Ready(match frame {
            Some(Ok(frame)) => {
                let length = frame.data_ref().map_or(0, axum::body::Bytes::len);
                // Asked of what came before this piece: a body that comes in one piece is in memory already.
                if self.unparsed.0.fetch_add(length, Ordering::Relaxed) > MOST_UNPARSED {
                    return Poll::Ready(Some(Err(NoPartBegins.into())));
                }
                Some(Ok(frame))
            }
            Some(Err(why)) => Some(Err(why.into())),
            None => None,
        })
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(last: u8) -> Sender {
        Sender::At([192, 0, 2, last].into())
    }

    #[test]
    fn one_sender_has_a_share_and_all_together_the_whole() {
        let pool = Pool::of(10, 4);
        let full = |share: &mut Share, more| matches!(share.grow(more), Err(Refusal::Full { .. }));
        let (mut one, mut other) = (pool.share(at(1)), pool.share(at(1)));
        one.grow(3).unwrap();
        assert!(full(&mut other, 2), "the same sender");
        other.grow(1).unwrap();
        let mut unnamed = pool.share(Sender::Unnamed);
        unnamed.grow(5).unwrap();
        let mut third = pool.share(at(2));
        assert!(full(&mut third, 2), "there is one left");
        drop(one);
        third.grow(4).unwrap();
        drop((other, unnamed, third));
        let taken = pool.taken.lock().unwrap();
        assert_eq!((taken.all, taken.by.len()), (0, 0));
    }

    #[tokio::test]
    async fn a_body_takes_room_as_it_comes_and_gives_it_back() {
        let pool = Pool::of(10, 10);
        let body = held(Body::from("12345678"), pool.share(at(1))).await.unwrap();
        assert_eq!(&body[..], b"12345678");
        assert!(matches!(held(Body::from("123"), pool.share(at(2))).await, Err(Refusal::Full { .. })));
        drop(body);
        assert!(held(Body::from("123"), pool.share(at(2))).await.is_ok());
        let large = Body::from(vec![b' '; ENQUIRY_BYTES + 1]);
        let pool = Pool::of(usize::MAX, usize::MAX);
        assert!(matches!(held(large, pool.share(at(1))).await, Err(Refusal::TooLarge { most: ENQUIRY_BYTES })));
    }
}
