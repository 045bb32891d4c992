//! No fixed lead of the list is as long as wished for.
//!
//! **Seen:** a wish for a longer fixed lead than any on the installer's list.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use model::answers::Outlet;

/// The flag.
pub const FLAG: Flag = Flag {
    code: "lead-too-short",
    weight: Weight::ChangesThePrice,
    source: Source::CommonPractice,
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause =
    Cause::never(r#"{"wish": {"outlet": "lead", "lead_length": {"value": 10, "unit": "metres"}}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let wish = &seen.answers.wish;
    if !wish.outlet.is(Outlet::Lead) {
        return None;
    }
    let wanted = wish.lead_length.known()?.in_metres(seen.config.thresholds.pace);
    let longest = seen.config.charge_points.iter().filter_map(|point| point.lead).reduce(model::units::Metres::max)?;
    if longest >= wanted {
        return None;
    }
    Evidence::certain(&alloc::format!("a lead of {wanted} wished for; the longest on the list is {longest}"))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, Length, Outlet};

    #[test]
    fn raised_by_a_wish_beyond_the_list() {
        let evidence = raised(&FLAG, |answers| {
            answers.wish.outlet = Answer::Known(Outlet::Lead);
            answers.wish.lead_length = Answer::Known(Length::metres(10.0));
        });
        assert!(evidence.unwrap().seen[0].contains("8 m"));
    }

    #[test]
    fn quiet_where_one_reaches() {
        let evidence = raised(&FLAG, |answers| {
            answers.wish.outlet = Answer::Known(Outlet::Lead);
            answers.wish.lead_length = Answer::Known(Length::metres(8.0));
        });
        assert_eq!(evidence, None);
    }

    #[test]
    fn not_sure_is_no_wish_for_a_longer_one() {
        let evidence = raised(&FLAG, |answers| {
            answers.wish.outlet = Answer::Known(Outlet::Lead);
            answers.wish.lead_length = Answer::NotSure;
        });
        assert_eq!(evidence, None);
    }
}
