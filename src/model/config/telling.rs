//! How the installer is told of an enquiry: by e-mail and by webhooks. Private, as all of it stays in the setup.

use super::check::{ConfigProblem, MOST_ADDRESS, is_of_an_address};
use super::fields::fields;
#[cfg(feature = "schema")]
use super::schema;
use super::setup::Setup;
use crate::answers::choices::words;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;
use core::net::IpAddr;
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize};

/// A text that opens something: it is written into a file, and never into a log.
#[derive(Clone, PartialEq, Eq, Serialize)]
#[serde(transparent)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(inline))]
pub struct Secret(pub String);

impl<'de> Deserialize<'de> for Secret {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        // serde's own words would repeat it, as where the quotes around a number were forgotten.
        let read = String::deserialize(deserializer);
        read.map(Self).map_err(|_| D::Error::custom("what stands there is not allowed; it may be a text in quotes"))
    }
}

impl fmt::Debug for Secret {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("(secret)")
    }
}

words! {
    /// How a connection to a mail server is encrypted.
    pub enum Encryption {
        /// It begins in the clear and is encrypted before anything is said.
        Starttls => "starttls",
        /// From the first byte on.
        Tls => "tls",
        /// Not at all: for a mail server on the same machine alone.
        Nothing => "none",
    }
}

impl Encryption {
    /// The port that is meant where none is named: submission 587 (RFC 6409), submissions 465 (RFC 8314), a relay's own 25 (RFC 5321).
    #[must_use]
    pub const fn port(self) -> u16 {
        match self {
            Self::Starttls => 587,
            Self::Tls => 465,
            Self::Nothing => 25,
        }
    }
}

/// The mail server that enquiries are handed to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Mail {
    /// Its name.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_HOST), extend("pattern" = schema::host())))]
    pub server: String,
    /// Its port; left out, 587 for `starttls`, 465 for `tls` and 25 for `none`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = u16::MAX)))]
    pub port: Option<u16>,
    /// How the connection is encrypted: `starttls` where it is left out, or `tls`, or `none` to this machine alone.
    #[serde(default = "starttls")]
    pub encryption: Encryption,
    /// Whom to sign in as; left out, nobody signs in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub user: Option<String>,
    /// The password; `PRESURVEY_MAIL_PASSWORD` in the environment comes before it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub password: Option<Secret>,
    /// The address that the mails are from.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_MAIL_ADDRESS), extend("pattern" = schema::mail_address())))]
    pub from: String,
    /// Whether homeowners are offered a copy of what they sent, by mail.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub copies: bool,
}

/// An address that is told of each enquiry in the form of Standard Webhooks.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Webhook {
    /// Where to: `https://…`.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_ADDRESS), extend("pattern" = schema::webhook_address())))]
    pub url: String,
    /// What it is signed with: `whsec_` and 24 to 64 bytes in Base64.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::webhook_secret())))]
    pub secret: Secret,
}

fields!(Mail { server, port default, encryption or starttls, user default, password default, from, copies default });
fields!(Webhook { url, secret });

fn starttls() -> Encryption {
    Encryption::Starttls
}

/// The longest name of a host (RFC 1035 2.3.4, as it is written with dots) and address of a mailbox (RFC 5321), both from memory.
const MOST_HOST: usize = 253;
const MOST_MAIL_ADDRESS: usize = 254; // RFC 5321, from memory
/// The most characters before the `@`: RFC 5321 4.5.3.1.1, from memory.
pub(super) const MOST_LOCAL: usize = 64;
/// The most characters between two dots of a host's name: RFC 1035 2.3.4, from memory.
pub(super) const MOST_LABEL: usize = 63;
/// Bytes of a webhook's secret: Standard Webhooks, from memory.
pub(super) const SECRET_BYTES: [usize; 2] = [24, 64];

impl Mail {
    /// The port to connect to.
    #[must_use]
    pub fn port(&self) -> u16 {
        self.port.unwrap_or(self.encryption.port())
    }

    /// Whether the server is named as one on this machine.
    fn is_here(&self) -> bool {
        self.server.eq_ignore_ascii_case("localhost") || self.server.parse().is_ok_and(|ip: IpAddr| ip.is_loopback())
    }
}

/// Whether a text is the plain address of a mailbox: no name beside it, no quotes, no comment, nothing but ASCII. What passes can stand in
/// a header as it is.
#[must_use]
pub fn is_mail_address(text: &str) -> bool {
    text.len() <= MOST_MAIL_ADDRESS
        && text.split_once('@').is_some_and(|(local, domain)| {
            local.len() <= MOST_LOCAL
                && local.split('.').all(|word| !word.is_empty() && word.chars().all(is_of_a_local_part))
                && is_host(domain)
        })
}

/// What RFC 5322 calls `atext`, from memory.
pub(super) fn is_of_a_local_part(sign: char) -> bool {
    sign.is_ascii_alphanumeric() || "!#$%&'*+-/=?^_`{|}~".contains(sign)
}

fn is_host(text: &str) -> bool {
    let label = |label: &str| {
        (1..=MOST_LABEL).contains(&label.len())
            && label.chars().all(|sign| sign.is_ascii_alphanumeric() || sign == '-')
            && !label.starts_with('-')
            && !label.ends_with('-')
    };
    text.len() <= MOST_HOST && text.split('.').all(label)
}

/// Host, port and path of an address to send a webhook to; `None` where it is no such address.
#[must_use]
pub fn webhook_parts(url: &str) -> Option<(&str, u16, &str)> {
    let rest = url.strip_prefix("https://").filter(|_| url.len() <= MOST_ADDRESS)?;
    let (authority, path) = rest.find(['/', '?']).map_or((rest, ""), |at| rest.split_at(at));
    let (host, port) = match authority.split_once(':') {
        None => (authority, 443), // RFC 9110 4.2.2, from memory
        Some((host, digits)) => {
            let plain = digits.chars().all(|sign| sign.is_ascii_digit()) && !digits.starts_with('0');
            (host, digits.parse().ok().filter(|_| plain)?)
        }
    };
    (is_host(host) && path.chars().all(is_of_a_webhook_path)).then_some((host, port, path))
}

pub(super) fn is_of_a_webhook_path(sign: char) -> bool {
    is_of_an_address(sign) && !matches!(sign, '#' | '`' | '{' | '|' | '}' | '^')
}

fn is_webhook_secret(text: &str) -> bool {
    let Some(digits) = text.strip_prefix("whsec_").filter(|digits| digits.len() % 4 == 0) else { return false };
    let bare = digits.strip_suffix("==").or_else(|| digits.strip_suffix('=')).unwrap_or(digits);
    let bytes = bare.len() * 3 / 4;
    bare.chars().all(is_of_base64) && (SECRET_BYTES[0]..=SECRET_BYTES[1]).contains(&bytes)
}

fn is_of_base64(sign: char) -> bool {
    sign.is_ascii_alphanumeric() || matches!(sign, '+' | '/')
}

/// Checks how the installer is told. An earlier version took any text as `mail_to`, which only counts where there is `mail`.
pub(super) fn check_telling(setup: &Setup, problems: &mut Vec<ConfigProblem>) {
    let mut refuse = |field: String, given: String, allowed| problems.push(ConfigProblem { field, given, allowed });
    const ADDRESS: &str = "one address alone, such as name@example.com";
    const HOST: &str = "the name of a server, such as smtp.example.com";
    if let Some(mail) = &setup.mail {
        match &setup.mail_to {
            None => refuse(
                "mail_to".into(),
                "nothing".into(),
                "the address that enquiries are mailed to, as there is `mail`",
            ),
            Some(to) if !is_mail_address(to) => refuse("mail_to".into(), format!("{to:?}"), ADDRESS),
            Some(_) => {}
        }
        if !is_host(&mail.server) {
            refuse("mail.server".into(), format!("{:?}", mail.server), HOST);
        }
        if mail.port == Some(0) {
            refuse("mail.port".into(), "0".into(), "1 to 65535");
        }
        if mail.encryption == Encryption::Nothing && !mail.is_here() {
            let allowed = "\"starttls\" or \"tls\"; \"none\" is for a server on this machine alone (localhost)";
            refuse("mail.encryption".into(), "\"none\"".into(), allowed);
        }
        match (&mail.user, &mail.password) {
            (Some(user), _) if user.is_empty() => refuse("mail.user".into(), "\"\"".into(), "a name, or left out"),
            (None, Some(_)) => refuse("mail.user".into(), "nothing".into(), "whom the password is of"),
            _ => {}
        }
        if !is_mail_address(&mail.from) {
            refuse("mail.from".into(), format!("{:?}", mail.from), ADDRESS);
        }
    }
    for (at, Webhook { url, secret }) in setup.webhooks.iter().enumerate() {
        if webhook_parts(url).is_none() {
            let allowed = "an address that begins with https:// and the name of a host";
            // An address may hold a secret as well.
            refuse(format!("webhooks[{at}].url"), "what stands there".into(), allowed);
        }
        if setup.webhooks[..at].iter().any(|other| other.url == *url) {
            refuse(format!("webhooks[{at}].url"), "one that stands above".to_string(), "an address that stands once");
        }
        if !is_webhook_secret(&secret.0) {
            // What is nearly right is not shown either.
            let allowed = "whsec_ and 24 to 64 bytes in Base64";
            refuse(format!("webhooks[{at}].secret"), "what stands there".into(), allowed);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::{check_setup, demo_setup};
    use alloc::vec;

    fn told() -> Setup {
        let mut setup = demo_setup();
        setup.mail = serde_json::from_str(r#"{"server":"smtp.example.com","from":"form@installer.invalid"}"#).unwrap();
        setup.webhooks = vec![Webhook {
            url: "https://hooks.example.com/a?b=c".into(),
            secret: Secret("whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw".into()),
        }];
        setup
    }

    fn refused(change: impl FnOnce(&mut Setup, &mut Mail)) -> Vec<String> {
        let mut setup = told();
        let mut mail = setup.mail.take().unwrap();
        change(&mut setup, &mut mail);
        setup.mail = Some(mail);
        check_setup(&setup).into_iter().map(|problem| problem.field).collect()
    }

    #[test]
    fn what_is_left_out_has_a_default() {
        let setup = told();
        assert_eq!(check_setup(&setup), []);
        let mail = setup.mail.clone().unwrap();
        assert_eq!((mail.encryption, mail.port()), (Encryption::Starttls, 587));
        let json = serde_json::to_string(&setup).unwrap();
        assert_eq!(serde_json::from_str::<Setup>(&json).unwrap(), setup);
        let without = serde_json::to_string(&demo_setup()).unwrap();
        assert!(!without.contains("\"mail\"") && !without.contains("webhooks"), "{without}");
    }

    #[test]
    fn no_secret_is_repeated_where_it_is_wrong() {
        let mail = |password: &str| {
            let json = format!(r#"{{"server":"a.invalid","from":"a@b.invalid","user":"u","password":{password}}}"#);
            serde_json::from_str::<Mail>(&json).unwrap_err().to_string()
        };
        for wrong in ["4711471147114711", "true", "[\"4711\"]", "4711.5"] {
            let words = mail(wrong);
            assert!(
                words.contains("a text in quotes") && !words.contains("4711") && !words.contains("true"),
                "{words}"
            );
        }
        let mut setup = told();
        setup.webhooks[0].url = "http://hooks.example.com/4711".into();
        let words: Vec<_> = check_setup(&setup).iter().map(|problem| format!("{problem:?}")).collect();
        assert!(words[0].contains("webhooks[0].url") && !words[0].contains("4711"), "{words:?}");
    }

    #[test]
    fn what_is_wrong_is_named() {
        assert_eq!(refused(|setup, _| setup.mail_to = None), ["mail_to"]);
        assert_eq!(refused(|setup, _| setup.mail_to = Some("a@b.invalid, c@d.invalid".into())), ["mail_to"]);
        assert_eq!(refused(|_, mail| mail.server = "smtp example".into()), ["mail.server"]);
        assert_eq!(refused(|_, mail| mail.server.clear()), ["mail.server"]);
        assert_eq!(refused(|_, mail| mail.port = Some(0)), ["mail.port"]);
        assert_eq!(refused(|_, mail| mail.encryption = Encryption::Nothing), ["mail.encryption"]);
        assert_eq!(refused(|_, mail| mail.password = Some(Secret("x".into()))), ["mail.user"]);
        assert_eq!(refused(|_, mail| mail.user = Some(String::new())), ["mail.user"]);
        assert_eq!(refused(|_, mail| mail.from = "Name <a@b.invalid>".into()), ["mail.from"]);
        assert_eq!(refused(|setup, _| setup.webhooks[0].url = "http://hooks.example.com/".into()), ["webhooks[0].url"]);
        assert_eq!(refused(|setup, _| setup.webhooks.push(setup.webhooks[0].clone())), ["webhooks[1].url"]);
        assert_eq!(refused(|setup, _| setup.webhooks[0].secret.0.truncate(12)), ["webhooks[0].secret"]);
        for here in ["localhost", "127.0.0.1"] {
            let none = |_: &mut Setup, mail: &mut Mail| {
                mail.encryption = Encryption::Nothing;
                mail.server = here.into();
            };
            assert_eq!(refused(none), [""; 0], "{here}");
        }
    }

    #[test]
    fn any_mail_to_of_before_still_opens_where_there_is_no_mail() {
        let mut setup = demo_setup();
        setup.mail_to = Some("whatever stood there".into());
        assert_eq!(check_setup(&setup), []);
    }

    #[test]
    fn an_address_is_one_that_can_stand_in_a_header() {
        for good in ["a@b", "first.last+tag@example.invalid", "o'neill@example.invalid"] {
            assert!(is_mail_address(good), "{good}");
        }
        for bad in [
            "",
            "a",
            "@b",
            "a@",
            "a@b@c",
            ".a@b",
            "a..b@c",
            "a@b..c",
            "a@-b",
            "a b@c",
            "a@b\r\nBcc: c@d",
            "\"a\r\n\"@b",
            "\"a b\"@c",
            "<a@b>",
            "a,b@c",
            "ä@b",
            "a@ä",
        ] {
            assert!(!is_mail_address(bad), "{bad:?}");
        }
        assert!(!is_mail_address(&format!("{}@b", "a".repeat(65))));
    }

    #[test]
    fn a_webhooks_address_is_taken_apart() {
        assert_eq!(webhook_parts("https://a.example"), Some(("a.example", 443, "")));
        assert_eq!(webhook_parts("https://a.example:8443/b?c=d"), Some(("a.example", 8443, "/b?c=d")));
        assert_eq!(webhook_parts("https://a.example?c"), Some(("a.example", 443, "?c")));
        for bad in [
            "http://a.example/",
            "https://",
            "https:///a",
            "https://a@b.example/",
            "https://a.example:0/",
            "https://a.example:+1/",
            "https://a.example:65536/",
            "https://a.example/ b",
            "https://a.example/#b",
            "https://[::1]/",
        ] {
            assert_eq!(webhook_parts(bad), None, "{bad}");
        }
    }

    #[test]
    fn nothing_secret_is_shown_for_debugging() {
        let mut setup = told();
        setup.mail.as_mut().unwrap().password = Some(Secret("private-marker".into()));
        let shown = format!("{setup:?}");
        assert!(!shown.contains("private-marker") && !shown.contains("whsec_"), "{shown}");
    }
}
