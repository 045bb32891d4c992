//! Secrets that a homeowner's request carries: read from its header, kept and compared as hashes alone.

use axum::http::HeaderMap;
use ctutils::CtEq;
use headers::HeaderMapExt;
use headers::authorization::{Authorization, Bearer};
use record::enquiry::Reference;
use sha2::{Digest, Sha256};

/// The secret after `Authorization: Bearer`; `None` without such a header.
pub(super) fn bearer(headers: &HeaderMap) -> Option<String> {
    headers.typed_get::<Authorization<Bearer>>().map(|said| said.token().trim().to_owned())
}

/// How many groups of eight characters a drawn secret has, each of some 36 bits: this program's choice, more than anybody can try.
const GROUPS: usize = 3;

/// Draws a secret that a person may have to type: `BCDF-GHJK-…`, of the characters of a reference.
pub(super) fn draw() -> String {
    [(); GROUPS].map(|()| Reference::from_bits(rand::random()).as_str().to_owned()).join("-")
}

/// A drawn secret however it was typed: spaces, hyphens and lower case are accepted. `None` for anything that is none.
pub(super) fn typed(text: &str) -> Option<String> {
    let signs: Vec<char> = text.chars().filter(|sign| !sign.is_whitespace() && *sign != '-').collect();
    let groups = signs.chunks(8).map(|group| Reference::read(&group.iter().collect::<String>()));
    let groups: Vec<Reference> = groups.collect::<Option<_>>()?;
    let groups: Vec<&str> = groups.iter().map(Reference::as_str).collect();
    (groups.len() == GROUPS).then(|| groups.join("-"))
}

/// The hash that is kept of a secret: SHA-256, in hexadecimal digits.
pub(super) fn hash_of(secret: &str) -> String {
    hex::encode(Sha256::digest(secret.as_bytes()))
}

/// Whether the secret has this hash, in a time that does not depend on where the two hashes differ.
pub(super) fn opens(secret: &str, kept: &str) -> bool {
    hash_of(secret).as_bytes().ct_eq(kept.as_bytes()).to_bool()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_same_is_the_same() {
        assert!(opens("secret", &hash_of("secret")) && !opens(&hash_of("secret"), &hash_of("secret")));
        assert!(!opens("secret", &hash_of("secret")[..63]) && !opens("secret", ""));
    }

    #[test]
    fn a_drawn_secret_is_read_however_it_was_typed() {
        let secret = draw();
        assert_eq!(secret.len(), 29);
        assert_ne!(secret, draw());
        assert_eq!(typed(&secret), Some(secret.clone()));
        assert_eq!(typed(&format!(" {} ", secret.to_lowercase().replace('-', " "))), Some(secret.clone()));
        for wrong in ["", &secret[..28], &secret[..19], &format!("{secret}-BCDF-GHJK"), "é"] {
            assert_eq!(typed(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_secret_is_read_after_its_scheme_and_nothing_else_is() {
        let of = |value: &'static str| {
            let value = axum::http::HeaderValue::from_static(value);
            bearer(&HeaderMap::from_iter([(axum::http::header::AUTHORIZATION, value)]))
        };
        assert_eq!(of("Bearer abc"), Some("abc".to_owned()));
        // RFC 9110, 11.1: the scheme's name is case-insensitive.
        assert_eq!(of("bearer abc"), Some("abc".to_owned()));
        assert_eq!(of("Basic abc"), None);
        assert_eq!(bearer(&HeaderMap::new()), None);
    }
}
