//! What the assessment rests on, in sections to unfold: figures, their working, decisions, and facts with how each is known.

use super::enquiry::OpenEnquiry;
use super::working::WorkingView;
use crate::ago::day;
use crate::sure;
use crate::words::{fact_value, fill, find, plain, question, say, worded};
use engine::assessment::{Alternative, Assessment, Figures, ShownDecision, ShownFact, Stated};
use wording::triage as key;
use yew::prelude::*;

/// The section with what the assessment rests on.
pub(super) fn view(shown: &OpenEnquiry<'_>, assessment: &Assessment) -> Html {
    html! {
        <section class="rests-on" aria-labelledby="rests-title">
            <h2 id="rests-title">{ say(key::RESTS_TITLE) }</h2>
            <details>
                <summary>{ say(key::FIGURES_TITLE) }</summary>
                <p class="quietly">{ say(key::FIGURES_NOTE) }</p>
                { figures(assessment) }
            </details>
            if !assessment.alternatives.is_empty() {
                <details>
                    <summary>{ say(key::ALTERNATIVES_TITLE) }</summary>
                    <dl class="ruled">{ for assessment.alternatives.iter().map(alternative) }</dl>
                </details>
            }
            <details>
                <summary>{ say(key::PROTECTION_TITLE) }</summary>
                <p class="quietly">{ say(key::PROTECTION_NOTE) }</p>
                <dl class="ruled">{ for assessment.protection.iter().map(stated) }</dl>
            </details>
            <WorkingView answers={shown.answers.clone()} config={shown.config.cloned()} />
            <details>
                <summary>{ say(key::DECISIONS_TITLE) }</summary>
                <dl class="ruled">{ for assessment.decisions.iter().map(decision) }</dl>
            </details>
            <details>
                <summary>{ say(key::FACTS_TITLE) }</summary>
                <dl class="ruled">{ for assessment.facts.iter().map(fact) }</dl>
            </details>
            <p class="quietly">
                { fill(key::ASSESSED_WITH, &[
                    ("day", &day(assessment.as_of)),
                    ("engine", &assessment.engine),
                    ("config", &assessment.config),
                ]) }
            </p>
        </section>
    }
}

fn figures(assessment: &Assessment) -> Html {
    let figures: &Figures = &assessment.figures;
    // Limits that are set in cases other than the likeliest: the bill says to what, and how probably.
    let elsewhere = assessment.work.iter().flat_map(|line| &line.set_at).map(ToString::to_string).collect::<Vec<_>>();
    let [low, likely, high] = figures.existing_by_use;
    let row = |name: &'static str, value: String| html! { <><dt>{ name }</dt><dd>{ value }</dd></> };
    let limited = match figures.limit {
        Some(limit) if figures.maximum_demand > limit => {
            fill(key::FIGURE_LIMIT_PAUSES, &[("limit", &limit.to_string())])
        }
        Some(limit) => fill(key::FIGURE_LIMIT_AT, &[("limit", &limit.to_string())]),
        None if figures.load_limit => say(key::FIGURE_LIMITED).to_owned(),
        None if !elsewhere.is_empty() => {
            fill(key::FIGURE_LIMITED_ELSEWHERE, &[("limits", &elsewhere.join(say(key::JOIN_OR)))])
        }
        None => say(key::FIGURE_NOT_LIMITED).to_owned(),
    };
    html! {
        <dl class="ruled">
            { row(say(key::FIGURE_BY_USE), fill(key::FIGURE_THREE, &[
                ("low", &low.to_string()), ("likely", &likely.to_string()), ("high", &high.to_string()),
            ])) }
            { row(say(key::FIGURE_BY_RATINGS), figures.existing_by_ratings.to_string()) }
            { row(say(key::FIGURE_DEMAND), format!("{} {limited}", figures.maximum_demand)) }
            if let Some([nose, tail]) = figures.lead_needed {
                { row(say(key::FIGURE_LEAD), fill(key::FIGURE_LEAD_VALUE, &[
                    ("nose", &nose.to_string()), ("tail", &tail.to_string()),
                ])) }
            }
            { row(say(key::FIGURE_HEADROOM), figures.headroom.to_string()) }
            { row(say(key::FIGURE_CABLE), match figures.cable_size {
                _ if figures.cable_kept => say(key::FIGURE_CABLE_KEPT).to_owned(),
                Some(size) => fill(key::FIGURE_CABLE_VALUE, &[
                    ("size", &size.to_string()), ("length", &figures.cable_length.to_string()),
                ]),
                None => fill(key::FIGURE_NO_CABLE, &[("length", &figures.cable_length.to_string())]),
            }) }
            if let Some(check) = figures.cable_governed_by.filter(|_| !figures.cable_kept) {
                { row(say(key::FIGURE_GOVERNED), worded("figure-governed", check.word()).into_owned()) }
            }
            if !figures.cable_kept {
                { row(say(key::FIGURE_DROP), figures.voltage_drop.to_string()) }
            }
            if let Some(by) = figures.disconnected_by {
                { row(say(key::FIGURE_DISCONNECTED), worded("figure-disconnected", by.word()).into_owned()) }
                // Older records lack these figures.
                { row(say(key::FIGURE_FIXED_LIMIT), figures.fixed_limit.map_or_else(
                    || say(key::FIGURE_NOTHING_FITS).to_owned(), |amps| amps.to_string(),
                )) }
            }
            if let Some(driving) = figures.driving {
                { row(say(key::FIGURE_NIGHT), fill(
                    if driving.is_enough { key::FIGURE_NIGHT_ENOUGH } else { key::FIGURE_NIGHT_NOT_ENOUGH },
                    &[
                        ("energy", &driving.energy_a_night.to_string()), ("hours", &driving.hours_needed.to_string()),
                        ("available", &driving.hours_available.to_string()),
                    ],
                )) }
                { for [
                    (key::FIGURE_YEAR_DAY, driving.a_year_by_day), (key::FIGURE_YEAR_NIGHT, driving.a_year_at_night),
                    (key::FIGURE_YEAR_PUBLIC, driving.a_year_in_public),
                ].into_iter().filter_map(|(name, money)| Some(row(say(name), money?.to_string()))) }
            }
        </dl>
    }
}

fn alternative(other: &Alternative) -> Html {
    let outcome = worded("decision-network", other.outcome.word());
    let over_all = other.outcomes.iter().map(|share| {
        let outcome = worded("decision-network", share.outcome.word());
        [&outcome, say(key::JOIN_COLON), &sure::word_and_figure(share.probability).to_string()].concat()
    });
    let over_all: Vec<_> = over_all.collect();
    let value = fill(
        key::ALTERNATIVE_VALUE,
        &[
            ("outcome", &outcome),
            ("demand", &other.maximum_demand.to_string()),
            ("current", &other.current.to_string()),
            ("headroom", &other.headroom.to_string()),
        ],
    );
    html! {
        <>
            <dt>{ worded("design", other.design.word()) }</dt>
            <dd>
                { match other.elsewhere {
                    Some(share) => {
                        let sure = sure::word_and_figure(share);
                        fill(key::ALTERNATIVE_ELSEWHERE, &[("sure", &sure), ("value", &value)])
                    }
                    None => value,
                } }
                if !over_all.is_empty() {
                    <span class="quietly">
                        { fill(key::ALTERNATIVE_OVER_ALL, &[("outcomes", &over_all.join(say(key::JOIN_COMMA)))]) }
                    </span>
                }
            </dd>
        </>
    }
}

fn stated(line: &Stated) -> Html {
    let value =
        find(&format!("protection-{}-{}", line.what, line.value)).map_or_else(|| line.value.clone(), str::to_owned);
    html! {
        <>
            <dt>{ worded("protection", &line.what) }</dt>
            <dd>{ value }<span class="quietly">{ fill(key::OWED_SOURCE, &[("source", &line.source)]) }</span></dd>
        </>
    }
}

fn decision(decision: &ShownDecision) -> Html {
    let rests: Vec<_> = decision.rests_on.iter().map(|fact| worded("fact", fact)).collect();
    let chosen = find(&format!("decision-{}-{}", decision.decision, decision.chosen))
        .map_or_else(|| plain(&decision.chosen), str::to_owned);
    html! {
        <>
            <dt>{ worded("decision", &decision.decision) }</dt>
            <dd>
                { chosen }{ say(key::JOIN_COLON) }{ sure::word_and_figure(decision.probability) }
                if !rests.is_empty() {
                    <span class="quietly">{ fill(key::DECISION_RESTS, &[("facts", &rests.join(say(key::JOIN_COMMA)))]) }</span>
                }
            </dd>
        </>
    }
}

/// The most values of a fact that are shown, likeliest first; the rest are counted.
const VALUES_SHOWN: usize = 5;

fn fact(fact: &ShownFact) -> Html {
    let from: Vec<_> = fact.from.iter().map(|id| question(id)).collect();
    html! {
        <>
            <dt>{ worded("fact", &fact.fact) }</dt>
            <dd>
                <ul class="plain">
                    { for fact.values.iter().take(VALUES_SHOWN).map(|value| {
                        let text = fact_value(&fact.fact, &value.value);
                        html! { <li>{ text }{ say(key::JOIN_COLON) }{ sure::word_and_figure(value.probability) }</li> }
                    }) }
                    if let Some(others @ 1..) = fact.values.len().checked_sub(VALUES_SHOWN) {
                        <li>{ fill(key::FACT_OTHERS, &[("n", &others.to_string())]) }</li>
                    }
                </ul>
                <span class="quietly">
                    { worded("known-by", fact.known_by.word()) }
                    if !from.is_empty() {
                        { " " }{ fill(key::FACT_FROM, &[("questions", &from.join(" "))]) }
                    }
                </span>
            </dd>
        </>
    }
}
