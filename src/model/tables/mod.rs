//! Published tables as typed constants, each with its source above it. Values are looked up here, never computed.
//!
//! Each table says which publication and edition it is from, where it was read and how sure that is ([`about`]). [`ALL`] is the list that
//! the report of sources and its tests go through. A figure that is only from memory does not count as checked.

pub mod about;
pub mod armoured;
pub mod bonding;
pub mod conductor_resistance;
pub mod disconnection;
pub mod diversity;
pub mod driving;
pub mod external_impedance;
pub mod radio;
pub mod rating_factors;
pub mod surroundings;
pub mod thermoplastic;
pub mod twin_and_earth;
pub mod voltage;

/// Every table of every file.
pub const ALL: &[&[&about::Table]] = &[
    conductor_resistance::TABLES,
    armoured::TABLES,
    twin_and_earth::TABLES,
    thermoplastic::TABLES,
    rating_factors::TABLES,
    surroundings::TABLES,
    voltage::TABLES,
    disconnection::TABLES,
    external_impedance::TABLES,
    diversity::TABLES,
    driving::TABLES,
    bonding::TABLES,
    radio::TABLES,
];
