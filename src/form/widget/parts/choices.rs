//! Large rows to choose from: one of several, or any of several; "not sure" last, a little apart.

use super::View;
use crate::widget::el::{El, el};
use crate::widget::state::Action;
use model::answers::{Given, Kind};
use model::questions::Question;
use web_sys::{Event, HtmlInputElement};
use wording::form as words;
use yew::virtual_dom::ListenerKind;
use yew::{AttrValue, Callback, TargetCast};

/// One row.
struct Row {
    value: String,
    text: AttrValue,
    given: Given,
    checked: bool,
    apart: bool,
}

/// The rows of a question that is answered by choosing.
pub fn choices(view: &View, question: &'static Question) -> El {
    let (View { form, speech, done, sheet, .. }, id) = (view, question.id);
    let now = (question.get)(&form.answers);
    let several = matches!(question.kind, Kind::Any(_));
    let mut rows: Vec<Row> = Vec::new();
    let mut row = |value: String, text: AttrValue, given: Given, apart: bool| {
        let checked = match (&given, &now) {
            (Given::Any(0), now) => *now == Given::Any(0),
            (Given::Any(one), Given::Any(all)) => all & one != 0,
            (given, now) => given == now,
        };
        rows.push(Row { value, text, given, checked, apart });
    };
    match question.kind {
        Kind::One(list) => {
            for (word, at) in list.iter().zip(0..) {
                row((*word).into(), speech.option(question, word), Given::One(at), false);
            }
        }
        Kind::Any(list) => {
            for (word, at) in list.iter().zip(0..) {
                row((*word).into(), speech.option(question, word), Given::Any(1 << at), false);
            }
            let none = speech.find(&["option-", id, "-none"]);
            row("none".into(), none.unwrap_or_else(|| speech.say(words::NONE_OF_THESE)), Given::Any(0), true);
        }
        Kind::YesNo => {
            row("yes".into(), speech.say(words::YES), Given::YesNo(true), false);
            row("no".into(), speech.say(words::NO), Given::YesNo(false), false);
        }
        Kind::Count(least, most) => {
            for count in least..=most {
                let value = count.to_string();
                let text = speech.option(question, &value);
                row(value, text, Given::Count(count), false);
            }
        }
        Kind::Distance | Kind::Figure(_) | Kind::Line | Kind::PostcodeLine | Kind::Day | Kind::Stretches => {}
    }
    let not_sure = speech.find(&["option-", id, "-not-sure"]);
    row("not-sure".into(), not_sure.unwrap_or_else(|| speech.say(words::NOT_SURE)), Given::NotSure, !several);

    let pick = |given: Given| {
        let (done, now) = ((*done).clone(), now.clone());
        Callback::from(move |event: Event| {
            let ticked = event.target_unchecked_into::<HtmlInputElement>().checked();
            done.emit(Action::Answered(question, picked(&given, &now, ticked)));
        })
    };
    // Short words stand side by side; what is drawn needs its row.
    let three_phase = form.answers.meter.fuse_carriers.known().is_some_and(|carriers| carriers.get() == 3);
    let beside = |row: &Row| (!row.apart).then(|| sheet.beside(question, &row.value, three_phase)).flatten();
    let drawings: Vec<Option<El>> = rows.iter().map(beside).collect();
    let short = matches!(question.kind, Kind::Count(..) | Kind::YesNo) && drawings.iter().all(Option::is_none);
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

/// What the answer is after a row was ticked or unticked: "none" and "not sure" stand alone.
fn picked(row: &Given, now: &Given, ticked: bool) -> Given {
    match (row, now) {
        (Given::Any(0), _) if ticked => Given::Any(0),
        (Given::Any(one), Given::Any(all)) if *one != 0 => match (ticked, all & !one) {
            (true, _) => Given::Any(all | one),
            (false, 0) => Given::Nothing,
            (false, rest) => Given::Any(rest),
        },
        (row, _) if ticked => row.clone(),
        _ => Given::Nothing,
    }
}

#[cfg(test)]
mod tests {
    use super::picked;
    use model::answers::Given::{Any, NotSure, Nothing, One};

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
