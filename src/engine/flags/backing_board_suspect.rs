//! The meter may be mounted on a board that holds asbestos.
//!
//! **Seen:** a dark or fibrous backing board in a home from before 2000, or of unknown age.
//! **Source:** Control of Asbestos Regulations 2012 (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::may_hold_asbestos;
use model::answers::{Answer, Backing};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "backing-board-suspect",
    weight: Weight::SettleBeforeBooking,
    source: Source::Published("Control of Asbestos Regulations 2012 (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"meter": {"backing": "dark-or-fibrous"}, "home": {"age": "1930-1966"}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.meter.backing {
        Answer::Known(Backing::DarkOrFibrous) if may_hold_asbestos(seen.answers) => {}
        Answer::Known(Backing::DarkOrFibrous | Backing::Wood | Backing::Other) | Answer::NotSure | Answer::NotAsked => {
            return None;
        }
    }
    Evidence::certain(match seen.answers.home.age {
        Answer::Known(_) => "dark or fibrous backing board in a home from before 2000",
        Answer::NotSure | Answer::NotAsked => "dark or fibrous backing board in a home of unknown age",
    })
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Age, Answer, Backing};

    #[test]
    fn raised_by_a_dark_board_in_an_old_home() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.backing = Answer::Known(Backing::DarkOrFibrous);
            answers.home.age = Answer::Known(Age::To1966);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["dark or fibrous backing board in a home from before 2000"]);
    }

    #[test]
    fn quiet_in_a_home_since_2000() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.backing = Answer::Known(Backing::DarkOrFibrous);
                answers.home.age = Answer::Known(Age::Since2000);
            }),
            None
        );
    }

    #[test]
    fn quiet_for_plain_wood() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.meter.backing = Answer::Known(Backing::Wood);
                answers.home.age = Answer::Known(Age::To1966);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_age_keeps_it_suspect() {
        let evidence = raised(&FLAG, |answers| {
            answers.meter.backing = Answer::Known(Backing::DarkOrFibrous);
            answers.home.age = Answer::NotSure;
        })
        .unwrap();
        assert_eq!(evidence.seen, ["dark or fibrous backing board in a home of unknown age"]);
    }
}
