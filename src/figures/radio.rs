//! The figure for the radio link.

use super::{Figure, OneOf, Reached, Value, ValueKind, from_table, needed, usual, without};
use alloc::vec::Vec;
use engine::calculation::radio::{Building, Signal, Wall, arrives, loss, verdict};
use model::answers::Word;
use model::tables::about::ITU_P1238;
use model::tables::radio as table;
use model::units::Count;

/// The register of this file.
pub const FIGURES: &[&Figure] = &[&SIGNAL];

const SIGNAL: Figure = Figure {
    name: "signal",
    gives: "the radio signal at the spot from a router indoors, and whether it will do",
    formula: "L = 20 log f + N log d + floors − 28 dB; arrives = sent − L − walls; good from −67 dBm, marginal from −75 dBm",
    clauses: &[(ITU_P1238, "")],
    source: "older editions, and COST 231: seen in the ns-3 Buildings module's design document (CTTC)",
    takes: &[&[
        // The lower of the two usual frequency bands: from memory.
        usual("frequency", "frequency", ValueKind::Megahertz, || Value::Megahertz(model::units::Megahertz::of(2400.0))),
        needed("distance", "distance between router and spot", ValueKind::Metres),
        usual("building", "kind of building", ValueKind::Word(Building::WORDS), || {
            Value::Word(Building::Residential.word())
        }),
        usual("floors", "floors between", ValueKind::Count, || Value::Count(Count::of(0))),
        without("walls", "each wall between", ValueKind::Many(&ValueKind::Word(Wall::WORDS)), "none"),
        from_table("sent", "what the router sends", ValueKind::Level, || Value::Level(table::SENT), &table::SENT_TABLE),
    ]],
    example: "frequency=2400MHz distance=10m walls=with-windows",
    work: |given| {
        let building = given.get::<OneOf<Building>>("building")?.0;
        let floors = given.get::<Count>("floors")?;
        let walls: Vec<Wall> =
            given.perhaps::<Vec<OneOf<Wall>>>("walls").unwrap_or_default().into_iter().map(|wall| wall.0).collect();
        let lost = loss(given.get("frequency")?, given.get("distance")?, building, floors);
        let level = arrives(given.get("sent")?, lost, walls.iter().copied());
        let mut reached = Reached::of(level)
            .saying(match verdict(level) {
                Signal::Good => "good",
                Signal::Marginal => "marginal",
                Signal::Weak => "weak: plan a data cable, a bridge or mobile data",
            })
            .step("loss without walls", lost)
            .row(&table::DISTANCE.table, &building.row())
            .row(&table::GOOD_TABLE, &"")
            .row(&table::MARGINAL_TABLE, &"");
        if floors > Count::of(0) {
            reached = reached.row(&table::FIRST_FLOOR.table, &building.row());
        }
        if floors > Count::of(1) {
            reached = reached.row(&table::FURTHER_FLOOR.table, &building.row());
        }
        for wall in walls {
            let of = match wall {
                Wall::Wood => &table::WALL_WOOD_TABLE,
                Wall::WithWindows => &table::WALL_WINDOWS_TABLE,
                Wall::Concrete => &table::WALL_CONCRETE_TABLE,
                Wall::Stone => &table::WALL_STONE_TABLE,
                Wall::Inside => &table::WALL_INSIDE_TABLE,
            };
            reached = reached.row(of, &"");
        }
        Ok(reached)
    },
};
