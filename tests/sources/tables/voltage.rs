//! Sources: T. Linsley, *Basic Electrical Installation Work* (Newnes), p. 298 and 302; ESQCR 2002 regulation 27 from memory.

use super::{Typed, hold, one};
use presurvey::tables::about::Grade::{FromMemory, Seen};

pub fn typed() -> Vec<Typed> {
    vec![
        one("nominal voltage to earth", FromMemory, 230.0),
        one("voltage drop allowed, other than lighting", Seen, 0.05), // 11.5 V
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}
