//! What is there of a charge point already: an old one that goes, or a cable that was left for one: its fields, and the closed lists that they are chosen from.

use crate::answers::Answer;
use crate::words;

topic! {
    /// What is there of a charge point already: an old one that goes, or a cable that was left for one.
    pub struct Existing at existing {
        /// Whether the old charge point works.
        works: bool,
        /// Whether the certificate of its circuit, or of the cable, is there to photograph.
        papers: bool,
        /// Whether the new one goes where the old one is.
        same_place: bool,
        /// How the installer found its circuit.
        circuit: CircuitFound,
    }
}

words! {
    /// What the installer found of a circuit that was left for a charge point.
    pub enum CircuitFound {
        /// It may be used as it is: dead tests, loop, size and device proved.
        Sound => "sound",
        /// Its cable may be used; its protective device is changed.
        NewDevice => "new-device",
        /// It can't be used.
        NotUsable => "not-usable",
    }
}
