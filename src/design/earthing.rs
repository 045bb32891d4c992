//! The earthing measure for a charge point outdoors.
//!
//! Source: BS 7671 722.411.4.1 (PME not used for a point outdoors unless one of its conditions holds), seen in BSI's amendment
//! notice; (iii) 70 V within 5 s, seen in a maker's quotation. TN-S may have become PME upstream: treated as PME until confirmed;
//! common practice, no source.

use super::Given;
use crate::site::EarthingArrangement;
use crate::site::case::KnownCase;

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
        EarthingArrangement::TnCS | EarthingArrangement::TnS if given.point.open_pen_sensing => {
            EarthingMeasure::InChargePoint
        }
        EarthingArrangement::TnCS | EarthingArrangement::TnS => EarthingMeasure::Device,
    }
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
