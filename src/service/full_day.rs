//! What the installer is told once in a day on which further enquiries are asked to come later, because as many as the setup takes have come.

use super::mail::Written;
use super::outbox::receivers;
use super::{Service, store};
use jiff::{SignedDuration, Timestamp};
use serde::Serialize;
use sqlx::SqliteConnection;
use wording::{Key, Words, service as words};

/// What a row of the outbox tells of that tells of this.
pub(super) const FULL_DAY: &str = "full-day";
/// How long nothing more is told of it: the time within which enquiries are counted.
const A_DAY: SignedDuration = SignedDuration::from_hours(24);

/// Puts a row for everybody who is to be told into the outbox, unless they were told within a day.
///
/// # Errors
/// The database's.
pub(super) async fn put(
    connection: &mut SqliteConnection,
    service: &Service,
    now: Timestamp,
) -> Result<(), sqlx::Error> {
    let told: Option<i64> = sqlx::query_scalar("SELECT 1 FROM outbox WHERE what = ? AND made > ? LIMIT 1")
        .bind(FULL_DAY)
        .bind((now - A_DAY).to_string())
        .fetch_optional(&mut *connection)
        .await?;
    if told.is_some() {
        return Ok(());
    }
    for (way, id, url) in receivers(service) {
        // With the enquiry that filled the day, so that it goes when that is deleted.
        sqlx::query(
            "INSERT INTO outbox (id, client_key, what, added, way, url, made, due)
             SELECT ?1, client_key, ?2, ?6, ?3, ?4, ?5, ?5 FROM enquiries ORDER BY received DESC LIMIT 1 ON CONFLICT DO NOTHING",
        )
        .bind(id)
        .bind(FULL_DAY)
        .bind(way.word())
        .bind(url)
        .bind(now.to_string())
        .bind(service.surroundings.enquiries_a_day.to_string())
        .execute(&mut *connection)
        .await?;
    }
    tracing::warn!(enquiries_a_day = service.surroundings.enquiries_a_day, "further enquiries are told to come later");
    Ok(())
}

/// The mail: how many a day were taken, and when it was full.
pub(super) fn written(number: u32, made: Timestamp) -> Written {
    let number = number.to_string();
    let say = |key: Key| Words::new(wording::service::EN).fill(key, &[("number", &number)]);
    Written {
        to: None,
        reply_to: None,
        follows: None,
        date: made,
        subject: say(words::MAIL_FULL_SUBJECT),
        text: [words::MAIL_FULL_TEXT, words::MAIL_FULL_WHAT].map(|key| say(key) + "\n").join("\n"),
        attached: Vec::new(),
    }
}

#[derive(Serialize)]
struct Payload {
    #[serde(rename = "type")]
    kind: &'static str,
    timestamp: String,
    data: Data,
}

#[derive(Serialize)]
struct Data {
    enquiries_a_day: u32,
}

/// What a webhook is told.
pub(super) fn payload(number: u32, made: Timestamp) -> String {
    let data = Data { enquiries_a_day: number };
    store::json_of(&Payload { kind: "enquiries.full_day", timestamp: made.to_string(), data })
}
