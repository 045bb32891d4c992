//! The figure of the whole cable: the smallest size that passes every check along a route of mixed stretches.

use super::fault_loop::{ARRANGEMENT, BREAKER, C_MIN, EXTERNAL, external};
use super::voltage_drop::{CURRENT, DATA, SHARE, pieces};
use super::{Figure, Kind, NOMINAL, OneOf, Reached, Value, from_table, needed, usual, without};
use crate::answers::Along;
use crate::design::cable::rating_for;
use crate::design::capacity::{iz, published, published_drop};
use crate::design::loop_impedance::BreakerType;
use crate::design::sizing::{CHECKS, Check, Disconnects, Needs, SIZES, check, choose};
use crate::tables::about::BS_7671;
use crate::tables::disconnection::{RESIDUAL, RESIDUAL_TABLE};
use crate::tables::rating_factors;
use crate::units::{Amps, Metres, Ohms, Ratio, Volts};
use alloc::string::ToString;
use alloc::vec::Vec;

/// The register of this file.
pub const FIGURES: &[&Figure] = &[&CABLE_SIZE];

/// The whole choice.
pub const CABLE_SIZE: Figure = Figure {
    name: "cable-size",
    gives: "the smallest size that passes every check along a route of mixed stretches, and the check that asks for it",
    formula: "the smallest with Ib ≤ In ≤ Iz on every stretch, voltage drop within its limit over the whole length, a fault disconnected by the breaker or a residual-current device, and √(I²t)/k within every protective conductor",
    clauses: &[
        (BS_7671, "Appendix 4"),
        (BS_7671, "411.4.4"),
        (BS_7671, "543.1.3"),
        (BS_7671, "512.1.5"),
        (BS_7671, "722.531.3.101"),
    ],
    source: "a 90 °C cable is rated by the 70 °C table for its terminals; 6 mm² at least: common practice, no source",
    takes: &[&[
        CURRENT,
        without("rating", "rating of the protective device, In", Kind::Amps, "the next standard rating"),
        needed("route", "stretches from board to charge point", Kind::Route),
        DATA,
        EXTERNAL,
        ARRANGEMENT,
        without(
            "external-lowest",
            "lowest external impedance that is possible, for the fault current",
            Kind::Ohms,
            "as `external`",
        ),
        BREAKER,
        usual("residual-device", "whether a residual-current device may be relied on", Kind::YesNo, || {
            Value::YesNo(true)
        }),
        from_table("residual", "its residual current", Kind::Amps, || Value::Amps(RESIDUAL), &RESIDUAL_TABLE),
        NOMINAL,
        C_MIN,
        SHARE,
        usual("ambient-factor", "Ca, on every stretch", Kind::Ratio, || Value::Ratio(Ratio::of(1.0))),
        usual("grouping-factor", "Cg, on every stretch", Kind::Ratio, || Value::Ratio(Ratio::of(1.0))),
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
            ze_highest: ze,
            ze_lowest: given.perhaps("external-lowest").unwrap_or(ze),
        };
        let route = given.get::<Vec<(Along, Metres)>>("route")?;
        let mut pieces = pieces(&route, given.get("data-pair")?);
        for piece in &mut pieces {
            piece.factors.ambient = given.get("ambient-factor")?;
            piece.factors.grouping = given.get("grouping-factor")?;
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
        // The stretches with the size chosen, or with the largest that the route's cables are made in.
        let shown = chosen
            .size
            .or_else(|| SIZES.into_iter().rev().find(|size| check(*size, pieces.iter().copied(), &needs).is_some()));
        if let Some(size) = shown {
            for (piece, (along, _)) in pieces.iter().zip(&route) {
                let Some(column) = published(piece.cable, piece.method) else { continue };
                let Some(tabulated) = crate::tables::about::at(column.rows, size) else { continue };
                let name = alloc::format!(
                    "{}, {} of {}, method {}: Iz",
                    along.word(),
                    piece.length,
                    piece.cable.word(),
                    piece.method.word()
                );
                reached = reached
                    .step(name, iz(tabulated, &piece.factors))
                    .row(&column.table, &size)
                    .row(&published_drop(piece.cable).table, &size);
                if piece.factors.device != Ratio::of(1.0) {
                    reached = reached.row(&rating_factors::BURIED_OVERLOAD_TABLE, &"");
                }
            }
        }
        Ok(reached
            .step("voltage drop", chosen.checked.drop)
            .step("earth fault loop, warm", chosen.checked.zs)
            .step("the breaker's limit", chosen.limit)
            .step("disconnected by", Value::Word(chosen.checked.by.word()))
            .step("least protective conductor", chosen.least_protective))
    },
};

/// What disconnects, in words.
pub(super) const fn in_words(by: Disconnects) -> &'static str {
    match by {
        Disconnects::Breaker => "the breaker disconnects",
        Disconnects::ResidualDevice => "the residual-current device is relied on",
        Disconnects::Neither => "neither breaker nor residual-current device disconnects",
    }
}

#[cfg(test)]
mod tests {
    use super::super::Arguments;
    use super::*;

    #[test]
    fn the_rows_used_are_named_with_their_grade() {
        let given = Arguments::read(&CABLE_SIZE, CABLE_SIZE.example.split(' ')).unwrap();
        let working = CABLE_SIZE.working(&given).unwrap();
        let row = working.rows.iter().find(|row| row.table == "BS 7671 Table 4D5" && row.value == "47 A").unwrap();
        assert_eq!((row.row.as_str(), row.grade.as_str()), ("6 mm²", "seen secondary"));
        assert!(working.value.starts_with("6 mm²"), "{}", working.value);
    }
}
