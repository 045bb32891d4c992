//! Something alarming was noticed once, long ago, and not since.
//!
//! **Seen:** smoke, sparks, noise, a smell, heat, a tingle or unsteady lights, noticed once and long ago.
//! **Source:** common practice, no source.

use super::hazard_seen::in_words;
use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use crate::site::HazardInference;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "hazard-long-ago", weight: Weight::WorthKnowing, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"hazard": {"signs": ["arcing"], "when": "long-ago"}}"#, causes::LONG_AGO);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let HazardInference::LongAgo { signs } = seen.site.hazard else { return None };
    let mut said = signs.iter().map(in_words);
    let first = Evidence::certain(said.next()?)?;
    Some(said.fold(first, |evidence, sign| evidence.and(sign)))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, HazardSign, HazardWhen, Set};

    #[test]
    fn raised_by_a_spark_of_long_ago() {
        let evidence = raised(&FLAG, |answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
            answers.hazard.when = Answer::Known(HazardWhen::LongAgo);
        });
        assert_eq!(evidence.unwrap().seen, ["arcing or sparks"]);
    }

    #[test]
    fn quiet_where_a_mark_beside_it_still_counts() {
        let evidence = raised(&FLAG, |answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing, HazardSign::Discolouration]));
            answers.hazard.when = Answer::Known(HazardWhen::LongAgo);
        });
        assert_eq!(evidence, None);
    }

    #[test]
    fn not_sure_when_it_was_counts_as_now() {
        let evidence = raised(&FLAG, |answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Arcing]));
            answers.hazard.when = Answer::NotSure;
        });
        assert_eq!(evidence, None);
    }
}
