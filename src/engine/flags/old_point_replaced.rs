//! An old charge point is to be replaced, and its circuit is not known to be sound.
//!
//! **Seen:** an old charge point that goes.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight, causes};
use crate::site::CircuitThere;
use model::answers::{Answer, OtherPoint};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "old-point-replaced",
    weight: Weight::ChangesThePrice,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::lowering(r#"{"loads": {"other_point": "replaced"}}"#, causes::THERE_ALREADY);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.loads.other_point {
        Answer::Known(OtherPoint::Replaced) => {}
        Answer::Known(OtherPoint::None | OtherPoint::Kept) | Answer::NotSure | Answer::NotAsked => return None,
    }
    let unsure = seen.site.circuit.is_unsure() || seen.site.circuit.likeliest() == CircuitThere::NotUsable;
    if unsure { Evidence::certain("an old charge point that goes") } else { None }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, CircuitFound, OtherPoint};

    #[test]
    fn raised_by_one_that_goes() {
        let evidence =
            raised(&FLAG, |answers| answers.loads.other_point = Answer::Known(OtherPoint::Replaced)).unwrap();
        assert_eq!(evidence.seen, ["an old charge point that goes"]);
    }

    #[test]
    fn quiet_once_its_circuit_is_proved() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.loads.other_point = Answer::Known(OtherPoint::Replaced);
                answers.existing.circuit = Answer::Known(CircuitFound::Sound);
            }),
            None
        );
    }

    #[test]
    fn quiet_without_one_or_where_it_stays() {
        for point in [OtherPoint::None, OtherPoint::Kept] {
            assert_eq!(raised(&FLAG, |answers| answers.loads.other_point = Answer::Known(point)), None);
        }
    }

    #[test]
    fn not_sure_of_one_is_no_swap() {
        assert_eq!(raised(&FLAG, |answers| answers.loads.other_point = Answer::NotSure), None);
    }
}
