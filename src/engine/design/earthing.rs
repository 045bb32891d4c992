//! The earthing measure for a charge point outdoors.
//!
//! Source: BS 7671 722.411.4.1 (PME not used for a point outdoors unless one of its conditions holds), seen in BSI's amendment notice;
//! (iii) 70 V within 5 s, seen in a maker's quotation. TN-S may have become PME upstream: treated as PME until confirmed. Where the
//! arrangement is not known, the measure is that for PME in every case, even if an electrode is likelier; where there may be an electrode,
//! proving or renewing it is planned too. Both: common practice, no source.

use crate::context::Context;
use crate::site::case::KnownCase;
use crate::site::{EarthingArrangement, Phases};

/// What is done about earthing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EarthingMeasure {
    /// A device against a broken supply neutral, as for PME.
    OpenPen(OpenPen),
    /// Work on the home's electrode: a residual-current device relies on it, and nothing is needed against a broken neutral.
    Electrode(ElectrodeWork),
    /// Both, because nobody knows the arrangement: as for PME, and work on the electrode that there may be.
    Both(OpenPen, ElectrodeWork),
}

/// What senses a broken supply neutral.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpenPen {
    /// The charge point.
    InChargePoint,
    /// A separate device.
    Device,
    /// A separate device for a three-phase installation.
    ThreePhaseDevice,
}

/// What is done at the home's electrode.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ElectrodeWork {
    /// The electrode that is there is proved.
    Prove,
    /// It can't be proved: a new one is installed.
    New,
}

/// Decides the earthing measure.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Context<'_>) -> EarthingMeasure {
    let electrode = match case.earthing() {
        EarthingArrangement::TnCS | EarthingArrangement::TnS => {
            return EarthingMeasure::OpenPen(against_open_pen(case, given));
        }
        EarthingArrangement::Tt if case.electrode_good() => ElectrodeWork::Prove,
        EarthingArrangement::Tt => ElectrodeWork::New,
    };
    if case.earthing_assumed() {
        EarthingMeasure::Both(against_open_pen(case, given), electrode)
    } else {
        EarthingMeasure::Electrode(electrode)
    }
}

/// The measure as for PME. The charge point's own sensing is used where it counts: a voltage window counts only where the installation is
/// single-phase (IET Code of Practice, 4th edition, as quoted by an equipment maker; not checked in the 5th edition, 2023).
fn against_open_pen(case: &KnownCase<'_>, given: &Context<'_>) -> OpenPen {
    let point = given.point;
    let counts = point.open_pen_sensing && (point.open_pen_three_phase || case.supply().phases == Phases::One);
    if counts {
        OpenPen::InChargePoint
    } else if case.supply().phases == Phases::Three {
        OpenPen::ThreePhaseDevice
    } else {
        OpenPen::Device
    }
}

impl EarthingMeasure {
    /// What senses a broken supply neutral; `None` where nothing has to.
    #[must_use]
    pub const fn open_pen(self) -> Option<OpenPen> {
        match self {
            Self::OpenPen(open_pen) | Self::Both(open_pen, _) => Some(open_pen),
            Self::Electrode(_) => None,
        }
    }

    /// The work on the home's electrode; `None` where it has none.
    #[must_use]
    pub const fn electrode(self) -> Option<ElectrodeWork> {
        match self {
            Self::Electrode(electrode) | Self::Both(_, electrode) => Some(electrode),
            Self::OpenPen(_) => None,
        }
    }

    /// The measure in a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::OpenPen(OpenPen::InChargePoint) => "open-pen-sensed-in-the-charge-point",
            Self::OpenPen(OpenPen::Device | OpenPen::ThreePhaseDevice) => "open-pen-device",
            Self::Electrode(ElectrodeWork::Prove) => "prove-the-electrode",
            Self::Electrode(ElectrodeWork::New) => "new-electrode",
            Self::Both(OpenPen::InChargePoint, ElectrodeWork::Prove) => "open-pen-sensed-and-prove-the-electrode",
            Self::Both(OpenPen::InChargePoint, ElectrodeWork::New) => "open-pen-sensed-and-new-electrode",
            Self::Both(OpenPen::Device | OpenPen::ThreePhaseDevice, ElectrodeWork::Prove) => {
                "open-pen-device-and-prove-the-electrode"
            }
            Self::Both(OpenPen::Device | OpenPen::ThreePhaseDevice, ElectrodeWork::New) => {
                "open-pen-device-and-new-electrode"
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::infer;
    use model::answers::{Answer, Answers, BoundedCount, EarthGoes};
    use model::config::{Config, Earthings, demo_config};
    use model::units::Probability;

    fn measure(goes: EarthGoes, carriers: u8, conductors: u8, three_phase: bool) -> EarthingMeasure {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.open_pen_three_phase = three_phase);
        measure_under(&config, Answer::Known(goes), carriers, conductors)
    }

    fn measure_under(config: &Config, goes: Answer<EarthGoes>, carriers: u8, conductors: u8) -> EarthingMeasure {
        let mut answers = Answers::default();
        answers.earthing.conductor_goes = goes;
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(carriers).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(conductors).unwrap());
        let site = infer(&answers, config);
        decide(&site.likeliest_case(), &Context::of(&answers, config))
    }

    #[test]
    fn pme_outdoors_wants_a_measure_and_the_charge_points_own_will_do() {
        assert_eq!(measure(EarthGoes::ServiceHead, 1, 2, false), EarthingMeasure::OpenPen(OpenPen::InChargePoint));
        assert_eq!(
            measure(EarthGoes::CableSheath, 1, 2, false),
            EarthingMeasure::OpenPen(OpenPen::InChargePoint),
            "TN-S as PME"
        );
    }

    #[test]
    fn a_voltage_window_does_not_count_on_three_phases() {
        assert_eq!(measure(EarthGoes::ServiceHead, 3, 4, false), EarthingMeasure::OpenPen(OpenPen::ThreePhaseDevice));
        assert_eq!(measure(EarthGoes::ServiceHead, 3, 4, true), EarthingMeasure::OpenPen(OpenPen::InChargePoint));
    }

    #[test]
    fn an_electrode_needs_no_such_device() {
        assert_eq!(measure(EarthGoes::Rod, 1, 2, false), EarthingMeasure::Electrode(ElectrodeWork::Prove));
    }

    #[test]
    fn not_known_is_as_for_pme_even_where_an_electrode_is_all_that_is_usual() {
        let mut config = demo_config();
        config.priors.earthing.unknown = Earthings { tn_s: Probability::NEVER, tt: Probability::CERTAIN };
        for goes in [Answer::NotSure, Answer::NotAsked] {
            let unknown = measure_under(&config, goes, 1, 2);
            assert_eq!(unknown, EarthingMeasure::Both(OpenPen::InChargePoint, ElectrodeWork::Prove));
        }
        config.charge_points.iter_mut().for_each(|point| point.open_pen_sensing = false);
        let device = measure_under(&config, Answer::NotSure, 1, 2);
        assert_eq!((device.open_pen(), device.electrode()), (Some(OpenPen::Device), Some(ElectrodeWork::Prove)));
        let seen = measure_under(&config, Answer::Known(EarthGoes::Rod), 1, 2);
        assert_eq!(seen, EarthingMeasure::Electrode(ElectrodeWork::Prove), "seen, it needs none");
    }
}
