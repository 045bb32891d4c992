//! The Wi-Fi is weak where the charge point goes.
//!
//! **Seen:** fewer bars at the spot than the settings ask for.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, WORTH_RAISING, Weight, if_likely};
use crate::design::{DataLink, Decided, DecisionId};
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "weak-signal", weight: Weight::ChangesThePrice, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"signal": {"wifi_bars": 1}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let weak = seen.site.weak_signal.probability(|weak| weak);
    let evidence = if_likely(
        weak,
        &match seen.answers.signal.wifi_bars {
            Answer::Known(bars) => alloc::format!("bars of Wi-Fi at the spot: {}", bars.get()),
            Answer::NotSure | Answer::NotAsked => alloc::string::String::from("Wi-Fi at the spot not known"),
        },
    )?;
    let mobile =
        seen.design.probability(DecisionId::DataLink, |decided| matches!(decided, Decided::DataLink(DataLink::Mobile)));
    if mobile < WORTH_RAISING {
        return Some(evidence);
    }
    Some(match &seen.answers.signal.mobile_bars {
        Answer::Known(bars) => {
            evidence.and(&alloc::format!("bars of mobile signal: {}, in place of a data cable", bars.get()))
        }
        Answer::NotSure | Answer::NotAsked => {
            evidence.and("mobile data perhaps in place of a data cable: not known whether it is received")
        }
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, BoundedCount, Outlet};

    #[test]
    fn raised_by_one_bar() {
        let evidence =
            raised(&FLAG, |answers| answers.signal.wifi_bars = Answer::Known(BoundedCount::new(1).unwrap())).unwrap();
        assert_eq!(evidence.seen, ["bars of Wi-Fi at the spot: 1"]);
    }

    #[test]
    fn raised_with_what_mobile_data_would_do() {
        let evidence = |mobile| {
            raised(&FLAG, |answers| {
                answers.signal.wifi_bars = Answer::Known(BoundedCount::new(0).unwrap());
                answers.signal.mobile_bars = mobile;
                answers.wish.outlet = Answer::Known(Outlet::Lead);
                answers.wish.follow_solar = Answer::Known(true); // the one of the list that has mobile data
            })
            .unwrap()
            .seen
        };
        assert_eq!(
            evidence(Answer::Known(BoundedCount::new(3).unwrap()))[1],
            "bars of mobile signal: 3, in place of a data cable"
        );
        assert_eq!(evidence(Answer::Known(BoundedCount::new(1).unwrap())).len(), 1, "too little of it");
        assert!(evidence(Answer::NotSure)[1].ends_with("not known whether it is received"));
    }

    #[test]
    fn quiet_with_two_bars() {
        assert_eq!(
            raised(&FLAG, |answers| answers.signal.wifi_bars = Answer::Known(BoundedCount::new(2).unwrap())),
            None
        );
    }

    #[test]
    fn quiet_where_a_data_cable_is_there() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.signal.wifi_bars = Answer::Known(BoundedCount::new(0).unwrap());
                answers.signal.data_cable = Answer::Known(true);
            }),
            None
        );
    }

    #[test]
    fn not_sure_is_not_weak() {
        assert_eq!(raised(&FLAG, |answers| answers.signal.wifi_bars = Answer::NotSure), None);
    }
}
