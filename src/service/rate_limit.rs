//! The rate limits: how many enquiries and how many photos one address may send a minute; generous for a home, an obstacle to whoever wants to
//! fill the disk.
//!
//! The counts are kept in memory (by the crate governor), as losing them does no harm. Whose address counts is in `surroundings`; if a proxy
//! names none nobody is counted, as all visitors would share one count.

use super::Service;
use super::error::Refusal;
use super::limits::{PHOTOS_A_MINUTE, POSTS_A_MINUTE};
use super::surroundings::Sender;
use axum::extract::{Request, State};
use axum::http::Method;
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use governor::clock::{Clock, DefaultClock};
use governor::middleware::NoOpMiddleware;
use governor::state::keyed::HashMapStateStore;
use governor::{Quota, RateLimiter};
use std::net::IpAddr;
use std::num::NonZeroU32;

/// The counts of every address.
struct RateLimit<C: Clock = DefaultClock>(
    RateLimiter<IpAddr, HashMapStateStore<IpAddr>, C, NoOpMiddleware<C::Instant>>,
);

impl<C: Clock> std::fmt::Debug for RateLimit<C> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("RateLimit").finish_non_exhaustive()
    }
}

/// The limits on what strangers send.
#[derive(Debug)]
pub(super) struct RateLimits {
    posts: RateLimit,
    photos: RateLimit,
}

impl Default for RateLimits {
    fn default() -> Self {
        let [posts, photos] =
            [POSTS_A_MINUTE, PHOTOS_A_MINUTE].map(|most| RateLimit::with_clock(most, DefaultClock::default()));
        Self { posts, photos }
    }
}

impl RateLimits {
    /// Forgets addresses that sent nothing of late.
    pub(super) fn forget(&self) {
        self.posts.forget();
        self.photos.forget();
    }
}

impl<C: Clock> RateLimit<C> {
    fn with_clock(most: NonZeroU32, clock: C) -> Self {
        Self(RateLimiter::hashmap_with_clock(Quota::per_minute(most), clock))
    }

    /// Counts one request; the error is the number of seconds to wait if it is one too many.
    fn count(&self, who: IpAddr) -> Result<(), i64> {
        self.0.check_key(&who).map_err(|early| {
            let wait = early.wait_time_from(self.0.clock().now());
            i64::try_from(wait.as_secs()).unwrap_or(i64::MAX).saturating_add(1)
        })
    }

    /// Forgets addresses that sent nothing of late.
    fn forget(&self) {
        self.0.retain_recent();
    }
}

/// Refuses requests over the rate limits: enquiries and additions that are posted, and photos that are put.
pub(super) async fn limited(State(service): State<Service>, request: Request, next: Next) -> Response {
    let limits = &service.rate_limits;
    let (limit, over): (_, fn(i64) -> Refusal) = match *request.method() {
        Method::POST => (&limits.posts, |seconds| Refusal::TooManyPosts { seconds }),
        Method::PUT => (&limits.photos, |seconds| Refusal::TooManyPhotos { seconds }),
        _ => return next.run(request).await,
    };
    match service.surroundings.sender(request.extensions(), request.headers()) {
        Sender::At(address) => match limit.count(address) {
            Ok(()) => next.run(request).await,
            Err(seconds) => over(seconds).into_response(),
        },
        Sender::Unnamed => next.run(request).await,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use governor::clock::FakeRelativeClock;
    use std::time::Duration;

    #[test]
    fn one_address_may_send_so_many_a_minute_and_others_are_not_held_up() {
        let clock = FakeRelativeClock::default();
        let limit = RateLimit::with_clock(POSTS_A_MINUTE, clock.clone());
        let [one, other] = ["192.0.2.1", "192.0.2.2"].map(|address| address.parse().unwrap());
        for _ in 0..POSTS_A_MINUTE.get() {
            assert_eq!(limit.count(one), Ok(()));
        }
        let wait = limit.count(one).unwrap_err();
        assert_eq!(limit.count(other), Ok(()));
        clock.advance(Duration::from_secs(wait.unsigned_abs()));
        assert_eq!(limit.count(one), Ok(()));
        clock.advance(Duration::from_secs(60));
        limit.forget();
        assert!(limit.0.is_empty());
    }
}
