//! The types of the record. Its JSON Schema is generated from them.

use alloc::string::String;
use alloc::vec::Vec;
use engine::assessment::Assessment;
use jiff::civil::Date;
use model::answers::Answers;
use model::answers::choices::words;
#[cfg(feature = "schema")]
use model::answers::schema::{self, not_blank};
use model::config::fields::fields;
use model::units::Probability;
use serde::{Deserialize, Serialize};

/// Hexadecimal digits of a key, and of a hash by SHA-256: this program's choice, and arithmetic.
pub(super) const KEY_DIGITS: usize = 32;
pub(super) const HASH_DIGITS: usize = 64; // arithmetic: 256 bits of four a digit

/// The most photos that one enquiry may list, those added later included: this program's choice.
pub const MOST_PHOTOS: usize = 40;

/// The most bytes that a photo is said to have: far above what any service takes. This program's choice.
pub const MOST_PHOTO_BYTES: u64 = 1 << 30;
/// The most pixels of a photo's side: what a JPEG can say (ITU-T T.81, B.2.2, from memory); a WebP can say less.
pub const LONGEST_SIDE: u32 = 65_535;
/// The most marks on a photo: no form has made any yet, and more could not be told apart. This program's choice.
pub const MOST_MARKS: usize = 40;
/// The most characters of a mark's word: a sentence. This program's choice.
pub const MOST_OF_A_MARK: usize = 200;
/// The most characters of a name that programs give: an installer's id has at most 40, a config's version 16 digits, an engine's fewer. This
/// program's choice.
pub const MOST_OF_A_NAME: usize = 100;
/// The most characters of a time; one of RFC 3339 to the nanosecond has 35. Arithmetic.
pub const MOST_OF_A_TIME: usize = 40;
/// The years in which an enquiry may have been made: a device's clock begins with the first (POSIX, from memory) and is then wrong, not
/// the enquiry; the last is this program's choice.
pub const YEARS: [i16; 2] = [1970, 2199];
/// The same as a regular expression for the beginning of a day.
#[cfg(feature = "schema")]
const IN_THESE_YEARS: &str = "^(19[7-9][0-9]|2[01][0-9][0-9])-";

/// The most characters that each field of a contact may hold.
#[derive(Clone, Copy, Debug)]
pub struct MostSigns {
    /// Of the name.
    pub name: usize,
    /// Of the telephone number.
    pub telephone: usize,
    /// Of the e-mail address.
    pub email: usize,
    /// Of when best.
    pub when: usize,
    /// Of the note.
    pub note: usize,
    /// Of the language's tag.
    pub language: usize,
    /// Of the full address.
    pub address: usize,
    /// Of the supply number.
    pub supply_number: usize,
}

/// This program's choice; 254 is the longest address of a mailbox that can be written to (RFC 5321, from memory), 35 the longest usual
/// tag of a language (RFC 5646 4.4.1, from memory).
pub const MOST_SIGNS: MostSigns = MostSigns {
    name: 100,
    telephone: 40,
    email: 254,
    when: 200,
    note: 2000,
    language: 35,
    address: 400,
    supply_number: 200,
};

/// The version written today.
pub const CURRENT_VERSION: u32 = 1;

/// One enquiry.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transform = super::schema::beyond))]
pub struct Enquiry {
    /// Version of this shape.
    #[cfg_attr(feature = "schema", schemars(extend("const" = CURRENT_VERSION)))]
    pub version: u32,
    /// What a service needs to carry it: always in the clear.
    pub envelope: Envelope,
    /// What it says.
    pub payload: Payload,
}

/// What a service needs to carry an enquiry without reading it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Envelope {
    /// For which installer: its id.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_OF_A_NAME)))]
    pub installer: String,
    /// Made once by the form, 32 hexadecimal digits: sent twice it is one enquiry.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = super::schema::hex(KEY_DIGITS))))]
    pub client_key: String,
    /// SHA-256 of the secret with which the homeowner may delete it, in hexadecimal.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = super::schema::hex(HASH_DIGITS))))]
    pub deletion_hash: String,
    /// SHA-256 of the secret with which photos may be added later, in hexadecimal; it opens nothing else.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = super::schema::hex(HASH_DIGITS))))]
    pub addition_hash: Option<String>,
    /// Bytes of each photo, in the payload's order.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_PHOTOS), inner(range(max = MOST_PHOTO_BYTES))))]
    pub photo_sizes: Vec<u64>,
    /// Given by the service: what a homeowner reads out on the telephone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<Reference>,
    /// Given by the service: when it was received, RFC 3339, UTC.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_OF_A_TIME)))]
    pub received: Option<String>,
    /// Given by the service: the day after which it is deleted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<model::answers::schema::Day>"))]
    #[serde(with = "model::answers::day::option")]
    pub keep_until: Option<Date>,
}

/// What an enquiry says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Payload {
    /// Who asks.
    pub contact: Contact,
    /// What was said.
    #[cfg_attr(feature = "schema", schemars(extend("properties" = super::schema::day_of_answers(IN_THESE_YEARS))))]
    pub answers: Answers,
    /// What the form made of it; left out where it was sent before the engine had come. Who receives it works it out again, and so an
    /// assessment of another version that can't be read is no reason to refuse what was said.
    #[cfg_attr(feature = "schema", schemars(extend("anyOf" = super::schema::assessment_or_another())))]
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub assessment: Option<Assessment>,
    /// The photos.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_PHOTOS)))]
    pub photos: Vec<Photo>,
    /// The day the assessment speaks of; without one, the day it was sent on.
    #[cfg_attr(feature = "schema", schemars(with = "model::answers::schema::Day", extend("pattern" = IN_THESE_YEARS)))]
    #[serde(with = "model::answers::day")]
    pub as_of: Date,
    /// Version of the engine that assessed it; without an assessment, of the form.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_OF_A_NAME)))]
    pub engine: String,
    /// Version of the config it was assessed with, or would have been.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_OF_A_NAME)))]
    pub config: String,
}

/// Reads an assessment, or `None` in place of one that this version can't read.
struct AsFarAsReadable(Option<Assessment>);

impl<'de> Deserialize<'de> for AsFarAsReadable {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Sent {
            Readable(alloc::boxed::Box<Assessment>),
            Other(serde::de::IgnoredAny),
        }
        Ok(Self(match Option::<Sent>::deserialize(deserializer)? {
            Some(Sent::Readable(assessment)) => Some(*assessment),
            Some(Sent::Other(_)) | None => None,
        }))
    }
}

fields!(Enquiry { version, envelope, payload });
fields!(Envelope { installer, client_key, deletion_hash, addition_hash default, photo_sizes, reference default, received default, keep_until maybe_day });
fields!(Payload { contact, answers, assessment of AsFarAsReadable, photos, as_of day, engine, config });
fields!(Contact { name, telephone default, email default, reach default, when default, note default, language default, address default, supply_number default, consent default, offers default, copy default });
fields!(Photo { sha256, place, width, height, marks default });
fields!(Mark { across, down, says });

words! {
    /// How they would like to be reached.
    pub enum Reach {
        /// By telephone.
        Telephone => "telephone",
        /// By text message.
        Message => "message",
        /// By e-mail.
        Email => "email",
    }
}

/// Who asks; only what is needed to answer.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transform = super::schema::can_be_answered))]
pub struct Contact {
    /// Name.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.name), extend("pattern" = not_blank())))]
    pub name: String,
    /// Telephone, if given.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.telephone)))]
    pub telephone: String,
    /// E-mail, if given.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.email)))]
    pub email: String,
    /// How best.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reach: Option<Reach>,
    /// When best, in their words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.when)))]
    pub when: String,
    /// Anything else, in their words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.note)))]
    pub note: String,
    /// The language in which they filled it in (BCP 47), if that was not English.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.language)))]
    pub language: String,
    /// The home's full address, for the network operator's form; optional.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.address)))]
    pub address: String,
    /// The supply number (MPAN) as they typed it off a bill, for the same form; optional. What does not hold is queried, never refused.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIGNS.supply_number)))]
    pub supply_number: String,
    /// That they ticked what earlier forms asked for: to be answered with what they sent. An enquiry is taken with it and without.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub consent: bool,
    /// That the installer may send them offers later: ticked by themselves, and asked only where the setup wants that.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub offers: bool,
    /// That they wish a copy of what they sent by mail: ticked by themselves, and asked only where the service mails one.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub copy: bool,
}

impl Contact {
    /// The contact in the fields that a service of version 0.2.0 or earlier knows. The address and the supply number go to the end of the
    /// note, each after its name as given (`address`, `supply_number`). `consent` is set, because such a service refuses an enquiry without
    /// it; `offers` and `copy`, which it does not know, are cleared.
    #[must_use]
    pub fn in_older_fields(mut self, address: &str, supply_number: &str) -> Self {
        let newer =
            [(address, core::mem::take(&mut self.address)), (supply_number, core::mem::take(&mut self.supply_number))];
        for (name, value) in newer.iter().filter(|(_, value)| !value.is_empty()) {
            if !self.note.is_empty() {
                self.note.push('\n');
            }
            self.note.push_str(&[name, ": ", value.as_str()].concat());
        }
        Self { consent: true, offers: false, copy: false, ..self }
    }
}

words! {
    /// What a photo shows.
    pub enum PhotoPlace {
        /// Where the car would stand.
        Parking => "parking",
        /// Meter and service head.
        Meter => "meter",
        /// The board.
        Board => "board",
        /// Anything else.
        Other => "other",
        /// Where pipes come in.
        Pipes => "pipes",
    }
}

/// A photo that belongs to an enquiry; its bytes travel apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Photo {
    /// SHA-256 of its bytes, in hexadecimal: also its name.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = super::schema::hex(HASH_DIGITS))))]
    pub sha256: String,
    /// What it shows.
    pub place: PhotoPlace,
    /// Pixels across.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = LONGEST_SIDE)))]
    pub width: u32,
    /// Pixels down.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = LONGEST_SIDE)))]
    pub height: u32,
    /// What the homeowner marked.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_MARKS)))]
    pub marks: Vec<Mark>,
}

/// A mark on a photo: a spot as shares of width and height from the top left, and a word.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Mark {
    /// Across.
    pub across: Probability,
    /// Down.
    pub down: Probability,
    /// What is there.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_OF_A_MARK)))]
    pub says: String,
}

/// A reference that can be read out on the telephone: two groups of four characters, out of 24 that are not mistaken for each other.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Reference(String);

impl Reference {
    /// Its characters: no vowels, so that no words arise, and no `0 O 1 I L 5 S`, which are mistaken when read out or written.
    pub const SIGNS: &'static [u8; 24] = b"BCDFGHJKMNPQRTVWXZ234678";

    /// Makes a reference out of random bits, of which fewer than forty count. It may be in use already: a service then draws again.
    #[must_use]
    pub fn from_bits(mut bits: u64) -> Self {
        let base = Self::SIGNS.len() as u64;
        let mut text = String::with_capacity(9);
        for at in 0..8 {
            if at == 4 {
                text.push('-');
            }
            text.push(char::from(Self::SIGNS[(bits % base) as usize]));
            bits /= base;
        }
        Self(text)
    }

    /// Reads a reference however it was typed: spaces, hyphens and lower case are accepted. `None` for anything that is no reference.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let signs: String =
            text.chars().filter(|c| !c.is_whitespace() && *c != '-').map(|c| c.to_ascii_uppercase()).collect();
        let allowed = signs.len() == 8 && signs.bytes().all(|sign| Self::SIGNS.contains(&sign));
        allowed.then(|| Self(alloc::format!("{}-{}", &signs[..4], &signs[4..])))
    }

    /// The reference as it is shown: `BCDF-GHJK`.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Reference {
    fn schema_name() -> alloc::borrow::Cow<'static, str> {
        "Reference".into()
    }

    /// A pattern for all that [`Reference::read`] accepts.
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let between = schema::signs(|sign| sign.is_whitespace() || sign == '-');
        let sign =
            schema::signs(|sign| u8::try_from(sign.to_ascii_uppercase()).is_ok_and(|s| Self::SIGNS.contains(&s)));
        let pattern = alloc::format!("^([{between}]*[{sign}]){{8}}[{between}]*$");
        schemars::json_schema!({ "type": "string", "pattern": pattern })
    }
}

impl<'de> Deserialize<'de> for Reference {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::read(&text).ok_or_else(|| {
            serde::de::Error::custom("this reference is not allowed; it may be two groups of four letters and digits")
        })
    }
}

words! {
    /// What an enquiry became, of which an installer has to keep records.
    pub enum Became {
        /// A quotation that was accepted.
        Quotation => "quotation",
        /// An invoice.
        Invoice => "invoice",
        /// A certificate of the installation.
        Certificate => "certificate",
    }
}

#[cfg(test)]
mod tests {
    use super::{Contact, Reference};
    use alloc::string::ToString;

    /// The fields that version 0.1.0 wrote of a contact.
    #[test]
    fn an_older_service_is_told_in_its_own_fields_and_nothing_is_lost() {
        let known = ["name", "telephone", "email", "reach", "when", "note", "language", "consent"];
        let contact = Contact {
            name: "Invented Person".into(),
            note: "two\nlines".into(),
            address: "1 Invented Street\nZZ1 1AA".into(),
            supply_number: "1012345678903".into(),
            ..Contact::default()
        };
        let older = contact.in_older_fields("Address", "Supply number");
        assert!(older.consent && older.address.is_empty() && older.supply_number.is_empty() && !older.offers);
        let written = serde_json::to_value(&older).unwrap();
        assert!(written.as_object().unwrap().keys().all(|key| known.contains(&key.as_str())), "{written}");
        assert_eq!(older.note, "two\nlines\nAddress: 1 Invented Street\nZZ1 1AA\nSupply number: 1012345678903");
        let nothing = Contact::default().in_older_fields("a", "b");
        assert_eq!(nothing, Contact { consent: true, ..Contact::default() });
        assert!(
            !serde_json::to_value(Contact::default()).unwrap().to_string().contains("address"),
            "absent when empty"
        );
    }

    #[test]
    fn a_reference_is_read_back_however_it_is_typed() {
        let reference = Reference::from_bits(0x0123_4567_89ab_cdef);
        assert_eq!(reference.as_str().len(), 9);
        let spoken = reference.as_str().to_lowercase().replace('-', " ");
        assert_eq!(Reference::read(&spoken), Some(reference));
        assert_eq!(Reference::read("AAAA-AAAA"), None);
    }
}
