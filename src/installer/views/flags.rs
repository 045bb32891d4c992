//! The flags by weight: evidence, certainty, why it matters, what to do, source.

use crate::parts::WeightMark;
use crate::sure;
use crate::words::{fill, flag, flag_name, say, worded};
use engine::assessment::{Raised, unfolded};
use engine::flags::Weight;
use model::answers::Word;
use wording::triage as key;
use yew::prelude::*;

/// The section.
///
/// The few flags that decide are shown in full, the others folded; those that hold for nearly every home take one line.
pub(super) fn view(flags: &[Raised]) -> Html {
    let (speak, folded) = unfolded(flags);
    let (usual, own): (Vec<&Raised>, Vec<&Raised>) = folded.into_iter().partition(|flag| flag.usual);
    let names: Vec<_> = usual.iter().map(|flag| flag_name(&flag.code)).collect();
    html! {
        <section class="flags" aria-labelledby="flags-title">
            <h2 id="flags-title">{ say(key::FLAGS_TITLE) }</h2>
            if flags.is_empty() {
                <p>{ say(key::FLAGS_NONE) }</p>
            }
            { for Weight::ALL.iter().map(|weight| of_weight(*weight, &speak)) }
            if !own.is_empty() {
                <details class="more-flags">
                    <summary>{ fill(key::FLAGS_MORE, &[("n", &own.len().to_string())]) }</summary>
                    { for Weight::ALL.iter().map(|weight| of_weight(*weight, &own)) }
                </details>
            }
            if !usual.is_empty() {
                <details class="more-flags">
                    <summary>{ fill(key::FLAGS_USUAL, &[("flags", &names.join(say(key::JOIN_COMMA)))]) }</summary>
                    { for usual.into_iter().map(one) }
                </details>
            }
            if !flags.is_empty() {
                { how_sure() }
            }
        </section>
    }
}

fn of_weight(weight: Weight, flags: &[&Raised]) -> Html {
    let raised: Vec<&Raised> = flags.iter().copied().filter(|flag| flag.weight == weight).collect();
    if raised.is_empty() {
        return Html::default();
    }
    html! {
        <div class="weight">
            <h3><WeightMark weight={Some(weight)} />{ worded("weight", weight.word()) }</h3>
            { for raised.into_iter().map(one) }
        </div>
    }
}

fn one(raised: &Raised) -> Html {
    let part = |name| flag(&raised.code, name);
    let line = |label, text: Html| html! { <><dt>{ say(label) }</dt><dd>{ text }</dd></> };
    html! {
        <article class="flag" key={raised.code.clone()}>
            <h4>{ flag_name(&raised.code) }</h4>
            <dl>
                if !raised.evidence.is_empty() {
                    { line(key::FLAG_SEEN, html! { { raised.evidence.join(say(key::JOIN_SEMICOLON)) } }) }
                }
                { line(key::FLAG_SURE, html! { { sure::word_and_figure(raised.probability) } }) }
                if let Some(why) = part("why") {
                    { line(key::FLAG_WHY, html! { { why } }) }
                }
                if let Some(what) = part("do") {
                    { line(key::FLAG_DO, html! { <strong>{ what }</strong> }) }
                }
                if !raised.source.is_empty() {
                    { line(key::FLAG_SOURCE, html! { <span class="quietly">{ &raised.source }</span> }) }
                }
            </dl>
        </article>
    }
}

/// The ranges that the words for a probability stand for.
fn how_sure() -> Html {
    html! {
        <details>
            <summary>{ say(key::SURE_TITLE) }</summary>
            <ul class="plain">
                { for sure::RANGES.iter().map(|(from, word)| html! {
                    <li>{ fill(key::SURE_RANGE, &[("word", say(*word)), ("n", &sure::in_a_hundred(*from).to_string())]) }</li>
                }) }
            </ul>
            <p class="quietly">{ say(key::SURE_SOURCE) }</p>
        </details>
    }
}
