//! The demo's enquiries: invented homes with invented people, received in the same way as real ones.
//!
//! Telephone numbers are from the ranges that Ofcom keeps for drama (01632 960000 to 960999, 07700 900000 to 900999), postcodes from an
//! area that does not exist, and the "photos" are labelled drawings (`drawings/draw.py`).

use super::error::Refusal;
use super::photos;
use super::picture::PictureKind;
use super::{Service, store};
use engine::assessment::assess;
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use model::answers::Answers;
use model::config::Config;
use record::enquiry::{CURRENT_VERSION, Contact, Enquiry, Envelope, Mark, Payload, Photo, PhotoPlace};
use serde::Deserialize;
use sha2::{Digest, Sha256};

/// The size of every drawing, in pixels.
const SIZE: (u32, u32) = (640, 480);

macro_rules! homes {
    ($($name:literal)+) => { [$(include_str!(concat!("homes/", $name, ".json")),)+] };
}

const HOMES: [&str; 10] = homes! {
    "01-detached-plain" "02-semi-some-not-sure" "03-lawn-to-garage" "04-full-board" "05-terrace-looped"
    "06-flat-leased" "07-scorch-marks" "08-counts-contradict" "09-much-in-use" "10-hazard-not-sure"
};

macro_rules! drawings {
    ($($name:literal)+) => { [$(($name, include_bytes!(concat!("drawings/", $name, ".jpg"))),)+] };
}

const DRAWINGS: [(&str, &[u8]); 11] = drawings! {
    "drive" "drive-paving" "drive-lawn" "car-park" "head-plain" "head-four" "head-three-two"
    "board-spare" "board-full" "board-wire" "meter-door"
};

/// One invented home, as in its file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Home {
    #[serde(rename = "invented")]
    _invented: String,
    contact: Contact,
    answers: Answers,
    photos: Vec<HomePhoto>,
    hours_ago: i64,
    handled: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HomePhoto {
    drawing: String,
    place: PhotoPlace,
    #[serde(default)]
    marks: Vec<Mark>,
}

/// Why the demo's data can't be made.
#[derive(Debug, thiserror::Error)]
#[error("the demo's enquiries can't be stored: {0}")]
pub struct SeedError(String);

impl From<Refusal> for SeedError {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Ours(why) => Self(why.to_string()),
            other => Self(other.to_string()),
        }
    }
}

impl From<sqlx::Error> for SeedError {
    fn from(why: sqlx::Error) -> Self {
        Self(why.to_string())
    }
}

/// Stores the invented enquiries if there are no enquiries at all.
///
/// # Errors
/// `SeedError` if they can't be stored.
pub async fn seed(service: &Service) -> Result<(), SeedError> {
    let there: i64 = sqlx::query_scalar("SELECT count(*) FROM enquiries").fetch_one(service.database.readers()).await?;
    if there > 0 {
        return Ok(());
    }
    let now = store::now();
    for at in 0..HOMES.len() {
        let home = home(at);
        let received = now - SignedDuration::from_hours(home.hours_ago);
        let enquiry = record(at, &home, &service.config.config, store::day_of(received));
        take_in(service, &enquiry, &home, received).await?;
    }
    Ok(())
}

async fn take_in(service: &Service, enquiry: &Enquiry, home: &Home, received: Timestamp) -> Result<(), SeedError> {
    let key = &enquiry.envelope.client_key;
    store::receive(service, store::json_of(enquiry).as_bytes(), received, rand::random).await?;
    for (photo, listed) in enquiry.payload.photos.iter().zip(&home.photos) {
        let draft = photos::Draft::of(service, drawing(&listed.drawing)).await.map_err(Refusal::from)?;
        let turn = service.bodies.looked_at.turn().await?;
        photos::keep(service, key, &photo.sha256, PictureKind::Jpeg, draft, turn).await?;
    }
    service
        .database
        .execute(sqlx::query("UPDATE enquiries SET handled = ? WHERE client_key = ?").bind(home.handled).bind(key))
        .await?;
    Ok(())
}

fn home(at: usize) -> Home {
    serde_json::from_str(HOMES[at]).expect("a test reads every home of the demo")
}

fn drawing(name: &str) -> &'static [u8] {
    let found = DRAWINGS.iter().find(|(drawing, _)| *drawing == name);
    found.expect("a test looks up every drawing of the demo").1
}

/// The record that the form would have sent on that day.
fn record(at: usize, home: &Home, config: &Config, as_of: Date) -> Enquiry {
    let answers = Answers { as_of: Some(as_of), ..home.answers.clone() };
    let assessment = assess(&answers, config);
    let drawn: Vec<&[u8]> = home.photos.iter().map(|photo| drawing(&photo.drawing)).collect();
    let key = hex::encode(Sha256::digest(format!("invented home {at}")));
    Enquiry {
        version: CURRENT_VERSION,
        envelope: Envelope {
            installer: config.installer.id.clone(),
            client_key: key[..32].to_owned(),
            // Nobody knows this secret: invented enquiries are deleted with their folder.
            deletion_hash: hex::encode(Sha256::digest(rand::random::<[u8; 32]>())),
            addition_hash: None,
            photo_sizes: drawn.iter().map(|bytes| bytes.len() as u64).collect(),
            reference: None,
            received: None,
            keep_until: None,
        },
        payload: Payload {
            contact: home.contact.clone(),
            as_of,
            engine: assessment.engine.clone(),
            config: assessment.config.clone(),
            answers,
            assessment: Some(assessment),
            photos: home
                .photos
                .iter()
                .zip(drawn)
                .map(|(photo, bytes)| Photo {
                    sha256: hex::encode(Sha256::digest(bytes)),
                    place: photo.place,
                    width: SIZE.0,
                    height: SIZE.1,
                    marks: photo.marks.clone(),
                })
                .collect(),
        },
    }
}

/// The JSON of an invented enquiry, for tests.
#[cfg(test)]
pub(super) fn an_enquiry(at: usize) -> Vec<u8> {
    let config = model::config::demo_config();
    store::json_of(&record(at, &home(at), &config, config.published)).into_bytes()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check_picture;
    use engine::assessment::Complexity;
    use model::answers::Word;
    use model::config::demo_config;
    use record::enquiry::read_enquiry;

    #[test]
    fn every_home_is_readable_and_plainly_invented() {
        for at in 0..HOMES.len() {
            let enquiry = read_enquiry(&an_enquiry(at)).unwrap();
            let contact = enquiry.payload.contact;
            assert!(contact.name.starts_with("Invented Homeowner"), "{}", contact.name);
            let telephone = &contact.telephone;
            let drama = ["", "01632 960", "07700 900"]
                .iter()
                .any(|range| telephone.starts_with(range) && (range.is_empty() == telephone.is_empty()));
            assert!(drama, "{telephone} is not of Ofcom's ranges for drama");
            assert!(contact.email.is_empty() || contact.email.ends_with("@example.invalid"));
            assert_eq!(enquiry.payload.answers.home.postcode.known().unwrap().area(), "ZZ");
        }
    }

    #[test]
    fn every_complexity_is_among_them() {
        let config = demo_config();
        let found: Vec<Complexity> = (0..HOMES.len()).map(|at| assess(&home(at).answers, &config).complexity).collect();
        // All their postcodes are of an area that does not exist and that the demo's installer covers.
        for complexity in Complexity::ALL.iter().filter(|complexity| **complexity != Complexity::NotCovered) {
            assert!(found.contains(complexity), "{} is missing among {found:?}", complexity.word());
        }
    }

    #[test]
    fn drawings_are_plain_pictures() {
        for (name, bytes) in DRAWINGS {
            assert_eq!(check_picture(bytes), Ok(PictureKind::Jpeg), "{name}");
        }
    }
}
