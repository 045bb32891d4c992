//! Whether enough was answered for a price: where the car stands, and some of the facts that the work depends on.
//!
//! Without these everything would be an assumption, and a band of assumptions looks as if somebody knew. Which facts: common practice, no
//! source. "Not sure" about the route counts as one fact, since they looked and can't tell; the route's length alone is enough, since most
//! of a price depends on it.

use model::answers::Answers;

/// Whether the answers are enough for a price.
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

/// How many of home, route, supply, board and large loads must have been answered where the route's length is not known.
const LEAST_TOLD: usize = 2;
