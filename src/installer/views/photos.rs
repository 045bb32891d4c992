//! The photos: those that have arrived, and those that have not yet.

use super::enquiry::OpenEnquiry;
use crate::client::photo_source;
use crate::location::photo_address;
use crate::words::{fill, photos_said, say, worded};
use record::enquiry::Photo;
use wording::triage as key;
use yew::prelude::*;

/// The section with the photos.
pub(super) fn view(shown: &OpenEnquiry<'_>) -> Html {
    let (detail, photos) = (shown.detail, &shown.detail.enquiry.payload.photos);
    let arrived = photos.iter().filter(|photo| detail.arrived(&photo.sha256)).count();
    html! {
        <section class="photos" aria-labelledby="photos-title">
            <h2 id="photos-title">{ say(key::PHOTOS_TITLE) }</h2>
            <p>{ photos_said(arrived, photos.len()) }</p>
            if !photos.is_empty() {
                <ul class="plain strip">
                    { for photos.iter().enumerate().map(|(nth, photo)| one(detail, nth, photo)) }
                </ul>
            }
        </section>
    }
}

fn one(detail: &crate::api::Detail, nth: usize, photo: &Photo) -> Html {
    let caption = caption(nth, photo);
    html! {
        <li key={photo.sha256.clone()}>
            if detail.arrived(&photo.sha256) {
                <a href={photo_address(&detail.client_key, &photo.sha256)}>
                    <img src={photo_source(&detail.client_key, &photo.sha256)} alt="" loading="lazy"
                        width={photo.width.to_string()} height={photo.height.to_string()} />
                    <span>{ caption }</span>
                </a>
            } else {
                <p class="missing"><span>{ caption }</span>{ " " }<strong>{ say(key::PHOTO_MISSING) }</strong></p>
            }
        </li>
    }
}

/// What a photo shows, with its number to tell it from the others.
pub(super) fn caption(nth: usize, photo: &Photo) -> String {
    fill(key::PHOTO_CAPTION, &[("n", &(nth + 1).to_string()), ("place", &worded("photo", photo.place.word()))])
}
