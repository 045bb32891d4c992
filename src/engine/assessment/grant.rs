//! Grants that the homeowner may apply for, by the answers and the day. They are listed beside the price and never silently taken off it.

use super::types::{Band, MayApply, NoBand};
use alloc::vec::Vec;
use jiff::civil::Date;
use model::answers::{Answers, HomeKind, ParkingPlace, Tenure};
use model::config::{Config, GrantFor, within};

/// The grants that may be applied for. Nothing is promised on a question that was not answered; where something must be looked at first, or
/// outside the area, no sum is named.
#[must_use]
pub fn may_apply(
    answers: &Answers,
    config: &Config,
    day: Date,
    band: Option<&Band>,
    no_band: Option<NoBand>,
) -> Vec<MayApply> {
    if matches!(no_band, Some(NoBand::LookFirst | NoBand::OutsideArea)) {
        return Vec::new();
    }
    let of_day = config.grants.iter().filter(|grant| within(day, grant.from, grant.until));
    of_day
        .filter_map(|grant| {
            let who = grant.who.iter().copied().find(|who| is_for(*who, answers))?;
            Some(MayApply {
                name: grant.name.clone(),
                who,
                most: grant.most,
                likely_after: band.map(|band| band.likely - grant.of(band.likely)),
                read: grant.read,
                source: grant.source.clone(),
            })
        })
        .collect()
}

fn is_for(who: GrantFor, answers: &Answers) -> bool {
    let street = answers.parking.place.is(ParkingPlace::Street);
    match who {
        GrantFor::FlatOrRented => {
            !street && (answers.home.kind.is(HomeKind::Flat) || answers.home.tenure.is(Tenure::Rent))
        }
        GrantFor::StreetWithCrossing => street,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::assess;
    use jiff::civil::date;
    use model::answers::Answer::Known;
    use model::answers::Set;
    use model::config::demo_config;
    use model::units::Pence;

    fn rented(day: Date) -> Answers {
        let mut answers = Answers { as_of: Some(day), ..Answers::default() };
        answers.hazard.signs = Known(Set::NONE);
        answers.home.tenure = Known(Tenure::Rent);
        answers.parking.place = Known(ParkingPlace::Drive);
        answers.home.kind = Known(HomeKind::Terrace);
        answers.route.length = model::answers::NotSure;
        answers
    }

    /// Up to £350 to 31 March 2026, up to £500 for the year after. Source: electrical reference, section 14, as reported.
    #[test]
    fn the_day_chooses_the_grant_and_none_is_taken_off_the_band() {
        for (day, most) in [
            (date(2026, 3, 31), Some(35_000)),
            (date(2026, 4, 1), Some(50_000)),
            (date(2027, 3, 31), Some(50_000)),
            (date(2027, 4, 1), None),
        ] {
            let with = assess(&rented(day), &demo_config());
            assert_eq!(with.grants.first().map(|grant| grant.most.0), most, "{day}");
            let without = assess(&rented(day), &Config { grants: Vec::new(), ..demo_config() });
            assert_eq!(with.band, without.band, "{day}: the band is what is paid, grant or none");
            let after = with.grants.first().and_then(|grant| grant.likely_after);
            assert_eq!(after, most.map(|most| with.band.unwrap().likely - Pence(most)), "{day}");
        }
    }

    #[test]
    fn only_what_was_answered_counts() {
        let day = date(2026, 6, 1);
        let who = |change: fn(&mut Answers)| {
            let mut answers = rented(day);
            change(&mut answers);
            assess(&answers, &demo_config()).grants.into_iter().map(|grant| grant.who).collect::<Vec<_>>()
        };
        assert_eq!(who(|_| {}), [GrantFor::FlatOrRented]);
        assert_eq!(who(|answers| answers.home.tenure = Known(Tenure::Own)), []);
        assert_eq!(who(|answers| answers.home.tenure = model::answers::NotSure), []);
        let own_flat = |answers: &mut Answers| {
            answers.home.tenure = Known(Tenure::Own);
            answers.home.kind = Known(HomeKind::Flat);
        };
        assert_eq!(who(own_flat), [GrantFor::FlatOrRented]);
        let scorched = |answers: &mut Answers| {
            answers.hazard.signs = Known(Set::of(&[model::answers::HazardSign::Discolouration]));
        };
        assert_eq!(who(scorched), [], "it is made safe first");
        let street = |answers: &mut Answers| answers.parking.place = Known(ParkingPlace::Street);
        assert_eq!(who(street), [GrantFor::StreetWithCrossing]);
    }
}
