//! A plain form posted whole, turned into the record that the form's own script would have sent.
//!
//! For visitors without a script, and for forms that others make: the fields of a mail form, photos as files (multipart/form-data), or fields
//! alone (application/x-www-form-urlencoded). Everything is read and checked before anything is stored. If a part `enquiry` holds the record
//! itself, the other fields only repeat it for people and are not read.
//!
//! A field that is not known is no reason to lose an enquiry: what is in it goes to the end of the note, where the installer reads it. What
//! can't be kept there whole is refused by its name.

use super::bodies::{Share, Unparsed};
use super::cleaning;
use super::error::{Field as Wrong, Refusal};
use super::limits::{ENQUIRY_BYTES, PHOTO_BYTES};
use super::photos::{Arriving, Draft};
use super::picture::{PictureKind, check_picture, jpeg_size};
use super::{Service, secret, store};
use axum::body::Bytes;
use axum::extract::Multipart;
use axum::extract::multipart::{Field, MultipartError};
use axum::http::StatusCode;
use engine::assessment::ENGINE;
use jiff::civil::Date;
use model::answers::{AnswerKind, Answers, RawAnswer, Word};
use model::questions::{Question, question};
use record::enquiry::{
    CURRENT_VERSION, Contact, Enquiry, Envelope, MOST_PHOTOS, MOST_SIGNS, Payload, Photo, PhotoPlace, Reach, is_hex,
};
use sha2::{Digest, Sha256};
use wording::{Words, service as words};

/// The most characters that are kept of a word without a space in a field that is not known: a code for a script, which nobody typed. This
/// program's choice.
const MOST_OF_A_CODE: usize = 100;
/// The most characters that are shown of a name or a word that is not known: this program's choice.
const MOST_SHOWN: usize = 60;

/// The fields that a form may hold; README.md says what each is.
const FIELDS: [&str; 22] = [
    "hazard",
    "hazard-when",
    "hazard-place",
    "name",
    "telephone",
    "email",
    "reach",
    "when",
    "postcode",
    "note",
    "address",
    "supply_number",
    "photo",
    "offers",
    "copy",
    "language",
    "client_key",
    "enquiry",
    "summary",
    "consent",
    SECONDS,
    TRAP,
];

/// The field that people do not see. A form in which something stands there is kept and marked, not refused or put last: a browser that
/// fills in forms by itself may have done it, and a danger may be reported in it.
const TRAP: &str = "website";

/// How many seconds after it was begun a form was sent, where a script says so.
const SECONDS: &str = "seconds";
/// A form that was sent sooner than this many seconds after it was begun is marked as perhaps a robot's: this program's choice, less than
/// anybody needs for a name and a telephone number.
const TOO_FAST: u32 = 3;

/// A form, read and checked: the record as it is to be stored, and its photos.
pub(super) struct Letter {
    pub(super) record: Vec<u8>,
    pub(super) photos: Vec<Arrived>,
    /// The secret with which it may be deleted; none where the form brings its own record.
    pub(super) deletion_secret: Option<String>,
}

/// A photo that came with a form.
pub(super) struct Arrived {
    pub(super) sha256: String,
    pub(super) draft: Draft,
    width: u32,
    height: u32,
}

/// What was read from the fields.
#[derive(Default)]
struct Said {
    contact: Contact,
    answers: Answers,
    hazards: Vec<String>,
    client_key: Option<String>,
    seconds: Option<u32>,
    record: Option<Vec<u8>>,
    /// The photos as they came.
    photos: Vec<Draft>,
    /// What is in fields that are not known, or came a second time: name and text.
    others: Vec<(String, String)>,
    /// All that makes two forms the same one or not.
    sent: Sha256,
}

/// Reads and checks a form with photos, which go into files as they come. `texts` is the room that its texts take; `unparsed` is told of
/// each part that came out of the parser.
///
/// # Errors
/// [`Refusal`], naming the field and what it may be.
pub(super) async fn read(
    service: &Service,
    mut form: Multipart,
    mut texts: Share,
    unparsed: &Unparsed,
) -> Result<Letter, Refusal> {
    let mut said = Said::default();
    while let Some(field) = form.next_field().await.map_err(not_read)? {
        unparsed.came_out();
        let name = plain_name(field.name().unwrap_or_default());
        let is_file = field.file_name().is_some();
        match name.as_str() {
            "photo" => {
                // A browser sends an empty file if none was chosen.
                let Some(draft) = photo(service, field, said.photos.len() + 1, unparsed).await? else { continue };
                said.counts("photo", &hex::decode(&draft.sha256).map_err(Refusal::ours)?);
                said.photos.push(draft);
            }
            "enquiry" => {
                let bytes = whole(field, &mut texts, unparsed).await?;
                said.record = Some(bytes).filter(|bytes| !bytes.is_empty());
            }
            _ => {
                let strange_file = is_file && !is_known(&name);
                let text = match whole(field, &mut texts, unparsed).await {
                    // A photo under another name is large as a rule: its name is said, not its size.
                    Err(Refusal::TooLarge { .. }) if strange_file => vec![0],
                    text => text?,
                };
                if strange_file && !text.is_empty() {
                    return Err(Refusal::field(
                        shown(&name),
                        "this is a file; files are taken in the field `photo` alone",
                    ));
                }
                let text = str::from_utf8(&text).map_err(|_| not_text(&name))?;
                take(&mut said, &name, text)?;
            }
        }
    }
    finish(service, said).await
}

/// A photo of a form, from its field into a file; `None` for an empty one.
async fn photo(
    service: &Service,
    mut field: Field<'_>,
    number: usize,
    unparsed: &Unparsed,
) -> Result<Option<Draft>, Refusal> {
    let mut arriving: Option<Arriving> = None;
    let mut length = 0;
    while let Some(piece) = field.chunk().await.map_err(not_read)? {
        unparsed.came_out();
        if piece.is_empty() {
            continue;
        }
        length += piece.len();
        if length > PHOTO_BYTES {
            return Err(Refusal::PhotoTooLarge { number });
        }
        if number > MOST_PHOTOS {
            return Err(Refusal::field("photo", format!("there may be at most {MOST_PHOTOS}")));
        }
        let arriving = match &mut arriving {
            Some(arriving) => arriving,
            none => none.insert(Arriving::begin(service).await?),
        };
        arriving.write(&piece).await?;
    }
    Ok(match arriving {
        Some(arriving) => Some(arriving.finish().await?),
        None => None,
    })
}

/// Reads and checks a form without photos, as a browser sends one that does not say `enctype="multipart/form-data"`.
///
/// # Errors
/// As for [`read`]; and [`Refusal::NotMultipart`] where it has photos or a file, of which nothing but the name was sent.
pub(super) async fn read_urlencoded(service: &Service, body: &[u8]) -> Result<Letter, Refusal> {
    let mut said = Said::default();
    for (name, text) in form_urlencoded::parse(body) {
        let name = plain_name(&name);
        // Bytes that are no UTF-8 are decoded to this sign.
        if text.contains(char::REPLACEMENT_CHARACTER) {
            return Err(not_text(&name));
        }
        match name.as_str() {
            "photo" | "enquiry" if text.is_empty() => {}
            "photo" | "enquiry" => return Err(Refusal::NotMultipart),
            _ => take(&mut said, &name, &text)?,
        }
    }
    finish(service, said).await
}

/// Some website hosts want the name of a repeatable field to end in `[]`.
fn plain_name(name: &str) -> String {
    name.trim_end_matches("[]").to_owned()
}

async fn finish(service: &Service, mut said: Said) -> Result<Letter, Refusal> {
    let Some(record) = said.record.take() else {
        let photos = cleaned(service, std::mem::take(&mut said.photos)).await?;
        let deletion_secret = secret::draw();
        let record = written(service, said, &photos, &deletion_secret)?;
        return Ok(Letter { record, photos, deletion_secret: Some(deletion_secret) });
    };
    // Whoever writes the record lists its photos by their hashes: these can't be changed any more.
    let mut photos = Vec::with_capacity(said.photos.len());
    for (draft, number) in said.photos.into_iter().zip(1..) {
        let turn = service.bodies.looked_at_in_forms.turn().await?;
        let (_, size) = draft.looked_at(turn, move |bytes| as_listed(bytes, number)).await?;
        photos.push(Arrived::of(draft, size?));
    }
    let enquiry = store::read(&record).map_err(by_field)?;
    let listed = |photo: &Arrived| enquiry.payload.photos.iter().any(|listed| listed.sha256 == photo.sha256);
    match photos.iter().position(|photo| !listed(photo)) {
        Some(at) => {
            Err(Refusal::field("photo", format!("photo {} is not one that the enquiry beside it lists", at + 1)))
        }
        None => Ok(Letter { record: record.to_vec(), photos, deletion_secret: None }),
    }
}

impl Said {
    /// Has a field count in what makes two forms the same one. Lengths stand before what is said, so that no two forms run into one.
    fn counts(&mut self, name: &str, said: &[u8]) {
        for part in [name.as_bytes(), said] {
            self.sent.update((part.len() as u64).to_be_bytes());
            self.sent.update(part);
        }
    }

    /// The key of a form that brings none: sent again on the same day it is the same enquiry. On another day it is a new one, for somebody
    /// who asks again in the same few words must not be taken for a page that was loaded again.
    fn key(&mut self, today: Date) -> String {
        self.counts("day", today.to_string().as_bytes());
        hex::encode(&self.sent.finalize_reset()[..16]) // half of the hash: a key has 32 digits
    }
}

/// Takes one field of text into `said`.
fn take(said: &mut Said, name: &str, text: &str) -> Result<(), Refusal> {
    // A browser ends lines with both; counted so, a note of as many characters as its field allows would be too long.
    let text = text.replace("\r\n", "\n");
    let text = text.trim();
    if text.is_empty() || is_passed_over(name) {
        return Ok(());
    }
    // The same form sent again took longer.
    let is_time = name == SECONDS && text.parse::<u32>().is_ok();
    if name != "client_key" && !is_time {
        said.counts(name, text.as_bytes());
    }
    let contact = &mut said.contact;
    let line = match name {
        "name" => &mut contact.name,
        "telephone" => &mut contact.telephone,
        "email" => &mut contact.email,
        "when" => &mut contact.when,
        "note" => &mut contact.note,
        "address" => &mut contact.address,
        "supply_number" => &mut contact.supply_number,
        "language" => &mut contact.language,
        // A field that earlier forms sent; accepted, but nothing needs it.
        "consent" => {
            contact.consent = is_ticked(text);
            return Ok(());
        }
        "offers" => {
            contact.offers = is_ticked(text);
            return Ok(());
        }
        "copy" => {
            contact.copy = is_ticked(text);
            return Ok(());
        }
        "reach" => {
            contact.reach = Some(Reach::ALL[word(name, Reach::WORDS, text)?]);
            return Ok(());
        }
        "hazard" => {
            said.hazards.push(text.to_owned());
            return Ok(());
        }
        "postcode" | "hazard-when" | "hazard-place" => return answer(&mut said.answers, name, text),
        "client_key" if is_hex(text, 32) => {
            said.client_key = Some(text.to_owned());
            return Ok(());
        }
        "client_key" => {
            return Err(Refusal::field(name, "it may be 32 hexadecimal digits, drawn once for each enquiry"));
        }
        SECONDS if text.parse::<u32>().is_ok() => {
            said.seconds = text.parse().ok();
            return Ok(());
        }
        TRAP => {
            said.others.push((name.to_owned(), text.to_owned()));
            return Ok(());
        }
        // A danger must not end as a remark that nothing is sorted by.
        slip if slip.to_lowercase().starts_with("hazard") => {
            return Err(Refusal::field(
                shown(slip),
                "there is no such field; there may be hazard, hazard-when and hazard-place",
            ));
        }
        other => {
            said.others.push((shown(other), text.to_owned()));
            return Ok(());
        }
    };
    if line.is_empty() {
        text.clone_into(line);
    } else if line != text {
        // The second field of this name: neither is lost.
        said.others.push((name.to_owned(), text.to_owned()));
    }
    Ok(())
}

/// Whether a field is not read: a summary for whoever reads the mail, which the record says too; a button; and what begins with `_`, which
/// is how a website names what it sends to itself.
fn is_passed_over(name: &str) -> bool {
    name == "summary" || name == "submit" || name.starts_with('_')
}

/// Whether a tick box was ticked; one without a value of its own sends `on`.
fn is_ticked(text: &str) -> bool {
    matches!(text, "yes" | "on")
}

fn is_known(name: &str) -> bool {
    FIELDS.contains(&name)
}

fn not_text(name: &str) -> Refusal {
    Refusal::field(shown(name), "this is not text in UTF-8")
}

/// A stranger's name of a field, short and on one line.
fn shown(name: &str) -> String {
    name.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).take(MOST_SHOWN).collect()
}

/// The note with what was sent in other fields under it, a line for each: `name: text`.
///
/// # Errors
/// [`Refusal`] if there is no room for all of it.
fn note_with(note: &str, others: &[(String, String)], mark: Option<&str>) -> Result<String, Refusal> {
    let mark = mark.map_or_else(String::new, |mark| [mark, "\n\n"].concat());
    if others.is_empty() {
        return fitting([&*mark, note].concat(), others);
    }
    let lines = others.iter().map(|(name, text)| {
        let is_code = !text.contains(char::is_whitespace) && text.chars().count() > MOST_OF_A_CODE;
        let mut text: String = if is_code { text.chars().take(MOST_OF_A_CODE).collect() } else { text.clone() };
        text.retain(|sign| matches!(sign, '\n' | '\t') || !sign.is_control());
        // Further lines stand in, so that none of them passes for another field.
        let text = text.replace('\n', "\n  ");
        format!("{name}: {text}{}", if is_code { "…" } else { "" })
    });
    let title = Words::new(wording::service::EN).say(words::OTHERS_TITLE);
    let note = [mark.as_str(), note, if note.is_empty() { "" } else { "\n\n" }, title, "\n"].concat();
    fitting(note + &lines.collect::<Vec<_>>().join("\n"), others)
}

/// Why a form is perhaps a robot's, in words for the installer; `None` where nothing speaks for it.
fn suspicion(said: &Said) -> Option<String> {
    let speech = Words::new(wording::service::EN);
    if said.others.iter().any(|(name, _)| name == TRAP) {
        return Some(speech.say(words::ROBOT).to_owned());
    }
    let seconds = said.seconds.filter(|seconds| *seconds < TOO_FAST)?;
    Some(speech.fill(words::ROBOT_FAST, &[("seconds", &seconds.to_string())]))
}

/// A note, if all of it can be kept.
fn fitting(note: String, others: &[(String, String)]) -> Result<String, Refusal> {
    let (signs, most) = (note.chars().count(), MOST_SIGNS.note);
    if signs <= most {
        return Ok(note);
    }
    let names = names_of(others);
    Err(Refusal::field(
        "note",
        format!("with what is in other fields ({names}) it has {signs} characters; it may have at most {most}"),
    ))
}

fn names_of(others: &[(String, String)]) -> String {
    others.iter().map(|(name, _)| format!("`{name}`")).collect::<Vec<_>>().join(", ")
}

/// One answer, in the words of an answers file.
fn answer(answers: &mut Answers, id: &str, text: &str) -> Result<(), Refusal> {
    let question = known(id);
    let given = match question.kind {
        _ if text == "not-sure" => RawAnswer::NotSure,
        AnswerKind::One(words) => {
            RawAnswer::One(u8::try_from(word(id, words, text)?).expect("the longest list has thirty words"))
        }
        _ => RawAnswer::Line(text.to_owned()),
    };
    if (question.set)(answers, &given) {
        Ok(())
    } else {
        Err(Refusal::field(id, "it may look like ZZ1 1AA, or its first half"))
    }
}

/// The hazards that were ticked: no field is a question not answered, `none` that there were none.
fn hazards(answers: &mut Answers, ticked: &[String]) -> Result<(), Refusal> {
    let question = known("hazard");
    let AnswerKind::Any(words) = question.kind else { unreachable!("hazards are a list of words") };
    let given = match ticked {
        [] => return Ok(()),
        [one] if one == "none" => RawAnswer::Any(0),
        some if some.iter().any(|word| word == "not-sure") => RawAnswer::NotSure,
        some => {
            let named = some.iter().filter(|word| *word != "none");
            RawAnswer::Any(
                named
                    .map(|text| word("hazard", words, text))
                    .try_fold(0, |bits, at| Ok::<_, Refusal>(bits | 1 << at?))?,
            )
        }
    };
    (question.set)(answers, &given);
    Ok(())
}

fn known(id: &str) -> &'static Question {
    question(id).expect("a test checks that the catalogue has every name above")
}

fn word(field: &str, words: &[&str], text: &str) -> Result<usize, Refusal> {
    words.iter().position(|word| *word == text).ok_or_else(|| {
        let text: String = text.chars().take(MOST_SHOWN).collect();
        Refusal::field(field, format!("{text:?} is not allowed; it may be {}", words.join(", ")))
    })
}

/// Photos as they are stored: those that are not plain are cleaned, one after the other.
async fn cleaned(service: &Service, photos: Vec<Draft>) -> Result<Vec<Arrived>, Refusal> {
    let mut place = None;
    let mut cleaned = Vec::with_capacity(photos.len());
    for (draft, number) in photos.into_iter().zip(1..) {
        let turn = service.bodies.looked_at_in_forms.turn().await?;
        let look = move |bytes: &[u8]| as_listed(bytes, number).map_err(|_| Bytes::copy_from_slice(bytes));
        // The turn lasts as long as the bytes are held.
        let (_turn, seen) = draft.looked_at(turn, look).await?;
        let bytes = match seen {
            // The form's own script sends plain ones: they wait for no decoder.
            Ok(size) => {
                cleaned.push(Arrived::of(draft, size));
                continue;
            }
            Err(bytes) => bytes,
        };
        if place.is_none() {
            place = Some(service.cleaning.place().ok_or(Refusal::Busy)?);
        }
        let photo = service.cleaning.clean(bytes).await.map_err(|why| not_a_photo(number, &why))?;
        let cleaning::Photo { bytes, width, height } = photo;
        cleaned.push(Arrived::of(Draft::of(service, &bytes).await?, (width, height)));
    }
    Ok(cleaned)
}

impl Arrived {
    fn of(draft: Draft, (width, height): (u32, u32)) -> Self {
        Self { sha256: draft.sha256.clone(), draft, width, height }
    }
}

/// The size of a photo that is stored as it came, which only a plain JPEG is.
fn as_listed(bytes: &[u8], number: usize) -> Result<(u32, u32), Refusal> {
    let kind = check_picture(bytes).map_err(|why| not_a_photo(number, &why))?;
    let size = jpeg_size(bytes).filter(|_| kind == PictureKind::Jpeg);
    size.ok_or_else(|| not_a_photo(number, &"it may be a JPEG picture"))
}

fn not_a_photo(number: usize, why: &dyn std::fmt::Display) -> Refusal {
    Refusal::field("photo", format!("photo {number}: {why}"))
}

/// The record made of the fields. It has no assessment: the service makes its own of every record.
fn written(service: &Service, mut said: Said, photos: &[Arrived], deletion_secret: &str) -> Result<Vec<u8>, Refusal> {
    let config = &service.config.config;
    hazards(&mut said.answers, &said.hazards)?;
    let today = store::day_of(store::now());
    let key = said.key(today);
    said.answers.as_of = Some(today);
    let suspicion = suspicion(&said);
    // Nothing is mailed for a robot.
    said.contact.copy &= suspicion.is_none();
    said.contact.note = match note_with(&said.contact.note, &said.others, suspicion.as_deref()) {
        // A mark alone must not cost an enquiry.
        Err(_) if said.others.is_empty() => said.contact.note,
        note => note?,
    };
    let enquiry = Enquiry {
        version: CURRENT_VERSION,
        envelope: Envelope {
            installer: config.installer.id.clone(),
            client_key: said.client_key.unwrap_or(key),
            deletion_hash: secret::hash_of(deletion_secret),
            addition_hash: None,
            photo_sizes: photos.iter().map(|photo| photo.draft.length as u64).collect(),
            reference: None,
            received: None,
            keep_until: None,
        },
        payload: Payload {
            contact: said.contact,
            answers: said.answers,
            assessment: None,
            photos: photos
                .iter()
                .map(|photo| Photo {
                    sha256: photo.sha256.clone(),
                    place: PhotoPlace::Other,
                    width: photo.width,
                    height: photo.height,
                    marks: Vec::new(),
                })
                .collect(),
            as_of: today,
            engine: ENGINE.to_owned(),
            config: config.version.clone(),
        },
    };
    let record = store::json_of(&enquiry).into_bytes();
    match store::read(&record).map_err(by_field) {
        Ok(_) => Ok(record),
        Err(refusal) => Err(with_slips(refusal, &said.others)),
    }
}

/// A refusal that also names the fields that are not known: what is missing may stand there under another name.
fn with_slips(refusal: Refusal, others: &[(String, String)]) -> Refusal {
    match refusal {
        Refusal::NotAllowed(mut fields) if !others.is_empty() => {
            for field in fields.iter_mut().filter(|field| ["name", "telephone"].contains(&field.path.as_str())) {
                field.message += &format!("; the form has no such field but {}", names_of(others));
            }
            Refusal::NotAllowed(fields)
        }
        other => other,
    }
}

/// A field of text, whole.
async fn whole(mut field: Field<'_>, texts: &mut Share, unparsed: &Unparsed) -> Result<Vec<u8>, Refusal> {
    let mut whole = Vec::new();
    while let Some(piece) = field.chunk().await.map_err(not_read)? {
        unparsed.came_out();
        if whole.len() + piece.len() > ENQUIRY_BYTES {
            return Err(Refusal::TooLarge { most: ENQUIRY_BYTES });
        }
        texts.grow(piece.len())?;
        whole.extend_from_slice(&piece);
    }
    Ok(whole)
}

fn not_read(why: MultipartError) -> Refusal {
    if why.status() == StatusCode::PAYLOAD_TOO_LARGE {
        Refusal::FormTooLarge
    } else {
        Refusal::NotAForm(why.body_text())
    }
}

/// A record's path as the form's own field.
fn by_field(refusal: Refusal) -> Refusal {
    match refusal {
        Refusal::NotAllowed(fields) => Refusal::NotAllowed(
            fields
                .into_iter()
                .map(|Wrong { path, message }| {
                    let own = path.strip_prefix("payload.contact.").unwrap_or(&path).to_owned();
                    Wrong { path: own, message }
                })
                .collect(),
        ),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fields_that_are_questions_are_of_the_catalogue() {
        let mut answers = Answers::default();
        for (id, text) in
            [("postcode", "ZZ1"), ("hazard-when", "long-ago"), ("hazard-place", "meter"), ("hazard-place", "not-sure")]
        {
            answer(&mut answers, id, text).unwrap();
            assert_ne!((known(id).get)(&answers), RawAnswer::Nothing);
        }
        assert!(answer(&mut answers, "hazard-place", "roof").unwrap_err().to_string().contains("service-head"));
    }

    #[tokio::test]
    async fn where_too_many_forms_wait_a_phones_photo_is_refused_for_now_and_a_plain_one_is_taken() {
        let folder = tempfile::tempdir().unwrap();
        let service = Service::open(folder.path(), &model::config::demo_config(), None, true).await.unwrap();
        let plain = include_bytes!("demo/drawings/head-plain.jpg");
        let phones = [plain.as_slice(), b"and more"].concat();
        let draft = async |bytes: &[u8]| Draft::of(&service, bytes).await.unwrap();
        let taken: Vec<_> = std::iter::from_fn(|| service.cleaning.place()).collect();
        let drafts = vec![draft(plain).await, draft(&phones).await];
        assert!(matches!(cleaned(&service, drafts).await, Err(Refusal::Busy)));
        let kept = async |bytes: &[u8]| {
            let photos = cleaned(&service, vec![draft(bytes).await]).await.unwrap();
            let turn = service.bodies.looked_at_in_forms.turn().await.unwrap();
            photos[0].draft.looked_at(turn, <[u8]>::to_vec).await.unwrap().1
        };
        assert_eq!(kept(plain).await, plain.as_slice());
        drop(taken);
        assert_eq!(kept(&phones).await, plain.as_slice());
        let left = std::fs::read_dir(folder.path().join("photos").join(super::super::photos::ARRIVING)).unwrap();
        assert_eq!(left.count(), 0, "drafts go with what held them");
    }

    const README: &str = include_str!("../../README.md");

    /// The block of README.md that is to be pasted.
    fn form_to_paste() -> &'static str {
        let (_, rest) = README.split_once("```html own-form\n").unwrap();
        rest.split_once("\n```").unwrap().0
    }

    /// The cells of the rows of README.md's table with this head.
    fn table(head: &str) -> Vec<Vec<&'static str>> {
        let (_, rest) = README.split_once(head).unwrap();
        let rows = rest.lines().skip(2).take_while(|line| line.starts_with('|'));
        rows.map(|row| row.trim_matches('|').split('|').map(str::trim).collect()).collect()
    }

    /// The words that a field may hold, those that no list of the catalogue has last; none where any text is allowed.
    fn words_of(field: &str) -> Vec<&'static str> {
        match field {
            "hazard" | "hazard-when" | "hazard-place" => match known(field).kind {
                AnswerKind::Any(words) => [words, &["none", "not-sure"]].concat(),
                AnswerKind::One(words) => [words, &["not-sure"]].concat(),
                _ => unreachable!("dangers are chosen from lists"),
            },
            "reach" => Reach::WORDS.to_vec(),
            "offers" | "consent" | "copy" => vec!["yes", "on"],
            _ => Vec::new(),
        }
    }

    fn most_of(field: &str) -> Option<usize> {
        Some(match field {
            "name" => MOST_SIGNS.name,
            "telephone" => MOST_SIGNS.telephone,
            "email" => MOST_SIGNS.email,
            "when" => MOST_SIGNS.when,
            "note" => MOST_SIGNS.note,
            "address" => MOST_SIGNS.address,
            "supply_number" => MOST_SIGNS.supply_number,
            "language" => MOST_SIGNS.language,
            "client_key" => 32,
            _ => return None,
        })
    }

    #[test]
    fn readme_lists_every_field_with_its_words_and_its_length() {
        let quoted = |words: &[&str]| words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
        let rows = table("| field | what it holds | allowed words | most characters |");
        let listed: Vec<_> = rows.iter().map(|row| row[0].trim_matches('`')).collect();
        assert_eq!(listed, FIELDS);
        for (row, field) in rows.iter().zip(FIELDS) {
            let most = most_of(field).map_or_else(String::new, |most| most.to_string());
            assert_eq!(row[2..], [quoted(&words_of(field)), most], "{field}");
            // The service takes each of these words, and no other.
            for (word, taken) in words_of(field).into_iter().map(|word| (word, true)).chain([("a-bad-word", false)]) {
                let mut said = Said::default();
                let done = take(&mut said, field, word).and_then(|()| hazards(&mut said.answers, &said.hazards));
                let chosen = !words_of(field).is_empty() && !matches!(field, "offers" | "consent" | "copy");
                assert!(
                    done.is_ok() == (taken || !chosen) || field == "postcode" || field == "client_key",
                    "{field}: {word}"
                );
            }
        }
        let limits = [MOST_PHOTOS, PHOTO_BYTES / 1024 / 1024, super::super::limits::FORM_BYTES / 1024 / 1024];
        let [photos, one, all] = limits;
        assert!(README.contains(&format!("at most {photos}, of at most {one} MB each and {all} MB together")));
        assert!(README.contains(&format!("the note's {} characters", MOST_SIGNS.note)));
    }

    /// Every text between two others in a file, in order.
    fn between<'a>(text: &'a str, before: &str, after: &str) -> Vec<&'a str> {
        text.split(before).skip(1).filter_map(|rest| Some(rest.split_once(after)?.0)).collect()
    }

    #[test]
    fn whoever_sends_or_receives_a_form_goes_by_the_same_fields() {
        let sends = include_str!("../../www/form/plain.js");
        let mut names = between(sends, "text.append(\"", "\"");
        names.extend(between(sends, "const FIELDS = [", "]")[0].split(", ").map(|name| name.trim_matches('"')));
        let program = include_str!("../form/widget/effects/letter.rs");
        names.extend(between(program, "field(\"", "\""));
        assert!(names.len() > 20, "{names:?}");
        for name in names {
            assert!(is_known(name.trim_end_matches("[]")), "`{name}` is sent and is no field");
        }
        // On an ordinary host: what is not among these is a field of a form's own there. Files are taken apart from fields.
        let receives = include_str!("../../www/receiver/receive.php");
        let mut known: Vec<_> = between(receives, "$known = [", "];")[0].split('\'').skip(1).step_by(2).collect();
        known.extend(between(receives, "files('", "'"));
        known.sort_unstable();
        // What a robot fills in is written into the mail, as any field is that is not known there.
        let mut expected: Vec<_> = FIELDS.into_iter().filter(|field| *field != TRAP).collect();
        expected.sort_unstable();
        assert_eq!(known, expected);
    }

    #[test]
    fn readme_says_what_every_word_about_dangers_means() {
        let form = Words::new(wording::form::EN);
        let fields = ["hazard", "hazard-when", "hazard-place"];
        let pairs = fields.iter().flat_map(|field| words_of(field).into_iter().map(move |word| (*field, word)));
        let expected = pairs.map(|(field, word)| {
            let means = match word {
                "not-sure" => "Not sure".to_owned(),
                _ => wording::form::EN
                    .iter()
                    .find(|(key, _)| *key == format!("option-{field}-{word}"))
                    .unwrap()
                    .1
                    .to_owned(),
            };
            [format!("`{field}`"), format!("`{word}`"), means]
        });
        assert_eq!(table("| field | word | what it means |"), expected.collect::<Vec<_>>());
        // The form to paste has the same words, says the same of each, and whom to ring.
        let pasted = form_to_paste();
        for row in table("| field | word | what it means |") {
            let [field, word] = [row[0], row[1]].map(|cell| cell.trim_matches('`'));
            let offered = format!("name=\"{field}\" value=\"{word}\"> {}</label>", row[2]);
            assert!(pasted.contains(&offered), "{offered}");
        }
        for key in [
            wording::form::EMERGENCY_LEAVE,
            wording::form::EMERGENCY_GAS,
            wording::form::EMERGENCY_NEUTRAL,
            wording::form::EMERGENCY_LIGHTS,
            wording::form::EMERGENCY_UNKNOWN_PLACE,
            wording::form::HINT_HAZARD,
        ] {
            assert!(pasted.contains(form.say(key)), "{}", form.say(key));
        }
    }

    #[test]
    fn the_form_to_paste_has_the_fields_and_asks_about_dangers_first() {
        let pasted = form_to_paste();
        let names = pasted.split(" name=\"").skip(1).map(|rest| rest.split_once('"').unwrap().0);
        let mut names: Vec<_> = names.collect();
        names.dedup();
        let fields: Vec<_> = FIELDS.into_iter().filter(|field| names.contains(field)).collect();
        assert_eq!([names.iter().filter(|name| is_known(name)).count(), fields.len()], [names.len(); 2], "{names:?}");
        assert_eq!(names[..3], ["hazard", "hazard-when", "hazard-place"]);
        let left_out: Vec<_> = FIELDS.into_iter().filter(|field| !names.contains(field)).collect();
        assert_eq!(left_out, ["offers", "copy", "language", "client_key", "enquiry", "summary", "consent", "seconds"]);
        assert!(
            pasted.contains(&format!("<p hidden><label>Leave this empty<br><input name=\"{TRAP}\"")),
            "people do not see it"
        );
        for tag in pasted.split('<').filter(|tag| tag.contains(" maxlength=")) {
            let value = |of: &str| tag.split_once(&format!(" {of}=\"")).unwrap().1.split_once('"').unwrap().0;
            let most = most_of(value("name")).unwrap_or("ZZ11 1AA".len());
            assert_eq!(value("maxlength"), most.to_string(), "{tag}");
        }
        let at = |what: &str| pasted.find(what).unwrap_or_else(|| panic!("{what}"));
        assert!(at("ring 999") < at("name=\"hazard\"") && at("touch, open and switch nothing") < at("name=\"note\""));
        assert!(at("name=\"hazard-place\"") < at("name=\"name\"") && at("name=\"name\"") < at("name=\"photo\""));
        assert!(pasted.starts_with("<form method=\"post\" enctype=\"multipart/form-data\" action=\""));
    }

    #[test]
    fn hazards_are_one_answer() {
        let of = |ticked: &[&str]| {
            let mut answers = Answers::default();
            let ticked: Vec<String> = ticked.iter().map(|word| (*word).to_owned()).collect();
            hazards(&mut answers, &ticked).map(|()| answers.hazard.signs)
        };
        use model::answers::{Answer, HazardSign, Set};
        assert_eq!(of(&[]).unwrap(), Answer::NotAsked);
        assert_eq!(of(&["none"]).unwrap(), Answer::Known(Set::NONE));
        assert_eq!(of(&["not-sure", "smoke"]).unwrap(), Answer::NotSure);
        assert_eq!(of(&["none", "smoke"]).unwrap(), Answer::Known(Set::of(&[HazardSign::Smoke])));
        assert!(of(&["a bad feeling"]).unwrap_err().to_string().contains("buzzing"));
    }
}
