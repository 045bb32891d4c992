//! The earthing measure for a charge point outdoors.
//!
//! Source: BS 7671 722.411.4.1 (PME not used for a point outdoors unless one of its conditions holds), seen in BSI's amendment
//! notice; (iii) 70 V within 5 s, seen in a maker's quotation. TN-S may have become PME upstream: treated as PME until confirmed;
//! common practice, no source.

use super::Given;
use crate::site::case::KnownCase;
use crate::site::{EarthingArrangement, Phases};

/// What is done about a broken supply neutral.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EarthingMeasure {
    /// The charge point senses it.
    InChargePoint,
    /// A device of its own senses it.
    Device,
    /// The home has an electrode: it is proved, an RCD is relied on, no such device is needed.
    ProveElectrode,
    /// The home's electrode can't be proved: one is put in.
    NewElectrode,
}

/// Decides.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Given<'_>) -> EarthingMeasure {
    match case.earthing() {
        EarthingArrangement::Tt if case.electrode_good() => EarthingMeasure::ProveElectrode,
        EarthingArrangement::Tt => EarthingMeasure::NewElectrode,
        EarthingArrangement::TnCS | EarthingArrangement::TnS if senses_here(case, given) => {
            EarthingMeasure::InChargePoint
        }
        EarthingArrangement::TnCS | EarthingArrangement::TnS => EarthingMeasure::Device,
    }
}

/// Whether the charge point's own sensing counts: a voltage window does only where the installation is single-phase
/// (IET *Code of Practice*, 4th ed., quoted by an equipment maker).
fn senses_here(case: &KnownCase<'_>, given: &Given<'_>) -> bool {
    let point = given.point;
    point.open_pen_sensing && (point.open_pen_three_phase || case.supply().phases == Phases::One)
}

impl EarthingMeasure {
    /// In a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::InChargePoint => "open-pen-sensed-in-the-charge-point",
            Self::Device => "open-pen-device",
            Self::ProveElectrode => "prove-the-electrode",
            Self::NewElectrode => "new-electrode",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, Answers, Count, EarthGoes};
    use crate::config::demo_config;
    use crate::design::charge_point::suited;
    use crate::site::read;

    fn measure(goes: EarthGoes, carriers: u8, conductors: u8, three_phase: bool) -> EarthingMeasure {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.open_pen_three_phase = three_phase);
        let mut answers = Answers::default();
        answers.earthing.conductor_goes = Answer::Known(goes);
        answers.meter.fuse_carriers = Answer::Known(Count::new(carriers).unwrap());
        answers.meter.head_conductors = Answer::Known(Count::new(conductors).unwrap());
        let site = read(&answers, &config);
        let point = suited(&answers, &config).unwrap();
        decide(&site.likeliest_case(), &Given { answers: &answers, config: &config, point })
    }

    #[test]
    fn pme_outdoors_wants_a_measure_and_the_charge_points_own_will_do() {
        assert_eq!(measure(EarthGoes::ServiceHead, 1, 2, false), EarthingMeasure::InChargePoint);
        assert_eq!(measure(EarthGoes::CableSheath, 1, 2, false), EarthingMeasure::InChargePoint, "TN-S as PME");
    }

    #[test]
    fn a_voltage_window_does_not_count_on_three_phases() {
        assert_eq!(measure(EarthGoes::ServiceHead, 3, 4, false), EarthingMeasure::Device);
        assert_eq!(measure(EarthGoes::ServiceHead, 3, 4, true), EarthingMeasure::InChargePoint);
    }

    #[test]
    fn an_electrode_needs_no_such_device() {
        assert_eq!(measure(EarthGoes::Rod, 1, 2, false), EarthingMeasure::ProveElectrode);
    }
}
