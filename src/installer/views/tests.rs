//! What the views show, rendered natively to a string.

use super::row::{RowView, RowViewProps};
use super::{EnquiryView, ListView, PhotoView, SignInView};
use crate::api::{Agreement, SignedIn};
use crate::enquiry_rows::RowFlag;
use crate::enquiry_rows::tests::row;
use crate::location::{Location, photo_address};
use crate::sample;
use crate::state::{Action, Desk};
use crate::tape::Scale;
use crate::trouble::Trouble;
use crate::views::enquiry::EnquiryProps;
use crate::views::enquiry_list::ListProps;
use crate::views::photo::PhotoProps;
use crate::views::sign_in::SignInProps;
use crate::views::working::{WorkingProps, WorkingView};
use engine::assessment::{
    Asked, Assessment, Complexity, Gatekeeper, Need, NoBand, Obligation, OwedTo, OwedWhen, Reason,
};
use engine::flags::Weight;
use model::answers::{Answer, Tenure};
use std::rc::Rc;
use yew::{BaseComponent, Callback, Reducible, ServerRenderer};

fn shown<C: BaseComponent>(props: impl FnOnce() -> C::Properties + Send + 'static) -> String {
    pollster::block_on(ServerRenderer::<C>::with_props(props).hydratable(false).render())
}

/// The text without markup, so that expectations do not depend on markup.
fn text(html: &str) -> String {
    let (mut out, mut inside) = (String::new(), false);
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' => inside = false,
            _ if !inside => out.push(c),
            _ => {}
        }
    }
    out
}

fn desk(actions: impl FnOnce(&str) -> Vec<Action>) -> Rc<Desk> {
    let key = sample::detail().client_key;
    let start = Rc::new(Desk::new(Location::Enquiry { key: key.clone(), photo: None }, sample::clock()));
    actions(&key).into_iter().fold(start, |desk, action| desk.reduce(action))
}

fn enquiry(actions: impl FnOnce(&str) -> Vec<Action> + Send + 'static) -> String {
    shown::<EnquiryView>(move || EnquiryProps {
        desk: desk(actions),
        on: Callback::noop(),
        again: Callback::noop(),
        on_correct: Callback::noop(),
        on_store: Callback::noop(),
        on_mark: Callback::noop(),
        on_job: Callback::noop(),
        on_delete: Callback::noop(),
    })
}

fn opened() -> Vec<Action> {
    vec![
        Action::SessionKnown(Some(sample::owner())),
        Action::ConfigCame(Box::new(model::config::demo_config())),
        Action::DetailCame(Box::new(sample::detail())),
    ]
}

fn list(actions: impl FnOnce() -> Vec<Action> + Send + 'static) -> String {
    shown::<ListView>(move || ListProps {
        desk: desk(|_| actions()),
        on: Callback::noop(),
        again: Callback::noop(),
        on_store: Callback::noop(),
        sign_out: Callback::noop(),
    })
}

#[test]
fn a_row_reads_as_a_decision() {
    let html = shown::<RowView>(|| {
        let mut row = row("k", Complexity::DependsOnOthers);
        row.flags = vec![RowFlag {
            code: "never-heard-of-it".into(),
            weight: Weight::SettleBeforeBooking,
            evidence: vec!["one fuse carrier, four conductors".into()],
        }];
        row.band = sample::detail().assessment().unwrap().band;
        (row.arrived, row.photos) = (2, 3);
        let scale = Scale::over(row.band.iter());
        RowViewProps { row, scale, clock: sample::clock() }
    });
    let text = text(&html);
    for part in [
        "Depends on others: Never heard of it",
        "Settle before booking: one fuse carrier, four conductors",
        "ZZ1",
        "4 hours ago",
        "£1,400 to £3,100",
        "invented",
        "2 of 3 photos",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
    assert!(html.contains("<rect"), "the tape is drawn");
    assert!(!html.contains("style="), "no inline style passes the content policy");
}

#[test]
fn a_row_says_nothing_twice() {
    let html = shown::<RowView>(|| {
        let mut row = row("k", Complexity::DependsOnOthers);
        row.reasons = vec![Reason::SomebodyElseFirst, Reason::Digging];
        row.gates = vec![Gatekeeper::Landlord];
        RowViewProps { row, scale: None, clock: sample::clock() }
    });
    let text = text(&html);
    assert!(text.contains("Depends on others: Landlord or freeholder"), "{text}");
    assert!(text.contains("There is digging") && !text.contains("Somebody else"), "{text}");
    assert_eq!(text.matches("Landlord").count(), 1, "{text}");
}

#[test]
fn a_row_says_that_an_answer_is_overdue_by_the_pages_own_day() {
    let on = |day| Some(jiff::civil::date(2026, 7, day));
    let row_of = |asked: Option<Asked>| {
        text(&shown::<RowView>(move || {
            let mut row = row("k", Complexity::DependsOnOthers);
            (row.gates, row.asked) = (vec![Gatekeeper::NetworkOperator], asked);
            RowViewProps { row, scale: None, clock: sample::clock() }
        }))
    };
    // The sample's day is 14 July 2026.
    let overdue = row_of(Some(Asked { on: on(1), usually_by: on(13), answered: None }));
    assert!(overdue.contains("Network operator overdue: ask how it stands"), "{overdue}");
    let still_usual = Asked { on: on(1), usually_by: on(14), answered: None };
    let answered = Asked { on: on(1), usually_by: on(13), answered: on(14) };
    let no_day_is_usual = Asked { on: on(1), usually_by: None, answered: None };
    for asked in [None, Some(still_usual), Some(answered), Some(no_day_is_usual)] {
        assert!(!row_of(asked).contains("overdue"), "{asked:?}");
    }
}

#[test]
fn a_row_without_a_band_shows_none_and_no_figure() {
    let html =
        shown::<RowView>(|| RowViewProps { row: row("k", Complexity::LookFirst), scale: None, clock: sample::clock() });
    assert!(text(&html).contains("No price yet"));
    assert!(!html.contains('£'));
}

#[test]
fn the_list_says_what_it_waits_for_and_when_it_is_empty() {
    assert!(text(&list(|| vec![Action::ListAsked])).contains("Fetching the enquiries"));
    assert!(text(&list(|| vec![Action::ListCame(Vec::new())])).contains("No enquiry has come in yet"));
    let lost = list(|| {
        vec![Action::ListCame(vec![row("a", Complexity::Straightforward)]), Action::ListFailed(Trouble::Unreachable)]
    });
    for part in ["can’t be reached", "what was last fetched", "Try again", "Straightforward"] {
        assert!(text(&lost).contains(part), "{part}");
    }
}

#[test]
fn an_enquiry_shows_all_that_it_rests_on() {
    let html = enquiry(|_| opened());
    let text = text(&html);
    for part in [
        "Invented Person",
        "ZZ1 1AA",
        "BCDF-2346",
        "Depends on others",
        "There is digging",
        "Network operator: probably, 85 in 100",
        "Landlord or freeholder: probably not, 10 in 100",
        "Usual wait: weeks",
        "£1,400 to £3,100, most likely near £1,900, with VAT and the charge point.",
        "Before VAT: £1,160 to £2,590, most likely near £1,583, the middle: half of such jobs cost less; VAT at 20 %.",
        "No rate of VAT is set for that day",
        "up to £500: an invented grant. It is approved before the work begins and paid after; you must be authorised for it. Read on 26 November 2026. It could bring the figure in the middle down to £1,400.",
        "Invented prices",
        "one fuse carrier, four conductors",
        "common practice, no source",
        "Never heard of it",
        "narrows the price by about £120",
        "Flat twin-and-earth, inside invented default",
        "What is marked is an invented default",
        "8 m",
        "1 h 15 min",
        "£210.50",
        "could be either, 60 in 100",
        "Nobody could tell: assumed.",
        "8 paces (6 m)",
        "1 of 2 photos",
        "Not arrived yet",
        "to the penny",
        "Mark as handled",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
    assert!(html.contains("href=\"tel:01632960000\""));
    assert!(html.contains("href=\"mailto:invented@example.invalid\""));
    assert!(!html.contains("style="), "no inline style passes the content policy");
    assert!(!html.contains("<b>as typed"), "what a person typed is text");
    assert!(html.find("Settle before booking").unwrap() < html.find("Worth knowing").unwrap());
}

/// If two figures differ, each is named and the reason is given.
#[test]
fn the_mean_beside_the_middle_and_another_case_beside_the_likeliest_are_named() {
    use engine::assessment::{Alternative, Estimate};
    use engine::design::Outcome;
    use engine::design::network::Otherwise;
    use model::units::{Amps, Pence, Probability};
    let of = |change: fn(&mut engine::assessment::Assessment)| {
        let html = enquiry(move |_| {
            let mut detail = sample::detail();
            let mut assessment = detail.assessment().unwrap().clone();
            change(&mut assessment);
            detail.own_assessment = Some(assessment);
            vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(detail))]
        });
        text(&html)
    };
    let differs = of(|assessment| assessment.sums.before_vat = Pence(165_000));
    for part in [
        "Expected (the mean), each line by how likely it is",
        "The mean and the middle of the band differ: the middle is £1,583 before VAT",
    ] {
        assert!(differs.contains(part), "{part} in {differs}");
    }
    let median = |assessment: &engine::assessment::Assessment| assessment.band.unwrap().before_vat.unwrap().likely;
    let same = of(|assessment| assessment.sums.before_vat = assessment.band.unwrap().before_vat.unwrap().likely);
    assert!(!same.contains("The mean and the middle of the band differ"), "{same}");
    assert!(median(sample::detail().assessment().unwrap()) > Pence(0));
    let least = of(|assessment| {
        assessment.sums.with_vat = Pence(10_000);
        assessment.sums.before_vat = Pence(8_333);
        assessment.estimate = Some(Estimate {
            mean: Pence(30_000),
            low: Pence(30_000),
            well: Pence(0),
            median: Pence(30_000),
            high: Pence(30_000),
            curve: engine::assessment::Curve::default(),
            dearer: Vec::new(),
        });
    });
    assert!(least.contains("No job is charged at less than"), "{least}");
    let elsewhere = of(|assessment| {
        assessment.figures.load_limit = false;
        assessment.figures.limit = None;
        assessment.work[0].set_at = vec![Amps::of(60.0)];
        assessment.alternatives = vec![Alternative {
            design: Otherwise::WithoutLimit,
            outcome: Outcome::AskFirst,
            current: Amps::of(32.0),
            maximum_demand: Amps::of(63.0),
            headroom: Amps::of(63.0).headroom_under(Amps::of(100.0)),
            elsewhere: Some(Probability::of(0.3)),
            outcomes: Vec::new(),
        }];
    });
    for part in ["not in the likeliest. In the likeliest of those:", "in others held at 60 A, as the bill has it"] {
        assert!(elsewhere.contains(part), "{part} in {elsewhere}");
    }
}

#[test]
fn headings_go_down_one_step_at_a_time() {
    let html = enquiry(|_| opened());
    let mut last = 0;
    for at in html.match_indices("<h").map(|(at, _)| at) {
        let Some(level) = html[at + 2..].chars().next().and_then(|c| c.to_digit(10)) else { continue };
        assert!(level <= last + 1, "h{level} after h{last}");
        last = level;
    }
    assert_eq!(html.matches("<h1").count(), 1);
}

#[test]
fn look_first_shows_no_price_anywhere() {
    let html = enquiry(|_| {
        let mut detail = sample::detail();
        let mut assessment = detail.assessment().unwrap().clone();
        assessment.complexity = Complexity::LookFirst;
        (assessment.band, assessment.no_band) = (None, Some(NoBand::LookFirst));
        (assessment.work, assessment.open, assessment.grants) = (Vec::new(), Vec::new(), Vec::new());
        detail.own_assessment = Some(assessment);
        vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(detail))]
    });
    assert!(text(&html).contains("Something must be looked at first."));
    assert!(!html.contains('£'), "{html}");
}

/// The text of the sample page without a price, for this reason.
fn without_a_price(why: NoBand) -> String {
    enquiry(move |_| {
        let mut detail = sample::detail();
        let mut assessment = detail.assessment().unwrap().clone();
        (assessment.band, assessment.no_band, assessment.estimate) = (None, Some(why), None);
        assert!(!assessment.work.is_empty());
        detail.own_assessment = Some(assessment);
        vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(detail))]
    })
}

#[test]
fn one_without_a_price_has_no_bill_and_says_why() {
    let html = without_a_price(NoBand::RatesNotConfirmed);
    assert!(text(&html).contains("Without a price there is no bill. Your rates are not confirmed yet"));
    assert!(!html.contains("<tfoot"), "{html}");
    assert!(html.contains("van-title") && html.contains("class=\"plan\""), "what is known is still shown");
}

#[test]
fn one_of_which_nearly_nothing_was_said_has_no_plan_and_no_list_for_the_van_either() {
    let html = without_a_price(NoBand::TooLittleSaid);
    assert!(text(&html).contains("Too little was said for a price, a plan of the cable or a list for the van."));
    assert!(!html.contains("<tfoot") && !html.contains("van-title") && !html.contains("class=\"plan\""), "{html}");
}

/// The assessment of a home with enough answers for a price.
fn priced() -> Assessment {
    let json = r#"{"hazard":{"signs":[]},"home":{"kind":"detached"},"parking":{"place":"drive"},"route":{"length":"not-sure"}}"#;
    engine::assess(&serde_json::from_str(json).unwrap(), &model::config::demo_config())
}

#[test]
fn what_a_visitor_sees_in_place_of_the_band_is_said_beside_it() {
    use model::config::{Config, PriceShown, PricesShown, demo_config};
    let with = |shown: PriceShown| {
        let html = enquiry(move |_| {
            let config = Config { prices_shown: PricesShown::all(shown), ..demo_config() };
            let mut detail = sample::detail();
            let mut assessment = detail.assessment().unwrap().clone();
            assessment.estimate = priced().estimate;
            detail.own_assessment = Some(assessment);
            vec![
                Action::SessionKnown(Some(sample::owner())),
                Action::DetailCame(Box::new(detail)),
                Action::ConfigCame(Box::new(config)),
            ]
        });
        text(&html)
    };
    assert!(with(PriceShown::From).contains("By your setup a visitor sees “from £"));
    assert!(with(PriceShown::Nothing).contains("sees no price for such a job"));
    assert!(!with(PriceShown::Band).contains("By your setup"));
}

#[test]
fn assessments_that_differ_are_both_named() {
    let html = enquiry(|_| {
        let mut detail = sample::detail();
        detail.agreement = Agreement::Different;
        detail.enquiry.payload.assessment.as_mut().unwrap().complexity = Complexity::Straightforward;
        vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(detail))]
    });
    let text = text(&html);
    assert!(text.contains("The homeowner saw: Straightforward"));
    assert!(text.contains("This service: Depends on others"));
}

#[test]
fn one_sent_without_a_result_shows_the_services_and_says_so() {
    let html = enquiry(|_| {
        let mut detail = sample::detail();
        (detail.agreement, detail.enquiry.payload.assessment) = (Agreement::NotCompared, None);
        vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(detail))]
    });
    let text = text(&html);
    assert!(text.contains("before its own result") && text.contains("£1,400 to £3,100"));
    assert!(!text.contains("The homeowner saw"));
}

#[test]
fn one_that_nobody_could_assess_still_shows_what_was_said() {
    let html = enquiry(|_| {
        let mut detail = sample::detail();
        (detail.own_assessment, detail.enquiry.payload.assessment) = (None, None);
        vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(detail))]
    });
    let text = text(&html);
    for part in
        ["The program gave up on these answers", "Invented Person", "8 paces", "1 of 2 photos", "Mark as handled"]
    {
        assert!(text.contains(part), "{part} in {text}");
    }
    assert!(!html.contains('£'));
}

#[test]
fn a_correction_shows_what_it_changed_and_that_it_is_not_stored() {
    let html = enquiry(|_| {
        let mut actions = opened();
        let answers = Rc::new(model::answers::Answers::default());
        let mut after = sample::detail().assessment().unwrap().clone();
        after.band = after.band.map(|mut band| {
            band.high = model::units::Pence(250_000);
            band
        });
        actions.extend([
            Action::Corrected("tenure", answers.clone()),
            Action::Reassessed(answers, Rc::new(after)),
            Action::NotStored(Trouble::Unreachable),
        ]);
        actions
    });
    let text = text(&html);
    for part in ["£1,400 to £3,100", "£1,400 to £2,500", "is not stored yet", "Try again"] {
        assert!(text.contains(part), "{part} in {text}");
    }
}

#[test]
fn an_open_control_fits_its_question() {
    for (id, tag) in [
        ("home", "<select"),
        ("hazard", "type=\"checkbox\""),
        ("route-length", "inputmode=\"decimal\""),
        ("route-stretches", "Stretch 1: Split"),
    ] {
        let html = enquiry(move |_| {
            let mut actions = opened();
            actions.push(Action::CorrectionOpened(Some(id)));
            actions
        });
        let form = html.split("class=\"correct\"").nth(1).expect("the control is open");
        assert!(form.contains(tag), "{id}: {form}");
        assert!(text(form).contains("Not sure"));
    }
}

#[test]
fn without_the_config_nothing_can_be_corrected_and_the_page_says_why() {
    let html =
        enquiry(|_| vec![Action::SessionKnown(Some(sample::owner())), Action::DetailCame(Box::new(sample::detail()))]);
    assert!(text(&html).contains("can’t be corrected just now"));
    assert!(!html.contains("id=\"correct-home\""));
}

#[test]
fn an_enquiry_that_is_gone_is_said_and_not_tried_again() {
    let html = enquiry(|key| {
        vec![Action::SessionKnown(Some(sample::owner())), Action::DetailFailed(key.to_owned(), Trouble::NotFound)]
    });
    assert!(text(&html).contains("There is no such enquiry"));
    assert!(!text(&html).contains("Try again"));
}

#[test]
fn the_working_is_made_when_it_is_unfolded() {
    let rendered = |unfolded: bool| {
        shown::<WorkingView>(move || WorkingProps {
            answers: Rc::new(sample::detail().answers().clone()),
            config: Some(Rc::new(model::config::demo_config())),
            unfolded,
        })
    };
    assert!(!text(&rendered(false)).contains("Source:"));
    let open = text(&rendered(true));
    for part in ["Voltage drop", "How: sum over the stretches", "Source: BS 7671", "(a copy or quotation of it)"] {
        assert!(open.contains(part), "{part} in {open}");
    }
}

#[test]
fn a_photo_opens_with_its_marks() {
    let html = shown::<PhotoView>(|| {
        let mut detail = sample::detail();
        let sha256 = detail.enquiry.payload.photos[0].sha256.clone();
        let half = model::units::Probability::of(0.5);
        detail.enquiry.payload.photos[0].marks =
            vec![record::enquiry::Mark { across: half, down: half, says: "here".into() }];
        PhotoProps { detail: Rc::new(detail), sha256 }
    });
    assert!(html.contains("cx=\"400\"") && html.contains("cy=\"300\""));
    assert!(text(&html).contains("Photo 1: meter and service head"));
    assert!(photo_address("k", "p").ends_with("/k/photo/p"));
}

#[test]
fn a_wrong_password_is_tied_to_its_field() {
    let html = shown::<SignInView>(|| SignInProps {
        busy: false,
        trouble: Some(Trouble::WrongPassword),
        expired: false,
        code: false,
        name: "owner".into(),
        on_sign_in: Callback::noop(),
    });
    assert!(html.contains("aria-describedby=\"password-error\"") && html.contains("id=\"password-error\""));
    assert!(html.contains("aria-invalid=\"true\""));
    assert!(html.contains("value=\"owner\"") && !html.contains("id=\"code\""));
}

#[test]
fn a_wrong_code_is_tied_to_its_field_and_a_wrong_password_to_its_own_all_the_same() {
    let page = |trouble| {
        shown::<SignInView>(move || SignInProps {
            busy: false,
            trouble,
            expired: false,
            code: true,
            name: "sam".into(),
            on_sign_in: Callback::noop(),
        })
    };
    let html = page(None);
    assert!(html.contains("aria-describedby=\"code-hint\"") && !html.contains("aria-invalid"), "{html}");
    assert!(html.contains("inputmode=\"numeric\"") && html.contains("autocomplete=\"one-time-code\""));
    let html = page(Some(Trouble::WrongCode));
    assert!(html.contains("aria-describedby=\"code-error code-hint\"") && html.contains("id=\"code-error\""));
    assert!(!html.contains("password-error"));
    let html = page(Some(Trouble::WrongPassword));
    assert!(html.contains("id=\"password-error\"") && !html.contains("code-error"));
}

#[test]
fn what_only_an_owner_may_do_is_not_offered_to_a_colleague() {
    let page = |who: SignedIn| {
        enquiry(move |_| vec![Action::SessionKnown(Some(who)), Action::DetailCame(Box::new(sample::detail()))])
    };
    let owners = page(sample::owner());
    assert!(owners.contains("id=\"delete\"") && owners.contains("/export\""));
    let colleagues = page(sample::colleague());
    assert!(!colleagues.contains("id=\"delete\"") && !colleagues.contains("/export\""));
    assert!(text(&colleagues).contains("Only an owner"));
}

#[test]
fn beside_a_landlords_agreement_stands_the_landlords_own_grant() {
    let page = |tenure: Tenure| {
        text(&enquiry(move |_| {
            let mut detail = sample::detail();
            detail.enquiry.payload.answers.home.tenure = Answer::Known(tenure);
            let assessment = detail.own_assessment.as_mut().unwrap();
            assessment.as_of = jiff::civil::date(2026, 11, 1);
            assessment.owed = vec![Obligation {
                to: OwedTo::Landlord,
                when: OwedWhen::BeforeBooking,
                days: None,
                probability: model::units::Probability::CERTAIN,
                asked: None,
                way: "agree".into(),
                needs: Vec::new(),
                source: "invented".into(),
            }];
            let came = Action::DetailCame(Box::new(detail));
            opened().into_iter().take(2).chain([came]).collect()
        }))
    };
    let rented = page(Tenure::Rent);
    assert!(rented.contains("Whoever lets the home may apply for up to £500"), "{rented}");
    assert!(rented.contains("approved before the work begins and paid after"), "{rented}");
    assert!(!page(Tenure::Lease).contains("Whoever lets the home"));
}

#[test]
fn what_was_asked_reads_with_its_dates_and_is_overdue_by_the_pages_own_day() {
    let on = |day| Some(jiff::civil::date(2026, 7, day));
    let page = |asked: Asked| {
        text(&enquiry(move |_| {
            let mut detail = sample::detail();
            let assessment = detail.own_assessment.as_mut().unwrap();
            assessment.owed = vec![Obligation {
                to: OwedTo::NetworkOperator,
                when: OwedWhen::BeforeBooking,
                days: None,
                probability: model::units::Probability::CERTAIN,
                asked: Some(asked),
                way: "ask".into(),
                needs: vec![Need {
                    what: "main-fuse".into(),
                    value: None,
                    alternatives: vec!["80 A".into(), "60 A".into()],
                    known_by: None,
                }],
                source: "invented".into(),
            }];
            let came = Action::DetailCame(Box::new(detail));
            opened().into_iter().take(2).chain([came]).collect()
        }))
    };
    // The sample's day is 14 July 2026.
    let waiting = page(Asked { on: on(1), usually_by: on(15), answered: None });
    assert!(waiting.contains("asked on 1 July 2026; an answer usually by 15 July 2026"), "{waiting}");
    assert!(
        !waiting.contains("overdue") && waiting.contains("main fuseleft empty: it may be 80 A or 60 A"),
        "{waiting}"
    );
    assert!(page(Asked { on: on(1), usually_by: on(13), answered: None }).contains("overdue"));
    let answered = page(Asked { on: on(1), usually_by: on(13), answered: on(10) });
    assert!(answered.contains("asked on 1 July 2026; answered on 10 July 2026"), "{answered}");
    assert!(!answered.contains("overdue") && !answered.contains("correct the day"));
    let before = page(Asked { on: on(10), usually_by: None, answered: on(9) });
    assert!(before.contains("answered on 9 July 2026; answered before it was asked"), "{before}");
    assert!(!before.contains("dated after today"));
    let today = page(Asked { on: on(14), usually_by: None, answered: on(14) });
    assert!(!today.contains("correct the day"), "{today}");
    for to_come in
        [Asked { on: on(15), usually_by: None, answered: None }, Asked { on: None, usually_by: None, answered: on(15) }]
    {
        assert!(page(to_come).contains("dated after today"));
    }
}
