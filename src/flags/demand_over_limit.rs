//! The demand with a charge point is over the main fuse, or over what may be told afterwards.
//!
//! **Seen:** electric showers, cooking, heating and the like that add up with the charge point at full current.
//! **Why it matters:** the network operator is asked first, and the fuse or the service may not carry it.
//! **Installer:** go through the loads with them; look for a load limit or a lower current before applying.
//! **Source:** Energy Networks Association, application form for low-carbon technologies (60 A); BS 7671 722.311.201.

use super::{Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::design::network::AskReason;
use crate::design::{Decided, DecisionId};
use crate::units::Probability;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "demand-over-limit",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "Energy Networks Association, application form for low-carbon technologies (60 A); BS 7671 722.311.201",
    ),
    raise,
};

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    if seen.answers.hazard.is_noticed() {
        return None; // nothing is designed before it is safe
    }
    let because = |reason| {
        seen.design.probability(
            DecisionId::Network,
            |decided| matches!(decided, Decided::Network(process) if process.reasons.has(reason)),
        )
    };
    // In one case the demand is over one of the two, never both.
    let (over_fuse, over_threshold) = (because(AskReason::OverFuse), because(AskReason::OverThreshold));
    let either = Probability::from_sum(over_fuse.get() + over_threshold.get());
    let existing = seen.site.existing.likeliest();
    let evidence = if_likely(either, &alloc::format!("{existing} likely in use already, after diversity"))?;
    Some(evidence.and(if over_fuse >= over_threshold {
        "with the charge point probably over the main fuse"
    } else {
        "with the charge point probably over what may be told afterwards"
    }))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::answers::{Answer, Count};
    use crate::flags::flag::{electric_cooking_alone, raised};

    #[test]
    fn raised_by_three_showers() {
        let evidence = raised(&FLAG, |answers| {
            electric_cooking_alone(answers);
            answers.loads.showers = Answer::Known(Count::new(3).unwrap());
        })
        .unwrap();
        assert!(evidence.seen[1].contains("over the main fuse"));
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
