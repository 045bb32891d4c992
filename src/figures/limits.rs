//! Figures for disconnecting a fault to earth: limits of impedance, and times.

use super::fault_loop::{Arrangement, BREAKER, C_MIN};
use super::{Figure, NOMINAL, OneOf, Reached, Value, ValueKind, from_table, needed, usual, without};
use engine::calculation::loop_impedance::{BreakerType, disconnection_time, electrode_limit, limit, measured_limit};
use model::answers::Word;
use model::tables::about::{BS_7671, Table};
use model::tables::disconnection as table;
use model::units::Ohms;

/// The register of this file.
pub const FIGURES: &[&Figure] = &[&LOOP_LIMIT, &MEASURED_LIMIT, &DISCONNECTION_TIME, &ELECTRODE_LIMIT];

/// The table with the multiple of a breaker type.
pub(super) const fn type_table(breaker: BreakerType) -> &'static Table {
    match breaker {
        BreakerType::B => &table::TYPE_B_TABLE,
        BreakerType::C => &table::TYPE_C_TABLE,
        BreakerType::D => &table::TYPE_D_TABLE,
    }
}

const LOOP_LIMIT: Figure = Figure {
    name: "loop-limit",
    gives: "the greatest loop impedance at which a breaker disconnects at once",
    formula: "Zs ≤ U0 × Cmin / (multiple of the type × In)",
    clauses: &[(BS_7671, "411.4.4"), (BS_7671, "Table 41.3")],
    source: "Cmin and the multiples from memory; of Table 41.3, Type B 32 A alone was seen: the 1.37 Ω quoted on the newsgroup uk.d-i-y, 14 Feb 2019; older books leave Cmin out (c-min=1) or take 240 V",
    takes: &[&[needed("rating", "rating of the breaker", ValueKind::Amps), BREAKER, NOMINAL, C_MIN]],
    example: "rating=32A breaker=B",
    work: |given| {
        let breaker = given.get::<OneOf<BreakerType>>("breaker")?.0;
        let most = limit(given.get("voltage")?, given.get("c-min")?, breaker.multiple(), given.get("rating")?);
        Ok(Reached::of(most).row(type_table(breaker), &""))
    },
};

const MEASURED_LIMIT: Figure = Figure {
    name: "measured-limit",
    gives: "the greatest loop impedance that may be measured cold",
    formula: "limit × factor, rounded down to hundredths",
    clauses: &[(BS_7671, "Appendix 3")],
    source: "seen in NICEIC Connections, spring 2015, p. 61",
    takes: &[&[
        needed("limit", "limit at working temperature", ValueKind::Ohms),
        from_table(
            "factor",
            "factor for a cold measurement",
            ValueKind::Ratio,
            || Value::Ratio(table::MEASURED),
            &table::MEASURED_TABLE,
        ),
    ]],
    example: "limit=0.91ohm",
    work: |given| Ok(Reached::of(measured_limit(given.get("limit")?, given.get("factor")?))),
};

const DISCONNECTION_TIME: Figure = Figure {
    name: "disconnection-time",
    gives: "how soon a fault to earth must be disconnected",
    formula: "final circuits to 32 A, or to 63 A with a socket-outlet: TN 0.4 s, TT 0.2 s; others: TN 5 s, TT 1 s",
    clauses: &[(BS_7671, "411.3.2.2"), (BS_7671, "411.3.2.3"), (BS_7671, "411.3.2.4"), (BS_7671, "Table 41.1")],
    source: "120 V to 230 V a.c.; seen in copies on electricians' sites (their names were not kept) and on the IET's forum (EngX)",
    takes: &[&[
        needed("arrangement", "how the supply is earthed", ValueKind::Word(Arrangement::WORDS)),
        needed("rating", "rating of the device", ValueKind::Amps),
        usual("socket", "whether the circuit has a socket-outlet; a charge point's counts", ValueKind::YesNo, || {
            Value::YesNo(true)
        }),
    ]],
    example: "arrangement=tn-s rating=40A",
    work: |given| {
        let tt = given.get::<OneOf<Arrangement>>("arrangement")?.0 == Arrangement::Tt;
        let time = disconnection_time(tt, given.get("rating")?, given.get("socket")?);
        let of = [
            (table::TN_FINAL, &table::TN_FINAL_TABLE),
            (table::TT_FINAL, &table::TT_FINAL_TABLE),
            (table::TN_OTHER, &table::TN_OTHER_TABLE),
            (table::TT_OTHER, &table::TT_OTHER_TABLE),
        ];
        let row = of.into_iter().find(|(other, _)| *other == time);
        let reached = Reached::of(time);
        Ok(row.map_or(reached.clone(), |(_, of)| reached.row(of, &"")))
    },
};

const ELECTRODE_LIMIT: Figure = Figure {
    name: "electrode-limit",
    gives: "the greatest resistance of an earth electrode with a residual-current device",
    formula: "RA ≤ touch voltage / IΔn",
    clauses: &[(BS_7671, "411.5.3"), (BS_7671, "Table 41.5")],
    source: "from memory, and that over 200 Ω it may not be stable (Table 41.5, note 2) as well",
    takes: &[&[
        from_table(
            "residual",
            "residual current",
            ValueKind::Amps,
            || Value::Amps(table::RESIDUAL),
            &table::RESIDUAL_TABLE,
        ),
        from_table(
            "touch",
            "touch voltage allowed",
            ValueKind::Volts,
            || Value::Volts(table::TOUCH_LIMIT),
            &table::TOUCH_LIMIT_TABLE,
        ),
        without("electrode", "resistance of the electrode, to compare with", ValueKind::Ohms, "not compared"),
    ]],
    example: "residual=30mA electrode=120ohm",
    work: |given| {
        let most = electrode_limit(given.get("touch")?, given.get("residual")?);
        let reached = Reached::of(most).row(&table::UNSTABLE_TABLE, &"");
        Ok(match given.perhaps::<Ohms>("electrode") {
            Some(electrode) if !electrode.is_within(most) => reached.saying(alloc::format!("{electrode} is too much")),
            Some(electrode) if electrode > table::UNSTABLE => {
                reached.saying(alloc::format!("{electrode} is allowed but may not be stable"))
            }
            Some(electrode) => reached.saying(alloc::format!("{electrode} will do")),
            None => reached,
        })
    },
};

#[cfg(test)]
mod tests {
    use super::super::Arguments;
    use super::*;

    #[test]
    fn an_electrode_that_may_not_be_stable_is_told_apart() {
        let work = |ohms: &str| {
            let given = Arguments::read(&ELECTRODE_LIMIT, [alloc::format!("electrode={ohms}").as_str()]).unwrap();
            ELECTRODE_LIMIT.working(&given).unwrap().value
        };
        assert!(work("200ohm").contains("will do"));
        assert!(work("201ohm").contains("may not be stable"));
        assert!(work("1667ohm").contains("too much"), "1,666.7 Ω is the limit");
    }
}
