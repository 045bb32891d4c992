//! An outbuilding's feed: whether it can carry a charge point, by its device, its cross-section and its length.
//!
//! Source of the checks: BS 7671 433.1.1 (Ib ≤ In ≤ Iz) and Table 4Ab (voltage drop, from the origin on). That a feed is checked before its
//! board is used, how much other load it carries, and which protective conductor is assumed: common practice, no source.

use super::sizing::Ahead;
use model::answers::{Answers, EarthGoes};
use model::config::Config;
use model::tables::about::at;
use model::tables::armoured::{ARMOUR_TWO_CORE, ARMOUR_TWO_CORE_LARGER, BURIED, DROP_90};
use model::tables::conductor_resistance::{COPPER_AT_20C, TO_70C, per_metre};
use model::tables::twin_and_earth::{IN_CONDUIT, cpc};
use model::units::{Amps, Metres, MilliohmsPerMetre, Ohms, Ratio, SquareMillimetres, Volts};

/// What is known about a feed; each detail may be missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feeding {
    /// Rating of the device at its origin.
    pub device: Option<Amps>,
    /// Cross-section of its line conductor.
    pub size: Option<SquareMillimetres>,
    /// Its length, one way.
    pub length: Option<Metres>,
    /// Voltage drop allowed from the origin to the charge point.
    pub allowed: Volts,
}

/// The result of checking what is known about a feed against a charge current.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Judged {
    /// Device, cross-section and length are known, and it carries the current.
    Carries,
    /// It carries the current as far as is known; something is not known.
    NotKnown,
    /// Its device is rated under the current; what is known of the cable would carry it.
    DeviceTooSmall,
    /// Its cable is too thin.
    CableTooThin,
    /// Its voltage drop leaves too little for the cable that follows.
    DropsTooMuch,
}

/// How much a feed must carry for each ampere of charging. It also supplies the outbuilding's own lights and tools, and how it is laid is
/// not seen. Common practice, no source.
pub const BESIDE: Ratio = Ratio::of(1.4);

/// The current in a feed at a charge current, with the outbuilding's other load.
#[must_use]
pub fn load(charge: Amps) -> Amps {
    charge * BESIDE
}

/// The share of the allowed voltage drop that a feed may take; the rest is for the cable that follows. Common practice, no source.
pub const SHARE_OF_DROP: Ratio = Ratio::of(0.8);

impl Feeding {
    /// What the answers say about the feed.
    #[must_use]
    pub fn said(answers: &Answers, config: &Config) -> Self {
        let outbuilding = &answers.outbuilding;
        // On the home's own electrode a broken supply neutral is not watched for.
        let window = !answers.earthing.conductor_goes.is(EarthGoes::Rod)
            && config.charge_points.iter().any(|point| !point.open_pen_three_phase);
        Self {
            device: outbuilding.feed_device.known().copied(),
            size: outbuilding.feed_size.known().copied(),
            length: outbuilding.feed_length.known().map(|length| length.in_metres(config.thresholds.pace)),
            // Any charge point but one for three phases may watch the voltage, which leaves less drop.
            allowed: super::voltage_drop::allowed_by(config, window),
        }
    }

    /// Checks the feed against a charge current.
    #[must_use]
    pub fn judged(&self, charge: Amps) -> Judged {
        if self.capacity().is_some_and(|carries| carries < load(charge)) {
            Judged::CableTooThin
        } else if self.drop(load(charge)).is_some_and(|drop| drop > self.allowed * SHARE_OF_DROP) {
            Judged::DropsTooMuch
        } else if self.device.is_some_and(|device| device < charge) {
            Judged::DeviceTooSmall
        } else if self.device.is_some() && self.size.is_some() && self.length.is_some() {
            Judged::Carries
        } else {
            Judged::NotKnown
        }
    }

    /// The greatest charge current, in whole amperes and at most the charge point's own, that passes [`Self::judged`]; `None` where that is
    /// under 6 A.
    #[must_use]
    pub fn most(&self, point: Amps) -> Option<Amps> {
        // From 6 A to 63 A (from memory, as the config is checked).
        let steps = (6..=63_u8).rev().map(|amps| Amps::of(f64::from(amps))).filter(|amps| *amps <= point);
        steps.into_iter().find(|amps| matches!(self.judged(*amps), Judged::Carries | Judged::NotKnown))
    }

    /// The capacity of its cable; `None` where it is smaller than any row. The kind of cable is not asked: from 4 mm² on it is taken as
    /// armoured in the ground, below that as flat cable in an insulated wall.
    #[must_use]
    pub fn capacity(&self) -> Option<Amps> {
        let size = self.size?;
        let rows = if size >= BURIED.rows[0].0 { BURIED.rows } else { IN_CONDUIT.rows };
        Some(rows.iter().rfind(|(row, _)| *row <= size).map_or(Amps::ZERO, |(_, amps)| *amps))
    }

    /// Its voltage drop at a current; `None` where size or length is not known, or the table has no such size.
    #[must_use]
    pub fn drop(&self, current: Amps) -> Option<Volts> {
        let (size, length) = (self.size?, self.length?);
        let row = DROP_90.rows.iter().rfind(|(row, _)| *row <= size)?.0;
        Some(at(DROP_90.rows, row)? * current * length)
    }

    /// Its R1 + R2, warm; `None` where size or length is not known, or the tables have no such size. Kind and protective conductor are not
    /// asked: of those such a cable may have (flat cable's own, an armour) the one of greatest resistance is taken.
    #[must_use]
    pub fn r1_plus_r2(&self) -> Option<Ohms> {
        let (size, length) = (self.size?, self.length?);
        let (line, line_ohms) = *COPPER_AT_20C.rows.iter().rfind(|(row, _)| *row <= size)?;
        let flat = cpc(line).and_then(per_metre);
        let protective = [flat, at(ARMOUR_TWO_CORE.rows, line), at(ARMOUR_TWO_CORE_LARGER.rows, line)];
        let protective = protective.into_iter().flatten().reduce(MilliohmsPerMetre::max)?;
        Some((line_ohms + protective) * length * TO_70C)
    }

    /// What the feed adds to voltage drop and fault loop ahead of the cable that follows. Details that are not known add nothing; that is
    /// reported elsewhere.
    #[must_use]
    pub fn ahead(&self, charge: Amps) -> Ahead {
        Ahead {
            drop: self.drop(load(charge)).unwrap_or(Volts::ZERO),
            r1_plus_r2: self.r1_plus_r2().unwrap_or(Ohms::ZERO),
        }
    }

    /// Whether its device would let more through than its cable carries (In ≤ Iz does not hold).
    #[must_use]
    pub fn device_over_cable(&self) -> bool {
        self.device.zip(self.capacity()).is_some_and(|(device, carries)| device > carries)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feed(device: f64, size: f64, length: f64) -> Feeding {
        let some = |value: f64| (value > 0.0).then_some(value);
        Feeding {
            device: some(device).map(Amps::of),
            size: some(size).map(SquareMillimetres::of),
            length: some(length).map(Metres::of),
            allowed: Volts::of(11.5),
        }
    }

    /// Source of the rows: BS 7671 Table 4D4A, method D (6 mm²: 46 A, 4 mm²: 37 A), and Table 4D5, method A (2.5 mm²: 20 A).
    #[test]
    fn it_is_judged_at_the_current_that_is_charged() {
        let full = Amps::of(32.0);
        assert_eq!(feed(40.0, 6.0, 10.0).judged(full), Judged::Carries, "46 A is more than 44.8 A");
        assert_eq!(feed(40.0, 4.0, 10.0).judged(full), Judged::CableTooThin, "37 A is not");
        assert_eq!(feed(20.0, 6.0, 10.0).judged(full), Judged::DeviceTooSmall);
        assert_eq!(feed(20.0, 4.0, 10.0).judged(Amps::of(16.0)), Judged::Carries, "16 A asks for less");
        assert_eq!(feed(16.0, 2.5, 10.0).judged(Amps::of(16.0)), Judged::CableTooThin);
        assert_eq!(feed(16.0, 2.5, 10.0).most(full), Some(Amps::of(14.0)), "20 A / 1.4");
        assert_eq!(feed(32.0, 10.0, 10.0).judged(full), Judged::Carries, "a device of just that current");
        assert_eq!(feed(0.0, 4.0, 0.0).capacity(), Some(Amps::of(37.0)), "from 4 mm² on as armoured");
        assert_eq!(feed(0.0, 5.0, 0.0).capacity(), Some(Amps::of(37.0)), "between two rows the smaller");
        assert_eq!(
            feed(40.0, 10.0, 10.0).most(Amps::of(16.0)),
            Some(Amps::of(16.0)),
            "never over the charge point's own"
        );
    }

    /// Source of the row: BS 7671 Table 4E4B: 7.9 mV/A/m for 6 mm². 1.4 × 32 A × 7.9 mV × 26 m = 9.202 V; 80 % of 11.5 V = 9.2 V.
    #[test]
    fn a_long_feed_leaves_too_little_for_the_cable_after_it() {
        assert_eq!(feed(40.0, 6.0, 25.9).judged(Amps::of(32.0)), Judged::Carries, "9.17 V of 9.2 V");
        assert_eq!(feed(40.0, 6.0, 26.0).judged(Amps::of(32.0)), Judged::DropsTooMuch);
        assert_eq!(feed(40.0, 6.0, 26.0).most(Amps::of(32.0)), Some(Amps::of(31.0)));
    }

    /// Sources: IEC 60228 (6 mm²: 3.08 mΩ/m, 25 mm²: 0.727 mΩ/m, 2.5 mm²: 7.41 mΩ/m); flat cable's protective conductor, Locke, Appendix
    /// 4 Table 4.3 (6 mm²: 2.5 mm², 2.5 mm²: 1.5 mm², 12.1 mΩ/m); armour of two-core 25 mm² cable 3.7 mΩ/m (from memory); warm: × 1.2.
    #[test]
    fn its_part_of_the_fault_loop_is_taken_with_what_resists_most() {
        let ohms = |size, length| feed(0.0, size, length).r1_plus_r2().map(|ohms| libm::round(ohms.get() * 1e6) / 1e6);
        assert_eq!(
            ohms(6.0, 20.0),
            Some(0.25176),
            "(3.08 + 7.41) mΩ/m × 20 m × 1.2: flat cable's own resists more than 7.0"
        );
        assert_eq!(ohms(25.0, 10.0), Some(0.053124), "(0.727 + 3.7) mΩ/m × 10 m × 1.2: the armour");
        assert_eq!(ohms(2.5, 10.0), Some(0.23412), "(7.41 + 12.1) mΩ/m × 10 m × 1.2");
        assert_eq!(ohms(7.0, 20.0), ohms(6.0, 20.0), "between two rows the smaller");
        assert_eq!((ohms(6.0, 0.0), ohms(0.0, 20.0)), (None, None), "not known");
        let ahead = feed(0.0, 6.0, 20.0).ahead(Amps::of(32.0));
        assert!((ahead.drop.get() - 7.0784).abs() < 1e-9, "1.4 × 32 A × 7.9 mV/A/m × 20 m");
        assert_eq!(feed(40.0, 0.0, 20.0).ahead(Amps::of(32.0)), Ahead::NOTHING);
    }

    #[test]
    fn what_is_not_known_is_said_as_such() {
        for unknown in [feed(0.0, 0.0, 0.0), feed(40.0, 0.0, 10.0), feed(0.0, 10.0, 10.0), feed(40.0, 10.0, 0.0)] {
            assert_eq!(unknown.judged(Amps::of(32.0)), Judged::NotKnown);
        }
        assert_eq!(
            feed(0.0, 2.5, 0.0).judged(Amps::of(32.0)),
            Judged::CableTooThin,
            "one thing known is enough against it"
        );
        assert_eq!(feed(5.0, 0.0, 0.0).most(Amps::of(32.0)), None, "nothing under 6 A");
        assert_eq!(feed(0.0, 1.0, 5.0).capacity(), Some(Amps::ZERO), "thinner than any row");
    }

    #[test]
    fn a_device_larger_than_its_cable_is_noticed() {
        assert!(feed(63.0, 6.0, 0.0).device_over_cable());
        assert!(!feed(46.0, 6.0, 0.0).device_over_cable(), "just what it carries");
        assert!(!feed(40.0, 6.0, 0.0).device_over_cable());
        assert!(!feed(63.0, 0.0, 0.0).device_over_cable(), "not known");
    }
}
