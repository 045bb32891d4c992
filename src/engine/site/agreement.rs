//! Who else must agree or act, apart from the network operator and the supplier: inferred from home, parking and route.

use super::nation::{Nation, nation};
use alloc::vec::Vec;
use model::answers::{Answer, Answers, Ground, HomeKind, MeterPlace, ParkingPlace, Protected, Tenure};
use model::terms::Gatekeeper;
use model::units::Probability;

/// One agreement that is, or may be, needed. Its probability, where it is not certain: common practice, no source.
#[derive(Clone, Debug, PartialEq)]
pub struct Agreement {
    /// Who must agree.
    pub who: Gatekeeper,
    /// The probability that it is needed.
    pub probability: Probability,
    /// Why, in the installer's words.
    pub why: &'static str,
    /// The questions it rests on.
    pub from: &'static [&'static str],
}

/// There is no freeholder in Scotland. From memory: Tenements (Scotland) Act 2004.
const CO_OWNERS: &str = "a flat in Scotland: the co-owners of the building, or their factor, agree first";

/// Every agreement that may be needed. The probabilities, where not certain: common practice, no source.
#[must_use]
pub fn agreements(answers: &Answers) -> Vec<Agreement> {
    let mut all = Vec::new();
    let mut add = |who, probability: f64, why, from: &'static [&'static str]| {
        all.push(Agreement { who, probability: Probability::of(probability), why, from });
    };

    let scottish = nation(answers) == Nation::Scotland;
    match answers.home.tenure {
        Answer::Known(Tenure::Rent) => {
            add(Gatekeeper::Landlord, 1.0, "they rent: the landlord agrees in writing first", &["tenure"])
        }
        Answer::Known(Tenure::Lease) => {
            add(Gatekeeper::Landlord, 1.0, "a lease: the freeholder agrees in writing first", &["tenure"])
        }
        Answer::Known(Tenure::Own) if answers.home.kind.is(HomeKind::Flat) && scottish => {
            add(Gatekeeper::Landlord, 0.8, CO_OWNERS, &["tenure"]);
        }
        Answer::NotSure | Answer::NotAsked if answers.home.kind.is(HomeKind::Flat) && scottish => {
            add(Gatekeeper::Landlord, 0.9, CO_OWNERS, &["tenure"]);
        }
        Answer::Known(Tenure::Own) if answers.home.kind.is(HomeKind::Flat) => {
            add(Gatekeeper::Landlord, 0.8, "a flat: whoever owns the building most likely has a say", &["tenure"]);
        }
        Answer::Known(Tenure::Own) => {}
        Answer::NotSure | Answer::NotAsked if answers.home.kind.is(HomeKind::Flat) => {
            add(Gatekeeper::Landlord, 0.9, "a flat, and not known whether they own it", &["tenure"]);
        }
        Answer::NotSure | Answer::NotAsked => {
            add(Gatekeeper::Landlord, 0.2, "not known whether they own the home", &["tenure"])
        }
    }
    if answers.meter.place.is(MeterPlace::Communal) {
        add(Gatekeeper::Landlord, 0.7, "the meter is in a shared room: whoever manages it lets the installer in", &[]);
    }
    match answers.parking.place {
        Answer::Known(ParkingPlace::SharedCarPark) => {
            add(Gatekeeper::Landlord, 0.9, "a bay in a shared car park: whoever manages it agrees first", &["parking"]);
        }
        Answer::Known(ParkingPlace::Street) => {
            add(
                Gatekeeper::HighwayAuthority,
                1.0,
                "street parking: only an authorised channel crosses a footway",
                &["parking"],
            );
        }
        Answer::NotSure => add(Gatekeeper::HighwayAuthority, 0.1, "not known where the car stands", &["parking"]),
        Answer::Known(_) | Answer::NotAsked => {}
    }
    match answers.route.ground {
        Answer::Known(Ground::Shared) => {
            add(Gatekeeper::Neighbour, 1.0, "the route crosses shared ground", &["ground"])
        }
        Answer::Known(Ground::Others) => {
            add(Gatekeeper::Neighbour, 1.0, "the route crosses somebody else's ground", &["ground"])
        }
        Answer::Known(Ground::Footway) => {
            add(Gatekeeper::HighwayAuthority, 1.0, "the route crosses a public footway", &["ground"]);
        }
        Answer::NotSure => add(Gatekeeper::Neighbour, 0.2, "not known whose ground the route crosses", &["ground"]),
        Answer::Known(Ground::Own) | Answer::NotAsked => {}
    }
    if answers.parking.shared_drive.is(true) && !matches!(answers.route.ground, Answer::Known(Ground::Own)) {
        add(Gatekeeper::Neighbour, 0.6, "the drive is shared", &["ground"]);
    }
    match answers.home.protected {
        Answer::Known(Protected::Listed) => {
            add(Gatekeeper::Planner, 1.0, "a listed building: consent before anything is fixed", &["protected"])
        }
        Answer::Known(Protected::ConservationArea) => {
            add(Gatekeeper::Planner, 0.2, "a conservation area: ask whether consent is needed", &["protected"])
        }
        Answer::NotSure => add(Gatekeeper::Planner, 0.05, "not known whether the home is protected", &["protected"]),
        Answer::Known(Protected::Neither) | Answer::NotAsked => {}
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_owned_house_with_a_drive_needs_nobody() {
        let mut answers = Answers::default();
        answers.home.tenure = Answer::Known(Tenure::Own);
        answers.home.kind = Answer::Known(HomeKind::Detached);
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        assert_eq!(agreements(&answers), []);
    }

    #[test]
    fn in_a_scottish_flat_the_co_owners_or_a_factor_agree() {
        let mut answers = Answers::default();
        answers.home.kind = Answer::Known(HomeKind::Flat);
        for tenure in [Answer::Known(Tenure::Own), Answer::NotSure] {
            answers.home.tenure = tenure;
            for (postcode, factor) in [("EH1", true), ("ZZ1", false)] {
                answers.home.postcode = Answer::Known(model::answers::Postcode::new(postcode).unwrap());
                let all = agreements(&answers);
                let own = all.iter().find(|one| one.who == Gatekeeper::Landlord).unwrap();
                assert_eq!(own.why.contains("factor"), factor, "{postcode}: {}", own.why);
            }
        }
    }

    #[test]
    fn not_sure_never_takes_a_gate_away() {
        let landlord = |kind, tenure| {
            let mut answers = Answers::default();
            answers.home.kind = Answer::Known(kind);
            answers.home.tenure = tenure;
            agreements(&answers).iter().find(|one| one.who == Gatekeeper::Landlord).map(|one| one.probability.get())
        };
        for kind in [HomeKind::Detached, HomeKind::Flat] {
            assert!(landlord(kind, Answer::NotSure) >= landlord(kind, Answer::Known(Tenure::Own)), "{kind:?}");
        }
        let mut answers = Answers::default();
        let before = agreements(&answers).len();
        answers.home.tenure = Answer::NotSure;
        answers.home.protected = Answer::NotSure;
        answers.route.ground = Answer::NotSure;
        assert!(agreements(&answers).len() >= before);
    }

    #[test]
    fn not_known_who_owns_it_weighs_more_in_a_flat() {
        let landlord = |kind: Answer<HomeKind>| {
            let answers = Answers { home: model::answers::Home { kind, ..Default::default() }, ..Answers::default() };
            let all = agreements(&answers);
            all.iter().find(|one| one.who == Gatekeeper::Landlord).map(|one| one.probability.get())
        };
        assert_eq!(landlord(Answer::Known(HomeKind::Flat)), Some(0.9));
        assert_eq!(landlord(Answer::Known(HomeKind::Terrace)), Some(0.2));
        assert_eq!(landlord(Answer::NotSure), Some(0.2));
    }
}
