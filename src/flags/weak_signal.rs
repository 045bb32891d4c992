//! The Wi-Fi is weak where the charge point goes.
//!
//! **Seen:** fewer bars at the spot than the settings ask for.
//! **Why it matters:** load sensing, off-peak charging and updates want a link that holds.
//! **Installer:** run a data cable beside the power cable, ending in a box by the board; count it.
//! **Source:** common practice, no source.

use super::{Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::answers::Answer;

/// The flag.
pub const FLAG: Flag =
    Flag { code: "weak-signal", weight: Weight::ChangesThePrice, source: Source::CommonPractice, raise };

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let weak = seen.site.weak_signal.probability(|weak| weak);
    if_likely(
        weak,
        &match seen.answers.signal.wifi_bars {
            Answer::Known(bars) => alloc::format!("bars of Wi-Fi at the spot: {}", bars.get()),
            Answer::NotSure | Answer::NotAsked => alloc::string::String::from("Wi-Fi at the spot not known"),
        },
    )
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::answers::{Answer, Count};
    use crate::flags::flag::raised;

    #[test]
    fn raised_by_one_bar() {
        let evidence =
            raised(&FLAG, |answers| answers.signal.wifi_bars = Answer::Known(Count::new(1).unwrap())).unwrap();
        assert_eq!(evidence.seen, ["bars of Wi-Fi at the spot: 1"]);
    }

    #[test]
    fn quiet_with_two_bars() {
        assert_eq!(raised(&FLAG, |answers| answers.signal.wifi_bars = Answer::Known(Count::new(2).unwrap())), None);
    }

    #[test]
    fn quiet_where_a_data_cable_is_there() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.signal.wifi_bars = Answer::Known(Count::new(0).unwrap());
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
