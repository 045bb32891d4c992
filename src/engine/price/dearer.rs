//! What makes this job dearer than the plainest one: the difference between its bill and the plainest bill, item by item, added up by
//! cause.
//!
//! The causes add up exactly to that difference. A cause may also save something.

use super::BillLine;
use super::bill::plainest_work;
use super::price_list::PriceList;
use crate::context::Context;
use crate::site::FactId;
use alloc::vec::Vec;
use model::answers::Word;
use model::answers::choices::words;
use model::config::Item;
use model::units::Pence;

words! {
    /// Why a job costs what it does.
    pub enum Cause {
        /// Days, travel, parking.
        Days => "days",
        /// A charge point that is bought already, or a holder for its lead.
        ChargePoint => "charge-point",
        /// An old charge point to take off, or a circuit to prove.
        Already => "already",
        /// Board, enclosure, tails.
        Board => "board",
        /// Surge protection.
        Surge => "surge",
        /// Bonding.
        Bonding => "bonding",
        /// The earthing measure.
        Earthing => "earthing",
        /// Digging.
        Digging => "digging",
        /// The rest of the way from board to spot.
        Route => "route",
        /// Working above about 3 m.
        Height => "height",
        /// Data cable.
        Signal => "signal",
        /// Holding back while the home is busy.
        LoadSensing => "load-sensing",
        /// No wall to fix to.
        Post => "post",
    }
}

impl Cause {
    /// The cause that an item belongs to; `None` for items that every job has alike.
    #[must_use]
    pub const fn of(item: Item) -> Option<Self> {
        Some(match item {
            Item::Travel | Item::Parking => Self::Days,
            Item::ChargePoint | Item::FixPoint | Item::LeadHolder => Self::ChargePoint,
            Item::IsolateTails
            | Item::SupplyIsolator
            | Item::SplitTails
            | Item::SwitchFuse
            | Item::Enclosure
            | Item::ReplaceBoard
            | Item::LargerTails
            | Item::FreeWay
            | Item::DoublePoleDevice
            | Item::Breaker
            | Item::ResidualDevice
            | Item::TypeB => Self::Board,
            Item::SurgeDevice => Self::Surge,
            Item::BondGas | Item::BondWater | Item::BondOther => Self::Bonding,
            Item::LargerMainEarth
            | Item::OpenPenDevice
            | Item::OpenPenThreePhase
            | Item::ProveElectrode
            | Item::EarthElectrode => Self::Earthing,
            Item::TrenchSoft | Item::TrenchPaving | Item::HardGround | Item::Duct => Self::Digging,
            Item::OldPointOff | Item::ProveCircuit => Self::Already,
            Item::DrillWall
            | Item::ThickWall
            | Item::FireSeal
            | Item::CableInside
            | Item::CableLoft
            | Item::CableOutside
            | Item::CableFence
            | Item::Supports
            | Item::Glands
            | Item::LargerCable => Self::Route,
            Item::HighAccess | Item::Tower => Self::Height,
            Item::DataCable | Item::DataBox => Self::Signal,
            Item::LoadSensing | Item::ClampCable => Self::LoadSensing,
            Item::MountingPost | Item::ImpactGuard => Self::Post,
            Item::CallOut | Item::Survey | Item::Commission | Item::Paperwork | Item::MakingGood => return None,
        })
    }

    /// The facts that the cause depends on.
    #[must_use]
    pub const fn facts(self) -> &'static [FactId] {
        match self {
            Self::Days | Self::ChargePoint | Self::Height => &[],
            Self::Board => &[
                FactId::Board,
                FactId::Device,
                FactId::SwitchAfterMeter,
                FactId::Feed,
                FactId::Circuit,
                FactId::MainConductors,
            ],
            Self::Already => &[FactId::Circuit],
            Self::Surge => &[FactId::SurgeDevice],
            Self::Bonding => &[FactId::GasBonding, FactId::WaterBonding, FactId::OtherBonding],
            Self::Earthing => &[FactId::Earthing, FactId::Electrode, FactId::MainConductors],
            Self::Digging => &[FactId::RouteAlong, FactId::RouteLength, FactId::HardGround, FactId::Feed],
            Self::Route => &[FactId::RouteLength, FactId::RouteAlong, FactId::Circuit],
            Self::Signal => &[FactId::WeakSignal, FactId::Router],
            Self::LoadSensing => &[FactId::MainFuse, FactId::ExistingDemand],
            Self::Post => &[FactId::Wall],
        }
    }
}

/// What each cause adds before VAT, the dearest first; causes that change nothing are left out.
#[must_use]
pub fn dearer(bill: &[BillLine], given: &Context<'_>, list: &PriceList) -> Vec<(Cause, Pence)> {
    let mut sums = [Pence(0); Cause::ALL.len()];
    let mut add = |item: Item, pence: Pence| {
        if let Some(cause) = Cause::of(item) {
            let sum = &mut sums[usize::from(cause.place())];
            *sum = *sum + pence;
        }
    };
    for line in bill {
        add(line.item, line.expected);
    }
    plainest_work(given, &mut |item, quantity| add(item, -Pence::rounded(list.cost(item, quantity).mean())));
    let mut causes: Vec<(Cause, Pence)> =
        Cause::ALL.iter().copied().zip(sums).filter(|(_, sum)| *sum != Pence(0)).collect();
    causes.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    causes
}
