//! Something alarming was noticed at meter, board or elsewhere.
//!
//! **Seen:** smoke, flame, arcing, buzzing, a smell, heat, scorch marks, melted plastic, bare metal, a tingle, or unsteady lights.
//! **Source:** common practice, no source.

use super::{Cause, Evidence, Flag, Seen, Source, Weight};
use crate::site::HazardInference;
use model::answers::{FoundAt, HazardPlace, HazardSign};

/// The flag.
pub const FLAG: Flag =
    Flag { code: "hazard-seen", weight: Weight::Stop, source: Source::CommonPractice, usual: false, raise };

/// Answers that raise the flag, for the tests.
pub const CAUSE: Cause = Cause::never(r#"{"hazard": {"signs": ["discolouration"]}}"#);

fn raise(seen: &Seen<'_>) -> Option<Evidence> {
    let HazardInference::Seen { signs, place } = seen.site.hazard else { return None };
    let where_ = match place {
        Some(HazardPlace::ServiceHead) => "at the service head or its cable",
        Some(HazardPlace::Meter) => "at the meter",
        Some(HazardPlace::Board) => "at the board",
        Some(HazardPlace::Appliance) => "at one plugged-in appliance, as they say",
        Some(HazardPlace::Elsewhere) => "elsewhere in the home",
        None => "they could not say where",
    };
    let evidence = Evidence::certain(where_)?;
    let evidence = signs.iter().map(in_words).fold(evidence, |evidence, sign| evidence.and(sign));
    Some(match seen.answers.hazard.found_at.known() {
        Some(FoundAt::Meter) => evidence.and("it came to light on looking, at the meter"),
        Some(FoundAt::Board) => evidence.and("it came to light on looking, at the board"),
        Some(FoundAt::Pipes) => evidence.and("it came to light on looking, where the pipes come in"),
        None => evidence,
    })
}

/// A sign in the installer's words.
pub(super) const fn in_words(sign: HazardSign) -> &'static str {
    match sign {
        HazardSign::Smoke => "smoke",
        HazardSign::Flame => "flame",
        HazardSign::Arcing => "arcing or sparks",
        HazardSign::GasSmell => "a smell of gas",
        HazardSign::Buzzing => "buzzing or crackling",
        HazardSign::BurningSmell => "a smell of burning or fish",
        HazardSign::Heat => "heat",
        HazardSign::Discolouration => "scorch marks or discolouration",
        HazardSign::MeltedPlastic => "melted plastic",
        HazardSign::BareMetal => "bare metal or broken covers",
        HazardSign::Tingle => "a tingle or shock from metal: perhaps a broken supply neutral",
        HazardSign::UnsteadyLights => {
            "lights unsteady of themselves or several appliances failing: perhaps a broken supply neutral"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::FLAG;
    use crate::flags::flag::raised;
    use model::answers::{Answer, HazardPlace, HazardSign, Set};

    #[test]
    fn raised_by_scorch_marks_with_their_place() {
        let evidence = raised(&FLAG, |answers| {
            answers.hazard.signs = Answer::Known(Set::of(&[HazardSign::Discolouration]));
            answers.hazard.place = Answer::Known(HazardPlace::ServiceHead);
        });
        assert_eq!(evidence.unwrap().seen, ["at the service head or its cable", "scorch marks or discolouration"]);
    }

    #[test]
    fn quiet_where_nothing_was_noticed() {
        assert_eq!(raised(&FLAG, |answers| answers.hazard.signs = Answer::Known(Set::NONE)), None);
    }

    #[test]
    fn not_sure_is_another_flag() {
        assert_eq!(raised(&FLAG, |answers| answers.hazard.signs = Answer::NotSure), None);
    }
}
