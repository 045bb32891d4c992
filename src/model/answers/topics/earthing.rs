//! Earthing and bonding, as far as it can be seen: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, Length, Set};
use crate::words;

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

words! {
    /// Where the green-and-yellow conductor from the board's earth bar goes.
    pub enum EarthGoes {
        /// To the service head.
        ServiceHead => "service-head",
        /// To the sheath of the supply cable.
        CableSheath => "cable-sheath",
        /// To a rod in the ground.
        Rod => "rod",
    }
}

words! {
    /// What a pipe is made of where it comes in.
    pub enum Pipe {
        /// Metal.
        Metal => "metal",
        /// Plastic.
        Plastic => "plastic",
        /// There is no such pipe.
        NoPipe => "no-pipe",
    }
}

words! {
    /// What of metal comes in from the ground besides gas and water, each to be bonded.
    pub enum OtherMetal {
        /// An oil pipe from a tank.
        Oil => "oil",
        /// A pipe of bottled gas (LPG) from a tank or bottles.
        Lpg => "lpg",
        /// Structural steel.
        Steel => "steel",
    }
}
