//! The earthing arrangement.

use super::fact::Fact;
use crate::answers::{Answers, EarthGoes};
use crate::assessment::KnownBy;
use crate::config::{Config, Earthings};
use crate::units::Probability;

/// How the supply is earthed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EarthingArrangement {
    /// Combined neutral and earth in the supply (PME).
    TnCS,
    /// A separate earth, by the cable's sheath; may have become PME upstream.
    TnS,
    /// An electrode of the home's own.
    Tt,
}

/// Reads where the earthing conductor goes; unknown, the age of the home says what is usual.
pub(super) fn read(answers: &Answers, config: &Config) -> Fact<EarthingArrangement> {
    use EarthingArrangement::{TnCS, TnS, Tt};
    const FROM: &[&str] = &["earth-goes"];
    match answers.earthing.conductor_goes.known() {
        Some(EarthGoes::ServiceHead) => Fact::sure(TnCS, KnownBy::Seen, FROM),
        Some(EarthGoes::CableSheath) => Fact::sure(TnS, KnownBy::Seen, FROM),
        Some(EarthGoes::Rod) => Fact::sure(Tt, KnownBy::Seen, FROM),
        None => {
            let Earthings { tn_s, tt } = *config.priors.earthing.of(answers.home.age.known().copied());
            let tn_c_s = Probability::from_sum(1.0 - tn_s.get() - tt.get());
            Fact::weighed(&[(TnCS, tn_c_s), (TnS, tn_s), (Tt, tt)], KnownBy::Assumed, FROM)
        }
    }
}
