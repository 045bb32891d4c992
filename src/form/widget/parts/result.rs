//! The result page, which comes before any name is asked for: the class of the job, the price band and its causes, who has to answer first,
//! and which answers would narrow the band.

use super::View;
use crate::widget::drawings::{plan, tape};
use crate::widget::effects::{Assessed, Waits, print_copy};
use crate::widget::el::{El, button, el, folded, list, paragraph, section};
use crate::widget::screens;
use crate::widget::speech::Speech;
use crate::widget::state::Action;
use crate::widget::step::Step;
use engine::assessment::{Band, Complexity, NoBand};
use engine::price::bar;
use model::answers::Answers;
use model::questions::{CATALOGUE, Question, question};
use model::units::Pence;
use record::enquiry::in_words;
use record::{Awaited, CauseView, FlagView, GateView, GrantView, ViewModel, WhatIfView};
use web_sys::Event;
use wording::{Key, form as words};
use yew::{AttrValue, Callback};

/// The result page.
#[must_use]
pub fn result_page(view: &View, assessed: &Assessed) -> El {
    let View { form, speech, .. } = view;
    let comes = assessed.latest.is_none() && assessed.waits != Waits::GivenUp;
    let mut working = paragraph(if comes { "working awaited" } else { "working" }, "".into()).set("role", "status");
    if !assessed.fresh {
        working = working.text(speech.say(match assessed.waits {
            Waits::Config => words::RESULT_WAITING,
            Waits::Work => words::RESULT_WORKING,
            Waits::Signal => words::RESULT_NO_SIGNAL,
            Waits::GivenUp => words::RESULT_GIVEN_UP,
        }));
    }
    let mut page = el("div").class("page result").key("result").with(working);
    if let Some(made) = &assessed.latest {
        let shown = &made.shown;
        page = page
            .with(involved(shown, speech))
            .with(price(shown, view))
            .all(first(shown, speech))
            .perhaps(wishes(shown, speech))
            .perhaps(dearer(shown, speech))
            .perhaps((!shown.no_band.is_some_and(NoBand::leaves_no_class)).then(|| plan(&form.answers, speech)))
            .perhaps(closer(view))
            .all(told(shown, speech))
            .perhaps(narrow(shown, view))
            .perhaps(what_ifs(shown, speech))
            .perhaps(driving(shown, speech));
    }
    let next = vec![speech.say(words::NEXT_1), speech.say(words::NEXT_2), speech.say(words::NEXT_3)];
    let cautions = vec![speech.say(words::CAUTION_ESTIMATE), speech.say(words::CAUTION_HANDS)];
    let copies = {
        let whose = [speech.installer.clone(), speech.telephone.clone()];
        Callback::from(move |event: Event| print_copy(&event, &whose.each_ref().map(|name| name.as_str())))
    };
    let send = button("main", speech.say(words::SEND), view.on_press(|| Action::WentOn(String::new())));
    page.perhaps(more(view))
        .with(section("next", speech.say(words::NEXT_TITLE)).with(list("ol", next)))
        .with(section("cautions", speech.say(words::CAUTIONS_TITLE)).with(list("ul", cautions)))
        .perhaps(said(view))
        .with(el("p").class("copy").with(button("quiet", speech.say(words::COPY), copies)))
        .with(el("div").class("actions").with(send))
}

/// Whether neither the class nor what it means can be told: outside the area that the figures are for, or with hardly any answers.
fn is_untold(shown: &ViewModel) -> bool {
    shown.complexity == Complexity::NotCovered
        || (shown.no_band.is_some_and(NoBand::leaves_no_class) && shown.complexity != Complexity::LookFirst)
}

/// The class in words. One that holds on a condition says so; where there are several, they are the second part.
pub fn class(shown: &ViewModel, speech: &Speech) -> (AttrValue, Vec<AttrValue>) {
    if is_untold(shown) {
        return (speech.say(words::COMPLEXITY_NOT_COVERED), Vec::new());
    }
    let word = shown.complexity.word();
    let (says, conditions) = match shown.settle.as_slice() {
        [] => (None, Vec::new()),
        [one] => {
            let condition = speech.filled(one, &[]);
            (speech.find_with(&["complexity-if-", word], &[("condition", condition.as_str())]), Vec::new())
        }
        all => {
            let conditions = all.iter().map(|condition| speech.filled(condition, &[])).collect();
            (speech.find(&["complexity-if-all-", word]), conditions)
        }
    };
    (says.unwrap_or_else(|| speech.made(&["complexity-", word])), conditions)
}

fn involved(shown: &ViewModel, speech: &Speech) -> El {
    let word = shown.complexity.word();
    let (title, conditions) = class(shown, speech);
    let part = el("section").class("involved").with(el("h3").set("data-complexity", word).text(title));
    if is_untold(shown) {
        return part;
    }
    let conditions = (!conditions.is_empty()).then(|| el("div").class("conditions").with(list("ul", conditions)));
    let means = if shown.complexity == Complexity::LookFirst && (shown.band.is_some() || shown.from.is_some()) {
        speech.say(words::MEANS_LOOK_FIRST_WIDE)
    } else {
        speech.made(&["means-", word])
    };
    let reasons: Vec<_> = shown.reasons.iter().map(|reason| speech.made(&["reason-", reason.word()])).collect();
    part.perhaps(conditions).with(el("p").text(means)).perhaps((!reasons.is_empty()).then(|| list("ul", reasons)))
}

/// The homeowner's wishes and whether the planned job meets them.
fn wishes(shown: &ViewModel, speech: &Speech) -> Option<El> {
    let lines = || shown.wishes.iter().map(|line| speech.filled(line, &[])).collect();
    (!shown.wishes.is_empty()).then(|| section("wishes", speech.say(words::WISHES_TITLE)).with(list("ul", lines())))
}

/// What is shown of the price: the band, or the figure that it begins from. `None` where nothing is.
pub fn range(shown: &ViewModel, speech: &Speech) -> Option<AttrValue> {
    if let Some(from) = shown.from {
        return Some(speech.fill(words::BAND_FROM, &[("low", &speech.money(from))]));
    }
    let [low, high] = shown.band.map(|band| [band.low, band.high].map(|sum| speech.money(sum)))?;
    Some(speech.fill(words::BAND_RANGE, &[("low", &low), ("high", &high)]))
}

/// The likely price of a band.
pub fn likely(band: Band, speech: &Speech) -> AttrValue {
    speech.fill(words::BAND_LIKELY, &[("likely", &speech.money(band.likely))])
}

/// What is in the price.
pub fn with(answers: &Answers) -> Key {
    if answers.wish.bought.is(true) { words::BAND_WITH_OWN } else { words::BAND_WITH }
}

fn price(shown: &ViewModel, view: &View) -> El {
    let View { form, speech, .. } = view;
    let with = with(&form.answers);
    // The section of the price: the same explanations under a band and under a single figure.
    let price = |figure: El, says: El, tape: Option<El>| {
        let holds = || match &shown.jobs {
            None => speech.say(words::BAND_NINE),
            Some(jobs) => speech.fill(words::BAND_RECORDED, &[("jobs", jobs)]),
        };
        let estimate = el("p")
            .with(el("strong").text(speech.say(words::BAND_ESTIMATE)))
            .perhaps(tape.is_some().then(|| el("span").text(" ".into()).text(holds())));
        section("band", speech.say(words::BAND_TITLE))
            .with(figure)
            .with(says)
            .perhaps(tape)
            .with(el("p").text(speech.say(words::BAND_LEAVES_OUT)))
            .with(estimate)
            .perhaps(shown.invented.then(|| paragraph("invented", speech.say(words::BAND_INVENTED))))
            .all(grants(shown, speech))
    };
    let range = range(shown, speech).unwrap_or_default();
    if shown.from.is_some() {
        let says = el("p").text(speech.say(with)).text(" ".into()).text(speech.say(words::BAND_FROM_MEANS));
        return price(paragraph("range", range), says, None);
    }
    let Some(band) = shown.band else {
        let why = shown.no_band.map(|why| el("p").text(speech.made(&["no-band-", why.word()])));
        return section("no-band", speech.say(words::NO_BAND_TITLE)).perhaps(why).all(grants(shown, speech));
    };
    let likely = el("p").text(likely(band, speech)).text(". ".into()).text(speech.say(with));
    price(paragraph("range", range), likely, Some(tape(&band, &shown.curve, speech)))
}

/// The grants, shown beside the price, from which they are not deducted.
fn grants(shown: &ViewModel, speech: &Speech) -> Vec<El> {
    let line = |grant: &GrantView| {
        let (most, read) = (speech.money(grant.most), speech.day(&grant.read));
        let places = [("most", &*most), ("name", &*grant.name), ("read", &*read)];
        paragraph("grant", speech.fill(words::BAND_GRANT, &places))
    };
    shown.grants.iter().map(line).collect()
}

/// What makes the job dearer or cheaper than the plainest one.
fn dearer(shown: &ViewModel, speech: &Speech) -> Option<El> {
    let line = |cause: &CauseView| {
        let (key, size) =
            if cause.by < Pence(0) { (words::CAUSE_LESS, -cause.by) } else { (words::CAUSE_MORE, cause.by) };
        let size = speech.fill(key, &[("amount", &speech.money(size))]);
        el("li").text(speech.filled(&cause.text, &[])).text(": ".into()).with(el("strong").text(size))
    };
    let list = || el("ul").all(shown.dearer.iter().map(line).collect());
    (shown.band.is_some() && !shown.dearer.is_empty())
        .then(|| section("dearer", speech.say(words::DEARER_TITLE)).with(list()))
}

/// What the homeowner's driving takes and costs.
fn driving(shown: &ViewModel, speech: &Speech) -> Option<El> {
    let lines = || shown.driving.iter().map(|line| speech.filled(line, &[])).collect();
    (!shown.driving.is_empty()).then(|| section("driving", speech.say(words::DRIVING_TITLE)).with(list("ul", lines())))
}

/// The what-ifs: the same home with one choice made the other way.
fn what_ifs(shown: &ViewModel, speech: &Speech) -> Option<El> {
    let line = |future: &WhatIfView| {
        let line = el("li").with(el("strong").text(speech.filled(&future.text, &[]))).with(el("br"));
        let range = match future.band {
            Some([low, high]) => {
                speech.fill(words::BAND_RANGE, &[("low", &speech.money(low)), ("high", &speech.money(high))])
            }
            None => speech.say(words::NO_BAND_TITLE),
        };
        line.text(range).text(". ".into()).text(speech.filled(&future.changes, &[]))
    };
    let list = || el("ul").all(shown.futures.iter().map(line).collect());
    (shown.band.is_some() && !shown.futures.is_empty())
        .then(|| folded("futures", speech.say(words::FUTURES_TITLE)).with(list()))
}

/// The gates: who has to answer first, certainly or possibly.
fn first(shown: &ViewModel, speech: &Speech) -> Vec<El> {
    let line = |gate: &GateView| {
        let wait = speech.fill(words::GATE_WAIT, &[("wait", &gate.wait)]);
        let line = el("li").key(gate.who.word()).text(speech.made(&["gate-", gate.who.word()]));
        if gate.wait.is_empty() { line } else { line.with(el("br")).with(el("small").text(wait)) }
    };
    [
        ("gates", words::GATES_TITLE, Awaited::Counts),
        ("gates on-paper", words::GATES_ON_PAPER, Awaited::OnPaper),
        ("gates perhaps", words::GATES_POSSIBLE, Awaited::Possible),
    ]
    .into_iter()
    .filter_map(|(class, title, how)| {
        let lines: Vec<El> = shown.gates.iter().filter(|gate| gate.how == how).map(line).collect();
        (!lines.is_empty()).then(|| section(class, speech.say(title)).with(el("ul").all(lines)))
    })
    .collect()
}

/// The flags for the homeowner: the few that decide, with the others folded away.
fn told(shown: &ViewModel, speech: &Speech) -> Vec<El> {
    let line = |flag: &FlagView| {
        let text = speech.filled(&flag.text, &[]);
        el("li").key(&flag.code).attr("data-flag", flag.code.clone().into()).text(text)
    };
    [
        (&shown.flags, section("flags", speech.say(words::FLAGS_TITLE))),
        (&shown.less, folded("less flags", speech.say(words::FLAGS_LESS))),
    ]
    .into_iter()
    .filter(|(flags, _)| !flags.is_empty())
    .map(|(flags, part)| part.with(el("ul").all(flags.iter().map(line).collect())))
    .collect()
}

/// Buttons to the questions that have a plan: the route builder and the reach of the leads.
fn closer(view: &View) -> Option<El> {
    let to = |(id, key)| {
        let asked = question(id).filter(|asked| (asked.asked)(&view.form.answers))?;
        let go = view.on_press(move || Action::WentTo(Step::Question(asked)));
        Some(button("quiet", view.speech.say(key), go))
    };
    let all: Vec<El> = [("route-stretches", words::PLAN_STRETCHES), ("spot-to-car", words::PLAN_REACH)]
        .into_iter()
        .filter_map(to)
        .collect();
    (!all.is_empty()).then(|| el("p").class("does").all(all))
}

/// The questions whose answers would narrow the band most, each reopened with one tap.
fn narrow(shown: &ViewModel, view: &View) -> Option<El> {
    let speech = view.speech;
    let longest = shown.open.iter().filter_map(|open| open.by).max().unwrap_or_default();
    let rows: Vec<El> = shown
        .open
        .iter()
        // The assessment may be from before a danger became known: questions that are not asked any more are left out.
        .filter_map(|open| Some((open.by, question(&open.question).filter(|asked| (asked.asked)(&view.form.answers))?)))
        .map(|(by, asked)| {
            let gain = match by {
                Some(sum) => speech.fill(words::NARROW_BY, &[("amount", &speech.money(sum))]),
                None => speech.say(words::NARROW_SETTLES),
            };
            let row = to_question(view, asked, "data-question", gain).perhaps(by.map(|sum| worth(bar(sum, longest))));
            el("li").key(asked.id).with(row)
        })
        .collect();
    let title = if shown.band.is_some() { words::NARROW_TITLE } else { words::SETTLE_TITLE };
    (!rows.is_empty()).then(|| section("narrow", speech.say(title)).with(el("ul").class("rows").all(rows)))
}

/// A row that reopens a question, with a line of text under it; `mark` is the attribute that holds the question's id.
fn to_question(view: &View, question: &'static Question, mark: &'static str, under: AttrValue) -> El {
    el("button")
        .set("type", "button")
        .class("row")
        .set(mark, question.id)
        .press(view.on_press(move || Action::WentTo(Step::Question(question))))
        .with(el("span").text(view.speech.made(&["question-", question.id])))
        .with(el("small").text(under))
}

/// A bar of this many hundredths of its full length; it only repeats what the row says in words.
fn worth(long: i64) -> El {
    let bar = el("rect").class("stretch").set("height", "6").attr("width", long.to_string().into());
    el("svg")
        .class("worth")
        .set("viewBox", "0 0 100 6")
        .set("preserveAspectRatio", "none")
        .set("aria-hidden", "true")
        .with(bar)
}

/// The answers, each changed with one tap.
fn said(view: &View) -> Option<El> {
    let View { form, speech, .. } = view;
    let words = speech.words();
    let row = |question: &'static Question| {
        let said =
            in_words(question, &(question.get)(&form.answers), words).filter(|_| (question.asked)(&form.answers))?;
        Some(el("li").key(question.id).with(to_question(view, question, "data-said", said.into())))
    };
    let rows: Vec<El> = CATALOGUE.iter().filter_map(row).collect();
    (!rows.is_empty()).then(|| {
        let all = el("ul").class("rows").all(rows);
        folded("more said", speech.say(words::SAID_TITLE)).with(el("p").text(speech.say(words::SAID_TEXT))).with(all)
    })
}

/// The questions outside the core, screen by screen; those that are answered are listed among the answers instead.
fn more(view: &View) -> Option<El> {
    let View { form, speech, .. } = view;
    let open = screens::rest(&form.answers).filter(|screen| screen.stands_open(&form.answers));
    let rows = open.map(|screen| {
        let go = view.on_press(move || Action::WentTo(Step::Screen(screen)));
        el("li").key(screen.id).with(button("row", speech.made(&["screen-", screen.id]), go))
    });
    let rows: Vec<El> = rows.collect();
    (!rows.is_empty()).then(|| {
        folded("more", speech.say(words::MORE_TITLE))
            .with(el("p").text(speech.say(words::MORE_TEXT)))
            .with(el("ul").class("rows").all(rows))
    })
}
