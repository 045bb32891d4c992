//! One photo enlarged, with the homeowner's marks.

use super::photos::caption;
use crate::api::Detail;
use crate::client::photo_source;
use crate::location::enquiry_address;
use crate::words::{fill, say};
use record::enquiry::{Mark, Photo};
use std::rc::Rc;
use wording::triage as key;
use yew::prelude::*;

/// The photo's properties.
#[derive(PartialEq, Properties)]
pub struct PhotoProps {
    /// The enquiry that it belongs to.
    pub detail: Rc<Detail>,
    /// Its SHA-256, which is its name.
    pub sha256: String,
}

/// The photo.
#[component]
pub fn PhotoView(props: &PhotoProps) -> Html {
    let detail = &props.detail;
    let photos = &detail.enquiry.payload.photos;
    let found = photos.iter().enumerate().find(|(_, photo)| photo.sha256 == props.sha256);
    html! {
        <main class="photo">
            <p class="back"><a href={enquiry_address(&detail.client_key)}>
                { fill(key::BACK_TO_ENQUIRY, &[("name", &detail.enquiry.payload.contact.name)]) }
            </a></p>
            { match found {
                Some((nth, photo)) if detail.arrived(&photo.sha256) => large(detail, nth, photo),
                Some((nth, photo)) => html! {
                    <><h1 tabindex="-1">{ caption(nth, photo) }</h1><p>{ say(key::PHOTO_MISSING) }</p></>
                },
                None => html! {
                    <><h1 tabindex="-1">{ say(key::PHOTOS_TITLE) }</h1><p>{ say(key::PHOTO_UNKNOWN) }</p></>
                },
            } }
        </main>
    }
}

fn large(detail: &Detail, nth: usize, photo: &Photo) -> Html {
    html! {
        <>
            <h1 tabindex="-1">{ caption(nth, photo) }</h1>
            <div class="frame">
                <img src={photo_source(&detail.client_key, &photo.sha256)} alt={caption(nth, photo)}
                    width={photo.width.to_string()} height={photo.height.to_string()} />
                { marks(photo) }
            </div>
            if !photo.marks.is_empty() {
                <ol class="marks-said">{ for photo.marks.iter().map(|mark| html! { <li>{ &mark.says }</li> }) }</ol>
            }
        </>
    }
}

/// Rings around the marked spots, numbered as in the list below the photo.
fn marks(photo: &Photo) -> Html {
    let (width, height) = (f64::from(photo.width.max(1)), f64::from(photo.height.max(1)));
    let radius = width.min(height) / 20.0;
    let ring = |(nth, mark): (usize, &Mark)| {
        let (x, y) = (mark.across.get() * width, mark.down.get() * height);
        html! {
            <>
                <circle class="under" cx={x.to_string()} cy={y.to_string()} r={radius.to_string()} />
                <circle class="over" cx={x.to_string()} cy={y.to_string()} r={radius.to_string()} />
                <text x={x.to_string()} y={(y + radius * 0.4).to_string()} font-size={(radius * 1.2).to_string()} text-anchor="middle">
                    { nth + 1 }
                </text>
            </>
        }
    };
    html! {
        <svg class="marks" viewBox={format!("0 0 {width} {height}")} aria-hidden="true" focusable="false">
            { for photo.marks.iter().enumerate().map(ring) }
        </svg>
    }
}
