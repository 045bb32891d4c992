//! The photo of a place: taken or chosen, shown back, removed.

use super::View;
use crate::widget::el::{El, button, el, paragraph, trouble};
use crate::widget::state::{Action, PhotoTrouble};
use model::answers::Word;
use record::enquiry::PhotoPlace;
use web_sys::{Event, File, HtmlInputElement};
use wording::form as words;
use yew::virtual_dom::ListenerKind;
use yew::{Callback, TargetCast};

/// The photos of one place.
pub fn photos(view: &View, place: PhotoPlace, taken: &Callback<(PhotoPlace, File)>) -> El {
    let View { form, speech, .. } = view;
    let word = PhotoPlace::WORDS[usize::from(place.place())];
    let onchange = {
        let taken = taken.clone();
        Callback::from(move |event: Event| {
            let input = event.target_unchecked_into::<HtmlInputElement>();
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                taken.emit((place, file));
            }
            // Emptied, so that the same picture can be chosen again after it was removed.
            input.set_value("");
        })
    };
    let went_wrong = form.photo_trouble.filter(|(at, _)| *at == place).map(|(_, trouble)| match trouble {
        PhotoTrouble::NotAPicture => words::PHOTO_TROUBLE_NOT_A_PICTURE,
        PhotoTrouble::NotSecure => words::PHOTO_TROUBLE_NOT_SECURE,
        PhotoTrouble::NoCopy => words::PHOTO_TROUBLE_NO_COPY,
        PhotoTrouble::TooMany => words::PHOTO_TROUBLE_TOO_MANY,
    });
    let shown = form.photos.iter().filter(|photo| photo.place == place).map(|photo| {
        let sha256 = photo.sha256.clone();
        let remove = view.on_press(move || Action::PhotoRemoved(sha256.clone()));
        let picture = el("img")
            .attr("src", photo.shown_at.clone().into())
            .attr("alt", speech.say(words::PHOTO_SHOWN))
            .attr("width", photo.width.to_string().into())
            .attr("height", photo.height.to_string().into());
        let remove = button("quiet", speech.say(words::PHOTO_REMOVE), remove);
        el("figure").key(&photo.sha256).with(picture).with(remove)
    });
    let taker = |text, camera: bool| {
        let input = el("input").set("type", "file").set("accept", "image/*");
        let input = if camera { input.set("capture", "environment") } else { input };
        let input = input.on(ListenerKind::onchange, onchange.clone());
        el("label").class("taker").with(input).with(el("span").text(speech.say(text)))
    };
    let busy = (form.photos_under_way > 0).then(|| el("p").text(speech.say(words::PHOTO_BUSY)));
    let title = el("h3")
        .attr("id", ["p-", word].concat().into())
        .text(speech.made(&["photo-", word]))
        .text(" ".into())
        .with(el("small").text(speech.say(words::CONTACT_OPTIONAL)));
    el("section")
        .class("photos")
        .attr("aria-labelledby", ["p-", word].concat().into())
        .with(title)
        .with(paragraph("hint", speech.made(&["photo-hint-", word])))
        .with(el("div").all(shown.collect()))
        .with(el("div").class("takers").with(taker(words::PHOTO_TAKE, true)).with(taker(words::PHOTO_CHOOSE, false)))
        .with(el("div").set("role", "status").perhaps(busy))
        .perhaps(went_wrong.map(|key| trouble(speech.say(key))))
        .with(paragraph("hint", speech.say(words::PHOTO_PRIVATE)))
}
