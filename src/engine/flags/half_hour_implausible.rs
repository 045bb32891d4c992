//! The highest half-hour is too high for a half-hour.
//!
//! **Seen:** a highest half-hour that is more than the home's devices, or its fuse, could carry; or that nothing named explains.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::{Phases, half_hour, is_implausible, plausible};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "half-hour-implausible",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"highest_half_hour": 90}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let energy = *seen.answers.loads.highest_half_hour.known()?;
    let amps = half_hour(seen.answers).filter(|amps| is_implausible(*amps, seen.answers))?;
    let most = plausible(seen.answers).rounded();
    let evidence = Evidence::certain(&alloc::format!("{energy} said to be the highest half-hour"))?
        .and(&alloc::format!("that would be {} all through it; up to {most} is believed", amps.rounded()));
    let three_phase = seen.site.supply.likeliest().phases == Phases::Three;
    Some(if three_phase { evidence.and("the supply looks three-phase: it may be real") } else { evidence })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::Answer;
    use model::units::KilowattHours;

    #[test]
    fn raised_by_a_days_total() {
        let evidence =
            raised(&FLAG, |answers| answers.loads.highest_half_hour = Answer::Known(KilowattHours::of(52.0))).unwrap();
        assert!(evidence.seen[0].starts_with("52 ") && evidence.seen[1].contains(" 452"), "{:?}", evidence.seen);
    }

    #[test]
    fn quiet_for_a_busy_half_hour() {
        assert_eq!(
            raised(&FLAG, |answers| answers.loads.highest_half_hour = Answer::Known(KilowattHours::of(11.0))),
            None
        );
    }

    #[test]
    fn not_sure_is_no_figure() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.highest_half_hour = Answer::NotSure), None);
    }
}
