//! The answers that count now, and who gave each: what was sent, then every change in order, by the homeowner or the installer.
//!
//! This is not stored: which answers the installer recorded follows from the changes themselves, those kept by earlier versions included.
//! What a homeowner's page claims about it is ignored.

use super::error::Refusal;
use super::store;
use model::answers::topics::TOPICS;
use model::answers::{Answers, Recorded};
use sqlx::SqliteConnection;

/// The answers after a change, and who made it.
pub(super) struct Change {
    /// Whether the installer made it; otherwise the homeowner, by a link.
    pub(super) by_installer: bool,
    /// All the answers after it.
    pub(super) answers: Answers,
}

/// The answers after the last change, those that the installer recorded marked.
pub(super) fn latest(sent: &Answers, changes: impl IntoIterator<Item = Change>) -> Answers {
    let mut now = Answers { recorded: Recorded::NONE, ..sent.clone() };
    for Change { by_installer, answers } in changes {
        let recorded = TOPICS.iter().fold(now.recorded, |recorded, (topic, accessors)| {
            accessors.iter().filter(|accessor| (accessor.get)(&now) != (accessor.get)(&answers)).fold(
                recorded,
                |recorded, accessor| {
                    let path = [*topic, ".", accessor.name].concat();
                    if by_installer { recorded.with(&path) } else { recorded.without(&path) }
                },
            )
        });
        now = Answers { recorded, ..answers };
    }
    now
}

/// The answers of one enquiry that count now.
///
/// # Errors
/// Where there is no such enquiry, or its rows can't be read.
pub(super) async fn latest_of(connection: &mut SqliteConnection, client_key: &str) -> Result<Answers, Refusal> {
    let record: Option<String> = sqlx::query_scalar("SELECT record FROM enquiries WHERE client_key = ?")
        .bind(client_key)
        .fetch_optional(&mut *connection)
        .await?;
    let sent = store::read_kept(record.ok_or(Refusal::NotFound)?.as_bytes()).map_err(Refusal::ours)?.payload.answers;
    Ok(latest(&sent, changes_of(connection, client_key).await?))
}

/// Every change of one enquiry's answers, oldest first.
///
/// # Errors
/// Where the rows can't be read.
pub(super) async fn changes_of(connection: &mut SqliteConnection, client_key: &str) -> Result<Vec<Change>, Refusal> {
    let rows: Vec<(String, String)> =
        sqlx::query_as("SELECT said_by, answers FROM corrections WHERE client_key = ? ORDER BY id")
            .bind(client_key)
            .fetch_all(&mut *connection)
            .await?;
    rows.iter().map(|(said_by, answers)| change(said_by, answers).map_err(Refusal::ours)).collect()
}

/// A change from its columns.
pub(super) fn change(said_by: &str, answers: &str) -> Result<Change, serde_json::Error> {
    Ok(Change { by_installer: said_by == "installer", answers: serde_json::from_str(answers)? })
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Age, Answer, BoundedCount};

    #[test]
    fn who_said_each_answer_follows_from_the_changes() {
        let mut sent = Answers::default();
        sent.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        // A homeowner's page can't mark answers as recorded by the installer.
        sent.recorded = Recorded::NONE.with("meter.fuse_carriers");
        let recorded = |changes: Vec<Change>| latest(&sent, changes).recorded.iter().collect::<Vec<_>>();
        assert_eq!(recorded(Vec::new()), [""; 0]);
        let mut corrected = sent.clone();
        corrected.home.age = Answer::Known(Age::To1966);
        corrected.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        let by_installer = |answers: &Answers| Change { by_installer: true, answers: answers.clone() };
        assert_eq!(recorded(vec![by_installer(&corrected)]), ["home.age", "meter.head_conductors"]);
        let mut by_link = corrected.clone();
        by_link.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        by_link.meter.street_cables = Answer::Known(BoundedCount::new(1).unwrap());
        let homeowners = Change { by_installer: false, answers: by_link.clone() };
        assert_eq!(recorded(vec![by_installer(&corrected), homeowners]), ["home.age"], "said anew by the homeowner");
        let mut taken_back = by_link.clone();
        taken_back.meter.fuse_carriers = Answer::NotSure;
        let homeowners = Change { by_installer: false, answers: by_link };
        assert_eq!(
            recorded(vec![by_installer(&corrected), homeowners, by_installer(&taken_back)]),
            ["home.age", "meter.fuse_carriers"]
        );
    }
}
