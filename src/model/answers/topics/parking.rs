//! The car and where it stands: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, BoundedCount, Length};
use crate::units::Miles;
use crate::words;

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

words! {
    /// Where the car stands.
    pub enum ParkingPlace {
        /// A drive or other ground of their own beside the home.
        Drive => "drive",
        /// A garage joined to the home.
        AttachedGarage => "attached-garage",
        /// A garage that stands apart.
        DetachedGarage => "detached-garage",
        /// A bay of their own in a shared car park.
        SharedCarPark => "shared-car-park",
        /// On the street.
        Street => "street",
    }
}

words! {
    /// Where the car's charging inlet is, seen from the driver's seat.
    pub enum Inlet {
        /// At the nose.
        Front => "front",
        /// Front left wing.
        FrontLeft => "front-left",
        /// Front right wing.
        FrontRight => "front-right",
        /// Rear left wing.
        RearLeft => "rear-left",
        /// Rear right wing.
        RearRight => "rear-right",
        /// At the tail.
        Rear => "rear",
        /// The car isn't chosen yet.
        NotKnownYet => "not-known-yet",
    }
}

words! {
    /// When the car comes.
    pub enum CarComes {
        /// It is here.
        Here => "here",
        /// Within a month.
        WithinAMonth => "within-a-month",
        /// Later.
        Later => "later",
    }
}
