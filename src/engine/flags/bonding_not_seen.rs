//! No bonding clamp was seen where a metal pipe comes in.
//!
//! **Seen:** a metal gas or water pipe, or one that may be, without a clamp in sight.
//! **Source:** BS 7671 544.1.1 and Table 54.8, seen in D. Locke, Guide to the Wiring Regulations.

use super::{Cause, Evidence, Flag, Seen, Source, WORTH_RAISING, Weight};

/// The flag.
pub const FLAG: Flag = Flag {
    code: "bonding-not-seen",
    weight: Weight::ChangesThePrice,
    source: Source::Published("BS 7671 544.1.1 and Table 54.8, seen in D. Locke, Guide to the Wiring Regulations"),
    usual: false,
    raise,
};

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"earthing": {"gas_pipe": "metal", "gas_clamp": false}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let wanted = [
        (seen.site.gas.probability(|wanted| wanted), "no clamp seen where the gas pipe comes in"),
        (seen.site.water.probability(|wanted| wanted), "no clamp seen where the water pipe comes in"),
        (seen.site.other_metal.probability(|wanted| wanted), "no clamp seen on oil or LPG pipe, or structural steel"),
    ];
    let mut likely = wanted.into_iter().filter(|(probability, _)| *probability >= WORTH_RAISING);
    let (probability, said) = likely.next()?;
    let first = Evidence::with(probability, said)?;
    Some(likely.fold(first, |evidence, (probability, said)| Evidence {
        probability: (evidence.probability.complement() * probability.complement()).complement(),
        ..evidence.and(said)
    }))
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, OtherMetal, Pipe, Set};
    use model::units::Probability;

    #[test]
    fn raised_by_two_metal_pipes_without_a_clamp() {
        let evidence = raised(&FLAG, |answers| {
            answers.earthing.gas_pipe = Answer::Known(Pipe::Metal);
            answers.earthing.gas_clamp = Answer::Known(false);
            answers.earthing.water_pipe = Answer::Known(Pipe::Metal);
            answers.earthing.water_clamp = Answer::Known(false);
        })
        .unwrap();
        assert_eq!(
            evidence.seen,
            ["no clamp seen where the gas pipe comes in", "no clamp seen where the water pipe comes in"]
        );
        assert!(evidence.probability < Probability::CERTAIN);
    }

    #[test]
    fn raised_by_an_oil_pipe_without_a_clamp() {
        let evidence = raised(&FLAG, |answers| {
            answers.earthing.gas_pipe = Answer::Known(Pipe::NoPipe);
            answers.earthing.water_pipe = Answer::Known(Pipe::Plastic);
            answers.earthing.other_metal = Answer::Known(Set::of(&[OtherMetal::Oil]));
            answers.earthing.other_clamp = Answer::Known(false);
        });
        assert_eq!(evidence.unwrap().seen, ["no clamp seen on oil or LPG pipe, or structural steel"]);
    }

    #[test]
    fn quiet_for_a_plastic_pipe() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.earthing.water_pipe = Answer::Known(Pipe::Plastic);
                answers.earthing.water_clamp = Answer::Known(false);
            }),
            None
        );
    }

    #[test]
    fn not_sure_of_the_clamp_is_not_bonding_absent() {
        assert_eq!(
            raised(&FLAG, |answers| {
                answers.earthing.gas_pipe = Answer::Known(Pipe::Metal);
                answers.earthing.gas_clamp = Answer::NotSure;
            }),
            None
        );
    }
}
