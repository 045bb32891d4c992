//! Copies of an enquiry to the homeowner who ticked for one: only where the setup offers them, one an address a day, and so many in all.
//!
//! Anybody can type anybody's address into a form, so this must be of no use for mailing strangers: the text is fixed ([`Letter`]), a form
//! that looks like a robot's has none, and what is mailed is counted by the hash of the address for a day.
//!
//! [`Letter`]: super::letter::Letter

use super::secret::hash_of;
use super::{Service, outbox};
use jiff::{SignedDuration, Timestamp};
use model::config::is_mail_address;
use record::enquiry::Enquiry;
use sqlx::SqliteConnection;

/// How long an address has had its copy. This program's choice: a day.
const A_DAY: SignedDuration = SignedDuration::from_hours(24);
/// The most copies within that time, to all addresses together. This program's choice: half of the enquiries that are usually taken.
const MOST_A_DAY: i64 = 100;

/// Has a copy mailed to whoever wishes one, in the transaction that stores the enquiry. Where there are too many there is none.
///
/// # Errors
/// The database's.
pub(super) async fn put(
    transaction: &mut SqliteConnection,
    service: &Service,
    enquiry: &Enquiry,
    now: Timestamp,
) -> Result<(), sqlx::Error> {
    let contact = &enquiry.payload.contact;
    let address = contact.email.trim();
    let Some(settings) = service.telling.mail.as_ref().filter(|settings| settings.mail.copies) else { return Ok(()) };
    if !contact.copy || !is_mail_address(address) {
        return Ok(());
    }
    drop_old(transaction, now).await?;
    let mailed: i64 = sqlx::query_scalar("SELECT count(*) FROM copies").fetch_one(&mut *transaction).await?;
    if mailed >= MOST_A_DAY {
        tracing::warn!(mailed, "no copy is mailed: as many as are allowed went out within a day");
        return Ok(());
    }
    let first = sqlx::query("INSERT INTO copies (address_hash, at) VALUES (?, ?) ON CONFLICT DO NOTHING")
        .bind(hash_of(&mailbox_of(address)))
        .bind(now.to_string())
        .execute(&mut *transaction)
        .await?;
    if first.rows_affected() == 0 {
        return Ok(());
    }
    outbox::put_copy(transaction, settings, &enquiry.envelope.client_key, now).await
}

/// The mailbox that an address most likely leads to: case, dots before the `@` and what follows a `+` make no other one. Where they do, a copy
/// too few is mailed on that day.
fn mailbox_of(address: &str) -> String {
    let address = address.to_lowercase();
    match address.rsplit_once('@') {
        Some((local, domain)) => format!("{}@{domain}", local.split('+').next().unwrap_or(local).replace('.', "")),
        None => address,
    }
}

/// Drops what is older than a day.
///
/// # Errors
/// The database's.
pub(super) async fn forget(service: &Service, now: Timestamp) -> Result<(), sqlx::Error> {
    let mut transaction = service.database.write().await?;
    drop_old(&mut transaction, now).await?;
    transaction.commit().await
}

async fn drop_old(connection: &mut SqliteConnection, now: Timestamp) -> Result<(), sqlx::Error> {
    // What a clock that was ahead wrote goes too: it would count for ever.
    sqlx::query("DELETE FROM copies WHERE at <= ? OR at > ?")
        .bind((now - A_DAY).to_string())
        .bind(now.to_string())
        .execute(connection)
        .await
        .map(drop)
}

#[cfg(test)]
mod tests {
    use super::super::Telling;
    use super::super::demo::an_enquiry;
    use super::super::store::{self, json_of};
    use super::*;
    use model::config::demo_setup;

    async fn opened(copies: bool) -> (tempfile::TempDir, Service) {
        let folder = tempfile::tempdir().unwrap();
        let mut setup = demo_setup();
        let mail = r#"{"server":"localhost","encryption":"none","from":"form@installer.invalid"}"#;
        setup.mail = serde_json::from_str(mail).unwrap();
        setup.mail.as_mut().unwrap().copies = copies;
        let service = Service::open(folder.path(), &setup.publish(), None, true).await.unwrap();
        (folder, service.with_telling(Telling::of(&setup, None)))
    }

    async fn sent(service: &Service, number: u64, email: &str, copy: bool, now: Timestamp) {
        let mut enquiry = store::read(&an_enquiry(1)).unwrap();
        enquiry.envelope.client_key = format!("{number:032x}");
        enquiry.payload.contact.telephone = "01632 960123".into();
        (enquiry.payload.contact.email, enquiry.payload.contact.copy) = (email.into(), copy);
        store::receive(service, json_of(&enquiry).as_bytes(), now, || number).await.unwrap();
    }

    async fn count(service: &Service, what: &'static str) -> i64 {
        sqlx::query_scalar(what).fetch_one(service.database.readers()).await.unwrap()
    }

    const MAILS: &str = "SELECT count(*) FROM outbox WHERE what = 'copy'";

    #[tokio::test]
    async fn it_is_mailed_only_if_offered_wished_and_once_a_day_for_an_address() {
        let now: Timestamp = "2026-11-29T10:00:00Z".parse().unwrap();
        let (_folder, without) = opened(false).await;
        sent(&without, 1, "person@example.invalid", true, now).await;
        assert_eq!(count(&without, MAILS).await, 0, "it is not offered");
        let (_folder, service) = opened(true).await;
        assert!(service.config.config.copies);
        for (number, (email, copy, mails)) in [
            ("person@example.invalid", false, 0),
            ("", true, 0),
            ("no address", true, 0),
            ("a@example.invalid, b@example.invalid", true, 0),
            ("person@example.invalid", true, 1),
            ("Person+again@Example.invalid", true, 1),
            ("per.s.on@example.invalid", true, 1),
            ("other@example.invalid", true, 2),
        ]
        .into_iter()
        .enumerate()
        {
            sent(&service, number as u64, email, copy, now).await;
            assert_eq!(count(&service, MAILS).await, mails, "{email} {copy}");
        }
        let later = now + A_DAY;
        sent(&service, 9, "person@example.invalid", true, later).await;
        assert_eq!(count(&service, MAILS).await, 3, "on another day");
        forget(&service, later + A_DAY).await.unwrap();
        assert_eq!(count(&service, "SELECT count(*) FROM copies").await, 0, "no address's hash is kept longer");
    }

    #[tokio::test]
    async fn there_are_no_more_than_so_many_a_day() {
        let now: Timestamp = "2026-11-29T10:00:00Z".parse().unwrap();
        let (_folder, service) = opened(true).await;
        for number in 0..MOST_A_DAY as u64 + 2 {
            sent(&service, number, &format!("person{number}@example.invalid"), true, now).await;
        }
        assert_eq!(count(&service, MAILS).await, MOST_A_DAY);
        assert_eq!(count(&service, "SELECT count(*) FROM enquiries").await, MOST_A_DAY + 2, "every enquiry is kept");
    }
}
