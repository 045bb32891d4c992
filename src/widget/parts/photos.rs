//! The photo of a place: taken or chosen, shown back, removed.

use crate::answers::Word;
use crate::enquiry::PhotoPlace;
use super::View;
use crate::widget::state::{Action, PhotoTrouble};
use crate::wording::form as words;
use web_sys::{File, HtmlInputElement};
use yew::prelude::*;

/// The photos of one place.
pub fn photos(view: &View, place: PhotoPlace, taken: &Callback<(PhotoPlace, File)>) -> Html {
    let View { form, speech, .. } = view;
    let word = PhotoPlace::WORDS[usize::from(place.place())];
    let onchange = {
        let taken = taken.clone();
        Callback::from(move |event: Event| {
            let input = event.target_unchecked_into::<HtmlInputElement>();
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                taken.emit((place, file));
            }
            // So that the same picture can be chosen again after it was removed.
            input.set_value("");
        })
    };
    let trouble = form.photo_trouble.filter(|(at, _)| *at == place).map(|(_, trouble)| match trouble {
        PhotoTrouble::NotAPicture => words::PHOTO_TROUBLE_NOT_A_PICTURE,
        PhotoTrouble::NotSecure => words::PHOTO_TROUBLE_NOT_SECURE,
        PhotoTrouble::NoCopy => words::PHOTO_TROUBLE_NO_COPY,
        PhotoTrouble::TooMany => words::PHOTO_TROUBLE_TOO_MANY,
    });
    html! {
        <section class="photos" aria-labelledby={["p-", word].concat()}>
            <h3 id={["p-", word].concat()}>{ speech.made(&["photo-", word]) }{ " " }<small>{ speech.say(words::CONTACT_OPTIONAL) }</small></h3>
            <p class="hint">{ speech.made(&["photo-hint-", word]) }</p>
            { for form.photos.iter().filter(|photo| photo.place == place).map(|photo| {
                let sha256 = photo.sha256.clone();
                let remove = view.on_press(move || Action::PhotoRemoved(sha256.clone()));
                html! {
                    <figure key={photo.sha256.clone()}>
                        <img
                            src={photo.shown_at.clone()}
                            alt={speech.say(words::PHOTO_SHOWN)}
                            width={photo.width.to_string()}
                            height={photo.height.to_string()}
                        />
                        <button type="button" class="quiet" onclick={remove}>{ speech.say(words::PHOTO_REMOVE) }</button>
                    </figure>
                }
            }) }
            <div class="takers">
                <label class="taker">
                    <input type="file" accept="image/*" capture="environment" onchange={onchange.clone()} />
                    <span>{ speech.say(words::PHOTO_TAKE) }</span>
                </label>
                <label class="taker">
                    <input type="file" accept="image/*" {onchange} />
                    <span>{ speech.say(words::PHOTO_CHOOSE) }</span>
                </label>
            </div>
            <div role="status">
                if form.photos_under_way > 0 {
                    <p>{ speech.say(words::PHOTO_BUSY) }</p>
                }
            </div>
            if let Some(key) = trouble {
                <p class="trouble" role="alert">{ speech.say(key) }</p>
            }
            <p class="hint">{ speech.say(words::PHOTO_PRIVATE) }</p>
        </section>
    }
}
