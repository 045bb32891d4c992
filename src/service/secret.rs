//! Secrets that a homeowner's request carries: read from its header, kept and compared as hashes alone.

use axum::http::{HeaderMap, header};
use sha2::{Digest, Sha256};

/// The secret after `Authorization: Bearer`.
pub(super) fn bearer(headers: &HeaderMap) -> Option<&str> {
    headers.get(header::AUTHORIZATION)?.to_str().ok()?.strip_prefix("Bearer ").map(str::trim)
}

/// What is kept of a secret.
pub(super) fn hash_of(secret: &str) -> String {
    hex::encode(Sha256::digest(secret.as_bytes()))
}

/// Whether a secret is the one of which this hash is kept.
pub(super) fn opens(secret: &str, kept: &str) -> bool {
    same(hash_of(secret).as_bytes(), kept.as_bytes())
}

/// Compares in a time that does not tell where the first difference is.
fn same(a: &[u8], b: &[u8]) -> bool {
    a.len() == b.len() && a.iter().zip(b).fold(0, |differs, (a, b)| differs | (a ^ b)) == 0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_same_is_the_same() {
        assert!(same(b"abc", b"abc"));
        assert!(!same(b"abc", b"abd") && !same(b"abc", b"ab") && !same(b"", b"a"));
        assert!(opens("secret", &hash_of("secret")) && !opens(&hash_of("secret"), &hash_of("secret")));
    }
}
