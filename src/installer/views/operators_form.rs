//! The network operator's form, line by line, filled in from answers, contact, photos and the installer's own charge points.
//!
//! Nothing is guessed: a line with several possible values is left empty with those values beside it, and every empty line is named.

use super::enquiry::OpenEnquiry;
use super::photos::caption;
use crate::words::{fill, say, worded};
use engine::assessment::Need;
use engine::context::Context;
use model::config::PointPapers;
use model::questions::counting;
use record::enquiry::{Network, PhotoPlace, SupplyNumber};
use wording::triage as key;
use yew::prelude::*;

/// The content of one line of the form.
#[derive(Debug, PartialEq)]
enum Holds {
    /// A value and where it is from, with anything to check beside it.
    Filled { value: String, from: String, beside: Vec<String> },
    /// Left empty; one of these values is right.
    MayBe(Vec<String>),
    /// Left empty.
    Left,
}

/// The network operator's form, one row for each of `needs`: its value and where that is from, or that it is left empty. Below it all empty
/// lines by name.
pub(super) fn view(shown: &OpenEnquiry<'_>, needs: &[Need]) -> Html {
    let lines: Vec<(String, Holds)> =
        needs.iter().map(|need| (worded("need", &need.what).into_owned(), holds(shown, need))).collect();
    let empty = lines.iter().filter(|(_, holds)| !matches!(holds, Holds::Filled { .. }));
    let empty = empty.map(|(what, _)| what.as_str()).collect::<Vec<_>>().join(say(key::JOIN_SEMICOLON));
    html! {
        <>
            <h3>{ say(key::OPERATORS_FORM) }</h3>
            <dl class="ruled operators-form">{ for lines.iter().map(|(what, holds)| line(what, holds)) }</dl>
            <p>
                { if empty.is_empty() {
                    say(key::OPERATORS_FORM_WHOLE).to_owned()
                } else {
                    fill(key::OPERATORS_FORM_LEFT, &[("left", &empty)])
                } }
            </p>
        </>
    }
}

/// A need of another paper, completed with details from outside the answers, such as the address for building control.
pub(super) fn completed(shown: &OpenEnquiry<'_>, need: &Need) -> Need {
    match holds(shown, need) {
        Holds::Filled { value, .. } => Need { value: Some(value), ..need.clone() },
        Holds::MayBe(_) | Holds::Left => need.clone(),
    }
}

fn line(what: &str, holds: &Holds) -> Html {
    html! {
        <>
            <dt>{ what }</dt>
            <dd>
                { match holds {
                    Holds::Filled { value, from, beside } => html! {
                        <>
                            <span class="as-typed">{ value }</span>
                            { for beside.iter().map(|text| html! { <span class="why">{ text }</span> }) }
                            <span class="quietly">{ from }</span>
                        </>
                    },
                    Holds::MayBe(values) => html! {
                        { fill(key::OPERATORS_FORM_MAY_BE, &[("values", &values.join(say(key::JOIN_OR)))]) }
                    },
                    Holds::Left => html! { { say(key::OPERATORS_FORM_EMPTY) } },
                } }
            </dd>
        </>
    }
}

fn holds(shown: &OpenEnquiry<'_>, need: &Need) -> Holds {
    let contact = &shown.detail.enquiry.payload.contact;
    let own = match need.what.as_str() {
        "address" => typed(&contact.address),
        "supply-number" => supply_number(shown, &contact.supply_number),
        "maker-and-model" => maker_and_model(shown),
        "operators-reference" => operators_reference(shown),
        "photo-of-the-head" => photos_of_the_head(shown),
        _ => None,
    };
    if let Some(own) = own {
        return own;
    }
    match (&need.value, need.alternatives.is_empty()) {
        (Some(value), _) => {
            let from = need.known_by.map(|known_by| worded("known-by", known_by.word()).into_owned());
            Holds::Filled { value: value.clone(), from: from.unwrap_or_default(), beside: Vec::new() }
        }
        (None, false) => Holds::MayBe(need.alternatives.clone()),
        (None, true) => Holds::Left,
    }
}

fn filled(value: String, from: wording::Key, beside: Vec<String>) -> Option<Holds> {
    Some(Holds::Filled { value, from: say(from).to_owned(), beside })
}

/// A value that the homeowner typed beside how they can be reached.
fn typed(text: &str) -> Option<Holds> {
    (!text.trim().is_empty())
        .then(|| text.trim().to_owned())
        .and_then(|text| filled(text, key::FROM_CONTACT, Vec::new()))
}

/// The supply number in its groups, with the network that it belongs to. A number that fails its check stands as typed, with what to check.
fn supply_number(shown: &OpenEnquiry<'_>, text: &str) -> Option<Holds> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    let (value, first) = match SupplyNumber::read(text) {
        Err(query) => (text.to_owned(), fill(key::SUPPLY_NUMBER_AGAIN, &[("why", &query.to_string())])),
        Ok(number) => {
            let told = match number.network() {
                Network::Area(area, name) => {
                    fill(key::SUPPLY_NUMBER_AREA, &[("area", &area.to_string()), ("name", name)])
                }
                Network::Independent(first) => fill(key::SUPPLY_NUMBER_INDEPENDENT, &[("area", &first.to_string())]),
            };
            (number.to_string(), told)
        }
    };
    let panels = shown.answers.loads.solar.is(true).then(|| say(key::SUPPLY_NUMBER_IMPORT).to_owned());
    filled(value, key::FROM_CONTACT, [Some(first), panels].into_iter().flatten().collect())
}

/// The installer's papers for the charge point of the design; `None` if the homeowner bought one already.
fn papers<'a>(shown: &OpenEnquiry<'a>) -> Option<&'a PointPapers> {
    let answers = counting(shown.answers);
    if answers.wish.bought.is(true) {
        return None;
    }
    let point = Context::of(&answers, shown.config?).point;
    shown.detail.papers.iter().find(|papers| papers.id == point.id)
}

fn maker_and_model(shown: &OpenEnquiry<'_>) -> Option<Holds> {
    let answers = counting(shown.answers);
    let (maker, model, from) = if answers.wish.bought.is(true) {
        let printed = [&answers.wish.bought_maker, &answers.wish.bought_model];
        let [maker, model] = printed.map(|text| text.known().map(|text| text.as_str().to_owned()));
        (maker, model, key::FROM_BOUGHT)
    } else {
        let papers = papers(shown)?;
        (papers.maker.clone(), papers.model.clone(), key::FROM_SETUP)
    };
    let half = (maker.is_none() || model.is_none())
        .then(|| say(if maker.is_none() { key::MAKER_LEFT } else { key::MODEL_LEFT }).to_owned());
    let value: Vec<String> = [maker, model].into_iter().flatten().collect();
    if value.is_empty() { None } else { filled(value.join(" "), from, half.into_iter().collect()) }
}

fn operators_reference(shown: &OpenEnquiry<'_>) -> Option<Holds> {
    filled(papers(shown)?.operators_reference.clone()?, key::FROM_SETUP, Vec::new())
}

/// The photos of the meter and service head, by their numbers.
fn photos_of_the_head(shown: &OpenEnquiry<'_>) -> Option<Holds> {
    let photos = shown.detail.enquiry.payload.photos.iter().enumerate();
    let at_the_meter = photos.filter(|(_, photo)| photo.place == PhotoPlace::Meter);
    let named: Vec<String> = at_the_meter
        .map(|(nth, photo)| {
            let name = caption(nth, photo);
            if shown.detail.arrived(&photo.sha256) {
                name
            } else {
                [&name, " (", say(key::PHOTO_MISSING), ")"].concat()
            }
        })
        .collect();
    if named.is_empty() { None } else { filled(named.join(say(key::JOIN_SEMICOLON)), key::FROM_PHOTOS, Vec::new()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::api::Detail;
    use crate::sample;
    use model::answers::{Answer, Answers, ShortText};
    use model::config::{Config, demo_config};
    use model::units::{Pence, Ratio};
    use std::rc::Rc;

    fn of(what: &str, detail: &Detail, answers: Answers) -> Holds {
        let config: Rc<Config> = Rc::new(demo_config());
        let answers = Rc::new(answers);
        let shown = OpenEnquiry {
            detail,
            answers: &answers,
            assessment: None,
            config: Some(&config),
            pace: Ratio::of(1.0),
            worth_asking: Pence(0),
        };
        holds(&shown, &Need { what: what.into(), value: None, alternatives: Vec::new(), known_by: None })
    }

    fn value(holds: &Holds) -> &str {
        if let Holds::Filled { value, .. } = holds { value } else { "" }
    }

    fn beside(holds: &Holds) -> String {
        if let Holds::Filled { beside, .. } = holds { beside.join("; ") } else { String::new() }
    }

    #[test]
    fn address_and_supply_number_are_filled_in_as_they_were_given() {
        let mut detail = sample::detail();
        assert_eq!(of("address", &detail, Answers::default()), Holds::Left);
        assert_eq!(of("supply-number", &detail, Answers::default()), Holds::Left);
        let contact = &mut detail.enquiry.payload.contact;
        contact.address = "1 Invented Street\nZZ1 1AA\n".into();
        contact.supply_number = "1012345678903".into();
        assert_eq!(value(&of("address", &detail, Answers::default())), "1 Invented Street\nZZ1 1AA");
        let number = of("supply-number", &detail, Answers::default());
        assert_eq!(value(&number), "10 1234 5678 903");
        assert!(beside(&number).contains("area 10, Eastern England"), "{number:?}");
    }

    #[test]
    fn wrong_digits_are_queried_and_stay_as_typed() {
        let mut detail = sample::detail();
        detail.enquiry.payload.contact.supply_number = "1012345678904".into();
        let number = of("supply-number", &detail, Answers::default());
        assert_eq!(value(&number), "1012345678904");
        assert!(beside(&number).contains("look again"), "{number:?}");
    }

    #[test]
    fn an_independent_operator_gets_the_form_and_panels_have_a_second_number() {
        let mut detail = sample::detail();
        detail.enquiry.payload.contact.supply_number = "24 1234 5678 904".into();
        let mut answers = Answers::default();
        let plain = beside(&of("supply-number", &detail, answers.clone()));
        assert!(plain.contains("independent network operator") && !plain.contains("import"), "{plain}");
        answers.loads.solar = Answer::Known(true);
        assert!(beside(&of("supply-number", &detail, answers)).contains("import"));
    }

    #[test]
    fn maker_model_and_reference_are_the_installers_own_or_what_was_bought() {
        let detail = sample::detail();
        let mut answers = Answers::default();
        let point = Context::of(&answers, &demo_config()).point.id.clone();
        let papers = detail.papers.iter().find(|papers| papers.id == point).unwrap().clone();
        let made = of("maker-and-model", &detail, answers.clone());
        assert_eq!(value(&made), ["Invented Maker ", papers.model.as_deref().unwrap()].concat());
        let reference = of("operators-reference", &detail, answers.clone());
        assert_eq!(value(&reference), papers.operators_reference.as_deref().unwrap());
        answers.wish.bought = Answer::Known(true);
        assert_eq!(of("maker-and-model", &detail, answers.clone()), Holds::Left, "not the one of the list");
        answers.wish.bought_model = Answer::Known(ShortText::new("invented model").unwrap());
        let bought = of("maker-and-model", &detail, answers.clone());
        assert_eq!((value(&bought), beside(&bought).is_empty()), ("invented model", false));
        assert_eq!(of("operators-reference", &detail, answers), Holds::Left);
    }

    #[test]
    fn another_paper_that_asks_for_the_address_has_it_too() {
        let mut detail = sample::detail();
        detail.enquiry.payload.contact.address = "1 Invented Street".into();
        let (config, answers) = (Rc::new(demo_config()), Rc::new(Answers::default()));
        let shown = OpenEnquiry {
            detail: &detail,
            answers: &answers,
            assessment: None,
            config: Some(&config),
            pace: Ratio::of(1.0),
            worth_asking: Pence(0),
        };
        let of = |what: &str| Need { what: what.into(), value: None, alternatives: Vec::new(), known_by: None };
        assert_eq!(completed(&shown, &of("address")).value.as_deref(), Some("1 Invented Street"));
        assert_eq!(completed(&shown, &of("certificate-number")).value, None);
    }

    #[test]
    fn the_photo_that_was_sent_is_named() {
        let mut detail = sample::detail();
        let named = value(&of("photo-of-the-head", &detail, Answers::default())).to_owned();
        assert!(named.contains('1') && !named.contains('2'), "{named}");
        detail.photos_arrived.clear();
        assert!(value(&of("photo-of-the-head", &detail, Answers::default())).contains(say(key::PHOTO_MISSING)));
        detail.enquiry.payload.photos.clear();
        assert_eq!(of("photo-of-the-head", &detail, Answers::default()), Holds::Left);
    }
}
