//! Tests that nothing sends the homeowner to meter, board or pipes while a danger is known or not ruled out: at every step, with any
//! earlier answers and assessment, and also in a form opened from a draft or by a link.

use super::tests::{made, shown};
use super::*;
use crate::widget::draft::Draft;
use crate::widget::effects::{Assessed, Made, Waits};
use crate::widget::screens::SCREENS;
use crate::widget::state::{Link, Said};
use crate::widget::step::Step;
use engine::assessment::assess;
use model::answers::{Answer, Answers, FoundAt, Hazard, HazardPlace, HazardSign, HazardWhen, RawAnswer, Set, Word};
use model::config::demo_config;
use model::questions::{CATALOGUE, Place, Question, question};
use record::enquiry::PhotoPlace;
use wording::form as words;
use yew::Reducible;

const LOOKED_AT: [Place; 3] = [Place::Meter, Place::Board, Place::Pipes];

/// The parts of a page that send somebody to look: a question at these places or a way to one, a photo slot, how to stand there.
fn sends_to_look(html: &str) -> Vec<String> {
    let mut found = Vec::new();
    for question in CATALOGUE.iter().filter(|question| LOOKED_AT.contains(&question.place)) {
        let id = question.id;
        let marks = [format!("id=\"f-{id}\""), format!("data-question=\"{id}\""), format!("data-said=\"{id}\"")];
        found.extend(marks.into_iter().filter(|mark| html.contains(mark)));
    }
    let speech = Speech::default();
    for screen in SCREENS.iter().filter(|screen| LOOKED_AT.contains(&screen.place)) {
        let way = [">", speech.made(&["screen-", screen.id]).as_str(), "<"].concat();
        found.extend(html.contains(&way).then_some(way));
    }
    // A photo of the parking spot sends nobody to look.
    for word in PhotoPlace::WORDS.iter().filter(|word| **word != PhotoPlace::Parking.word()) {
        let slot = format!("id=\"p-{word}\"");
        found.extend(html.contains(&slot).then_some(slot));
    }
    let stand = speech.say(words::LOOK_ONLY);
    found.extend([stand.as_str(), "quiet wrong"].into_iter().filter(|part| html.contains(part)).map(str::to_owned));
    found
}

/// Every possible step.
fn steps() -> Vec<Step> {
    let screens = SCREENS.iter().map(Step::Screen);
    let questions = CATALOGUE.iter().map(Step::Question);
    let others = [Step::Result, Step::Contact, Step::Sent, Step::Link];
    screens.chain(questions).chain(LOOKED_AT.map(Step::Found)).chain(others).collect()
}

/// The page of a form's step; the assessment shown is from before the danger became known.
fn page(form: Form, before: &Rc<Made>) -> String {
    let form = Rc::new(form);
    let assessed = Assessed { latest: Some(before.clone()), fresh: false, waits: Waits::Work };
    shown(&form, |view| match form.step {
        Step::Screen(_) | Step::Question(_) | Step::Found(_) => {
            screen_page(view, &Callback::noop(), Some(&before.shown))
        }
        Step::Result => result_page(view, &assessed),
        Step::Contact => contact_page(view),
        Step::Sent => sent_page(view),
        Step::Link => link_page(view, &Callback::noop()),
    })
}

/// The answers of a home whose meter and board were looked at.
fn seen() -> Answers {
    let mut answers = Answers::default();
    answers.hazard.signs = Answer::Known(Set::NONE);
    let open = |question: &&Question, answers: &Answers| {
        (question.asked)(answers) && (question.get)(answers) == RawAnswer::Nothing
    };
    while let Some(next) = CATALOGUE.iter().find(|question| open(question, &answers)) {
        assert!((next.set)(&mut answers, &RawAnswer::NotSure), "{}", next.id);
    }
    answers
}

/// Every danger that is known or not ruled out: what was said of it, and where it was found.
fn feared() -> Vec<Hazard> {
    let not_sure = Hazard { signs: Answer::NotSure, ..Hazard::default() };
    let mut all = vec![not_sure];
    for (sign, place) in HazardSign::ALL.iter().zip(HazardPlace::ALL.iter().cycle()) {
        let signs = Answer::Known(Set::of(&[*sign]));
        let place = Answer::Known(*place);
        all.push(Hazard { signs, place, ..Hazard::default() });
        let (when, found_at) = (Answer::Known(HazardWhen::Now), Answer::Known(FoundAt::Board));
        all.push(Hazard { signs, place, when, found_at });
    }
    let scorched = Answer::Known(Set::of(&[HazardSign::Discolouration]));
    let when = Answer::Known(HazardWhen::LongAgo);
    all.push(Hazard { signs: scorched, when, ..Hazard::default() });
    all
}

#[test]
fn where_nothing_is_feared_one_is_sent_to_look() {
    let answers = seen();
    let before = made(&assess(&answers, &demo_config()));
    let at = |step| Form { answers: Said::of(answers.clone()), step, reached_result: true, ..Form::default() };
    for step in steps().into_iter().filter(Step::looks) {
        assert!(!sends_to_look(&page(at(step), &before)).is_empty(), "{step:?}");
    }
    let html = page(at(Step::Result), &before);
    assert!(html.contains("data-said=\"fuse-carriers\""), "{html}");
    let late = Form { told_to_look: true, ..at(Step::Link) };
    assert!(sends_to_look(&page(late, &before)).contains(&"id=\"p-meter\"".to_owned()));
}

#[test]
fn while_a_danger_is_feared_no_step_sends_anybody_to_look() {
    let answers = seen();
    let before = made(&assess(&answers, &demo_config()));
    for (at, hazard) in feared().into_iter().enumerate() {
        let answers = Answers { hazard, ..answers.clone() };
        let mut seen = Vec::new();
        for step in steps() {
            // The danger comes with a draft, or from another page with the same draft.
            let form = Form { answers: Said::of(answers.clone()), step, reached_result: true, ..Form::default() };
            let opened = Form::begun(Some(&Draft::of(&form).write()), false);
            let form = Rc::new(form).reduce(Action::TodayIs(jiff::civil::date(2026, 6, 1)));
            // The same with the service's permission to look, which may be from before.
            let told = Rc::clone(&form).reduce(Action::ToldToLook(true));
            for form in [opened, Form::clone(&form), Form::clone(&told)] {
                let shown = form.step;
                assert!(!shown.looks(), "{:?} at {step:?}", answers.hazard);
                // To save time, pages of screens and questions are drawn for the first few dangers only.
                let drawn = at < 4 || !matches!(shown, Step::Screen(_) | Step::Question(_)) || shown == Step::first();
                if drawn && !seen.contains(&(shown.name(), form.told_to_look)) {
                    seen.push((shown.name(), form.told_to_look));
                    let found = sends_to_look(&page(form, &before));
                    assert!(found.is_empty(), "{:?} at {step:?}, shown {shown:?}: {found:?}", answers.hazard);
                }
            }
        }
    }
}

#[test]
fn before_dangers_were_asked_about_nobody_is_sent_to_look() {
    let before = made(&assess(&Answers::default(), &demo_config()));
    for step in steps() {
        let form = Rc::new(Form { step, reached_result: true, ..Form::default() });
        let form = form.reduce(Action::TodayIs(jiff::civil::date(2026, 6, 1)));
        let at = form.step;
        let found = sends_to_look(&page(Form::clone(&form), &before));
        assert!(found.is_empty(), "{step:?}, shown {at:?}: {found:?}");
    }
}

#[test]
fn a_late_page_sends_nobody_to_look_without_the_services_word_or_beside_a_danger_found() {
    let before = made(&assess(&Answers::default(), &demo_config()));
    let asked: Vec<&'static str> = CATALOGUE.iter().map(|question| question.id).collect();
    for questions in [asked, Vec::new()] {
        let link = Some(Link { key: "k".into(), secret: "s".into(), questions });
        let late = Form { link, step: Step::Link, ..Form::default() };
        let untold = sends_to_look(&page(late.clone(), &before));
        assert!(untold.is_empty(), "{untold:?}");
        let told = Rc::new(late).reduce(Action::ToldToLook(true));
        assert!(!sends_to_look(&page(Form::clone(&told), &before)).is_empty());
        let hazard = question("hazard").unwrap();
        for hazards in feared() {
            let said = (hazard.get)(&Answers { hazard: hazards.clone(), ..Answers::default() });
            let found = Rc::clone(&told).reduce(Action::WentTo(Step::Found(Place::Meter)));
            let found = found.reduce(Action::Answered(hazard, said));
            for form in [Rc::clone(&found), found.reduce(Action::WentOn(String::new()))] {
                let shown = sends_to_look(&page(Form::clone(&form), &before));
                assert!(shown.is_empty(), "{hazards:?} at {:?}: {shown:?}", form.step);
            }
        }
    }
}
