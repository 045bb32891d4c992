//! Figures for protective conductors and meter tails.

use super::{Figure, OneOf, Reached, Takes, Value, ValueKind, from_table, needed, usual, without};
use alloc::string::ToString;
use engine::calculation::protective::{adiabatic, bonding_without_pme, by_line, earthing_conductor, made, tails};
use model::answers::{Word, choices::words};
use model::tables::about::BS_7671;
use model::tables::bonding as table;
use model::units::{Amps, Celsius, MaterialFactor, SquareMillimetres};

/// The register of this file.
pub const FIGURES: &[&Figure] =
    &[&ADIABATIC, &MATERIAL_FACTOR, &PROTECTIVE_CONDUCTOR, &MAIN_BONDING, &EARTHING_CONDUCTOR, &METER_TAILS];

/// The adiabatic equation.
pub const ADIABATIC: Figure = Figure {
    name: "adiabatic",
    gives: "the least protective conductor that a fault leaves unharmed",
    formula: "S = √(I² × t) / k",
    clauses: &[(BS_7671, "543.1.3")],
    source: "seen in T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250–251, with its working",
    takes: &[&[
        needed("current", "fault current", ValueKind::Amps),
        needed("time", "time until it is disconnected", ValueKind::Seconds),
        from_table(
            "k",
            "factor of the conductor's material (see material-factor)",
            ValueKind::MaterialFactor,
            || Value::MaterialFactor(table::K_IN_CABLE.rows[0].1),
            &IN_A_70_DEGREE_CABLE,
        ),
        without("conductor", "the conductor there is, to compare with", ValueKind::SquareMillimetres, "not compared"),
    ]],
    example: "current=200A time=0.4s k=115 conductor=1.5mm2",
    work: |given| {
        let least = adiabatic(given.get("current")?, given.get("time")?, given.get("k")?);
        let reached = Reached::of(least);
        Ok(match given.perhaps::<SquareMillimetres>("conductor") {
            Some(conductor) if conductor >= least => reached.saying(alloc::format!("{conductor} is enough")),
            Some(conductor) => reached.saying(alloc::format!("{conductor} is too small")),
            None => reached,
        })
    },
};

/// The first row of [`table::K_IN_CABLE`] alone: what the adiabatic equation takes by default.
const IN_A_70_DEGREE_CABLE: model::tables::about::Table = model::tables::about::Table {
    rows: || model::tables::about::as_text(&table::K_IN_CABLE.rows[..1]),
    ..table::K_IN_CABLE.table
};

words! {
    /// What a protective conductor is.
    pub enum Conductor {
        /// A copper core of the cable.
        InCable => "core-of-the-cable",
        /// A separate copper conductor.
        Separate => "separate",
        /// Steel armour.
        Armour => "armour",
    }
}

const MATERIAL_FACTOR: Figure = Figure {
    name: "material-factor",
    gives: "the factor k of the adiabatic equation",
    formula: "looked up by conductor and by what the cable's insulation bears",
    clauses: &[(BS_7671, "Table 54.2"), (BS_7671, "Table 54.3"), (BS_7671, "Table 54.4")],
    source: "an electrician course's formula sheet (its name was not kept); 115 also T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 251; steel from memory",
    takes: &[&[
        usual("conductor", "what the protective conductor is", ValueKind::Word(Conductor::WORDS), || {
            Value::Word(Conductor::InCable.word())
        }),
        usual("bears", "what the cable's insulation bears: 70 or 90 °C", ValueKind::Celsius, || {
            // Arithmetic: the table's own temperature.
            Value::Celsius(Celsius::of(70.0))
        }),
    ]],
    example: "conductor=armour bears=90C",
    work: |given| {
        let of = match given.get::<OneOf<Conductor>>("conductor")?.0 {
            Conductor::InCable => table::K_IN_CABLE,
            Conductor::Separate => table::K_SEPARATE,
            Conductor::Armour => table::K_ARMOUR,
        };
        let bears: Celsius = given.get("bears")?;
        let k: MaterialFactor = super::table_rows::at("bears", &of, bears)?;
        Ok(Reached::of(k).row(&of.table, &bears))
    },
};

const PROTECTIVE_CONDUCTOR: Figure = Figure {
    name: "protective-conductor",
    gives: "the protective conductor by its line conductor",
    formula: "as large as the line to 16 mm², 16 mm² to 35 mm², half of the line above; or the adiabatic equation",
    clauses: &[(BS_7671, "Table 54.7")],
    source: "seen in T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250",
    takes: &[&[needed("line", "line conductor", ValueKind::SquareMillimetres)]],
    example: "line=25mm2",
    work: |given| {
        Ok(Reached::of(by_line(given.get("line")?))
            .row(&table::CPC_AS_LINE_TABLE, &"")
            .row(&table::CPC_HALF_ABOVE_TABLE, &""))
    },
};

const PME: Takes =
    usual("pme", "whether protective multiple earthing applies (TN-C-S)", ValueKind::YesNo, || Value::YesNo(true));
const NEUTRAL: Takes =
    without("supply-neutral", "the supply's neutral, copper", ValueKind::SquareMillimetres, "needed with PME");

/// Main bonding.
pub const MAIN_BONDING: Figure = Figure {
    name: "main-bonding",
    gives: "size of the main protective bonding conductors",
    formula: "PME: by the supply's neutral; otherwise half of the earthing conductor, at least 6 mm², need not exceed 25 mm²",
    clauses: &[(BS_7671, "544.1.1"), (BS_7671, "Table 54.8")],
    source: "seen in D. Locke, Guide to the Wiring Regulations (Wiley, 2008), p. 167, and the-regs training blog",
    takes: &[&[
        PME,
        NEUTRAL,
        without("earthing-conductor", "the earthing conductor", ValueKind::SquareMillimetres, "needed without PME"),
    ]],
    example: "supply-neutral=25mm2",
    work: |given| {
        if !given.get::<bool>("pme")? {
            let least = bonding_without_pme(given.get("earthing-conductor")?);
            let next = made(least).map_or(Value::Word("none"), Value::SquareMillimetres);
            return Ok(Reached::of(least)
                .step("next size that cable is made in", next)
                .row(&table::BONDING_SHARE_TABLE, &"")
                .row(&table::BONDING_LEAST_TABLE, &"")
                .row(&table::BONDING_MOST_TABLE, &""));
        }
        let neutral: SquareMillimetres = given.get("supply-neutral")?;
        Ok(bonding_row(Reached::of(table::main_bonding(neutral)), neutral))
    },
};

/// Adds the row of Table 54.8 that was used.
fn bonding_row(reached: Reached, neutral: SquareMillimetres) -> Reached {
    match table::MAIN_BONDING.rows.iter().find(|(most, _)| neutral <= *most) {
        Some((most, _)) => reached.row(&table::MAIN_BONDING.table, most),
        None => reached.row(&table::MAIN_BONDING_ABOVE_TABLE, &""),
    }
}

words! {
    /// How an earthing conductor lies in the ground.
    pub enum InGround {
        /// It is not in the ground.
        No => "no",
        /// Sheathed and mechanically protected.
        Protected => "protected",
        /// Sheathed only.
        Sheathed => "sheathed",
        /// Bare.
        Bare => "bare",
    }
}

/// The earthing conductor.
pub const EARTHING_CONDUCTOR: Figure = Figure {
    name: "earthing-conductor",
    gives: "size of the main earthing conductor",
    formula: "by the tails as Table 54.7 has it; PME: no less than main bonding and the 16 mm² that distributors often ask for; in the ground, no less than Table 54.1",
    clauses: &[(BS_7671, "543.1.4"), (BS_7671, "542.3"), (BS_7671, "Table 54.7")],
    source: "543.1.4 from memory; 542.3 seen on a forum and Table 54.7 in books; 16 mm²: D. Locke, Guide to the Wiring Regulations (Wiley, 2008), p. 167, note",
    takes: &[&[
        needed("tails", "meter tails", ValueKind::SquareMillimetres),
        PME,
        NEUTRAL,
        usual("in-ground", "whether and how it lies in the ground", ValueKind::Word(InGround::WORDS), || {
            Value::Word(InGround::No.word())
        }),
    ]],
    example: "tails=25mm2 supply-neutral=25mm2",
    work: |given| {
        let pme = given.get::<bool>("pme")?;
        let neutral = if pme { Some(given.get::<SquareMillimetres>("supply-neutral")?) } else { None };
        let mut size = earthing_conductor(given.get("tails")?, neutral);
        let in_ground = match given.get::<OneOf<InGround>>("in-ground")?.0 {
            InGround::No => None,
            InGround::Protected => Some((table::BURIED_PROTECTED, &table::BURIED_PROTECTED_TABLE)),
            InGround::Sheathed => Some((table::BURIED_SHEATHED, &table::BURIED_SHEATHED_TABLE)),
            InGround::Bare => Some((table::BURIED_BARE, &table::BURIED_BARE_TABLE)),
        };
        if let Some((least, _)) = in_ground {
            size = size.max(least);
        }
        let mut reached = Reached::of(size).row(&table::CPC_AS_LINE_TABLE, &"");
        if let Some(neutral) = neutral {
            reached = bonding_row(reached, neutral).row(&table::EARTHING_ASKED_TABLE, &"");
        }
        Ok(match in_ground {
            Some((_, of)) => reached.row(of, &""),
            None => reached,
        })
    },
};

/// Meter tails.
pub const METER_TAILS: Figure = Figure {
    name: "meter-tails",
    gives: "size of the meter tails by the main fuse",
    formula: "the first row that holds the fuse",
    clauses: &[],
    source: "network operators' practice, from memory",
    takes: &[&[needed("fuse", "main fuse", ValueKind::Amps)]],
    example: "fuse=80A",
    work: |given| {
        let fuse: Amps = given.get("fuse")?;
        let row = table::TAILS.rows.iter().find(|(most, _)| fuse <= *most);
        let (most, _) = row.ok_or_else(|| super::table_rows::none("fuse", &table::TAILS.table, fuse.to_string()))?;
        let size = tails(fuse).ok_or_else(|| super::table_rows::none("fuse", &table::TAILS.table, fuse.to_string()))?;
        Ok(Reached::of(size).row(&table::TAILS.table, most))
    },
};

#[cfg(test)]
mod tests {
    use super::super::{Arguments, FigureError};
    use super::*;
    use alloc::string::String;

    fn work(figure: &'static Figure, text: &str) -> Result<String, FigureError> {
        Ok(figure.working(&Arguments::read(figure, text.split(' '))?)?.value)
    }

    #[test]
    fn what_is_needed_beside_something_else_is_asked_for() {
        assert_eq!(work(&MAIN_BONDING, "pme=no earthing-conductor=16mm2").as_deref(), Ok("8 mm²"));
        let error = work(&MAIN_BONDING, "pme=no").unwrap_err();
        assert!(matches!(error, FigureError::Missing { key: "earthing-conductor", .. }), "{error}");
        assert!(matches!(
            work(&MAIN_BONDING, "pme=yes").unwrap_err(),
            FigureError::Missing { key: "supply-neutral", .. }
        ));
    }

    #[test]
    fn a_row_that_is_not_there_is_refused_and_the_rows_are_named() {
        let error: String = work(&METER_TAILS, "fuse=125A").unwrap_err().to_string();
        assert!(error.contains("80 A, 100 A"), "{error}");
        assert!(work(&MATERIAL_FACTOR, "bears=80C").unwrap_err().to_string().contains("70 °C, 90 °C"));
    }

    #[test]
    fn a_bare_conductor_in_the_ground_is_the_largest() {
        assert_eq!(work(&EARTHING_CONDUCTOR, "tails=16mm2 pme=no in-ground=bare").as_deref(), Ok("25 mm²"));
        assert_eq!(work(&EARTHING_CONDUCTOR, "tails=16mm2 supply-neutral=25mm2").as_deref(), Ok("16 mm²"));
    }

    #[test]
    fn the_adiabatic_equation_names_the_one_row_that_it_takes_by_default() {
        let given = Arguments::read(&ADIABATIC, ["current=657A", "time=0.1s"]).unwrap();
        let rows = ADIABATIC.working(&given).unwrap().rows;
        let of_k: Vec<&str> =
            rows.iter().filter(|row| row.table.contains("54.3")).map(|row| row.value.as_str()).collect();
        assert!(matches!(of_k[..], [one] if one.contains("115") && !one.contains("143")), "{of_k:?}");
    }
}
