//! Secrets that a homeowner's request carries: read from its header, kept and compared as hashes alone.

use axum::http::HeaderMap;
use ctutils::CtEq;
use headers::HeaderMapExt;
use headers::authorization::{Authorization, Bearer};
use sha2::{Digest, Sha256};

/// The secret after `Authorization: Bearer`; `None` without such a header.
pub(super) fn bearer(headers: &HeaderMap) -> Option<String> {
    headers.typed_get::<Authorization<Bearer>>().map(|said| said.token().trim().to_owned())
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
