//! Calculations of the trade, each from figures alone. Nothing here uses answers or cases, or decides anything.

pub mod capacity;
pub mod charge_current;
pub mod demand;
pub mod driving;
pub mod feed;
pub mod load_limit;
pub mod loop_impedance;
pub mod protective;
pub mod radio;
pub mod reach;
pub mod sizing;
pub mod voltage_drop;
