//! The demand with a charge point is over the main fuse, or over the threshold for notifying afterwards.
//!
//! **Seen:** electric showers, cooking, heating and the like that add up with the charge point, held back where it can be.
//! **Source:** Energy Networks Association, application form for low-carbon technologies, version not kept (60 A); BS 7671 722.311.201.

use super::{Cause, Evidence, Flag, Seen, Source, WORTH_RAISING, Weight, if_likely};
use crate::design::network::AskReason;
use crate::design::{Decided, DecisionId};
use alloc::string::String;
use model::units::Probability;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "demand-over-limit",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "Energy Networks Association, application form for low-carbon technologies, version not kept (60 A); BS 7671 722.311.201, seen in a training summary (name not kept)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"showers": 4}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.answers.hazard.is_noticed() {
        return None; // nothing is designed until the home is safe
    }
    let because = |reason| {
        seen.design.probability(
            DecisionId::Network,
            |decided| matches!(decided, Decided::Network(process) if process.reasons.has(reason)),
        )
    };
    let over_fuse = because(AskReason::OverFuse);
    let existing = seen.site.existing.likeliest();
    let evidence = if_likely(over(seen), &alloc::format!("{existing} likely in use already, after diversity"))?;
    let how = |probability: Probability| match probability {
        // This program's choice.
        probability if probability >= Probability::of(0.95) => "",
        probability if probability >= PROBABLY => "probably ",
        _ => "perhaps ",
    };
    // A demand over the main fuse is over the threshold too.
    let more = if over_fuse >= WORTH_RAISING {
        alloc::format!(", {}over the main fuse", how(over_fuse))
    } else {
        String::new()
    };
    let over = how(over(seen));
    Some(evidence.and(&alloc::format!("with the charge point {over}over what may be told afterwards{more}")))
}

/// From this probability on something is called probable, as on the installer's page. Common practice, no source.
const PROBABLY: Probability = Probability::of(0.7);

/// The probability that the demand is over the main fuse or over the threshold for notifying afterwards; no case counts twice.
pub(super) fn over(seen: &Seen<'_>) -> Probability {
    seen.design.probability(DecisionId::Network, |decided| {
        matches!(decided, Decided::Network(process)
            if process.reasons.has(AskReason::OverFuse) || process.reasons.has(AskReason::OverThreshold))
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::{electric_cooking_alone, raised};
    use model::answers::{Answer, BoundedCount};
    use model::units::Amps;

    #[test]
    fn raised_by_three_showers() {
        let evidence = raised(&FLAG, |answers| {
            electric_cooking_alone(answers);
            answers.loads.showers = Answer::Known(BoundedCount::new(3).unwrap());
            answers.meter.carrier_rating = Answer::Known(Amps::of(60.0));
        })
        .unwrap();
        assert_eq!(evidence.seen[1], "with the charge point over what may be told afterwards, over the main fuse");
    }

    #[test]
    fn quiet_where_a_load_limit_brings_it_under() {
        assert_eq!(
            raised(&FLAG, |answers| {
                electric_cooking_alone(answers);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_showers_is_a_mere_possibility() {
        assert_eq!(
            raised(&FLAG, |answers| {
                electric_cooking_alone(answers);
                answers.loads.showers = Answer::NotSure;
            }),
            None
        );
    }
}
