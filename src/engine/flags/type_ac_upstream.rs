//! A Type AC residual-current device may sit ahead of the charge point.
//!
//! **Seen:** the Type AC symbol on a residual-current device that protects more than one way.
//! **Source:** a switchgear maker's questions page, whose name was not kept (no Type A device behind a Type AC).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::{Answer, RcdType, TestButtons};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "type-ac-upstream",
    weight: Weight::ChangesThePrice,
    source: Source::Published(
        "seen on a switchgear maker's questions page, whose name was not kept (no Type A device behind a Type AC)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(r#"{"board": {"rcd_type": "ac", "test_buttons": "one"}}"#, causes::SEEN_AGAIN);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.board.rcd_type {
        Answer::Known(RcdType::Ac) => {}
        Answer::Known(RcdType::A | RcdType::F | RcdType::B) | Answer::NotSure | Answer::NotAsked => return None,
    }
    let each_way = seen.answers.board.test_buttons.is(TestButtons::EachWay); // then no device is ahead of more than one way
    if each_way { None } else { Evidence::certain("Type AC symbol on the residual-current device") }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, RcdType, TestButtons};

    #[test]
    fn raised_by_the_symbol_on_a_shared_device() {
        let evidence = raised(&FLAG, |answers| {
            answers.board.rcd_type = Answer::Known(RcdType::Ac);
            answers.board.test_buttons = Answer::Known(TestButtons::One);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["Type AC symbol on the residual-current device"]);
    }

    #[test]
    fn quiet_where_each_way_has_its_own() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.rcd_type = Answer::Known(RcdType::Ac);
                answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
            }),
            None
        );
    }

    #[test]
    fn quiet_for_type_a() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.rcd_type = Answer::Known(RcdType::A);
                answers.board.test_buttons = Answer::Known(TestButtons::One);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_symbol_is_no_symbol() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.board.rcd_type = Answer::NotSure;
                answers.board.test_buttons = Answer::Known(TestButtons::One);
            }),
            None
        );
    }
}
