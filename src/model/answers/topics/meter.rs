//! At the meter, from a step back: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, BoundedCount, Length};
use crate::units::Amps;
use crate::words;

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

words! {
    /// Where the meter is.
    pub enum MeterPlace {
        /// Indoors, in the open.
        Indoors => "indoors",
        /// In a box on an outside wall.
        OutsideBox => "outside-box",
        /// In a cupboard.
        Cupboard => "cupboard",
        /// In a shared meter room or hall.
        Communal => "communal",
    }
}

words! {
    /// Kind of meter.
    pub enum MeterKind {
        /// One rate.
        OneRate => "one-rate",
        /// Two rates, day and night.
        TwoRate => "two-rate",
        /// Smart meter.
        Smart => "smart",
        /// Prepayment meter.
        Prepayment => "prepayment",
    }
}

words! {
    /// What the meter is mounted on.
    pub enum Backing {
        /// Plain wood or board.
        Wood => "wood",
        /// A dark or fibrous board.
        DarkOrFibrous => "dark-or-fibrous",
        /// Metal, plastic or the wall itself.
        Other => "other",
    }
}

words! {
    /// How the installer found service head, cable and meter.
    pub enum ServiceEquipment {
        /// Sound, as far as it can be seen.
        Sound => "sound",
        /// Worrying.
        InDoubt => "in-doubt",
    }
}

words! {
    /// Whether tails and main earthing conductor are large enough, as the installer found them.
    pub enum MainConductors {
        /// Both are.
        Enough => "enough",
        /// The main earthing conductor is not.
        MainEarthSmall => "main-earth-small",
        /// Neither is.
        BothSmall => "both-small",
    }
}

words! {
    /// What the cable would run along.
    pub enum Along {
        /// Inside: along walls, in cupboards or trunking.
        Inside => "inside",
        /// In a loft or under a floor.
        LoftOrFloor => "loft-or-floor",
        /// Clipped to an outside wall.
        OutsideWall => "outside-wall",
        /// On a fence.
        Fence => "fence",
        /// Under soft ground: lawn, bed, gravel.
        SoftGround => "soft-ground",
        /// Under paving, concrete or tarmac.
        Paving => "paving",
    }
}
