//! The plan: a small line drawing of this home that grows with the answers.

use crate::answers::{Along, Answers, MeterPlace, ParkingPlace};
use crate::widget::speech::Speech;
use crate::wording::form as words;
use yew::prelude::*;

/// This home in a few lines: what was not said is not drawn.
#[must_use]
pub fn plan(answers: &Answers, speech: &Speech) -> Html {
    let parking = answers.parking.place.known().copied();
    let along = answers.route.mostly.known().copied();
    let label = |x: &'static str, y: &'static str, text| html! {
        <text class="small" {x} {y}>{ text }</text>
    };
    // The way the cable takes, by what it runs along: through the house, on its wall, over the fence, or under ground.
    let way = match along {
        Some(Along::Inside) => Some(("M90 84H128", "run")),
        Some(Along::LoftOrFloor) => Some(("M84 76V48H128V84", "run")),
        Some(Along::OutsideWall) => Some(("M90 88H134V72", "run")),
        Some(Along::Fence) => Some(("M90 88H206", "run")),
        Some(Along::SoftGround | Along::Paving) => Some(("M84 92V112H206V92", "run buried")),
        None => None,
    };
    let far = matches!(along, Some(Along::Fence | Along::SoftGround | Along::Paving));
    let point = if far { "M202 74h8v16h-8z" } else { "M130 62h8v16h-8z" };
    html! {
        <svg class="plan" viewBox="0 0 320 132" role="img" focusable="false">
            <title>{ speech.say(words::PLAN_TITLE) }</title>
            <desc>{ speech.say(words::PLAN_TEXT) }</desc>
            <path class="line" d="M4 104H316 M24 104V48L78 14L132 48V104" />
            if !answers.board.protection.is_not_asked() {
                <path class="line tint" d="M76 74h14v18h-14z" />
                { label("68", "68", speech.say(words::PLAN_BOARD)) }
            }
            if let Some(place) = answers.meter.place.known() {
                <path class="line" d={if *place == MeterPlace::OutsideBox { "M14 78h10v16h-10z" } else { "M30 78h10v16h-10z" }} />
                { label("4", "118", speech.say(words::PLAN_METER)) }
            }
            if let Some((path, class)) = way {
                <path class={classes!("line", class)} d={path} />
                <path class="line tint" d={point} />
                { label(if far { "176" } else { "142" }, if far { "68" } else { "60" }, speech.say(words::PLAN_POINT)) }
            }
            if matches!(parking, Some(ParkingPlace::AttachedGarage)) {
                <path class="line" d="M132 62H250V104" />
            }
            if matches!(parking, Some(ParkingPlace::DetachedGarage)) {
                <path class="line" d="M198 104V58H306V104" />
            }
            if parking.is_some() {
                <path class="line" d="M218 100h-4v-12l14-4 12-14h34l14 14 12 4v12h-6 M236 100h44 M222 100a7 7 0 0 1 14 0a7 7 0 0 1-14 0 M280 100a7 7 0 0 1 14 0a7 7 0 0 1-14 0" />
                { label("250", "124", speech.say(words::PLAN_CAR)) }
            }
        </svg>
    }
}
