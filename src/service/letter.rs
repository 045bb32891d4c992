//! What the installer is told of an enquiry: the subject and text of the mail with what is attached to it, and the payload of a webhook.
//!
//! The subject is made of the program's own words, of a postcode that was checked and of a reference: nothing that a stranger typed freely.

use super::added::Added;
use super::error::Refusal;
use super::mail::Written;
use super::{Service, store};
use engine::assessment::{Assessment, Complexity, Raised};
use jiff::Timestamp;
use model::answers::{AnswerKind, Answers};
use model::config::{Config, Installer, is_mail_address};
use model::questions::CATALOGUE;
use model::units::Pence;
use record::ViewModel;
use record::enquiry::{Contact, in_words, plain_text};
use serde::Serialize;
use wording::{Key, Words, filled, flags_installer, form, service as words, triage};

/// How many flags the first line of the mail names; the list names as many.
const NAMED_FLAGS: usize = 3;
/// The longest line that is read on a lock screen, in characters. Common practice, no source.
const LINE: usize = 100;

/// An enquiry as it is told.
pub(super) struct Letter {
    reference: String,
    received: Timestamp,
    record: String,
    contact: Contact,
    answers: Answers,
    assessment: Option<Assessment>,
    photos: usize,
    config: Config,
    /// Whether it is the homeowner's own copy.
    copy: bool,
    keep_until: String,
    /// What was added, where it tells of that; answers and assessment are then those after it.
    added: Option<Added>,
    /// The id of the mail that told of the enquiry itself.
    first: Option<String>,
}

impl Letter {
    /// The letter of a stored enquiry, of what was added to it, or its copy; `None` if there is none of this key.
    ///
    /// # Errors
    /// The database's, and where what is kept can't be read.
    pub(super) async fn of(
        service: &Service,
        client_key: &str,
        added: Option<Added>,
        copy: bool,
    ) -> Result<Option<Self>, Refusal> {
        let found: Option<(String, String, String, String, Option<String>)> = sqlx::query_as(
            "SELECT reference, received, keep_until, record, own_assessment FROM enquiries WHERE client_key = ?",
        )
        .bind(client_key)
        .fetch_optional(service.database.readers())
        .await?;
        let Some((reference, received, keep_until, record, own)) = found else { return Ok(None) };
        let payload = store::read_kept(record.as_bytes())?.payload;
        let own = own.map(|json| serde_json::from_str(&json)).transpose().map_err(Refusal::ours)?;
        let mut letter = Self {
            reference,
            received: received.parse().map_err(Refusal::ours)?,
            record,
            assessment: own.or(payload.assessment),
            photos: payload.photos.len(),
            contact: payload.contact,
            answers: payload.answers,
            config: service.config.config.clone(),
            copy,
            keep_until,
            added: None,
            first: None,
        };
        if let Some(added) = added {
            letter.tell_of(added, service, client_key).await?;
        }
        Ok(Some(letter))
    }

    /// Makes it the letter of what was added.
    async fn tell_of(&mut self, added: Added, service: &Service, client_key: &str) -> Result<(), Refusal> {
        let then: Option<(String, String)> = sqlx::query_as(
            "SELECT answers, assessment FROM corrections WHERE client_key = ? AND id <= ? ORDER BY id DESC",
        )
        .bind(client_key)
        .bind(added.correction)
        .fetch_optional(service.database.readers())
        .await?;
        if let Some((answers, assessment)) = then {
            self.answers = serde_json::from_str(&answers).map_err(Refusal::ours)?;
            self.assessment = Some(serde_json::from_str(&assessment).map_err(Refusal::ours)?);
        }
        self.first =
            sqlx::query_scalar("SELECT id FROM outbox WHERE client_key = ? AND what = 'enquiry' AND way = 'mail'")
                .bind(client_key)
                .fetch_optional(service.database.readers())
                .await?;
        self.added = Some(added);
        Ok(())
    }

    /// The mail to the installer, whose address is `installer`, or the homeowner's copy.
    pub(super) fn written(&self, installer: &str) -> Written {
        let reply_to = self.reply_to().map(str::to_owned);
        match &self.added {
            _ if self.copy => Written {
                to: reply_to,
                reply_to: Some(installer.to_owned()),
                follows: None,
                date: self.received,
                subject: say(words::COPY_SUBJECT, &[("reference", &self.reference)]),
                text: self.text_of_copy(),
                attached: Vec::new(),
            },
            None => Written {
                to: None,
                reply_to,
                follows: None,
                date: self.received,
                subject: self.subject(),
                text: self.text(),
                attached: vec![("enquiry.txt", self.all()), ("enquiry.json", self.record.clone())],
            },
            Some(added) => Written {
                to: None,
                reply_to,
                follows: self.first.clone(),
                date: added.at,
                subject: self.subject_of_added(added),
                text: self.text_of_added(added),
                attached: Vec::new(),
            },
        }
    }

    /// The homeowner's copy. Whoever typed a wrong address had it mailed to a stranger: so it holds no word that anybody typed, no name, no
    /// postcode, and no link that opens or deletes anything.
    fn text_of_copy(&self) -> String {
        let Installer { name, telephone, .. } = &self.config.installer;
        let received = self.received.strftime("%-d %b %Y, %H:%M UTC").to_string();
        let until: Option<jiff::civil::Date> = self.keep_until.parse().ok();
        let until = until.map_or_else(|| self.keep_until.clone(), |until| until.strftime("%-d %b %Y").to_string());
        let photos = self.photos.to_string();
        let places = [
            ("installer", &**name),
            ("telephone", telephone),
            ("reference", &self.reference),
            ("received", &received),
            ("photos", &photos),
            ("price", &self.price_shown()),
            ("day", &until),
        ];
        let form = Words::with_changes(form::EN, &self.config.wording);
        let mut text = [words::COPY_WHY, words::COPY_REFERENCE, words::COPY_PRICE, words::COPY_ANSWERS]
            .map(|key| say(key, &places) + "\n")
            .join("\n");
        for question in CATALOGUE {
            let typed = matches!(question.kind, AnswerKind::Line | AnswerKind::PostcodeLine);
            let said = if typed { None } else { in_words(question, &(question.get)(&self.answers), form) };
            let Some(said) = said else { continue };
            let asked = filled(form.find(&format!("question-{}", question.id)).unwrap_or(question.id), &places[..2]);
            text += &format!("- {asked} {said}\n");
        }
        for key in [words::COPY_KEPT, words::COPY_NOT_YOURS] {
            text += &format!("\n{}\n", say(key, &places));
        }
        text
    }

    /// As much of the price as a visitor of the form is shown, with what it is worth.
    fn price_shown(&self) -> String {
        let shown = self.assessment.as_ref().map(|assessment| ViewModel::of(assessment, &self.config));
        let price = match shown.as_ref().map(|shown| (shown.band, shown.from)) {
            Some((Some(band), _)) => {
                say(words::COPY_PRICE_BAND, &[("low", &pounds(band.low)), ("high", &pounds(band.high))])
            }
            Some((None, Some(from))) => say(words::COPY_PRICE_FROM, &[("low", &pounds(from))]),
            _ => return say(words::COPY_PRICE_NONE, &[]),
        };
        let invented = shown.is_some_and(|shown| shown.invented);
        if invented { format!("{price} {}", say(words::MAIL_PRICE_INVENTED, &[])) } else { price }
    }

    /// What is told on a lock screen: that something was added or a danger reported, the outward half of the postcode, the reference.
    fn subject_of_added(&self, added: &Added) -> String {
        let what = say(if added.danger { words::MAIL_ADDED_DANGER } else { words::MAIL_ADDED }, &[]);
        self.subject_with(&what)
    }

    /// A line for each thing that was added, without a word that anybody typed; then what class and price are after it.
    fn text_of_added(&self, added: &Added) -> String {
        let title = say(words::MAIL_ADDED_TITLE, &[("reference", &self.reference)]);
        let mut text = format!("{title}\n");
        text.extend(added.lines(&self.answers, &self.config).iter().map(|line| format!("- {}\n", shortened(line))));
        let names: Vec<String> = self.flags().iter().take(NAMED_FLAGS).map(|flag| name_of(flag)).collect();
        let flags = if names.is_empty() { say(words::MAIL_NOTHING_FLAGGED, &[]) } else { names.join("; ") };
        let class = say(words::MAIL_CLASS, &[("class", &self.class()), ("flags", &flags)]);
        text += &format!("\n{}\n{}\n", shortened(&class), self.price());
        for key in [words::MAIL_ADDED_WHERE, words::MAIL_NOT_A_QUOTATION] {
            text += &format!("\n{}\n", say(key, &[]));
        }
        text
    }

    /// The homeowner's address, if they gave one that can stand in a header as it is.
    pub(super) fn reply_to(&self) -> Option<&str> {
        Some(self.contact.email.trim()).filter(|address| is_mail_address(address))
    }

    /// The subject: the gravest flag by its name (where there is none, the class), the outward half of the postcode, the reference.
    pub(super) fn subject(&self) -> String {
        let gravest = self.flags().first().map(|flag| name_of(flag));
        self.subject_with(&gravest.unwrap_or_else(|| self.class()))
    }

    fn subject_with(&self, what: &str) -> String {
        let places = [("what", what), ("place", self.outward()), ("reference", &*self.reference)];
        say(if self.outward().is_empty() { words::MAIL_SUBJECT_NO_PLACE } else { words::MAIL_SUBJECT }, &places)
    }

    /// The text of the mail. Its first five lines say what to do with it: class and flags, where and how much, whom to ring, how and when, and
    /// the reference.
    pub(super) fn text(&self) -> String {
        let Contact { name, telephone, reach, when, .. } = &self.contact;
        let names: Vec<String> = self.flags().iter().take(NAMED_FLAGS).map(|flag| name_of(flag)).collect();
        let flags = if names.is_empty() { say(words::MAIL_NOTHING_FLAGGED, &[]) } else { names.join("; ") };
        let reach = reach.and_then(|reach| form::EN.find(&format!("reach-{}", reach.word())));
        let any = say(words::MAIL_REACH_ANY, &[]);
        let reach = say(words::MAIL_REACH, &[("reach", reach.unwrap_or(&any))]);
        let when =
            if when.trim().is_empty() { String::new() } else { say(words::MAIL_WHEN, &[("when", &plain(when))]) };
        let photos = say(words::MAIL_PHOTOS, &[("number", &self.photos.to_string())]);
        let day = self.received.strftime("%-d %b %Y, %H:%M UTC").to_string();
        let places = [("reference", &*self.reference), ("photos", &*photos), ("day", &*day)];
        let postcode = self.answers.home.postcode.known().map_or("", |postcode| postcode.as_str());
        let email = plain(&self.contact.email);
        let first = [
            say(words::MAIL_CLASS, &[("class", &self.class()), ("flags", &flags)]),
            joined(&[postcode, &self.price()]),
            joined(&[&plain(name), &plain(telephone), if telephone.trim().is_empty() { &email } else { "" }]),
            joined(&[&reach, &when]),
            say(words::MAIL_LAST, &places),
        ];
        let mut text: String = first.iter().map(|line| shortened(line) + "\n").collect();
        let answer = if self.reply_to().is_some() { words::MAIL_ANSWER } else { words::MAIL_NO_ANSWER };
        for key in [words::MAIL_ATTACHED, answer, words::MAIL_NOT_A_QUOTATION] {
            text += &format!("\n{}\n", say(key, &[]));
        }
        text
    }

    /// The enquiry in plain text, as the form's own mail has it, with what this service worked out.
    pub(super) fn all(&self) -> String {
        let worked_out = if self.assessment.is_some() {
            let class = Words::new(form::EN).say(form::SUMMARY_CLASS);
            let price = say(words::MAIL_PRICE_LINE, &[("price", &self.price())]);
            let mut text = format!("{class}: {}\n{price}\n", self.class());
            if !self.flags().is_empty() {
                text += &format!("\n{}\n", say(words::MAIL_FLAGS, &[]));
                text.extend(self.flags().iter().map(|flag| format!("- {}\n", name_of(flag))));
            }
            text
        } else {
            say(words::MAIL_NOT_ASSESSED, &[])
        };
        let installer = &self.config.installer;
        let places = [("installer", &*installer.name), ("telephone", &*installer.telephone)];
        let form = Words::with_changes(form::EN, &self.config.wording);
        plain_text(&self.contact, &self.answers, self.photos, &worked_out, form, &places)
    }

    /// What a webhook is told: nothing personal beyond reference, class, gravest flag and the letters that the postcode begins with; and
    /// how much was added.
    pub(super) fn payload(&self) -> String {
        let flags = self.flags();
        let added = self.added.as_ref();
        let payload = Payload {
            kind: if added.is_some() { "enquiry.added" } else { "enquiry.received" },
            timestamp: added.map_or(self.received, |added| added.at).to_string(),
            data: Data {
                added: added.map(|added| HowMuch {
                    photos: added.photos.values().sum(),
                    answers: added.answers.len(),
                    danger: added.danger,
                }),
                reference: &self.reference,
                class: self.assessment.as_ref().map(|assessment| assessment.complexity),
                flag: flags.first().map(|flag| Flag {
                    code: &flag.code,
                    weight: flag.weight.word(),
                    name: name_of(flag),
                }),
                postcode_area: self.answers.home.postcode.known().map(|postcode| postcode.area()),
            },
        };
        serde_json::to_string(&payload).expect("a payload holds only text")
    }

    /// The flags, the gravest first; among equals one that nearly every home has comes later.
    fn flags(&self) -> Vec<&Raised> {
        let mut flags: Vec<_> = self.assessment.iter().flat_map(|assessment| &assessment.flags).collect();
        flags.sort_by_key(|flag| (flag.weight, flag.usual)); // stable: else the assessment's own order stays
        flags
    }

    fn class(&self) -> String {
        let class = self.assessment.as_ref().map(|assessment| assessment.complexity);
        class.map_or_else(
            || say(words::MAIL_NOT_ASSESSED_SHORT, &[]),
            |class| triage::EN.find(&format!("complexity-{}", class.word())).unwrap_or(class.word()).to_owned(),
        )
    }

    fn price(&self) -> String {
        let Some(band) = self.assessment.as_ref().and_then(|assessment| assessment.band) else {
            return say(words::MAIL_PRICE_NONE, &[]);
        };
        let (low, high) = (pounds(band.low), pounds(band.high));
        let price = say(words::MAIL_PRICE, &[("low", &low), ("high", &high)]);
        let invented = self.assessment.as_ref().is_some_and(|assessment| assessment.invented);
        if invented { format!("{price} {}", say(words::MAIL_PRICE_INVENTED, &[])) } else { price }
    }

    fn outward(&self) -> &str {
        self.answers.home.postcode.known().map_or("", |postcode| postcode.outward())
    }
}

/// A webhook's payload, in the shape that Standard Webhooks recommends.
#[derive(Serialize)]
struct Payload<'a> {
    #[serde(rename = "type")]
    kind: &'static str,
    timestamp: String,
    data: Data<'a>,
}

#[derive(Serialize)]
struct Data<'a> {
    reference: &'a str,
    class: Option<Complexity>,
    flag: Option<Flag<'a>>,
    postcode_area: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    added: Option<HowMuch>,
}

#[derive(Serialize)]
struct HowMuch {
    photos: usize,
    answers: usize,
    danger: bool,
}

#[derive(Serialize)]
struct Flag<'a> {
    code: &'a str,
    weight: &'static str,
    name: String,
}

/// A sentence of the service.
pub(super) fn say(key: Key, places: &[(&str, &str)]) -> String {
    filled(Words::new(words::EN).say(key), places).into_owned()
}

/// The name of a flag. A code that this version has no name for, as of an assessment by another one, stands only if it is a plain code.
fn name_of(flag: &Raised) -> String {
    let name = flags_installer::EN.find(&format!("flag-{}-name", flag.code));
    let is_code = |code: &&str| code.len() <= 60 && code.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-');
    name.or(Some(&*flag.code).filter(is_code)).unwrap_or("?").to_owned()
}

/// A text of a stranger on one line, without the signs that turn the order of what stands after them, as of a telephone number.
fn plain(text: &str) -> String {
    let turns = |sign: char| matches!(sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'); // UAX 9, 2
    let signs = text.chars().filter(|sign| !turns(*sign));
    let signs: String = signs.map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
    signs.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn joined(parts: &[&str]) -> String {
    let said: Vec<&str> = parts.iter().copied().filter(|part| !part.is_empty()).collect();
    said.join(" · ")
}

fn shortened(line: &str) -> String {
    if line.chars().count() <= LINE {
        return line.to_owned();
    }
    line.chars().take(LINE - 1).collect::<String>().trim_end().to_owned() + "…"
}

/// An amount in whole pounds, as the list shows it.
fn pounds(amount: Pence) -> String {
    Pence((amount.0 + 50) / 100 * 100).to_string()
}

#[cfg(test)]
mod tests {
    use super::super::demo::an_enquiry;
    use super::*;
    use model::config::demo_config;
    use record::enquiry::{Enquiry, Reach};

    pub(in super::super) fn letter(home: usize, change: impl FnOnce(&mut Enquiry)) -> Letter {
        let mut enquiry = store::read(&an_enquiry(home)).unwrap();
        change(&mut enquiry);
        let record = store::json_of(&enquiry);
        let payload = enquiry.payload;
        Letter {
            reference: "K7QX".into(),
            received: "2026-11-29T10:20:30Z".parse().unwrap(),
            record,
            assessment: payload.assessment,
            photos: payload.photos.len(),
            contact: payload.contact,
            answers: payload.answers,
            config: demo_config(),
            copy: false,
            keep_until: "2027-05-28".into(),
            added: None,
            first: None,
        }
    }

    /// Homes by their place in `demo/homes`.
    const LOOPED: usize = 4;
    const SCORCHED: usize = 6;

    #[test]
    fn the_subject_names_the_gravest_flag_and_the_place() {
        assert_eq!(letter(SCORCHED, |_| ()).subject(), "Hazard noticed, ZZ2 (K7QX)");
        let nowhere =
            letter(SCORCHED, |enquiry| enquiry.payload.answers.home.postcode = model::answers::Answer::NotAsked);
        assert_eq!(nowhere.subject(), "Hazard noticed (K7QX)");
        assert_eq!(letter(0, |enquiry| enquiry.payload.assessment = None).subject(), "Not assessed, ZZ1 (K7QX)");
    }

    #[test]
    fn the_first_five_lines_are_all_that_is_needed_to_ring() {
        let letter = letter(LOOPED, |enquiry| {
            let contact = &mut enquiry.payload.contact;
            contact.name = "Invented Homeowner\r\nof two lines".into();
            contact.telephone = "01632 960123".into();
            contact.reach = Some(Reach::Message);
            contact.when = "after six ".repeat(15);
        });
        let text = letter.text();
        let lines: Vec<&str> = text.lines().take(6).collect();
        assert!(lines[0].starts_with("Depends on others: ") && lines[0].contains("Looped supply"), "{text}");
        assert!(lines[1].starts_with("ZZ1 1AA · £") || lines[1].starts_with("ZZ"), "{text}");
        assert!(lines[1].contains(" to £") && lines[1].contains("estimate"), "{text}");
        assert_eq!(lines[2], "Invented Homeowner of two lines · 01632 960123");
        assert!(lines[3].starts_with("Best reached: By text message · Good time: after six"), "{text}");
        assert!(lines[3].ends_with('…') && lines[3].chars().count() <= LINE, "{text}");
        assert!(lines[4].starts_with("K7QX, ") && lines[4].ends_with("received 29 Nov 2026, 10:20 UTC"), "{text}");
        assert_eq!(lines[5], "");
    }

    #[test]
    fn nothing_that_is_typed_turns_or_breaks_a_line() {
        let letter = letter(LOOPED, |enquiry| {
            let contact = &mut enquiry.payload.contact;
            contact.name = "\u{202e}Invented\u{2028}Homeowner\u{2066}".into();
            contact.telephone = String::new();
            contact.email = "a\u{202e}@\u{2028}b".into();
        });
        assert_eq!(letter.text().lines().nth(2), Some("Invented Homeowner · a@ b"));
    }

    #[test]
    fn everything_answered_is_attached() {
        let all = letter(LOOPED, |enquiry| enquiry.payload.contact.note = "first\nsecond".into()).all();
        for part in [
            "first\nsecond",
            "\nHow involved the job looks: Depends on others\nPrice: £",
            "- Looped supply\n",
            "What is the postcode? ZZ",
        ] {
            assert!(all.contains(part), "{part:?} in {all}");
        }
    }

    #[test]
    fn a_copy_holds_nothing_that_was_typed_and_no_more_of_the_price_than_was_shown() {
        let mut copy = letter(0, |enquiry| {
            let contact = &mut enquiry.payload.contact;
            for field in
                [&mut contact.name, &mut contact.telephone, &mut contact.when, &mut contact.note, &mut contact.address]
            {
                *field = "typed-marker".into();
            }
            contact.email = "person@example.invalid".into();
        });
        copy.copy = true;
        let written = copy.written("enquiries@installer.invalid");
        assert_eq!(written.to.as_deref(), Some("person@example.invalid"));
        assert_eq!(written.reply_to.as_deref(), Some("enquiries@installer.invalid"));
        assert_eq!(written.subject, "Copy of your enquiry (K7QX)");
        let text = &written.text;
        assert!(!text.contains("typed-marker") && !text.contains("ZZ") && !text.contains("person@"), "{text}");
        for part in [
            "K7QX",
            "not a quotation",
            "£",
            "until 28 May 2027",
            "If you sent nothing",
            "- Roughly when was it built? 2000 or later",
        ] {
            assert!(text.contains(part), "{part:?} in {text}");
        }
        copy.config.prices_shown.straightforward = model::config::PriceShown::Nothing;
        assert!(!copy.text_of_copy().contains('£'), "{}", copy.text_of_copy());
    }

    #[test]
    fn a_webhook_is_told_nothing_personal() {
        let letter = letter(SCORCHED, |enquiry| {
            let contact = &mut enquiry.payload.contact;
            for field in [
                &mut contact.name,
                &mut contact.telephone,
                &mut contact.email,
                &mut contact.when,
                &mut contact.note,
                &mut contact.address,
            ] {
                *field = "personal-marker".into();
            }
        });
        let payload = letter.payload();
        assert!(letter.record.contains("personal-marker") && !payload.contains("personal-marker"), "{payload}");
        assert_eq!(
            serde_json::from_str::<serde_json::Value>(&payload).unwrap(),
            serde_json::json!({
                "type": "enquiry.received",
                "timestamp": "2026-11-29T10:20:30Z",
                "data": {
                    "reference": "K7QX",
                    "class": "look-first",
                    "flag": { "code": "hazard-seen", "weight": "stop", "name": "Hazard noticed" },
                    "postcode_area": "ZZ",
                },
            })
        );
    }

    #[test]
    fn only_an_address_that_can_stand_in_a_header_is_answered() {
        let of = |email: &str| {
            let letter = letter(0, |enquiry| enquiry.payload.contact.email = email.into());
            letter.reply_to().map(ToOwned::to_owned)
        };
        assert_eq!(of(" a@example.invalid "), Some("a@example.invalid".into()));
        for bad in
            ["", "a", "a@b, c@d", "a@example.invalid\r\nBcc: b@example.invalid", "\"a\r\nBcc: c@d\"@example.invalid"]
        {
            assert_eq!(of(bad), None, "{bad:?}");
        }
    }

    #[test]
    fn a_code_that_is_not_one_is_not_repeated() {
        let strange = |code: &str| {
            letter(0, |enquiry| {
                let assessment = enquiry.payload.assessment.as_mut().unwrap();
                assessment.flags = vec![Raised {
                    code: code.into(),
                    weight: engine::flags::Weight::Stop,
                    probability: model::units::Probability::CERTAIN,
                    evidence: Vec::new(),
                    source: String::new(),
                    usual: false,
                }];
            })
            .subject()
        };
        assert_eq!(strange("of-a-later-version"), "of-a-later-version, ZZ1 (K7QX)");
        assert_eq!(strange("Ring 01632\r\nBcc: me"), "?, ZZ1 (K7QX)");
    }
}
