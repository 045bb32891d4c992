//! The capacity of a cable as it is laid: tabulated capacity by reference method, times the rating factors of its surroundings.
//!
//! Source: BS 7671 Appendix 4 (Ib ≤ In ≤ Iz; It ≥ In over the factors), seen in a revision summary and on the IET's forum.

use model::answers::choices::words;
use model::tables::about::{Column, Published, at};
use model::tables::{armoured, rating_factors, thermoplastic, twin_and_earth};
use model::units::{Amps, Celsius, Metres, MillivoltsPerAmpMetre, Ratio, SquareMillimetres};

words! {
    /// Kinds of cable.
    pub enum CableType {
        /// Flat twin-and-earth, 70 °C.
        TwinAndEarth => "twin-and-earth",
        /// Steel-wire-armoured, rated for 70 °C terminals. Its voltage drop is that of a 90 °C cable, the greater of the two.
        Armoured => "armoured",
        /// As [`Self::Armoured`], with a data pair beside its cores.
        ArmouredWithData => "armoured-with-data-pair",
        /// Steel-wire-armoured, 70 °C thermoplastic.
        Armoured70 => "armoured-70",
        /// Steel-wire-armoured, 90 °C thermosetting, joined to terminals rated 90 °C.
        Armoured90 => "armoured-90",
        /// Steel-wire-armoured, 70 °C thermoplastic, on three phases.
        ThreePhaseArmoured70 => "three-phase-armoured-70",
        /// Steel-wire-armoured, 90 °C thermosetting, on three phases.
        ThreePhaseArmoured90 => "three-phase-armoured-90",
        /// Multicore, 70 °C, unarmoured.
        Multicore => "multicore",
        /// Two single-core cables, 70 °C: tails, conduit.
        SingleCore => "single-core",
    }
}

words! {
    /// Reference methods of installation (BS 7671 Table 4A2, from memory).
    pub enum Method {
        /// In conduit in an insulated wall.
        A => "A",
        /// In conduit on a wall, or in trunking.
        B => "B",
        /// Clipped direct.
        C => "C",
        /// In the ground.
        D => "D",
        /// In free air.
        E => "E",
        /// Above a plasterboard ceiling, insulation to 100 mm.
        M100 => "100",
        /// Above a plasterboard ceiling, insulation over 100 mm.
        M101 => "101",
        /// In an insulated stud wall, touching the inner lining.
        M102 => "102",
        /// In an insulated stud wall, not touching.
        M103 => "103",
    }
}

/// The published capacities of a cable for a reference method; `None` where its table has no such column.
#[must_use]
pub const fn published(cable: CableType, method: Method) -> Option<Published<SquareMillimetres, Amps>> {
    use CableType as Is;
    use Method as By;
    Some(match (cable, method) {
        (Is::TwinAndEarth, By::A) => twin_and_earth::IN_CONDUIT,
        (Is::TwinAndEarth, By::C) => twin_and_earth::CLIPPED,
        (Is::TwinAndEarth, By::M100) => twin_and_earth::UNDER_THIN_INSULATION,
        (Is::TwinAndEarth, By::M101) => twin_and_earth::UNDER_INSULATION,
        (Is::TwinAndEarth, By::M102) => twin_and_earth::TOUCHING_LINING,
        (Is::TwinAndEarth, By::M103) => twin_and_earth::IN_INSULATION,
        (Is::Armoured | Is::ArmouredWithData | Is::Armoured70, By::C) => armoured::CLIPPED,
        (Is::Armoured | Is::ArmouredWithData | Is::Armoured70, By::D) => armoured::BURIED,
        (Is::Armoured | Is::ArmouredWithData | Is::Armoured70, By::E) => armoured::FREE_AIR,
        (Is::Armoured90, By::C) => armoured::CLIPPED_90,
        (Is::Armoured90, By::D) => armoured::BURIED_90,
        (Is::Armoured90, By::E) => armoured::FREE_AIR_90,
        (Is::ThreePhaseArmoured70, By::C) => armoured::THREE_PHASE_CLIPPED,
        (Is::ThreePhaseArmoured70, By::D) => armoured::THREE_PHASE_BURIED,
        (Is::ThreePhaseArmoured70, By::E) => armoured::THREE_PHASE_FREE_AIR,
        (Is::ThreePhaseArmoured90, By::C) => armoured::THREE_PHASE_CLIPPED_90,
        (Is::ThreePhaseArmoured90, By::D) => armoured::THREE_PHASE_BURIED_90,
        (Is::ThreePhaseArmoured90, By::E) => armoured::THREE_PHASE_FREE_AIR_90,
        (Is::Multicore, By::A) => thermoplastic::MULTICORE_A,
        (Is::Multicore, By::B) => thermoplastic::MULTICORE_B,
        (Is::Multicore, By::C) => thermoplastic::MULTICORE_C,
        (Is::Multicore, By::E) => thermoplastic::MULTICORE_E,
        (Is::SingleCore, By::A) => thermoplastic::SINGLE_A,
        (Is::SingleCore, By::B) => thermoplastic::SINGLE_B,
        (Is::SingleCore, By::C) => thermoplastic::SINGLE_C,
        _ => return None,
    })
}

/// The published voltage drops of a cable.
#[must_use]
pub const fn published_drop(cable: CableType) -> Published<SquareMillimetres, MillivoltsPerAmpMetre> {
    match cable {
        CableType::TwinAndEarth => twin_and_earth::DROP,
        CableType::Armoured | CableType::ArmouredWithData | CableType::Armoured90 => armoured::DROP_90,
        CableType::Armoured70 => armoured::DROP,
        CableType::ThreePhaseArmoured70 => armoured::THREE_PHASE_DROP,
        CableType::ThreePhaseArmoured90 => armoured::THREE_PHASE_DROP_90,
        CableType::Multicore | CableType::SingleCore => thermoplastic::DROP,
    }
}

/// Tabulated capacity of a size; `None` where the table has no such column or row.
#[must_use]
pub fn tabulated(cable: CableType, method: Method, size: SquareMillimetres) -> Option<Amps> {
    at(rows(cable, method)?, size)
}

/// Tabulated voltage drop of a size; `None` where the table has no such row.
#[must_use]
pub fn tabulated_drop(cable: CableType, size: SquareMillimetres) -> Option<MillivoltsPerAmpMetre> {
    at(published_drop(cable).rows, size)
}

fn rows(cable: CableType, method: Method) -> Option<Column<Amps>> {
    published(cable, method).map(|column| column.rows)
}

/// The rating factors by which a cable's surroundings reduce its tabulated capacity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// Ca: ambient temperature, of air or ground.
    pub ambient: Ratio,
    /// Cg: other circuits beside it.
    pub grouping: Ratio,
    /// Ci: thermal insulation around it.
    pub insulation: Ratio,
    /// Cs: thermal resistivity of the soil.
    pub soil: Ratio,
    /// Cd: depth in the ground.
    pub depth: Ratio,
    /// Cc: the kind of protective device, or that a buried cable is protected against overload.
    pub device: Ratio,
}

/// A factor that changes nothing.
const ONE: Ratio = Ratio::of(1.0);

impl Factors {
    /// As tabulated: alone, 30 °C in air, 20 °C, 2.5 K·m/W and 0.7 m deep in the ground.
    pub const REFERENCE: Self =
        Self { ambient: ONE, grouping: ONE, insulation: ONE, soil: ONE, depth: ONE, device: ONE };

    /// The product of all factors.
    #[must_use]
    pub fn product(&self) -> Ratio {
        self.ambient * self.grouping * self.insulation * self.soil * self.depth * self.device
    }
}

/// The least tabulated capacity for a device of rating `in_`: In divided by the factors.
#[must_use]
pub fn needed(in_: Amps, factors: &Factors) -> Amps {
    in_.before(factors.product())
}

/// The capacity as laid, Iz: the tabulated capacity times the factors.
#[must_use]
pub fn iz(tabulated: Amps, factors: &Factors) -> Amps {
    tabulated * factors.product()
}

/// The published factors for ambient temperature, in the ground or in air, for insulation rated `bears`; `None` where that is neither 70
/// nor 90 °C.
#[must_use]
pub fn published_ambient(in_ground: bool, bears: Celsius) -> Option<Published<Celsius, Ratio>> {
    Some(match (in_ground, bears.get() as u32) {
        // Arithmetic: the tables' own temperatures.
        (false, 70) => rating_factors::AIR_70,
        (false, 90) => rating_factors::AIR_90,   // arithmetic, as above
        (true, 70) => rating_factors::GROUND_70, // arithmetic, as above
        (true, 90) => rating_factors::GROUND_90, // arithmetic, as above
        _ => return None,
    })
}

/// Factor on the capacity of method C for a length totally surrounded by insulation; between two rows, that of the greater length.
#[must_use]
pub fn insulation(length: Metres) -> Ratio {
    model::tables::about::at_least(rating_factors::INSULATION.rows, length).unwrap_or(rating_factors::INSULATION_LONG)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn between_two_lengths_in_insulation_the_longer_one_is_taken() {
        assert_eq!(insulation(Metres::of(0.06)), Ratio::of(0.78));
        assert_eq!(insulation(Metres::of(0.5)), Ratio::of(0.5));
        assert_eq!(insulation(Metres::ZERO), Ratio::of(1.0));
    }

    #[test]
    fn every_column_is_ascending_and_so_are_its_values() {
        use model::answers::Word;
        for (cable, method) in
            CableType::ALL.iter().flat_map(|cable| Method::ALL.iter().map(move |method| (*cable, *method)))
        {
            let Some(column) = published(cable, method) else { continue };
            assert!(
                column.rows.windows(2).all(|two| two[0].0 < two[1].0 && two[0].1 < two[1].1),
                "{cable:?} {method:?}"
            );
        }
    }
}
