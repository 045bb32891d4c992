//! Random secrets and SHA-256 digests.

use crate::widget::state::Secrets;
use gloo::utils::window;
use js_sys::Uint8Array;
use wasm_bindgen_futures::JsFuture;

/// Draws an enquiry's key and secrets at random; `None` where the browser offers no random numbers. `adds` says whether the enquiry goes to
/// a service that lets photos be added later: only then is there a secret for that.
#[must_use]
pub fn make_secrets(adds: bool) -> Option<Secrets> {
    let crypto = window().crypto().ok()?;
    let draw = || {
        let mut bytes = [0_u8; 16];
        crypto.get_random_values_with_u8_array(&mut bytes).ok().map(|_| hex(&bytes))
    };
    Some(Secrets { client_key: draw()?, deletion: draw()?, addition: if adds { draw()? } else { String::new() } })
}

/// The SHA-256 of some bytes in hexadecimal; `None` where the page was not served over a secure connection.
pub async fn sha256(bytes: &[u8]) -> Option<String> {
    if !window().is_secure_context() {
        return None;
    }
    let subtle = window().crypto().ok()?.subtle();
    let digest = subtle.digest_with_str_and_js_u8_array("SHA-256", &Uint8Array::from(bytes)).ok()?;
    let digest = JsFuture::from(digest).await.ok()?;
    Some(hex(&Uint8Array::new(&digest).to_vec()))
}

fn hex(bytes: &[u8]) -> String {
    let digit = |half: u8| char::from(b"0123456789abcdef"[usize::from(half)]);
    bytes.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

#[cfg(test)]
mod tests {
    #[test]
    fn hexadecimal_is_two_small_digits_a_byte() {
        assert_eq!(super::hex(&[0, 15, 16, 255]), "000f10ff");
    }
}
