//! The homeowner's name, and how to reach them.

use super::enquiry::OpenEnquiry;
use crate::words::{find, say, worded};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use wording::triage as key;
use yew::prelude::*;

/// The lines under the heading.
pub(super) fn view(shown: &OpenEnquiry<'_>) -> Html {
    let contact = &shown.detail.enquiry.payload.contact;
    let dialled: String = contact.telephone.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect();
    let line = |label: &'static str, value: Html| html! { <div><dt>{ label }</dt><dd>{ value }</dd></div> };
    html! {
        <div class="contact">
            <dl>
                if !contact.telephone.is_empty() {
                    { line(say(key::CONTACT_TELEPHONE), html! {
                        <a class="reach" href={format!("tel:{dialled}")}>{ &contact.telephone }</a>
                    }) }
                }
                if !contact.email.is_empty() {
                    { line(say(key::CONTACT_EMAIL), html! {
                        <a class="reach" href={format!("mailto:{}", address(&contact.email))}>{ &contact.email }</a>
                    }) }
                }
                if !contact.address.is_empty() {
                    { line(say(key::CONTACT_ADDRESS), html! { <span class="as-typed">{ &contact.address }</span> }) }
                }
                if !contact.supply_number.is_empty() {
                    { line(say(key::CONTACT_SUPPLY_NUMBER), html! { { &contact.supply_number } }) }
                }
                if let Some(reach) = contact.reach {
                    { line(say(key::CONTACT_BEST), html! { { worded("reach", reach.word()) } }) }
                }
                if !contact.when.is_empty() {
                    { line(say(key::CONTACT_WHEN), html! { { &contact.when } }) }
                }
                if !contact.language.is_empty() {
                    { line(say(key::CONTACT_LANGUAGE), html! { { language(&contact.language) } }) }
                }
                if contact.offers {
                    { line(say(key::CONTACT_OFFERS), html! { { say(key::CONTACT_OFFERS_YES) } }) }
                }
                if !contact.note.is_empty() {
                    { line(say(key::CONTACT_NOTE), html! { <span class="as-typed">{ &contact.note }</span> }) }
                }
            </dl>
        </div>
    }
}

/// A language's name, or its code (BCP 47) where this page has no name for it.
fn language(code: &str) -> String {
    find(&["language-", code].concat()).unwrap_or(code).to_owned()
}

/// An email address for a link, with all but plain characters percent-encoded, so that it can't add a second recipient, a subject or a
/// body.
fn address(email: &str) -> String {
    const SIGNS: &AsciiSet = &NON_ALPHANUMERIC.remove(b'@').remove(b'.').remove(b'-').remove(b'_');
    utf8_percent_encode(email, SIGNS).to_string()
}

#[cfg(test)]
mod tests {
    use super::address;

    #[test]
    fn a_mail_link_carries_an_address_and_nothing_else() {
        assert_eq!(address("invented.person@example.invalid"), "invented.person@example.invalid");
        assert_eq!(address("a@b?bcc=c,d&body=x é"), "a@b%3Fbcc%3Dc%2Cd%26body%3Dx%20%C3%A9");
    }
}
