//! Receives an enquiry: reads it, assesses it again, and stores it in one transaction.

use super::Service;
use super::copies;
use super::error::Refusal;
use super::events::EventKind;
use super::full_day;
use super::outbox;
use super::said_by;
use super::summary::{Summary, Urgency};
use engine::assessment::{Assessment, assess};
use jiff::civil::Date;
use jiff::tz::Offset;
use jiff::{SignedDuration, Span, Timestamp, Unit};
use model::answers::Answers;
use model::config::Config;
use record::enquiry::{Enquiry, EnquiryError, Reference, read_enquiry, read_kept_enquiry};
use record::json::read_json;
use schemars::JsonSchema;
use serde::Serialize;
use sqlx::SqliteConnection;
use std::sync::Arc;

/// How often a reference is drawn again where it is taken: with a million enquiries kept, one draw in a hundred thousand is.
const DRAWS: usize = 8;

const A_DAY: SignedDuration = SignedDuration::from_hours(24);
/// The shortest and the longest wait that is asked for where a day's enquiries are full, in seconds. The longest is what the form waits at most
/// (`LONGEST` in the form's `send.rs`).
const LATER: [i64; 2] = [60, 900];

/// What the homeowner's page is told of a stored enquiry.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Receipt {
    pub(super) reference: String,
    pub(super) received: String,
    pub(super) keep_until: String,
    pub(super) photos_missing: Vec<String>,
    /// The secret with which a plain form that was just stored may be deleted; a form of ours keeps its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) deletion_secret: Option<String>,
    #[serde(skip)]
    pub(super) client_key: String,
    /// Whether it was stored already.
    #[serde(skip)]
    pub(super) again: bool,
}

/// The time now in whole seconds, so that times written as text sort as times.
pub(super) fn now() -> Timestamp {
    let now = Timestamp::now();
    now.round(Unit::Second).unwrap_or(now)
}

/// The calendar day of an instant, in UTC.
pub(super) fn day_of(time: Timestamp) -> Date {
    Offset::UTC.to_datetime(time).date()
}

/// Stores an enquiry once: if it is sent again, with the same content or another, the first stands and its receipt is returned. `draw`
/// gives the random numbers of which references are made.
///
/// # Errors
/// [`Refusal`]; nothing is stored then.
pub(super) async fn receive(
    service: &Service,
    json: &[u8],
    now: Timestamp,
    mut draw: impl FnMut() -> u64,
) -> Result<Receipt, Refusal> {
    let enquiry = read(json)?;
    let config = &service.config.config;
    if enquiry.envelope.installer != config.installer.id {
        return Err(Refusal::OtherInstaller {
            given: enquiry.envelope.installer.chars().take(60).collect(),
            allowed: config.installer.id.clone(),
        });
    }
    let record = str::from_utf8(json).map_err(|why| Refusal::NotJson(why.to_string()))?;
    let payload = &enquiry.payload;
    // A homeowner's page can't mark answers as recorded by the installer.
    let said = said_by::latest(&payload.answers, []);
    let own = assess_apart(service, said).await;
    let shown = own.as_ref().or(payload.assessment.as_ref());
    let urgency = Urgency::of(shown);
    let keep_until = day_of(now).checked_add(Span::new().days(i64::from(config.keep_days))).map_err(Refusal::ours)?;

    let mut transaction = service.database.write().await?;
    if let Err(later) = may_come_yet(service, &mut transaction, &enquiry.envelope.client_key, now).await {
        if matches!(later, Refusal::Later { .. }) {
            full_day::put(&mut transaction, service, now).await?;
            transaction.commit().await?;
            service.telling.news.notify_waiters();
        }
        return Err(later);
    }
    let mut draws = 0;
    let stored = loop {
        let tried = sqlx::query(
            "INSERT INTO enquiries (client_key, reference, received, keep_until, deletion_hash, addition_hash, record,
               own_assessment, agreement, summary, gravity, weight)
             VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (client_key) DO NOTHING",
        )
        .bind(&enquiry.envelope.client_key)
        .bind(Reference::from_bits(draw()).as_str().to_owned())
        .bind(now.to_string())
        .bind(keep_until.to_string())
        .bind(&enquiry.envelope.deletion_hash)
        .bind(&enquiry.envelope.addition_hash)
        .bind(record)
        .bind(own.as_ref().map(json_of))
        .bind(agreement(payload.assessment.as_ref(), own.as_ref()))
        .bind(Summary::of(&payload.contact, &payload.answers, shown).json())
        .bind(urgency.gravity)
        .bind(urgency.weight)
        .execute(&mut *transaction)
        .await;
        match tried {
            Ok(done) => break done.rows_affected() == 1,
            Err(sqlx::Error::Database(why)) if why.is_unique_violation() && draws < DRAWS => draws += 1,
            Err(why) => return Err(why.into()),
        }
    };
    if stored {
        for photo in &payload.photos {
            sqlx::query("INSERT INTO photos (client_key, sha256) VALUES (?, ?) ON CONFLICT DO NOTHING")
                .bind(&enquiry.envelope.client_key)
                .bind(&photo.sha256)
                .execute(&mut *transaction)
                .await?;
        }
        outbox::put(&mut transaction, service, &enquiry.envelope.client_key, now).await?;
        copies::put(&mut transaction, service, &enquiry, now).await?;
    }
    let receipt = receipt(&mut transaction, &enquiry.envelope.client_key, !stored).await?;
    transaction.commit().await?; // on the disk from here on
    service.metrics.enquiries.inc_by(u64::from(stored));
    service.telling.news.notify_waiters();
    Ok(receipt)
}

/// Refuses a new enquiry for now where as many as are taken came within a day, those counted that homeowners deleted again: each was told to
/// the installer. One that is stored already may come again.
async fn may_come_yet(
    service: &Service,
    connection: &mut SqliteConnection,
    client_key: &str,
    now: Timestamp,
) -> Result<(), Refusal> {
    let (known, deleted): (bool, i64) = sqlx::query_as(
        "SELECT EXISTS (SELECT 1 FROM enquiries WHERE client_key = ?),
           (SELECT coalesce(sum(number), 0) FROM events WHERE kind = ? AND at > ?)",
    )
    .bind(client_key)
    .bind(EventKind::DeletedByHomeowner.word())
    .bind((now - A_DAY).to_string())
    .fetch_one(&mut *connection)
    .await?;
    if known {
        return Ok(());
    }
    let most = i64::from(service.surroundings.enquiries_a_day.get()) - deleted;
    if most <= 0 {
        return Err(Refusal::Later { seconds: LATER[1] });
    }
    // The latest ones of a day, as many as are taken: the last of them is the next to make room.
    let oldest: Option<String> =
        sqlx::query_scalar("SELECT received FROM enquiries WHERE received > ? ORDER BY received DESC LIMIT 1 OFFSET ?")
            .bind((now - A_DAY).to_string())
            .bind(most - 1)
            .fetch_optional(connection)
            .await?;
    let Some(oldest) = oldest else { return Ok(()) };
    let room = oldest.parse::<Timestamp>().map_or(A_DAY, |oldest| oldest + A_DAY - now);
    // A form comes back by itself, so not all at once, and not later than it would wait anyway.
    Err(Refusal::Later { seconds: room.as_secs().clamp(LATER[0], LATER[1]) })
}

/// The receipt of a stored enquiry; `again` if it was stored already.
pub(super) async fn receipt(
    connection: &mut SqliteConnection,
    client_key: &str,
    again: bool,
) -> Result<Receipt, Refusal> {
    let (reference, received, keep_until) =
        sqlx::query_as("SELECT reference, received, keep_until FROM enquiries WHERE client_key = ?")
            .bind(client_key)
            .fetch_one(&mut *connection)
            .await?;
    let photos_missing =
        sqlx::query_scalar("SELECT sha256 FROM photos WHERE client_key = ? AND kind IS NULL ORDER BY rowid")
            .bind(client_key)
            .fetch_all(&mut *connection)
            .await?;
    Ok(Receipt {
        reference,
        received,
        keep_until,
        photos_missing,
        deletion_secret: None,
        client_key: client_key.to_owned(),
        again,
    })
}

/// Reads a record. Bytes that are no JSON get another refusal than JSON with a value that is not allowed.
pub(super) fn read(json: &[u8]) -> Result<Enquiry, Refusal> {
    read_enquiry(json).map_err(|error| not_read(json, &error))
}

/// Reads a record that is kept: an earlier version may have accepted it, which checked less.
pub(super) fn read_kept(json: &[u8]) -> Result<Enquiry, Refusal> {
    read_kept_enquiry(json).map_err(|error| not_read(json, &error))
}

fn not_read(json: &[u8], error: &EnquiryError) -> Refusal {
    if let Err(not_json @ record::json::Unreadable::NotJson(_)) = read_json::<serde::de::IgnoredAny>(json) {
        return not_json.into();
    }
    match error {
        EnquiryError::NotAllowed { field, given, allowed } => {
            Refusal::field(*field, format!("{given} is not allowed; it may be {allowed}"))
        }
        EnquiryError::Newer(_) => Refusal::field("version", error.to_string()),
        EnquiryError::Shape(words) => match words.strip_prefix('`').and_then(|rest| rest.split_once("`: ")) {
            Some((path, why)) => Refusal::field(path, why),
            None => Refusal::field("", words.as_str()),
        },
    }
}

/// Assesses on a thread of its own. `None` if the engine panicked on these answers: the enquiry is kept all the same.
pub(super) async fn assess_apart(service: &Service, answers: Answers) -> Option<Assessment> {
    let published = Arc::clone(&service.config);
    let assessed = tokio::task::spawn_blocking(move || {
        let config: &Config = &published.config;
        assess(&answers, config)
    });
    match assessed.await {
        Ok(assessment) => Some(assessment),
        Err(why) => {
            tracing::error!(error = %why, "the engine gave up on an enquiry; it is kept with what was sent alone");
            None
        }
    }
}

/// Whether the form and the service made the same bytes of the same answers; one of the words that the column allows.
fn agreement(sent: Option<&Assessment>, own: Option<&Assessment>) -> &'static str {
    match (sent, own) {
        (_, None) => "not-assessed",
        (None, Some(_)) => "not-compared",
        (Some(sent), Some(own))
            if (sent.as_of, &sent.engine, &sent.config) != (own.as_of, &own.engine, &own.config) =>
        {
            "not-compared"
        }
        (Some(sent), Some(own)) if json_of(sent) == json_of(own) => "equal",
        (Some(_), Some(_)) => "different",
    }
}

/// The JSON of one of our own types.
pub(super) fn json_of<T: Serialize>(value: &T) -> String {
    serde_json::to_string(value).expect("the types of an assessment and of answers are all writable as JSON")
}

#[cfg(test)]
mod tests {
    use super::super::demo::an_enquiry;
    use super::*;
    use model::config::demo_config;

    #[tokio::test]
    async fn a_reference_that_is_taken_is_drawn_again() {
        let folder = tempfile::tempdir().unwrap();
        let service = Service::open(folder.path(), &demo_config(), None, true).await.unwrap();
        let mut draws = [7, 7, 7, 8].into_iter();
        let first = receive(&service, &an_enquiry(1), now(), || draws.next().unwrap()).await.unwrap();
        let second = receive(&service, &an_enquiry(2), now(), || draws.next().unwrap()).await.unwrap();
        assert_eq!(first.reference, Reference::from_bits(7).as_str());
        assert_eq!(second.reference, Reference::from_bits(8).as_str());
    }

    #[test]
    fn assessments_are_compared_only_where_date_and_versions_are_equal() {
        let sent = assess(&Answers::default(), &demo_config());
        assert_eq!(agreement(Some(&sent), Some(&sent)), "equal");
        let mut other = sent.clone();
        other.invented = !other.invented;
        assert_eq!(agreement(Some(&sent), Some(&other)), "different");
        other.config = "another".into();
        assert_eq!(agreement(Some(&sent), Some(&other)), "not-compared");
        assert_eq!(agreement(None, Some(&other)), "not-compared");
        assert_eq!(agreement(Some(&sent), None), "not-assessed");
    }
}
