//! The contact page: how the homeowner can be reached, the privacy notice, and Send.

use super::View;
use super::emergency::emergency;
use super::notice::notice;
use super::question::question_view;
use crate::widget::el::{El, button, el, paragraph, section, trouble};
use crate::widget::state::{Action, SendTrouble, Sending};
use crate::widget::step::Step;
use model::answers::Word;
use model::config::FormPart;
use model::questions::question;
use record::enquiry::{Contact, Reach, SupplyNumber, SupplyNumberQuery};
use web_sys::{Event, HtmlInputElement, HtmlTextAreaElement};
use wording::{Key, form as words};
use yew::virtual_dom::ListenerKind;
use yew::{AttrValue, Callback, TargetCast};

/// What is missing before the enquiry may be sent: the name of each such field and the key of its error message.
#[must_use]
pub fn troubles(contact: &Contact) -> Vec<(&'static str, Key)> {
    let mut found = Vec::new();
    if contact.name.trim().is_empty() {
        found.push(("name", words::CONTACT_NAME_MISSING));
    }
    let email = contact.email.trim();
    if !email.is_empty()
        && !email.split_once('@').is_some_and(|(who, host)| !who.is_empty() && host.len() > 2 && !host.contains('@'))
    {
        found.push(("email", words::CONTACT_EMAIL_UNREADABLE));
    }
    if contact.telephone.trim().is_empty() && email.is_empty() {
        found.push(("telephone", words::CONTACT_WAY_MISSING));
    }
    found
}

/// A single-line field of the contact.
struct Line {
    name: &'static str,
    text: AttrValue,
    kind: &'static str,
    autocomplete: &'static str,
    get: fn(&Contact) -> &String,
    set: fn(&mut Contact, String),
}

/// The contact page.
#[must_use]
pub fn contact_page(view: &View) -> El {
    let View { form, config, speech, done, .. } = view;
    let missing = troubles(&form.contact);
    let of = |field: &str| {
        let found = missing.iter().find(|(name, _)| form.complaints > 0 && *name == field);
        found.map(|(_, key)| speech.say(*key))
    };
    let pressed = {
        let (done, ready) = ((*done).clone(), missing.is_empty());
        Callback::from(move |event: Event| {
            event.prevent_default();
            done.emit(if ready { Action::SendAsked } else { Action::SentTooSoon });
        })
    };
    let shown = |name, text, kind, autocomplete, get, set| {
        line(view, &Line { name, text, kind, autocomplete, get, set }, of(name))
    };
    let asked = question("postcode").filter(|_| form.asks_postcode);
    let notice = match config {
        Some(FormPart { installer, keep_days, .. }) => {
            let privacy = installer.privacy.clone().map(Into::into);
            notice(speech, installer.in_law(), Some(*keep_days), privacy)
        }
        None => notice(speech, &speech.installer, None, None),
    };
    let offers = config
        .is_some_and(|config| config.advertising)
        .then(|| tick(view, ("c-offers", "choice offers"), words::CONTACT_OFFERS, |contact| &mut contact.offers));
    let copy = config
        .is_some_and(|config| config.copies && !form.contact.email.is_empty())
        .then(|| tick(view, ("c-copy", "choice"), words::CONTACT_COPY, |contact| &mut contact.copy));
    let count = form.photos.len();
    let photos = (count > 0).then(|| speech.fill(words::CONTACT_PHOTOS, &[("count", &count.to_string())]));
    let again = matches!(form.sending, Sending::Failed(_));
    let main = el("button")
        .set("type", "submit")
        .class("main")
        .flag("disabled", form.queued)
        .text(speech.say(if again { words::SENDING_AGAIN } else { words::SEND }));
    el("form")
        .class("page contact")
        .key("contact")
        .flag("novalidate", true)
        .on(ListenerKind::onsubmit, pressed)
        .perhaps(emergency(view))
        .perhaps(asked.map(|asked| question_view(view, asked)))
        .with(shown("name", speech.say(words::CONTACT_NAME), "text", "name", |c| &c.name, |c, text| c.name = text))
        .with(paragraph("hint", speech.say(words::CONTACT_ONE)))
        .with(shown(
            "telephone",
            speech.say(words::CONTACT_TELEPHONE),
            "tel",
            "tel",
            |c| &c.telephone,
            |c, text| c.telephone = text,
        ))
        .with(shown(
            "email",
            speech.say(words::CONTACT_EMAIL),
            "email",
            "email",
            |c| &c.email,
            |c, text| c.email = text,
        ))
        .perhaps(copy)
        .with(reach(view))
        .with(shown("when", optional(view, words::CONTACT_WHEN), "text", "off", |c| &c.when, |c, text| c.when = text))
        .with(long(view, ("note", words::CONTACT_NOTE, "off", "2000"), |c| &c.note, |c, text| c.note = text))
        .perhaps((!form.answers.hazard.is_noticed()).then(|| for_the_operator(view)))
        .with(notice)
        .perhaps(offers)
        .perhaps(photos.map(|text| paragraph("hint", text)))
        .perhaps(how_far(view))
        .with(el("div").class("actions").with(main))
}

fn optional(view: &View, key: Key) -> AttrValue {
    [view.speech.say(key).as_str(), " ", view.speech.say(words::CONTACT_OPTIONAL).as_str()].concat().into()
}

/// A callback that changes the contact at an event.
fn changed(view: &View, change: impl Fn(&mut Contact, &Event) + 'static) -> Callback<Event> {
    let (done, contact) = (view.done.clone(), view.form.contact.clone());
    Callback::from(move |event: Event| {
        let mut next = contact.clone();
        change(&mut next, &event);
        done.emit(Action::ContactGiven(next));
    })
}

/// A box to tick for what is offered beside the enquiry: there only if the installer offers it, and never ticked beforehand.
fn tick(view: &View, (id, class): (&'static str, &'static str), text: Key, of: fn(&mut Contact) -> &mut bool) -> El {
    let ticked = changed(view, move |contact, event| {
        *of(contact) = event.target_unchecked_into::<HtmlInputElement>().checked();
    });
    let input = el("input")
        .set("type", "checkbox")
        .set("id", id)
        .checked(*of(&mut view.form.contact.clone()))
        .on(ListenerKind::onchange, ticked);
    el("label").class(class).with(input).with(el("span").text(optional(view, text)))
}

fn line(view: &View, line: &Line, wrong: Option<AttrValue>) -> El {
    let (id, error_id) = (["c-", line.name].concat(), ["ce-", line.name].concat());
    let set = line.set;
    let typed = changed(view, move |contact, event| {
        set(contact, event.target_unchecked_into::<HtmlInputElement>().value());
    });
    let input = el("input")
        .attr("id", id.clone().into())
        .set("type", line.kind)
        .set("autocomplete", line.autocomplete)
        .set("maxlength", "200")
        .value((line.get)(&view.form.contact).clone().into())
        .maybe("aria-invalid", wrong.as_ref().map(|_| "true".into()))
        .maybe("aria-describedby", wrong.as_ref().map(|_| error_id.clone().into()))
        .on(ListenerKind::oninput, typed);
    el("div")
        .class("line")
        .with(el("label").class("line-label").attr("for", id.into()).text(line.text.clone()))
        .with(input)
        .perhaps(wrong.map(|text| trouble(text).attr("id", error_id.into())))
}

fn reach(view: &View) -> El {
    let View { form, speech, .. } = view;
    let rows = Reach::ALL.iter().map(|reach| {
        let reach = *reach;
        let input = el("input")
            .set("type", "radio")
            .set("name", "reach")
            .value(reach.word().into())
            .checked(form.contact.reach == Some(reach))
            .on(ListenerKind::onchange, changed(view, move |contact, _| contact.reach = Some(reach)));
        el("label")
            .class("choice")
            .key(reach.word())
            .with(input)
            .with(el("span").text(speech.made(&["reach-", reach.word()])))
    });
    el("fieldset")
        .class("question")
        .with(el("legend").text(optional(view, words::CONTACT_REACH)))
        .with(el("div").class("choices").all(rows.collect()))
}

/// A field for several lines of text.
fn long(
    view: &View,
    (name, label, autocomplete, most): (&'static str, Key, &'static str, &'static str),
    get: fn(&Contact) -> &String,
    set: fn(&mut Contact, String),
) -> El {
    let id = AttrValue::from(["c-", name].concat());
    let typed = changed(view, move |contact, event| {
        set(contact, event.target_unchecked_into::<HtmlTextAreaElement>().value());
    });
    let area = el("textarea")
        .attr("id", id.clone())
        .set("rows", "4")
        .set("maxlength", most)
        .set("autocomplete", autocomplete)
        .value(get(&view.form.contact).clone().into())
        .on(ListenerKind::oninput, typed);
    let label = el("label").class("line-label").attr("for", id).text(optional(view, label));
    el("div").class("line").with(label).with(area)
}

/// The fields that the network operator's form asks for beyond the answers: the full address and the supply number. A supply number whose
/// digits do not hold is queried and sent as it is.
fn for_the_operator(view: &View) -> El {
    let View { form, speech, sheet, .. } = view;
    let number = &form.contact.supply_number;
    let query = match SupplyNumber::read(number) {
        Err(SupplyNumberQuery::Short(0)) | Ok(_) => None,
        Err(SupplyNumberQuery::Short(count)) => {
            Some(speech.fill(words::CONTACT_SUPPLY_NUMBER_SHORT, &[("count", &count.to_string())]))
        }
        Err(_) => Some(speech.say(words::CONTACT_SUPPLY_NUMBER_AGAIN)),
    };
    let line = Line {
        name: "supply-number",
        text: optional(view, words::CONTACT_SUPPLY_NUMBER),
        kind: "text",
        autocomplete: "off",
        get: |c| &c.supply_number,
        set: |c, text| c.supply_number = text,
    };
    let panels = form.answers.loads.solar.is(true);
    section("for-the-operator", speech.say(words::CONTACT_OPERATOR))
        .with(paragraph("hint", speech.say(words::CONTACT_OPERATOR_TEXT)))
        .with(long(
            view,
            ("address", words::CONTACT_ADDRESS, "street-address", "400"),
            |c| &c.address,
            |c, text| c.address = text,
        ))
        .with(self::line(view, &line, None))
        .perhaps(query.map(|text| paragraph("notice", text).set("role", "status")))
        .with(paragraph("hint", speech.say(words::CONTACT_SUPPLY_NUMBER_HINT)))
        .perhaps(panels.then(|| paragraph("hint", speech.say(words::CONTACT_SUPPLY_NUMBER_SOLAR))))
        .with(sheet.of_supply_number())
}

/// The progress of sending, or why it failed and the other ways to share the enquiry.
pub fn how_far(view: &View) -> Option<El> {
    let View { form, speech, .. } = view;
    let said = |text| Some(el("p").set("role", "status").text(text));
    let why = match &form.sending {
        Sending::Not | Sending::Done(_) => return None,
        Sending::UnderWay(0, _) | Sending::UnderWay(_, 0) => return said(speech.say(words::SENDING)),
        Sending::UnderWay(here, all) => {
            let places = [("here", &*here.to_string()), ("all", &*all.to_string())];
            return said(speech.fill(words::SENDING_PHOTOS, &places));
        }
        Sending::Waiting => {
            let kept = form.keep_trouble.is_none();
            let text = speech.say(if kept { words::SEND_WAITING } else { words::SEND_WAITING_OPEN });
            let stop = button("quiet", speech.say(words::SEND_STOP), view.on_press(|| Action::SendingStopped));
            let notice =
                el("div").class("notice waiting-to-go").set("role", "status").with(el("p").text(text)).with(stop);
            return Some(el("div").with(notice).perhaps(ways(view)));
        }
        Sending::Failed(SendTrouble::Nowhere) => speech.say(words::SEND_TROUBLE_NOWHERE),
        Sending::Failed(SendTrouble::NotSecure) => speech.say(words::SEND_TROUBLE_NOT_SECURE),
        Sending::Failed(SendTrouble::Refused(said)) => speech.fill(words::SEND_TROUBLE_REFUSED, &[("said", said)]),
        Sending::Failed(SendTrouble::PhotosLeft(reference)) => {
            speech.fill(words::SEND_TROUBLE_PHOTOS, &[("reference", reference)])
        }
    };
    Some(el("div").with(trouble(why)).perhaps(ways(view)))
}

/// The place where the script that is loaded on demand draws the other ways to share an enquiry.
fn ways(view: &View) -> Option<El> {
    (view.form.step == Step::Contact).then(|| el("div").class("ways"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_and_one_way_are_enough() {
        let fields = |contact: &Contact| troubles(contact).iter().map(|(field, _)| *field).collect::<Vec<_>>();
        let mut contact = Contact::default();
        assert_eq!(fields(&contact), ["name", "telephone"]);
        contact.name = "Invented Person".into();
        contact.email = "person".into();
        assert_eq!(fields(&contact), ["email"]);
        contact.email = "person@example.invalid".into();
        assert_eq!(fields(&contact), [""; 0]);
    }

    #[cfg(feature = "prerender")]
    #[test]
    fn wrong_digits_are_queried_while_they_may_be_sent_and_nothing_is_asked_for_beside_a_danger() {
        use crate::widget::parts::tests::shown;
        use crate::widget::state::Form;
        use model::answers::{Answer, HazardSign, Set};
        use std::rc::Rc;
        let page = |number: &str, solar: bool, signs: &[HazardSign]| {
            let mut form = Form::default();
            form.contact.supply_number = number.into();
            let answers = Rc::make_mut(&mut form.answers);
            answers.loads.solar = Answer::Known(solar);
            answers.hazard.signs = Answer::Known(Set::of(signs));
            shown(&Rc::new(form), contact_page)
        };
        let right = page("10 1234 5678 903", false, &[]);
        assert!(right.contains("c-supply-number") && right.contains("street-address") && right.contains("<title>"));
        assert!(!right.contains("look again") && !right.contains("so far") && !right.contains("sell"), "{right}");
        assert!(page("1012345678904", false, &[]).contains("look again"));
        assert!(page("1012", false, &[]).contains("4 of 13 digits so far"));
        assert!(page("", true, &[]).contains("the one for what you buy"));
        assert!(!page("", true, &[HazardSign::Smoke]).contains("c-supply-number"));
        let wrong = Contact {
            name: "Invented Person".into(),
            email: "person@example.invalid".into(),
            supply_number: "1".into(),
            consent: true,
            ..Contact::default()
        };
        assert!(troubles(&wrong).is_empty());
    }
}
