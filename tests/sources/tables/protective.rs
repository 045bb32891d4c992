//! Sources: D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), p. 167, Table E 4.6; T. Linsley, *Basic Electrical Installation
//! Work* (Newnes), p. 250 and 251; training bodies' pages quoting 544.1.1; an electrician course's formula sheet (k); a public
//! electricians' forum quoting 542.3; the rest from memory.

use super::{Typed, hold, list, one};
use crate::{close, number};
use presurvey::tables::about::Grade::{CommonPractice, FromMemory, Itself, Quoted};

pub fn typed() -> Vec<Typed> {
    vec![
        list(
            "main bonding by the supply's neutral, PME",
            Quoted,
            &[(35.0, 10.0), (50.0, 16.0), (95.0, 25.0), (150.0, 35.0)],
        ),
        one("main bonding for a supply neutral over 150 mm², PME", Quoted, 50.0),
        one("main bonding without PME: share of the earthing conductor", Quoted, 0.5),
        one("main bonding without PME: least", Quoted, 6.0),
        one("main bonding without PME: need not exceed", Quoted, 25.0),
        one("protective conductor as large as the line up to, and this size until", Quoted, 16.0),
        one("protective conductor half of the line above", Quoted, 35.0),
        one("earthing conductor that distributors often ask for, PME", Itself, 16.0),
        one("buried earthing conductor, sheathed and mechanically protected: least", Quoted, 2.5),
        one("buried earthing conductor, sheathed only: least", Quoted, 16.0),
        one("buried earthing conductor, unsheathed: least", Quoted, 25.0),
        one("an electrode of its own: bonded metal out of reach up to, above the ground", CommonPractice, 2.0),
        list("meter tails by the main fuse", FromMemory, &[(80.0, 16.0), (100.0, 25.0)]),
        list(
            "k, copper, protective conductor as a core of the cable, by the cable's temperature",
            Quoted,
            &[(70.0, 115.0), (90.0, 143.0)],
        ),
        list(
            "k, copper, separate protective conductor, by the cable's temperature",
            Quoted,
            &[(70.0, 143.0), (90.0, 176.0)],
        ),
        list("k, steel armour, by the cable's temperature", FromMemory, &[(70.0, 51.0), (90.0, 46.0)]),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

/// Source: Locke, p. 167: neutral 25, 35 → 10; 50 → 16; 70, 95 → 25; 120, 150 → 35; over → 50 mm².
#[test]
fn main_bonding_by_every_size_of_neutral() {
    for (neutral, bonding) in
        [(16, 10.0), (25, 10.0), (35, 10.0), (50, 16.0), (70, 25.0), (95, 25.0), (120, 35.0), (150, 35.0), (185, 50.0)]
    {
        close(number("main-bonding", &format!("supply-neutral={neutral}mm2")), bonding, 0.0);
    }
}

/// Source: Linsley, p. 250 (Table 54.7): S to 16 mm²; 16 mm² to 35 mm²; S/2 above.
#[test]
fn protective_conductors_by_the_line() {
    for (line, protective) in
        [(2.5, 2.5), (6.0, 6.0), (16.0, 16.0), (25.0, 16.0), (35.0, 16.0), (50.0, 25.0), (70.0, 35.0)]
    {
        close(number("protective-conductor", &format!("line={line}mm2")), protective, 0.0);
    }
}

/// Source: a public electricians' forum: 25 mm² tails with a 16 mm² earthing conductor for a 100 A service is the common pair.
#[test]
fn the_common_pair_of_a_100_a_service() {
    close(number("meter-tails", "fuse=100A"), 25.0, 0.0);
    close(number("earthing-conductor", "tails=25mm2 supply-neutral=35mm2"), 16.0, 0.0);
}
