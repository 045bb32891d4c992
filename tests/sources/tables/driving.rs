//! Common practice, no source, but for the least charge current: IEC 61851-1, from memory.

use super::{Typed, hold, one};
use presurvey::tables::about::Grade::{CommonPractice, FromMemory};

pub fn typed() -> Vec<Typed> {
    vec![
        one("energy a mile", CommonPractice, 0.3),
        one("hours available at night", CommonPractice, 7.0),
        one("least charge current", FromMemory, 6.0),
    ]
}

#[test]
fn as_written() {
    hold(&typed());
}
