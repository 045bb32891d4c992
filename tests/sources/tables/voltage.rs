//! Sources: T. Linsley, *Basic Electrical Installation Work* (Newnes), p. 298 and 302; ESQCR 2002 regulation 27 from memory; pages
//! quoting BS 7671 722.411.4.1 (iv).

use super::{Typed, hold, one};
use presurvey::tables::about::Grade::{FromMemory, Quoted};

pub fn typed() -> Vec<Typed> {
    vec![
        one("nominal voltage to earth", FromMemory, 230.0),
        one("voltage drop allowed, other than lighting", Quoted, 0.05), // 11.5 V
        one("lowest lawful voltage of a supply", FromMemory, 216.2),    // 230 − 6 %
        one("voltage under which a voltage window opens", Quoted, 207.0),
        one("voltage over which a voltage window opens", Quoted, 253.0),
        one("time within which a voltage window opens", FromMemory, 5.0),
        one("voltage to earth over which a device against a broken combined conductor opens", Quoted, 70.0),
        one("time within which a device against a broken combined conductor opens", Quoted, 5.0),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}
