//! One question: its text, where to look, its control, what is missing, and why it is asked.

use super::View;
use super::choices::choices;
use super::plan::plan;
use crate::widget::el::{El, el, folded, paragraph, trouble};
use crate::widget::ending::endings;
use crate::widget::state::{Action, Form};
use model::answers::{AnswerKind, LengthUnit, RawAnswer, Word};
use model::questions::{Question, is_beyond_use};
use web_sys::{Event, HtmlInputElement, HtmlSelectElement};
use wording::{Key, form as words};
use yew::virtual_dom::ListenerKind;
use yew::{Callback, TargetCast};

/// One question of the catalogue.
pub fn question_view(view: &View, question: &'static Question) -> El {
    let (View { form, config, speech, sheet, .. }, id) = (view, question.id);
    let ids = ["q-", "h-", "e-"].map(|prefix| [prefix, id].concat());
    let [legend_id, hint_id, error_id] = &ids;
    let hint = speech.find(&["hint-", id]);
    let complaint = (form.complaints > 0 && form.stands_open(question)).then(|| complaint(question, form));
    let described = match (&hint, complaint) {
        (_, Some(_)) => Some([hint_id, " ", error_id].concat()),
        (Some(_), None) => Some(hint_id.clone()),
        (None, None) => None,
    };
    let typed = matches!(
        question.kind,
        AnswerKind::Distance | AnswerKind::Figure(_) | AnswerKind::Line | AnswerKind::PostcodeLine
    );
    let told = endings(&form.answers, *config);
    let mut shown = el("fieldset")
        .class("question")
        .attr("id", ["f-", id].concat().into())
        .maybe("aria-describedby", described.map(Into::into))
        .with(el("legend").attr("id", legend_id.clone().into()).text(speech.made(&["question-", id])))
        .perhaps(hint.map(|hint| paragraph("hint", hint).attr("id", hint_id.clone().into())))
        .perhaps(sheet.under(question));
    if typed {
        shown = shown.with(field(question, view, complaint.is_some().then_some(error_id.as_str())));
    }
    shown = shown.perhaps(plan(question, view));
    let beyond = is_beyond_use(question, &form.answers);
    let endings = told.into_iter().filter(|ending| ending.question() == id);
    let unsure = (id == "hazard" && form.answers.hazard.signs.is_not_sure())
        .then(|| paragraph("ending", speech.say(words::HAZARD_NOT_SURE)).set("role", "status"));
    shown
        .with(choices(view, question))
        .perhaps(beyond.then(|| paragraph("ending", speech.say(words::BEYOND_USE)).set("role", "status")))
        .perhaps(complaint.map(|key| trouble(speech.say(key)).attr("id", error_id.clone().into())))
        .perhaps(unsure)
        .all(
            endings
                .map(|ending| paragraph("ending", speech.made(&["ending-", ending.word()])).set("role", "status"))
                .collect(),
        )
        .with(folded("why", speech.say(words::WHY_OPEN)).with(el("p").text(speech.made(&["why-", id]))))
}

/// The key of the message about a missing or unreadable answer, by the kind of control.
fn complaint(question: &Question, form: &Form) -> Key {
    match (question.kind, form.unreadable(question)) {
        (AnswerKind::PostcodeLine, true) => words::UNREADABLE_POSTCODE,
        (AnswerKind::Line, true) => words::UNREADABLE_LINE,
        (AnswerKind::Stretches, true) => words::UNREADABLE_STRETCHES,
        (_, true) => words::UNREADABLE_NUMBER,
        (AnswerKind::Any(_), false) => words::CHOOSE_SOME,
        (AnswerKind::One(_) | AnswerKind::YesNo | AnswerKind::Count(..), false) => words::CHOOSE_ONE,
        (_, false) => words::FILL_IN,
    }
}

/// The field of an answer that is typed.
fn field(question: &'static Question, view: &View, error_id: Option<&str>) -> El {
    let View { form, done, .. } = view;
    let typed = {
        let done = (*done).clone();
        Callback::from(move |event: Event| {
            done.emit(Action::Typed(question, event.target_unchecked_into::<HtmlInputElement>().value()));
        })
    };
    let (inputmode, class) = match question.kind {
        AnswerKind::Distance | AnswerKind::Figure(_) => ("decimal", "narrow"),
        AnswerKind::PostcodeLine => ("text", "narrow"),
        _ => ("text", "wide"),
    };
    let input = el("input")
        .class(class)
        .set("type", "text")
        .attr("id", ["i-", question.id].concat().into())
        .set("inputmode", inputmode)
        .set("autocomplete", if question.kind == AnswerKind::PostcodeLine { "postal-code" } else { "off" })
        .value(form.text_of(question).into())
        .attr("aria-labelledby", ["q-", question.id].concat().into())
        .maybe("aria-invalid", error_id.map(|_| "true".into()))
        .maybe("aria-describedby", error_id.map(|id| id.to_owned().into()))
        .on(ListenerKind::oninput, typed);
    let beside = match question.kind {
        AnswerKind::Distance => Some(units(question, view)),
        AnswerKind::Figure(bounds) => Some(el("span").class("unit").text(bounds.symbol.into())),
        // The postcode as it was read, where that differs from the text in the field.
        AnswerKind::PostcodeLine => match (question.get)(&form.answers) {
            RawAnswer::Line(read) if read != form.text_of(question) => Some(el("span").class("unit").text(read.into())),
            _ => None,
        },
        _ => None,
    };
    el("div").class("field").with(input).perhaps(beside)
}

/// The choice of the unit that a distance is measured in.
fn units(question: &'static Question, view: &View) -> El {
    let View { form, speech, done, .. } = view;
    let now = form.unit_of(question);
    let chosen = {
        let done = (*done).clone();
        Callback::from(move |event: Event| {
            let word = event.target_unchecked_into::<HtmlSelectElement>().value();
            let unit = LengthUnit::ALL.iter().find(|unit| unit.word() == word);
            done.emit(Action::MeasuredIn(question, unit.copied().unwrap_or(LengthUnit::Metres)));
        })
    };
    let options = LengthUnit::ALL.iter().map(|unit| {
        el("option").set("value", unit.word()).flag("selected", *unit == now).text(speech.made(&["unit-", unit.word()]))
    });
    el("select")
        .attr("aria-label", speech.say(words::DISTANCE_IN))
        .on(ListenerKind::onchange, chosen)
        .all(options.collect())
}
