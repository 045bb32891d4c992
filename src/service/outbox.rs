//! The outbox: a row for each mail and webhook, committed together with the enquiry that it tells of, and sent in the background.
//!
//! A sender takes a row for a while (the lease), sends it and marks it. A sender that dies keeps no row: the lease ends, and a start of the
//! service ends all leases of the run before. So nothing is lost, and what was sent but could not be marked is sent again under the same
//! id, by which a mailbox or a receiver knows it. Waits between tries grow to an hour; after some days a row is given up and stays. Several
//! rows are sent beside each other, so that a server that hangs holds up no other mail.
//!
//! What is added to an enquiry later is gathered in a row for a short while, and told at once if it reports a danger.

use super::added::Added;
use super::error::Refusal;
use super::full_day::{self, FULL_DAY};
use super::letter::Letter;
use super::mail::Written;
use super::telling::MailSettings;
use super::{Service, mail, store, webhook};
use axum::Json;
use axum::extract::State;
use jiff::{SignedDuration, Timestamp};
use schemars::JsonSchema;
use serde::Serialize;
use sqlx::SqliteConnection;
use std::fmt;
use std::time::Duration;
use tokio::sync::watch;
use tokio::task::JoinSet;
use tracing::Instrument;

/// How long a sender may have a row; longer than sending can take ([`mail::LONGEST`], [`webhook::LONGEST`]). This program's choice.
const LEASE: SignedDuration = SignedDuration::from_mins(15);
/// The first wait after a try that failed; each further one is twice as long. This program's choice.
const FIRST_WAIT: SignedDuration = SignedDuration::from_secs(5);
/// The longest wait. This program's choice; RFC 5321 4.5.4.1 asks for no less than half an hour once a server has been tried for long.
const LONGEST_WAIT: SignedDuration = SignedDuration::from_hours(1);
/// After this time a row is given up: RFC 5321 4.5.4.1 says four to five days (from memory).
const GIVEN_UP_AFTER: SignedDuration = SignedDuration::from_hours(5 * 24);
/// How often the outbox is looked at where nothing announces itself. This program's choice.
const LOOK: Duration = Duration::from_secs(5);
/// How long what is being sent may go on once nothing is served any more. This program's choice.
const STOP_WITHIN: Duration = Duration::from_secs(5);
/// How many mails, and how many webhooks, are sent beside each other. This program's choice: few enough for any mail server.
const AT_ONCE: usize = 4;
/// How long after the last addition it is told. This program's choice.
const GATHERED: SignedDuration = SignedDuration::from_mins(10);
/// The longest that additions are gathered, however many come. This program's choice.
const GATHERED_AT_MOST: SignedDuration = SignedDuration::from_hours(1);
/// The most rows that one answer holds. This program's choice.
const MOST_LISTED: i64 = 200;

/// A way of telling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    Mail,
    Webhook,
}

impl Way {
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Mail => "mail",
            Self::Webhook => "webhook",
        }
    }
}

/// Why a row was not sent.
#[derive(Debug)]
pub(super) struct Failure {
    /// In words for the installer; no name, no telephone number.
    pub(super) why: String,
    /// Whether trying again soon is of no use: somebody has to change something first.
    pub(super) lasting: bool,
}

/// A row that a sender has taken.
#[derive(Debug, PartialEq, Eq)]
struct Taken {
    id: String,
    client_key: String,
    what: String,
    /// What was added, as JSON, if it tells of additions.
    added: Option<String>,
    url: String,
    made: Timestamp,
    /// With this one.
    tries: i64,
}

/// Whom to tell: the way, a new id and the address, for each.
pub(super) fn receivers(service: &Service) -> impl Iterator<Item = (Way, String, &str)> {
    let telling = &service.telling;
    let mail = telling.mail.iter().map(|settings| (Way::Mail, mail::new_id(settings), ""));
    mail.chain(telling.hooks.iter().map(|hook| (Way::Webhook, webhook::new_id(), &*hook.url)))
}

/// Puts a row for everybody who is to be told of a new enquiry into its transaction.
///
/// # Errors
/// The database's.
pub(super) async fn put(
    transaction: &mut SqliteConnection,
    service: &Service,
    client_key: &str,
    now: Timestamp,
) -> Result<(), sqlx::Error> {
    for (way, id, url) in receivers(service) {
        sqlx::query("INSERT INTO outbox (id, client_key, way, url, made, due) VALUES (?, ?, ?, ?, ?5, ?5)")
            .bind(id)
            .bind(client_key)
            .bind(way.word())
            .bind(url)
            .bind(now.to_string())
            .execute(&mut *transaction)
            .await?;
    }
    Ok(())
}

/// What a row tells of that is a homeowner's own copy.
const COPY: &str = "copy";

/// Puts the mail with a homeowner's copy into the transaction that stores the enquiry.
///
/// # Errors
/// The database's.
pub(super) async fn put_copy(
    transaction: &mut SqliteConnection,
    settings: &MailSettings,
    client_key: &str,
    now: Timestamp,
) -> Result<(), sqlx::Error> {
    sqlx::query("INSERT INTO outbox (id, client_key, what, way, made, due) VALUES (?1, ?2, ?3, 'mail', ?4, ?4)")
        .bind(mail::new_id(settings))
        .bind(client_key)
        .bind(COPY)
        .bind(now.to_string())
        .execute(transaction)
        .await
        .map(drop)
}

/// Has everybody told of what was added to an enquiry: with what is gathered already, or in a new row. Part of the transaction that stores
/// the additions.
///
/// # Errors
/// The database's, and where a row can't be read.
pub(super) async fn add(
    transaction: &mut SqliteConnection,
    service: &Service,
    client_key: &str,
    added: &Added,
    now: Timestamp,
) -> Result<(), Refusal> {
    for (way, id, url) in receivers(service) {
        // What a sender has had already stays as it is told.
        let gathered: Option<(String, String, String)> = sqlx::query_as(
            "SELECT id, made, added FROM outbox WHERE client_key = ? AND what = 'additions' AND way = ? AND url = ?
             AND state = 'waiting' AND tries = 0",
        )
        .bind(client_key)
        .bind(way.word())
        .bind(url)
        .fetch_optional(&mut *transaction)
        .await?;
        let Some((id, made, before)) = gathered else {
            let due = if added.danger { now } else { now + GATHERED };
            sqlx::query(
                "INSERT INTO outbox (id, client_key, what, added, number, way, url, made, due)
                 VALUES (?1, ?2, 'additions', ?3, (SELECT count(*) FROM outbox WHERE client_key = ?2 AND what = 'additions'),
                   ?4, ?5, ?6, ?7)",
            )
            .bind(id)
            .bind(client_key)
            .bind(store::json_of(added))
            .bind(way.word())
            .bind(url)
            .bind(now.to_string())
            .bind(due.to_string())
            .execute(&mut *transaction)
            .await?;
            continue;
        };
        let mut all: Added = serde_json::from_str(&before).map_err(Refusal::ours)?;
        all.add(added);
        let latest = made.parse::<Timestamp>().map_or(now, |made| made + GATHERED_AT_MOST);
        let due = if all.danger { now } else { (now + GATHERED).min(latest) };
        sqlx::query("UPDATE outbox SET added = ?, due = ? WHERE id = ?")
            .bind(store::json_of(&all))
            .bind(due.to_string())
            .bind(id)
            .execute(&mut *transaction)
            .await?;
    }
    Ok(())
}

/// How long to wait after so many tries.
fn wait_after(tries: i64, lasting: bool) -> SignedDuration {
    let doublings = u32::try_from((tries - 1).clamp(0, 30)).unwrap_or_default();
    let wait = FIRST_WAIT.checked_mul(1 << doublings.min(20)).unwrap_or(LONGEST_WAIT);
    if lasting { LONGEST_WAIT } else { wait.min(LONGEST_WAIT) }
}

/// Takes the row that is due and has waited longest, so that nobody else does; `None` where none is due.
async fn take(service: &Service, way: Way, now: Timestamp) -> Result<Option<Taken>, sqlx::Error> {
    const DUE: &str = "SELECT id FROM outbox WHERE state = 'waiting' AND way = ?1 AND due <= ?2
        AND (leased_until IS NULL OR leased_until <= ?2) ORDER BY due, id LIMIT 1";
    let due: Option<String> = sqlx::query_scalar(DUE)
        .bind(way.word())
        .bind(now.to_string())
        .fetch_optional(service.database.readers())
        .await?;
    if due.is_none() {
        return Ok(None);
    }
    let mut transaction = service.database.write().await?;
    let id: Option<String> =
        sqlx::query_scalar(DUE).bind(way.word()).bind(now.to_string()).fetch_optional(&mut *transaction).await?;
    let Some(id) = id else { return Ok(None) };
    type Row = (String, String, Option<String>, String, String, i64);
    let (client_key, what, added, url, made, tries): Row = sqlx::query_as(
        "UPDATE outbox SET leased_until = ?, tries = tries + 1 WHERE id = ?
         RETURNING client_key, what, added, url, made, tries",
    )
    .bind((now + LEASE).to_string())
    .bind(&id)
    .fetch_one(&mut *transaction)
    .await?;
    transaction.commit().await?;
    let made = made.parse().unwrap_or(now);
    Ok(Some(Taken { id, client_key, what, added, url, made, tries }))
}

/// Marks a row that was taken: as sent, or when it is tried again, or that it is given up.
async fn mark(
    service: &Service,
    way: Way,
    taken: &Taken,
    done: Result<(), Failure>,
    now: Timestamp,
) -> Result<(), sqlx::Error> {
    let (state, due, failure) = match done {
        Ok(()) => ("sent", now, None),
        // Nobody but its sender could put right the address of a copy.
        Err(Failure { why, lasting: true }) if taken.what == COPY => ("given-up", now, Some(why)),
        Err(Failure { why, .. }) if now.duration_since(taken.made) >= GIVEN_UP_AFTER => {
            tracing::error!(
                way = way.word(),
                id = taken.id,
                tries = taken.tries,
                why,
                "given up; it stays in the outbox"
            );
            ("given-up", now, Some(why))
        }
        Err(Failure { why, lasting }) => {
            let wait = wait_after(taken.tries, lasting);
            let seconds = wait.as_secs();
            tracing::warn!(way = way.word(), id = taken.id, tries = taken.tries, seconds, why, "not sent; tried again");
            ("waiting", now + wait, Some(why))
        }
    };
    let statement = sqlx::query("UPDATE outbox SET state = ?, due = ?, leased_until = NULL, failure = ? WHERE id = ?")
        .bind(state)
        .bind(due.to_string())
        .bind(failure)
        .bind(&taken.id);
    service.database.execute(statement).await.map(drop)
}

/// Ends every lease and makes what waits due now: after a start, which may come with another setup, everything is tried. What is still
/// gathered goes on being so, no longer than from now on.
async fn begin(service: &Service, now: Timestamp) -> Result<(), sqlx::Error> {
    let statement = sqlx::query(
        "UPDATE outbox SET leased_until = NULL, due = CASE WHEN what = 'additions' AND tries = 0 THEN min(due, ?2) ELSE ?1 END
         WHERE state = 'waiting'",
    );
    service.database.execute(statement.bind(now.to_string()).bind((now + GATHERED).to_string())).await.map(drop)
}

/// Makes what waits due now, but for what is being sent or still gathered: the setup is another one, by which what failed may go.
async fn hurry(service: &Service, way: Way, now: Timestamp) -> Result<(), sqlx::Error> {
    let statement = sqlx::query(
        "UPDATE outbox SET due = ?1 WHERE state = 'waiting' AND way = ?2 AND due > ?1
           AND (leased_until IS NULL OR leased_until <= ?1) AND NOT (what = 'additions' AND tries = 0)",
    );
    service.database.execute(statement.bind(now.to_string()).bind(way.word())).await.map(drop)
}

/// Makes everything that was given up, but homeowners' copies, wait again from now on, with as many days as a new row; returns how many rows there were.
///
/// # Errors
/// The database's.
pub async fn send_again(service: &Service) -> Result<u64, sqlx::Error> {
    let statement = sqlx::query(
        "UPDATE outbox SET state = 'waiting', made = ?1, due = ?1, tries = 0 WHERE state = 'given-up' AND what <> 'copy'",
    );
    service.database.execute(statement.bind(store::now().to_string())).await.map(|done| done.rows_affected())
}

/// Sends a row.
async fn send(service: &Service, way: Way, taken: &Taken) -> Result<(), Failure> {
    if taken.what == FULL_DAY {
        let number = taken.added.as_deref().and_then(|number| number.parse().ok()).unwrap_or_default();
        let made = taken.made;
        return told(service, way, taken, || full_day::written(number, made), || full_day::payload(number, made)).await;
    }
    let unreadable = |why: Refusal| Failure { why: format!("the enquiry can't be read: {why}"), lasting: false };
    let added = taken.added.as_deref().map(serde_json::from_str::<Added>).transpose();
    let added = added.map_err(|why| unreadable(Refusal::ours(why)))?;
    let letter = Letter::of(service, &taken.client_key, added, taken.what == COPY).await;
    let Some(letter) = letter.map_err(unreadable)? else {
        return Ok(()); // deleted meanwhile, and the row with it
    };
    let to = service.telling.mail.as_ref().map_or("", |settings| &settings.to);
    told(service, way, taken, || letter.written(to), || letter.payload()).await
}

/// Sends what is written of a row in its way.
async fn told(
    service: &Service,
    way: Way,
    taken: &Taken,
    written: impl FnOnce() -> Written,
    payload: impl FnOnce() -> String,
) -> Result<(), Failure> {
    let gone = |what: &str| Failure { why: format!("the setup has no {what} any more"), lasting: true };
    match way {
        Way::Mail => {
            let settings = service.telling.mail.as_ref().ok_or_else(|| gone("`mail`"))?;
            let sent = mail::send(settings, &written(), &taken.id).await;
            // What a server says of a homeowner's address names it as a rule, and this goes into the log.
            let of_copy = |failure: Failure| Failure { why: "a homeowner's copy was not taken".into(), ..failure };
            if taken.what == COPY { sent.map_err(of_copy) } else { sent }
        }
        Way::Webhook => {
            let hook = service.telling.hooks.iter().find(|hook| hook.url == taken.url);
            webhook::send(hook.ok_or_else(|| gone("webhook of this address"))?, payload(), &taken.id).await
        }
    }
}

/// Sends what is due, mails and webhooks beside each other, until the service has stopped. Each is sent by the newest setup; what is being sent
/// when another comes ends by the one before.
pub(super) async fn keep_sending(newest: watch::Receiver<Service>, stopped: watch::Receiver<()>) {
    let service = newest.borrow().clone();
    if let Err(why) = begin(&service, store::now()).await {
        tracing::error!(error = %why, "the outbox can't be written; leases of before end by themselves");
    }
    let mails = send_one_way(newest.clone(), Way::Mail, stopped.clone());
    let webhooks = send_one_way(newest, Way::Webhook, stopped);
    tokio::join!(mails, webhooks);
}

async fn send_one_way(mut newest: watch::Receiver<Service>, way: Way, mut stopped: watch::Receiver<()>) {
    let mut service = newest.borrow_and_update().clone();
    let mut under_way = JoinSet::new();
    loop {
        if newest.has_changed().unwrap_or(false) {
            service = newest.borrow_and_update().clone();
            if let Err(why) = hurry(&service, way, store::now()).await {
                tracing::error!(error = %why, "the outbox can't be written; what waits is tried when it is due");
            }
        }
        // Announced from here on, so that nothing that comes while the outbox is read is slept through.
        let news = service.telling.news.notified();
        let taken = if under_way.len() < AT_ONCE { take(&service, way, store::now()).await } else { Ok(None) };
        match taken {
            Ok(Some(taken)) => {
                let sending = send_and_mark(service.clone(), way, taken, stopped.clone());
                under_way.spawn(sending.in_current_span());
                if stopped.has_changed().is_ok() {
                    continue;
                }
            }
            Ok(None) => {}
            Err(why) => tracing::error!(error = %why, "the outbox can't be read; it is tried again"),
        }
        tokio::select! {
            () = news => {}
            Some(_) = under_way.join_next() => {}
            () = tokio::time::sleep(LOOK) => {}
            Ok(()) = newest.changed() => newest.mark_changed(),
            _ = stopped.changed() => break, // the sender is dropped when nothing is served any more
        }
    }
    // Each ends by itself soon after the stop.
    while under_way.join_next().await.is_some() {}
}

/// Sends a row that was taken and marks it. Once nothing is served any more it has a little time left.
async fn send_and_mark(service: Service, way: Way, taken: Taken, mut stopped: watch::Receiver<()>) {
    let stopping = async {
        let _ = stopped.changed().await;
        tokio::time::sleep(STOP_WITHIN).await;
    };
    let done = tokio::select! {
        done = send(&service, way, &taken) => done,
        () = stopping => Err(Failure { why: "the service was stopped".into(), lasting: false }),
    };
    if let Err(why) = mark(&service, way, &taken, done, store::now()).await {
        tracing::error!(error = %why, "the outbox can't be written; what was sent may be sent again under its id");
    }
}

/// What is not sent yet.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Unsent {
    /// How many mails and webhooks wait for their next try.
    pub waiting: i64,
    /// How many were given up.
    pub given_up: i64,
    /// The oldest of them.
    pub rows: Vec<UnsentRow>,
}

/// A mail or webhook that is not sent yet.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UnsentRow {
    reference: String,
    /// What it tells of: `enquiry`, `additions` or `copy`.
    what: String,
    way: String,
    url: String,
    made: String,
    state: String,
    due: String,
    tries: i64,
    failure: Option<String>,
}

impl fmt::Display for UnsentRow {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { reference, what, way, url, made, state, due, tries, failure } = self;
        let of = if what == "enquiry" { String::new() } else { format!(" of {what}") };
        let to = if url.is_empty() { format!("{way}{of}") } else { format!("{way}{of} to {url}") };
        let (when, why) =
            (if state == "waiting" { "next" } else { "last" }, failure.as_deref().unwrap_or("not tried yet"));
        write!(f, "{reference}: {to}, of {made}, {state}, tried {tries} times, {when} {due}: {why}")
    }
}

type Columns = (String, String, String, String, String, String, String, i64, Option<String>);

/// Answers `GET /api/installer/outbox`: what is not sent yet, and why.
///
/// # Errors
/// The database's.
#[utoipa::path(
    get,
    path = "/api/installer/outbox",
    operation_id = "read_outbox",
    description = "Mails and webhooks that are not sent yet.",
    responses(
        (status = 200, description = "The outbox.", body = ref("#/components/schemas/Unsent")),
    ),
)]
pub(super) async fn get(State(service): State<Service>) -> Result<Json<Unsent>, Refusal> {
    Ok(Json(unsent(&service).await?))
}

/// What is not sent yet, and why.
///
/// # Errors
/// The database's.
pub async fn unsent(service: &Service) -> Result<Unsent, sqlx::Error> {
    let (waiting, given_up) = sqlx::query_as(
        "SELECT count(*) FILTER (WHERE state = 'waiting'), count(*) FILTER (WHERE state = 'given-up') FROM outbox",
    )
    .fetch_one(service.database.readers())
    .await?;
    let rows: Vec<Columns> = sqlx::query_as(
        "SELECT reference, what, way, url, made, state, due, tries, failure FROM outbox JOIN enquiries USING (client_key)
         WHERE state <> 'sent' ORDER BY made, id LIMIT ?",
    )
    .bind(MOST_LISTED)
    .fetch_all(service.database.readers())
    .await?;
    let row = |(reference, what, way, url, made, state, due, tries, failure): Columns| UnsentRow {
        reference,
        what,
        way,
        url,
        made,
        state,
        due,
        tries,
        failure,
    };
    Ok(Unsent { waiting, given_up, rows: rows.into_iter().map(row).collect() })
}

#[cfg(test)]
mod tests {
    use super::super::demo::an_enquiry;
    use super::super::{Surroundings, Telling};
    use super::*;
    use model::config::{Secret, Setup, Webhook, demo_setup};

    fn setup() -> Setup {
        let mut setup = demo_setup();
        let mail = r#"{"server":"localhost","encryption":"none","from":"form@installer.invalid"}"#;
        setup.mail = serde_json::from_str(mail).unwrap();
        let secret = Secret(format!("whsec_{}", "A".repeat(32)));
        setup.webhooks = vec![Webhook { url: "https://hooks.example.invalid/".into(), secret }];
        setup
    }

    async fn opened() -> (tempfile::TempDir, Service) {
        let folder = tempfile::tempdir().unwrap();
        let setup = setup();
        let service = Service::open(folder.path(), &setup.publish(), None, true).await.unwrap();
        (folder, service.with_telling(Telling::of(&setup, None)))
    }

    fn at(seconds: i64) -> Timestamp {
        "2026-11-29T00:00:00Z".parse::<Timestamp>().unwrap() + SignedDuration::from_secs(seconds)
    }

    async fn received(service: &Service, number: usize, when: Timestamp) {
        store::receive(service, &an_enquiry(number), when, || number as u64).await.unwrap();
    }

    fn failed(lasting: bool) -> Result<(), Failure> {
        Err(Failure { why: "nobody answers".into(), lasting })
    }

    #[tokio::test]
    async fn an_enquiry_and_its_rows_are_stored_together_and_once() {
        let (_folder, service) = opened().await;
        received(&service, 1, at(0)).await;
        received(&service, 1, at(1)).await; // sent again: the first stands
        let unsent = unsent(&service).await.unwrap();
        let ways: Vec<_> = unsent.rows.iter().map(|row| (&*row.way, &*row.url, &*row.made)).collect();
        let made = at(0).to_string();
        assert_eq!(unsent.waiting, 2);
        assert!(ways.contains(&("mail", "", &*made)), "{ways:?}");
        assert!(ways.contains(&("webhook", "https://hooks.example.invalid/", &*made)), "{ways:?}");

        // A row that can't be stored takes the enquiry along.
        let broken = "CREATE TRIGGER no BEFORE INSERT ON outbox BEGIN SELECT RAISE(ABORT, 'no'); END";
        service.database.execute(sqlx::query(broken)).await.unwrap();
        assert!(store::receive(&service, &an_enquiry(2), at(2), || 2).await.is_err());
        let kept: i64 =
            sqlx::query_scalar("SELECT count(*) FROM enquiries").fetch_one(service.database.readers()).await.unwrap();
        assert_eq!(kept, 1);
    }

    #[tokio::test]
    async fn a_full_day_is_told_once_a_day_and_names_nobody() {
        let (_folder, service) = opened().await;
        let service = service.standing_in(Surroundings::read(None, None, 2.try_into().ok()).unwrap());
        for number in [1, 2] {
            received(&service, number, at(0)).await;
        }
        for (number, seconds) in [(3, 1), (4, 2), (3, 3)] {
            let refused = store::receive(&service, &an_enquiry(number), at(seconds), || 9).await;
            assert!(matches!(refused, Err(Refusal::Later { .. })), "{refused:?}");
        }
        let full = "SELECT way || ' ' || made || ' ' || added FROM outbox WHERE what = 'full-day' ORDER BY way";
        let rows: Vec<String> = sqlx::query_scalar(full).fetch_all(service.database.readers()).await.unwrap();
        assert_eq!(rows, ["mail 2026-11-29T00:00:01Z 2", "webhook 2026-11-29T00:00:01Z 2"]);
        let written = full_day::written(2, at(1));
        assert_eq!(written.subject, "As many enquiries as a day takes have come: 2");
        assert!(written.text.contains("enquiries_a_day") && written.reply_to.is_none(), "{}", written.text);
        let payload =
            r#"{"type":"enquiries.full_day","timestamp":"2026-11-29T00:00:01Z","data":{"enquiries_a_day":2}}"#;
        assert_eq!(full_day::payload(2, at(1)), payload);
        // A day later it is another day.
        let day = 24 * 3600;
        for number in [3, 4] {
            received(&service, number, at(day + 1)).await;
        }
        assert!(store::receive(&service, &an_enquiry(5), at(day + 2), || 9).await.is_err());
        let rows: Vec<String> = sqlx::query_scalar(full).fetch_all(service.database.readers()).await.unwrap();
        assert_eq!(rows.len(), 4, "{rows:?}");
    }

    #[tokio::test]
    async fn what_is_deleted_is_not_told() {
        let (_folder, service) = opened().await;
        received(&service, 1, at(0)).await;
        let taken = take(&service, Way::Mail, at(0)).await.unwrap().unwrap();
        service.database.execute(sqlx::query("DELETE FROM enquiries")).await.unwrap();
        assert!(send(&service, Way::Mail, &taken).await.is_ok(), "nothing is connected to");
        mark(&service, Way::Mail, &taken, Ok(()), at(1)).await.unwrap();
        assert_eq!(unsent(&service).await.unwrap().rows.len(), 0);
    }

    #[tokio::test]
    async fn a_row_is_one_senders_until_its_lease_ends_and_keeps_its_id() {
        let (_folder, service) = opened().await;
        received(&service, 1, at(0)).await;
        let first = take(&service, Way::Mail, at(0)).await.unwrap().unwrap();
        assert_eq!(take(&service, Way::Mail, at(1)).await.unwrap(), None);
        assert!(take(&service, Way::Webhook, at(1)).await.unwrap().is_some(), "the other way has a row of its own");
        assert_eq!(take(&service, Way::Mail, at(0) + LEASE - SignedDuration::from_secs(1)).await.unwrap(), None);
        let second = take(&service, Way::Mail, at(0) + LEASE).await.unwrap().unwrap();
        assert_eq!((&second.id, second.tries), (&first.id, 2));
        // A start ends what the run before had taken.
        begin(&service, at(3)).await.unwrap();
        let third = take(&service, Way::Mail, at(3)).await.unwrap().unwrap();
        assert_eq!((&third.id, third.tries), (&first.id, 3));
        mark(&service, Way::Mail, &third, Ok(()), at(4)).await.unwrap();
        begin(&service, at(5)).await.unwrap();
        assert_eq!(take(&service, Way::Mail, at(5) + LEASE).await.unwrap(), None, "what is sent is sent");
    }

    #[tokio::test]
    async fn what_is_added_is_gathered_and_told_once() {
        use model::answers::{Answer, Answers, Set};
        use record::enquiry::PhotoPlace;
        let (_folder, service) = opened().await;
        received(&service, 1, at(0)).await;
        let key = store::read(&an_enquiry(1)).unwrap().envelope.client_key;
        while let Some(taken) = take(&service, Way::Mail, at(0)).await.unwrap() {
            mark(&service, Way::Mail, &taken, Ok(()), at(0)).await.unwrap();
        }
        let put = async |added: &Added, when: Timestamp| {
            let mut transaction = service.database.write().await.unwrap();
            add(&mut transaction, &service, &key, added, when).await.unwrap();
            transaction.commit().await.unwrap();
        };
        let minutes = |minutes: i64| at(minutes * 60);
        let mut photo = Added::begun(minutes(1));
        photo.photo(PhotoPlace::Board);
        put(&photo, minutes(1)).await;
        put(&photo, minutes(8)).await;
        begin(&service, minutes(9)).await.unwrap();
        hurry(&service, Way::Mail, minutes(10)).await.unwrap();
        assert_eq!(take(&service, Way::Mail, minutes(17)).await.unwrap(), None, "the last came nine minutes ago");
        let taken = take(&service, Way::Mail, minutes(18)).await.unwrap().unwrap();
        let added: Added = serde_json::from_str(taken.added.as_deref().unwrap()).unwrap();
        assert_eq!((added.photos["board"], added.at), (2, minutes(1)), "one mail for both");
        let letter = Letter::of(&service, &key, Some(added), false).await.unwrap().unwrap();
        let written = letter.written("");
        assert!(written.text.contains("\n- Photos at the fuse board: 2\n"), "{}", written.text);
        assert!(written.subject.starts_with("Added, ZZ"), "{}", written.subject);
        assert!(written.follows.is_some() && written.attached.is_empty());
        assert!(letter.payload().contains(r#""type":"enquiry.added""#), "{}", letter.payload());

        // What comes while that one is being sent is told apart, and a danger at once.
        let mut danger = Added::begun(minutes(19));
        let mut after = Answers::default();
        after.hazard.signs = Answer::Known(Set::of(&[model::answers::HazardSign::Smoke]));
        danger.changed(&Answers::default(), &after, 1);
        assert!(danger.danger && danger.answers == ["hazard"], "{danger:?}");
        put(&photo, minutes(19)).await;
        assert_eq!(take(&service, Way::Mail, minutes(19)).await.unwrap(), None);
        put(&danger, minutes(19)).await;
        let second = take(&service, Way::Mail, minutes(19)).await.unwrap().unwrap();
        assert_ne!(second.id, taken.id);
        let added: Added = serde_json::from_str(second.added.as_deref().unwrap()).unwrap();
        assert_eq!((added.photos["board"], added.danger), (1, true));
        let letter = Letter::of(&service, &key, Some(added), false).await.unwrap().unwrap();
        assert!(letter.written("").subject.starts_with("Danger reported, ZZ"), "{}", letter.written("").subject);

        for sent in [&taken, &second] {
            mark(&service, Way::Mail, sent, Ok(()), minutes(19)).await.unwrap();
        }
        // However often something is added, the first of it waits no longer than an hour.
        for minute in (20..=78).step_by(2) {
            put(&photo, minutes(minute)).await;
        }
        assert!(take(&service, Way::Mail, minutes(79)).await.unwrap().is_none());
        assert!(take(&service, Way::Mail, minutes(80)).await.unwrap().is_some());
    }

    #[tokio::test]
    async fn a_copy_that_its_address_does_not_take_is_given_up_at_once() {
        let (_folder, service) = opened().await;
        received(&service, 1, at(0)).await;
        let key = store::read(&an_enquiry(1)).unwrap().envelope.client_key;
        let told = take(&service, Way::Mail, at(0)).await.unwrap().unwrap();
        mark(&service, Way::Mail, &told, Ok(()), at(0)).await.unwrap();
        let mut transaction = service.database.write().await.unwrap();
        put_copy(&mut transaction, service.telling.mail.as_ref().unwrap(), &key, at(0)).await.unwrap();
        transaction.commit().await.unwrap();
        for (failure, lasting) in [("nobody answers", false), ("no such mailbox", true)] {
            let copy = take(&service, Way::Mail, at(3600)).await.unwrap().unwrap();
            assert_eq!(copy.what, COPY);
            let failure = Err(Failure { why: failure.into(), lasting });
            mark(&service, Way::Mail, &copy, failure, at(3600)).await.unwrap();
            begin(&service, at(3600)).await.unwrap();
        }
        assert_eq!(take(&service, Way::Mail, at(8000)).await.unwrap(), None);
        assert_eq!(unsent(&service).await.unwrap().given_up, 1);
        assert_eq!(send_again(&service).await.unwrap(), 0);
    }

    #[test]
    fn a_lease_is_longer_than_sending_can_take() {
        let longest = mail::LONGEST.max(webhook::LONGEST);
        assert!(LEASE.unsigned_abs() > longest, "{LEASE} {longest:?}");
    }

    #[test]
    fn waits_grow_to_an_hour() {
        let waits: Vec<i64> = (1..=12).map(|tries| wait_after(tries, false).as_secs()).collect();
        assert_eq!(waits, [5, 10, 20, 40, 80, 160, 320, 640, 1280, 2560, 3600, 3600]);
        assert_eq!(wait_after(1, true).as_secs(), 3600, "where somebody has to change something first");
        assert_eq!(wait_after(i64::MAX, false).as_secs(), 3600);
    }

    #[tokio::test]
    async fn it_waits_and_is_given_up_after_days_and_stays() {
        let (_folder, service) = opened().await;
        received(&service, 1, at(0)).await;
        let taken = take(&service, Way::Mail, at(0)).await.unwrap().unwrap();
        mark(&service, Way::Mail, &taken, failed(false), at(1)).await.unwrap();
        assert_eq!(take(&service, Way::Mail, at(5)).await.unwrap(), None);
        let taken = take(&service, Way::Mail, at(6)).await.unwrap().unwrap();
        mark(&service, Way::Mail, &taken, failed(true), at(6)).await.unwrap();
        assert_eq!(take(&service, Way::Mail, at(3605)).await.unwrap(), None);
        let late = at(0) + GIVEN_UP_AFTER;
        let taken = take(&service, Way::Mail, late).await.unwrap().unwrap();
        mark(&service, Way::Mail, &taken, failed(false), late).await.unwrap();
        begin(&service, late).await.unwrap();
        assert_eq!(take(&service, Way::Mail, late + LONGEST_WAIT).await.unwrap(), None);
        let unsent_now = unsent(&service).await.unwrap();
        let mail = unsent_now.rows.iter().find(|row| row.way == "mail").unwrap();
        assert_eq!((unsent_now.given_up, &*mail.state, mail.tries), (1, "given-up", 3));
        assert_eq!(mail.failure.as_deref(), Some("nobody answers"));
        assert_eq!(send_again(&service).await.unwrap(), 1);
        let again = take(&service, Way::Mail, store::now()).await.unwrap().unwrap();
        assert_eq!((again.id, again.tries), (taken.id, 1));
    }
}
