//! Figures for the earth fault loop.

use super::cable::in_words;
use super::limits::type_table;
use super::voltage_drop::{ARMOURED, pieces};
use super::{
    Arguments, Figure, FigureError, NOMINAL, OneOf, Reached, Takes, Value, ValueKind, from_table, needed, table_rows,
    usual, without,
};
use alloc::string::ToString;
use alloc::vec::Vec;
use engine::calculation::loop_impedance::{
    BreakerType, declared, electrode_limit, in_series, limit, longest, r1_plus_r2_per_metre,
};
use engine::calculation::sizing::{Disconnects, protective_of};
use engine::design::laid::Around;
use engine::site::EarthingArrangement;
use model::answers::{Along, Word, choices::words};
use model::tables::about::{BS_7671, Table};
use model::tables::conductor_resistance::{COPPER_AT_20C, TO_70C, TO_70C_TABLE};
use model::tables::disconnection as table;
use model::tables::{armoured, external_impedance, twin_and_earth};
use model::units::{Amps, Count, Metres, MilliohmsPerMetre, Ohms, Ratio, SquareMillimetres, Volts};

/// The register of this file.
pub const FIGURES: &[&Figure] = &[
    &CONDUCTOR_RESISTANCE,
    &ARMOUR_RESISTANCE,
    &LOOP_IMPEDANCE,
    &LONGEST_RUN_BY_LOOP_IMPEDANCE,
    &IMPEDANCE,
    &FAULT_CURRENT,
];

words! {
    /// How a supply is earthed.
    pub enum Arrangement {
        /// Combined neutral and earth in the supply (PME).
        TnCS => "tn-c-s",
        /// A separate earth.
        TnS => "tn-s",
        /// An electrode of the home's own.
        Tt => "tt",
    }
}

impl Arrangement {
    const fn meant(self) -> EarthingArrangement {
        match self {
            Self::TnCS => EarthingArrangement::TnCS,
            Self::TnS => EarthingArrangement::TnS,
            Self::Tt => EarthingArrangement::Tt,
        }
    }

    const fn table(self) -> &'static Table {
        match self {
            Self::TnCS => &external_impedance::TN_C_S_TABLE,
            Self::TnS => &external_impedance::TN_S_TABLE,
            Self::Tt => &external_impedance::TT_TABLE,
        }
    }
}

pub(super) const EXTERNAL: Takes =
    without("external", "external impedance, Ze", ValueKind::Ohms, "as declared, by `arrangement`");
pub(super) const ARRANGEMENT: Takes = without(
    "arrangement",
    "how the supply is earthed",
    ValueKind::Word(Arrangement::WORDS),
    "needed without `external`",
);
pub(super) const LOOP_AHEAD: Takes = without(
    "loop-ahead",
    "R1 + R2, warm, from the origin to where the cable begins",
    ValueKind::Ohms,
    "it begins at the origin",
);
pub(super) const BREAKER: Takes =
    usual("breaker", "type of the breaker", ValueKind::Word(BreakerType::WORDS), || Value::Word(BreakerType::B.word()));
pub(super) const C_MIN: Takes = from_table(
    "c-min",
    "least factor of the voltage, Cmin",
    ValueKind::Ratio,
    || Value::Ratio(table::C_MIN),
    &table::C_MIN_TABLE,
);

const LINE: Takes = without("line", "line conductor", ValueKind::SquareMillimetres, "needed without `per-metre`");
const PROTECTIVE: Takes = without(
    "protective",
    "protective conductor",
    ValueKind::SquareMillimetres,
    "the one in flat twin-and-earth of that size",
);
const PER_METRE: Takes = without(
    "per-metre",
    "resistance of both conductors a metre, r1 + r2, at 20 °C",
    ValueKind::MilliohmsPerMetre,
    "looked up",
);
const WARM: Takes = from_table(
    "warm",
    "multiplier from 20 °C to the working temperature",
    ValueKind::Ratio,
    || Value::Ratio(TO_70C),
    &TO_70C_TABLE,
);

/// The external impedance: as given, or as declared for the arrangement.
pub(super) fn external(given: &Arguments, reached: Reached) -> Result<(Ohms, Reached), FigureError> {
    if let Some(ze) = given.perhaps("external") {
        return Ok((ze, reached));
    }
    let arrangement = given.get::<OneOf<Arrangement>>("arrangement")?.0;
    let ze = declared(arrangement.meant());
    Ok((ze, reached.step("Ze, as declared", ze).row(arrangement.table(), &"")))
}

/// r1 + r2: as given, or looked up for the conductors.
fn per_metre(given: &Arguments, reached: Reached) -> Result<(MilliohmsPerMetre, Reached), FigureError> {
    if let Some(per_metre) = given.perhaps("per-metre") {
        return Ok((per_metre, reached));
    }
    let line: SquareMillimetres = given.get("line")?;
    let (protective, reached) = match given.perhaps("protective") {
        Some(protective) => (protective, reached),
        None => {
            let protective = table_rows::at("line", &twin_and_earth::CPC, line)?;
            (protective, reached.step("protective conductor", protective).row(&twin_and_earth::CPC.table, &line))
        }
    };
    table_rows::at("line", &COPPER_AT_20C, line)?;
    table_rows::at("protective", &COPPER_AT_20C, protective)?;
    let per_metre = r1_plus_r2_per_metre(line, protective)
        .ok_or_else(|| table_rows::none("line", &COPPER_AT_20C.table, line.to_string()))?;
    let reached = reached.step("r1 + r2 at 20 °C", per_metre);
    Ok((per_metre, reached.row(&COPPER_AT_20C.table, &line).row(&COPPER_AT_20C.table, &protective)))
}

const CONDUCTOR_RESISTANCE: Figure = Figure {
    name: "conductor-resistance",
    gives: "resistance of line and protective conductor over a length, R1 + R2",
    formula: "R1 + R2 = (r1 + r2) × length × multiplier",
    clauses: &[],
    source: "definition; resistances IEC 60228; multiplier J. Whitfield, The Electricians Guide, Table 5.5",
    takes: &[&[needed("length", "length, one way", ValueKind::Metres), LINE, PROTECTIVE, PER_METRE, WARM]],
    example: "length=30m line=6mm2",
    work: |given| {
        let (per, steps) = per_metre(given, Reached::of(Ohms::ZERO))?;
        let ohms = per * given.get::<Metres>("length")? * given.get::<Ratio>("warm")?;
        Ok(Reached { value: Value::Ohms(ohms), ..steps })
    },
};

const ARMOUR_RESISTANCE: Figure = Figure {
    name: "armour-resistance",
    gives: "resistance of a cable's steel armour over a length, and its cross-section",
    formula: "r × length × multiplier",
    clauses: &[],
    source: "D. Locke, Guide to the Wiring Regulations (Wiley, 2008), Appendix 4 Table 4.4; larger sizes from memory; steel warms by another law than copper: the same multiplier is the cautious estimate",
    takes: &[&[
        needed("size", "cross-section of the line conductor", ValueKind::SquareMillimetres),
        usual("cores", "cores: 2 or 3", ValueKind::Count, || Value::Count(Count::of(2))),
        needed("length", "length, one way", ValueKind::Metres),
        WARM,
    ]],
    example: "size=6mm2 length=30m",
    work: |given| {
        let size: SquareMillimetres = given.get("size")?;
        let cores: Count = given.get("cores")?;
        let (seen, larger) = match cores.get() {
            2 => (armoured::ARMOUR_TWO_CORE, armoured::ARMOUR_TWO_CORE_LARGER),
            3 => (armoured::ARMOUR_THREE_CORE, armoured::ARMOUR_THREE_CORE_LARGER),
            _ => {
                return Err(FigureError::NotAllowed {
                    key: "cores",
                    given: cores.to_string(),
                    why: "no table is for it".to_string(),
                    allowed: "2, 3".to_string(),
                });
            }
        };
        let of = if table_rows::at("size", &seen, size).is_ok() { seen } else { larger };
        let per = table_rows::at("size", &of, size)?;
        let ohms = per * given.get::<Metres>("length")? * given.get::<Ratio>("warm")?;
        let mut reached = Reached::of(ohms).step("r at 20 °C", per).row(&of.table, &size);
        if cores == Count::of(2) {
            let area = table_rows::at("size", &armoured::ARMOUR_AREA, size)?;
            reached = reached.step("cross-section of the armour", area).row(&armoured::ARMOUR_AREA.table, &size);
        }
        Ok(reached)
    },
};

/// Earth fault loop impedance.
pub const LOOP_IMPEDANCE: Figure = Figure {
    name: "loop-impedance",
    gives: "earth fault loop impedance at the far end, against what disconnects",
    formula: "Zs = Ze + (r1 + r2) × length × multiplier, over every stretch and what lies ahead of them; limit U0 × Cmin / Ia",
    clauses: &[(BS_7671, "411.4.4"), (BS_7671, "Table 41.3"), (BS_7671, "722.531.3.101")],
    source: "Cmin and the multiples from memory; Ze as declared is never guaranteed: it is measured; resistances IEC 60228; armoured cable with a copper core of the line's size as protective conductor",
    takes: &[&[
        EXTERNAL,
        ARRANGEMENT,
        LOOP_AHEAD,
        without("length", "length of one stretch, one way", ValueKind::Metres, "needed without `route`"),
        LINE,
        PROTECTIVE,
        PER_METRE,
        without("route", "stretches from board to charge point, in place of `length`", ValueKind::Route, "one stretch"),
        ARMOURED,
        WARM,
        without("limit", "greatest impedance allowed", ValueKind::Ohms, "by `rating` and `breaker`"),
        without("rating", "rating of the breaker", ValueKind::Amps, "not compared"),
        BREAKER,
        without("residual", "residual current of a device that may be relied on", ValueKind::Amps, "none"),
        NOMINAL,
        C_MIN,
    ]],
    example: "arrangement=tn-c-s length=20m line=6mm2 rating=32A residual=30mA",
    work: |given| {
        let (ze, mut steps) = external(given, Reached::of(Ohms::ZERO))?;
        let warm: Ratio = given.get("warm")?;
        let mut route_ohms = Ohms::ZERO;
        match given.perhaps::<Vec<(Along, Metres)>>("route") {
            Some(route) => {
                let line: SquareMillimetres = given.get("line")?;
                let around = Around { armoured: given.get("armoured")?, ..Around::NOTHING };
                for (piece, (along, _)) in pieces(&route, false, around).iter().zip(&route) {
                    let protective = protective_of(piece.cable, line)
                        .ok_or_else(|| table_rows::none("line", &twin_and_earth::CPC.table, line.to_string()))?;
                    let per = r1_plus_r2_per_metre(line, protective)
                        .ok_or_else(|| table_rows::none("line", &COPPER_AT_20C.table, line.to_string()))?;
                    let stretch = per * piece.length * warm;
                    route_ohms = route_ohms + stretch;
                    steps = steps
                        .step(alloc::format!("{}, {}: R1 + R2, warm", along.word(), piece.length), stretch)
                        .row(&COPPER_AT_20C.table, &line)
                        .row(&COPPER_AT_20C.table, &protective);
                }
            }
            None => {
                let (per, with_rows) = per_metre(given, steps)?;
                steps = with_rows;
                route_ohms = per * given.get::<Metres>("length")? * warm;
            }
        }
        let ahead = given.perhaps("loop-ahead").unwrap_or(Ohms::ZERO);
        let zs = ze + (ahead + route_ohms);
        steps = steps.step("R1 + R2, warm", route_ohms);
        let breaker = given.get::<OneOf<BreakerType>>("breaker")?.0;
        let most = given.perhaps::<Ohms>("limit").or_else(|| {
            let rating = given.perhaps::<Amps>("rating")?;
            Some(limit(given.perhaps("voltage")?, given.perhaps("c-min")?, breaker.multiple(), rating))
        });
        let Some(most) = most else { return Ok(Reached { value: Value::Ohms(zs), ..steps }) };
        steps = steps.step("the breaker's limit", most);
        let by = if zs.is_within(most) {
            Disconnects::Breaker
        } else if let Some(residual) = given.perhaps::<Amps>("residual") {
            let with_device = electrode_limit(table::TOUCH_LIMIT, residual);
            steps =
                steps.step("limit with the residual-current device", with_device).row(&table::TOUCH_LIMIT_TABLE, &"");
            if zs.is_within(with_device) { Disconnects::ResidualDevice } else { Disconnects::Neither }
        } else {
            Disconnects::Neither
        };
        Ok(Reached { value: Value::Ohms(zs), ..steps }.row(type_table(breaker), &"").saying(in_words(by)))
    },
};

const LONGEST_RUN_BY_LOOP_IMPEDANCE: Figure = Figure {
    name: "longest-run-by-loop-impedance",
    gives: "the longest run whose loop impedance is within a limit",
    formula: "length = (limit − Ze) / ((r1 + r2) × multiplier)",
    clauses: &[(BS_7671, "411.4.4")],
    source: "arithmetic of the loop impedance, its limit from memory; worked on electriciansforums.net, 'The maximum length of cable permissible'",
    takes: &[&[
        needed("limit", "greatest impedance allowed", ValueKind::Ohms),
        EXTERNAL,
        ARRANGEMENT,
        LINE,
        PROTECTIVE,
        PER_METRE,
        WARM,
    ]],
    example: "limit=1.37ohm arrangement=tn-c-s line=6mm2",
    work: |given| {
        let (ze, steps) = external(given, Reached::of(Metres::ZERO))?;
        let (per, steps) = per_metre(given, steps)?;
        let run = longest(given.get("limit")?, ze, per * given.get::<Ratio>("warm")?);
        Ok(Reached { value: Value::Metres(run), ..steps })
    },
};

const IMPEDANCE: Figure = Figure {
    name: "impedance",
    gives: "impedance of parts in series",
    formula: "Z = √((sum of R)² + (sum of X)²)",
    clauses: &[],
    source: "definition; worked on the IET's forum, 'Calculation of earth fault loop impedance'",
    takes: &[&[
        needed("resistance", "resistance of each part", ValueKind::Many(&ValueKind::Ohms)),
        needed("reactance", "reactance of each part", ValueKind::Many(&ValueKind::Ohms)),
    ]],
    example: "resistance=0.021ohm reactance=0.022ohm",
    work: |given| {
        let parts = |key: &'static str| given.get::<Vec<Ohms>>(key);
        Ok(Reached::of(in_series(parts("resistance")?.into_iter(), parts("reactance")?.into_iter())))
    },
};

const FAULT_CURRENT: Figure = Figure {
    name: "fault-current",
    gives: "the current of a fault to earth",
    formula: "I = U0 × factor / Zs",
    clauses: &[],
    source: "definition; worked in T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250–251",
    takes: &[&[
        needed("impedance", "loop impedance", ValueKind::Ohms),
        NOMINAL,
        usual("factor", "factor of the voltage: 0.95 for the least current", ValueKind::Ratio, || {
            Value::Ratio(Ratio::of(1.0))
        }),
    ]],
    example: "impedance=1.15ohm",
    work: |given| {
        let voltage = given.get::<Volts>("voltage")? * given.get::<Ratio>("factor")?;
        Ok(Reached::of(voltage.through(given.get("impedance")?)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_disconnects_is_said() {
        let work = |text: &str| {
            LOOP_IMPEDANCE.working(&Arguments::read(&LOOP_IMPEDANCE, text.split(' ')).unwrap()).unwrap().value
        };
        assert!(work("arrangement=tn-c-s length=20m line=6mm2 rating=32A").contains("the breaker disconnects"));
        assert!(work("arrangement=tt length=20m line=6mm2 rating=32A residual=30mA").contains("relied on"));
        assert!(work("arrangement=tt length=20m line=6mm2 rating=32A").contains("neither"));
    }

    #[test]
    fn dividing_by_nothing_has_no_answer() {
        let given = Arguments::read(&FAULT_CURRENT, ["impedance=0ohm"]).unwrap();
        assert!(matches!(FAULT_CURRENT.working(&given), Err(FigureError::NoAnswer { figure: "fault-current" })));
    }
}
