//! Figures for driving: energy a night and money a year.

use super::{Figure, LeftOut, NOMINAL, Reached, Takes, Value, ValueKind, from_table, needed, usual};
use engine::calculation::driving::{a_year, night};
use model::tables::driving::{A_MILE, A_MILE_TABLE, A_NIGHT, A_NIGHT_TABLE};
use model::units::Count;

/// The register of this file.
pub const FIGURES: &[&Figure] = &[&ENERGY_A_NIGHT, &MONEY_A_YEAR];

const MILES: Takes = needed("miles", "miles a day", ValueKind::Miles);
const EACH_MILE: Takes = from_table(
    "a-mile",
    "energy a mile",
    ValueKind::KilowattHoursPerMile,
    || Value::KilowattHoursPerMile(A_MILE),
    &A_MILE_TABLE,
);

/// Energy a night.
pub const ENERGY_A_NIGHT: Figure = Figure {
    name: "energy-a-night",
    gives: "what a day's miles need, against what the current delivers in the hours available",
    formula: "needed = miles × energy a mile; delivered = U × I × phases × hours / 1000",
    clauses: &[],
    source: "arithmetic; energy a mile: common practice, no source",
    takes: &[&[
        MILES,
        EACH_MILE,
        needed("current", "charge current", ValueKind::Amps),
        NOMINAL,
        usual("phases", "phases of the charge point", ValueKind::Count, || Value::Count(Count::of(1))),
        Takes {
            key: "hours",
            is: "hours available",
            kind: ValueKind::Hours,
            left_out: LeftOut::Table(|| Value::Hours(A_NIGHT), &A_NIGHT_TABLE),
        },
    ]],
    example: "miles=30miles current=32A",
    work: |given| {
        let worked = night(
            given.get("miles")?,
            given.get("a-mile")?,
            given.get("current")?,
            given.get("voltage")?,
            given.get("phases")?,
            given.get("hours")?,
        );
        let says = if worked.is_enough() { "delivered in a night" } else { "not delivered in a night" };
        Ok(Reached::of(worked.needed)
            .saying(says)
            .step("delivered in the hours available", worked.delivered)
            .step("time it takes", worked.takes)
            .step("a night's energy drives", worked.drives))
    },
};

/// Money a year.
pub const MONEY_A_YEAR: Figure = Figure {
    name: "money-a-year",
    gives: "what a year's driving costs at a price of energy",
    formula: "miles a day × energy a mile × 365 × pence a unit",
    clauses: &[],
    source: "arithmetic, with the homeowner's own price; energy a mile: common practice, no source",
    takes: &[&[MILES, EACH_MILE, needed("price", "price of a unit", ValueKind::PencePerKilowattHour)]],
    example: "miles=30miles price=10p/kWh",
    work: |given| Ok(Reached::of(Value::Pence(a_year(given.get("miles")?, given.get("a-mile")?, given.get("price")?)))),
};
