//! The decision: plan, band, complexity with its reasons, who must act first, and whether both assessments agree.

use super::enquiry::OpenEnquiry;
use crate::ago::day;
use crate::api::Agreement;
use crate::changes::band_in_figures;
use crate::parts::{BandTape, Plan};
use crate::sure;
use crate::tape::{Scale, pounds};
use crate::words::{fill, flag_name, say, worded};
use engine::assessment::{Assessment, Band, BeforeVat, Gate, MayApply, NoBand};
use model::config::PriceShown;
use model::units::{Pence, Ratio};
use record::how_much;
use wording::triage as key;
use yew::prelude::*;

/// The section with the decision.
pub(super) fn view(shown: &OpenEnquiry<'_>, assessment: &Assessment) -> Html {
    html! {
        <section class="decision" aria-labelledby="decision-title">
            <h2 id="decision-title">{ say(key::DECISION_TITLE) }</h2>
            if !assessment.no_band.is_some_and(NoBand::leaves_no_class) {
                <Plan answers={shown.answers.clone()} pace={shown.pace} />
            }
            { band(assessment) }
            { seen_by_a_visitor(shown, assessment) }
            if !assessment.grants.is_empty() {
                <ul class="plain">{ for assessment.grants.iter().map(grant) }</ul>
            }
            if !assessment.reasons.is_empty() {
                <h3>{ fill(key::REASONS_TITLE, &[("complexity", &worded("complexity", assessment.complexity.word()))]) }</h3>
                <ul class="plain">
                    { for assessment.reasons.iter().map(|reason| html! { <li>{ worded("reason", reason.word()) }</li> }) }
                </ul>
            }
            { gates(key::GATES_COUNT, assessment.gates.iter().filter(|gate| gate.counts)) }
            { gates(key::GATES_ON_PAPER, assessment.gates.iter().filter(|gate| !gate.counts && gate.on_paper)) }
            { gates(key::GATES_POSSIBLE, assessment.gates.iter().filter(|gate| !gate.counts && !gate.on_paper)) }
            if !assessment.settle.is_empty() {
                <h3>{ say(key::SETTLE_TITLE) }</h3>
                <ul class="plain">{ for assessment.settle.iter().map(|code| html! { <li>{ flag_name(code) }</li> }) }</ul>
            }
            { agreement(shown) }
        </section>
    }
}

fn band(assessment: &Assessment) -> Html {
    let Some(band) = &assessment.band else {
        let why = assessment.no_band.map(|why| worded("no-band", why.word()));
        return html! {
            <p class="no-band">
                <strong>{ say(key::BAND_NONE) }</strong>
                if let Some(why) = why {
                    { " " }{ why }
                }
            </p>
        };
    };
    let places = [
        ("low", &*pounds(band.low)),
        ("likely", &*pounds(band.likely)),
        ("high", &*pounds(band.high)),
        ("vat", &*pounds(band.vat)),
        ("charge-point", &*pounds(band.charge_point)),
        ("plainest", &*pounds(band.plainest)),
    ];
    html! {
        <div class="band">
            { tape(band, assessment) }
            <p class="figures">
                { fill(key::BAND_SENTENCE, &places) }
                if assessment.invented {
                    { " " }<strong class="invented">{ say(key::INVENTED_PRICES) }</strong>
                }
            </p>
            <p class="quietly">{ fill(key::BAND_PARTS, &places) }{ " " }{ say(key::BAND_NOT_A_QUOTATION) }</p>
            { for band.before_vat.iter().map(before_vat) }
        </div>
    }
}

/// What a visitor sees in place of the band, if the installer's setup says so.
fn seen_by_a_visitor(shown: &OpenEnquiry<'_>, assessment: &Assessment) -> Html {
    let (Some(config), Some(_), Some(estimate)) = (shown.config, &assessment.band, &assessment.estimate) else {
        return Html::default();
    };
    let sentence = match how_much(assessment, config) {
        PriceShown::Band => return Html::default(),
        PriceShown::From if estimate.well <= Pence(0) => return Html::default(), // assessed before this figure existed
        PriceShown::From => fill(key::BAND_SHOWN_FROM, &[("well", &pounds(estimate.well))]),
        PriceShown::Nothing => say(key::BAND_SHOWN_NONE).to_owned(),
    };
    html! { <p class="quietly">{ sentence }</p> }
}

/// The band before VAT, as installers think of prices; nothing if no VAT is charged, as it would be the same.
fn before_vat(band: &BeforeVat) -> Html {
    if band.rate == Ratio::ZERO && band.dated {
        return Html::default();
    }
    let rate = format!("{:.1}", band.rate.get() * 100.0);
    let places = [
        ("low", &*pounds(band.low)),
        ("likely", &*pounds(band.likely)),
        ("high", &*pounds(band.high)),
        ("rate", rate.trim_end_matches(".0")),
    ];
    html! {
        <p class="quietly">
            { fill(key::BAND_BEFORE_VAT, &places) }
            if !band.dated {
                { " " }<strong>{ say(key::BAND_VAT_UNDATED) }</strong>
            }
        </p>
    }
}

/// A grant that may be applied for, with what would be left to pay: shown beside the band, never deducted from it.
fn grant(grant: &MayApply) -> Html {
    let places = [("name", &*grant.name), ("most", &*pounds(grant.most)), ("read", &*day(grant.read))];
    html! {
        <li>
            { fill(key::GRANT, &places) }
            if let Some(after) = grant.likely_after {
                { " " }{ fill(key::GRANT_AFTER, &[("after", &pounds(after))]) }
            }
            <small class="quietly">{ " (" }{ &grant.source }{ ")" }</small>
        </li>
    }
}

fn tape(band: &Band, assessment: &Assessment) -> Html {
    let curve = assessment.estimate.as_ref().map(|estimate| estimate.curve.clone());
    Scale::over(std::iter::once(band))
        .map_or_else(Html::default, |scale| html! { <BandTape band={*band} {scale} {curve} /> })
}

fn gates<'a>(title: wording::Key, gates: impl Iterator<Item = &'a Gate>) -> Html {
    let gates: Vec<Html> = gates
        .map(|gate| {
            html! {
                <li>
                    <strong>{ worded("gatekeeper", gate.who.word()) }</strong>
                    { say(key::JOIN_COLON) }{ sure::word_and_figure(gate.probability) }
                    if !gate.why.is_empty() {
                        <span class="why">{ gate.why.join(say(key::JOIN_SEMICOLON)) }</span>
                    }
                    if !gate.wait.is_empty() {
                        <span class="wait">
                            { fill(key::GATE_WAIT, &[("wait", &gate.wait)]) }
                            if !gate.wait_source.is_empty() {
                                <small class="quietly">{ " (" }{ &gate.wait_source }{ ")" }</small>
                            }
                        </span>
                    }
                </li>
            }
        })
        .collect();
    if gates.is_empty() {
        return Html::default();
    }
    html! {
        <>
            <h3>{ say(title) }</h3>
            <ul class="plain gates">{ for gates }</ul>
        </>
    }
}

/// Whether the form's and the service's assessments agree; if not, both are named.
fn agreement(shown: &OpenEnquiry<'_>) -> Html {
    let detail = shown.detail;
    let (sent, own) = (detail.enquiry.payload.assessment.as_ref(), detail.own_assessment.as_ref());
    let sentence = match detail.agreement {
        _ if sent.is_none() => key::AGREE_NOT_SENT,
        Agreement::Equal => key::AGREE_EQUAL,
        Agreement::Different => key::AGREE_DIFFERENT,
        Agreement::NotCompared => key::AGREE_NOT_COMPARED,
        Agreement::NotAssessed => key::AGREE_NOT_ASSESSED,
    };
    let both = sent.is_some() && matches!(detail.agreement, Agreement::Different | Agreement::NotCompared);
    html! {
        <div class="agreement">
            <p>{ say(sentence) }</p>
            if both {
                <ul class="plain">
                    if let Some(sent) = sent {
                        <li>{ one(key::AGREE_FORM, sent) }</li>
                    }
                    if let Some(own) = own {
                        <li>{ one(key::AGREE_SERVICE, own) }</li>
                    }
                </ul>
            }
        </div>
    }
}

fn one(key: wording::Key, assessment: &Assessment) -> String {
    fill(
        key,
        &[
            ("complexity", &worded("complexity", assessment.complexity.word())),
            ("band", &band_in_figures(assessment.band.as_ref())),
            ("day", &day(assessment.as_of)),
            ("engine", &assessment.engine),
        ],
    )
}
