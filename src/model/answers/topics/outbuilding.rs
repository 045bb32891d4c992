//! A board in a garage or outbuilding: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, Length};
use crate::units::{Amps, SquareMillimetres};

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
