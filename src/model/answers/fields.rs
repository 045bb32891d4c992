//! Everything that can be answered about a home, by topic: the fields of an answers file.

use super::field_accessor::FieldAccessor;
use super::raw_answer::{BoundedCount, Field, Set};
use super::{
    Age, Along, Answer, Backing, BoardCase, Buried, CarComes, CircuitFound, Cooking, EarthGoes, Entry, FoundAt, Ground,
    HazardPlace, HazardSign, HazardWhen, Heating, HomeKind, Inlet, Length, MainConductors, MeterKind, MeterPlace,
    OperatorAnswer, OtherMetal, OtherPoint, Outlet, ParkingPlace, Pipe, Postcode, Protected, Protection, RcdType,
    Recorded, RouterPlace, ServiceEquipment, ShortText, SpareWays, SteeredBy, Tenure, TestButtons, WhichBoard,
};
use crate::units::{
    Amps, DecibelsUnder, KilowattHours, Kilowatts, MegabitsPerSecond, Miles, PencePerKilowattHour, SquareMillimetres,
};
use alloc::vec::Vec;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// Declares a topic: a struct whose every field is an [`Answer`], and a [`FieldAccessor`] for each field.
macro_rules! topic {
    ($(#[$doc:meta])* pub struct $name:ident at $topic:ident {
        $($(#[doc = $field_doc:literal])* $field:ident: $type:ty,)+
    }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct $name {
            $($(#[doc = $field_doc])* pub $field: Answer<$type>,)+
        }

        /// The accessors of the topic's fields.
        pub mod $topic {
            use super::*;

            $($(#[doc = $field_doc])*
            #[expect(non_upper_case_globals, reason = "an accessor has the name of its field")]
            pub const $field: FieldAccessor = FieldAccessor {
                name: stringify!($field),
                #[cfg(feature = "schema")]
                says: concat!($($field_doc),*),
                kind: <$type as Field>::KIND,
                get: |answers| answers.$topic.$field.give(),
                set: |answers, given| answers.$topic.$field.take(given),
            };)+

            /// Every field, in order.
            pub static ALL: &[FieldAccessor] = &[$($field),+];
        }
    };
}

topic! {
    /// Asked before anyone goes near meter or board.
    pub struct Hazard at hazard {
        /// What was noticed; an empty list is "nothing of it".
        signs: Set<HazardSign>,
        /// When, of the signs that pass; where it was not asked, they count.
        when: HazardWhen,
        /// Where.
        place: HazardPlace,
        /// Where they stood, if it came to light on looking.
        found_at: FoundAt,
    }
}

topic! {
    /// The home.
    pub struct Home at home {
        /// Postcode, or its first half.
        postcode: Postcode,
        /// Kind of home.
        kind: HomeKind,
        /// On what terms they live there.
        tenure: Tenure,
        /// Rough age.
        age: Age,
        /// Planning protection.
        protected: Protected,
    }
}

topic! {
    /// The car and where it stands.
    pub struct Parking at parking {
        /// Where the car stands.
        place: ParkingPlace,
        /// Where its inlet is.
        inlet: Inlet,
        /// How many electric cars.
        cars: BoundedCount<1, 6>,
        /// Driven on a usual day.
        miles_a_day: Miles,
        /// When the car comes.
        car_comes: CarComes,
        /// Whether the drive is shared with a neighbour.
        shared_drive: bool,
        /// From the spot to the nearest end of the car as it stands.
        spot_to_car: Length,
    }
}

topic! {
    /// At the meter, from a step back.
    pub struct Meter at meter {
        /// Where it is.
        place: MeterPlace,
        /// How many fuse carriers the service head has.
        fuse_carriers: BoundedCount<1, 3>,
        /// How many thick cables come in from the street.
        street_cables: BoundedCount<1, 3>,
        /// How many conductors leave the service head itself, green-and-yellow left out.
        head_conductors: BoundedCount<2, 6>,
        /// The rating printed on a fuse carrier: the most it may hold, not the fuse fitted.
        carrier_rating: Amps,
        /// Kind of meter.
        kind: MeterKind,
        /// Whether there is a switch between meter and board.
        switch_after: bool,
        /// Along the tails from meter to board.
        to_board: Length,
        /// What it is mounted on.
        backing: Backing,
        /// How the installer found tails and main earthing conductor.
        conductors: MainConductors,
        /// How the installer found the service equipment; not sure is "looked at, and still not known".
        equipment: ServiceEquipment,
    }
}

topic! {
    /// At the board (the consumer unit).
    pub struct Board at board {
        /// Fuses or breakers.
        protection: Protection,
        /// Test buttons.
        test_buttons: TestButtons,
        /// Gaps left.
        spare_ways: SpareWays,
        /// How many boards there are.
        boards: BoundedCount<1, 6>,
        /// Which of several is meant.
        which: WhichBoard,
        /// What its case is made of.
        case: BoardCase,
        /// The type symbol on its residual-current device.
        rcd_type: RcdType,
        /// Whether it has a surge protective device with its indicator.
        surge_device: bool,
        /// Whether there is wall space for a small enclosure beside it.
        wall_space: bool,
        /// What is printed as its maker, as typed.
        maker: ShortText,
        /// Whether there is a certificate or inspection report to photograph.
        report: bool,
    }
}

topic! {
    /// A board in a garage or outbuilding.
    pub struct Outbuilding at outbuilding {
        /// Whether the board meant is one in a garage or outbuilding.
        board_there: bool,
        /// Cross-section of the cable that feeds it.
        feed_size: SquareMillimetres,
        /// Length of that cable.
        feed_length: Length,
        /// Rating of the device at its origin.
        feed_device: Amps,
        /// Whether the cable begins in, crosses or ends at what is, or was, a farm building.
        farm: bool,
    }
}

topic! {
    /// Earthing and bonding, as far as it can be seen.
    pub struct Earthing at earthing {
        /// Where the earthing conductor goes.
        conductor_goes: EarthGoes,
        /// Whether a clamp with a green-and-yellow conductor is seen where the gas pipe comes in.
        gas_clamp: bool,
        /// The same for water.
        water_clamp: bool,
        /// The gas pipe.
        gas_pipe: Pipe,
        /// The water pipe.
        water_pipe: Pipe,
        /// What else of metal comes in from the ground; an empty list is "nothing of it".
        other_metal: Set<OtherMetal>,
        /// Whether a clamp with a green-and-yellow conductor is seen on each of that.
        other_clamp: bool,
        /// Distance from the gas meter to the spot.
        gas_meter_distance: Length,
    }
}

topic! {
    /// What uses electricity already.
    pub struct Loads at loads {
        /// Electric showers.
        showers: BoundedCount<0, 4>,
        /// Rating of the largest of them.
        shower_power: Kilowatts,
        /// Rating of the next largest.
        second_shower_power: Kilowatts,
        /// Cooking.
        cooking: Cooking,
        /// Cooking's connected power.
        cooking_power: Kilowatts,
        /// Electric heating.
        heating: Heating,
        /// Its power; for a heat pump the input on its plate, not the output.
        heating_power: Kilowatts,
        /// A hot tub or sauna.
        hot_tub: bool,
        /// Its rating.
        hot_tub_power: Kilowatts,
        /// Another charge point.
        other_point: OtherPoint,
        /// Whether there are solar panels.
        solar: bool,
        /// Whether there is a battery for the home.
        battery: bool,
        /// Rating of a solar inverter, a.c. side.
        solar_power: Kilowatts,
        /// Rating of a battery inverter, a.c. side.
        battery_power: Kilowatts,
        /// Whether they have the network operator's letter for what generates or stores.
        operator_letter: bool,
        /// The meter's highest half-hour.
        highest_half_hour: KilowattHours,
        /// Anything large planned, in their words.
        planned: ShortText,
    }
}

topic! {
    /// From board to charge point.
    pub struct Route at route {
        /// Roughly how far.
        length: Length,
        /// Mostly along what.
        mostly: Along,
        /// Stretch by stretch, in order; where given it stands in place of the rough answer.
        stretches: Vec<Stretch>,
        /// How many walls must be drilled.
        walls: BoundedCount<0, 9>,
        /// Thickness of the thickest.
        wall_thickness: Length,
        /// Where the cable leaves the home through its wall.
        entry: Entry,
        /// What lies in the ground on the way.
        buried: Set<Buried>,
        /// Whether an overhead line is near the route.
        overhead_line: bool,
        /// Whose ground it crosses.
        ground: Ground,
        /// Whether a builder left a cable for it.
        builders_cable: bool,
    }
}

topic! {
    /// What is there of a charge point already: an old one that goes, or a cable that was left for one.
    pub struct Existing at existing {
        /// Whether the old charge point works.
        works: bool,
        /// Whether the certificate of its circuit, or of the cable, is there to photograph.
        papers: bool,
        /// Whether the new one goes where the old one is.
        same_place: bool,
        /// How the installer found its circuit.
        circuit: CircuitFound,
    }
}

topic! {
    /// The data link at the spot.
    pub struct Signal at signal {
        /// Bars of the home's Wi-Fi shown by the phone at the spot.
        wifi_bars: BoundedCount<0, 4>,
        /// A timed transfer from the spot, on the home's own Wi-Fi.
        transfer: MegabitsPerSecond,
        /// Power received at the spot, by somebody with a meter.
        level: DecibelsUnder,
        /// From the router to the spot, straight through; the installer records it.
        router: Length,
        /// Where the router is, roughly.
        router_place: RouterPlace,
        /// Bars of mobile signal.
        mobile_bars: BoundedCount<0, 4>,
        /// Whether a data cable runs there already.
        data_cable: bool,
    }
}

topic! {
    /// What they would like.
    pub struct Wish at wish {
        /// Socket or fixed lead.
        outlet: Outlet,
        /// Charging from their own solar power.
        follow_solar: bool,
        /// Holding back while the home is busy.
        hold_back: bool,
        /// Whether the car is to give power back to the home or the network.
        gives_back: bool,
        /// Length of a fixed lead.
        lead_length: Length,
        /// A holder for the lead.
        holder: bool,
        /// What a cheap-rate scheme can steer.
        steered_by: SteeredBy,
        /// Whether they have bought a charge point already.
        bought: bool,
        /// Its maker, as printed.
        bought_maker: ShortText,
        /// Its model, as printed.
        bought_model: ShortText,
        /// Whether its papers are there to photograph.
        bought_papers: bool,
    }
}

topic! {
    /// What driving costs, by the homeowner's own figures.
    pub struct Cost at cost {
        /// By day.
        day: PencePerKilowattHour,
        /// At night.
        night: PencePerKilowattHour,
        /// At public charge points.
        public: PencePerKilowattHour,
    }
}

topic! {
    /// What the network operator was asked and answered, and when; the installer records it.
    pub struct Operator at operator {
        /// The day it was asked.
        asked_on: Date,
        /// The day it answered.
        answered_on: Date,
        /// The answer.
        answer: OperatorAnswer,
        /// The limit on the whole home, where the answer sets one.
        limit: Amps,
    }
}

impl Hazard {
    /// The signs that still count: all but those that may cease by themselves and were noticed once, long ago. `None` where the question
    /// about signs has no answer.
    #[must_use]
    pub fn counting(&self) -> Option<Set<HazardSign>> {
        let long_ago = self.when.is(HazardWhen::LongAgo);
        self.signs.known().map(|signs| {
            let counts = signs.iter().filter(|sign| !(long_ago && sign.passes()));
            counts.fold(Set::NONE, Set::with)
        })
    }

    /// Whether any sign that counts was noticed.
    #[must_use]
    pub fn is_noticed(&self) -> bool {
        self.counting().is_some_and(|signs| !signs.is_empty())
    }

    /// Whether a danger is ruled out as far as they can tell: only then may anybody be sent to look at meter or board.
    #[must_use]
    pub fn is_ruled_out(&self) -> bool {
        self.counting().is_some_and(|signs| signs.is_empty())
    }

    /// Whether the question about dangers was asked and did not rule them out: a sign counts, or the answer is "not sure".
    #[must_use]
    pub fn is_feared(&self) -> bool {
        !self.signs.is_not_asked() && !self.is_ruled_out()
    }
}

/// One stretch of the route.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Stretch {
    /// Along what.
    pub along: Along,
    /// How long.
    #[serde(deserialize_with = "super::json::object")]
    pub length: Length,
    /// Whether it needs a ladder or tower: over about 3 m above the ground.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub high: bool,
}

/// The route's stretches in order from the board; `None` where there is no answer or the list is empty.
#[must_use]
pub fn said_in_stretches(answers: &Answers) -> Option<&[Stretch]> {
    answers.route.stretches.known().map(Vec::as_slice).filter(|stretches| !stretches.is_empty())
}

/// All answers about one home. In JSON, a field that was not asked is left out; see `json.rs`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answers {
    /// The day the assessment speaks of; where left out, the day the config was published.
    pub as_of: Option<Date>,
    /// What of it the installer recorded.
    pub recorded: Recorded,
    /// Hazards.
    pub hazard: Hazard,
    /// The home.
    pub home: Home,
    /// The car.
    pub parking: Parking,
    /// The meter.
    pub meter: Meter,
    /// The board.
    pub board: Board,
    /// An outbuilding's board.
    pub outbuilding: Outbuilding,
    /// Earthing and bonding.
    pub earthing: Earthing,
    /// Loads and generation.
    pub loads: Loads,
    /// The route.
    pub route: Route,
    /// What is there already.
    pub existing: Existing,
    /// The data link.
    pub signal: Signal,
    /// Wishes.
    pub wish: Wish,
    /// Cost of driving.
    pub cost: Cost,
    /// The network operator's answer.
    pub operator: Operator,
}

/// The accessors of all fields, by topic, in the order in which a file has them.
pub static TOPICS: &[(&str, &[FieldAccessor])] = &[
    ("hazard", hazard::ALL),
    ("home", home::ALL),
    ("parking", parking::ALL),
    ("meter", meter::ALL),
    ("board", board::ALL),
    ("outbuilding", outbuilding::ALL),
    ("earthing", earthing::ALL),
    ("loads", loads::ALL),
    ("route", route::ALL),
    ("existing", existing::ALL),
    ("signal", signal::ALL),
    ("wish", wish::ALL),
    ("cost", cost::ALL),
    ("operator", operator::ALL),
];
