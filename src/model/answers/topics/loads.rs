//! What uses electricity already: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, BoundedCount, ShortText};
use crate::units::{KilowattHours, Kilowatts};
use crate::words;

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

words! {
    /// How the home cooks.
    pub enum Cooking {
        /// All electric.
        Electric => "electric",
        /// Electric oven, gas hob.
        Mixed => "mixed",
        /// All gas or other fuel.
        Gas => "gas",
    }
}

words! {
    /// Electric heating.
    pub enum Heating {
        /// None.
        None => "none",
        /// Storage heaters, charged at night.
        Storage => "storage",
        /// Panel heaters, floor warming or an electric boiler.
        Direct => "direct",
        /// A heat pump.
        HeatPump => "heat-pump",
    }
}

words! {
    /// Another charge point in the home.
    pub enum OtherPoint {
        /// None.
        None => "none",
        /// There is one, to be replaced.
        Replaced => "replaced",
        /// There is one that stays.
        Kept => "kept",
    }
}
