//! A flat in Scotland: the co-owners of the building must agree, or their factor.
//!
//! **Seen:** a flat in Scotland that is owned or of unknown tenure.
//! **Source:** Tenements (Scotland) Act 2004 and the Building (Scotland) Regulations 2004 (both from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::site::{Nation, agreements, nation};
use model::answers::{Answer, HomeKind, Tenure};
use model::terms::Gatekeeper;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "scottish-flat",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published(
        "Tenements (Scotland) Act 2004 and the Building (Scotland) Regulations 2004 (both from memory)",
    ),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"postcode": "EH1", "kind": "flat", "tenure": "own"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let home = &seen.answers.home;
    if !home.kind.is(HomeKind::Flat) || nation(seen.answers) != Nation::Scotland {
        return None;
    }
    match home.tenure {
        Answer::Known(Tenure::Own) | Answer::NotSure | Answer::NotAsked => {}
        // For a let flat, the landlord deals with the co-owners.
        Answer::Known(Tenure::Rent | Tenure::Lease) => return None,
    }
    let agreement = agreements(seen.answers).into_iter().find(|agreement| agreement.who == Gatekeeper::Landlord)?;
    if_likely(agreement.probability, agreement.why)
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Answers, HomeKind, Postcode, Tenure};

    fn flat(answers: &mut Answers, postcode: &str, tenure: Answer<Tenure>) {
        answers.home.kind = Answer::Known(HomeKind::Flat);
        answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
        answers.home.tenure = tenure;
    }

    #[test]
    fn raised_by_an_owned_flat() {
        let evidence = raised(&FLAG, |answers| flat(answers, "EH1", Answer::Known(Tenure::Own))).unwrap();
        assert!(evidence.seen[0].contains("factor"), "{evidence:?}");
    }

    #[test]
    fn quiet_in_england_in_a_house_and_where_it_is_let() {
        assert_eq!(raised(&FLAG, |answers| flat(answers, "ZZ1", Answer::Known(Tenure::Own))), None);
        assert_eq!(raised(&FLAG, |answers| flat(answers, "EH1", Answer::Known(Tenure::Rent))), None);
        assert_eq!(
            raised(&FLAG, |answers| {
                flat(answers, "EH1", Answer::Known(Tenure::Own));
                answers.home.kind = Answer::Known(HomeKind::Semi);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_terms_keeps_it() {
        assert!(raised(&FLAG, |answers| flat(answers, "EH1", Answer::NotSure)).is_some());
    }
}
