//! A tall building of flats has a regulator of its own.
//!
//! **Seen:** a flat in England whose route is drilled through a wall, or may be; its building's height is not asked.
//! **Source:** Building Safety Act 2022 and its regulations (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::{Nation, nation};
use model::answers::HomeKind;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "higher-risk-building",
    weight: Weight::WorthKnowing,
    source: Source::Published("Building Safety Act 2022 and its regulations (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::in_place(
    r#"{"home": {"postcode": "ZZ1", "kind": "flat"}, "route": {"walls": 1}}"#,
    "a postcode outside the area is graver than one within it",
);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let route = &seen.answers.route;
    if !seen.answers.home.kind.is(HomeKind::Flat) || route.walls.known().is_some_and(|walls| walls.get() == 0) {
        return None;
    }
    match nation(seen.answers) {
        Nation::England | Nation::Unclear => Evidence::certain("a flat, its building's height not asked"),
        Nation::Wales | Nation::Scotland | Nation::NorthernIreland | Nation::Islands => None,
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Answers, BoundedCount, HomeKind, Postcode};

    fn flat_at(answers: &mut Answers, postcode: &str) {
        answers.home.kind = Answer::Known(HomeKind::Flat);
        answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
    }

    #[test]
    fn raised_by_a_flat_in_england() {
        let evidence = raised(&FLAG, |answers| flat_at(answers, "ZZ1")).unwrap();
        assert_eq!(evidence.seen, ["a flat, its building's height not asked"]);
    }

    #[test]
    fn quiet_in_a_house_where_nothing_is_drilled_and_under_other_law() {
        assert_eq!(raised(&FLAG, |answers| answers.home.kind = Answer::Known(HomeKind::Terrace)), None);
        assert_eq!(raised(&FLAG, |answers| flat_at(answers, "EH1")), None);
        assert_eq!(
            raised(&FLAG, |answers| {
                flat_at(answers, "ZZ1");
                answers.route.walls = Answer::Known(BoundedCount::new(0).unwrap());
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_walls_keeps_it() {
        assert!(
            raised(&FLAG, |answers| {
                flat_at(answers, "ZZ1");
                answers.route.walls = Answer::NotSure;
            })
            .is_some()
        );
        assert_eq!(raised(&FLAG, |answers| answers.home.kind = Answer::NotSure), None);
    }
}
