//! What is assumed of a fact that nobody could tell: probabilities by age and kind of home.
//!
//! Every default here is an assumption: common practice, no source. An installer who knows the district may set others.

use super::fields::fields;
use crate::answers::{Age, HomeKind, TestButtons};
use crate::units::Probability;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// A probability for each kind of home.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ByHome {
    /// Detached.
    pub detached: Probability,
    /// Semi-detached.
    pub semi_detached: Probability,
    /// Terrace.
    pub terrace: Probability,
    /// Flat.
    pub flat: Probability,
    /// Kind of home not known.
    pub unknown: Probability,
}

impl ByHome {
    /// The probability for this kind of home.
    #[must_use]
    pub fn of(&self, kind: Option<HomeKind>) -> Probability {
        match kind {
            Some(HomeKind::Detached) => self.detached,
            Some(HomeKind::Semi) => self.semi_detached,
            Some(HomeKind::Terrace) => self.terrace,
            Some(HomeKind::Flat) => self.flat,
            None => self.unknown,
        }
    }
}

/// Something for each age of home.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ByAge<T> {
    /// Before 1967.
    pub before_1967: T,
    /// 1967 to 1999.
    pub to_1999: T,
    /// 2000 or later.
    pub since_2000: T,
    /// Age not known.
    pub unknown: T,
}

impl<T> ByAge<T> {
    /// The value for this age of home.
    #[must_use]
    pub fn of(&self, age: Option<Age>) -> &T {
        match age {
            Some(Age::Before1930 | Age::To1966) => &self.before_1967,
            Some(Age::To1999) => &self.to_1999,
            Some(Age::Since2000) => &self.since_2000,
            None => &self.unknown,
        }
    }
}

/// A probability by how many test buttons the board shows, which tells its age better than the home's does.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ByButtons {
    /// None: from before residual-current devices were usual.
    pub none: Probability,
    /// One, for all its circuits.
    pub one: Probability,
    /// Two, for half of them each.
    pub two: Probability,
    /// One on each way.
    pub each_way: Probability,
    /// In a case of metal, whatever the buttons: a board of 2016 or later has one as a rule (BS 7671 421.1.201 wants it
    /// non-combustible; the year from memory).
    pub metal_case: Probability,
    /// What is left of it where no maker's name could be read on it.
    pub no_name: Probability,
}

/// How earthing arrangements share out; the rest is TN-C-S.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Earthings {
    /// TN-S.
    pub tn_s: Probability,
    /// TT.
    pub tt: Probability,
}

/// What is usual in a region, where it differs from elsewhere.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Region {
    /// Its postcodes, by their beginnings.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub postcodes: Vec<String>,
    /// Earthing there, whatever the age of the home.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub earthing: Option<Earthings>,
    /// Main fuses there, whatever the age of the home.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fuse: Option<Fuses>,
}

/// How main fuses share out; the rest is 100 A.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Fuses {
    /// 60 A.
    pub sixty: Probability,
    /// 80 A.
    pub eighty: Probability,
}

/// The table of assumptions.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Priors {
    /// A loop although one street cable is seen (the house at its end shows one too).
    pub loop_unseen: ByHome,
    /// A loop where nothing of the supply could be counted.
    pub loop_uncounted: ByHome,
    /// The share of both that is left at the home's age: loops are rare in homes built after about 1980.
    #[serde(skip_serializing_if = "usual::loop_at_age")]
    pub loop_at_age: ByAge<Probability>,
    /// A loop where one carrier stands with four conductors, or two cables come from the street.
    pub loop_indicated: Probability,
    /// Three-phase where carriers could not be counted.
    pub three_phase: Probability,
    /// The main fuse.
    pub fuse: ByAge<Fuses>,
    /// The earthing arrangement.
    pub earthing: ByAge<Earthings>,
    /// Main bonding absent although a metal pipe comes in, where no clamp was seen.
    pub unbonded_no_clamp_seen: Probability,
    /// Main bonding absent where nobody looked.
    pub unbonded: ByAge<Probability>,
    /// A metal service pipe where nobody looked.
    pub metal_pipe: ByAge<Probability>,
    /// A spare way where nobody looked.
    pub spare_way: ByAge<Probability>,
    /// A spare way that is not behind a shared residual-current device, by the test buttons: none or one each way is certain.
    pub own_way_two_buttons: Probability,
    /// Ways not behind a shared residual-current device where nobody looked.
    pub own_way_unknown: Probability,
    /// A double-pole residual-current breaker of the right kind can be had for the board, where nothing of it was seen.
    pub device_available: Probability,
    /// The same by what was seen of the board: the older it looks, the rarer. The installer's own list of boards goes before it.
    #[serde(skip_serializing_if = "usual::device_by_buttons")]
    pub device_by_buttons: ByButtons,
    /// Fuse wire where nobody looked.
    pub fuse_wire: ByAge<Probability>,
    /// A switch between meter and board where nobody looked.
    pub switch_after_meter: Probability,
    /// A surge protective device in the board where nobody looked.
    pub surge_device: ByAge<Probability>,
    /// A weak signal at the spot where nobody looked.
    pub weak_signal: Probability,
    /// A way of a full board can be freed.
    pub way_freed: Probability,
    /// Two gaps or more, where there is one and nobody counted.
    pub several_ways: Probability,
    /// What a region's usual practice is; the first that holds the home's postcode counts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub regions: Vec<Region>,
}

/// Newer assumptions that have their usual value are left out of a published config, so that forms copied before they existed can read it.
mod usual {
    use super::{ByAge, ByButtons, Priors, Probability};

    pub(super) fn loop_at_age(given: &ByAge<Probability>) -> bool {
        *given == Priors::default().loop_at_age
    }

    pub(super) fn device_by_buttons(given: &ByButtons) -> bool {
        *given == Priors::default().device_by_buttons
    }
}

fields!(ByHome { detached, semi_detached, terrace, flat, unknown });
fields!(ByAge<T> { before_1967, to_1999, since_2000, unknown });
fields!(Region { postcodes, earthing default, fuse default });
fields!(Earthings { tn_s, tt });
fields!(ByButtons { none, one, two, each_way, metal_case, no_name });
fields!(Fuses { sixty, eighty });
fields!(all default Priors { loop_unseen, loop_uncounted, loop_at_age, loop_indicated, three_phase, fuse, earthing, unbonded_no_clamp_seen, unbonded, metal_pipe, spare_way, own_way_two_buttons, own_way_unknown, device_available, device_by_buttons, fuse_wire, switch_after_meter, surge_device, weak_signal, way_freed, several_ways, regions });

impl Priors {
    /// A loop although one street cable is seen, by kind and age of the home.
    #[must_use]
    pub fn loop_unseen_in(&self, kind: Option<HomeKind>, age: Option<Age>) -> Probability {
        self.loop_unseen.of(kind) * *self.loop_at_age.of(age)
    }

    /// A loop where nothing of the supply could be counted, by kind and age of the home.
    #[must_use]
    pub fn loop_uncounted_in(&self, kind: Option<HomeKind>, age: Option<Age>) -> Probability {
        self.loop_uncounted.of(kind) * *self.loop_at_age.of(age)
    }

    /// The probability that a device for the board can be had, by its test buttons. An installer who set one figure for all boards, and
    /// none by test buttons, keeps that one for all.
    #[must_use]
    pub fn device(&self, buttons: Option<TestButtons>) -> Probability {
        let usual = Self::default();
        if self.device_by_buttons == usual.device_by_buttons && self.device_available != usual.device_available {
            return self.device_available;
        }
        let by = &self.device_by_buttons;
        match buttons {
            Some(TestButtons::None) => by.none,
            Some(TestButtons::One) => by.one,
            Some(TestButtons::Two) => by.two,
            Some(TestButtons::EachWay) => by.each_way,
            None => self.device_available,
        }
    }
}

impl Default for Priors {
    fn default() -> Self {
        const fn p(value: f64) -> Probability {
            Probability::of(value)
        }
        Self {
            loop_unseen: ByHome {
                detached: p(0.02),
                semi_detached: p(0.1),
                terrace: p(0.15),
                flat: p(0.05),
                unknown: p(0.08),
            },
            loop_uncounted: ByHome {
                detached: p(0.05),
                semi_detached: p(0.25),
                terrace: p(0.35),
                flat: p(0.1),
                unknown: p(0.2),
            },
            loop_at_age: ByAge { before_1967: p(1.0), to_1999: p(0.4), since_2000: p(0.05), unknown: p(0.8) },
            loop_indicated: p(0.85),
            three_phase: p(0.02),
            fuse: ByAge {
                before_1967: Fuses { sixty: p(0.3), eighty: p(0.3) },
                to_1999: Fuses { sixty: p(0.15), eighty: p(0.35) },
                since_2000: Fuses { sixty: p(0.05), eighty: p(0.35) },
                unknown: Fuses { sixty: p(0.2), eighty: p(0.35) },
            },
            earthing: ByAge {
                before_1967: Earthings { tn_s: p(0.45), tt: p(0.05) },
                to_1999: Earthings { tn_s: p(0.25), tt: p(0.03) },
                since_2000: Earthings { tn_s: p(0.05), tt: p(0.02) },
                unknown: Earthings { tn_s: p(0.3), tt: p(0.04) },
            },
            unbonded_no_clamp_seen: p(0.6),
            unbonded: ByAge { before_1967: p(0.35), to_1999: p(0.2), since_2000: p(0.05), unknown: p(0.25) },
            metal_pipe: ByAge { before_1967: p(0.85), to_1999: p(0.7), since_2000: p(0.3), unknown: p(0.65) },
            spare_way: ByAge { before_1967: p(0.35), to_1999: p(0.4), since_2000: p(0.55), unknown: p(0.4) },
            own_way_two_buttons: p(0.25),
            own_way_unknown: p(0.35),
            device_available: p(0.7),
            device_by_buttons: ByButtons {
                none: p(0.15),
                one: p(0.45),
                two: p(0.7),
                each_way: p(0.9),
                metal_case: p(0.9),
                no_name: p(0.8),
            },
            fuse_wire: ByAge { before_1967: p(0.15), to_1999: p(0.15), since_2000: p(0.01), unknown: p(0.1) },
            switch_after_meter: p(0.25),
            surge_device: ByAge { before_1967: p(0.1), to_1999: p(0.1), since_2000: p(0.2), unknown: p(0.1) },
            weak_signal: p(0.3),
            way_freed: p(0.2),
            several_ways: p(0.6),
            regions: Vec::new(),
        }
    }
}
