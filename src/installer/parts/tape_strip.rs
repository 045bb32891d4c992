//! The tape drawn: a ruled strip with ticks, the band filled, a stroke at the likeliest figure.

use crate::tape::{Scale, pounds};
use crate::words::{fill, say};
use engine::assessment::{Band, Curve};
use engine::price::outline;
use wording::triage as key;
use yew::prelude::*;

/// The drawing's width in its own units; the page scales it to the space it has.
const WIDTH: f64 = 320.0;

/// The width that a label needs at most.
const ROOM: f64 = 50.0;

/// The strip's properties.
#[derive(PartialEq, Properties)]
pub struct TapeStripProps {
    /// The band.
    pub band: Band,
    /// The scale of the tape.
    pub scale: Scale,
    /// The distribution of prices, drawn over the tape of a single band.
    #[prop_or_default]
    pub curve: Option<Curve>,
}

/// The strip alone, for a row that gives the figures beside it.
#[component]
pub fn TapeStrip(props: &TapeStripProps) -> Html {
    html! {
        <svg class="tape small" viewBox="-1 0 322 16" preserveAspectRatio="none" aria-hidden="true" focusable="false">
            { strip(&props.band, &props.scale, 16.0) }
        </svg>
    }
}

/// The tape of one band, with its ends and its likeliest figure labelled.
#[component]
pub fn BandTape(props: &TapeStripProps) -> Html {
    let (band, scale) = (&props.band, &props.scale);
    let (low, likely, high) = (pounds(band.low), pounds(band.likely), pounds(band.high));
    let at = |amount| scale.at(amount, WIDTH);
    // The labels of the ends point outwards if there is room, and inwards at the ends of the tape.
    let low_end = if at(band.low) > ROOM { "end" } else { "start" };
    let high_end = if at(band.high) < WIDTH - ROOM { "start" } else { "end" };
    let places = [("low", low.as_str()), ("likely", likely.as_str()), ("high", high.as_str())];
    html! {
        <svg class="tape" viewBox="-24 0 368 106" role="img" aria-labelledby="tape-title" aria-describedby="tape-long">
            <title id="tape-title">{ say(key::TAPE_TITLE) }</title>
            <desc id="tape-long">{ fill(key::TAPE_LONG, &places) }</desc>
            if let Some(curve) = &props.curve {
                <path class="curve" d={outline(curve, |money| scale.at(money, WIDTH) as i64, 54, 30)} />
            }
            <g transform="translate(0 54)">{ strip(band, scale, 28.0) }</g>
            <text class="likely" x={at(band.likely).to_string()} y="16" text-anchor="middle">{ likely.clone() }</text>
            <text x={at(band.low).to_string()} y="100" text-anchor={low_end}>{ low.clone() }</text>
            <text x={at(band.high).to_string()} y="100" text-anchor={high_end}>{ high.clone() }</text>
        </svg>
    }
}

fn strip(band: &Band, scale: &Scale, height: f64) -> Html {
    let at = |amount| scale.at(amount, WIDTH);
    let (low, high) = (at(band.low), at(band.high));
    let base = height - 1.0;
    let mut ruled = format!("M0 {base}H{WIDTH}");
    for (nth, x) in scale.ticks(WIDTH).into_iter().enumerate() {
        let rise = if nth % 2 == 0 { height * 0.5 } else { height * 0.3 };
        ruled.push_str(&format!("M{x} {base}v-{rise}"));
    }
    let likely = at(band.likely);
    html! {
        <>
            <rect class="stretch" x={low.to_string()} y="1" width={(high - low).max(2.0).to_string()} height={(height - 2.0).to_string()} />
            <path class="rule" d={ruled} />
            <path class="at" d={format!("M{likely} 1V{base}")} />
        </>
    }
}
