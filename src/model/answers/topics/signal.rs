//! The data link at the spot: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, BoundedCount, Length};
use crate::units::{DecibelsUnder, MegabitsPerSecond};
use crate::words;

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

words! {
    /// Where the router is, roughly.
    pub enum RouterPlace {
        /// By the board.
        ByBoard => "by-board",
        /// By the wall towards the car.
        TowardsCar => "towards-car",
        /// Elsewhere in the home.
        Elsewhere => "elsewhere",
    }
}
