//! No cable of the tables carries the current that far.
//!
//! **Seen:** a route so long that every size drops too much voltage.
//! **Source:** BS 7671 Appendix 4 (Ib, In, Iz and voltage drop over the whole length).

use super::flag::likely_length;
use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes, if_likely};
use crate::design::{Decided, DecisionId};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "no-size-passes",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "BS 7671 Appendix 4 (Ib, In, Iz and voltage drop over the whole length), seen in a revision summary (name not kept)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"route": {"stretches": [{"along": "soft-ground", "length": {"value": 900, "unit": "metres"}}]}}"#,
    causes::A_WAY_OF_ITS_OWN,
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let none = seen
        .design
        .probability(DecisionId::Cable, |decided| matches!(decided, Decided::Cable(cable) if cable.size.is_none()));
    let length = likely_length(seen);
    if_likely(none, &alloc::format!("about {length} from board to charge point"))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer, Length};

    #[test]
    fn raised_by_a_thousand_metres() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.length = Answer::Known(Length::metres(1000.0));
            answers.route.mostly = Answer::Known(Along::SoftGround);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["about 1000 m from board to charge point"]);
    }

    #[test]
    fn quiet_where_a_larger_one_passes() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.length = Answer::Known(Length::metres(60.0));
                answers.route.mostly = Answer::Known(Along::SoftGround);
            }),
            None
        );
    }

    #[test]
    fn not_sure_how_far_leaves_sizes_that_pass() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.length = Answer::NotSure;
                answers.route.mostly = Answer::Known(Along::SoftGround);
            }),
            None
        );
    }
}
