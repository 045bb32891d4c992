//! Whether enough was said for a price: where the car stands, and something of what the work rests on.
//!
//! Without it everything would be an assumption, and a band of assumptions looks as if somebody knew. Which facts: common practice, no
//! source. "Not sure" of the way says that they looked and can't tell, which counts like another fact; the way itself is most of a price.

use model::answers::Answers;

/// Whether there is anything to price.
pub(super) fn is_enough(answers: &Answers) -> bool {
    let Answers { home, parking, route, meter, board, loads, .. } = answers;
    let way = route.length.known().is_some() || route.stretches.known().is_some_and(|stretches| !stretches.is_empty());
    let looked = !(route.length.is_not_asked() && route.mostly.is_not_asked() && route.stretches.is_not_asked());
    let supply = meter.fuse_carriers.known().is_some() || meter.head_conductors.known().is_some();
    let at_board = board.protection.known().is_some() || board.spare_ways.known().is_some();
    let use_of_power = loads.showers.known().is_some() || loads.heating.known().is_some();
    let told = [home.kind.known().is_some(), looked, supply, at_board, use_of_power];
    parking.place.known().is_some() && (way || told.iter().filter(|told| **told).count() >= LEAST_TOLD)
}

/// How many of home, way, supply, board and what uses power, where the way itself is not known.
const LEAST_TOLD: usize = 2;
