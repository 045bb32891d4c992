//! Figures for a cable's capacity as it is laid.

use super::surroundings::{Around, SURROUNDINGS};
use super::{
    Arguments, Figure, FigureError, OneOf, Reached, Takes, Value, ValueKind, needed, table_rows, usual, without,
};
use alloc::string::ToString;
use alloc::vec::Vec;
use engine::calculation::capacity::{CableType, Method, iz, needed as needed_capacity, published};
use model::answers::Word;
use model::tables::about::{BS_7671, Published};
use model::units::{Amps, SquareMillimetres};

/// The register of this file.
pub const FIGURES: &[&Figure] = &[&NEEDED_CAPACITY, &SMALLEST_BY_CAPACITY, &CABLE_CAPACITY];

const RATING: Takes = needed("rating", "rating of the protective device, In", ValueKind::Amps);
pub(super) const CABLE: Takes =
    usual("cable", "kind of cable", ValueKind::Word(CableType::WORDS), || Value::Word(CableType::TwinAndEarth.word()));
const METHOD: Takes = usual("method", "reference method of installation", ValueKind::Word(Method::WORDS), || {
    Value::Word(Method::C.word())
});
const SIZE: Takes = needed("size", "cross-section of the line conductor", ValueKind::SquareMillimetres);
const APPENDIX_4: &[(model::tables::about::Publication, &str)] = &[(BS_7671, "Appendix 4")];

fn laid(given: &Arguments) -> Result<(CableType, Method, Published<SquareMillimetres, Amps>), FigureError> {
    let (cable, method) = (given.get::<OneOf<CableType>>("cable")?.0, given.get::<OneOf<Method>>("method")?.0);
    let column = published(cable, method).ok_or_else(|| FigureError::NotAllowed {
        key: "method",
        given: method.word().to_string(),
        why: alloc::format!("no table has it for {}", cable.word()),
        allowed: Method::ALL
            .iter()
            .filter(|method| published(cable, **method).is_some())
            .map(|method| method.word())
            .collect::<Vec<_>>()
            .join(", "),
    })?;
    Ok((cable, method, column))
}

const NEEDED_CAPACITY: Figure = Figure {
    name: "needed-capacity",
    gives: "what must be tabulated for a device's rating",
    formula: "It ≥ In / (Ca × Cg × Ci × Cs × Cd × Cc)",
    clauses: APPENDIX_4,
    source: "seen in a revision summary (its name was not kept) and on the IET's forum, thread 'It and Iz'",
    takes: &[&[RATING], SURROUNDINGS],
    example: "rating=32A ambient=40C",
    work: |given| {
        let around = Around::of(given, None)?;
        let it = needed_capacity(given.get("rating")?, &around.factors);
        Ok(around.shown(Reached::of(it)))
    },
};

const SMALLEST_BY_CAPACITY: Figure = Figure {
    name: "smallest-by-capacity",
    gives: "the smallest size of a cable that carries a device's rating as it is laid",
    formula: "the smallest with It ≥ In / factors, so that In ≤ Iz; equal passes",
    clauses: APPENDIX_4,
    source: "seen in a revision summary (its name was not kept) and on the IET's forum, thread 'It and Iz'",
    takes: &[&[RATING, CABLE, METHOD], SURROUNDINGS],
    example: "rating=32A cable=multicore method=C ambient=40C",
    work: |given| {
        let rating: Amps = given.get("rating")?;
        let (_, method, column) = laid(given)?;
        let around = Around::of(given, Some(method))?;
        let it = needed_capacity(rating, &around.factors);
        let fits = column.rows.iter().find(|(_, tabulated)| rating.is_within(iz(*tabulated, &around.factors)));
        let Some((size, tabulated)) = fits else {
            return Ok(around.shown(Reached::of(Value::Word("no size of the table is enough")).step("It needed", it)));
        };
        let capacity = iz(*tabulated, &around.factors);
        let reached = Reached::of(*size).step("It needed", it).step("It", *tabulated).step("Iz", capacity);
        Ok(around.shown(reached.row(&column.table, size)))
    },
};

const CABLE_CAPACITY: Figure = Figure {
    name: "cable-capacity",
    gives: "what a cable carries as it is laid, Iz",
    formula: "Iz = It × Ca × Cg × Ci × Cs × Cd × Cc",
    clauses: APPENDIX_4,
    source: "seen in a revision summary (its name was not kept) and on the IET's forum, thread 'It and Iz'",
    takes: &[
        &[
            SIZE,
            CABLE,
            METHOD,
            without("rating", "rating of the protective device, to compare with", ValueKind::Amps, "not compared"),
        ],
        SURROUNDINGS,
    ],
    example: "size=6mm2 method=C ambient=35C grouped=2 rating=32A",
    work: |given| {
        let (_, method, column) = laid(given)?;
        let size: SquareMillimetres = given.get("size")?;
        let around = Around::of(given, Some(method))?;
        let tabulated = table_rows::at("size", &column, size)?;
        let capacity = iz(tabulated, &around.factors);
        let mut reached = Reached::of(capacity).step("It", tabulated);
        if let Some(rating) = given.perhaps::<Amps>("rating") {
            let carries = rating.is_within(capacity);
            reached = reached.saying(if carries { "In ≤ Iz" } else { "In is over Iz" });
        }
        Ok(around.shown(reached.row(&column.table, &size)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn work(figure: &'static Figure, text: &str) -> Result<super::super::Working, FigureError> {
        figure.working(&Arguments::read(figure, text.split(' '))?)
    }

    #[test]
    fn a_factor_and_what_it_stands_for_are_not_taken_together() {
        let error = work(&NEEDED_CAPACITY, "rating=32A ambient=40C ambient-factor=0.87").unwrap_err();
        assert!(error.to_string().contains("`ambient` is given too"), "{error}");
    }

    #[test]
    fn a_method_that_the_table_lacks_is_refused_and_the_others_are_named() {
        let error = work(&CABLE_CAPACITY, "size=6mm2 method=D").unwrap_err();
        assert!(error.to_string().contains("A, C, 100, 101, 102, 103"), "{error}");
        let error = work(&CABLE_CAPACITY, "size=7mm2").unwrap_err();
        assert!(error.to_string().contains("2.5 mm², 4 mm², 6 mm²"), "{error}");
    }

    #[test]
    fn the_ground_is_told_by_the_method() {
        let of = |text| work(&CABLE_CAPACITY, text).unwrap().number.unwrap();
        assert!((of("size=6mm2 cable=armoured-70 method=D ambient=10C") - 46.0 * 1.10).abs() < 1e-9);
        assert!((of("size=6mm2 cable=armoured-70 method=C ambient=30C") - 49.0).abs() < 1e-9);
    }
}
