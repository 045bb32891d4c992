//! Everything that can be said of a home, by topic: the fields of an answers file.

use super::{
    Age, Along, Answer, Backing, BoardCase, Buried, CarComes, Cooking, EarthGoes, Ground, HazardPlace, HazardSign,
    Heating, HomeKind, Inlet, Length, MeterKind, MeterPlace, OtherPoint, Outlet, ParkingPlace, Pipe, Postcode,
    Protected, Protection, RcdType, ShortText, SpareWays, SteeredBy, Tenure, TestButtons,
};
use super::given::{Count, Set};
use super::raw::read_fields;
use crate::units::{Amps, KilowattHours, Kilowatts, MegabitsPerSecond, Miles, PencePerKilowattHour, SquareMillimetres};
use alloc::vec::Vec;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// Declares a topic: a struct whose every field is an [`Answer`], left out of JSON where not asked.
macro_rules! topic {
    ($(#[$doc:meta])* pub struct $name:ident { $($(#[$field_doc:meta])* $field:ident: $type:ty,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq, Serialize)]
        #[serde(default, deny_unknown_fields)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub struct $name {
            $($(#[$field_doc])*
            #[serde(skip_serializing_if = "Answer::is_not_asked")]
            pub $field: Answer<$type>,)+
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let mut topic = Self::default();
                read_fields(deserializer, &[$(stringify!($field)),+], &mut [$(&mut topic.$field),+])?;
                Ok(topic)
            }
        }

        impl $name {
            fn nothing_asked(&self) -> bool {
                $(self.$field.is_not_asked())&&+
            }
        }
    };
}

topic! {
    /// Asked before anyone goes near meter or board.
    pub struct Hazard {
        /// What was noticed; an empty list is "nothing of it".
        signs: Set<HazardSign>,
        /// Where.
        place: HazardPlace,
    }
}

topic! {
    /// The home.
    pub struct Home {
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
    pub struct Parking {
        /// Where the car stands.
        place: ParkingPlace,
        /// Where its inlet is.
        inlet: Inlet,
        /// How many electric cars.
        cars: Count<1, 6>,
        /// Driven on a usual day.
        miles_a_day: Miles,
        /// When the car comes.
        car_comes: CarComes,
        /// Whether the drive is shared with a neighbour.
        shared_drive: bool,
    }
}

topic! {
    /// At the meter, from a step back.
    pub struct Meter {
        /// Where it is.
        place: MeterPlace,
        /// How many fuse carriers the service head has.
        fuse_carriers: Count<1, 3>,
        /// How many thick cables come in from the street.
        street_cables: Count<1, 3>,
        /// How many conductors leave the service head itself, green-and-yellow left out.
        head_conductors: Count<2, 6>,
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
    }
}

topic! {
    /// At the board (the consumer unit).
    pub struct Board {
        /// Fuses or breakers.
        protection: Protection,
        /// Test buttons.
        test_buttons: TestButtons,
        /// Gaps left.
        spare_ways: SpareWays,
        /// How many boards there are.
        boards: Count<1, 6>,
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
    pub struct Outbuilding {
        /// Whether the board meant is one in a garage or outbuilding.
        board_there: bool,
        /// Cross-section of the cable that feeds it.
        feed_size: SquareMillimetres,
        /// Length of that cable.
        feed_length: Length,
        /// Rating of the device at its origin.
        feed_device: Amps,
    }
}

topic! {
    /// Earthing and bonding, as far as it can be seen.
    pub struct Earthing {
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
        /// Distance from the gas meter to the spot.
        gas_meter_distance: Length,
    }
}

topic! {
    /// What uses electricity already.
    pub struct Loads {
        /// Electric showers.
        showers: Count<0, 4>,
        /// Rating of the largest of them.
        shower_power: Kilowatts,
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
        /// Another charge point.
        other_point: OtherPoint,
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
    pub struct Route {
        /// Roughly how far.
        length: Length,
        /// Mostly along what.
        mostly: Along,
        /// Stretch by stretch, in order; where given it stands in place of the rough answer.
        stretches: Vec<Stretch>,
        /// How many walls must be drilled.
        walls: Count<0, 9>,
        /// Thickness of the thickest.
        wall_thickness: Length,
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
    /// The data link at the spot.
    pub struct Signal {
        /// Bars of the home's Wi-Fi shown by the phone at the spot.
        wifi_bars: Count<0, 4>,
        /// A timed transfer from the spot, on the home's own Wi-Fi.
        transfer: MegabitsPerSecond,
        /// Bars of mobile signal.
        mobile_bars: Count<0, 4>,
        /// Whether a data cable runs there already.
        data_cable: bool,
    }
}

topic! {
    /// What they would like.
    pub struct Wish {
        /// Socket or fixed lead.
        outlet: Outlet,
        /// Charging from their own solar power.
        follow_solar: bool,
        /// Holding back while the home is busy.
        hold_back: bool,
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
    pub struct Cost {
        /// By day.
        day: PencePerKilowattHour,
        /// At night.
        night: PencePerKilowattHour,
        /// At public charge points.
        public: PencePerKilowattHour,
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
    pub length: Length,
    /// Whether it needs a ladder or tower: over about 3 m above the ground.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub high: bool,
}

/// Everything said of one home. Fields left out were not asked.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Answers {
    /// The day the assessment speaks of; where left out, the day the config was published.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<alloc::string::String>"))]
    #[serde(with = "super::day::option")]
    pub as_of: Option<Date>,
    /// Hazards.
    #[serde(skip_serializing_if = "Hazard::nothing_asked")]
    pub hazard: Hazard,
    /// The home.
    #[serde(skip_serializing_if = "Home::nothing_asked")]
    pub home: Home,
    /// The car.
    #[serde(skip_serializing_if = "Parking::nothing_asked")]
    pub parking: Parking,
    /// The meter.
    #[serde(skip_serializing_if = "Meter::nothing_asked")]
    pub meter: Meter,
    /// The board.
    #[serde(skip_serializing_if = "Board::nothing_asked")]
    pub board: Board,
    /// An outbuilding's board.
    #[serde(skip_serializing_if = "Outbuilding::nothing_asked")]
    pub outbuilding: Outbuilding,
    /// Earthing and bonding.
    #[serde(skip_serializing_if = "Earthing::nothing_asked")]
    pub earthing: Earthing,
    /// Loads and generation.
    #[serde(skip_serializing_if = "Loads::nothing_asked")]
    pub loads: Loads,
    /// The route.
    #[serde(skip_serializing_if = "Route::nothing_asked")]
    pub route: Route,
    /// The data link.
    #[serde(skip_serializing_if = "Signal::nothing_asked")]
    pub signal: Signal,
    /// Wishes.
    #[serde(skip_serializing_if = "Wish::nothing_asked")]
    pub wish: Wish,
    /// Cost of driving.
    #[serde(skip_serializing_if = "Cost::nothing_asked")]
    pub cost: Cost,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_not_asked_is_left_out() {
        assert_eq!(serde_json::to_string(&Answers::default()).unwrap(), "{}");
        let mut answers = Answers::default();
        answers.meter.fuse_carriers = Answer::NotSure;
        assert_eq!(serde_json::to_string(&answers).unwrap(), r#"{"meter":{"fuse_carriers":"not-sure"}}"#);
        assert_eq!(serde_json::from_str::<Answers>("{}").unwrap(), Answers::default());
    }

    #[test]
    fn a_list_in_place_of_a_topic_is_refused() {
        assert!(serde_json::from_str::<Answers>(r#"{"meter":["indoors"]}"#).is_err());
        assert!(serde_json::from_str::<Answers>(r#"{"meter":{"place":"indoors"}}"#).is_ok());
    }

    #[test]
    fn a_misspelt_field_is_refused_by_name() {
        let error = serde_json::from_str::<Answers>(r#"{"meter":{"fuses":1}}"#).unwrap_err();
        assert!(alloc::string::ToString::to_string(&error).contains("fuses"));
    }
}
