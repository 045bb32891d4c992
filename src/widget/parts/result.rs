//! The result, before any name is asked: how involved, what it would cost, why, who answers first, what would narrow it.

use super::View;
use crate::assessment::{Assessment, Complexity, Gate, NoBand, Open, Reason};
use crate::flags::Weight;
use crate::questions::question;
use crate::units::Pence;
use crate::widget::drawings::{plan, tape};
use crate::widget::effects::Assessed;
use crate::widget::el::{El, button, el, folded, list, paragraph, section};
use crate::widget::screens;
use crate::widget::speech::Speech;
use crate::widget::state::Action;
use crate::widget::step::Step;
use crate::wording::form as words;

/// The result.
#[must_use]
pub fn result_page(view: &View, assessed: &Assessed) -> El {
    let View { form, speech, .. } = view;
    let mut working = paragraph("working", "".into()).set("role", "status");
    if !assessed.fresh {
        working =
            working.text(speech.say(if assessed.waiting { words::RESULT_WAITING } else { words::RESULT_WORKING }));
    }
    let mut page = el("div").class("page result").key("result").with(working);
    if let Some(assessment) = &assessed.latest {
        page = page
            .with(involved(assessment, speech))
            .with(price(assessment, speech))
            .with(plan(&form.answers, speech))
            .all(first(assessment, speech))
            .all(told(assessment, speech))
            .perhaps(narrow(assessment, view));
    }
    let next = vec![speech.say(words::NEXT_1), speech.say(words::NEXT_2), speech.say(words::NEXT_3)];
    let cautions = vec![speech.say(words::CAUTION_ESTIMATE), speech.say(words::CAUTION_HANDS)];
    let send = button("main", speech.say(words::SEND), view.on_press(|| Action::WentOn));
    page.with(section("next", speech.say(words::NEXT_TITLE)).with(list("ol", next)))
        .with(section("cautions", speech.say(words::CAUTIONS_TITLE)).with(list("ul", cautions)))
        .with(more(view))
        .with(el("div").class("actions").with(send))
}

fn involved(assessment: &Assessment, speech: &Speech) -> El {
    let word = assessment.complexity.word();
    let title = el("h3").set("data-complexity", word);
    let part = el("section").class("involved");
    if assessment.no_band == Some(NoBand::OutsideArea) {
        // Outside what the figures are for, how involved it is can't be said either.
        return part.with(title.text(speech.say(words::COMPLEXITY_OUTSIDE)));
    }
    // That others come first is the title itself where it is the gravest.
    let said = |reason: &&Reason| {
        **reason != Reason::SomebodyElseFirst || assessment.complexity != Complexity::DependsOnOthers
    };
    let reasons: Vec<_> =
        assessment.reasons.iter().filter(said).map(|reason| speech.made(&["reason-", reason.word()])).collect();
    part.with(title.text(speech.made(&["complexity-", word])))
        .with(el("p").text(speech.made(&["means-", word])))
        .perhaps((!reasons.is_empty()).then(|| list("ul", reasons)))
}

fn price(assessment: &Assessment, speech: &Speech) -> El {
    let Some(band) = assessment.band else {
        let why = assessment.no_band.map(|why| el("p").text(speech.made(&["no-band-", why.word()])));
        return section("no-band", speech.say(words::NO_BAND_TITLE)).perhaps(why);
    };
    let [low, likely, high] = [band.low, about(band.likely), band.high].map(|money| money.to_string());
    let range = speech.fill(words::BAND_RANGE, &[("low", &low), ("high", &high)]);
    let likely = el("p")
        .text(speech.fill(words::BAND_LIKELY, &[("likely", &likely)]))
        .text(". ".into())
        .text(speech.say(words::BAND_WITH));
    let estimate = el("p")
        .with(el("strong").text(speech.say(words::BAND_ESTIMATE)))
        .text(" ".into())
        .text(speech.say(words::BAND_NINE));
    section("band", speech.say(words::BAND_TITLE))
        .with(paragraph("range", range))
        .with(likely)
        .with(tape(&band, speech))
        .with(estimate)
        .perhaps(assessment.invented.then(|| paragraph("invented", speech.say(words::BAND_INVENTED))))
}

/// A sum to the nearest ten pounds: finer would claim more than is known.
fn about(money: Pence) -> Pence {
    Pence(money.0.saturating_add(500)).down_to(Pence(1_000))
}

/// What an answer must be worth for its sum to be named: less is not worth somebody's while. Common practice, no source.
const LEAST: Pence = Pence(2_000);

/// Who must answer first, and who perhaps.
fn first(assessment: &Assessment, speech: &Speech) -> Vec<El> {
    let line = |gate: &&Gate| {
        let wait = speech.fill(words::GATE_WAIT, &[("wait", &gate.wait)]);
        let line = el("li").key(gate.who.word()).text(speech.made(&["gate-", gate.who.word()]));
        if gate.wait.is_empty() { line } else { line.with(el("br")).with(el("small").text(wait)) }
    };
    let told = assessment.gates.iter().filter(|gate| gate.is_told());
    let (sure, perhaps): (Vec<&Gate>, Vec<&Gate>) = told.partition(|gate| gate.counts);
    [("gates", words::GATES_TITLE, sure), ("gates perhaps", words::GATES_POSSIBLE, perhaps)]
        .into_iter()
        .filter(|(.., gates)| !gates.is_empty())
        .map(|(class, title, gates)| {
            section(class, speech.say(title)).with(el("ul").all(gates.iter().map(line).collect()))
        })
        .collect()
}

/// What the homeowner is told of each flag; one without a sentence for them is the installer's alone.
fn told(assessment: &Assessment, speech: &Speech) -> Vec<El> {
    let lines = |less: bool| -> Vec<El> {
        let flags = assessment.flags.iter().filter(|flag| (flag.weight == Weight::WorthKnowing) == less);
        flags
            .filter_map(|flag| speech.flag(&flag.code).map(|text| (flag.code.clone(), text)))
            .map(|(code, text)| el("li").key(&code).attr("data-flag", code.into()).text(text))
            .collect()
    };
    let mut parts = Vec::new();
    for (less, lines) in [(false, lines(false)), (true, lines(true))] {
        if !lines.is_empty() {
            let part = if less {
                folded("less flags", speech.say(words::FLAGS_LESS))
            } else {
                section("flags", speech.say(words::FLAGS_TITLE))
            };
            parts.push(part.with(el("ul").all(lines)));
        }
    }
    parts
}

/// The answers that would narrow it most, each to be taken up again with one tap.
fn narrow(assessment: &Assessment, view: &View) -> Option<El> {
    let speech = view.speech;
    // Where there is no price, no sum is named: what would settle a point is left.
    let priced = assessment.band.is_some();
    let sum = |open: &Open| Some(about(open.narrows_by)).filter(|sum| priced && *sum >= LEAST);
    let rows: Vec<El> = assessment
        .open
        .iter()
        .filter(|open| open.settles || sum(open).is_some())
        .filter_map(|open| question(&open.question).map(|asked| (open, asked)))
        .take(3)
        .map(|(open, asked)| {
            let gain = match sum(open) {
                Some(sum) => speech.fill(words::NARROW_BY, &[("amount", &sum.to_string())]),
                None => speech.say(words::NARROW_SETTLES),
            };
            let row = el("button")
                .set("type", "button")
                .class("row")
                .set("data-question", asked.id)
                .press(view.on_press(move || Action::WentTo(Step::Question(asked))))
                .with(el("span").text(speech.made(&["question-", asked.id])))
                .with(el("small").text(gain));
            el("li").key(asked.id).with(row)
        })
        .collect();
    let title = if priced { words::NARROW_TITLE } else { words::SETTLE_TITLE };
    // Where the place itself stands in the way, no answer about the home would settle it.
    let beside = matches!(assessment.no_band, Some(NoBand::OutsideArea | NoBand::StreetOnly));
    (!rows.is_empty() && !beside).then(|| section("narrow", speech.say(title)).with(el("ul").class("rows").all(rows)))
}

/// The rest of the questions, screen by screen.
fn more(view: &View) -> El {
    let View { form, speech, .. } = view;
    let rows = screens::rest(&form.answers).map(|screen| {
        let go = view.on_press(move || Action::WentTo(Step::Screen(screen)));
        el("li").key(screen.id).with(button("row", speech.made(&["screen-", screen.id]), go))
    });
    folded("more", speech.say(words::MORE_TITLE))
        .with(el("p").text(speech.say(words::MORE_TEXT)))
        .with(el("ul").class("rows").all(rows.collect()))
}
