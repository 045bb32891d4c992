//! The rate limit: how many enquiries one address may send a minute; generous for a home, an obstacle to whoever wants to fill the disk.
//!
//! The counts are kept in memory (by the crate governor), as losing them does no harm. Behind a proxy on this machine the address is the
//! one that the proxy names; if it names none nobody is counted, as all visitors would share one count.

use super::Service;
use super::error::Refusal;
use super::limits::POSTS_A_MINUTE;
use axum::extract::{ConnectInfo, Request, State};
use axum::http::{HeaderMap, Method};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use governor::clock::{Clock, DefaultClock};
use governor::middleware::NoOpMiddleware;
use governor::state::keyed::HashMapStateStore;
use governor::{Quota, RateLimiter};
use std::net::{IpAddr, SocketAddr};

/// The counts of every address.
pub(super) struct RateLimit<C: Clock = DefaultClock>(
    RateLimiter<IpAddr, HashMapStateStore<IpAddr>, C, NoOpMiddleware<C::Instant>>,
);

impl<C: Clock> std::fmt::Debug for RateLimit<C> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("RateLimit").finish_non_exhaustive()
    }
}

impl Default for RateLimit {
    fn default() -> Self {
        Self::with_clock(DefaultClock::default())
    }
}

impl<C: Clock> RateLimit<C> {
    fn with_clock(clock: C) -> Self {
        Self(RateLimiter::hashmap_with_clock(Quota::per_minute(POSTS_A_MINUTE), clock))
    }

    /// Counts one request; the error is the number of seconds to wait if it is one too many.
    fn count(&self, who: IpAddr) -> Result<(), i64> {
        self.0.check_key(&who).map_err(|early| {
            let wait = early.wait_time_from(self.0.clock().now());
            i64::try_from(wait.as_secs()).unwrap_or(i64::MAX).saturating_add(1)
        })
    }

    /// Forgets addresses that sent nothing of late.
    pub(super) fn forget(&self) {
        self.0.retain_recent();
    }
}

/// Refuses requests over the rate limit.
pub(super) async fn limited(State(service): State<Service>, request: Request, next: Next) -> Response {
    let peer = request.extensions().get::<ConnectInfo<SocketAddr>>().map(|ConnectInfo(address)| address.ip());
    let who = peer.filter(|_| request.method() == Method::POST).and_then(|peer| sender(peer, request.headers()));
    match who.map_or(Ok(()), |who| service.rate_limit.count(who)) {
        Ok(()) => next.run(request).await,
        Err(seconds) => Refusal::TooManyPosts { seconds }.into_response(),
    }
}

/// The sender's address: the peer's, or the last one that a proxy on this machine names; `None` where that proxy names none.
fn sender(peer: IpAddr, headers: &HeaderMap) -> Option<IpAddr> {
    if !peer.is_loopback() {
        return Some(peer);
    }
    let named = headers.get_all("x-forwarded-for").iter().next_back()?.to_str().ok()?;
    named.rsplit(',').next()?.trim().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use governor::clock::FakeRelativeClock;
    use std::time::Duration;

    #[test]
    fn one_address_may_send_so_many_a_minute_and_others_are_not_held_up() {
        let clock = FakeRelativeClock::default();
        let limit = RateLimit::with_clock(clock.clone());
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

    #[test]
    fn only_a_proxy_on_this_machine_is_believed() {
        let mut headers = HeaderMap::new();
        let [far, here] = ["192.0.2.1", "127.0.0.1"].map(|address| address.parse().unwrap());
        assert_eq!(sender(here, &headers), None);
        headers.insert("x-forwarded-for", "198.51.100.7, 203.0.113.9".parse().unwrap());
        assert_eq!(sender(far, &headers), Some(far));
        assert_eq!(sender(here, &headers), "203.0.113.9".parse().ok());
    }
}
