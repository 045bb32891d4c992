//! The earthing arrangement.

use super::fact::Fact;
use super::inference::region;
use model::answers::{Answers, EarthGoes};
use model::config::{Config, Earthings};
use model::terms::EarthingArrangement;
use model::terms::KnownBy;
use model::units::Probability;

/// Infers the arrangement from where the earthing conductor goes; where that is not known, from what is usual in the region, or else at the
/// home's age.
pub(super) fn infer(answers: &Answers, config: &Config) -> Fact<EarthingArrangement> {
    use EarthingArrangement::{TnCS, TnS, Tt};
    const FROM: &[&str] = &["earth-goes"];
    match answers.earthing.conductor_goes.known() {
        Some(EarthGoes::ServiceHead) => Fact::sure(TnCS, KnownBy::Seen, FROM),
        Some(EarthGoes::CableSheath) => Fact::sure(TnS, KnownBy::Seen, FROM),
        Some(EarthGoes::Rod) => Fact::sure(Tt, KnownBy::Seen, FROM),
        None => {
            let by_age = *config.priors.earthing.of(answers.home.age.known().copied());
            let Earthings { tn_s, tt } = region(answers, config).and_then(|region| region.earthing).unwrap_or(by_age);
            let tn_c_s = Probability::from_sum(1.0 - tn_s.get() - tt.get());
            Fact::weighed(&[(TnCS, tn_c_s), (TnS, tn_s), (Tt, tt)], KnownBy::Assumed, FROM)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Postcode};
    use model::config::{Region, demo_config};

    #[test]
    fn a_regions_usual_practice_goes_before_the_age_and_stays_an_assumption() {
        let mut config = demo_config();
        let all_tt = Earthings { tn_s: Probability::NEVER, tt: Probability::of(0.9) };
        config.priors.regions =
            alloc::vec![Region { postcodes: alloc::vec!["ZZ9".into()], earthing: Some(all_tt), fuse: None }];
        let mut answers = Answers::default();
        answers.home.postcode = Answer::Known(Postcode::new("ZZ9").unwrap());
        let fact = infer(&answers, &config);
        assert_eq!((fact.likeliest(), fact.known_by), (EarthingArrangement::Tt, KnownBy::Assumed));
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
        assert_eq!(infer(&answers, &config).likeliest(), EarthingArrangement::TnCS);
    }
}
