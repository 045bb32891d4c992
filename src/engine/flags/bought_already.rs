//! They have bought a charge point already.
//!
//! **Seen:** a charge point bought already.
//! **Source:** BS 7671 511 and 134.1.1; Consumer Rights Act 2015 (all from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "bought-already",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("BS 7671 511 and 134.1.1; Consumer Rights Act 2015 (all from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"wish": {"bought": true, "bought_papers": false}}"#, causes::NOT_FIXED);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let wish = &seen.answers.wish;
    match wish.bought {
        Answer::Known(true) => {}
        Answer::Known(false) | Answer::NotSure | Answer::NotAsked => return None,
    }
    let evidence = Evidence::certain(match wish.bought_papers {
        Answer::Known(true) => "bought already, its papers are there",
        Answer::Known(false) => "bought already, without papers: not priced for fixing",
        Answer::NotSure | Answer::NotAsked => "bought already, its papers not known of: not priced for fixing",
    })?;
    let printed = [wish.bought_maker.known(), wish.bought_model.known()];
    Some(
        printed
            .into_iter()
            .flatten()
            .fold(evidence, |evidence, text| evidence.and(&alloc::format!("as typed: {}", text.as_str()))),
    )
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, ShortText};

    #[test]
    fn raised_with_what_was_typed() {
        let evidence = raised(&FLAG, |answers| {
            answers.wish.bought = Answer::Known(true);
            answers.wish.bought_papers = Answer::Known(false);
            answers.wish.bought_model = Answer::Known(ShortText::new("invented model").unwrap());
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            ["bought already, without papers: not priced for fixing", "as typed: invented model"]
        );
    }

    #[test]
    fn quiet_where_none_was_bought() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.wish.bought = Answer::Known(false);
                answers.wish.bought_papers = Answer::Known(false);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_papers_is_no_papers() {
        let evidence = raised(&FLAG, |answers| {
            answers.wish.bought = Answer::Known(true);
            answers.wish.bought_papers = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["bought already, its papers not known of: not priced for fixing"]);
    }
}
