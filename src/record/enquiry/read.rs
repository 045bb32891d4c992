//! Reading a record from JSON: the current version by its types, an older one by a reader of its own. Anything else is refused with an
//! error that says what is wrong and where.

use super::record::{
    CURRENT_VERSION, Enquiry, HASH_DIGITS, KEY_DIGITS, LONGEST_SIDE, MOST_MARKS, MOST_OF_A_MARK, MOST_OF_A_NAME,
    MOST_OF_A_TIME, MOST_PHOTO_BYTES, MOST_PHOTOS, MOST_SIGNS, Photo, YEARS,
};
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

/// Reads a record of any known version and checks its bounds; an older one is returned as a record of the current version. Control characters
/// are left out of its texts.
///
/// # Errors
/// [`EnquiryError`]: not JSON, not of this shape, of a newer version, or a field that holds what is not allowed.
pub fn read_enquiry(json: &[u8]) -> Result<Enquiry, EnquiryError> {
    let enquiry = read_any(json)?;
    check_lengths(&enquiry)?;
    Ok(plain(enquiry))
}

/// Reads a record that was accepted before, perhaps by an earlier version, which checked less: what was kept must open.
///
/// # Errors
/// As for [`read_enquiry`], without the bounds that came later.
pub fn read_kept_enquiry(json: &[u8]) -> Result<Enquiry, EnquiryError> {
    read_any(json).map(plain)
}

fn read_any(json: &[u8]) -> Result<Enquiry, EnquiryError> {
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

fn refuse(field: &'static str, given: &str, allowed: &'static str) -> Result<(), EnquiryError> {
    let given = alloc::format!("{:?}", given.chars().take(60).collect::<String>());
    Err(EnquiryError::NotAllowed { field, given, allowed })
}

/// Checks the counts, lengths and days that records have had bounds for since they come from strangers: each is well above what any form
/// sent.
fn check_lengths(enquiry: &Enquiry) -> Result<(), EnquiryError> {
    let (envelope, payload) = (&enquiry.envelope, &enquiry.payload);
    for (field, text) in [
        ("envelope.installer", &envelope.installer),
        ("payload.engine", &payload.engine),
        ("payload.config", &payload.config),
    ] {
        if text.chars().count() > MOST_OF_A_NAME {
            return refuse(field, text, "at most 100 characters");
        }
    }
    if let Some(received) = envelope.received.as_ref().filter(|text| text.chars().count() > MOST_OF_A_TIME) {
        return refuse("envelope.received", received, "at most 40 characters");
    }
    if let Some(size) = envelope.photo_sizes.iter().find(|size| **size > MOST_PHOTO_BYTES) {
        return refuse("envelope.photo_sizes", &size.to_string(), "at most a gigabyte for each photo");
    }
    for (field, day) in [("payload.as_of", Some(payload.as_of)), ("payload.answers.as_of", payload.answers.as_of)] {
        if let Some(day) = day.filter(|day| !(YEARS[0]..=YEARS[1]).contains(&day.year())) {
            return refuse(field, &day.to_string(), "a day from 1970 to 2199");
        }
    }
    for photo in &payload.photos {
        check_photo(photo)?;
    }
    Ok(())
}

/// Checks what is said of a photo: its sides, and how many marks it has and how long they are.
///
/// # Errors
/// [`EnquiryError::NotAllowed`].
pub fn check_photo(photo: &Photo) -> Result<(), EnquiryError> {
    let Photo { width, height, marks, .. } = photo;
    for (field, side) in [("payload.photos.width", width), ("payload.photos.height", height)] {
        if !(1..=LONGEST_SIDE).contains(side) {
            return refuse(field, &side.to_string(), "1 to 65535 pixels");
        }
    }
    if marks.len() > MOST_MARKS {
        return refuse("payload.photos.marks", &marks.len().to_string(), "at most 40 marks");
    }
    match marks.iter().find(|mark| mark.says.chars().count() > MOST_OF_A_MARK) {
        Some(mark) => refuse("payload.photos.marks.says", &mark.says, "at most 200 characters"),
        None => Ok(()),
    }
}

/// The record without control characters in its texts: nobody types them, and what shows or sends a text on may take them for its own. Lines
/// stay in a note and in an address; elsewhere a new one becomes a space.
fn plain(mut enquiry: Enquiry) -> Enquiry {
    let (envelope, payload) = (&mut enquiry.envelope, &mut enquiry.payload);
    let contact = &mut payload.contact;
    for text in [&mut contact.note, &mut contact.address] {
        text.retain(|sign| matches!(sign, '\n' | '\t') || !sign.is_control());
    }
    let lines = [
        &mut contact.name,
        &mut contact.telephone,
        &mut contact.email,
        &mut contact.when,
        &mut contact.language,
        &mut contact.supply_number,
        &mut envelope.installer,
        &mut payload.engine,
        &mut payload.config,
    ];
    let says = payload.photos.iter_mut().flat_map(|photo| photo.marks.iter_mut().map(|mark| &mut mark.says));
    for text in lines.into_iter().chain(says).chain(&mut envelope.received) {
        if text.chars().any(char::is_control) {
            *text = text.chars().map(|sign| if matches!(sign, '\n' | '\r' | '\t') { ' ' } else { sign }).collect();
            text.retain(|sign| !sign.is_control());
        }
    }
    enquiry
}

/// Checks the bounds that the types alone do not express.
fn check(enquiry: &Enquiry) -> Result<(), EnquiryError> {
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
