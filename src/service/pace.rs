//! How many enquiries one address may send a minute: generous for a home, a hindrance for whoever fills the disk.
//!
//! Counted in the process, as a count that is lost does no harm. Behind a proxy on this machine the address is the one
//! that the proxy names; where it names none nobody is counted, as all visitors would be one.

use super::Service;
use super::error::Refusal;
use axum::extract::{ConnectInfo, Request, State};
use axum::http::{HeaderMap, Method};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use jiff::Timestamp;
use std::collections::HashMap;
use std::net::{IpAddr, SocketAddr};
use std::sync::{Mutex, PoisonError};

/// The most of one address in one minute. Common practice, no source.
const MOST: u32 = 60;

/// The posts of this minute, by address.
#[derive(Debug, Default)]
pub(super) struct Pace(Mutex<(i64, HashMap<IpAddr, u32>)>);

impl Pace {
    /// Counts one more; the seconds to wait where it is one too many.
    fn count(&self, who: IpAddr, second: i64) -> Result<(), i64> {
        let minute = second.div_euclid(60);
        let mut held = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if held.0 != minute {
            *held = (minute, HashMap::new());
        }
        let count = held.1.entry(who).or_default();
        *count += 1;
        if *count > MOST { Err(60 - second.rem_euclid(60)) } else { Ok(()) }
    }
}

/// Refuses what comes too fast from one address.
pub(super) async fn paced(State(service): State<Service>, request: Request, next: Next) -> Response {
    let peer = request.extensions().get::<ConnectInfo<SocketAddr>>().map(|ConnectInfo(address)| address.ip());
    let who = peer.filter(|_| request.method() == Method::POST).and_then(|peer| sender(peer, request.headers()));
    match who.map_or(Ok(()), |who| service.pace.count(who, Timestamp::now().as_second())) {
        Ok(()) => next.run(request).await,
        Err(seconds) => Refusal::TooManyPosts { seconds }.into_response(),
    }
}

/// Who sends: the peer, or whom a proxy on this machine names last.
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

    #[test]
    fn one_address_may_send_so_many_a_minute_and_others_are_not_held_up() {
        let pace = Pace::default();
        let [one, other] = ["192.0.2.1", "192.0.2.2"].map(|address| address.parse().unwrap());
        for _ in 0..MOST {
            assert_eq!(pace.count(one, 61), Ok(()));
        }
        assert_eq!(pace.count(one, 70), Err(50));
        assert_eq!(pace.count(other, 70), Ok(()));
        assert_eq!(pace.count(one, 120), Ok(()));
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
