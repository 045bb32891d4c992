//! A plain form posted whole (multipart/form-data), turned into the record that the form's own script would have sent.
//!
//! For visitors without a script: the fields of a mail form, photos as files. Everything is read and checked before anything is stored. If
//! a part `enquiry` holds the record itself, the other fields only repeat it for people and are not read.

use super::error::{Field as Wrong, Refusal};
use super::limits::{ENQUIRY_BYTES, FORM_BYTES, PHOTO_BYTES};
use super::picture::{PictureKind, check_picture, jpeg_size};
use super::{Service, secret, store};
use axum::body::Bytes;
use axum::extract::Multipart;
use axum::extract::multipart::{Field, MultipartError};
use axum::http::StatusCode;
use engine::assessment::ENGINE;
use model::answers::{AnswerKind, Answers, RawAnswer, Word};
use model::questions::{Question, question};
use record::enquiry::{
    CURRENT_VERSION, Contact, Enquiry, Envelope, MOST_PHOTOS, Payload, Photo, PhotoPlace, Reach, is_hex,
};
use sha2::{Digest, Sha256};

/// The fields that a form may hold.
const FIELDS: [&str; 18] = [
    "name",
    "telephone",
    "email",
    "reach",
    "when",
    "note",
    "address",
    "supply_number",
    "postcode",
    "hazard",
    "hazard-when",
    "hazard-place",
    "consent",
    "offers",
    "summary",
    "enquiry",
    "photo",
    "client_key",
];

/// A form, read and checked: the record as it is to be stored, and its photos.
pub(super) struct Letter {
    pub(super) record: Vec<u8>,
    pub(super) photos: Vec<Arrived>,
}

/// A photo that came with a form.
pub(super) struct Arrived {
    pub(super) sha256: String,
    pub(super) bytes: Bytes,
    width: u32,
    height: u32,
}

/// What was read from the fields.
#[derive(Default)]
struct Said {
    contact: Contact,
    answers: Answers,
    hazards: Vec<String>,
    client_key: Option<String>,
    record: Option<Bytes>,
    photos: Vec<Arrived>,
}

/// Reads and checks a form.
///
/// # Errors
/// [`Refusal`], naming the field and what it may be.
pub(super) async fn read(service: &Service, mut form: Multipart) -> Result<Letter, Refusal> {
    let mut said = Said::default();
    while let Some(field) = form.next_field().await.map_err(not_read)? {
        // Some website hosts want the name of a repeatable field to end in `[]`.
        let name = field.name().unwrap_or_default().trim_end_matches("[]").to_owned();
        match name.as_str() {
            "photo" => {
                let bytes = whole(field, PHOTO_BYTES).await?;
                // A browser sends an empty file if none was chosen.
                if !bytes.is_empty() {
                    said.photos.push(photo(bytes, said.photos.len() + 1)?);
                }
            }
            "enquiry" => said.record = Some(whole(field, ENQUIRY_BYTES).await?),
            _ => {
                let text = whole(field, ENQUIRY_BYTES).await?;
                let text = str::from_utf8(&text).map_err(|_| Refusal::field(&name, "this is not text in UTF-8"))?;
                take(&mut said, &name, text.trim())?;
            }
        }
    }
    if said.photos.len() > MOST_PHOTOS {
        return Err(Refusal::field("photo", format!("there may be at most {MOST_PHOTOS}")));
    }
    let record = match said.record.take() {
        Some(record) => record.to_vec(),
        None => written(service, &mut said)?,
    };
    let enquiry = store::read(&record).map_err(by_field)?;
    let listed = |photo: &Arrived| enquiry.payload.photos.iter().any(|listed| listed.sha256 == photo.sha256);
    match said.photos.iter().position(|photo| !listed(photo)) {
        Some(at) => {
            Err(Refusal::field("photo", format!("photo {} is not one that the enquiry beside it lists", at + 1)))
        }
        None => Ok(Letter { record, photos: said.photos }),
    }
}

/// Takes one field of text into `said`.
fn take(said: &mut Said, name: &str, text: &str) -> Result<(), Refusal> {
    let contact = &mut said.contact;
    let line = match name {
        "name" => &mut contact.name,
        "telephone" => &mut contact.telephone,
        "email" => &mut contact.email,
        "when" => &mut contact.when,
        "note" => &mut contact.note,
        "address" => &mut contact.address,
        "supply_number" => &mut contact.supply_number,
        "language" => &mut contact.language,
        // Fields that earlier forms sent; accepted, but nothing needs them.
        "consent" => {
            contact.consent = text == "yes";
            return Ok(());
        }
        "offers" => {
            contact.offers = text == "yes";
            return Ok(());
        }
        "reach" => {
            contact.reach = Some(text)
                .filter(|text| !text.is_empty())
                .map(|text| word(name, Reach::WORDS, text))
                .transpose()?
                .map(|at| Reach::ALL[at]);
            return Ok(());
        }
        "hazard" => {
            said.hazards.push(text.to_owned());
            return Ok(());
        }
        "postcode" | "hazard-when" | "hazard-place" if text.is_empty() => return Ok(()),
        "postcode" | "hazard-when" | "hazard-place" => return answer(&mut said.answers, name, text),
        "client_key" if text.is_empty() => return Ok(()),
        "client_key" if is_hex(text, 32) => {
            said.client_key = Some(text.to_owned());
            return Ok(());
        }
        "client_key" => {
            return Err(Refusal::field(name, "it may be 32 hexadecimal digits, drawn once for each enquiry"));
        }
        // Meant for whoever reads the mail; the record says the same.
        "summary" => return Ok(()),
        other => {
            let other: String = other.chars().take(60).collect();
            return Err(Refusal::field(other, format!("there is no such field; there may be {}", FIELDS.join(", "))));
        }
    };
    text.clone_into(line);
    Ok(())
}

/// One answer, in the words of an answers file.
fn answer(answers: &mut Answers, id: &str, text: &str) -> Result<(), Refusal> {
    let question = known(id);
    let given = match question.kind {
        _ if text == "not-sure" => RawAnswer::NotSure,
        AnswerKind::One(words) => {
            RawAnswer::One(u8::try_from(word(id, words, text)?).expect("the longest list has thirty words"))
        }
        _ => RawAnswer::Line(text.to_owned()),
    };
    if (question.set)(answers, &given) {
        Ok(())
    } else {
        Err(Refusal::field(id, "it may look like ZZ1 1AA, or its first half"))
    }
}

/// The hazards that were ticked: no field is a question not answered, `none` that there were none.
fn hazards(answers: &mut Answers, ticked: &[String]) -> Result<(), Refusal> {
    let question = known("hazard");
    let AnswerKind::Any(words) = question.kind else { unreachable!("hazards are a list of words") };
    let given = match ticked {
        [] => return Ok(()),
        [one] if one == "none" => RawAnswer::Any(0),
        some if some.iter().any(|word| word == "not-sure") => RawAnswer::NotSure,
        some => {
            let named = some.iter().filter(|word| *word != "none");
            RawAnswer::Any(
                named
                    .map(|text| word("hazard", words, text))
                    .try_fold(0, |bits, at| Ok::<_, Refusal>(bits | 1 << at?))?,
            )
        }
    };
    (question.set)(answers, &given);
    Ok(())
}

fn known(id: &str) -> &'static Question {
    question(id).expect("a test checks that the catalogue has every name above")
}

fn word(field: &str, words: &[&str], text: &str) -> Result<usize, Refusal> {
    words.iter().position(|word| *word == text).ok_or_else(|| {
        let text: String = text.chars().take(60).collect();
        Refusal::field(field, format!("{text:?} is not allowed; it may be {}", words.join(", ")))
    })
}

fn photo(bytes: Bytes, number: usize) -> Result<Arrived, Refusal> {
    let refuse = |why: String| Refusal::field("photo", format!("photo {number}: {why}"));
    let kind = check_picture(&bytes).map_err(|why| refuse(why.to_string()))?;
    let size = jpeg_size(&bytes).filter(|_| kind == PictureKind::Jpeg);
    let (width, height) = size.ok_or_else(|| refuse("it may be a JPEG picture".into()))?;
    Ok(Arrived { sha256: hex::encode(Sha256::digest(&bytes)), bytes, width, height })
}

/// The record made of the fields. It has no assessment: the service makes its own of every record.
fn written(service: &Service, said: &mut Said) -> Result<Vec<u8>, Refusal> {
    let config = &service.config.config;
    hazards(&mut said.answers, &said.hazards)?;
    let today = store::day_of(store::now());
    said.answers.as_of = Some(today);
    let photos = said.photos.iter().map(|photo| Photo {
        sha256: photo.sha256.clone(),
        place: PhotoPlace::Other,
        width: photo.width,
        height: photo.height,
        marks: Vec::new(),
    });
    let enquiry = Enquiry {
        version: CURRENT_VERSION,
        envelope: Envelope {
            installer: config.installer.id.clone(),
            client_key: said.client_key.take().unwrap_or_else(|| hex::encode(rand::random::<[u8; 16]>())),
            // Nobody knows this secret: a plain form has nowhere to keep one.
            deletion_hash: secret::hash_of(&hex::encode(rand::random::<[u8; 16]>())),
            addition_hash: None,
            photo_sizes: said.photos.iter().map(|photo| photo.bytes.len() as u64).collect(),
            reference: None,
            received: None,
            keep_until: None,
        },
        payload: Payload {
            contact: said.contact.clone(),
            answers: said.answers.clone(),
            assessment: None,
            photos: photos.collect(),
            as_of: today,
            engine: ENGINE.to_owned(),
            config: config.version.clone(),
        },
    };
    Ok(store::json_of(&enquiry).into_bytes())
}

async fn whole(field: Field<'_>, most: usize) -> Result<Bytes, Refusal> {
    let bytes = field.bytes().await.map_err(not_read)?;
    if bytes.len() > most { Err(Refusal::TooLarge { most }) } else { Ok(bytes) }
}

fn not_read(why: MultipartError) -> Refusal {
    if why.status() == StatusCode::PAYLOAD_TOO_LARGE {
        Refusal::TooLarge { most: FORM_BYTES }
    } else {
        Refusal::NotAForm(why.body_text())
    }
}

/// A record's path as the form's own field.
fn by_field(refusal: Refusal) -> Refusal {
    match refusal {
        Refusal::NotAllowed(fields) => Refusal::NotAllowed(
            fields
                .into_iter()
                .map(|Wrong { path, message }| {
                    let own = path.strip_prefix("payload.contact.").unwrap_or(&path).to_owned();
                    Wrong { path: own, message }
                })
                .collect(),
        ),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fields_that_are_questions_are_of_the_catalogue() {
        let mut answers = Answers::default();
        for (id, text) in
            [("postcode", "ZZ1"), ("hazard-when", "long-ago"), ("hazard-place", "meter"), ("hazard-place", "not-sure")]
        {
            answer(&mut answers, id, text).unwrap();
            assert_ne!((known(id).get)(&answers), RawAnswer::Nothing);
        }
        assert!(answer(&mut answers, "hazard-place", "roof").unwrap_err().to_string().contains("service-head"));
    }

    #[test]
    fn hazards_are_one_answer() {
        let of = |ticked: &[&str]| {
            let mut answers = Answers::default();
            let ticked: Vec<String> = ticked.iter().map(|word| (*word).to_owned()).collect();
            hazards(&mut answers, &ticked).map(|()| answers.hazard.signs)
        };
        use model::answers::{Answer, HazardSign, Set};
        assert_eq!(of(&[]).unwrap(), Answer::NotAsked);
        assert_eq!(of(&["none"]).unwrap(), Answer::Known(Set::NONE));
        assert_eq!(of(&["not-sure", "smoke"]).unwrap(), Answer::NotSure);
        assert_eq!(of(&["none", "smoke"]).unwrap(), Answer::Known(Set::of(&[HazardSign::Smoke])));
        assert!(of(&["a bad feeling"]).unwrap_err().to_string().contains("buzzing"));
    }
}
