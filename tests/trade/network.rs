//! Network operator. Sources of the thresholds: Energy Networks Association, application form for low-carbon technologies (60 A,
//! 28 days); EREC G98 (16 A a phase).

use super::{chosen, count, counts, gate, has, home, home_under, is_asked, quiet, without_sensing};
use jiff::civil::date;
use presurvey::Assessment;
use presurvey::answers::{Answer, Answers, HazardPlace, HazardSign, OperatorAnswer, OtherPoint, ServiceEquipment, Set};
use presurvey::assessment::{Gatekeeper, OwedTo, OwedWhen, Reason};
use presurvey::config::demo_config;
use presurvey::design::Outcome;
use presurvey::design::network::Otherwise;
use presurvey::units::{Amps, Kilowatts};

fn asked(say: impl FnOnce(&mut Answers)) -> Assessment {
    home_under(&without_sensing(), |answers| {
        quiet(answers);
        say(answers);
    })
}

fn why(assessment: &Assessment) -> String {
    gate(assessment, Gatekeeper::NetworkOperator).map_or_else(String::new, |gate| gate.why.join("; "))
}

/// Three outcomes, each with its reasons and its usual wait; what is told afterwards is told within 28 days.
#[test]
fn three_outcomes_each_with_its_reasons_and_wait() {
    let told = asked(|_| {});
    assert_eq!(chosen(&told, "network"), "notify-after");
    let owed = told.owed.iter().rfind(|owed| owed.to == OwedTo::NetworkOperator).unwrap();
    assert_eq!((owed.when, owed.days), (OwedWhen::DaysAfter, Some(28)));

    let first = asked(|answers| answers.loads.other_point = Answer::Known(OtherPoint::Kept));
    let visit = asked(|answers| answers.meter.equipment = Answer::Known(ServiceEquipment::InDoubt));
    let upgrade = asked(|answers| {
        answers.loads.showers = count(1);
        answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
    });
    let works = asked(|answers| answers.meter.head_conductors = count(4));
    let mut waits = Vec::new();
    for (seen, outcome, on_paper) in [
        (&first, "ask-first", true),
        (&visit, "ask-first-works-likely", false),
        (&upgrade, "ask-first-works-likely", false),
        (&works, "ask-first-works-likely", false),
    ] {
        let gate = gate(seen, Gatekeeper::NetworkOperator).unwrap();
        assert!((gate.counts, gate.on_paper) == (!on_paper, on_paper), "what is answered on paper is no gate");
        assert!(!gate.why.is_empty() && !gate.wait.is_empty() && !gate.wait_source.is_empty());
        assert_eq!(chosen(seen, "network"), outcome);
        assert!(!waits.contains(&gate.wait), "each has its own wait: {}", gate.wait);
        waits.push(gate.wait.clone());
    }
    assert!(
        !first.reasons.contains(&Reason::SomebodyElseFirst) && first.settle.contains(&"second-charge-point".into())
    );
    assert!(works.reasons.contains(&Reason::SomebodyElseFirst));
}

/// Every reason to ask first, one after the other, from a home that gives none.
#[test]
fn each_reason_alone_asks_first() {
    assert!(!is_asked(&asked(|_| {}), Gatekeeper::NetworkOperator));
    type Said = fn(&mut Answers);
    let reasons: [(&str, Said); 10] = [
        ("looped", |answers| answers.meter.street_cables = count(2)),
        ("over the main fuse", |answers| {
            answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
            answers.loads.showers = count(1);
        }),
        ("over what may be told afterwards", |answers| answers.loads.showers = count(1)),
        ("damaged", |answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::MeltedPlastic]));
            answers.hazard.place = Answer::Known(HazardPlace::ServiceHead);
        }),
        ("damaged", |answers| answers.meter.equipment = Answer::Known(ServiceEquipment::InDoubt)),
        ("still not known", |answers| answers.meter.equipment = Answer::NotSure),
        ("more than one charge point", |answers| answers.loads.other_point = Answer::Known(OtherPoint::Kept)),
        ("generation", |answers| {
            answers.loads.solar = Answer::Known(true);
            answers.loads.solar_power = Answer::Known(Kilowatts::of(5.0));
            answers.loads.operator_letter = Answer::Known(false);
        }),
        ("operators' list", |answers| answers.wish.bought = Answer::Known(true)),
        ("damaged", |answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Tingle]));
            answers.hazard.place = Answer::Known(HazardPlace::Elsewhere);
        }),
    ];
    for (reason, say) in reasons {
        let seen = asked(say);
        assert!(is_asked(&seen, Gatekeeper::NetworkOperator), "{reason}");
        assert!(why(&seen).contains(reason), "{reason}: {}", why(&seen));
    }
}

/// Service equipment that the installer found sound is no reason, nor is one that nobody has looked at yet.
#[test]
fn sound_service_equipment_is_no_reason() {
    for equipment in [Answer::Known(ServiceEquipment::Sound), Answer::NotAsked] {
        assert!(!is_asked(&asked(|answers| answers.meter.equipment = equipment), Gatekeeper::NetworkOperator));
    }
    let looked = |answer| {
        asked(|answers| {
            answers.meter.equipment = Answer::NotSure;
            answers.operator.answer = answer;
        })
    };
    assert_eq!(chosen(&looked(Answer::NotAsked), "network"), "ask-first-works-likely", "somebody comes to look");
    assert!(!is_asked(&looked(Answer::Known(OperatorAnswer::Accepted)), Gatekeeper::NetworkOperator), "it was asked");
}

/// Accepted existing generation with a charge point that can't export is no reason; sixteen amperes a phase are not beyond it.
#[test]
fn accepted_generation_is_no_reason() {
    let solar = |power: f64, letter| {
        let seen = asked(|answers| {
            answers.loads.solar = Answer::Known(true);
            answers.loads.solar_power = Answer::Known(Kilowatts::of(power));
            answers.loads.operator_letter = Answer::Known(letter);
        });
        is_asked(&seen, Gatekeeper::NetworkOperator)
    };
    assert!(!solar(6.0, true), "accepted");
    assert!(!solar(3.68, false), "16 A at 230 V");
    assert!(solar(3.7, false));
}

/// Where an accepted load limit brings the demand under the thresholds, that is the design taken; the other is shown beside it.
#[test]
fn a_load_limit_is_the_design_taken_and_the_other_is_beside_it() {
    let busy = |answers: &mut Answers| {
        quiet(answers);
        answers.loads.showers = count(1);
        answers.loads.shower_power = Answer::Known(Kilowatts::of(9.5));
    };
    let taken = home(busy);
    assert!(taken.figures.load_limit && taken.figures.maximum_demand <= Amps::of(60.0));
    assert_eq!(chosen(&taken, "network"), "notify-after");
    let without = taken.alternatives.iter().find(|other| other.design == Otherwise::WithoutLimit).unwrap();
    assert_ne!(without.outcome, Outcome::NotifyAfter);
    assert!(without.maximum_demand > Amps::of(60.0));
    let asked = home_under(&without_sensing(), busy);
    assert!(chosen(&asked, "network").starts_with("ask-first") && !asked.figures.load_limit, "no scheme, no limit");
}

/// What the operator's form will ask is filled in, gaps and what is not settled marked.
#[test]
fn the_operators_form_is_filled_in_with_its_gaps_marked() {
    let seen = home(quiet);
    let form = seen.owed.iter().find(|owed| owed.to == OwedTo::NetworkOperator && !owed.needs.is_empty()).unwrap();
    let need = |what: &str| form.needs.iter().find(|need| need.what == what).unwrap();
    assert_eq!(need("points").value.as_deref(), Some("no"), "known");
    assert!(need("supply-number").value.is_none() && need("supply-number").alternatives.is_empty(), "a gap");
    assert!(need("main-fuse").value.is_none() && need("main-fuse").alternatives.len() > 1, "not settled");
    for need in &form.needs {
        assert!(need.value.is_none() || need.alternatives.is_empty(), "{}: both a value and others", need.what);
    }
}

/// Asked for, dated, waited for and recorded: the answer changes the design.
#[test]
fn the_operators_answer_changes_the_design() {
    let with = |answer| {
        home(|answers| {
            answers.meter.fuse_carriers = count(1);
            answers.meter.head_conductors = count(4);
            answers.operator.answer = Answer::Known(answer);
        })
    };
    for accepted in [OperatorAnswer::Separated, OperatorAnswer::LeftAsItIs] {
        assert_eq!(chosen(&with(accepted), "network"), "notify-after", "{accepted:?}");
    }
    let refused = with(OperatorAnswer::Refused);
    assert!(has(&refused, "operator-refused") && counts(&refused, Gatekeeper::NetworkOperator));
    let limited = home_under(&demo_config(), |answers| {
        quiet(answers);
        answers.operator.answer = Answer::Known(OperatorAnswer::Limited);
        answers.operator.limit = Answer::Known(Amps::of(40.0));
    });
    assert!(limited.figures.maximum_demand <= Amps::of(40.0) && has(&limited, "operators-limit"));
}

/// An answer dated before the day of asking is queried by name; what was recorded arrives, and counts until it is corrected.
#[test]
fn an_answer_older_than_the_question_is_queried_and_still_arrives() {
    let answered = |day| {
        home(|answers| {
            quiet(answers);
            answers.loads.other_point = Answer::Known(OtherPoint::Kept);
            answers.operator.asked_on = Answer::Known(date(2026, 3, 10));
            answers.operator.answer = Answer::Known(OperatorAnswer::Accepted);
            answers.operator.answered_on = Answer::Known(date(2026, 3, day));
        })
    };
    let before = answered(9);
    let flag = super::flag(&before, "operator-dates-disagree").unwrap();
    assert_eq!(flag.evidence, ["asked on 2026-03-10, but answered on 2026-03-09"]);
    assert_eq!(chosen(&before, "network"), "notify-after");
    let dated = before.owed.iter().find_map(|owed| owed.asked).unwrap();
    assert!(dated.is_answered_before_asked() && dated.on.is_some() && dated.answered.is_some());
    assert!(!has(&answered(10), "operator-dates-disagree"), "on the same day it may");
}
