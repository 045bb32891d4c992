//! How to be reached, and Send.

use super::View;
use super::emergency::emergency;
use super::question::question_view;
use crate::answers::Word;
use crate::enquiry::{Contact, Reach};
use crate::questions::question;
use crate::widget::speech::Speech;
use crate::widget::state::{Action, Form, SendTrouble, Sending};
use crate::wording::{Key, form as words};
use web_sys::{HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

/// What is missing before it may be sent: the field and what to say of it.
#[must_use]
pub fn troubles(contact: &Contact) -> Vec<(&'static str, Key)> {
    let mut found = Vec::new();
    if contact.name.trim().is_empty() {
        found.push(("name", words::CONTACT_NAME_MISSING));
    }
    let email = contact.email.trim();
    if !email.is_empty() && !email.split_once('@').is_some_and(|(who, host)| !who.is_empty() && host.len() > 2 && !host.contains('@')) {
        found.push(("email", words::CONTACT_EMAIL_UNREADABLE));
    }
    if contact.telephone.trim().is_empty() && email.is_empty() {
        found.push(("telephone", words::CONTACT_WAY_MISSING));
    }
    if !contact.consent {
        found.push(("consent", words::CONTACT_CONSENT_MISSING));
    }
    found
}

/// How to be reached.
#[must_use]
pub fn contact_page(view: &View, send: &Callback<()>) -> Html {
    let View { form, config, speech, done } = view;
    let missing = troubles(&form.contact);
    let of = |field: &str| {
        missing.iter().find(|(name, _)| form.complaints > 0 && *name == field).map(|(_, key)| speech.say(*key))
    };
    let change = |set: fn(&mut Contact, String)| {
        let (done, contact) = ((*done).clone(), form.contact.clone());
        Callback::from(move |event: InputEvent| {
            let mut next = contact.clone();
            let text = match event.target_dyn_into::<HtmlTextAreaElement>() {
                Some(area) => area.value(),
                None => event.target_unchecked_into::<HtmlInputElement>().value(),
            };
            set(&mut next, text);
            done.emit(Action::ContactGiven(next));
        })
    };
    let onsubmit = {
        let (done, send, ready) = ((*done).clone(), send.clone(), missing.is_empty());
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            if ready {
                send.emit(());
            } else {
                done.emit(Action::SentTooSoon);
            }
        })
    };
    let consent = {
        let (done, contact) = ((*done).clone(), form.contact.clone());
        Callback::from(move |event: Event| {
            let consent = event.target_unchecked_into::<HtmlInputElement>().checked();
            done.emit(Action::ContactGiven(Contact { consent, ..contact.clone() }));
        })
    };
    let under_way = matches!(form.sending, Sending::UnderWay(..));
    html! {
        <form class="page contact" novalidate={true} {onsubmit} key="contact">
            { emergency(view) }
            if let Some(question) = question("postcode").filter(|_| form.asks_postcode) {
                { question_view(view, question) }
            }
            { line(speech.say(words::CONTACT_NAME), "name", "text", "name", &form.contact.name, of("name"), change(|contact, text| contact.name = text)) }
            <p class="hint">{ speech.say(words::CONTACT_ONE) }</p>
            { line(speech.say(words::CONTACT_TELEPHONE), "telephone", "tel", "tel", &form.contact.telephone, of("telephone"), change(|contact, text| contact.telephone = text)) }
            { line(speech.say(words::CONTACT_EMAIL), "email", "email", "email", &form.contact.email, of("email"), change(|contact, text| contact.email = text)) }
            <fieldset class="question">
                <legend>{ speech.say(words::CONTACT_REACH) }{ " " }<small>{ speech.say(words::CONTACT_OPTIONAL) }</small></legend>
                <div class="choices">
                    { for Reach::ALL.iter().map(|reach| {
                        let reach = *reach;
                        let (done, contact) = ((*done).clone(), form.contact.clone());
                        let onchange = Callback::from(move |_: Event| {
                            done.emit(Action::ContactGiven(Contact { reach: Some(reach), ..contact.clone() }));
                        });
                        html! {
                            <label class="choice" key={reach.word()}>
                                <input type="radio" name="reach" value={reach.word()} checked={form.contact.reach == Some(reach)} {onchange} />
                                <span>{ speech.made(&["reach-", reach.word()]) }</span>
                            </label>
                        }
                    }) }
                </div>
            </fieldset>
            { line(optional(speech, words::CONTACT_WHEN), "when", "text", "off", &form.contact.when, None, change(|contact, text| contact.when = text)) }
            <label class="line-label" for="c-note">{ optional(speech, words::CONTACT_NOTE) }</label>
            <textarea id="c-note" rows="4" maxlength="2000" value={form.contact.note.clone()} oninput={change(|contact, text| contact.note = text)} />
            <label class="choice consent">
                <input
                    type="checkbox"
                    id="c-consent"
                    checked={form.contact.consent}
                    aria-invalid={of("consent").map(|_| "true")}
                    aria-describedby={of("consent").map(|_| "ce-consent")}
                    onchange={consent}
                />
                <span>
                    if let Some(config) = config {
                        { speech.fill(words::CONTACT_CONSENT, &[("days", &config.keep_days.to_string())]) }
                    } else {
                        { speech.say(words::CONTACT_CONSENT_SHORT) }
                    }
                </span>
            </label>
            if let Some(text) = of("consent") {
                <p class="trouble" id="ce-consent" role="alert">{ text }</p>
            }
            if !form.photos.is_empty() {
                <p class="hint">
                    if form.photos.len() == 1 {
                        { speech.say(words::CONTACT_PHOTO) }
                    } else {
                        { speech.fill(words::CONTACT_PHOTOS, &[("count", &form.photos.len().to_string())]) }
                    }
                </p>
            }
            { how_far(form, speech) }
            <div class="actions">
                <button type="submit" class="main" disabled={under_way}>
                    { speech.say(if matches!(form.sending, Sending::Failed(_)) { words::SENDING_AGAIN } else { words::SEND }) }
                </button>
            </div>
        </form>
    }
}

fn optional(speech: &Speech, key: Key) -> AttrValue {
    [speech.say(key).as_str(), " ", speech.say(words::CONTACT_OPTIONAL).as_str()].concat().into()
}

fn line(
    text: AttrValue,
    name: &'static str,
    kind: &'static str,
    autocomplete: &'static str,
    value: &str,
    trouble: Option<AttrValue>,
    oninput: Callback<InputEvent>,
) -> Html {
    let (id, error_id) = (["c-", name].concat(), ["ce-", name].concat());
    html! {
        <div class="line">
            <label class="line-label" for={id.clone()}>{ text }</label>
            <input
                {id} type={kind} {autocomplete} maxlength="200" value={value.to_owned()} {oninput}
                aria-invalid={trouble.as_ref().map(|_| "true")}
                aria-describedby={trouble.as_ref().map(|_| error_id.clone())}
            />
            if let Some(trouble) = trouble {
                <p class="trouble" id={error_id} role="alert">{ trouble }</p>
            }
        </div>
    }
}

/// How far sending is, or why it did not get through.
fn how_far(form: &Form, speech: &Speech) -> Html {
    let text = match &form.sending {
        Sending::Not | Sending::Done(_) => return html! {},
        Sending::UnderWay(_, 0) | Sending::UnderWay(0, _) => return html! { <p role="status">{ speech.say(words::SENDING) }</p> },
        Sending::UnderWay(here, all) => {
            let places = [("here", &*here.to_string()), ("all", &*all.to_string())];
            return html! { <p role="status">{ speech.fill(words::SENDING_PHOTOS, &places) }</p> };
        }
        Sending::Failed(SendTrouble::NoAnswer) => speech.say(words::SEND_TROUBLE_NO_ANSWER),
        Sending::Failed(SendTrouble::NotSecure) => speech.say(words::SEND_TROUBLE_NOT_SECURE),
        Sending::Failed(SendTrouble::Refused(said)) => speech.fill(words::SEND_TROUBLE_REFUSED, &[("said", said)]),
        Sending::Failed(SendTrouble::PhotosLeft(reference)) => speech.fill(words::SEND_TROUBLE_PHOTOS, &[("reference", reference)]),
    };
    html! { <p class="trouble" role="alert">{ text }</p> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_one_way_and_consent_are_enough() {
        let fields = |contact: &Contact| troubles(contact).iter().map(|(field, _)| *field).collect::<Vec<_>>();
        let mut contact = Contact::default();
        assert_eq!(fields(&contact), ["name", "telephone", "consent"]);
        contact.name = "Invented Person".into();
        contact.email = "person".into();
        contact.consent = true;
        assert_eq!(fields(&contact), ["email"]);
        contact.email = "person@example.invalid".into();
        assert_eq!(fields(&contact), [""; 0]);
    }
}
