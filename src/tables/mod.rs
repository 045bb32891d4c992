//! Published tables as typed constants, a source above each; looked up, never computed here.
//!
//! Edition: BS 7671:2018+A2:2022 unless a table says otherwise. Marks: "seen" was read in the named copy, "from memory" was not.

pub mod armoured;
pub mod bonding;
pub mod conductor_resistance;
pub mod disconnection;
pub mod diversity;
pub mod external_impedance;
pub mod twin_and_earth;
pub mod voltage;
