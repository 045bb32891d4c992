//! Before and after.

use super::{home, quiet};
use presurvey::answers::{Answer, Postcode, Protected, Tenure};
use presurvey::assessment::{OwedTo, OwedWhen};

/// Certificate, building control, network operator, planning where listed, handover: each a dated line with what it needs.
#[test]
fn each_body_is_owed_its_own_with_what_it_needs() {
    let seen = home(|answers| {
        answers.home.tenure = Answer::Known(Tenure::Rent);
        answers.home.protected = Answer::Known(Protected::Listed);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
    });
    for (to, when) in [
        (OwedTo::Landlord, OwedWhen::BeforeBooking),
        (OwedTo::Planner, OwedWhen::BeforeBooking),
        (OwedTo::BuildingControl, OwedWhen::DaysAfter),
        (OwedTo::Certificate, OwedWhen::OnCompletion),
        (OwedTo::NetworkOperator, OwedWhen::DaysAfter),
        (OwedTo::Handover, OwedWhen::OnCompletion),
    ] {
        let owed = seen.owed.iter().rfind(|owed| owed.to == to).unwrap_or_else(|| panic!("nothing is owed to {to:?}"));
        assert_eq!(owed.when, when, "{to:?}");
        assert!(!owed.source.is_empty(), "{to:?}");
        assert_eq!(owed.days.is_some(), when == OwedWhen::DaysAfter, "{to:?}");
    }
    for owed in seen.owed.iter().filter(|owed| owed.to != OwedTo::NetworkOperator) {
        assert!(!owed.needs.is_empty(), "{:?}", owed.to);
    }
    let order: Vec<OwedWhen> = seen.owed.iter().map(|owed| owed.when).collect();
    assert_eq!(order[0], OwedWhen::BeforeBooking, "in the order of the work");
    assert_eq!(order.last(), Some(&OwedWhen::OnCompletion));
}

/// A scheme within 30 days after (Building Regulations 2010, regulation 20, from memory); Scotland its own way, before the work.
#[test]
fn building_control_has_its_days_and_each_nation_its_way() {
    let control = |postcode: &str| {
        let seen = home(|answers| answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap()));
        let owed = seen.owed.into_iter().find(|owed| owed.to == OwedTo::BuildingControl).unwrap();
        (owed.way, owed.when, owed.days)
    };
    assert_eq!(control("ZZ1"), ("england".into(), OwedWhen::DaysAfter, Some(30)));
    assert_eq!(control("CF1"), ("wales".into(), OwedWhen::DaysAfter, Some(30)));
    assert_eq!(control("EH1"), ("scotland".into(), OwedWhen::BeforeWork, None));
}

/// Where nothing is protected nobody is asked to plan.
#[test]
fn a_plain_home_owes_the_planner_nothing() {
    let plain = home(|answers| {
        quiet(answers);
        answers.home.tenure = Answer::Known(Tenure::Own);
        answers.home.protected = Answer::Known(Protected::Neither);
    });
    assert!(plain.owed.iter().all(|owed| !matches!(owed.to, OwedTo::Planner | OwedTo::Landlord)));
}
