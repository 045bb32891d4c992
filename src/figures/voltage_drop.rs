//! Figures for voltage drop.

use super::capacity::CABLE;
use super::surroundings::BEARS;
use super::{
    Arguments, Figure, FigureError, NOMINAL, OneOf, Reached, Takes, Value, ValueKind, from_table, needed, table_rows,
    usual, without,
};
use alloc::vec::Vec;
use engine::calculation::capacity::{CableType, Factors, Method, published_drop, tabulated};
use engine::calculation::sizing::Piece;
use engine::calculation::voltage_drop::{longest, most_per_amp_metre, reduced_load, voltage_drop};
use engine::design::laid::{self, Around};
use engine::site::Run;
use model::answers::Along;
use model::tables::about::BS_7671;
use model::tables::voltage;
use model::units::{Amps, Celsius, Count, Metres, MillivoltsPerAmpMetre, Ratio, SquareMillimetres, Volts};

/// The register of this file.
pub const FIGURES: &[&Figure] =
    &[&VOLTAGE_DROP, &REDUCED_LOAD_FACTOR, &LONGEST_RUN_BY_VOLTAGE_DROP, &MOST_VOLTAGE_DROP];

const PERHAPS_SIZE: Takes = without(
    "size",
    "cross-section of the line conductor",
    ValueKind::SquareMillimetres,
    "needed where no figure stands in its place",
);
pub(super) const CURRENT: Takes = needed("current", "design current, Ib", ValueKind::Amps);
pub(super) const SHARE: Takes = from_table(
    "share",
    "share of the voltage that may drop",
    ValueKind::Ratio,
    || Value::Ratio(voltage::DROP_ALLOWED),
    &voltage::DROP_ALLOWED_TABLE,
);
const DROP: Takes =
    without("drop", "tabulated voltage drop", ValueKind::MillivoltsPerAmpMetre, "looked up by cable and size");
const ROUTE: Takes = without(
    "route",
    "stretches from board to charge point, in place of `length` and `cable`",
    ValueKind::Route,
    "one stretch",
);
/// The input for the voltage drop of an outbuilding's feed.
pub(super) const DROP_AHEAD: Takes = without(
    "drop-ahead",
    "voltage drop from the origin to where the cable begins",
    ValueKind::Volts,
    "it begins at the origin",
);
/// The input for circuits that run beside the cable.
pub(super) const BESIDE: Takes =
    usual("beside", "whether another charge point's cable runs the same way", ValueKind::YesNo, || Value::YesNo(false));
/// The input for armoured cable all the way.
pub(super) const ARMOURED: Takes =
    usual("armoured", "whether armoured cable is taken all the way", ValueKind::YesNo, || Value::YesNo(false));
pub(super) const DATA: Takes =
    usual("data-pair", "whether a data pair runs beside it", ValueKind::YesNo, || Value::YesNo(false));

/// The tabulated voltage drop: as given, or looked up.
fn tabulated_drop(given: &Arguments, reached: Reached) -> Result<(MillivoltsPerAmpMetre, Reached), FigureError> {
    if let Some(drop) = given.perhaps("drop") {
        return Ok((drop, reached));
    }
    let size: SquareMillimetres = given.get("size")?;
    let column = published_drop(given.get::<OneOf<CableType>>("cable")?.0);
    let drop = table_rows::at("size", &column, size)?;
    Ok((drop, reached.step("mV/A/m", drop).row(&column.table, &size)))
}

/// The surroundings of a route, from the arguments.
pub(super) fn around(given: &Arguments) -> Result<Around, FigureError> {
    let together = if given.get("beside")? { 2 } else { 1 };
    Ok(Around {
        together: Count::of(together),
        in_wall: given.perhaps("in-wall"),
        armoured: given.perhaps("armoured").unwrap_or(false),
    })
}

/// The stretches as they are laid, followed by the piece in the wall that they pass.
pub(super) fn pieces(route: &[(Along, Metres)], with_data: bool, around: Around) -> Vec<Piece> {
    let runs = || route.iter().map(|(along, length)| Run { along: *along, length: *length, high: false });
    laid::pieces(runs, with_data, around).collect()
}

/// Ct of a stretch, by its own capacity and surroundings. In the ground it is taken as one: as remembered, the formula is for 30 °C and
/// more.
fn reduced_load_of(piece: &Piece, ib: Amps, size: SquareMillimetres) -> Ratio {
    if piece.method == Method::D {
        return Ratio::of(1.0);
    }
    tabulated(piece.cable, piece.method, size)
        // Arithmetic: the table's own temperature.
        .map_or(Ratio::of(1.0), |it| reduced_load(ib, it, &piece.factors, Celsius::of(70.0)))
}

/// Voltage drop.
pub const VOLTAGE_DROP: Figure = Figure {
    name: "voltage-drop",
    gives: "voltage drop over a route",
    formula: "sum over the stretches of mV/A/m × Ib × length / 1000, at full conductor temperature, and what drops ahead of them",
    clauses: &[(BS_7671, "Appendix 4, section 6"), (BS_7671, "Table 4Ab")],
    source: "worked in T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 302; the reduced-load factor Ct (section 6.1) is from memory: shown beside it, no size is chosen by it",
    takes: &[&[
        without("length", "length of one stretch, one way", ValueKind::Metres, "needed without `route`"),
        PERHAPS_SIZE,
        CURRENT,
        CABLE,
        DROP,
        ROUTE,
        DROP_AHEAD,
        DATA,
        BESIDE,
        ARMOURED,
        without(
            "capacity",
            "tabulated capacity It, to show the drop of the cooler conductor",
            ValueKind::Amps,
            "not shown",
        ),
        BEARS,
        usual(
            "voltage",
            "voltage that the drop is compared with: to earth, or between lines",
            ValueKind::Volts,
            || Value::Volts(voltage::NOMINAL),
        ),
        SHARE,
    ]],
    example: "length=20m size=6mm2 current=32A",
    work: |given| {
        let ib: Amps = given.get("current")?;
        let nominal: Volts = given.get("voltage")?;
        let mut steps = Reached::of(Volts::ZERO);
        let mut drop = Volts::ZERO;
        match given.perhaps::<Vec<(Along, Metres)>>("route") {
            Some(route) => {
                let size: SquareMillimetres = given.get("size")?;
                let mut cooler = Volts::ZERO;
                let around = Around { in_wall: None, ..around(given)? };
                for (piece, (along, _)) in pieces(&route, given.get("data-pair")?, around).iter().zip(&route) {
                    let column = published_drop(piece.cable);
                    let stretch = voltage_drop(table_rows::at("size", &column, size)?, ib, piece.length);
                    drop = drop + stretch;
                    let name = alloc::format!("{}, {} of {}", along.word(), piece.length, piece.cable.word());
                    let factor = reduced_load_of(piece, ib, size);
                    cooler = cooler + stretch * factor;
                    steps = steps
                        .step(alloc::format!("{name}: Ct, from memory"), factor)
                        .step(name, stretch)
                        .row(&column.table, &size);
                }
                steps = steps.step("with Ct on every stretch: from memory, shown and not used", cooler);
            }
            None => {
                let (per, with_row) = tabulated_drop(given, steps)?;
                steps = with_row;
                drop = voltage_drop(per, ib, given.get("length")?);
            }
        }
        if let Some(ahead) = given.perhaps::<Volts>("drop-ahead") {
            steps = steps.step("of the cable alone", drop);
            drop = ahead + drop;
        }
        let allowed = nominal * given.get::<Ratio>("share")?;
        let within = if drop.is_within(allowed) { "within" } else { "over" };
        steps = steps.step("allowed", allowed);
        if let Some(it) = given.perhaps::<Amps>("capacity") {
            let factor = reduced_load(ib, it, &Factors::REFERENCE, given.get("bears")?);
            steps = steps.step("reduced-load factor Ct", factor).step("with it", drop * factor);
        }
        let share = drop.share_of(nominal);
        let words =
            // Arithmetic: hundredths of a percent.
            alloc::format!("{} % of {nominal}, {within} {allowed}", libm::round(share.get() * 10_000.0) / 100.0);
        Ok(Reached { value: Value::Volts(drop), ..steps }.saying(words))
    },
};

const REDUCED_LOAD_FACTOR: Figure = Figure {
    name: "reduced-load-factor",
    gives: "what a conductor drops less because it is cooler than tabulated, Ct",
    formula: "Ct = (230 + tp − (Ca²Cg² − Ib²/It²)(tp − 30)) / (230 + tp), never above 1",
    clauses: &[(BS_7671, "Appendix 4, section 6.1")],
    source: "from memory, not seen: no size is chosen by it",
    takes: &[&[
        CURRENT,
        needed("capacity", "tabulated capacity, It", ValueKind::Amps),
        BEARS,
        usual("ambient-factor", "Ca", ValueKind::Ratio, || Value::Ratio(Ratio::of(1.0))),
        usual("grouping-factor", "Cg", ValueKind::Ratio, || Value::Ratio(Ratio::of(1.0))),
    ]],
    example: "current=32A capacity=47A",
    work: |given| {
        let factors = Factors {
            ambient: given.get("ambient-factor")?,
            grouping: given.get("grouping-factor")?,
            ..Factors::REFERENCE
        };
        Ok(Reached::of(reduced_load(given.get("current")?, given.get("capacity")?, &factors, given.get("bears")?)))
    },
};

const LONGEST_RUN_BY_VOLTAGE_DROP: Figure = Figure {
    name: "longest-run-by-voltage-drop",
    gives: "the longest run whose voltage drop is within its limit",
    formula: "length = share × U × 1000 / (mV/A/m × Ib)",
    clauses: &[(BS_7671, "Appendix 4, section 6"), (BS_7671, "Table 4Ab")],
    source: "arithmetic of the voltage drop",
    takes: &[&[CURRENT, PERHAPS_SIZE, CABLE, DROP, NOMINAL, SHARE]],
    example: "size=10mm2 current=45A",
    work: |given| {
        let (per, steps) = tabulated_drop(given, Reached::of(Metres::ZERO))?;
        let allowed = given.get::<Volts>("voltage")? * given.get::<Ratio>("share")?;
        let run = longest(allowed, per, given.get("current")?);
        Ok(Reached { value: Value::Metres(run), ..steps }.step("allowed", allowed))
    },
};

const MOST_VOLTAGE_DROP: Figure = Figure {
    name: "most-voltage-drop",
    gives: "the most that a cable may drop an ampere and metre",
    formula: "mV/A/m = allowed × 1000 / (Ib × length)",
    clauses: &[(BS_7671, "Appendix 4, section 6")],
    source: "arithmetic of the voltage drop; worked on a UK cable distributor's page, 'Voltage drop calculations' (its name was not kept)",
    takes: &[&[
        needed("allowed", "voltage drop allowed", ValueKind::Volts),
        CURRENT,
        needed("length", "length, one way", ValueKind::Metres),
    ]],
    example: "allowed=11.5V current=32A length=60m",
    work: |given| {
        Ok(Reached::of(most_per_amp_metre(given.get("allowed")?, given.get("current")?, given.get("length")?)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: BS 7671 Appendix 4, section 6.1 (from memory): Ct = (230 + tp − (Ca²Cg² − Ib²/It²)(tp − 30)) / (230 + tp). 16 A of 32 A at
    /// 70 °C: (300 − (Ca²Cg² − 0.25) × 40) / 300.
    #[test]
    fn the_reduced_load_factor_takes_temperature_and_company() {
        let factor = |more: &str| {
            let text = alloc::format!("current=16A capacity=32A{more}");
            let given = Arguments::read(&REDUCED_LOAD_FACTOR, text.split(' ')).unwrap();
            REDUCED_LOAD_FACTOR.working(&given).unwrap().number.unwrap()
        };
        assert!((factor("") - 0.9).abs() < 1e-9);
        assert!((factor(" ambient-factor=0.8") - (300.0 - 0.39 * 40.0) / 300.0).abs() < 1e-9);
        assert!((factor(" grouping-factor=0.7") - (300.0 - 0.24 * 40.0) / 300.0).abs() < 1e-9);
    }
}
