//! The rows of a question that is answered by choosing: one of several (radio buttons) or any of several (check boxes), with "not sure"
//! last and a little apart.

use super::View;
use crate::widget::el::{El, el};
use crate::widget::state::Action;
use model::answers::{AnswerKind, RawAnswer};
use model::questions::Question;
use web_sys::{Event, HtmlInputElement};
use wording::form as words;
use yew::virtual_dom::ListenerKind;
use yew::{AttrValue, Callback, TargetCast};

/// One row.
struct Row {
    value: String,
    text: AttrValue,
    given: RawAnswer,
    checked: bool,
    apart: bool,
}

/// The rows of a question that is answered by choosing.
pub fn choices(view: &View, question: &'static Question) -> El {
    let (View { form, speech, done, sheet, .. }, id) = (view, question.id);
    let now = (question.get)(&form.answers);
    let several = matches!(question.kind, AnswerKind::Any(_));
    let mut rows: Vec<Row> = Vec::new();
    let mut row = |value: String, text: AttrValue, given: RawAnswer, apart: bool| {
        let checked = match (&given, &now) {
            (RawAnswer::Any(0), now) => *now == RawAnswer::Any(0),
            (RawAnswer::Any(one), RawAnswer::Any(all)) => all & one != 0,
            (given, now) => given == now,
        };
        rows.push(Row { value, text, given, checked, apart });
    };
    match question.kind {
        AnswerKind::One(list) => {
            for (word, at) in list.iter().zip(0..) {
                row((*word).into(), speech.option(question, word), RawAnswer::One(at), false);
            }
        }
        AnswerKind::Any(list) => {
            for (word, at) in list.iter().zip(0..) {
                row((*word).into(), speech.option(question, word), RawAnswer::Any(1 << at), false);
            }
            let none = speech.find(&["option-", id, "-none"]);
            row("none".into(), none.unwrap_or_else(|| speech.say(words::NONE_OF_THESE)), RawAnswer::Any(0), true);
        }
        AnswerKind::YesNo => {
            row("yes".into(), speech.say(words::YES), RawAnswer::YesNo(true), false);
            row("no".into(), speech.say(words::NO), RawAnswer::YesNo(false), false);
        }
        AnswerKind::Count(least, most) => {
            for count in least..=most {
                let value = count.to_string();
                let text = speech.option(question, &value);
                row(value, text, RawAnswer::Count(count), false);
            }
        }
        AnswerKind::Distance
        | AnswerKind::Figure(_)
        | AnswerKind::Line
        | AnswerKind::PostcodeLine
        | AnswerKind::Day
        | AnswerKind::Stretches => {}
    }
    let not_sure = speech.find(&["option-", id, "-not-sure"]);
    row("not-sure".into(), not_sure.unwrap_or_else(|| speech.say(words::NOT_SURE)), RawAnswer::NotSure, !several);

    let pick = |given: RawAnswer| {
        let (done, now) = ((*done).clone(), now.clone());
        Callback::from(move |event: Event| {
            let ticked = event.target_unchecked_into::<HtmlInputElement>().checked();
            done.emit(Action::Answered(question, picked(&given, &now, ticked)));
        })
    };
    // Short choices are laid out side by side; choices with a sketch have a row each.
    let three_phase = form.answers.meter.fuse_carriers.known().is_some_and(|carriers| carriers.get() == 3);
    let beside = |row: &Row| (!row.apart).then(|| sheet.beside(question, &row.value, three_phase)).flatten();
    let drawings: Vec<Option<El>> = rows.iter().map(beside).collect();
    let short =
        matches!(question.kind, AnswerKind::Count(..) | AnswerKind::YesNo) && drawings.iter().all(Option::is_none);
    let shown = rows.into_iter().zip(drawings).map(|(row, drawn)| {
        let input = el("input")
            .set("type", if several { "checkbox" } else { "radio" })
            .set("name", id)
            .value(row.value.clone().into())
            .checked(row.checked)
            .on(ListenerKind::onchange, pick(row.given));
        el("label")
            .class(if row.apart { "choice apart" } else { "choice" })
            .key(&row.value)
            .with(input)
            .perhaps(drawn)
            .with(el("span").text(row.text))
    });
    el("div").class(if short { "choices short" } else { "choices" }).all(shown.collect())
}

/// The answer after a row was ticked or unticked; "none" and "not sure" exclude all other choices.
fn picked(row: &RawAnswer, now: &RawAnswer, ticked: bool) -> RawAnswer {
    match (row, now) {
        (RawAnswer::Any(0), _) if ticked => RawAnswer::Any(0),
        (RawAnswer::Any(one), RawAnswer::Any(all)) if *one != 0 => match (ticked, all & !one) {
            (true, _) => RawAnswer::Any(all | one),
            (false, 0) => RawAnswer::Nothing,
            (false, rest) => RawAnswer::Any(rest),
        },
        (row, _) if ticked => row.clone(),
        _ => RawAnswer::Nothing,
    }
}

#[cfg(test)]
mod tests {
    use super::picked;
    use model::answers::RawAnswer::{Any, NotSure, Nothing, One};

    #[test]
    fn none_and_not_sure_stand_alone_and_the_last_tick_taken_off_is_no_answer() {
        assert_eq!(picked(&Any(4), &Nothing, true), Any(4));
        assert_eq!(picked(&Any(4), &Any(1), true), Any(5));
        assert_eq!(picked(&Any(4), &NotSure, true), Any(4));
        assert_eq!(picked(&Any(4), &Any(4), false), Nothing, "not the same as none of them");
        assert_eq!(picked(&Any(0), &Any(5), true), Any(0));
        assert_eq!(picked(&NotSure, &Any(5), true), NotSure);
        assert_eq!(picked(&NotSure, &NotSure, false), Nothing);
        assert_eq!(picked(&One(2), &One(1), true), One(2));
    }
}
