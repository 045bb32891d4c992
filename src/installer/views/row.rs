//! One row of the list, read as a decision: what to do, why, where, since when, band.

use crate::ago::{Clock, ago, day_and_time};
use crate::enquiry_rows::EnquiryRow;
use crate::headline::{Made, because, lead};
use crate::location::enquiry_address;
use crate::parts::{TapeStrip, WeightMark};
use crate::tape::{Scale, pounds};
use crate::words::{fill, flag_name, photos_said, say, worded};
use engine::assessment::{OwedTo, Reason};
use jiff::civil::Date;
use std::borrow::Cow;
use wording::triage as key;
use yew::prelude::*;

/// The row's properties.
#[derive(PartialEq, Properties)]
pub struct RowViewProps {
    /// The enquiry.
    pub row: EnquiryRow,
    /// The tape's scale, the same for all rows.
    pub scale: Option<Scale>,
    /// The time now.
    pub clock: Clock,
}

/// The row.
#[component]
pub fn RowView(props: &RowViewProps) -> Html {
    let row = &props.row;
    let gravest = row.flags.first();
    let made = Made {
        complexity: row.complexity,
        reasons: &row.reasons,
        flag: gravest.map(|flag| (flag.code.as_str(), flag.weight)),
        gates: &row.gates,
    };
    let cause = because(&made);
    let complexity = lead(row.complexity, row.rests, gravest.map(|flag| flag.weight));
    let class = if row.handled { "row is-handled" } else { "row" };
    html! {
        <li class={class}>
            <div class="margin"><WeightMark weight={gravest.map(|flag| flag.weight)} /></div>
            <div class="what">
                <h2>
                    <a id={format!("row-{}", row.key)} href={enquiry_address(&row.key)} data-row="">
                        <span class="complexity">{ complexity }</span>
                        if let Some(cause) = &cause {
                            { say(key::JOIN_COLON) }{ cause.clone() }
                        }
                    </a>
                </h2>
                <p class="why">{ why(row, cause.as_deref(), props.clock.wall(props.clock.now).date()) }</p>
            </div>
            <p class="where">
                <span class="outward">{ if row.outward.is_empty() { say(key::ROW_NO_POSTCODE) } else { &row.outward } }</span>
                <span class="who">{ &row.name }</span>
            </p>
            <p class="when">
                <time datetime={row.received.to_string()} title={day_and_time(row.received, props.clock)}>
                    { ago(row.received, props.clock) }
                </time>
                <span class="exact">{ day_and_time(row.received, props.clock) }</span>
            </p>
            <div class="band">{ band(row, props.scale) }</div>
            <p class="state">
                <span>{ photos_said(row.arrived, row.photos) }</span>
                if row.corrected {
                    <span>{ say(key::ROW_CORRECTED) }</span>
                }
                if row.handled {
                    <span>{ say(key::ROW_HANDLED) }</span>
                }
            </p>
        </li>
    }
}

/// Why, in order: an answer that is overdue today; the gravest flag's weight in words with its evidence, or else the reasons; who is to be
/// asked; the other flags. Nothing that the headline says is repeated.
fn why(row: &EnquiryRow, cause: Option<&str>, today: Date) -> String {
    let mut parts: Vec<String> = Vec::new();
    if row.asked.is_some_and(|asked| asked.is_overdue(today)) {
        let who = worded("owed-to", OwedTo::NetworkOperator.word());
        parts.push([&who, " ", say(key::OWED_OVERDUE)].concat());
    }
    match row.flags.first() {
        Some(flag) => {
            let seen = flag.evidence.first().map_or_else(|| flag_name(&flag.code), |seen| seen.as_str().into());
            parts.push([&worded("weight", flag.weight.word()), say(key::JOIN_COLON), &seen].concat());
        }
        // The reason that somebody else comes first is left out: they are named below.
        None => parts.extend(
            row.reasons
                .iter()
                .filter(|reason| **reason != Reason::SomebodyElseFirst)
                .map(|reason| worded("reason", reason.word()).into_owned())
                .filter(|reason| Some(reason.as_str()) != cause),
        ),
    }
    if !row.gates.is_empty() {
        let who: Vec<_> = row.gates.iter().map(|gate| worded("gatekeeper", gate.word())).collect();
        let who = who.join(say(key::JOIN_COMMA));
        if Some(who.as_str()) != cause {
            parts.push(fill(key::ROW_ASK, &[("who", &who)]));
        }
    }
    if row.flags.len() > 1 {
        // A flag about a landlord names the landlord, who is then not named again among those to be asked.
        let asked = |name: &Cow<'_, str>| row.gates.iter().any(|gate| worded("gatekeeper", gate.word()) == *name);
        let others: Vec<_> =
            row.flags.iter().skip(1).map(|flag| flag_name(&flag.code)).filter(|name| !asked(name)).collect();
        if !others.is_empty() {
            parts.push(fill(key::ROW_ALSO, &[("flags", &others.join(say(key::JOIN_COMMA)))]));
        }
    }
    if parts.is_empty() && cause.is_none() {
        return say(key::ROW_NOTHING_IN_THE_WAY).to_owned();
    }
    parts.join(say(key::JOIN_STOP))
}

fn band(row: &EnquiryRow, scale: Option<Scale>) -> Html {
    let (Some(band), Some(scale)) = (row.band, scale) else {
        return html! {
            <span class="figures none">{ say(key::BAND_NONE) }</span>
        };
    };
    let places = [("low", &*pounds(band.low)), ("high", &*pounds(band.high))];
    html! {
        <>
            <TapeStrip {band} {scale} />
            <span class="figures">
                <span class="price">{ fill(key::ROW_BAND, &places) }</span>
                if row.invented {
                    { " " }<span class="invented">{ say(key::INVENTED) }</span>
                }
            </span>
        </>
    }
}
