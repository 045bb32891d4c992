//! Every table of the program against its source, row by row; one source a file.

mod armour;
mod armoured_70;
mod armoured_90;
mod copper;
mod disconnection;
mod diversity;
mod driving;
mod external_impedance;
mod flat_twin_and_earth;
mod protective;
mod radio;
mod rating_factors;
mod surroundings;
mod thermoplastic;
mod voltage;

use presurvey::tables::ALL;
use presurvey::tables::about::{Grade, Table};
use std::collections::BTreeSet;

/// One table typed again: what it gives, its grade, and its rows as key and value.
pub struct Typed {
    gives: &'static str,
    grade: Grade,
    rows: Vec<(f64, f64)>,
}

/// A column of a table that its source lays out in rows.
pub fn column<const N: usize>(gives: &'static str, grade: Grade, rows: &[(f64, [f64; N])], at: usize) -> Typed {
    Typed { gives, grade, rows: rows.iter().map(|(key, values)| (*key, values[at])).collect() }
}

/// A single figure.
pub fn one(gives: &'static str, grade: Grade, value: f64) -> Typed {
    Typed { gives, grade, rows: vec![(0.0, value)] }
}

/// A list of rows.
pub fn list(gives: &'static str, grade: Grade, rows: &[(f64, f64)]) -> Typed {
    Typed { gives, grade, rows: rows.to_vec() }
}

fn table(gives: &str) -> &'static Table {
    let mut found = ALL.iter().flat_map(|file| file.iter()).filter(|table| table.gives == gives);
    let table = found.next().unwrap_or_else(|| panic!("no table gives {gives:?}"));
    assert!(found.next().is_none(), "two tables give {gives:?}");
    table
}

/// Holds the program's tables to what was typed.
#[track_caller]
pub fn hold(typed: &[Typed]) {
    for Typed { gives, grade, rows } in typed {
        let table = table(gives);
        assert_eq!(table.grade, *grade, "{gives}");
        let number = |text: &str| text.split(' ').next().unwrap_or_default().parse::<f64>().unwrap_or(0.0);
        let ours: Vec<(f64, f64)> = (table.rows)().iter().map(|row| (number(&row.at), number(&row.value))).collect();
        assert_eq!(&ours, rows, "{gives}");
    }
}

/// Holds every size of a cable, laid by each of these methods, to the columns of its source: by way of the figures.
#[track_caller]
pub fn carries<const N: usize>(cable: &str, methods: &[(&str, usize)], rows: &[(f64, [f64; N])]) {
    for (size, values) in rows {
        for (method, at) in methods {
            let given = format!("cable={cable} size={size}mm2 method={method}");
            assert_eq!(crate::number("cable-capacity", &given), values[*at], "{given}");
        }
    }
}

/// Holds the voltage drop of every size to a column of its source: 1 A over 1,000 m drops so many volts.
#[track_caller]
pub fn drops<const N: usize>(cable: &str, rows: &[(f64, [f64; N])], at: usize) {
    for (size, values) in rows {
        let given = format!("cable={cable} size={size}mm2 length=1000m current=1A");
        crate::close(crate::number("voltage-drop", &given), values[at], 1e-12);
    }
}

#[test]
fn every_table_is_typed_again() {
    let typed = [
        armour::typed(),
        armoured_70::typed(),
        armoured_90::typed(),
        copper::typed(),
        disconnection::typed(),
        diversity::typed(),
        driving::typed(),
        external_impedance::typed(),
        flat_twin_and_earth::typed(),
        protective::typed(),
        radio::typed(),
        rating_factors::typed(),
        surroundings::typed(),
        thermoplastic::typed(),
        voltage::typed(),
    ];
    let typed: BTreeSet<&str> = typed.iter().flatten().map(|typed| typed.gives).collect();
    let ours: BTreeSet<&str> = ALL.iter().flat_map(|file| file.iter()).map(|table| table.gives).collect();
    assert_eq!(ours.difference(&typed).collect::<Vec<_>>(), Vec::<&&str>::new(), "not typed again");
}

#[test]
fn what_was_not_seen_says_so_and_what_was_seen_says_where() {
    for table in ALL.iter().flat_map(|file| file.iter()) {
        match table.grade {
            Grade::FromMemory => assert!(
                table.source.starts_with("not seen") || table.source.contains("not seen"),
                "{}: {}",
                table.gives,
                table.source
            ),
            Grade::CommonPractice => {}
            Grade::Seen | Grade::SeenSecondary | Grade::SeenInPart | Grade::Computed => {
                assert!(
                    !table.source.contains("not seen;") && table.source.len() > 8,
                    "{}: {}",
                    table.gives,
                    table.source
                );
            }
        }
        assert!(!(table.rows)().is_empty(), "{}", table.gives);
    }
}
