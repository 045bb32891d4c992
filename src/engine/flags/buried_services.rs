//! Something lies in the ground on the way, or nobody can tell.
//!
//! **Seen:** pipes, drains or the supply cable where the route runs, or not sure of it where it is dug.
//! **Source:** HSE guidance HSG47, avoiding danger from underground services (from memory).

use super::{Cause, Evidence, Flag, Seen, Source, Weight, if_likely};
use crate::site::digs;
use model::answers::{Answer, Buried};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "buried-services",
    weight: Weight::WorthKnowing,
    source: Source::Published("HSE guidance HSG47, avoiding danger from underground services (from memory)"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"route": {"buried": ["gas"]}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    match seen.answers.route.buried {
        Answer::Known(buried) => {
            let mut said = buried.iter().map(in_words);
            let first = Evidence::certain(said.next()?)?;
            Some(said.fold(first, |evidence, next| evidence.and(next)))
        }
        Answer::NotSure => {
            if_likely(digs(seen.answers, &seen.site.route_along), "not known what lies in the ground on the way")
        }
        Answer::NotAsked => None, // another flag says that it is dug
    }
}

const fn in_words(buried: Buried) -> &'static str {
    match buried {
        Buried::Gas => "gas pipe on the way",
        Buried::Water => "water pipe on the way",
        Buried::Drains => "drains on the way",
        Buried::SupplyCable => "supply cable on the way",
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Along, Answer, Buried, Set};

    #[test]
    fn raised_by_a_gas_pipe_and_the_supply_cable() {
        let evidence =
            raised(&FLAG, |answers| answers.route.buried = Answer::Known(Set::of(&[Buried::SupplyCable, Buried::Gas])))
                .unwrap();
        assert_eq!(evidence.seen, ["gas pipe on the way", "supply cable on the way"]);
    }

    #[test]
    fn quiet_where_nothing_lies_there() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.buried = Answer::Known(Set::NONE);
                answers.route.mostly = Answer::Known(Along::SoftGround);
            }),
            None
        );
    }

    #[test]
    fn not_sure_matters_where_it_is_dug() {
        let evidence = raised(&FLAG, |answers| {
            answers.route.buried = Answer::NotSure;
            answers.route.mostly = Answer::Known(Along::SoftGround);
        })
        .unwrap();
        assert_eq!(evidence.seen, ["not known what lies in the ground on the way"]);
    }

    #[test]
    fn not_sure_matters_little_along_a_wall() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.route.buried = Answer::NotSure;
                answers.route.mostly = Answer::Known(Along::OutsideWall);
            }),
            None
        );
    }
}
