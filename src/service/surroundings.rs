//! What the service is told of where it stands: the address that people open it by, the proxies in front of it, and how much a day it takes.
//!
//! A proxy names the visitor in `X-Forwarded-For`, and each one adds the address that it was called from at the end. So the list is read
//! from its end, past every proxy that is trusted; whatever stands further left anybody may have written.

use axum::extract::ConnectInfo;
use axum::http::{Extensions, HeaderMap, Uri, header};
use ipnet::IpNet;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};
use std::num::NonZeroU32;

/// The most new enquiries within 24 hours where the setup says nothing: this program's choice, far above what one firm can answer.
const USUAL_A_DAY: NonZeroU32 = NonZeroU32::new(200).expect("it is not zero");

/// How many leading bits of an IPv6 address tell one visitor from another: a home is given 64 bits or more to draw addresses from
/// (RFC 6177, from memory).
const ONE_HOME: u8 = 64;

/// Where the service stands.
#[derive(Clone, Debug)]
pub struct Surroundings {
    /// Whether its public address is encrypted; `None` where nobody said what it is.
    pub(super) encrypted: Option<bool>,
    proxies: Vec<IpNet>,
    pub(super) enquiries_a_day: NonZeroU32,
}

/// A value that is not allowed: of which field, and what it may be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{field}`: {given:?} is not allowed; it may be {allowed}")]
pub struct NotAllowed {
    /// Path of the field in the setup.
    pub field: String,
    /// What was there.
    pub given: String,
    /// What may be there.
    pub allowed: &'static str,
}

impl Default for Surroundings {
    fn default() -> Self {
        let loopback = [Ipv4Addr::new(127, 0, 0, 0).into(), IpAddr::from(Ipv6Addr::LOCALHOST)];
        let [four, six] = loopback.map(|address| IpNet::new_assert(address, if address.is_ipv4() { 8 } else { 128 }));
        Self { encrypted: None, proxies: vec![four, six], enquiries_a_day: USUAL_A_DAY }
    }
}

/// Who sent a request.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Sender {
    /// Somebody at an address; of IPv6 its network, since one home has many addresses.
    At(IpAddr),
    /// Somebody whom a proxy does not name, or who is on the service's own machine.
    Unnamed,
}

impl Surroundings {
    /// Reads what the setup says; what is left out has its default.
    ///
    /// # Errors
    /// Every value that is not allowed.
    pub fn read(
        public_address: Option<&str>,
        proxies: Option<&[String]>,
        enquiries_a_day: Option<NonZeroU32>,
    ) -> Result<Self, Vec<NotAllowed>> {
        let mut wrong = Vec::new();
        let usual = Self::default();
        let encrypted = public_address.and_then(|address| {
            let found = is_encrypted(address);
            if found.is_none() {
                wrong.push(NotAllowed {
                    field: "public_address".into(),
                    given: address.into(),
                    allowed: "https:// and a host without a path, or http:// and a name of this machine (localhost, 127.0.0.1, [::1])",
                });
            }
            found
        });
        let proxies = proxies.map_or(usual.proxies, |proxies| {
            let network = |text: &str| text.parse().or_else(|_| text.parse::<IpAddr>().map(IpNet::from)).ok();
            proxies
                .iter()
                .enumerate()
                .filter_map(|(at, text)| {
                    let found: Option<IpNet> = network(text.trim());
                    if found.is_none() {
                        wrong.push(NotAllowed {
                            field: format!("proxies[{at}]"),
                            given: text.clone(),
                            allowed: "an address or a network, such as 192.0.2.7, 10.0.0.0/8 or 2001:db8::/32",
                        });
                    }
                    found
                })
                .collect()
        });
        let enquiries_a_day = enquiries_a_day.unwrap_or(usual.enquiries_a_day);
        if wrong.is_empty() { Ok(Self { encrypted, proxies, enquiries_a_day }) } else { Err(wrong) }
    }

    /// Who sent a request, by the connection that it came on and, as far as proxies are trusted, by what they say.
    pub(super) fn sender(&self, extensions: &Extensions, headers: &HeaderMap) -> Sender {
        let Some(ConnectInfo(peer)) = extensions.get::<ConnectInfo<SocketAddr>>() else { return Sender::Unnamed };
        let mut at = peer.ip().to_canonical();
        if !self.trusts(at) {
            return Sender::of(at);
        }
        let lists: Vec<_> = headers.get_all("x-forwarded-for").iter().filter_map(|list| list.to_str().ok()).collect();
        let mut named =
            lists.iter().flat_map(|list| list.split(',')).rev().map(str::trim).filter(|one| !one.is_empty());
        let mut nobody = true;
        while self.trusts(at) {
            match named.next().map(address) {
                Some(Some(next)) => at = next,
                // A trusted proxy names nobody, or hides whom it means (`unknown`).
                Some(None) => return Sender::Unnamed,
                // All who are named are trusted: it comes from one of them.
                None if nobody => return Sender::Unnamed,
                None => break,
            }
            nobody = false;
        }
        Sender::of(at)
    }

    fn trusts(&self, address: IpAddr) -> bool {
        self.proxies.iter().any(|network| network.contains(&address))
    }

    /// Whether cookies are for encrypted connections alone. Where the service is not told what it is, they are, unless the browser itself
    /// says that it opened the page on this machine without encryption; that can weaken nobody's cookies but its own.
    pub(super) fn only_encrypted(&self, headers: &HeaderMap) -> bool {
        self.encrypted.unwrap_or_else(|| {
            let origin = headers.get(header::ORIGIN).and_then(|origin| origin.to_str().ok());
            origin.and_then(is_encrypted) != Some(false)
        })
    }
}

impl Sender {
    fn of(address: IpAddr) -> Self {
        let bits = if address.is_ipv6() { ONE_HOME } else { 32 }; // arithmetic: all bits of an IPv4 address
        Self::At(IpNet::new_assert(address, bits).network())
    }
}

/// An address as proxies write it: alone, with a port, or in brackets (`192.0.2.1:4711`, `[2001:db8::1]`, `[2001:db8::1]:4711`).
fn address(text: &str) -> Option<IpAddr> {
    let text = text.trim_matches('"');
    let bare = text.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(text);
    let found = bare.parse().or_else(|_| text.parse::<SocketAddr>().map(|address| address.ip())).ok();
    found.map(|address: IpAddr| address.to_canonical())
}

/// Whether an address (scheme and host, perhaps a port) is encrypted; `None` for what may be no address of this service: anything with a
/// path, and what is without encryption under a name that is not this machine's own.
fn is_encrypted(address: &str) -> Option<bool> {
    let uri: Uri = address.parse().ok()?;
    let host = uri.host().filter(|host| !host.is_empty())?;
    let bare = matches!(uri.path(), "" | "/") && uri.query().is_none() && !uri.authority()?.as_str().contains('@');
    match uri.scheme_str()? {
        "https" if bare => Some(true),
        "http" if bare && is_this_machine(host) => Some(false),
        _ => None,
    }
}

fn is_this_machine(host: &str) -> bool {
    let address = host.trim_start_matches('[').trim_end_matches(']');
    host == "localhost" || address.parse().is_ok_and(|address: IpAddr| address.is_loopback())
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::HeaderValue;

    fn sender(told: &Surroundings, peer: &str, lists: &[&'static str]) -> Option<String> {
        let mut extensions = Extensions::new();
        extensions.insert(ConnectInfo(SocketAddr::new(peer.parse().unwrap(), 4711)));
        let mut headers = HeaderMap::new();
        for list in lists {
            headers.append("x-forwarded-for", HeaderValue::from_static(list));
        }
        match told.sender(&extensions, &headers) {
            Sender::At(address) => Some(address.to_string()),
            Sender::Unnamed => None,
        }
    }

    fn behind(proxies: &[&str]) -> Surroundings {
        let proxies: Vec<_> = proxies.iter().map(|proxy| (*proxy).to_owned()).collect();
        Surroundings::read(None, Some(&proxies), None).unwrap()
    }

    #[test]
    fn only_a_trusted_proxy_is_believed_and_only_for_what_it_adds_itself() {
        let usual = Surroundings::default();
        let here = |list| sender(&usual, "127.0.0.1", &[list]);
        assert_eq!(here("198.51.100.7, 203.0.113.9").unwrap(), "203.0.113.9", "what stands left anybody wrote");
        assert_eq!(sender(&usual, "192.0.2.1", &["203.0.113.9"]).unwrap(), "192.0.2.1", "no proxy");
        assert_eq!(sender(&usual, "::ffff:127.0.0.1", &["203.0.113.9"]).unwrap(), "203.0.113.9", "IPv4 in IPv6");
        assert_eq!(sender(&usual, "::1", &["198.51.100.7", "203.0.113.9"]).unwrap(), "203.0.113.9", "two headers");
        for nobody in ["", " , ", "unknown", "203.0.113.9, _hidden"] {
            assert_eq!(here(nobody), None, "{nobody:?}");
        }
        assert_eq!(sender(&usual, "127.0.0.1", &[]), None);
    }

    #[test]
    fn the_list_is_walked_past_every_trusted_proxy() {
        let told = behind(&["10.0.0.0/8", "192.0.2.7", "2001:db8:1::/48"]);
        let list = "198.51.100.66, 203.0.113.9, 10.1.2.3, 2001:db8:1::5";
        assert_eq!(sender(&told, "192.0.2.7", &[list]).unwrap(), "203.0.113.9");
        assert_eq!(sender(&told, "127.0.0.1", &[list]).unwrap(), "127.0.0.1", "this machine is not named any more");
        assert_eq!(sender(&told, "10.0.0.1", &["10.9.9.9, 10.8.8.8"]).unwrap(), "10.9.9.9", "somebody inside");
    }

    #[test]
    fn addresses_are_read_with_ports_and_brackets() {
        let usual = Surroundings::default();
        for (written, read) in [
            ("203.0.113.9:4711", "203.0.113.9"),
            ("[2001:db8:0:5::1]:4711", "2001:db8:0:5::"),
            ("[2001:db8:0:5::1]", "2001:db8:0:5::"),
            ("\"[2001:db8:0:5::1]:4711\"", "2001:db8:0:5::"),
            ("2001:db8:0:5:aaaa:bbbb:cccc:dddd", "2001:db8:0:5::"),
            ("::ffff:203.0.113.9", "203.0.113.9"),
        ] {
            assert_eq!(sender(&usual, "127.0.0.1", &[written]).as_deref(), Some(read), "{written}");
        }
        // One home's addresses count as one, its neighbour's as another.
        assert_eq!(sender(&usual, "2001:db8::1", &[]), sender(&usual, "2001:db8::2", &[]));
        assert_ne!(sender(&usual, "2001:db8::1", &[]), sender(&usual, "2001:db8:0:1::1", &[]));
    }

    #[test]
    fn what_is_not_allowed_is_named() {
        let proxies = ["127.0.0.1", "the proxy", "10.0.0.0/33"].map(str::to_owned);
        let wrong = Surroundings::read(Some("http://installer.invalid"), Some(&proxies), None).unwrap_err();
        let fields: Vec<_> = wrong.iter().map(|wrong| wrong.field.as_str()).collect();
        assert_eq!(fields, ["public_address", "proxies[1]", "proxies[2]"]);
        for address in
            ["installer.invalid", "https://", "https://a.invalid/form", "https://me@a.invalid", "ftp://a.invalid"]
        {
            assert!(Surroundings::read(Some(address), None, None).is_err(), "{address}");
        }
        for (address, encrypted) in [
            ("https://installer.invalid", true),
            ("https://installer.invalid:8443/", true),
            ("https://localhost", true),
            ("http://localhost:8080", false),
            ("http://127.0.0.1:8080", false),
            ("http://[::1]:8080", false),
        ] {
            assert_eq!(Surroundings::read(Some(address), None, None).unwrap().encrypted, Some(encrypted), "{address}");
        }
    }

    #[test]
    fn untold_only_the_browsers_own_word_for_this_machine_goes_without_encryption() {
        let of = |origin: &'static str| {
            let headers = HeaderMap::from_iter([(header::ORIGIN, HeaderValue::from_static(origin))]);
            Surroundings::default().only_encrypted(&headers)
        };
        assert!(!of("http://localhost:8080") && !of("http://127.0.0.1:8080") && !of("http://[::1]:8080"));
        assert!(of("https://installer.invalid") && of("http://installer.invalid") && of("null"));
        assert!(of("http://localhost.installer.invalid") && of("http://127.0.0.1.installer.invalid"));
        assert!(Surroundings::default().only_encrypted(&HeaderMap::new()));
    }
}
