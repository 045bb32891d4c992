//! Behind the band: what makes this job dearer than the plainest, what the band's width is due to, and the price of the same home with one
//! choice changed.

use crate::changes::band_in_figures;
use crate::sure;
use crate::tape::pounds;
use crate::views::bill::time;
use crate::words::{fact_value, fill, flag_name, say, worded};
use engine::assessment::{Assessment, Dearer, Driver, WhatIf, what_ifs};
use engine::price::bar;
use model::answers::Answers;
use model::config::Config;
use model::units::{Pence, Ratio};
use std::rc::Rc;
use wording::triage as key;
use yew::prelude::*;

/// What a fact must be worth for it to be listed: less is not worth a call. Common practice, no source.
const LEAST: Pence = Pence(1_000);

/// The section; nothing where there is no band.
pub(super) fn view(assessment: &Rc<Assessment>, answers: &Rc<Answers>, config: Option<&Rc<Config>>) -> Html {
    let Some((_, estimate)) = assessment.band.zip(assessment.estimate.as_ref()) else { return Html::default() };
    let most = estimate.dearer.iter().map(|cause| Pence(cause.by.0.saturating_abs())).max().unwrap_or_default();
    let drivers: Vec<&Driver> =
        assessment.drivers.iter().filter(|driver| Pence(driver.narrows_by.0.saturating_abs()) >= LEAST).collect();
    let widest = drivers.iter().map(|driver| driver.narrows_by).max().unwrap_or_default();
    let middle =
        [("mean", &*pounds(estimate.mean)), ("median", &*pounds(estimate.median)), ("well", &*pounds(estimate.well))];
    html! {
        <section class="estimate" aria-labelledby="estimate-title">
            <h2 id="estimate-title">{ say(key::ESTIMATE_TITLE) }</h2>
            <p>
                { fill(key::ESTIMATE_MIDDLE, &middle) }
                // Older assessments lack this figure.
                if estimate.well > Pence(0) {
                    { " " }{ fill(key::ESTIMATE_WELL, &[("well", &pounds(estimate.well))]) }
                }
            </p>
            if !estimate.dearer.is_empty() {
                <h3>{ say(key::DEARER_TITLE) }</h3>
                <ul class="plain bars">{ for estimate.dearer.iter().map(|cause| dearer(cause, most)) }</ul>
            }
            <h3>{ say(key::DRIVERS_TITLE) }</h3>
            if drivers.is_empty() {
                <p>{ say(key::DRIVERS_NONE) }</p>
            } else {
                <p class="quietly">{ say(key::DRIVERS_NOTE) }</p>
                <ul class="plain bars">{ for drivers.iter().map(|one| driver(one, widest)) }</ul>
            }
            if let Some(config) = config {
                <Beside assessment={Rc::clone(assessment)} answers={Rc::clone(answers)} config={Rc::clone(config)} />
            }
        </section>
    }
}

/// A bar; the line beside it says in words what it shows.
fn strip(sum: Pence, longest: Pence) -> Html {
    html! {
        <svg class="bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true" focusable="false">
            <rect class="stretch" width={bar(sum, longest).to_string()} height="6" />
        </svg>
    }
}

fn dearer(cause: &Dearer, most: Pence) -> Html {
    let size = Pence(cause.by.0.saturating_abs());
    let by = fill(if cause.by < Pence(0) { key::DEARER_LESS } else { key::DEARER_MORE }, &[("money", &pounds(size))]);
    let facts: Vec<String> = cause.facts.iter().map(|fact| worded("fact", fact).into_owned()).collect();
    html! {
        <li key={cause.cause.word()}>
            <strong>{ worded("cause", cause.cause.word()) }</strong>{ say(key::JOIN_COLON) }{ by }
            if !facts.is_empty() {
                <span class="quietly">{ " (" }{ facts.join(say(key::JOIN_COMMA)) }{ ")" }</span>
            }
            { strip(size, most) }
        </li>
    }
}

fn driver(driver: &Driver, widest: Pence) -> Html {
    let size = pounds(Pence(driver.narrows_by.0.saturating_abs()));
    let by =
        fill(if driver.narrows_by < Pence(0) { key::DRIVER_WIDENS } else { key::DRIVER_NARROWS }, &[("money", &size)]);
    let share = |ratio: Ratio| libm::round(ratio.get() * 100.0).to_string();
    html! {
        <li key={driver.fact.clone()}>
            <strong>{ worded("fact", &driver.fact) }</strong>{ say(key::JOIN_COLON) }{ by }
            <span class="quietly">{ " " }{ fill(key::DRIVER_EXPLAINS, &[("share", &share(driver.explains))]) }</span>
            { strip(driver.narrows_by, widest) }
            <ul class="values">
                { for driver.values.iter().map(|value| html! {
                    <li>
                        { fact_value(&driver.fact, &value.value) }{ " (" }{ sure::word_and_figure(value.probability) }{ ")" }{ say(key::JOIN_COLON) }
                        { fill(key::BAND_ENDS, &[("low", &pounds(value.low)), ("high", &pounds(value.high))]) }
                    </li>
                }) }
            </ul>
        </li>
    }
}

#[derive(PartialEq, Properties)]
struct BesideProps {
    assessment: Rc<Assessment>,
    answers: Rc<Answers>,
    config: Rc<Config>,
}

/// The what-ifs: other choices with their prices, calculated when they are asked for.
#[component]
fn Beside(props: &BesideProps) -> Html {
    let opened = use_state(|| false);
    let ontoggle = {
        let opened = opened.clone();
        Callback::from(move |_: Event| opened.set(true))
    };
    let made = use_memo((Rc::clone(&props.answers), Rc::clone(&props.config), *opened), |(answers, config, opened)| {
        opened.then(|| what_ifs(answers, config, &props.assessment))
    });
    html! {
        <details class="futures" {ontoggle}>
            <summary>{ say(key::FUTURES_TITLE) }</summary>
            if let Some(futures) = &*made {
                if futures.is_empty() {
                    <p>{ say(key::FUTURES_NONE) }</p>
                } else {
                    { future_table(futures) }
                }
            }
        </details>
    }
}

/// The table of what-ifs: each choice with the band, labour, waits and flags that it leads to.
pub(super) fn future_table(futures: &[WhatIf]) -> Html {
    html! {
        <table role="table">
            <thead role="rowgroup">
                <tr role="row">
                    { for [key::FUTURE_CHOICE, key::FUTURE_BAND, key::FUTURE_LABOUR, key::FUTURE_WAITS, key::FUTURE_FLAGS].map(|title| html! {
                        <th role="columnheader" scope="col">{ say(title) }</th>
                    }) }
                </tr>
            </thead>
            <tbody role="rowgroup">{ for futures.iter().map(future_row) }</tbody>
        </table>
    }
}

fn future_row(future: &WhatIf) -> Html {
    let waits = future
        .waits_for
        .iter()
        .map(|gate| fill(key::FUTURE_WAITS_FOR, &[("who", &worded("gatekeeper", gate.who.word()))]))
        .chain(future.may_wait_for.iter().map(|gate| {
            let sure = sure::word_and_figure(gate.probability);
            fill(key::FUTURE_MAY_WAIT, &[("who", &worded("gatekeeper", gate.who.word())), ("sure", &sure)])
        }))
        .chain(
            future
                .waits_no_more_for
                .iter()
                .map(|who| fill(key::FUTURE_NO_WAIT, &[("who", &worded("gatekeeper", who.word()))])),
        );
    let flags = future
        .flags_more
        .iter()
        .map(|code| fill(key::FUTURE_FLAG_MORE, &[("flag", &flag_name(code))]))
        .chain(future.flags_less.iter().map(|code| fill(key::FUTURE_FLAG_LESS, &[("flag", &flag_name(code))])));
    let joined = |parts: Vec<String>, none: wording::Key| {
        if parts.is_empty() { say(none).to_owned() } else { parts.join(say(key::JOIN_SEMICOLON)) }
    };
    html! {
        <tr role="row" key={future.choice.word()}>
            <th role="rowheader" scope="row">{ worded("choice", future.choice.word()) }</th>
            <td role="cell">{ band_in_figures(future.band.as_ref()) }</td>
            <td role="cell">{ time(future.labour) }</td>
            <td role="cell">{ joined(waits.collect(), key::FUTURE_SAME_WAITS) }</td>
            <td role="cell">{ joined(flags.collect(), key::FUTURE_SAME_FLAGS) }</td>
        </tr>
    }
}
