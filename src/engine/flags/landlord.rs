//! Somebody else owns the home, or has a say in it.
//!
//! **Seen:** they rent, hold a lease, or own a flat.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::site::{Nation, agreements, nation};
use model::answers::{Answer, HomeKind, Tenure};
use model::terms::Gatekeeper;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "landlord", weight: Weight::SettleBeforeBooking, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"tenure": "rent"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.home.tenure {
        Answer::Known(Tenure::Rent | Tenure::Lease) => {}
        // In Scotland there is no freeholder: that flat has a flag of its own.
        Answer::Known(Tenure::Own)
            if seen.answers.home.kind.is(HomeKind::Flat) && nation(seen.answers) != Nation::Scotland => {}
        Answer::Known(Tenure::Own) | Answer::NotSure | Answer::NotAsked => return None,
    }
    let agreement = agreements(seen.answers).into_iter().find(|agreement| agreement.who == Gatekeeper::Landlord)?;
    if_likely(agreement.probability, agreement.why)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, HomeKind, ParkingPlace, Tenure};
    use model::units::Probability;

    #[test]
    fn raised_by_renting() {
        let evidence = raised(&FLAG, |answers| answers.home.tenure = Answer::Known(Tenure::Rent)).unwrap();
        assert_eq!(evidence.seen, ["they rent: the landlord agrees in writing first"]);
        assert_eq!(evidence.probability, Probability::CERTAIN);
    }

    #[test]
    fn raised_with_less_certainty_by_an_owned_flat() {
        let evidence = raised(&FLAG, |answers| {
            answers.home.tenure = Answer::Known(Tenure::Own);
            answers.home.kind = Answer::Known(HomeKind::Flat);
        })
        .unwrap();
        assert!(evidence.probability < Probability::CERTAIN);
    }

    #[test]
    fn quiet_for_an_owned_house_with_a_bay_elsewhere() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.tenure = Answer::Known(Tenure::Own);
                answers.parking.place = Answer::Known(ParkingPlace::SharedCarPark);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_tenure_is_no_landlord() {
        assert_eq!(raised(&FLAG, |answers| answers.home.tenure = Answer::NotSure), None);
    }
}
