//! The plain form in two versions: the markup of `plain.js`, for browsers that refuse WebAssembly, and a form that works without any
//! script.

use super::markup::made;
use crate::widget::el::{El, el, list, paragraph, section, trouble};
use crate::widget::emergency::{Advice, advice};
use crate::widget::parts::{View, notice, question_view, told as told_in};
use model::answers::{Answers, HazardSign, Known, Set, Word};
use record::markup::{Node, Tag};
use serde::Serialize;
use wording::{Key, Words, form as said, plain as words};
use yew::AttrValue;

/// The markup of `plain.js`.
#[derive(Serialize)]
pub struct Plain {
    /// The form.
    form: String,
    /// The page after sending, with the placeholder `{reference}`.
    sent: String,
}

/// Draws the plain form in one language.
pub struct PlainForm<'a> {
    words: Words<'static>,
    view: &'a View<'a>,
}

/// A line of the form: the name of its field, its label, the kind of field, what the browser may fill in.
struct Line(&'static str, AttrValue, &'static str, &'static str);

impl<'a> PlainForm<'a> {
    /// The plain form with this wording of its own; the rest is the form's wording in `view`.
    pub const fn new(words: Words<'static>, view: &'a View<'a>) -> Self {
        Self { words, view }
    }

    fn say(&self, key: Key) -> AttrValue {
        let places = [("installer", "{installer}"), ("telephone", "{telephone}")];
        self.words.fill(key, &places).into()
    }

    fn optional(&self, text: &AttrValue) -> AttrValue {
        [text.as_str(), " ", self.view.speech.say(said::CONTACT_OPTIONAL).as_str()].concat().into()
    }

    /// The markup of `plain.js`.
    pub fn scripted(&self, html: &dyn Fn(Tag) -> String) -> Plain {
        let speech = self.view.speech;
        let note = |class, text| paragraph(class, text).set("role", "status").set("hidden", "");
        let main = el("button").set("type", "submit").class("main").text(speech.say(said::SEND));
        let actions = el("div")
            .class("actions")
            .with(main)
            .with(note("sending", speech.say(said::SENDING)))
            .with(note("trouble no-answer", speech.say(said::SEND_TROUBLE_NO_ANSWER)))
            .with(note("trouble refused", self.say(words::REFUSED)));
        let page = el("form")
            .class("page contact")
            .set("novalidate", "novalidate")
            .with(el("p").text(self.say(words::WHY)))
            .with(el("p").with(el("a").set("href", "tel:{telephone}").text(self.say(words::RING))))
            .all(self.fields(true))
            .with(self.photos())
            .with(self.notice("{who}"))
            .with(actions);
        let form = el("div").class("form plain").with(title(speech.say(said::CONTACT_TITLE))).with(page);
        let sent = el("div").class("form plain").with(title(speech.say(said::SENT_TITLE))).with(
            el("div")
                .class("page sent")
                .with(el("p").text(self.say(words::SENT_TEXT)))
                .with(
                    section("told", speech.say(said::SENT_REFERENCE))
                        .with(paragraph("reference", "{reference}".into())),
                )
                .with(
                    section("next", speech.say(said::NEXT_TITLE))
                        .with(list("ol", vec![speech.say(said::NEXT_2), speech.say(said::NEXT_3)])),
                )
                .with(
                    el("div").class("taking-back").with(el("p").text(self.say(words::DELETE_TEXT))).with(
                        el("p").with(
                            el("a")
                                .class("quiet")
                                .set("target", "_blank")
                                .set("rel", "noopener noreferrer")
                                .text(self.say(words::DELETE_LINK)),
                        ),
                    ),
                ),
        );
        let mut form = made(form);
        self.keep_places(&mut form);
        Plain { form: html(form), sent: html(made(sent)) }
    }

    /// What a page without script shows, to be put into its `<form>`.
    pub fn noscript(&self) -> Tag {
        let speech = self.view.speech;
        let safety = section("emergency", self.say(words::SAFETY))
            .with(el("p").text(self.say(words::SAFETY_TEXT)))
            .all(self.advice());
        let hazards = ["hazard", "hazard-when", "hazard-place"]
            .iter()
            .filter_map(|id| model::questions::question(id))
            .map(|question| question_view(self.view, question));
        let main = el("button").set("type", "submit").class("main").text(speech.say(said::SEND));
        let page = el("div")
            .class("page contact")
            .with(el("p").text(self.say(words::WHY_NOSCRIPT)))
            .with(safety)
            .all(hazards.collect())
            .all(self.fields(false))
            .with(self.trap())
            .with(self.notice("{installer}"))
            .with(el("div").class("actions").with(main));
        let form = el("div").class("form plain").with(title(self.say(words::TITLE_NOSCRIPT))).with(page);
        let mut form = made(form);
        form.each(&mut |tag| {
            // Without a script the browser itself points out missing fields.
            tag.children.retain(|child| !matches!(child, Node::Tag(tag) if tag.is("class", "trouble")));
            if tag.is("name", "name") {
                tag.set("required", "");
            }
            // Of several fields with one name PHP keeps the last alone, unless the name says that it is a list.
            if tag.is("type", "checkbox") && tag.is("name", "hazard") {
                tag.set("name", "hazard[]");
            }
        });
        form
    }

    /// Every piece of emergency advice, with the signs that it is for.
    fn advice(&self) -> Vec<El> {
        let speech = self.view.speech;
        let mut told: Vec<(Advice, Vec<AttrValue>)> = Vec::new();
        let question = model::questions::question("hazard");
        for (sign, word) in HazardSign::ALL.iter().zip(HazardSign::WORDS) {
            let mut answers = Answers::default();
            answers.hazard.signs = Known(Set::of(&[*sign]));
            // Nothing is known of the place here, so the first advice is that of the sign itself.
            let Some(first) = advice(&answers).into_iter().next() else { continue };
            let name = question.map(|question| speech.option(question, word)).unwrap_or_default();
            match told.iter_mut().find(|(advice, _)| *advice == first) {
                Some((_, names)) => names.push(name),
                None => told.push((first, vec![name])),
            }
        }
        told.into_iter()
            .map(|(advice, names)| {
                let names = names.iter().map(AttrValue::as_str).collect::<Vec<_>>().join("; ");
                let signs = el("p").with(el("strong").text(names.into()));
                el("div").with(signs).with(told_in(self.view, advice))
            })
            .collect()
    }

    /// A field for robots: nobody sees it or hears of it, and no browser fills it in by itself.
    fn trap(&self) -> El {
        let input = el("input").set("name", "website").set("tabindex", "-1").set("autocomplete", "off");
        el("p").set("hidden", "").with(el("label").text(self.say(words::TRAP)).with(input))
    }

    /// The fields; `scripted` where a script shows what the installer's config offers.
    fn fields(&self, scripted: bool) -> Vec<El> {
        let speech = self.view.speech;
        let when = self.optional(&speech.say(said::CONTACT_WHEN));
        let lines = [
            Line("name", speech.say(said::CONTACT_NAME), "text", "name"),
            Line("telephone", speech.say(said::CONTACT_TELEPHONE), "tel", "tel"),
            Line("email", speech.say(said::CONTACT_EMAIL), "email", "email"),
            Line("postcode", self.say(words::POSTCODE), "text", "postal-code"),
            Line("when", when, "text", "off"),
        ];
        let missing = [
            ("name", said::CONTACT_NAME_MISSING),
            ("telephone", said::CONTACT_WAY_MISSING),
            ("email", said::CONTACT_EMAIL_UNREADABLE),
        ];
        let mut fields = Vec::new();
        if !speech.language().starts_with("en") {
            let language = el("input").set("type", "hidden").set("name", "language").set("value", speech.language());
            fields.push(language);
        }
        for Line(name, text, kind, autocomplete) in lines {
            let input = el("input")
                .attr("id", ["c-", name].concat().into())
                .set("name", name)
                .set("type", kind)
                .set("autocomplete", autocomplete)
                .set("maxlength", "200");
            let missing = missing.iter().find(|(field, _)| *field == name);
            fields.push(label(name, text).with(input).perhaps(missing.map(|(_, key)| self.missing(name, *key))));
            if name == "email" && scripted {
                let tick = el("input").set("id", "c-copy").set("type", "checkbox");
                let text = self.optional(&speech.say(said::CONTACT_COPY));
                fields.push(el("label").class("choice").set("hidden", "").with(tick).with(el("span").text(text)));
            }
            if name == "name" {
                fields.push(paragraph("hint", speech.say(said::CONTACT_ONE)));
            }
        }
        let area = el("textarea").set("id", "c-note").set("name", "note").set("rows", "6").set("maxlength", "2000");
        let hint = paragraph("hint", self.say(words::NOTE_HINT)).set("id", "h-note");
        fields.push(label("note", self.say(words::NOTE)).with(hint).with(area.set("aria-describedby", "h-note")));
        fields
    }

    fn photos(&self) -> El {
        let speech = self.view.speech;
        let input =
            el("input").set("id", "c-photo").set("type", "file").set("accept", "image/*").set("multiple", "multiple");
        let troubles = [said::PHOTO_TROUBLE_NOT_A_PICTURE, said::PHOTO_TROUBLE_NO_COPY, said::PHOTO_TROUBLE_TOO_MANY];
        let names = ["not-a-picture", "no-copy", "too-many"];
        let troubles = troubles
            .iter()
            .zip(names)
            .map(|(key, name)| trouble(speech.say(*key)).set("data-trouble", name).set("hidden", ""));
        let remove = el("button").set("type", "button").class("quiet").text(speech.say(said::PHOTO_REMOVE));
        let chosen = el("li").with(el("img").attr("alt", speech.say(said::PHOTO_SHOWN))).with(remove);
        let choose = el("label").class("taker").with(input).with(el("span").text(speech.say(said::PHOTO_CHOOSE)));
        let title = el("p").class("line-label").text(self.optional(&self.say(words::PHOTOS)));
        el("div")
            .class("line")
            .with(title)
            // The hint that sends nobody to look is shown; where a danger is ruled out, the script shows the other one instead.
            .with(paragraph("hint", self.say(words::PHOTOS_HINT)).set("data-look", "yes").set("hidden", ""))
            .with(paragraph("hint", self.say(words::PHOTOS_HINT_NO_LOOK)).set("data-look", "no"))
            .with(choose)
            .with(el("ul").class("chosen"))
            .with(el("template").with(chosen))
            .all(troubles.collect())
    }

    /// The privacy notice, with the placeholder `{privacy}` for the address of the installer's own notice.
    fn notice(&self, who: &str) -> El {
        notice(self.view.speech, who, None, Some("{privacy}".into()))
    }

    /// Stores in attributes how each sentence of the privacy notice reads once the installer's config is known, with the placeholders
    /// `{who}` and `{days}`.
    fn keep_places(&self, form: &mut Tag) {
        let kept = self.words.say(words::KEPT);
        form.each(&mut |tag| {
            if tag.is("class", "kept") {
                tag.set("data-text", kept);
            }
            let Some(Node::Text(text)) = tag.children.first_mut().filter(|_| tag.name != "label") else { return };
            if text.contains("{who}") {
                let with_places = text.clone();
                *text = text.replace("{who}", "{installer}");
                if !tag.is("class", "kept") {
                    tag.set("data-text", &with_places);
                }
            }
        });
    }

    fn missing(&self, field: &str, key: Key) -> El {
        trouble(self.view.speech.say(key)).attr("id", ["ce-", field].concat().into()).set("hidden", "")
    }
}

fn title(text: AttrValue) -> El {
    el("header").class("head").with(el("h2").set("tabindex", "-1").text(text))
}

fn label(name: &str, text: AttrValue) -> El {
    let label = el("label").class("line-label").attr("for", ["c-", name].concat().into()).text(text);
    el("div").class("line").with(label)
}

#[cfg(test)]
mod tests {
    use model::answers::{HazardPlace, HazardSign, HazardWhen, Word};

    #[test]
    fn without_a_script_every_sign_and_every_number_is_there() {
        let html = super::super::all().unwrap().remove("en").unwrap().noscript;
        for number in ["tel:999", "tel:105", "tel:0800111999"] {
            assert!(html.contains(number), "{number}");
        }
        for word in HazardSign::WORDS.iter().chain(HazardPlace::WORDS).chain(HazardWhen::WORDS) {
            assert!(html.contains(&format!("value=\"{word}\"")), "{word}");
        }
        assert!(html.contains("type=\"submit\"") && !html.contains("<form"), "the page has a form around it");
        assert!(html.contains("href=\"{privacy}\"") && html.contains("6(1)(b)"), "the notice stands above Send");
        assert!(!html.contains("consent"), "nothing is to be agreed to");
        assert!(
            html.contains("name=\"hazard[]\"") && !html.contains("name=\"hazard\""),
            "a host may keep one of several"
        );
        let (_, trap) = html.split_once("<p hidden").unwrap();
        let (trap, _) = trap.split_once("</p>").unwrap();
        assert!(trap.contains("name=\"website\"") && trap.contains("autocomplete=\"off\""), "{trap}");
        assert!(!html.contains("c-copy"), "without a script nobody knows whether a copy is offered");
        assert!(!html.contains("type=\"file\""), "a photo would leave with what the camera wrote into it");
    }
}
