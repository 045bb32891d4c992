//! The figure of the whole cable: the smallest size that passes every check along a route of mixed stretches.

use super::fault_loop::{ARRANGEMENT, BREAKER, C_MIN, EXTERNAL, LOOP_AHEAD, external};
use super::voltage_drop::{ARMOURED, BESIDE, CURRENT, DATA, DROP_AHEAD, SHARE, around, pieces};
use super::{Arguments, Figure, NOMINAL, OneOf, Reached, Value, ValueKind, from_table, needed, usual, without};
use alloc::string::ToString;
use alloc::vec::Vec;
use engine::calculation::capacity::{iz, published, published_drop};
use engine::calculation::loop_impedance::BreakerType;
use engine::calculation::sizing::{Ahead, CHECKS, Check, Disconnects, Needs, Piece, SIZES, check, choose};
use engine::design::cable::rating_for;
use engine::design::laid::{Around, ambient, published_factors};
use model::answers::Along;
use model::tables::about::BS_7671;
use model::tables::disconnection::{RESIDUAL, RESIDUAL_TABLE};
use model::tables::{rating_factors, surroundings};
use model::units::{Amps, Count, Metres, Ohms, Ratio, SquareMillimetres, Volts};

/// The register of this file.
pub const FIGURES: &[&Figure] = &[&CABLE_SIZE];

/// The whole choice.
pub const CABLE_SIZE: Figure = Figure {
    name: "cable-size",
    gives: "the smallest size that passes every check along a route of mixed stretches, and the check that asks for it",
    formula: "the smallest with Ib ≤ In ≤ Iz on every stretch, voltage drop from the origin within its limit, a fault disconnected by the breaker or a residual-current device, and √(I²t)/k within every protective conductor",
    clauses: &[
        (BS_7671, "Appendix 4"),
        (BS_7671, "411.4.4"),
        (BS_7671, "543.1.3"),
        (BS_7671, "512.1.5"),
        (BS_7671, "722.531.3.101"),
    ],
    source: "411.4.4 from memory; 512.1.5 from memory (a 90 °C cable is rated by the 70 °C table for its terminals; a public forum post says the same); 6 mm² at least: common practice, no source",
    takes: &[&[
        CURRENT,
        without("rating", "rating of the protective device, In", ValueKind::Amps, "the next standard rating"),
        needed("route", "stretches from board to charge point", ValueKind::Route),
        DATA,
        BESIDE,
        ARMOURED,
        without("in-wall", "insulation that surrounds it where it passes a wall", ValueKind::Metres, "it passes none"),
        EXTERNAL,
        ARRANGEMENT,
        DROP_AHEAD,
        LOOP_AHEAD,
        without(
            "external-lowest",
            "lowest external impedance that is possible, for the fault current",
            ValueKind::Ohms,
            "as `external`",
        ),
        BREAKER,
        usual("residual-device", "whether a residual-current device may be relied on", ValueKind::YesNo, || {
            Value::YesNo(true)
        }),
        from_table("residual", "its residual current", ValueKind::Amps, || Value::Amps(RESIDUAL), &RESIDUAL_TABLE),
        NOMINAL,
        C_MIN,
        SHARE,
        without("ambient-factor", "Ca, on every stretch", ValueKind::Ratio, "each stretch's own"),
        without("grouping-factor", "Cg, on every stretch", ValueKind::Ratio, "each stretch's own"),
    ]],
    example: "current=32A route=inside:5m,outside-wall:8m,soft-ground:20m arrangement=tn-c-s",
    work: |given| {
        let ib: Amps = given.get("current")?;
        let (ze, with_row) = external(given, Reached::of(Ohms::ZERO))?;
        let nominal: Volts = given.get("voltage")?;
        let needs = Needs {
            ib,
            in_: given.perhaps("rating").unwrap_or_else(|| rating_for(ib)),
            breaker: given.get::<OneOf<BreakerType>>("breaker")?.0,
            residual: if given.get("residual-device")? { Some(given.get("residual")?) } else { None },
            nominal,
            c_min: given.get("c-min")?,
            allowed: nominal * given.get::<Ratio>("share")?,
            ahead: Ahead {
                drop: given.perhaps("drop-ahead").unwrap_or(Volts::ZERO),
                r1_plus_r2: given.perhaps("loop-ahead").unwrap_or(Ohms::ZERO),
            },
            ze_highest: ze,
            ze_lowest: given.perhaps("external-lowest").unwrap_or(ze),
        };
        let route = given.get::<Vec<(Along, Metres)>>("route")?;
        let around = around(given)?;
        let mut pieces = pieces(&route, given.get("data-pair")?, around);
        for piece in &mut pieces {
            piece.factors.ambient = given.perhaps("ambient-factor").unwrap_or(piece.factors.ambient);
            piece.factors.grouping = given.perhaps("grouping-factor").unwrap_or(piece.factors.grouping);
        }
        let chosen = choose(|| pieces.iter().copied(), &needs);
        let mut reached = match chosen.size {
            Some(size) => Reached { value: Value::SquareMillimetres(size), ..with_row },
            None => Reached { value: Value::Word("no size of the tables passes"), ..with_row },
        };
        reached = reached.saying(match (chosen.size, chosen.governs) {
            (Some(_), Check::Smallest) => "the smallest used; no check asks for more".to_string(),
            (Some(_), governs) => alloc::format!("{} governs", governs.word().replace('-', " ")),
            (None, governs) => alloc::format!("no size passes by {}", governs.word().replace('-', " ")),
        });
        reached = reached.step("rating of the device, In", needs.in_);
        for (name, alone) in CHECKS.into_iter().zip(chosen.alone) {
            let name = alloc::format!("smallest by {}", name.word().replace('-', " "));
            reached = reached.step(name, alone.map_or(Value::Word("none"), Value::SquareMillimetres));
        }
        // The stretches with the size chosen, or with the largest size in which the route's cables are made.
        let shown = chosen
            .size
            .or_else(|| SIZES.into_iter().rev().find(|size| check(*size, pieces.iter().copied(), &needs).is_some()));
        if let Some(size) = shown {
            reached = each_stretch(reached, given, &route, &pieces, around, size);
        }
        Ok(reached
            .step("voltage drop", chosen.checked.drop)
            .step("earth fault loop, warm", chosen.checked.zs)
            .step("the breaker's limit", chosen.limit)
            .step("disconnected by", Value::Word(chosen.checked.by.word()))
            .step("least protective conductor", chosen.least_protective))
    },
};

/// The capacity of each stretch in that size with its own factors, and the stretch with the least, which governs.
fn each_stretch(
    mut reached: Reached,
    given: &Arguments,
    route: &[(Along, Metres)],
    pieces: &[Piece],
    around: Around,
    size: SquareMillimetres,
) -> Reached {
    let mut least: Option<(Amps, &'static str)> = None;
    for (at, piece) in pieces.iter().enumerate() {
        let Some(column) = published(piece.cable, piece.method) else { continue };
        let Some(tabulated) = model::tables::about::at(column.rows, size) else { continue };
        let (cable, method) = (piece.cable.word(), piece.method.word());
        // The piece that passes the wall comes after the stretches.
        let along = route.get(at).map(|(along, _)| *along);
        let (place, name) = match along {
            Some(along) => {
                (along.word(), alloc::format!("{}, {} of {cable}, method {method}", along.word(), piece.length))
            }
            None => (IN_THE_WALL, alloc::format!("{IN_THE_WALL}, {cable}, method {method}")),
        };
        let laid = iz(tabulated, &piece.factors);
        if least.is_none_or(|(before, _)| laid < before) {
            least = Some((laid, place));
        }
        let factors = piece.factors;
        for (symbol, factor) in
            [("Ca", factors.ambient), ("Cg", factors.grouping), ("Ci", factors.insulation), ("Cc", factors.device)]
        {
            if factor != Ratio::of(1.0) {
                reached = reached.step(alloc::format!("{place}: {symbol}"), factor);
            }
        }
        reached = reached
            .step(alloc::format!("{name}: Iz"), laid)
            .row(&column.table, &size)
            .row(&published_drop(piece.cable).table, &size);
        match along {
            Some(along) => {
                let (by_ambient, by_company) = published_factors(along);
                if !given.is_given("ambient-factor") {
                    let table = match along {
                        Along::Inside => &surroundings::INDOORS_TABLE,
                        Along::LoftOrFloor => &surroundings::LOFT_TABLE,
                        Along::OutsideWall | Along::Fence => &surroundings::OUTDOORS_TABLE,
                        Along::SoftGround | Along::Paving => &surroundings::GROUND_TABLE,
                    };
                    reached = reached.row(table, &"").row(&by_ambient.table, &ambient(along));
                }
                if !given.is_given("grouping-factor") && around.together > Count::of(1) {
                    reached = reached.row(&by_company.table, &around.together);
                }
            }
            None => {
                let length = around.in_wall.unwrap_or(Metres::ZERO);
                reached = match rating_factors::INSULATION.rows.iter().find(|(row, _)| *row >= length) {
                    Some((row, _)) => reached.row(&rating_factors::INSULATION.table, row),
                    None => reached.row(&rating_factors::INSULATION_LONG_TABLE, &""),
                };
            }
        }
        if factors.device != Ratio::of(1.0) {
            reached = reached.row(&rating_factors::BURIED_OVERLOAD_TABLE, &"");
        }
    }
    match least {
        Some((_, place)) => reached.step("the stretch that governs the capacity", Value::Word(place)),
        None => reached,
    }
}

/// The name of the piece that passes a wall.
const IN_THE_WALL: &str = "where it passes a wall";

/// What disconnects a fault, in words.
pub(super) const fn in_words(by: Disconnects) -> &'static str {
    match by {
        Disconnects::Breaker => "the breaker disconnects",
        Disconnects::ResidualDevice => "the residual-current device is relied on",
        Disconnects::Neither => "neither breaker nor residual-current device disconnects",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rows_used_are_named_with_their_grade() {
        let given = Arguments::read(&CABLE_SIZE, CABLE_SIZE.example.split(' ')).unwrap();
        let working = CABLE_SIZE.working(&given).unwrap();
        let row = working.rows.iter().find(|row| row.table == "BS 7671 Table 4D5" && row.value == "47 A").unwrap();
        assert_eq!((row.row.as_str(), row.grade.as_str()), ("6 mm²", "a copy or quotation of it"));
        assert!(working.value.starts_with("6 mm²"), "{}", working.value);
    }
}
