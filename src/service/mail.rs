//! Mail by SMTP. Every failure says in plain words at which step it was and what to look at.

use super::letter::say;
use super::outbox::Failure;
use super::telling::MailSettings;
use jiff::Timestamp;
use lettre::message::header::{ContentType, Header, HeaderName, HeaderValue};
use lettre::message::{Attachment, Mailbox, Message, MultiPart, SinglePart};
use lettre::transport::smtp::authentication::{Credentials, Mechanism};
use lettre::transport::smtp::client::{AsyncSmtpConnection, TlsParameters};
use lettre::transport::smtp::extension::ClientId;
use lettre::transport::smtp::{Error, response::Response};
use lettre::{Address, address::AddressError};
use model::config::{Encryption, Mail};
use std::error::Error as _;
use std::io;
use std::time::{Duration, SystemTime};
use tokio_rustls::rustls;
use wording::service as words;

/// The longest that finding the server, connecting, encrypting and signing in may take each. This program's choice.
const STEP: Duration = Duration::from_secs(30);
/// The longest that handing over may take: RFC 5321 4.5.3.2.6 has ten minutes for the last answer alone (from memory), and who does not wait
/// sends twice.
const HANDING_OVER: Duration = Duration::from_secs(600);
/// The longest that all of it may take: five steps of half a minute, and handing over.
#[cfg(test)]
pub(super) const LONGEST: Duration = Duration::from_secs(5 * 30 + 600);
/// The most characters of a server's answer that are repeated. This program's choice.
const MOST_SAID: usize = 200;

/// Why a mail was not sent; each says what to look at.
#[derive(Debug, thiserror::Error)]
pub enum MailError {
    /// An address of the settings can't be used.
    #[error("{address:?} can't be used as an address: {why}")]
    Address {
        /// Which.
        address: String,
        /// Why.
        why: AddressError,
    },
    /// The message can't be written.
    #[error("the mail can't be written: {0}")]
    Message(#[from] lettre::error::Error),
    /// The server's name is not known.
    #[error(
        "there is no mail server named {server}: {why}; look at `mail.server`, and whether this machine finds other names"
    )]
    NoSuchServer {
        /// Which.
        server: String,
        /// The system's words.
        why: io::Error,
    },
    /// Nobody answers.
    #[error(
        "{server} does not answer on port {port}: {why}; look at `mail.port`, and whether a firewall or the host holds the port back"
    )]
    NoAnswer {
        /// Which server.
        server: String,
        /// Which port.
        port: u16,
        /// What happened.
        why: String,
    },
    /// The connection can't be encrypted.
    #[error(
        "the connection to {server} on port {port} can't be encrypted: {why}; look at `mail.encryption` (\"starttls\" is usual on port 587, \"tls\" on 465) and at the name in `mail.server`, which the certificate must have"
    )]
    Tls {
        /// Which server.
        server: String,
        /// Which port.
        port: u16,
        /// What happened.
        why: String,
    },
    /// The login is refused.
    #[error(
        "{server} refuses the login as {user:?}: {why}; look at `mail.user` and the password (PRESURVEY_MAIL_PASSWORD, else `mail.password`)"
    )]
    Login {
        /// Which server.
        server: String,
        /// Whom the setup names.
        user: String,
        /// The server's answer.
        why: String,
    },
    /// There is a user without a password.
    #[error("`mail.user` has no password: set PRESURVEY_MAIL_PASSWORD, or `mail.password` in the setup")]
    NoPassword,
    /// The server refuses the mail.
    #[error("{server} refuses the mail: {why}; look at `mail.from`, `mail_to` and whether the server wants a login")]
    Refused {
        /// Which server.
        server: String,
        /// The server's answer.
        why: String,
        /// Whether it may take it later.
        later: bool,
    },
    /// The connection broke off.
    #[error(
        "the connection to {server} broke off: {why}; it may have been taken or not, and is sent again under the same Message-ID"
    )]
    BrokeOff {
        /// Which server.
        server: String,
        /// What happened.
        why: String,
    },
}

impl MailError {
    /// Whether trying again soon is of no use, because somebody has to change something first.
    fn is_lasting(&self) -> bool {
        match self {
            Self::Address { .. } | Self::Message(_) | Self::Login { .. } | Self::NoPassword => true,
            Self::Refused { later, .. } => !later,
            Self::NoSuchServer { .. } | Self::NoAnswer { .. } | Self::Tls { .. } | Self::BrokeOff { .. } => false,
        }
    }
}

/// A new Message-ID, without its angle brackets: chance, and the domain that the mails are from.
pub(super) fn new_id(settings: &MailSettings) -> String {
    let domain = settings.mail.from.rsplit('@').next().unwrap_or("localhost");
    format!("{:032x}@{domain}", rand::random::<u128>())
}

/// A mail as it is written, the same however often it is tried.
pub(super) struct Written {
    /// Whom it is to; the installer where it is nobody else.
    pub(super) to: Option<String>,
    /// An address that can stand in a header as it is.
    pub(super) reply_to: Option<String>,
    /// The Message-ID of the mail that this one belongs to, without its angle brackets.
    pub(super) follows: Option<String>,
    /// In whole seconds.
    pub(super) date: Timestamp,
    pub(super) subject: String,
    pub(super) text: String,
    /// Files with their names: text, or JSON where the name says so.
    pub(super) attached: Vec<(&'static str, String)>,
}

/// Sends a mail.
///
/// # Errors
/// Why it was not taken, in words for the installer.
pub(super) async fn send(settings: &MailSettings, written: &Written, id: &str) -> Result<(), Failure> {
    let sent = match message(settings, written, id) {
        Ok(message) => deliver(&settings.mail, &message).await.map(drop),
        Err(why) => Err(why),
    };
    sent.map_err(|why| Failure { lasting: why.is_lasting(), why: why.to_string() })
}

/// Sends a test mail and returns what the server answered.
///
/// # Errors
/// [`MailError`]: what went wrong, and what to look at.
pub async fn test_mail(settings: &MailSettings) -> Result<String, MailError> {
    let builder = Message::builder()
        .from(mailbox(&settings.mail.from)?)
        .to(mailbox(&settings.to)?)
        .subject(say(words::MAIL_TEST_SUBJECT, &[]))
        .message_id(Some(format!("<{}>", new_id(settings))))
        .header(AutoSubmitted)
        .date_now();
    let text = say(words::MAIL_TEST_TEXT, &[("installer", &settings.installer)]);
    let message = builder.singlepart(SinglePart::plain(text + "\n"))?;
    deliver(&settings.mail, &message).await.map(|answer| said(&answer))
}

/// A written mail as a message. Apart from a change of the setup it is the same whenever it is made.
fn message(settings: &MailSettings, written: &Written, id: &str) -> Result<Message, MailError> {
    let seconds = u64::try_from(written.date.as_second()).unwrap_or_default();
    let mut builder = Message::builder()
        .from(mailbox(&settings.mail.from)?)
        .to(mailbox(written.to.as_ref().unwrap_or(&settings.to))?)
        .subject(written.subject.clone())
        .message_id(Some(format!("<{id}>")))
        .header(AutoSubmitted)
        .date(SystemTime::UNIX_EPOCH + Duration::from_secs(seconds));
    // An address that the library takes otherwise must not cost the mail.
    if let Some(mailbox) = written.reply_to.as_ref().and_then(|address| mailbox(address).ok()) {
        builder = builder.reply_to(mailbox);
    }
    if let Some(first) = &written.follows {
        builder = builder.in_reply_to(format!("<{first}>")).references(format!("<{first}>"));
    }
    let text = SinglePart::plain(written.text.clone());
    if written.attached.is_empty() {
        return Ok(builder.singlepart(text)?);
    }
    let json = ContentType::parse("application/json").unwrap_or(ContentType::TEXT_PLAIN);
    // Chance that nobody outside knows, and yet the same in a repeat.
    let boundary = id.split('@').next().unwrap_or(id);
    let parts = MultiPart::mixed().boundary(boundary).singlepart(text);
    let parts = written.attached.iter().fold(parts, |parts, (name, file)| {
        let kind = if name.ends_with(".json") { json.clone() } else { ContentType::TEXT_PLAIN };
        parts.singlepart(Attachment::new((*name).to_owned()).body(file.clone(), kind))
    });
    Ok(builder.multipart(parts)?)
}

/// `Auto-Submitted: auto-generated` (RFC 3834): no machine answers it.
#[derive(Clone)]
struct AutoSubmitted;

impl Header for AutoSubmitted {
    fn name() -> HeaderName {
        HeaderName::new_from_ascii_str("Auto-Submitted")
    }

    fn parse(_: &str) -> Result<Self, Box<dyn std::error::Error + Send + Sync>> {
        Ok(Self)
    }

    fn display(&self) -> HeaderValue {
        HeaderValue::new(Self::name(), "auto-generated".to_owned())
    }
}

/// An address without a name beside it.
fn mailbox(address: &str) -> Result<Mailbox, MailError> {
    let parsed: Result<Address, AddressError> = address.parse();
    let email = parsed.map_err(|why| MailError::Address { address: address.to_owned(), why })?;
    Ok(Mailbox { name: None, email })
}

/// Hands a message to the server and returns its answer.
async fn deliver(mail: &Mail, message: &Message) -> Result<Response, MailError> {
    let credentials = match (&mail.user, &mail.password) {
        (Some(user), Some(password)) => Some(Credentials::new(user.clone(), password.0.clone())),
        (Some(_), None) => return Err(MailError::NoPassword),
        (None, _) => None,
    };
    let mut connection = connect(mail).await?;
    if let Some(credentials) = credentials {
        let mechanisms = [Mechanism::Plain, Mechanism::Login];
        let signed_in = in_time(STEP, connection.auth(&mechanisms, &credentials)).await;
        if let Err(failed) = signed_in {
            connection.abort().await;
            return Err(match failed {
                Failed::Smtp(why) if why.status().is_some() || why.is_client() => MailError::Login {
                    server: mail.server.clone(),
                    user: mail.user.clone().unwrap_or_default(),
                    why: short(&why.to_string()),
                },
                failed => failed.told(mail),
            });
        }
    }
    let sent = in_time(HANDING_OVER, connection.send(message.envelope(), &message.formatted())).await;
    match sent {
        Ok(answer) => {
            // It is taken; how the connection ends changes nothing.
            let _ = tokio::time::timeout(STEP, connection.quit()).await;
            Ok(answer)
        }
        Err(failed) => {
            connection.abort().await;
            Err(failed.told(mail))
        }
    }
}

/// Connects and encrypts.
async fn connect(mail: &Mail) -> Result<AsyncSmtpConnection, MailError> {
    let (server, port) = (mail.server.as_str(), mail.port());
    let no_such = |why| MailError::NoSuchServer { server: server.to_owned(), why };
    let found = tokio::time::timeout(STEP, tokio::net::lookup_host((server, port))).await;
    let addresses: Vec<_> = found.map_err(|_| no_such(io::ErrorKind::TimedOut.into()))?.map_err(no_such)?.collect();
    let hello = ClientId::default();
    let tls = || {
        TlsParameters::new_rustls(server.to_owned()).map_err(|why| MailError::Tls {
            server: server.to_owned(),
            port,
            why: short(&why.to_string()),
        })
    };
    let wrapper = if mail.encryption == Encryption::Tls { Some(tls()?) } else { None };
    let opened = AsyncSmtpConnection::connect_tokio1(&addresses[..], Some(STEP), &hello, wrapper, None);
    // The greeting is waited for as well.
    let mut connection = match in_time(STEP, opened).await {
        Ok(connection) => connection,
        Err(failed) => return Err(failed.at_connecting(mail)),
    };
    if mail.encryption == Encryption::Starttls {
        let encrypted = in_time(STEP, connection.starttls(tls()?, &hello)).await;
        if let Err(failed) = encrypted {
            return Err(match failed {
                Failed::Smtp(why) => MailError::Tls { server: server.to_owned(), port, why: short(&why.to_string()) },
                failed => failed.told(mail),
            });
        }
    }
    Ok(connection)
}

/// Why a step failed.
enum Failed {
    Smtp(Error),
    Late(Duration),
}

async fn in_time<T>(most: Duration, step: impl Future<Output = Result<T, Error>>) -> Result<T, Failed> {
    match tokio::time::timeout(most, step).await {
        Ok(done) => done.map_err(Failed::Smtp),
        Err(_) => Err(Failed::Late(most)),
    }
}

impl Failed {
    fn told(self, mail: &Mail) -> MailError {
        let server = mail.server.clone();
        match self {
            Self::Late(most) => MailError::BrokeOff { server, why: late(most) },
            Self::Smtp(why) if why.status().is_some() => {
                MailError::Refused { server, later: why.is_transient(), why: short(&why.to_string()) }
            }
            Self::Smtp(why) => MailError::BrokeOff { server, why: short(&why.to_string()) },
        }
    }

    fn at_connecting(self, mail: &Mail) -> MailError {
        let (server, port) = (mail.server.clone(), mail.port());
        match self {
            Self::Smtp(why) if why.status().is_some() => Self::Smtp(why).told(mail),
            Self::Smtp(why) if why.is_tls() || is_of_tls(&why) => {
                MailError::Tls { server, port, why: short(&why.to_string()) }
            }
            Self::Smtp(why) => MailError::NoAnswer { server, port, why: short(&why.to_string()) },
            Self::Late(most) => {
                let hint = match mail.encryption {
                    Encryption::Tls => "",
                    _ => "; it may wait for encryption from the first byte on (\"tls\")",
                };
                MailError::NoAnswer { server, port, why: late(most) + hint }
            }
        }
    }
}

fn late(most: Duration) -> String {
    format!("nothing came for {} seconds", most.as_secs())
}

/// Whether encryption is what failed, somewhere inside.
fn is_of_tls(why: &Error) -> bool {
    let mut inner = why.source();
    while let Some(error) = inner {
        let io = error.downcast_ref::<io::Error>().and_then(io::Error::get_ref);
        if error.is::<rustls::Error>() || io.is_some_and(|error| error.is::<rustls::Error>()) {
            return true;
        }
        inner = error.source();
    }
    false
}

fn said(answer: &Response) -> String {
    let lines: Vec<&str> = answer.message().collect();
    short(&format!("{} {}", answer.code(), lines.join(" ")))
}

/// What a server or the system said, on one line.
fn short(text: &str) -> String {
    let signs = text.chars().map(|sign| if sign.is_control() { ' ' } else { sign });
    signs.take(MOST_SAID).collect()
}
