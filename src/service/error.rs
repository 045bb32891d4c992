//! The one error type of every handler: it becomes a status, a sentence and a list of fields. The database's own message goes to the log
//! only.

use super::limits::{FORM_BYTES, PHOTO_BYTES};
use axum::Json;
use axum::extract::rejection::BytesRejection;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use record::json::Unreadable;
use schemars::JsonSchema;
use serde::Serialize;

const PHOTO_MEGABYTES: usize = PHOTO_BYTES / MEGABYTE;
const FORM_MEGABYTES: usize = FORM_BYTES / MEGABYTE;
/// Arithmetic: 2^20, which people call a megabyte.
const MEGABYTE: usize = 1024 * 1024;

/// Why a request is refused.
#[derive(Debug, thiserror::Error, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub(super) enum Refusal {
    #[error("this is not JSON: {0}")]
    NotJson(String),
    #[error("{}", one_or_more(.0))]
    NotAllowed(Vec<Field>),
    #[error("this is for {given:?}; this service receives enquiries for {allowed:?} alone")]
    OtherInstaller { given: String, allowed: String },
    #[error("this is too large; it may be at most {most} bytes")]
    TooLarge { most: usize },
    #[error("photo {number} is too large; it may have at most {PHOTO_MEGABYTES} MB")]
    PhotoTooLarge { number: usize },
    #[error(
        "with all its photos this is too large; it may have at most {FORM_MEGABYTES} MB: send fewer photos or smaller ones"
    )]
    FormTooLarge,
    #[error("this is not a form that can be read: {0}")]
    NotAForm(String),
    #[error(
        "the <form> needs enctype=\"multipart/form-data\": as it was sent, its photos are left out or its fields can't be told apart"
    )]
    NotMultipart,
    #[error(
        "this address takes what a form posts, and nothing was sent to it; the <form> needs method=\"post\" and enctype=\"multipart/form-data\""
    )]
    NotPosted,
    #[error("the body did not arrive whole; send it again")]
    NotWhole,
    #[error("a photo may be image/jpeg or image/webp")]
    NotAPhoto,
    #[error("there is nothing here")]
    NotFound,
    #[error("this needs the header `Authorization: Bearer` and the secret made when the enquiry was sent")]
    NoSecret,
    #[error("this secret is not the one made when the enquiry was sent")]
    WrongSecret,
    #[error("this link opens nothing: it was not copied whole, or the enquiry it belongs to is no longer kept")]
    LinkOpensNothing,
    #[error("sign in first")]
    NotSignedIn,
    #[error("this name and this password do not go together")]
    WrongPassword,
    #[error("the password is right, and a code is needed beside it: the one that the app shows now")]
    CodeNeeded,
    #[error("this code is not right, or was used already; wait for the next one")]
    WrongCode,
    #[error("this is for an owner of this service; ask them to do it")]
    OwnerAlone,
    #[error("too many attempts to sign in; wait {seconds} seconds and try again")]
    TooManyAttempts { seconds: i64 },
    #[error("too many enquiries from this address; wait {seconds} seconds and send it again")]
    TooManyPosts { seconds: i64 },
    #[error("too many photos from this address; wait {seconds} seconds and send it again")]
    TooManyPhotos { seconds: i64 },
    #[error("too much is being sent just now and nothing of this was kept; send it again in {seconds} seconds")]
    Full { seconds: i64 },
    #[error("this took too long to arrive and nothing of it was kept; send it again")]
    TooSlow,
    #[error(
        "so many enquiries have come within a day that this one can't be taken yet, and nothing of it was kept; send it again later"
    )]
    Later { seconds: i64 },
    #[error("many photos are being looked through just now and nothing was kept; send it again in a minute")]
    Busy,
    #[error("this needs the header `X-Presurvey: 1`, which only the installer's own page sends")]
    NotFromOurPage,
    #[error("something is wrong at our end and nothing was changed; try again in a while")]
    Ours(#[source] Box<dyn std::error::Error + Send + Sync>),
}

/// One field with a value that is not allowed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(super) struct Field {
    pub(super) path: String,
    pub(super) message: String,
}

/// What a refusal says: the JSON of its response, beside which it lies as an extension for a page to be made of (`plain_page`).
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(super) struct Told {
    pub(super) error: String,
    pub(super) fields: Vec<Field>,
    /// What a page that signs somebody in goes by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) reason: Option<&'static str>,
}

/// Which kind of refusal an answer is; lies in it as an extension.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kind(pub(super) &'static str);

fn one_or_more(fields: &[Field]) -> String {
    match fields {
        [one] if one.path.is_empty() => one.message.clone(),
        [one] => format!("`{}`: {}", one.path, one.message),
        several => format!("{} fields are not allowed", several.len()),
    }
}

impl Refusal {
    /// The HTTP status of the response.
    pub(super) fn status(&self) -> StatusCode {
        match self {
            Self::NotJson(_) | Self::NotAForm(_) | Self::NotWhole => StatusCode::BAD_REQUEST,
            Self::NotAllowed(_) | Self::OtherInstaller { .. } => StatusCode::UNPROCESSABLE_ENTITY,
            Self::TooLarge { .. } | Self::PhotoTooLarge { .. } | Self::FormTooLarge => StatusCode::PAYLOAD_TOO_LARGE,
            Self::NotAPhoto | Self::NotMultipart => StatusCode::UNSUPPORTED_MEDIA_TYPE,
            Self::NotPosted => StatusCode::METHOD_NOT_ALLOWED,
            Self::NotFound | Self::LinkOpensNothing => StatusCode::NOT_FOUND,
            Self::NoSecret | Self::NotSignedIn | Self::WrongPassword | Self::CodeNeeded | Self::WrongCode => {
                StatusCode::UNAUTHORIZED
            }
            Self::WrongSecret | Self::NotFromOurPage | Self::OwnerAlone => StatusCode::FORBIDDEN,
            Self::TooManyAttempts { .. } | Self::TooManyPosts { .. } | Self::TooManyPhotos { .. } => {
                StatusCode::TOO_MANY_REQUESTS
            }
            Self::TooSlow => StatusCode::REQUEST_TIMEOUT,
            Self::Busy | Self::Full { .. } | Self::Later { .. } => StatusCode::SERVICE_UNAVAILABLE,
            Self::Ours(_) => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    /// The fields that are not allowed; empty if the refusal is about something else.
    pub(super) fn fields(&self) -> Vec<Field> {
        match self {
            Self::NotAllowed(fields) => fields.clone(),
            Self::OtherInstaller { .. } => {
                vec![Field { path: "envelope.installer".into(), message: self.to_string() }]
            }
            _ => Vec::new(),
        }
    }

    /// The word by which a page tells apart why nobody was signed in.
    fn reason(&self) -> Option<&'static str> {
        matches!(self, Self::WrongPassword | Self::CodeNeeded | Self::WrongCode).then(|| self.into())
    }

    /// A refusal of one field: its path, and what it may be.
    pub(super) fn field(path: impl Into<String>, message: impl Into<String>) -> Self {
        Self::NotAllowed(vec![Field { path: path.into(), message: message.into() }])
    }

    /// A fault of the service itself; `why` goes to the log, not to the visitor.
    pub(super) fn ours(why: impl Into<Box<dyn std::error::Error + Send + Sync>>) -> Self {
        Self::Ours(why.into())
    }

    /// Why a body could not be taken: larger than `most` bytes, or cut short.
    pub(super) fn of_body(rejection: &BytesRejection, most: usize) -> Self {
        if rejection.status() == StatusCode::PAYLOAD_TOO_LARGE { Self::TooLarge { most } } else { Self::NotWhole }
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        if let Self::Ours(why) = &self {
            tracing::error!(error = %why, "a request failed");
        }
        let told = Told { error: self.to_string(), fields: self.fields(), reason: self.reason() };
        let mut response = (self.status(), Json(&told)).into_response();
        response.extensions_mut().insert(told);
        response.extensions_mut().insert(Kind((&self).into()));
        response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
        let wait = match self {
            Self::TooManyAttempts { seconds }
            | Self::TooManyPosts { seconds }
            | Self::TooManyPhotos { seconds }
            | Self::Full { seconds }
            | Self::Later { seconds } => Some(seconds),
            Self::Busy => Some(60), // as its sentence says
            _ => None,
        };
        if let Some(seconds) = wait {
            response.headers_mut().insert(header::RETRY_AFTER, HeaderValue::from(seconds));
        }
        response
    }
}

impl From<sqlx::Error> for Refusal {
    fn from(why: sqlx::Error) -> Self {
        Self::ours(why)
    }
}

impl From<std::io::Error> for Refusal {
    fn from(why: std::io::Error) -> Self {
        Self::ours(why)
    }
}

impl From<Unreadable> for Refusal {
    fn from(unreadable: Unreadable) -> Self {
        match unreadable {
            Unreadable::NotJson(why) => Self::NotJson(why),
            Unreadable::NotAllowed { path, why, .. } => Self::field(path, why),
        }
    }
}
