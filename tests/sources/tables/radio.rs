//! Source: ns-3 Buildings module, design document (CTTC), citing ITU-R P.1238 and COST 231; thresholds: survey practice pages and a
//! building-sensor maker's white paper.

use super::{Typed, hold, list, one};
use crate::{close, number, step, work};
use presurvey::tables::about::Grade::{CommonPractice, FromMemory, Quoted};

pub fn typed() -> Vec<Typed> {
    vec![
        list(
            "distance coefficient N: residential (1), office (2), commercial (3)",
            Quoted,
            &[(1.0, 28.0), (2.0, 30.0), (3.0, 22.0)],
        ),
        // Lf: residential 4n, office 15 + 4(n − 1), commercial 6 + 3(n − 1).
        list(
            "loss of the first floor: residential (1), office (2), commercial (3)",
            Quoted,
            &[(1.0, 4.0), (2.0, 15.0), (3.0, 6.0)],
        ),
        list(
            "loss of every further floor: residential (1), office (2), commercial (3)",
            Quoted,
            &[(1.0, 4.0), (2.0, 4.0), (3.0, 3.0)],
        ),
        one("loss of a wall of wood", Quoted, 4.0),
        one("loss of an outside wall with windows", Quoted, 7.0),
        one("loss of a concrete wall without windows", Quoted, 15.0),
        one("loss of a stone wall", Quoted, 12.0),
        one("loss of an inside wall", FromMemory, 5.0),
        one("most that a 2.4 GHz router sends", FromMemory, 20.0),
        one("signal that is good from", Quoted, -67.0),
        one("signal that is marginal from, weak below", CommonPractice, -75.0),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// The formula worked by hand: 20 log 2400 = 67.60, 28 log 10 = 28.00, one floor 4, less 28: 71.6 dB; on one floor 67.6 dB; a router at
/// 20 dBm through one outside wall: −54.6 dBm.
#[test]
fn ten_metres_at_2400_mhz() {
    close(step("signal", "distance=10m floors=1", "loss without walls"), 71.6, 0.05);
    close(step("signal", "distance=10m", "loss without walls"), 67.6, 0.05);
    close(number("signal", "distance=10m walls=with-windows"), -54.6, 0.05);
    let said = |given: &str| work("signal", given).unwrap().value;
    assert!(said("distance=10m walls=with-windows").contains("good"));
    assert!(said("distance=15m floors=1 walls=with-windows,inside").contains("marginal"));
    assert!(said("distance=25m floors=1 walls=stone,inside").contains("weak"));
}

/// Office: 15 + 4(n − 1); commercial: 6 + 3(n − 1).
#[test]
fn floors_of_every_building() {
    let loss = |given: &str| step("signal", given, "loss without walls");
    for (building, three) in [("residential", 12.0), ("office", 23.0), ("commercial", 12.0)] {
        let at = |floors| loss(&format!("distance=1m building={building} floors={floors}"));
        close(at(3) - at(0), three, 0.002);
    }
}
