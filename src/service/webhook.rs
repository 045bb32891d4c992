//! Webhooks in the form of Standard Webhooks (standardwebhooks.com, from memory): a POST of JSON, signed with HMAC-SHA256.
//!
//! Only to public addresses: the host's name is resolved here, every address that it has is checked, and a checked one is connected to, so
//! that a name can't lead into the network that the service is in, nor change between check and connection. No redirect is followed, no
//! proxy asked.

use super::outbox::Failure;
use super::public_address::is_public;
use super::store;
use base64::Engine as _;
use base64::alphabet::STANDARD;
use base64::engine::{DecodePaddingMode, GeneralPurpose, GeneralPurposeConfig};
use hmac::{Hmac, KeyInit, Mac};
use http_body_util::Full;
use hyper::body::Bytes;
use hyper::header::{CONTENT_TYPE, HOST, USER_AGENT};
use hyper::{Request, StatusCode};
use hyper_util::rt::TokioIo;
use jiff::Timestamp;
use model::config::{Webhook, webhook_parts};
use sha2::Sha256;
use std::fmt;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpStream;
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::crypto::ring::default_provider;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, RootCertStore};

/// The longest that telling one receiver may take: Standard Webhooks has 15 to 30 seconds, from memory.
pub(super) const LONGEST: Duration = Duration::from_secs(20);

/// Base64 as it is given: with padding, and without minding what the last digit's spare bits are.
const BASE64: GeneralPurpose = GeneralPurpose::new(
    &STANDARD,
    GeneralPurposeConfig::new()
        .with_decode_padding_mode(DecodePaddingMode::Indifferent)
        .with_decode_allow_trailing_bits(true),
);

/// A receiver.
pub(super) struct Hook {
    pub(super) url: String,
    host: String,
    port: u16,
    path: String,
    key: Vec<u8>,
    reach: Reach,
}

/// Which addresses a receiver may have, and whose certificates are believed.
enum Reach {
    /// Public ones alone, and the certificates that this machine believes.
    Public,
    /// A receiver on this machine. It exists in this crate's own tests alone, so no setup and no switch leads here.
    #[cfg(test)]
    Test(Arc<RootCertStore>),
}

impl fmt::Debug for Hook {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Hook").field("url", &self.url).finish_non_exhaustive()
    }
}

impl Hook {
    /// The receiver of a checked setup; `None` where the check would have refused it.
    pub(super) fn of(Webhook { url, secret }: &Webhook) -> Option<Self> {
        let (host, port, path) = webhook_parts(url)?;
        let key = BASE64.decode(secret.0.strip_prefix("whsec_")?).ok()?;
        let path = if path.starts_with('/') { path.to_owned() } else { format!("/{path}") };
        Some(Self { url: url.clone(), host: host.to_owned(), port, path, key, reach: Reach::Public })
    }

    /// The signature's header: version and Base64 of HMAC-SHA256 over id, time and payload, with a full stop between them.
    fn signature(&self, id: &str, seconds: i64, payload: &str) -> String {
        let mut mac = Hmac::<Sha256>::new_from_slice(&self.key).expect("HMAC takes a key of any length");
        mac.update(format!("{id}.{seconds}.{payload}").as_bytes());
        format!("v1,{}", BASE64.encode(mac.finalize().into_bytes()))
    }

    /// The receiver's addresses, each of which may be connected to.
    async fn addresses(&self) -> Result<Vec<SocketAddr>, Failure> {
        let found = tokio::net::lookup_host((&*self.host, self.port)).await;
        let all: Vec<SocketAddr> =
            found.map_err(|why| soon(format!("there is no host named {}: {why}", self.host)))?.collect();
        match self.reach {
            Reach::Public => {}
            #[cfg(test)]
            Reach::Test(_) => return Ok(all),
        }
        match all.iter().find(|address| !is_public(address.ip())) {
            Some(private) => Err(Failure {
                why: format!(
                    "{} is at {}, which is no public address: it is not connected to",
                    self.host,
                    private.ip()
                ),
                lasting: true,
            }),
            None => Ok(all),
        }
    }

    fn tls(&self) -> Result<TlsConnector, Failure> {
        let roots = match &self.reach {
            Reach::Public => {
                let mut roots = RootCertStore::empty();
                roots.add_parsable_certificates(rustls_native_certs::load_native_certs().certs);
                Arc::new(roots)
            }
            #[cfg(test)]
            Reach::Test(roots) => Arc::clone(roots),
        };
        let config = ClientConfig::builder_with_provider(Arc::new(default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(|why| soon(why.to_string()))?;
        Ok(TlsConnector::from(Arc::new(config.with_root_certificates(roots).with_no_client_auth())))
    }
}

/// A failure after which it is soon tried again.
fn soon(why: String) -> Failure {
    Failure { why, lasting: false }
}

/// A new id of a webhook.
pub(super) fn new_id() -> String {
    format!("msg_{:032x}", rand::random::<u128>())
}

/// Tells a receiver of an enquiry, or of what was added to one.
///
/// # Errors
/// Why it was not taken, in words for the installer.
pub(super) async fn send(hook: &Hook, payload: String, id: &str) -> Result<(), Failure> {
    post(hook, id, store::now(), payload).await
}

async fn post(hook: &Hook, id: &str, now: Timestamp, payload: String) -> Result<(), Failure> {
    let told = tokio::time::timeout(LONGEST, exchange(hook, id, now, payload)).await;
    let status = told.map_err(|_| soon(format!("{} took longer than {} seconds", hook.host, LONGEST.as_secs())))??;
    let said = format!("{} answers {status}", hook.host);
    if status.is_success() {
        Ok(())
    } else if status.is_redirection() {
        Err(Failure {
            why: format!("{said}: no redirect is followed, so the setup needs the last address"),
            lasting: true,
        })
    } else {
        // 408 and 429 are refusals of this moment (RFC 9110, RFC 6585).
        let moment = matches!(status, StatusCode::REQUEST_TIMEOUT | StatusCode::TOO_MANY_REQUESTS);
        Err(Failure { why: said, lasting: status.is_client_error() && !moment })
    }
}

async fn exchange(hook: &Hook, id: &str, now: Timestamp, payload: String) -> Result<StatusCode, Failure> {
    let addresses = hook.addresses().await?;
    // By address, so that no name is resolved a second time.
    let stream = TcpStream::connect(&addresses[..]).await;
    let stream = stream.map_err(|why| soon(format!("{} does not answer: {why}", hook.host)))?;
    let name = ServerName::try_from(hook.host.clone()).map_err(|why| soon(why.to_string()))?;
    let stream = hook.tls()?.connect(name, stream).await;
    let stream = stream.map_err(|why| soon(format!("the connection to {} can't be encrypted: {why}", hook.host)))?;
    let broke = |why: hyper::Error| soon(format!("the connection to {} broke off: {why}", hook.host));
    let (mut sender, connection) = hyper::client::conn::http1::handshake(TokioIo::new(stream)).await.map_err(broke)?;
    let seconds = now.as_second();
    let host = if hook.port == 443 { hook.host.clone() } else { format!("{}:{}", hook.host, hook.port) };
    let request = Request::post(&hook.path)
        .header(HOST, host)
        .header(USER_AGENT, "presurvey")
        .header(CONTENT_TYPE, "application/json")
        .header("webhook-id", id)
        .header("webhook-timestamp", seconds)
        .header("webhook-signature", hook.signature(id, seconds, &payload))
        .body(Full::new(Bytes::from(payload)))
        .map_err(|why| soon(why.to_string()))?;
    // The connection works as long as the answer is waited for, and is dropped with the answer's body, which nobody reads.
    tokio::select! {
        answered = sender.send_request(request) => Ok(answered.map_err(broke)?.status()),
        ended = connection => Err(match ended {
            Err(why) => broke(why),
            Ok(()) => soon(format!("the connection to {} ended without an answer", hook.host)),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use http_body_util::BodyExt;
    use hyper::body::Incoming;
    use hyper::service::service_fn;
    use model::config::Secret;
    use std::sync::Mutex;
    use tokio::net::TcpListener;
    use tokio_rustls::TlsAcceptor;
    use tokio_rustls::rustls::ServerConfig;
    use tokio_rustls::rustls::pki_types::{PrivateKeyDer, PrivatePkcs8KeyDer};

    const SECRET: &str = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";

    fn hook(url: &str) -> Hook {
        Hook::of(&Webhook { url: url.into(), secret: Secret(SECRET.into()) }).unwrap()
    }

    /// Computed by OpenSSL and by the library standardwebhooks of npm.
    #[test]
    fn it_is_signed_as_others_check_it() {
        let signature = hook("https://a.example/").signature(
            "msg_p5jXN8AQM9LWM0D4loKWxJek",
            1_614_265_330,
            r#"{"test": 2432232314}"#,
        );
        assert_eq!(signature, "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=");
    }

    type Received = Arc<Mutex<Vec<(hyper::http::request::Parts, Bytes)>>>;

    /// A receiver on this machine that answers with a status, or with nothing where there is none; and a hook that leads to it.
    async fn receiver(status: Option<u16>) -> (Hook, Received) {
        let made = rcgen::generate_simple_self_signed(["localhost".to_owned()]).unwrap();
        let certificate = made.cert.der().clone();
        let key = PrivateKeyDer::Pkcs8(PrivatePkcs8KeyDer::from(made.signing_key.serialize_der()));
        let mut roots = RootCertStore::empty();
        roots.add(certificate.clone()).unwrap();
        let config = ServerConfig::builder_with_provider(Arc::new(default_provider()))
            .with_safe_default_protocol_versions()
            .unwrap()
            .with_no_client_auth()
            .with_single_cert(vec![certificate], key)
            .unwrap();
        let acceptor = TlsAcceptor::from(Arc::new(config));
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let port = listener.local_addr().unwrap().port();
        let received = Received::default();
        let kept = Arc::clone(&received);
        tokio::spawn(async move {
            while let Ok((stream, _)) = listener.accept().await {
                let (acceptor, kept) = (acceptor.clone(), Arc::clone(&kept));
                tokio::spawn(async move {
                    let Ok(stream) = acceptor.accept(stream).await else { return };
                    let answer = service_fn(move |request: Request<Incoming>| {
                        let kept = Arc::clone(&kept);
                        async move {
                            let (head, body) = request.into_parts();
                            let body = body.collect().await.unwrap().to_bytes();
                            kept.lock().unwrap().push((head, body));
                            let status = status.ok_or("no answer")?;
                            let response = hyper::Response::builder().status(status);
                            let response =
                                response.header("location", "https://localhost:1/").body(Full::<Bytes>::default());
                            Ok::<_, &'static str>(response.unwrap())
                        }
                    });
                    let _ =
                        hyper::server::conn::http1::Builder::new().serve_connection(TokioIo::new(stream), answer).await;
                });
            }
        });
        let mut hook = hook(&format!("https://localhost:{port}/told?of=it"));
        hook.reach = Reach::Test(Arc::new(roots));
        (hook, received)
    }

    fn at() -> Timestamp {
        Timestamp::from_second(1_614_265_330).unwrap()
    }

    #[tokio::test]
    async fn a_receiver_is_told_and_can_check_it() {
        let (hook, received) = receiver(Some(204)).await;
        post(&hook, "msg_1", at(), "{}".into()).await.unwrap();
        let received = received.lock().unwrap();
        let [(head, body)] = &received[..] else { panic!("told {} times", received.len()) };
        let header = |name: &str| head.headers[name].to_str().unwrap();
        assert_eq!(
            (head.method.as_str(), head.uri.to_string().as_str(), &body[..]),
            ("POST", "/told?of=it", &b"{}"[..])
        );
        assert_eq!(header("host"), format!("localhost:{}", hook.port));
        assert_eq!((header("content-type"), header("webhook-id")), ("application/json", "msg_1"));
        assert_eq!(header("webhook-timestamp"), "1614265330");
        assert_eq!(header("webhook-signature"), hook.signature("msg_1", 1_614_265_330, "{}"));
    }

    #[tokio::test]
    async fn what_is_not_taken_says_why_and_redirects_lead_nowhere() {
        for (status, says, lasting) in [
            (Some(302), "no redirect is followed", true),
            (Some(400), "400", true),
            (Some(410), "410", true),
            (Some(429), "429", false),
            (Some(503), "503", false),
            (None, "", false),
        ] {
            let (hook, received) = receiver(status).await;
            let failure = post(&hook, "msg_1", at(), "{}".into()).await.unwrap_err();
            assert!(failure.why.contains(says) && failure.why.contains("localhost"), "{status:?}: {}", failure.why);
            assert_eq!(failure.lasting, lasting, "{status:?}");
            assert_eq!(received.lock().unwrap().len(), 1, "{status:?}: asked once");
        }
    }

    #[tokio::test]
    async fn a_certificate_that_nobody_vouches_for_is_refused() {
        let (mut hook, received) = receiver(Some(204)).await;
        hook.reach = Reach::Test(Arc::new(RootCertStore::empty()));
        let failure = post(&hook, "msg_1", at(), "{}".into()).await.unwrap_err();
        assert!(failure.why.contains("can't be encrypted"), "{}", failure.why);
        assert_eq!(received.lock().unwrap().len(), 0);
    }

    #[tokio::test]
    async fn no_private_address_is_connected_to() {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let port = listener.local_addr().unwrap().port();
        for host in ["localhost", "127.0.0.1", "2130706433", "0x7f000001", "10.0.0.1", "169.254.169.254", "0.0.0.0"] {
            let failure =
                post(&hook(&format!("https://{host}:{port}/")), "msg_1", at(), "{}".into()).await.unwrap_err();
            // Where a system knows one of the odd spellings as no address at all, there is no host of that name.
            let refused = failure.why.contains("no public address") && failure.lasting;
            assert!(
                refused || (host.starts_with(['2', '0']) && failure.why.contains("no host")),
                "{host}: {}",
                failure.why
            );
        }
        let knocked = tokio::time::timeout(Duration::from_millis(50), listener.accept()).await;
        assert!(knocked.is_err(), "somebody connected");
    }
}
