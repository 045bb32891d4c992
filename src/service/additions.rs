//! `/api/enquiries/{client_key}/additions`: what a homeowner adds to an enquiry after sending it. The secret that allows this allows
//! nothing else.
//!
//! There are two kinds of secret: the one made with the enquiry, which allows photos alone, and the token of a link that asks for a few
//! answers. Neither lets its holder read what was sent or delete it, and anything added twice is stored once. The page opened with a secret
//! holds no answers, so each response tells it whether anybody may be sent to look at meter and board. With either secret a danger may be
//! reported at any time; none can be withdrawn.

use super::added::Added;
use super::bodies::Held;
use super::error::Refusal;
use super::store::{self, Receipt, json_of};
use super::summary::{Summary, Urgency};
use super::{Service, outbox, said_by, secret};
use axum::Json;
use axum::extract::{FromRequest, Path, Request, State};
use axum::http::HeaderMap;
use engine::assessment::Assessment;
use model::answers::{Answer, Answers, Hazard, HazardWhen, RawAnswer, Set};
use model::questions::{CATALOGUE, INSTALLERS, Place, Question, may_look, question};
use record::enquiry::{MOST_PHOTOS, Photo, check_photo, is_hex};
use record::json::read_json;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use tracing::Instrument;

/// What a secret allows.
#[derive(Serialize, JsonSchema)]
pub(super) struct Opened {
    reference: String,
    keep_until: String,
    /// The questions that the link asks and that still apply to this home; photos may be added in any case.
    questions: Vec<&'static str>,
    /// Whether looking at meter, board and pipes is allowed: everything known now rules a danger out.
    looks: bool,
}

/// The body of a POST: the answers and photos to add.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Additions {
    #[serde(default)]
    answers: Answers,
    #[serde(default)]
    photos: Vec<Photo>,
    #[serde(default)]
    photo_sizes: Vec<u64>,
}

/// Answers a GET: what the secret in the `Authorization` header allows.
///
/// # Errors
/// [`Refusal::LinkOpensNothing`] for an unknown enquiry or a wrong secret.
#[utoipa::path(
    get,
    path = "/api/enquiries/{client_key}/additions",
    operation_id = "read_additions",
    description = "What may be added to an enquiry with this secret.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    security(("secret" = [])),
    responses(
        (status = 200, description = "What may be added.", body = ref("#/components/schemas/Opened")),
        (status = 404, description = "There is no such enquiry, or the secret opens nothing.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn get(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    headers: HeaderMap,
) -> Result<Json<Opened>, Refusal> {
    opened(&service, &client_key, &headers).await.map(|secret| Json(secret.opened))
}

/// Answers a POST: stores the added answers and photos, and returns the receipt.
///
/// # Errors
/// As for [`get`]; and for a body that is no JSON or adds what the secret does not allow.
#[utoipa::path(
    post,
    path = "/api/enquiries/{client_key}/additions",
    operation_id = "send_additions",
    description = "Adds answers and photos to an enquiry.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    request_body = ref("#/components/schemas/Additions"),
    security(("secret" = [])),
    responses(
        (status = 200, description = "It is stored.", body = ref("#/components/schemas/Receipt")),
        (status = 404, description = "There is no such enquiry, or the secret opens nothing.", body = ref("#/components/schemas/Told")),
        (status = 408, description = "It took too long to arrive.", body = ref("#/components/schemas/Told")),
        (status = 400, description = "This is not JSON, or it did not arrive whole.", body = ref("#/components/schemas/Told")),
        (status = 413, description = "This is too large.", body = ref("#/components/schemas/Told")),
        (status = 422, description = "Something in it is not allowed; `fields` says what.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn post(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    request: Request,
) -> Result<Json<Receipt>, Refusal> {
    let opened = opened(&service, &client_key, request.headers()).await?;
    let json = Held::from_request(request, &service).await?;
    let additions: Additions = read_json(&json)?;
    check(&additions, &opened.asks)?;
    // As for the enquiry itself: a page that is closed meanwhile does not cancel this.
    let task =
        tokio::spawn(async move { add(&service, &client_key, &opened.asks, &additions).await }.in_current_span());
    task.await.map_err(Refusal::ours)?.map(Json)
}

/// What the secret in a request allows, and every question that its link asked when it was made. Answers to all of them are accepted: a
/// question may have been shown before a danger became known.
struct Secret {
    opened: Opened,
    asks: Vec<&'static str>,
}

/// Finds the enquiry and what the secret in these headers allows. A refusal does not tell whether the enquiry or the secret is unknown.
async fn opened(service: &Service, client_key: &str, headers: &HeaderMap) -> Result<Secret, Refusal> {
    let said = secret::bearer(headers).ok_or(Refusal::LinkOpensNothing)?;
    let found: Option<(String, String, Option<String>)> = sqlx::query_as(
        "SELECT reference, keep_until, addition_hash FROM enquiries WHERE client_key = ? AND keep_until >= ?",
    )
    .bind(client_key)
    .bind(store::day_of(store::now()).to_string())
    .fetch_optional(service.database.readers())
    .await?;
    // An unknown enquiry and a wrong secret get the same refusal.
    let (reference, keep_until, addition_hash) = found.ok_or(Refusal::LinkOpensNothing)?;
    let own = addition_hash.is_some_and(|kept| secret::opens(&said, &kept));
    let questions: Option<String> =
        sqlx::query_scalar("SELECT questions FROM links WHERE client_key = ? AND token_hash = ?")
            .bind(client_key)
            .bind(secret::hash_of(&said))
            .fetch_optional(service.database.readers())
            .await?;
    let questions = if own { String::new() } else { questions.ok_or(Refusal::LinkOpensNothing)? };
    let questions: Vec<&Question> = questions.split(' ').filter_map(question).collect();
    let now = said_by::latest_of(&mut *service.database.readers().acquire().await?, client_key).await?;
    let asked = questions.iter().filter(|question| (question.asked)(&now)).map(|question| question.id);
    let opened = Opened { reference, keep_until, questions: asked.collect(), looks: may_look(&now) };
    Ok(Secret { opened, asks: questions.iter().map(|question| question.id).collect() })
}

/// Whether a question is about a danger; those may be answered with any secret.
fn is_of_danger(question: &Question) -> bool {
    question.place == Place::First
}

/// Checks that only questions of the link, or of a danger, are answered, that each photo has a size, and that each hash is one.
fn check(additions: &Additions, questions: &[&str]) -> Result<(), Refusal> {
    let Additions { answers, photos, photo_sizes } = additions;
    let others = CATALOGUE.iter().chain(INSTALLERS);
    let others = others.filter(|question| !questions.contains(&question.id) && !is_of_danger(question));
    if let Some(other) = others.into_iter().find(|question| (question.get)(answers) != RawAnswer::Nothing) {
        let may =
            if questions.is_empty() { "photos alone".into() } else { format!("answers to {}", questions.join(", ")) };
        return Err(Refusal::field(
            format!("answers.{}", other.path),
            format!("this link does not ask for it; it may add {may}"),
        ));
    }
    if photos.len() != photo_sizes.len() {
        return Err(Refusal::field("photo_sizes", "it may hold one size for each photo"));
    }
    if photos.len() > MOST_PHOTOS {
        return Err(Refusal::field("photos", format!("an enquiry may hold at most {MOST_PHOTOS} photos in all")));
    }
    if let Some(at) = photos.iter().position(|photo| !is_hex(&photo.sha256, 64)) {
        return Err(Refusal::field(format!("photos[{at}].sha256"), "it may be 64 hexadecimal digits"));
    }
    let wrong = photos.iter().enumerate().find_map(|(at, photo)| check_photo(photo).err().map(|why| (at, why)));
    match wrong {
        Some((at, why)) => Err(Refusal::field(format!("photos[{at}]"), why.to_string())),
        None => Ok(()),
    }
}

async fn add(
    service: &Service,
    client_key: &str,
    questions: &[&'static str],
    additions: &Additions,
) -> Result<Receipt, Refusal> {
    let merge = |answers: &Answers| merged(answers, &additions.answers, questions);
    let before = said_by::latest_of(&mut *service.database.readers().acquire().await?, client_key).await?;
    let mut assessed = assessed(service, &before, merge(&before)).await?;
    let mut transaction = service.database.write().await?;
    let answers = said_by::latest_of(&mut transaction, client_key).await?;
    let merged = merge(&answers);
    let mut news = merged != answers;
    if news && assessed.as_ref().is_none_or(|(of, _)| *of != merged) {
        // Something was changed since it was read, which is rare: this once the others wait for the engine.
        assessed = self::assessed(service, &answers, merged.clone()).await?;
    }
    let mut added = Added::begun(store::now());
    if let Some((_, assessment)) = assessed.filter(|_| news) {
        let record: String = sqlx::query_scalar("SELECT record FROM enquiries WHERE client_key = ?")
            .bind(client_key)
            .fetch_one(&mut *transaction)
            .await?;
        let contact = store::read_kept(record.as_bytes()).map_err(Refusal::ours)?.payload.contact;
        let urgency = Urgency::of(Some(&assessment));
        sqlx::query("UPDATE enquiries SET summary = ?, gravity = ?, weight = ? WHERE client_key = ?")
            .bind(Summary::of(&contact, &merged, Some(&assessment)).json())
            .bind(urgency.gravity)
            .bind(urgency.weight)
            .bind(client_key)
            .execute(&mut *transaction)
            .await?;
        sqlx::query(
            "INSERT INTO corrections (client_key, at, said_by, answers, assessment) VALUES (?, ?, 'homeowner', ?, ?)",
        )
        .bind(client_key)
        .bind(store::now().to_string())
        .bind(json_of(&merged))
        .bind(json_of(&assessment))
        .execute(&mut *transaction)
        .await
        .map(|done| added.changed(&answers, &merged, done.last_insert_rowid()))?;
    }
    for (photo, bytes) in additions.photos.iter().zip(&additions.photo_sizes) {
        let listed =
            sqlx::query("INSERT INTO photos (client_key, sha256, added) VALUES (?, ?, ?) ON CONFLICT DO NOTHING")
                .bind(client_key)
                .bind(&photo.sha256)
                .bind(json_of(&(photo, bytes)))
                .execute(&mut *transaction)
                .await?;
        if listed.rows_affected() > 0 {
            added.photo(photo.place);
            news = true;
        }
    }
    let listed: i64 = sqlx::query_scalar("SELECT count(*) FROM photos WHERE client_key = ?")
        .bind(client_key)
        .fetch_one(&mut *transaction)
        .await?;
    if listed > MOST_PHOTOS as i64 {
        return Err(Refusal::field("photos", format!("an enquiry may hold at most {MOST_PHOTOS} photos in all")));
    }
    if news {
        // What was added may change the case: an enquiry marked as handled is open again.
        sqlx::query("UPDATE enquiries SET handled = 0 WHERE client_key = ?")
            .bind(client_key)
            .execute(&mut *transaction)
            .await?;
        outbox::add(&mut transaction, service, client_key, &added, added.at).await?;
    }
    let receipt = store::receipt(&mut transaction, client_key, !news).await?;
    transaction.commit().await?;
    if added.danger {
        service.telling.news.notify_waiters();
    }
    Ok(receipt)
}

/// Answers after an addition with their assessment; `None` where nothing was added.
async fn assessed(
    service: &Service,
    before: &Answers,
    merged: Answers,
) -> Result<Option<(Answers, Assessment)>, Refusal> {
    if merged == *before {
        return Ok(None);
    }
    let assessment = store::assess_apart(service, merged.clone())
        .await
        .ok_or_else(|| Refusal::ours("the engine gave up on answers that were added"))?;
    Ok(Some((merged, assessment)))
}

/// The answers with the given ones put in: those to questions of the link, and any danger.
fn merged(answers: &Answers, given: &Answers, questions: &[&'static str]) -> Answers {
    let mut merged = answers.clone();
    add_danger(&mut merged.hazard, &given.hazard);
    for question in questions.iter().filter_map(|id| question(id)) {
        match (question.get)(given) {
            RawAnswer::Nothing => {}
            // It passed the question's own field accessor when it was read, so it is allowed.
            said => {
                (question.set)(&mut merged, &said);
                merged.recorded = merged.recorded.without(question.path);
            }
        }
    }
    merged
}

/// Adds a reported danger, as present now and with its place, to the dangers already known; none of those is removed. An answer "not sure"
/// withdraws an earlier "none".
fn add_danger(known: &mut Hazard, found: &Hazard) {
    if found.signs.is_not_sure() && known.signs == Answer::Known(Set::NONE) {
        known.signs = Answer::NotSure;
    }
    let Some(signs) = found.counting().filter(|signs| !signs.is_empty()) else { return };
    let before = known.counting().unwrap_or(Set::NONE);
    if signs.iter().all(|sign| before.has(sign)) {
        return;
    }
    known.signs = Answer::Known(signs.iter().fold(before, Set::with));
    known.when = Answer::Known(HazardWhen::Now);
    if found.place.known().is_some() {
        known.place = found.place;
    }
    known.found_at = found.found_at;
}

/// The photos that were added after sending, with their sizes in bytes, in the order in which they were listed.
///
/// # Errors
/// The database's, and where what is kept of a photo can't be read.
pub(super) async fn photos_of(service: &Service, client_key: &str) -> Result<Vec<(Photo, u64)>, Refusal> {
    let added: Vec<String> =
        sqlx::query_scalar("SELECT added FROM photos WHERE client_key = ? AND added IS NOT NULL ORDER BY rowid")
            .bind(client_key)
            .fetch_all(service.database.readers())
            .await?;
    added.iter().map(|json| serde_json::from_str(json).map_err(Refusal::ours)).collect()
}
