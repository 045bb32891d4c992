//! `POST /api/installer/enquiries/{client_key}/link`: makes a link that asks the homeowner for a few answers and nothing else.
//!
//! Only the hash of its token is kept, and the link opens as long as the enquiry is kept. What it allows is in `additions`.

use super::error::{Field, Refusal};
use super::limits::{ENQUIRY_BYTES, MOST_QUESTIONS};
use super::{Service, said_by, secret};
use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use model::questions::{Place, Question, may_look, question};
use record::json::read_json;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Wanted {
    #[schemars(length(min = 1, max = MOST_QUESTIONS))]
    questions: Vec<String>,
}

/// A link that was made.
#[derive(Serialize, JsonSchema)]
pub(super) struct Link {
    /// The part of the address after `#`, which browsers send to no server.
    fragment: String,
    /// The last day on which it opens.
    keep_until: String,
}

/// Whether answering this takes a look at meter, board or pipes.
fn sends_to_look(question: &Question) -> bool {
    matches!(question.place, Place::Meter | Place::Board | Place::Pipes)
}

/// Answers a POST: makes a link for the questions in the body.
///
/// # Errors
/// [`Refusal`]: no such enquiry, or questions that can't be asked of this home.
#[utoipa::path(
    post,
    path = "/api/installer/enquiries/{client_key}/link",
    operation_id = "make_link",
    description = "Makes a link that asks the homeowner for a few answers.",
    params(("client_key" = String, Path, description = "The enquiry's key: 32 hexadecimal digits.")),
    request_body = ref("#/components/schemas/Wanted"),
    responses(
        (status = 201, description = "The link.", body = ref("#/components/schemas/Link")),
        (status = 404, description = "There is no such enquiry.", body = ref("#/components/schemas/Told")),
        (status = 400, description = "This is not JSON, or it did not arrive whole.", body = ref("#/components/schemas/Told")),
        (status = 413, description = "This is too large.", body = ref("#/components/schemas/Told")),
        (status = 422, description = "Something in it is not allowed; `fields` says what.", body = ref("#/components/schemas/Told")),
    ),
)]
pub(super) async fn post(
    State(service): State<Service>,
    Path(client_key): Path<String>,
    body: Result<Bytes, BytesRejection>,
) -> Result<(StatusCode, Json<Link>), Refusal> {
    let json = body.map_err(|rejection| Refusal::of_body(&rejection, ENQUIRY_BYTES))?;
    let Wanted { questions } = read_json(&json)?;
    if questions.is_empty() || questions.len() > MOST_QUESTIONS {
        return Err(Refusal::field("questions", format!("it may name 1 to {MOST_QUESTIONS} questions")));
    }
    let mut connection = service.database.readers().acquire().await?;
    let answers = said_by::latest_of(&mut connection, &client_key).await?;
    let problems: Vec<Field> = questions
        .iter()
        .enumerate()
        .filter_map(|(at, id)| {
            let why = match question(id) {
                None => "there is no such question",
                Some(known) if sends_to_look(known) && !may_look(&answers) => {
                    "nobody is sent to look there while a danger is known or not ruled out"
                }
                Some(known) if !(known.asked)(&answers) => {
                    "this is not asked of this home, by what was answered so far"
                }
                Some(_) => return None,
            };
            let id: String = id.chars().take(60).collect();
            Some(Field { path: format!("questions[{at}]"), message: format!("{id:?}: {why}") })
        })
        .collect();
    if !problems.is_empty() {
        return Err(Refusal::NotAllowed(problems));
    }
    let known: Vec<&str> = questions.iter().filter_map(|id| question(id)).map(|Question { id, .. }| *id).collect();
    let token = hex::encode(rand::random::<[u8; 16]>());
    let insert = sqlx::query("INSERT INTO links (token_hash, client_key, questions) VALUES (?, ?, ?)")
        .bind(secret::hash_of(&token))
        .bind(&client_key)
        .bind(known.join(" "));
    service.database.execute(insert).await?;
    let keep_until = sqlx::query_scalar("SELECT keep_until FROM enquiries WHERE client_key = ?")
        .bind(&client_key)
        .fetch_one(&mut *connection)
        .await?;
    let fragment = format!("presurvey-link={client_key}.{token}");
    Ok((StatusCode::CREATED, Json(Link { fragment, keep_until })))
}
