//! Which work items follow from a decision, and how many of each: common practice, no source.

use crate::calculation::feed::Feeding;
use crate::context::Context;
use crate::design::board::{Surge, WayDevice};
use crate::design::laid::laid;
use crate::design::{BoardDecision, DataLink, Decided, ElectrodeWork, Isolation, OpenPen, cable, network, protection};
use crate::site::{FAR, THICK_WALL, is_ground, likely_length};
use model::answers::{Along, Answers, HomeKind, MainConductors, OtherPoint, ParkingPlace, RcdType};
use model::config::Item;
use model::terms::BillUnit;
use model::units::{Metres, Ratio};

/// A stretch overhead longer than this is worked from a tower, not from a ladder: common practice, no source.
const LADDER: Metres = Metres::of(4.0);

/// How many of an item's unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// Pieces.
    Each(u8),
    /// Metres.
    Length(Metres),
}

impl Quantity {
    /// One piece.
    pub const ONE: Self = Self::Each(1);

    /// The factor on the times and prices of one unit.
    #[must_use]
    pub fn ratio(self) -> Ratio {
        match self {
            Self::Each(count) => Ratio::of(f64::from(count)),
            Self::Length(length) => Ratio::new(length.get()).expect("a length is finite and not negative"),
        }
    }

    /// Its unit.
    #[must_use]
    pub const fn unit(self) -> BillUnit {
        match self {
            Self::Each(_) => BillUnit::Each,
            Self::Length(_) => BillUnit::Metre,
        }
    }
}

/// The items that every job has, whatever is decided, over `days` of work. Each is handed to `push`.
///
/// A charge point that was bought already is not sold again; without its papers fixing it is not priced either (BS 7671 511, 134.1.1, from
/// memory).
pub fn always(given: &Context<'_>, days: u8, push: &mut dyn FnMut(Item, Quantity)) {
    let Answers { wish, home, parking, .. } = given.answers;
    let bought = wish.bought.is(true);
    push(Item::CallOut, Quantity::ONE);
    // One more visit for the survey.
    push(Item::Travel, Quantity::Each(days.saturating_add(1)));
    let own_ground = [ParkingPlace::Drive, ParkingPlace::AttachedGarage, ParkingPlace::DetachedGarage];
    let van_stands = parking.place.known().is_none_or(|place| own_ground.contains(place));
    if home.kind.is(HomeKind::Flat) || !van_stands {
        push(Item::Parking, Quantity::Each(days));
    }
    push(Item::Survey, Quantity::ONE);
    if given.answers.loads.other_point.is(OtherPoint::Replaced) {
        push(Item::OldPointOff, Quantity::ONE);
    }
    if !bought {
        push(Item::ChargePoint, Quantity::ONE);
    }
    if !bought || wish.bought_papers.is(true) {
        push(Item::FixPoint, Quantity::ONE);
    }
    for item in [Item::Commission, Item::Paperwork, Item::MakingGood] {
        push(item, Quantity::ONE);
    }
    if wish.holder.is(true) && (bought || given.point.lead.is_some()) {
        push(Item::LeadHolder, Quantity::ONE);
    }
}

/// The items that follow from one decision, each handed to `push`.
pub fn of_decision(decided: &Decided, given: &Context<'_>, push: &mut dyn FnMut(Item, Quantity)) {
    match decided {
        Decided::Network(process) => {
            if network::wants_clamp(process, given) {
                push(Item::LoadSensing, Quantity::ONE);
                push(Item::ClampCable, Quantity::Length(clamp_cable(given)));
            }
        }
        Decided::Board(BoardDecision::UseWay { device, surge, freed }) => {
            if *freed {
                push(Item::FreeWay, Quantity::ONE);
            }
            of_device(*device, given, push);
            match surge {
                Surge::There => {}
                Surge::InBoard => push(Item::SurgeDevice, Quantity::ONE),
                Surge::Beside => {
                    push(Item::SurgeDevice, Quantity::ONE);
                    push(Item::Enclosure, Quantity::ONE);
                }
            }
        }
        Decided::Board(BoardDecision::KeepCircuit { device }) => {
            if let Some(device) = device {
                of_device(*device, given, push);
            }
        }
        Decided::Board(BoardDecision::Enclosure { isolation, .. }) => {
            of_tails(*isolation, given, push);
            for item in [Item::SplitTails, Item::Enclosure, Item::SurgeDevice] {
                push(item, Quantity::ONE);
            }
            if protection::residual_type(given) == RcdType::B {
                push(Item::TypeB, Quantity::ONE);
            }
        }
        Decided::Board(BoardDecision::Replace { isolation }) => {
            of_tails(*isolation, given, push);
            push(Item::ReplaceBoard, Quantity::ONE);
            of_device(WayDevice::DoublePole, given, push);
            push(Item::SurgeDevice, Quantity::ONE);
        }
        Decided::MainConductors(found) => {
            if *found != MainConductors::Enough {
                push(Item::LargerMainEarth, Quantity::ONE);
            }
            if *found == MainConductors::BothSmall {
                push(Item::LargerTails, Quantity::ONE);
            }
        }
        Decided::GasBonding(true) => push(Item::BondGas, Quantity::ONE),
        Decided::WaterBonding(true) => push(Item::BondWater, Quantity::ONE),
        Decided::OtherBonding(true) => {
            // Each service has its own bonding conductor; where nobody said which there are, one is counted.
            let metal = given.answers.earthing.other_metal.known().map_or(1, |metal| metal.iter().count().max(1));
            push(Item::BondOther, Quantity::Each(u8::try_from(metal).unwrap_or(u8::MAX)));
        }
        Decided::GasBonding(false) | Decided::WaterBonding(false) | Decided::OtherBonding(false) => {}
        Decided::Earthing(measure) => {
            match measure.open_pen() {
                Some(OpenPen::Device) => push(Item::OpenPenDevice, Quantity::ONE),
                Some(OpenPen::ThreePhaseDevice) => {
                    push(Item::OpenPenDevice, Quantity::ONE);
                    push(Item::OpenPenThreePhase, Quantity::ONE);
                }
                Some(OpenPen::InChargePoint) | None => {}
            }
            match measure.electrode() {
                Some(ElectrodeWork::Prove) => push(Item::ProveElectrode, Quantity::ONE),
                Some(ElectrodeWork::New) => push(Item::EarthElectrode, Quantity::ONE),
                None => {}
            }
        }
        Decided::Cable(design) => of_cable(design, given, push),
        Decided::CableKept => push(Item::ProveCircuit, Quantity::ONE),
        Decided::DataLink(DataLink::Cable(length)) => {
            push(Item::DataCable, Quantity::Length(*length));
            push(Item::DataBox, Quantity::ONE);
        }
        Decided::DataLink(DataLink::Wireless | DataLink::Mobile | DataLink::CableThere) => {}
    }
}

/// The items that protect the circuit from a way of the board.
fn of_device(device: WayDevice, given: &Context<'_>, push: &mut dyn FnMut(Item, Quantity)) {
    match device {
        WayDevice::DoublePole => push(Item::DoublePoleDevice, Quantity::ONE),
        WayDevice::BreakerThenResidual => {
            push(Item::Breaker, Quantity::ONE);
            push(Item::ResidualDevice, Quantity::ONE);
        }
        WayDevice::BreakerAlone => push(Item::Breaker, Quantity::ONE),
    }
    if device != WayDevice::BreakerAlone && protection::residual_type(given) == RcdType::B {
        push(Item::TypeB, Quantity::ONE);
    }
}

/// The work at the tails before anything can be connected to them.
fn of_tails(isolation: Isolation, given: &Context<'_>, push: &mut dyn FnMut(Item, Quantity)) {
    if isolation == Isolation::AtTheFeed {
        return;
    }
    if isolation != Isolation::Supplier {
        push(Item::IsolateTails, Quantity::ONE);
    }
    // Long tails want a switch-fuse by the meter (network operators' rule, from memory): it is a switch as well.
    let thresholds = &given.config.thresholds;
    let tails = given.answers.meter.to_board.known().map(|length| length.in_metres(thresholds.pace));
    if tails.is_some_and(|length| length > thresholds.tails) {
        push(Item::SwitchFuse, Quantity::ONE);
    } else if isolation == Isolation::DrawFuse {
        // An installer who draws the fuse fits a switch; a supplier who comes out brings its own.
        push(Item::SupplyIsolator, Quantity::ONE);
    }
}

/// Length of the clamp's cable from the tails, beside the home's own board, to the charge point: along an outbuilding's feed, where there
/// is one, and the charge point's own cable. Common practice, no source.
fn clamp_cable(given: &Context<'_>) -> Metres {
    let feed = if given.answers.outbuilding.board_there.is(true) {
        Feeding::said(given.answers, given.config).length.unwrap_or(FAR)
    } else {
        Metres::ZERO
    };
    likely_length(given.answers, given.config) + feed + TO_THE_TAILS
}

/// Distance from a board to its tails: common practice, no source.
const TO_THE_TAILS: Metres = Metres::of(1.0);

fn of_cable(design: &cable::CableDesign, given: &Context<'_>, push: &mut dyn FnMut(Item, Quantity)) {
    let laid = laid(design.stretches(given), design.armoured);
    // Each item is pushed once, so that a bill has one line for it.
    let mut lengths: [(Item, Metres); 9] = [
        Item::CableInside,
        Item::CableLoft,
        Item::CableOutside,
        Item::CableFence,
        Item::Supports,
        Item::TrenchSoft,
        Item::TrenchPaving,
        Item::HardGround,
        Item::HighAccess,
    ]
    .map(|item| (item, Metres::ZERO));
    let mut add = |wanted: Item, length: Metres| {
        for (_, sum) in lengths.iter_mut().filter(|(item, _)| *item == wanted) {
            *sum = *sum + length;
        }
    };
    for run in design.stretches(given) {
        add(
            match run.along {
                Along::Inside if !design.armoured => Item::CableInside,
                Along::LoftOrFloor if !design.armoured => Item::CableLoft,
                Along::Inside | Along::LoftOrFloor | Along::OutsideWall => Item::CableOutside,
                Along::Fence => Item::CableFence,
                Along::SoftGround => Item::TrenchSoft,
                Along::Paving => Item::TrenchPaving,
            },
            run.length,
        );
        if !is_ground(run.along) {
            add(Item::Supports, run.length);
        } else if design.hard_ground {
            add(Item::HardGround, run.length);
        }
        if run.high {
            add(Item::HighAccess, run.length);
        }
    }
    for (item, length) in lengths.into_iter().filter(|(_, length)| *length > Metres::ZERO) {
        push(item, Quantity::Length(length));
    }
    if laid.high > LADDER {
        push(Item::Tower, Quantity::ONE);
    }
    // Where nobody counted the walls, one is drilled.
    let walls = given.answers.route.walls.known().map_or(1, |count| count.get());
    if walls > 0 {
        push(Item::DrillWall, Quantity::Each(walls));
        let thickness =
            given.answers.route.wall_thickness.known().map(|length| length.in_metres(given.config.thresholds.pace));
        if thickness.is_some_and(|thickness| thickness > THICK_WALL) {
            push(Item::ThickWall, Quantity::Each(walls));
        }
    }
    if walls > 0 && between_dwellings(given.answers) {
        push(Item::FireSeal, Quantity::Each(walls));
    }
    if laid.under_paving > Metres::ZERO {
        push(Item::Duct, Quantity::Length(laid.under_paving));
    }
    // Each run of armoured cable has a gland at both ends.
    if laid.armoured_runs > 0 {
        push(Item::Glands, Quantity::Each(laid.armoured_runs));
    }
    if design.size.is_none_or(|size| size > cable::PLAIN) {
        push(Item::LargerCable, Quantity::Length(design.length));
    }
    if !design.wall {
        push(Item::MountingPost, Quantity::ONE);
    }
    // A guard is needed where cars turn: at a post, and at every spot of a shared car park (BS 7671 722.512.2.202, from memory).
    if !design.wall || given.answers.parking.place.is(ParkingPlace::SharedCarPark) {
        push(Item::ImpactGuard, Quantity::ONE);
    }
}

/// Whether a wall on the way separates homes from one another or from shared parts, so that it must hold back fire.
fn between_dwellings(answers: &Answers) -> bool {
    answers.home.kind.is(HomeKind::Flat) || answers.parking.place.is(ParkingPlace::SharedCarPark)
}
