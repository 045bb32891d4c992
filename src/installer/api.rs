//! The service's requests and responses as types. Unknown fields are ignored, so that a newer service that sends more is still understood.

use super::enquiry_rows::{EnquiryRow, RowFlag};
use engine::assessment::{Asked, Assessment, Band, Complexity, Gatekeeper, Reason};
use engine::flags::Weight;
use jiff::Timestamp;
use model::answers::Answers;
use model::answers::choices::words;
use model::config::PointPapers;
use record::enquiry::{Became, Enquiry, Reference};
use serde::{Deserialize, Serialize};

words! {
    /// Whether the form's and the service's assessments of the same answers agree.
    pub enum Agreement {
        /// They agree to the byte.
        Equal => "equal",
        /// They differ, though made with the same date, engine and config.
        Different => "different",
        /// They were made with another date, engine or config and are not compared.
        NotCompared => "not-compared",
        /// The service could not assess the answers.
        NotAssessed => "not-assessed",
    }
}

/// One page of the list as the service sends it.
#[derive(Debug, Deserialize)]
pub struct ListPage {
    enquiries: Vec<Summary>,
    /// The position at which the next page begins; `None` on the last page.
    pub next: Option<String>,
}

impl ListPage {
    /// Its rows as the list shows them.
    pub fn rows(self) -> impl Iterator<Item = EnquiryRow> {
        self.enquiries.into_iter().map(EnquiryRow::from)
    }
}

#[derive(Debug, Deserialize)]
struct Summary {
    client_key: String,
    reference: Option<Reference>,
    received: Timestamp,
    #[serde(default)]
    name: String,
    postcode: Option<String>,
    complexity: Complexity,
    #[serde(default)]
    reasons: Vec<Reason>,
    #[serde(default)]
    settle: Vec<String>,
    band: Option<Band>,
    #[serde(default)]
    invented: bool,
    #[serde(default)]
    top_flags: Vec<TopFlag>,
    #[serde(default)]
    gates: Vec<Gatekeeper>,
    #[serde(default)]
    asked: Option<Asked>,
    photos: PhotoCount,
    handled: bool,
    #[serde(default)]
    corrected: bool,
}

#[derive(Debug, Deserialize)]
struct TopFlag {
    code: String,
    weight: Weight,
    #[serde(default)]
    evidence: Vec<String>,
}

#[derive(Debug, Deserialize)]
struct PhotoCount {
    arrived: usize,
    listed: usize,
}

impl From<Summary> for EnquiryRow {
    fn from(summary: Summary) -> Self {
        Self {
            key: summary.client_key,
            reference: summary.reference,
            name: summary.name,
            outward: summary.postcode.unwrap_or_default(),
            received: summary.received,
            complexity: summary.complexity,
            reasons: summary.reasons,
            rests: !summary.settle.is_empty(),
            flags: summary
                .top_flags
                .into_iter()
                .map(|flag| RowFlag { code: flag.code, weight: flag.weight, evidence: flag.evidence })
                .collect(),
            gates: summary.gates,
            asked: summary.asked,
            band: summary.band,
            invented: summary.invented,
            arrived: summary.photos.arrived,
            photos: summary.photos.listed,
            handled: summary.handled,
            corrected: summary.corrected,
        }
    }
}

/// One enquiry with all that the service knows of it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Detail {
    /// The key that identifies it in the service's addresses.
    pub client_key: String,
    /// Whether it was marked as handled.
    pub handled: bool,
    /// As it was sent.
    pub enquiry: Enquiry,
    /// The service's own assessment of the answers as sent.
    pub own_assessment: Option<Assessment>,
    /// Whether the form's assessment and the service's agree.
    pub agreement: Agreement,
    /// The latest corrected answers, if there are any.
    pub corrected: Option<Corrected>,
    /// SHA-256 of each photo that has arrived.
    #[serde(default)]
    pub photos_arrived: Vec<String>,
    /// What the network operator's form asks of each charge point.
    #[serde(default)]
    pub papers: Vec<PointPapers>,
    /// That it became a job, if it was marked so.
    #[serde(default)]
    pub job: Option<Job>,
}

/// Answers changed after sending, with their assessment.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Corrected {
    /// When they were changed.
    pub at: Timestamp,
    /// All answers after the change.
    pub answers: Answers,
    /// The service's assessment of them.
    pub assessment: Assessment,
}

impl Detail {
    /// The answers to show: the corrected ones, or else those sent.
    #[must_use]
    pub fn answers(&self) -> &Answers {
        self.corrected.as_ref().map_or(&self.enquiry.payload.answers, |corrected| &corrected.answers)
    }

    /// The assessment to show: of the corrected answers, or else the service's own, or else the form's. `None` if the engine panicked on
    /// these answers in both.
    #[must_use]
    pub fn assessment(&self) -> Option<&Assessment> {
        let corrected = self.corrected.as_ref().map(|corrected| &corrected.assessment);
        corrected.or(self.own_assessment.as_ref()).or(self.enquiry.payload.assessment.as_ref())
    }

    /// Whether the photo with this SHA-256 has arrived.
    #[must_use]
    pub fn arrived(&self, sha256: &str) -> bool {
        self.photos_arrived.iter().any(|name| name == sha256)
    }
}

/// The body of a request to sign in: all as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SignIn {
    /// The account's name.
    pub name: String,
    /// Its password.
    pub password: String,
    /// The code of its second factor, once the service has asked for one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub code: Option<String>,
}

/// Who is signed in.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct SignedIn {
    /// The account's name.
    pub name: String,
    /// The word of its role.
    pub role: String,
}

impl SignedIn {
    /// Whether enquiries may be deleted and exported. The service refuses it to others, whatever this page shows.
    #[must_use]
    pub fn is_owner(&self) -> bool {
        self.role == "owner"
    }
}

/// That an enquiry became a job: what the law asks to be kept of it outlives it until a day.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// What it became.
    pub became: Vec<Became>,
    /// The last day on which the rest is kept, as in JSON.
    pub until: String,
}

/// What is kept of a job whose enquiry was deleted.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Apart {
    /// The enquiry's reference.
    pub reference: String,
    /// Who had it done.
    pub name: String,
    /// Where, as far as it was given.
    #[serde(default)]
    pub postcode: String,
    /// What it became.
    pub became: Vec<Became>,
    /// The last day on which it is kept.
    pub until: String,
}

/// What the service could not send yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
pub struct Outbox {
    #[serde(default)]
    rows: Vec<UnsentRow>,
}

#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
struct UnsentRow {
    #[serde(default)]
    what: String,
    way: String,
    state: String,
    failure: Option<String>,
}

/// What could not be sent in one way, as the list's page says it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unsent<'a> {
    /// Whether these are mails; otherwise webhooks.
    pub mails: bool,
    /// How many.
    pub number: usize,
    /// Why the oldest of them was not sent.
    pub why: &'a str,
    /// Whether some are no longer tried.
    pub given_up: bool,
}

impl Outbox {
    /// Mails, then webhooks, of which a try failed. What was not tried yet is no trouble, nor is a copy that a homeowner's own address
    /// does not take.
    pub fn unsent(&self) -> impl Iterator<Item = Unsent<'_>> {
        ["mail", "webhook"].into_iter().filter_map(|way| {
            let rows =
                || self.rows.iter().filter(move |row| row.way == way && row.what != "copy" && row.failure.is_some());
            let why = rows().find_map(|row| row.failure.as_deref())?;
            let given_up = rows().any(|row| row.state == "given-up");
            Some(Unsent { mails: way == "mail", number: rows().count(), why, given_up })
        })
    }
}

/// The body of a request to store a correction.
#[derive(Serialize)]
pub struct NewAnswers<'a> {
    /// All answers, including the corrected one.
    pub answers: &'a Answers,
}

/// The body of a request to mark an enquiry as handled, or not.
#[derive(Serialize)]
pub struct Handled {
    /// Whether it is handled.
    pub handled: bool,
}

/// What the service says that it deleted.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub struct Erased {
    /// The enquiry's reference.
    pub reference: String,
    /// How many photos had arrived.
    pub photos: usize,
    /// What stays of it, because it became a job.
    #[serde(default)]
    pub kept: Option<Job>,
}

/// The body of the service's refusals.
#[derive(Debug, Default, Deserialize)]
pub struct Refusal {
    /// The reason, in one sentence.
    #[serde(default)]
    pub error: String,
    /// The word for why nobody was signed in.
    #[serde(default)]
    pub reason: String,
    /// The fields that were refused.
    #[serde(default)]
    pub fields: Vec<RefusedField>,
}

/// One field that was refused.
#[derive(Debug, Deserialize)]
pub struct RefusedField {
    /// Its path.
    pub path: String,
    /// Why it was refused.
    pub message: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_of_the_list_is_read_and_more_than_is_known_is_no_harm() {
        let json = r#"{"enquiries":[{"client_key":"k","reference":"BCDF-2346","received":"2026-11-25T21:00:00Z",
            "keep_until":"2027-05-24","name":"Invented","postcode":null,"complexity":"look-first","reasons":["unsafe"],
            "band":null,"no_band":"look-first","invented":true,"flag_counts":{"stop":1},
            "top_flags":[{"code":"looped-supply","weight":"stop"}],"gates":["network-operator"],
            "photos":{"arrived":2,"listed":3},"handled":false,"corrected":true}],"next":null,"total":1,"unhandled":1}"#;
        let page: ListPage = serde_json::from_str(json).unwrap();
        assert_eq!(page.next, None);
        let row = page.rows().next().unwrap();
        assert_eq!((row.complexity, row.arrived, row.photos, row.corrected), (Complexity::LookFirst, 2, 3, true));
        assert_eq!(row.gates, [Gatekeeper::NetworkOperator]);
        assert_eq!(row.outward, "");
        assert_eq!(row.asked, None);

        let asked = json.replace(r#""gates":"#, r#""asked":{"on":"2026-11-02","usually_by":"2026-11-16"},"gates":"#);
        let row = serde_json::from_str::<ListPage>(&asked).unwrap().rows().next().unwrap();
        let day = |day| Some(jiff::civil::date(2026, 11, day));
        assert_eq!(row.asked, Some(Asked { on: day(2), usually_by: day(16), answered: None }));
    }

    #[test]
    fn what_was_tried_and_not_sent_is_counted_by_its_way() {
        let json = r#"{"waiting":3,"given_up":1,"rows":[
            {"reference":"BCDF-2346","what":"enquiry","way":"mail","url":"","state":"given-up","failure":"nobody answers","tries":9},
            {"reference":"BCDF-2347","what":"enquiry","way":"mail","url":"","state":"waiting","failure":"still nobody","tries":2},
            {"reference":"BCDF-2347","what":"copy","way":"mail","url":"","state":"given-up","failure":"no such mailbox","tries":1},
            {"reference":"BCDF-2347","what":"additions","way":"mail","url":"","state":"waiting","failure":null,"tries":0},
            {"reference":"BCDF-2347","what":"enquiry","way":"webhook","url":"https://x.invalid/","state":"waiting","failure":"500","tries":1}]}"#;
        let outbox: Outbox = serde_json::from_str(json).unwrap();
        let unsent: Vec<_> = outbox.unsent().collect();
        assert_eq!(
            unsent,
            [
                Unsent { mails: true, number: 2, why: "nobody answers", given_up: true },
                Unsent { mails: false, number: 1, why: "500", given_up: false },
            ]
        );
        assert_eq!(Outbox::default().unsent().count(), 0);
    }

    #[test]
    fn the_corrected_assessment_stands_before_the_services_and_that_before_the_forms() {
        let mut detail = crate::sample::detail();
        let engine = |detail: &Detail| detail.assessment().map(|assessment| assessment.engine.clone());
        let mut own = detail.own_assessment.take().unwrap();
        let sent = detail.enquiry.payload.assessment.as_mut().unwrap();
        sent.engine = "form".into();
        assert_eq!(engine(&detail).as_deref(), Some("form"));
        own.engine = "service".into();
        detail.own_assessment = Some(own.clone());
        assert_eq!(engine(&detail).as_deref(), Some("service"));
        own.engine = "corrected".into();
        let answers = Answers::default();
        detail.corrected = Some(Corrected { at: Timestamp::UNIX_EPOCH, answers: answers.clone(), assessment: own });
        assert_eq!(engine(&detail).as_deref(), Some("corrected"));
        assert_eq!(detail.answers(), &answers);
    }
}
