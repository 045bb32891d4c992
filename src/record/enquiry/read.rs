//! Reading a record from JSON: the current version by its types, an older one by a reader of its own. Anything else is refused with an
//! error that says what is wrong and where.

use super::record::{CURRENT_VERSION, Enquiry, HASH_DIGITS, KEY_DIGITS, MOST_PHOTOS, MOST_SIGNS};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Deserialize;

/// Why a record cannot be opened.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EnquiryError {
    /// It is not JSON, or not of this shape.
    #[error("{0}")]
    Shape(String),
    /// It was written by a newer program.
    #[error(
        "`version`: {0} is newer than this program can read; it may be up to {CURRENT_VERSION}: a newer program opens it"
    )]
    Newer(u64),
    /// A field holds something that is not allowed.
    #[error("`{field}`: {given} is not allowed; it may be {allowed}")]
    NotAllowed {
        /// Path of the field.
        field: &'static str,
        /// What stands there, cut to its beginning.
        given: String,
        /// What is allowed there.
        allowed: &'static str,
    },
}

/// The one field that every version has.
#[derive(Deserialize)]
struct Versioned {
    version: u64,
}

/// Reads a record of any known version and checks its bounds; an older one is returned as a record of the current version.
///
/// # Errors
/// [`EnquiryError`]: not JSON, not of this shape, of a newer version, or a field that holds what is not allowed.
pub fn read_enquiry(json: &[u8]) -> Result<Enquiry, EnquiryError> {
    let Versioned { version } = parse(json)?;
    let enquiry = match version {
        0 => version_0::read(json)?,
        1 => parse(json)?,
        newer => return Err(EnquiryError::Newer(newer)),
    };
    check(&enquiry)?;
    Ok(enquiry)
}

/// Parses JSON by the type; with the standard library an error names the field's path and the line.
#[cfg(feature = "std")]
fn parse<'a, T: Deserialize<'a>>(json: &'a [u8]) -> Result<T, EnquiryError> {
    let mut reader = serde_json::Deserializer::from_slice(json);
    let value = serde_path_to_error::deserialize(&mut reader)
        .map_err(|error| EnquiryError::Shape(alloc::format!("`{}`: {}", error.path(), error.inner())))?;
    reader.end().map_err(|error| EnquiryError::Shape(error.to_string()))?;
    Ok(value)
}

#[cfg(not(feature = "std"))]
fn parse<'a, T: Deserialize<'a>>(json: &'a [u8]) -> Result<T, EnquiryError> {
    serde_json::from_slice(json).map_err(|error| EnquiryError::Shape(error.to_string()))
}

/// Checks the bounds that the types alone do not express.
fn check(enquiry: &Enquiry) -> Result<(), EnquiryError> {
    let refuse = |field, given: &str, allowed| {
        let given = alloc::format!("{:?}", given.chars().take(60).collect::<String>());
        Err(EnquiryError::NotAllowed { field, given, allowed })
    };
    let (envelope, payload) = (&enquiry.envelope, &enquiry.payload);
    if !is_hex(&envelope.client_key, KEY_DIGITS) {
        return refuse("envelope.client_key", &envelope.client_key, "32 hexadecimal digits");
    }
    if !is_hex(&envelope.deletion_hash, HASH_DIGITS) {
        return refuse("envelope.deletion_hash", &envelope.deletion_hash, "64 hexadecimal digits");
    }
    if let Some(hash) = envelope.addition_hash.as_ref().filter(|hash| !is_hex(hash, HASH_DIGITS)) {
        return refuse("envelope.addition_hash", hash, "64 hexadecimal digits");
    }
    if envelope.photo_sizes.len() != payload.photos.len() {
        return refuse("envelope.photo_sizes", &envelope.photo_sizes.len().to_string(), "one size for each photo");
    }
    if payload.photos.len() > MOST_PHOTOS {
        return refuse("payload.photos", &payload.photos.len().to_string(), "at most 40 photos");
    }
    for photo in &payload.photos {
        if !is_hex(&photo.sha256, HASH_DIGITS) {
            return refuse("payload.photos.sha256", &photo.sha256, "64 hexadecimal digits");
        }
    }
    let contact = &payload.contact;
    for (field, text, most) in [
        ("payload.contact.name", &contact.name, MOST_SIGNS.name),
        ("payload.contact.telephone", &contact.telephone, MOST_SIGNS.telephone),
        ("payload.contact.email", &contact.email, MOST_SIGNS.email),
        ("payload.contact.when", &contact.when, MOST_SIGNS.when),
        ("payload.contact.note", &contact.note, MOST_SIGNS.note),
        ("payload.contact.language", &contact.language, MOST_SIGNS.language),
        ("payload.contact.address", &contact.address, MOST_SIGNS.address),
        ("payload.contact.supply_number", &contact.supply_number, MOST_SIGNS.supply_number),
    ] {
        if text.chars().count() > most {
            return refuse(field, text, "shorter than that");
        }
    }
    if contact.name.trim().is_empty() {
        return refuse("payload.contact.name", &contact.name, "a name");
    }
    if contact.telephone.trim().is_empty() && contact.email.trim().is_empty() {
        return refuse("payload.contact.telephone", "", "a telephone number or an e-mail address");
    }
    Ok(())
}

/// Whether a text is exactly `digits` lower-case hexadecimal digits.
#[must_use]
pub fn is_hex(text: &str, digits: usize) -> bool {
    text.len() == digits && text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b))
}

/// Version 0, from before the envelope and the payload were separate and before photos had marks. A pattern for the reader of each later
/// version that is superseded.
mod version_0 {
    use super::{EnquiryError, Vec, parse};
    use crate::enquiry::record::{CURRENT_VERSION, Contact, Enquiry, Envelope, Payload, Photo, PhotoPlace};
    use alloc::string::String;
    use engine::assessment::Assessment;
    use model::answers::Answers;
    use serde::Deserialize;

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Old {
        #[serde(rename = "version")]
        _version: u32,
        installer: String,
        key: String,
        deletion_hash: String,
        contact: Contact,
        answers: Answers,
        assessment: Assessment,
        photos: Vec<OldPhoto>,
    }

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct OldPhoto {
        sha256: String,
        bytes: u64,
        width: u32,
        height: u32,
    }

    pub(super) fn read(json: &[u8]) -> Result<Enquiry, EnquiryError> {
        let old: Old = parse(json)?;
        Ok(Enquiry {
            version: CURRENT_VERSION,
            envelope: Envelope {
                installer: old.installer,
                client_key: old.key,
                deletion_hash: old.deletion_hash,
                addition_hash: None,
                photo_sizes: old.photos.iter().map(|photo| photo.bytes).collect(),
                reference: None,
                received: None,
                keep_until: None,
            },
            payload: Payload {
                contact: old.contact,
                answers: old.answers,
                as_of: old.assessment.as_of,
                engine: old.assessment.engine.clone(),
                config: old.assessment.config.clone(),
                assessment: Some(old.assessment),
                photos: old
                    .photos
                    .into_iter()
                    .map(|photo| Photo {
                        sha256: photo.sha256,
                        place: PhotoPlace::Other,
                        width: photo.width,
                        height: photo.height,
                        marks: Vec::new(),
                    })
                    .collect(),
            },
        })
    }
}
