//! Nothing of the service head could be counted.
//!
//! **Seen:** no number of fuse carriers, of conductors or of street cables.
//! **Source:** Northern Powergrid, process page (service equipment unknown or uncertain: contact first).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::HazardInference;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "supply-not-counted",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "Northern Powergrid, process page (service equipment unknown or uncertain: contact first), the page itself, read",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(
    r#"{"meter": {"fuse_carriers": "not-sure", "head_conductors": "not-sure", "street_cables": "not-sure"}}"#,
    "a graver count is taken back",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.site.hazard {
        HazardInference::Seen { .. } => return None, // the home is made safe first
        HazardInference::LongAgo { .. }
        | HazardInference::NothingSeen
        | HazardInference::NotSure
        | HazardInference::NotAsked => {}
    }
    let meter = &seen.answers.meter;
    let counted = meter.fuse_carriers.known().is_some()
        || meter.head_conductors.known().is_some()
        || meter.street_cables.known().is_some();
    if counted {
        return None;
    }
    let tried =
        meter.fuse_carriers.is_not_sure() || meter.head_conductors.is_not_sure() || meter.street_cables.is_not_sure();
    Evidence::certain(if tried {
        "they looked and could not count fuse carriers, conductors or street cables"
    } else {
        "fuse carriers, conductors and street cables were not asked about"
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount, HazardSign, MeterKind, Set};

    #[test]
    fn raised_where_nobody_looked() {
        let evidence = raised(&FLAG, |answers| answers.meter.kind = Answer::Known(MeterKind::Smart)).unwrap();
        assert_eq!(evidence.seen, ["fuse carriers, conductors and street cables were not asked about"]);
    }

    #[test]
    fn quiet_once_one_thing_was_counted() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.street_cables = Answer::Known(BoundedCount::new(1).unwrap());
                answers.meter.fuse_carriers = Answer::NotSure;
            }),
            None
        );
    }

    #[test]
    fn quiet_where_a_hazard_comes_first() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::MeltedPlastic]));
                answers.meter.fuse_carriers = Answer::NotSure;
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_every_count_raises_it() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.fuse_carriers = Answer::NotSure;
            answers.meter.head_conductors = Answer::NotSure;
            answers.meter.street_cables = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["they looked and could not count fuse carriers, conductors or street cables"]);
    }
}
