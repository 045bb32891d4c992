//! The result, before any name is asked: how involved, what it would cost, why, who answers first, what would narrow it.

use super::View;
use crate::assessment::{Assessment, Gate, Open};
use crate::questions::question;
use crate::units::Pence;
use crate::widget::drawings::{plan, tape};
use crate::widget::effects::Assessed;
use crate::widget::screens;
use crate::widget::speech::Speech;
use crate::widget::state::Action;
use crate::widget::step::Step;
use crate::wording::form as words;
use yew::prelude::*;

/// The result.
#[must_use]
pub fn result_page(view: &View, assessed: &Assessed) -> Html {
    let View { form, speech, .. } = view;
    let send = view.on_press(|| Action::WentOn);
    html! {
        <div class="page result" key="result">
            <p class="working" role="status">
                if !assessed.fresh {
                    { speech.say(if assessed.waiting { words::RESULT_WAITING } else { words::RESULT_WORKING }) }
                }
            </p>
            if let Some(assessment) = &assessed.latest {
                { involved(assessment, speech) }
                { price(assessment, speech) }
                { plan(&form.answers, speech) }
                { first(assessment, speech) }
                { told(assessment, speech) }
                { narrow(assessment, view) }
            }
            <section>
                <h3>{ speech.say(words::NEXT_TITLE) }</h3>
                <ol>
                    <li>{ speech.say(words::NEXT_1) }</li>
                    <li>{ speech.say(words::NEXT_2) }</li>
                    <li>{ speech.say(words::NEXT_3) }</li>
                </ol>
            </section>
            <section>
                <h3>{ speech.say(words::CAUTIONS_TITLE) }</h3>
                <ul>
                    <li>{ speech.say(words::CAUTION_ESTIMATE) }</li>
                    <li>{ speech.say(words::CAUTION_HANDS) }</li>
                </ul>
            </section>
            { more(view) }
            <div class="actions">
                <button type="button" class="main" onclick={send}>{ speech.say(words::SEND) }</button>
            </div>
        </div>
    }
}

fn involved(assessment: &Assessment, speech: &Speech) -> Html {
    let word = assessment.complexity.word();
    html! {
        <section class="involved">
            <h3 data-complexity={word}>{ speech.made(&["complexity-", word]) }</h3>
            <p>{ speech.made(&["means-", word]) }</p>
            if !assessment.reasons.is_empty() {
                <ul>
                    { for assessment.reasons.iter().map(|reason| html! {
                        <li key={reason.word()}>{ speech.made(&["reason-", reason.word()]) }</li>
                    }) }
                </ul>
            }
        </section>
    }
}

fn price(assessment: &Assessment, speech: &Speech) -> Html {
    let Some(band) = assessment.band else {
        return html! {
            <section class="no-band">
                <h3>{ speech.say(words::NO_BAND_TITLE) }</h3>
                if let Some(why) = assessment.no_band {
                    <p>{ speech.made(&["no-band-", why.word()]) }</p>
                }
            </section>
        };
    };
    let [low, likely, high] = [band.low, about(band.likely), band.high].map(|money| money.to_string());
    html! {
        <section class="band">
            <h3>{ speech.say(words::BAND_TITLE) }</h3>
            <p class="range">{ speech.fill(words::BAND_RANGE, &[("low", &low), ("high", &high)]) }</p>
            <p>{ speech.fill(words::BAND_LIKELY, &[("likely", &likely)]) }{ ". " }{ speech.say(words::BAND_WITH) }</p>
            { tape(&band, speech) }
            <p><strong>{ speech.say(words::BAND_ESTIMATE) }</strong>{ " " }{ speech.say(words::BAND_NINE) }</p>
            if assessment.invented {
                <p class="invented">{ speech.say(words::BAND_INVENTED) }</p>
            }
        </section>
    }
}

/// A sum to the nearest ten pounds: finer would claim more than is known.
fn about(money: Pence) -> Pence {
    Pence(money.0.saturating_add(500)).down_to(Pence(1_000))
}

/// A wait without where it is known from, which is for the installer.
fn without_source(wait: &str) -> &str {
    wait.split(" (").next().unwrap_or(wait)
}

/// Who must answer first, and who perhaps.
fn first(assessment: &Assessment, speech: &Speech) -> Html {
    let line = |gate: &Gate| html! {
        <li key={gate.who.word()}>
            { speech.made(&["gate-", gate.who.word()]) }
            if !gate.wait.is_empty() {
                <br /><small>{ speech.fill(words::GATE_WAIT, &[("wait", without_source(&gate.wait))]) }</small>
            }
        </li>
    };
    let (sure, perhaps): (Vec<&Gate>, Vec<&Gate>) = assessment.gates.iter().partition(|gate| gate.counts);
    html! {
        <>
            if !sure.is_empty() {
                <section class="gates">
                    <h3>{ speech.say(words::GATES_TITLE) }</h3>
                    <ul>{ for sure.into_iter().map(line) }</ul>
                </section>
            }
            if !perhaps.is_empty() {
                <section class="gates perhaps">
                    <h3>{ speech.say(words::GATES_POSSIBLE) }</h3>
                    <ul>{ for perhaps.into_iter().map(line) }</ul>
                </section>
            }
        </>
    }
}

/// What the homeowner is told of each flag; one without a sentence for them is the installer's alone.
fn told(assessment: &Assessment, speech: &Speech) -> Html {
    let texts: Vec<(&str, AttrValue)> = assessment
        .flags
        .iter()
        .filter_map(|flag| speech.flag(&flag.code).map(|text| (flag.code.as_str(), text)))
        .collect();
    if texts.is_empty() {
        return html! {};
    }
    html! {
        <section class="flags">
            <h3>{ speech.say(words::FLAGS_TITLE) }</h3>
            <ul>{ for texts.into_iter().map(|(code, text)| html! { <li key={code} data-flag={code.to_owned()}>{ text }</li> }) }</ul>
        </section>
    }
}

/// The answers that would narrow it most, each to be taken up again with one tap.
fn narrow(assessment: &Assessment, view: &View) -> Html {
    let speech = view.speech;
    // Where there is no price, no sum is named: what would settle a point is left.
    let priced = assessment.band.is_some();
    let helps = |open: &&Open| open.settles || (priced && about(open.narrows_by).0 > 0);
    let open: Vec<_> = assessment
        .open
        .iter()
        .filter(helps)
        .filter_map(|open| question(&open.question).map(|asked| (open, asked)))
        .take(3)
        .collect();
    if open.is_empty() {
        return html! {};
    }
    html! {
        <section class="narrow">
            <h3>{ speech.say(if priced { words::NARROW_TITLE } else { words::SETTLE_TITLE }) }</h3>
            <ul class="rows">
                { for open.into_iter().map(|(open, asked)| {
                    let take_up = view.on_press(move || Action::WentTo(Step::Question(asked)));
                    html! {
                        <li key={asked.id}>
                            <button type="button" class="row" onclick={take_up} data-question={asked.id}>
                                <span>{ speech.made(&["question-", asked.id]) }</span>
                                <small>
                                    if priced && about(open.narrows_by).0 > 0 {
                                        { speech.fill(words::NARROW_BY, &[("amount", &about(open.narrows_by).to_string())]) }
                                    } else if open.settles {
                                        { speech.say(words::NARROW_SETTLES) }
                                    }
                                </small>
                            </button>
                        </li>
                    }
                }) }
            </ul>
        </section>
    }
}

/// The rest of the questions, screen by screen.
fn more(view: &View) -> Html {
    let View { form, speech, .. } = view;
    html! {
        <details class="more">
            <summary>{ speech.say(words::MORE_TITLE) }</summary>
            <p>{ speech.say(words::MORE_TEXT) }</p>
            <ul class="rows">
                { for screens::rest(&form.answers).map(|screen| {
                    let go = view.on_press(move || Action::WentTo(Step::Screen(screen)));
                    html! {
                        <li key={screen.id}>
                            <button type="button" class="row" onclick={go}>{ speech.made(&["screen-", screen.id]) }</button>
                        </li>
                    }
                }) }
            </ul>
        </details>
    }
}
