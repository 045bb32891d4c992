//! Generation and storage: whether the network operator must accept it before more is added.
//!
//! Source: EREC G98 (up to 16 A a phase by the inverter's rating is told afterwards; more is accepted first). Generation that was accepted
//! is no reason to ask about a charge point that can't export.

use super::fact::Fact;
use model::answers::{Answer, Answers};
use model::config::Config;
use model::tables::voltage::NOMINAL;
use model::terms::KnownBy;
use model::units::{Kilowatts, Probability, Ratio};

const FROM: &[&str] = &["solar", "battery", "solar-power", "battery-power", "operator-letter"];
/// The questions where there are panels or a battery: rating and letter tell more than whether there is another of them.
const FROM_THERE: &[&str] = &["operator-letter", "solar-power", "battery-power", "solar", "battery"];
/// The probability that there is no letter where nobody could find one: common practice, no source.
const LETTER_MISSING: Probability = Probability::of(0.4);
/// The probability of generation over the threshold where nobody could tell whether there is any: common practice, no source.
const LARGE_UNKNOWN: Probability = Probability::of(0.03);
/// The same where there are panels or a battery of a rating that nobody could tell: common practice, no source.
const LARGE_THERE: Probability = Probability::of(0.2);

/// Infers from ratings and letter whether it must be accepted first.
pub(super) fn infer(answers: &Answers, config: &Config) -> Fact<bool> {
    let loads = &answers.loads;
    let phases = answers.meter.fuse_carriers.known().map_or(1, |count| if count.get() == 3 { 3 } else { 1 });
    let a_phase = Ratio::of(1.0 / f64::from(phases));
    let over = |power: Kilowatts| power.current_at(NOMINAL) * a_phase > config.thresholds.export_above;
    // Panels or a battery that are not there have no power.
    let power = |there: &Answer<bool>, power: &Answer<Kilowatts>| {
        if there.is(false) { Answer::Known(Kilowatts::ZERO) } else { *power }
    };
    let solar = power(&loads.solar, &loads.solar_power);
    let battery = power(&loads.battery, &loads.battery_power);
    let there = loads.solar.is(true) || loads.battery.is(true);
    let unknown = if there { LARGE_THERE } else { LARGE_UNKNOWN };
    let large = match (&solar, &battery) {
        (Answer::Known(solar), Answer::Known(battery)) if over(*solar + *battery) => Probability::CERTAIN,
        (Answer::Known(one), _) | (_, Answer::Known(one)) if over(*one) => Probability::CERTAIN,
        (Answer::Known(_), Answer::Known(_)) => Probability::NEVER,
        (Answer::NotSure | Answer::NotAsked, _) | (_, Answer::NotSure | Answer::NotAsked) => unknown,
    };
    let missing = match loads.operator_letter {
        Answer::Known(true) => Probability::NEVER,
        Answer::Known(false) => Probability::CERTAIN,
        Answer::NotSure | Answer::NotAsked => LETTER_MISSING,
    };
    let said = solar.known().is_some() || battery.known().is_some();
    let known_by = if said { KnownBy::Inferred } else { KnownBy::Assumed };
    Fact::chance(true, false, large * missing, known_by, if there { FROM_THERE } else { FROM })
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::BoundedCount;
    use model::config::demo_config;

    fn to_clear(power: f64, carriers: u8, letter: Answer<bool>) -> Probability {
        let mut answers = Answers::default();
        answers.loads.solar_power = Answer::Known(Kilowatts::of(power));
        answers.loads.operator_letter = letter;
        answers.loads.battery_power = Answer::Known(Kilowatts::ZERO);
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(carriers).unwrap());
        infer(&answers, &demo_config()).probability(|to_clear| to_clear)
    }

    /// Source: EREC G98: 16 A a phase, 3.68 kW at 230 V.
    #[test]
    fn sixteen_amperes_a_phase_is_the_line() {
        assert_eq!(to_clear(3.68, 1, Answer::Known(false)), Probability::NEVER);
        assert_eq!(to_clear(3.69, 1, Answer::Known(false)), Probability::CERTAIN);
        assert_eq!(to_clear(10.0, 3, Answer::Known(false)), Probability::NEVER, "14.5 A a phase");
        assert_eq!(to_clear(6.0, 1, Answer::Known(true)), Probability::NEVER, "accepted already");
        assert_eq!(to_clear(6.0, 1, Answer::NotSure), LETTER_MISSING);
    }
}
