//! The meter's highest half-hour hides load that the home's own generation supplied.
//!
//! **Seen:** a highest half-hour from the meter, at a home with solar power or a battery.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;
use model::units::Kilowatts;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "half-hour-hides-load",
    weight: Weight::WorthKnowing,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"highest_half_hour": 3, "solar": true, "solar_power": 3}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let loads = &seen.answers.loads;
    match loads.highest_half_hour {
        Answer::Known(_) => {}
        Answer::NotSure | Answer::NotAsked => return None,
    }
    let rated = [&loads.solar_power, &loads.battery_power]
        .into_iter()
        .any(|power| power.known().is_some_and(|power| *power > Kilowatts::ZERO));
    let makes = rated || loads.solar.is(true) || loads.battery.is(true);
    if makes { Evidence::certain("a highest half-hour, with solar power or a battery behind the meter") } else { None }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Answers};
    use model::units::{KilowattHours, Kilowatts};

    fn half_hour(answers: &mut Answers, solar: Answer<Kilowatts>) {
        answers.loads.highest_half_hour = Answer::Known(KilowattHours::of(3.0));
        answers.loads.solar_power = solar;
    }

    #[test]
    fn raised_beside_solar_power() {
        assert!(raised(&FLAG, |answers| half_hour(answers, Answer::Known(Kilowatts::of(3.0)))).is_some());
    }

    #[test]
    fn quiet_without_any() {
        assert_eq!(raised(&FLAG, |answers| half_hour(answers, Answer::Known(Kilowatts::ZERO))), None);
    }

    #[test]
    fn not_sure_of_solar_power_is_none() {
        assert_eq!(raised(&FLAG, |answers| half_hour(answers, Answer::NotSure)), None);
    }
}
