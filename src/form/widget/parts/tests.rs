//! Tests of the views, rendered natively to a string.

use super::question::question_view;
use super::*;
use crate::widget::drawings::Sheet;
use crate::widget::effects::{Assessed, Made, Waits};
use crate::widget::el::El;
use crate::widget::screens::screen;
use crate::widget::state::KeptPhoto;
use crate::widget::step::Step;
use engine::assessment::{Assessment, Band, Complexity, Gate, Gatekeeper, MayApply, NoBand, Open, Reason, assess};
use model::answers::{Answer, AnswerKind, Answers, HazardPlace, HazardSign, NotSure, Set, Word};
use model::config::{Config, GrantFor, demo_config, demo_part};
use model::questions::{CATALOGUE, question};
use model::units::{Pence, Probability};
use record::ViewModel;
use yew::prelude::*;
use yew::{LocalServerRenderer, Reducible};

/// Holds what a view made, so that it can be rendered.
#[derive(Properties, PartialEq)]
struct StillProps {
    html: Html,
}

#[component]
fn Still(props: &StillProps) -> Html {
    props.html.clone()
}

pub(super) fn shown(form: &Rc<Form>, make: impl FnOnce(&View) -> El) -> String {
    let (config, speech, done) = (demo_part(), speech(), Callback::noop());
    let sheet = Sheet::of(crate::sketches::sheet(wording::Words::new(wording::sketches::EN)));
    let html = make(&View { form, config: Some(&config), speech: &speech, sheet: &sheet, done: &done }).html();
    pollster::block_on(LocalServerRenderer::<Still>::with_props(StillProps { html }).hydratable(false).render())
}

fn speech() -> Speech {
    Speech::new(Some(Rc::new(demo_part())), AttrValue::default(), AttrValue::default())
}

fn question_shown(id: &'static str, form: Form) -> String {
    shown(&Rc::new(form), |view| question_view(view, question(id).unwrap()))
}

fn page_shown(form: Form) -> String {
    shown(&Rc::new(form), |view| screen_page(view, &Callback::noop(), None))
}

fn result_shown(change: impl FnOnce(&mut Assessment)) -> String {
    let mut assessment = assess(&Answers::default(), &demo_config());
    change(&mut assessment);
    shown_result(&Assessed { latest: Some(made(&assessment)), fresh: true, waits: Waits::Work })
}

fn shown_result(assessed: &Assessed) -> String {
    let mut form = Form::default();
    Rc::make_mut(&mut form.answers).hazard.signs = Answer::Known(Set::NONE);
    shown(&Rc::new(form), |view| result_page(view, assessed))
}

pub(super) fn made(assessment: &Assessment) -> Rc<Made> {
    Rc::new(Made { shown: ViewModel::of(assessment, &demo_config()), json: String::new() })
}

fn banded(assessment: &mut Assessment) {
    assessment.complexity = Complexity::Straightforward;
    assessment.invented = true;
    assessment.no_band = None;
    assessment.band = Some(Band {
        low: Pence(90_000),
        likely: Pence(102_000),
        high: Pence(125_000),
        vat: Pence(17_000),
        charge_point: Pence(62_000),
        plainest: Pence(88_000),
        before_vat: None,
    });
}

/// The contact page of an installer whose config was changed.
fn contact_shown(change: impl FnOnce(&mut FormPart)) -> String {
    let mut config = demo_part();
    change(&mut config);
    shown(&Rc::new(Form::default()), |view| contact_page(&View { config: Some(&config), ..*view }))
}

#[test]
fn at_sending_stands_who_gets_it_what_for_how_long_and_what_one_may_ask() {
    let plain = contact_shown(|_| {});
    for part in ["Invented Installer", "6(1)(b)", "180 days", "deleted", "Information Commissioner"] {
        assert!(plain.contains(part), "{part} in {plain}");
    }
    assert!(
        !plain.contains("checkbox") && !plain.contains("<a "),
        "nothing to agree to, and no link where none is set: {plain}"
    );
    let said = contact_shown(|config| {
        config.installer.legal_name = "Invented Installer Limited".into();
        config.installer.privacy = Some("https://installer.invalid/privacy".into());
        config.keep_days = 1;
    });
    assert!(said.contains("It goes to Invented Installer Limited,") && said.contains("kept for one day"), "{said}");
    assert!(said.contains("href=\"https://installer.invalid/privacy\"") && said.contains("noopener"), "{said}");
    let none = shown(&Rc::new(Form::default()), |view| contact_page(&View { config: None, ..*view }));
    assert!(none.contains("how long it is kept"), "without a config no days are claimed: {none}");
}

#[test]
fn a_copy_is_offered_beside_an_address_alone_where_the_service_mails_one_and_never_ticked() {
    let page = |copies, email: &str| {
        let mut form = Form::default();
        form.contact.email = email.into();
        let config = FormPart { copies, ..demo_part() };
        shown(&Rc::new(form), |view| contact_page(&View { config: Some(&config), ..*view }))
    };
    let asked = page(true, "person@example.invalid");
    let (_, tick) = asked.split_once("c-copy").unwrap();
    assert!(!tick.split_once('>').unwrap().0.contains("checked"), "{tick}");
    assert!(!page(false, "person@example.invalid").contains("c-copy") && !page(true, "").contains("c-copy"));
}

#[test]
fn offers_are_asked_about_only_where_the_installer_wants_that_and_never_ticked() {
    let asked = contact_shown(|config| config.advertising = true);
    let (_, tick) = asked.split_once("c-offers").unwrap();
    assert!(!tick.split('>').next().unwrap().contains("checked"), "{asked}");
    assert_eq!(asked.matches("checkbox").count(), 1);
}

#[test]
fn every_question_has_its_control_with_not_sure_last() {
    for question in CATALOGUE {
        let html = question_shown(question.id, Form::default());
        let (_, last) = html.rsplit_once("<input").unwrap();
        assert!(last.contains("not-sure"), "{}: {last}", question.id);
        let inputs = html.matches("<input").count();
        let wanted = match question.kind {
            AnswerKind::One(words) => words.len() + 1,
            AnswerKind::Any(words) => words.len() + 2,
            AnswerKind::YesNo => 3,
            AnswerKind::Count(least, most) => usize::from(most - least) + 2,
            AnswerKind::Distance | AnswerKind::Figure(_) | AnswerKind::Line | AnswerKind::PostcodeLine => 2,
            AnswerKind::Stretches => 2,
            AnswerKind::Day => 1,
        };
        assert_eq!(inputs, wanted, "{}", question.id);
        for part in ["<fieldset", "<legend", "<details"] {
            assert!(html.contains(part), "{} lacks {part}", question.id);
        }
        assert!(!html.contains(" style="), "{}: a strict policy blocks inline styles", question.id);
    }
}

#[test]
fn an_answer_is_shown_back() {
    let mut form = Form::default();
    Rc::make_mut(&mut form.answers).home.tenure = Answer::Known(model::answers::Tenure::Rent);
    let html = question_shown("tenure", form);
    let (_, rest) = html.split_once("value=\"rent\"").unwrap();
    assert!(rest.split('>').next().unwrap().contains("checked"));
    assert_eq!(html.matches(" checked").count(), 1);
    assert!(html.contains(speech().made(&["ending-landlord"]).as_str()), "told on the screen where it was said");
}

#[test]
fn a_postcode_that_cannot_be_read_says_so_at_its_field() {
    let form = Rc::new(Form::default())
        .reduce(Action::WentTo(Step::Screen(screen("start").unwrap())))
        .reduce(Action::Typed(question("postcode").unwrap(), "zz1 1a".into()))
        .reduce(Action::WentOn(String::new()));
    let html = question_shown("postcode", (*form).clone());
    assert!(html.contains("value=\"zz1 1a\"") && html.contains("aria-invalid=\"true\""), "{html}");
    assert!(html.contains("aria-describedby=\"e-postcode\"") && html.contains("id=\"e-postcode\""));
}

/// A query stands beside the field; it never prevents sending.
#[test]
fn a_length_that_nobody_means_is_queried_beside_its_field_and_kept() {
    let asks = |id: &'static str, json: &str| {
        let mut form = Form::default();
        *Rc::make_mut(&mut form.answers) = serde_json::from_str(json).unwrap();
        assert!(!form.stands_open(question(id).unwrap()), "{id} is answered");
        question_shown(id, form).contains("Is that right?")
    };
    let length = |metres: u32| format!(r#"{{"route":{{"length":{{"value":{metres},"unit":"metres"}}}}}}"#);
    assert!(asks("route-length", &length(1000)) && !asks("route-length", &length(60)));
    let wall =
        |metres: f64| format!(r#"{{"route":{{"walls":1,"wall_thickness":{{"value":{metres},"unit":"metres"}}}}}}"#);
    assert!(asks("wall-thickness", &wall(30.0)) && !asks("wall-thickness", &wall(0.6)));
    let way = |metres: u32| {
        format!(r#"{{"route":{{"stretches":[{{"along":"inside","length":{{"value":{metres},"unit":"metres"}}}}]}}}}"#)
    };
    assert!(asks("route-stretches", &way(1000)) && !asks("route-stretches", &way(30)));
}

#[test]
fn a_hazard_brings_its_advice_at_once_and_no_price() {
    let mut form = Form::default();
    let hazard = &mut Rc::make_mut(&mut form.answers).hazard;
    hazard.signs = Answer::Known(Set::of(&[HazardSign::Smoke, HazardSign::Discolouration]));
    hazard.place = Answer::Known(HazardPlace::ServiceHead);
    let html = page_shown(form);
    for wanted in ["tel:999", "tel:105", "emergency"] {
        assert!(html.contains(wanted), "{wanted} in {html}");
    }
    assert!(!html.contains('£'));
    assert!(html.find("class=\"emergency") < html.find("<fieldset"), "the advice comes before anything asked");
    assert!(html.contains("f-hazard-place"));
}

#[test]
fn not_sure_of_hazards_keeps_away_from_the_meter_kindly() {
    let mut form = Form::default();
    Rc::make_mut(&mut form.answers).hazard.signs = NotSure;
    let html = page_shown(form);
    assert!(html.contains("stay away from the meter") && !html.contains("class=\"emergency"));
}

#[test]
fn at_the_meter_it_says_how_to_stand_and_takes_a_photo() {
    let mut form = Form::default();
    Rc::make_mut(&mut form.answers).hazard.signs = Answer::Known(Set::NONE);
    form.step = Step::Screen(screen("meter").unwrap());
    form.photos.push(KeptPhoto {
        sha256: "ab".into(),
        place: record::enquiry::PhotoPlace::Meter,
        width: 1600,
        height: 1200,
        bytes: 5,
        shown_at: "blob:here".into(),
    });
    let html = page_shown(form);
    assert!(html.contains("Touch nothing"));
    assert!(html.contains("capture=\"environment\"") && html.contains("src=\"blob:here\""));
    assert!(html.find("Touch nothing") < html.find("<fieldset"), "said before anyone looks");
}

#[test]
fn a_grant_is_named_beside_the_price_or_where_there_is_none_and_never_taken_off_it() {
    let may_apply = MayApply {
        name: "an invented grant".into(),
        who: GrantFor::FlatOrRented,
        most: Pence(50_000),
        likely_after: Some(Pence(52_000)),
        read: jiff::civil::date(2026, 11, 26),
        source: "for the installer alone".into(),
    };
    let with_band = result_shown(|assessment| {
        banded(assessment);
        assessment.grants = vec![may_apply.clone()];
    });
    let without = result_shown(|assessment| assessment.grants = vec![may_apply]);
    for html in [&with_band, &without] {
        assert!(html.contains("£500") && html.contains("an invented grant") && html.contains("2026-11-26"), "{html}");
        assert!(!html.contains("£520") && !html.contains("installer alone"), "{html}");
    }
    assert!(with_band.contains("£900 to £1,250"));
}

#[test]
fn a_result_with_a_band_says_what_it_is() {
    let html = result_shown(|assessment| {
        banded(assessment);
        assessment.gates = vec![Gate {
            who: Gatekeeper::NetworkOperator,
            probability: Probability::of(0.85),
            counts: true,
            on_paper: false,
            why: vec!["for the installer alone".into()],
            wait: "two weeks".into(),
            wait_source: String::new(),
        }];
        assessment.open = vec![Open { question: "spare-ways".into(), narrows_by: Pence(12_000), settles: false }];
    });
    for wanted in [
        "£900 to £1,250",
        "most likely near £1,020",
        "With VAT and the charge point",
        "An estimate before a survey, not a quotation",
        "Invented for a demonstration",
        "class=\"tape\"",
        "two weeks",
        "data-question=\"spare-ways\"",
        "about £120",
    ] {
        assert!(html.contains(wanted), "{wanted} in {html}");
    }
    assert!(!html.contains("for the installer alone") && !html.contains(" style="));
}

/// What the band holds is stated as a condition until recorded jobs bear it out; then their number is given.
#[test]
fn how_many_jobs_fall_inside_is_a_condition_until_recorded_jobs_say_so() {
    let with = |jobs: u32| {
        let mut assessment = assess(&Answers::default(), &demo_config());
        banded(&mut assessment);
        let shown = ViewModel::of(&assessment, &Config { jobs, ..demo_config() });
        let latest = Some(Rc::new(Made { shown, json: String::new() }));
        let assessed = Assessed { latest, fresh: true, waits: Waits::Work };
        shown_result(&assessed)
    };
    let condition = "times and prices hold, about eight in ten";
    assert!(with(0).contains(condition) && !with(0).contains("finished jobs"));
    assert!(
        with(40).contains("Of 40 finished jobs that were recorded, about eight in ten")
            && !with(40).contains(condition)
    );
}

#[test]
fn a_result_without_a_band_names_no_price() {
    for why in NoBand::ALL {
        let html = result_shown(|assessment| {
            assessment.complexity = Complexity::LookFirst;
            assessment.band = None;
            assessment.no_band = Some(*why);
            assessment.open.clear();
        });
        assert!(!html.contains('£') && !html.contains("class=\"tape\""), "{}", why.word());
        assert!(html.contains(speech().made(&["no-band-", why.word()]).as_str()));
    }
}

#[test]
fn nobody_is_asked_for_an_answer_that_is_worth_next_to_nothing() {
    let html = result_shown(|assessment| {
        banded(assessment);
        let open = |question: &str, pounds: i64, settles| Open {
            question: question.into(),
            narrows_by: Pence(pounds * 100),
            settles,
        };
        assessment.open = vec![open("spare-ways", 10, false), open("age", 10, true), open("tenure", 40, false)];
    });
    assert!(!html.contains("data-question=\"spare-ways\"") && !html.contains("about £10<"));
    assert!(html.contains("data-question=\"age\"") && html.contains("one thing less"));
    assert!(html.contains("data-question=\"tenure\"") && html.contains("about £40"));
}

/// The result page of an installer who shows this much of the price.
fn result_by(shows: model::config::PriceShown) -> String {
    let mut config = demo_config();
    config.prices_shown = model::config::PricesShown::all(shows);
    let json = r#"{"hazard":{"signs":[]},"home":{"kind":"detached","tenure":"own"},"parking":{"place":"drive"},
        "route":{"length":{"value":15,"unit":"metres"},"mostly":"paving"}}"#;
    let answers: Answers = serde_json::from_str(json).unwrap();
    let of = ViewModel::of(&assess(&answers, &config), &config);
    let made = Rc::new(Made { shown: of, json: String::new() });
    let assessed = Assessed { latest: Some(made), fresh: true, waits: Waits::Work };
    let mut form = Form::default();
    *Rc::make_mut(&mut form.answers) = answers;
    shown(&Rc::new(form), |view| result_page(view, &assessed))
}

#[test]
fn a_price_says_under_it_what_it_leaves_out_and_a_from_what_it_means() {
    use model::config::PriceShown;
    let leaves_out = "What the network operator, a landlord or a planner may charge is not in it.";
    let band = result_by(PriceShown::Band);
    assert!(band.contains(leaves_out) && band.contains("Most likely near") && band.contains("class=\"tape\""));
    let from = result_by(PriceShown::From);
    assert!(from.contains(leaves_out) && from.contains("From £") && from.contains("turns out well"), "{from}");
    assert!(from.contains("An estimate before a survey") && from.contains("not real prices"), "{from}");
    assert!(!from.contains("Most likely near") && !from.contains("class=\"tape\"") && !from.contains("Of ten jobs"));
    let none = result_by(PriceShown::Nothing);
    assert!(!none.contains('£') && none.contains("shows no price here for a job like this"), "{none}");
}

#[test]
fn of_a_home_that_nearly_nothing_was_said_of_no_class_is_claimed_and_no_plan_drawn() {
    let html = result_shown(|assessment| {
        (assessment.band, assessment.no_band) = (None, Some(NoBand::TooLittleSaid));
        assessment.complexity = Complexity::MoreInvolved;
        assessment.reasons = vec![Reason::Digging];
    });
    assert!(html.contains("too little is known") && html.contains("tell from here"), "{html}");
    assert!(!html.contains("has to be dug") && !html.contains("class=\"plan\"") && !html.contains("more involved job"));
}

#[test]
fn outside_the_area_nothing_is_said_of_the_job() {
    let html = result_shown(|assessment| {
        (assessment.band, assessment.no_band) = (None, Some(NoBand::OutsideArea));
        assessment.complexity = Complexity::NotCovered;
        assessment.reasons = vec![Reason::Digging];
    });
    assert!(html.contains("data-complexity=\"not-covered\"") && html.contains("tell from here"));
    assert!(!html.contains("has to be dug") && !html.contains("nothing to wait for"));
}

#[test]
fn the_last_assessment_stays_while_the_next_is_worked_out() {
    let mut assessment = assess(&Answers::default(), &demo_config());
    banded(&mut assessment);
    let assessed = Assessed { latest: Some(made(&assessment)), fresh: false, waits: Waits::Work };
    let html = shown(&Rc::default(), |view| result_page(view, &assessed));
    assert!(html.contains("Working it out") && html.contains("£900"));
}

#[test]
fn what_the_result_waits_for_is_said_and_send_is_there() {
    for (waits, wanted) in [
        (Waits::Config, "waiting for"),
        (Waits::Work, "Working it out"),
        (Waits::Signal, "as soon as there is a signal"),
        (Waits::GivenUp, "could not be worked out here"),
    ] {
        let html = shown(&Rc::default(), |view| result_page(view, &Assessed { waits, ..Assessed::default() }));
        assert!(html.contains(wanted) && html.contains("class=\"main\""), "{waits:?}: {html}");
        assert!(!html.contains('£') && !html.contains("data-complexity"));
    }
}

#[test]
fn a_flag_is_told_in_words_with_the_installers_name_in_them() {
    let mut config = demo_config();
    config.wording.insert("flag-high-work".into(), "Ask {installer}.".into());
    let mut assessment = assess(&Answers::default(), &config);
    assessment.flags.retain(|flag| flag.weight == engine::flags::Weight::WorthKnowing);
    assessment.flags.truncate(1);
    assessment.flags[0].code = "high-work".into();
    let made = Made { shown: ViewModel::of(&assessment, &config), json: String::new() };
    let assessed = Assessed { latest: Some(Rc::new(made)), fresh: true, waits: Waits::Work };
    let html = shown(&Rc::default(), |view| result_page(view, &assessed));
    let told = ["data-flag=\"high-work\">Ask ", &config.installer.name, "."].concat();
    assert!(html.contains(&told) && html.contains("less flags"), "{told} in {html}");
}

#[test]
fn the_reference_is_there_to_read_out() {
    let form = Form { reference: Some("BCDF-GHJK".into()), step: Step::Sent, ..Form::default() };
    let html = shown(&Rc::new(form), sent_page);
    assert!(html.contains("BCDF-GHJK") && html.contains("01632 960 000"));
}

#[test]
fn a_plan_has_its_place_with_what_is_said_until_it_comes() {
    let rows = "inside metres - 4\n- metres - about 3\n";
    let typed = Rc::new(Form::default()).reduce(Action::Typed(question("route-stretches").unwrap(), rows.into()));
    let html = question_shown("route-stretches", (*typed.reduce(Action::WentOn(String::new()))).clone());
    assert!(html.contains("data-draws=\"route\"></div><p class=\"aside\">The drawing comes"), "{html}");
    assert!(html.contains("type=\"hidden\"") && html.contains("- metres - about 3"), "{html}");
    let reached = Form { reached_result: true, ..Form::default() };
    for (id, form, there) in [
        ("spot-to-car", Form::default(), true),
        ("lead-length", Form::default(), true),
        ("inlet", Form::default(), false),
        ("inlet", reached, true),
        ("route-length", Form::default(), false),
    ] {
        assert_eq!(question_shown(id, form).contains("data-draws=\"reach\""), there, "{id}: the core stays short");
    }
}
