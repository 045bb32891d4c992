//! The answers about the board contradict each other.
//!
//! **Seen:** fuse wire, but a test button on each way.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "board-seen-disagrees",
    weight: Weight::SettleBeforeBooking,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"board": {"protection": "fuse-wire", "test_buttons": "each-way"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let mut about = seen.site.contradictions.iter().filter(|contradiction| contradiction.about == "board");
    let first = Evidence::certain(about.next()?.says)?;
    Some(about.fold(first, |evidence, next| evidence.and(next.says)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Protection, TestButtons};

    #[test]
    fn raised_by_fuse_wire_with_a_button_on_each_way() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.protection = Answer::Known(Protection::FuseWire);
            answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
        })
        .unwrap();
        assert!(evidence.seen[0].starts_with("fuse wire, but a test button"));
    }

    #[test]
    fn quiet_for_fuse_wire_with_one_button_before_it() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::FuseWire);
                answers.board.test_buttons = Answer::Known(TestButtons::One);
            }),
            None
        );
    }

    #[test]
    fn not_sure_contradicts_nothing() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.protection = Answer::Known(Protection::FuseWire);
                answers.board.test_buttons = Answer::NotSure;
            }),
            None
        );
    }
}
