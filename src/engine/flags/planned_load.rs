//! Something large is planned.
//!
//! **Seen:** their own words on what is planned.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "planned-load", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"loads": {"planned": "a heat pump next year"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let planned = match &seen.answers.loads.planned {
        Answer::Known(text) => text.as_str().trim(),
        Answer::NotSure | Answer::NotAsked => return None,
    };
    if planned.is_empty() { None } else { Evidence::certain(&alloc::format!("as typed: {planned}")) }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, ShortText};

    #[test]
    fn raised_by_what_was_typed() {
        let evidence = raised(&FLAG, |answers| {
            answers.loads.planned = Answer::Known(ShortText::new("a heat pump next year").unwrap())
        })
        .unwrap();
        assert_eq!(evidence.seen, ["as typed: a heat pump next year"]);
    }

    #[test]
    fn quiet_where_only_a_space_was_typed() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.planned = Answer::Known(ShortText::new(" ").unwrap())), None);
    }

    #[test]
    fn not_sure_is_nothing_planned() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.planned = Answer::NotSure), None);
    }
}
