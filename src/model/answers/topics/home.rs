//! The home: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, Postcode};
use crate::words;

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

words! {
    /// Kind of home.
    pub enum HomeKind {
        /// Detached house or bungalow.
        Detached => "detached",
        /// Semi-detached house.
        Semi => "semi-detached",
        /// Terraced house.
        Terrace => "terrace",
        /// Flat or maisonette.
        Flat => "flat",
    }
}

words! {
    /// On what terms they live there.
    pub enum Tenure {
        /// They own it.
        Own => "own",
        /// They rent it.
        Rent => "rent",
        /// They hold a lease from somebody.
        Lease => "lease",
    }
}

words! {
    /// Rough age of the home.
    pub enum Age {
        /// Before 1930.
        Before1930 => "before-1930",
        /// 1930 to 1966.
        To1966 => "1930-1966",
        /// 1967 to 1999.
        To1999 => "1967-1999",
        /// 2000 or later.
        Since2000 => "since-2000",
    }
}

words! {
    /// Planning protection.
    pub enum Protected {
        /// A listed building or its grounds.
        Listed => "listed",
        /// In a conservation area.
        ConservationArea => "conservation-area",
        /// Neither.
        Neither => "neither",
    }
}
