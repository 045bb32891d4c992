//! Sources: IET *Wiring Matters* 72 (Sept 2018), Table 1, from ENA ER P23/1:1991.

use super::{Typed, hold, one};
use presurvey::tables::about::Grade::Quoted;

pub fn typed() -> Vec<Typed> {
    vec![
        one("declared external impedance, TN-C-S", Quoted, 0.35),
        one("declared external impedance, TN-S", Quoted, 0.8),
        one("declared external impedance, TT, without the consumer's electrode", Quoted, 21.0),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}
