//! Generation or storage is above 16 A, and no letter for it was seen.
//!
//! **Seen:** solar and battery inverters together above the limit in the settings, and no letter from the network operator.
//! **Source:** EREC G98 issue 1 amendment 7, October 2022 (16 A a phase), seen in its abstract, and G99; inverter rating: NIE Networks, for G83.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "generation-without-letter",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "Energy Networks Association, EREC G98 issue 1 amendment 7, October 2022 (16 A a phase), seen in its abstract; G99 above it, seen on an SP Energy Networks page; inverter rating: NIE Networks, for G83",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"solar": true, "solar_power": 5, "operator_letter": false}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let loads = &seen.answers.loads;
    let inverters = [(&loads.solar_power, "solar inverter"), (&loads.battery_power, "battery inverter")];
    let known = || inverters.iter().filter_map(|(power, what)| Some((*power.known()?, *what)));
    // Common practice, no source.
    let large = known().next().is_some() && seen.site.generation_to_clear.probability(|to_clear| to_clear).get() >= 0.3;
    if !large {
        return None; // 16 A a phase or less, or accepted already
    }
    let letter = match loads.operator_letter {
        Answer::Known(true) => return None,
        Answer::Known(false) => "no letter from the network operator",
        Answer::NotSure => "not sure of a letter from the network operator",
        Answer::NotAsked => "a letter from the network operator was not asked about",
    };
    let evidence = Evidence::certain(letter)?;
    Some(known().fold(evidence, |evidence, (power, what)| evidence.and(&alloc::format!("{what} of {power}"))))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;
    use model::units::Kilowatts;

    #[test]
    fn raised_by_solar_and_battery_together() {
        let evidence = raised(&FLAG, |answers| {
            answers.loads.solar_power = Answer::Known(Kilowatts::of(3.0));
            answers.loads.battery_power = Answer::Known(Kilowatts::of(2.5));
            answers.loads.operator_letter = Answer::Known(false);
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            ["no letter from the network operator", "solar inverter of 3 kW", "battery inverter of 2.5 kW"]
        );
    }

    #[test]
    fn quiet_at_just_sixteen_amperes() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.loads.solar_power = Answer::Known(Kilowatts::of(3.68));
                answers.loads.operator_letter = Answer::Known(false);
            }),
            None
        );
    }

    #[test]
    fn quiet_with_the_letter() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.loads.solar_power = Answer::Known(Kilowatts::of(5.0));
                answers.loads.operator_letter = Answer::Known(true);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_letter_is_no_letter_seen() {
        let evidence = raised(&FLAG, |answers| {
            answers.loads.solar_power = Answer::Known(Kilowatts::of(5.0));
            answers.loads.operator_letter = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["not sure of a letter from the network operator", "solar inverter of 5 kW"]);
    }

    #[test]
    fn not_sure_of_the_rating_is_no_rating() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.loads.solar_power = Answer::NotSure;
                answers.loads.operator_letter = Answer::Known(false);
            }),
            None
        );
    }
}
