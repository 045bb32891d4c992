//! Assesses every kept enquiry again with the prices published now: after a change of rates the list shows what a job costs today, and
//! after a change of the engine all assessments come from the same version.
//!
//! Enquiries are read a page at a time, assessed on all cores and written in one transaction a page, so memory use does not grow with their
//! number. An interrupted run starts again from the beginning without harm.

use super::Service;
use super::error::Refusal;
use super::said_by::{self, Change};
use super::store::{self, json_of};
use super::summary::{Summary, Urgency};
use engine::assessment::{Assessment, ENGINE, assess};
use model::config::Config;
use rayon::prelude::*;

/// Enquiries read at a time.
const PAGE: i64 = 200;

/// How far a run has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Enquiries in all.
    pub of: u64,
    /// Enquiries assessed again so far.
    pub done: u64,
    /// Enquiries left as they were, as this version can't read them.
    pub left: u64,
}

/// One kept enquiry: its key, its record, and the latest correction's number.
type Kept = (String, String, Option<i64>);

/// Assesses every kept enquiry again, with its latest corrected answers where there are any. `told` is called after each page with the
/// progress so far; the last progress is returned.
///
/// # Errors
/// The database's, in words for a log.
pub async fn assess_again(service: &Service, mut told: impl FnMut(Progress)) -> Result<Progress, String> {
    run(service, &mut told).await.map_err(|refusal| refusal.to_string())
}

/// Assesses every kept enquiry again if another version of the engine did so last; `None` if it was this version and nothing was to do.
///
/// # Errors
/// The database's, in words for a log.
pub(super) async fn catch_up(service: &Service) -> Result<Option<Progress>, String> {
    let last: Option<String> = sqlx::query_scalar("SELECT value FROM settings WHERE name = 'engine'")
        .fetch_optional(service.database.readers())
        .await
        .map_err(|why| why.to_string())?;
    if last.as_deref() == Some(ENGINE) {
        return Ok(None);
    }
    let progress = assess_again(service, |_| {}).await?;
    let done = sqlx::query(
        "INSERT INTO settings (name, value) VALUES ('engine', ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value",
    );
    service.database.execute(done.bind(ENGINE)).await.map_err(|why| why.to_string())?;
    Ok(Some(progress))
}

async fn run(service: &Service, told: &mut impl FnMut(Progress)) -> Result<Progress, Refusal> {
    let of: i64 = sqlx::query_scalar("SELECT count(*) FROM enquiries").fetch_one(service.database.readers()).await?;
    let mut progress = Progress { of: of.unsigned_abs(), ..Progress::default() };
    let mut after = String::new();
    loop {
        let page: Vec<Kept> = sqlx::query_as(
            "SELECT client_key, record,
               (SELECT max(id) FROM corrections c WHERE c.client_key = enquiries.client_key)
             FROM enquiries WHERE client_key > ? ORDER BY client_key LIMIT ?",
        )
        .bind(&after)
        .bind(PAGE)
        .fetch_all(service.database.readers())
        .await?;
        let Some((last, ..)) = page.last() else { return Ok(progress) };
        let changed: Vec<(String, String, String)> = sqlx::query_as(
            "SELECT client_key, said_by, answers FROM corrections WHERE client_key > ? AND client_key <= ? ORDER BY id",
        )
        .bind(&after)
        .bind(last)
        .fetch_all(service.database.readers())
        .await?;
        after.clone_from(last);
        let published = std::sync::Arc::clone(&service.config);
        let worked = tokio::task::spawn_blocking(move || {
            let changes = |key: &str| {
                let its = changed.iter().filter(move |(other, ..)| other == key);
                its.map(|(_, said_by, answers)| said_by::change(said_by, answers)).collect::<Result<Vec<_>, _>>().ok()
            };
            page.into_par_iter().map(|kept| work(changes(&kept.0)?, kept, &published.config)).collect::<Vec<_>>()
        })
        .await
        .map_err(Refusal::ours)?;
        let mut transaction = service.database.write().await?;
        for made in worked {
            let Some(Again { key, correction, assessment, summary, urgency }) = made else {
                progress.left += 1;
                continue;
            };
            progress.done += 1;
            // A correction made meanwhile is newer than this assessment and is not overwritten.
            sqlx::query(
                "UPDATE enquiries SET summary = ?, gravity = ?, weight = ? WHERE client_key = ?
                   AND (SELECT max(id) FROM corrections c WHERE c.client_key = enquiries.client_key) IS ?",
            )
            .bind(summary)
            .bind(urgency.gravity)
            .bind(urgency.weight)
            .bind(&key)
            .bind(correction)
            .execute(&mut *transaction)
            .await?;
            // The assessment that the homeowner was shown stays in the record. It used other prices, so it is no longer compared with the
            // service's own.
            let statement = match correction {
                Some(_) => "UPDATE corrections SET assessment = ? WHERE client_key = ? AND id = ?",
                None => "UPDATE enquiries SET own_assessment = ?, agreement = 'not-compared' WHERE client_key = ?",
            };
            let query = sqlx::query(statement).bind(assessment).bind(&key);
            match correction {
                Some(id) => query.bind(id).execute(&mut *transaction).await?,
                None => query.execute(&mut *transaction).await?,
            };
        }
        transaction.commit().await?;
        told(progress);
    }
}

/// One enquiry assessed again, as the columns to write.
struct Again {
    key: String,
    correction: Option<i64>,
    assessment: String,
    summary: String,
    urgency: Urgency,
}

fn work(changes: Vec<Change>, (key, record, correction): Kept, config: &Config) -> Option<Again> {
    let payload = store::read_kept(record.as_bytes()).ok()?.payload;
    let answers = said_by::latest(&payload.answers, changes);
    let assessment: Assessment = assess(&answers, config);
    Some(Again {
        key,
        correction,
        summary: Summary::of(&payload.contact, &answers, Some(&assessment)).json(),
        urgency: Urgency::of(Some(&assessment)),
        assessment: json_of(&assessment),
    })
}

#[cfg(test)]
mod tests {
    use super::super::demo::an_enquiry;
    use super::super::store;
    use super::*;
    use model::config::demo_config;
    use model::units::Pence;

    #[tokio::test]
    async fn dearer_rates_make_every_kept_band_dearer_and_lose_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let mut config = demo_config();
        let service = Service::open(folder.path(), &config, None, true).await.unwrap();
        let mut draws = 1..;
        for enquiry in 1..=3 {
            store::receive(&service, &an_enquiry(enquiry), store::now(), || draws.next().unwrap()).await.unwrap();
        }
        let keys: Vec<String> = sqlx::query_scalar("SELECT client_key FROM enquiries ORDER BY 1")
            .fetch_all(service.database.readers())
            .await
            .unwrap();
        let correction = sqlx::query(
            "INSERT INTO corrections (client_key, at, answers, assessment) VALUES (?, '2026-01-01T00:00:00Z', '{}', '{}')",
        );
        service.database.execute(correction.bind(&keys[0])).await.unwrap();
        service
            .database
            .execute(sqlx::query("UPDATE enquiries SET record = '{}' WHERE client_key = ?").bind(&keys[2]))
            .await
            .unwrap();
        service.close().await;

        config.rates.hour = Pence(config.rates.hour.0 * 2);
        config.version = "dearer".into();
        let service = Service::open(folder.path(), &config, None, true).await.unwrap();
        let mut told = Vec::new();
        let progress = assess_again(&service, |progress| told.push(progress)).await.unwrap();
        assert_eq!(progress, Progress { of: 3, done: 2, left: 1 });
        assert_eq!(told, [progress]);
        let stored = |sql: &'static str, key: String| {
            let pool = service.database.readers().clone();
            async move {
                let json: String = sqlx::query_scalar(sql).bind(key).fetch_one(&pool).await.unwrap();
                serde_json::from_str::<Assessment>(&json).unwrap()
            }
        };
        let own = stored("SELECT own_assessment FROM enquiries WHERE client_key = ?", keys[1].clone()).await;
        let changed = stored("SELECT assessment FROM corrections WHERE client_key = ?", keys[0].clone()).await;
        assert_eq!((own.config.as_str(), changed.config.as_str()), ("dearer", "dearer"));

        service
            .database
            .execute(sqlx::query("INSERT INTO settings (name, value) VALUES ('engine', '0.0.1')"))
            .await
            .unwrap();
        assert_eq!(catch_up(&service).await.unwrap(), Some(progress), "another engine did it last");
        assert_eq!(catch_up(&service).await.unwrap(), None, "and now this one");
    }
}
