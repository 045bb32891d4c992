//! Main protective bonding of the gas and water pipes, and of other metal that comes in from the ground. A clamp that was not seen may
//! still be there.

use super::fact::Fact;
use model::answers::{Answer, Answers, Pipe};
use model::config::Config;
use model::terms::KnownBy;
use model::units::Probability;

/// Infers whether gas needs bonding.
pub(super) fn infer_gas(answers: &Answers, config: &Config) -> Fact<bool> {
    let pipes = &answers.earthing;
    infer(answers, config, &pipes.gas_pipe, METAL_BEYOND_PLASTIC_GAS, &pipes.gas_clamp, &["gas-pipe", "gas-clamp"])
}

/// Infers whether water needs bonding.
pub(super) fn infer_water(answers: &Answers, config: &Config) -> Fact<bool> {
    let pipes = &answers.earthing;
    infer(answers, config, &pipes.water_pipe, Probability::NEVER, &pipes.water_clamp, &["water-pipe", "water-clamp"])
}

/// The probability that oil, LPG or structural steel comes in from the ground where nobody said: common practice, no source.
const OTHER_METAL: Probability = Probability::of(0.05);
/// The same where no gas pipe comes in: common practice, no source.
const OTHER_WITHOUT_GAS: Probability = Probability::of(0.3);

/// Infers whether other metal needs bonding.
pub(super) fn infer_other(answers: &Answers, config: &Config) -> Fact<bool> {
    const FROM: &[&str] = &["other-metal", "other-clamp"];
    let there = match &answers.earthing.other_metal {
        Answer::Known(metal) if metal.is_empty() => return Fact::sure(false, KnownBy::Seen, FROM),
        Answer::Known(_) => Probability::CERTAIN,
        Answer::NotSure | Answer::NotAsked if answers.earthing.gas_pipe.is(Pipe::NoPipe) => OTHER_WITHOUT_GAS,
        Answer::NotSure | Answer::NotAsked => OTHER_METAL,
    };
    unless_clamped(answers, config, there, &answers.earthing.other_clamp, FROM)
}

/// The probability that the pipework after the meter is metal where the gas service is plastic: common practice, no source.
const METAL_BEYOND_PLASTIC_GAS: Probability = Probability::of(0.5);

fn infer(
    answers: &Answers,
    config: &Config,
    pipe: &Answer<Pipe>,
    metal_beyond_plastic: Probability,
    clamp: &Answer<bool>,
    from: &'static [&'static str],
) -> Fact<bool> {
    let age = answers.home.age.known().copied();
    let metal = match pipe {
        Answer::Known(Pipe::Metal) => Probability::CERTAIN,
        Answer::Known(Pipe::Plastic) if metal_beyond_plastic > Probability::NEVER => metal_beyond_plastic,
        Answer::Known(Pipe::Plastic | Pipe::NoPipe) => return Fact::sure(false, KnownBy::Seen, from),
        Answer::NotSure | Answer::NotAsked => *config.priors.metal_pipe.of(age),
    };
    unless_clamped(answers, config, metal, clamp, from)
}

/// Whether metal that is there with probability `metal` needs bonding, by whether a clamp was noticed.
fn unless_clamped(
    answers: &Answers,
    config: &Config,
    metal: Probability,
    clamp: &Answer<bool>,
    from: &'static [&'static str],
) -> Fact<bool> {
    let age = answers.home.age.known().copied();
    let (absent, known_by) = match clamp {
        Answer::Known(true) => return Fact::sure(false, KnownBy::Seen, from),
        Answer::Known(false) => (config.priors.unbonded_no_clamp_seen, KnownBy::Inferred),
        Answer::NotSure | Answer::NotAsked => (*config.priors.unbonded.of(age), KnownBy::Assumed),
    };
    Fact::chance(true, false, metal * absent, known_by, from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{OtherMetal, Set};
    use model::config::demo_config;

    #[test]
    fn a_clamp_not_seen_is_probable_never_certain() {
        let mut answers = Answers::default();
        answers.earthing.gas_pipe = Answer::Known(Pipe::Metal);
        answers.earthing.gas_clamp = Answer::Known(false);
        let wants = infer_gas(&answers, &demo_config()).probability(|wants| wants);
        assert!(wants > Probability::of(0.3) && wants < Probability::CERTAIN);
    }

    #[test]
    fn a_plastic_pipe_or_a_clamp_seen_wants_none() {
        let mut answers = Answers::default();
        answers.earthing.water_pipe = Answer::Known(Pipe::Plastic);
        answers.earthing.gas_clamp = Answer::Known(true);
        let water = infer_water(&answers, &demo_config());
        assert!(!water.is_unsure() && water.known_by == KnownBy::Seen, "seen, and no guess");
        assert!(!infer_gas(&answers, &demo_config()).likeliest());
    }

    #[test]
    fn a_plastic_gas_service_says_little_of_the_pipework_behind_it() {
        let mut answers = Answers::default();
        answers.earthing.gas_pipe = Answer::Known(Pipe::Plastic);
        assert!(infer_gas(&answers, &demo_config()).is_unsure());
        answers.earthing.gas_pipe = Answer::Known(Pipe::NoPipe);
        assert!(!infer_gas(&answers, &demo_config()).is_unsure());
    }

    #[test]
    fn oil_lpg_and_steel_are_each_bonded_like_a_pipe() {
        let (config, mut answers) = (demo_config(), Answers::default());
        let wants = |answers: &Answers| infer_other(answers, &config).probability(|wants| wants);
        let unknown = wants(&answers);
        assert!(Probability::NEVER < unknown && unknown < Probability::of(0.1));
        answers.earthing.gas_pipe = Answer::Known(Pipe::NoPipe);
        assert!(wants(&answers) > unknown, "what heats is then oftener oil or bottled gas");
        answers.earthing.other_metal = Answer::Known(Set::of(&[OtherMetal::Oil]));
        answers.earthing.other_clamp = Answer::Known(false);
        assert!(wants(&answers) > Probability::of(0.3) && wants(&answers) < Probability::CERTAIN);
        answers.earthing.other_clamp = Answer::Known(true);
        assert_eq!(wants(&answers), Probability::NEVER);
        answers.earthing.other_metal = Answer::Known(Set::NONE);
        assert!(!infer_other(&answers, &config).is_unsure());
    }

    #[test]
    fn not_sure_stays_open() {
        let mut answers = Answers::default();
        answers.earthing.gas_pipe = Answer::NotSure;
        assert!(infer_gas(&answers, &demo_config()).is_unsure());
    }
}
