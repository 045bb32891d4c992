//! At the board (the consumer unit): its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, BoundedCount, ShortText};
use crate::words;

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

words! {
    /// What protects the circuits at the board.
    pub enum Protection {
        /// Rewirable or cartridge fuses.
        FuseWire => "fuse-wire",
        /// Circuit breakers.
        Breakers => "breakers",
    }
}

words! {
    /// How many test buttons the board shows.
    pub enum TestButtons {
        /// None.
        None => "none",
        /// One.
        One => "one",
        /// Two.
        Two => "two",
        /// One on each way, or nearly.
        EachWay => "each-way",
    }
}

words! {
    /// Gaps left in the board.
    pub enum SpareWays {
        /// None.
        None => "none",
        /// One.
        One => "one",
        /// Two or more.
        Several => "several",
    }
}

words! {
    /// Which of several boards is meant.
    pub enum WhichBoard {
        /// The one that was described.
        Described => "described",
        /// Another one.
        Another => "another",
    }
}

words! {
    /// What the board's case is made of.
    pub enum BoardCase {
        /// Metal.
        Metal => "metal",
        /// Plastic.
        Plastic => "plastic",
        /// Wood.
        Wood => "wood",
    }
}

words! {
    /// The type symbol on a residual-current device.
    pub enum RcdType {
        /// Type AC.
        Ac => "ac",
        /// Type A.
        A => "a",
        /// Type F.
        F => "f",
        /// Type B.
        B => "b",
    }
}
