//! Drilling may meet asbestos.
//!
//! **Seen:** a home from before 2000 whose walls are drilled.
//! **Source:** Control of Asbestos Regulations 2012 (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::may_hold_asbestos;
use model::answers::Answer;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "asbestos-when-drilling",
    weight: Weight::WorthKnowing,
    source: Source::Published("Control of Asbestos Regulations 2012 (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"home": {"age": "1930-1966"}, "route": {"walls": 1}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.home.age {
        Answer::Known(_) if may_hold_asbestos(seen.answers) => {}
        Answer::Known(_) | Answer::NotSure | Answer::NotAsked => return None,
    }
    match seen.answers.route.walls {
        Answer::Known(walls) if walls.get() == 0 => None,
        Answer::Known(_) => Evidence::certain("home from before 2000, walls to be drilled"),
        Answer::NotSure | Answer::NotAsked => Evidence::certain("home from before 2000, walls perhaps to be drilled"),
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Age, Answer, BoundedCount};

    #[test]
    fn raised_by_a_home_of_the_sixties() {
        let evidence = raised(&FLAG, |answers| {
            answers.home.age = Answer::Known(Age::To1966);
            answers.route.walls = Answer::Known(BoundedCount::new(1).unwrap());
        })
        .unwrap();
        assert_eq!(evidence.seen, ["home from before 2000, walls to be drilled"]);
    }

    #[test]
    fn quiet_where_no_wall_is_drilled() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.age = Answer::Known(Age::To1966);
                answers.route.walls = Answer::Known(BoundedCount::new(0).unwrap());
            }),
            None
        );
    }

    #[test]
    fn quiet_in_a_home_since_2000() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.age = Answer::Known(Age::Since2000);
                answers.route.walls = Answer::Known(BoundedCount::new(1).unwrap());
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_age_is_looked_at_on_the_survey() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.home.age = Answer::NotSure;
                answers.route.walls = Answer::Known(BoundedCount::new(1).unwrap());
            }),
            None
        );
    }
}
