//! Every table of the program against its source, row by row; one source a file.
//!
//! Most rows are typed here from the same copy that the program's row was typed from: that finds errors of typing, and nothing that the
//! copy itself has wrong. Rows that an independent second source has too (`also` of a table) are counted apart.

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

use presurvey::flags::FLAGS;
use presurvey::tables::ALL;
use presurvey::tables::about::{BS_7671, Grade, Table};
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
            Grade::Itself | Grade::Quoted => {
                assert!(
                    !table.source.contains("not seen;") && table.source.len() > 8,
                    "{}: {}",
                    table.gives,
                    table.source
                );
            }
            Grade::Invented | Grade::Own => panic!("{}: no figure of a publication", table.gives),
        }
        assert!(!(table.rows)().is_empty(), "{}", table.gives);
    }
}

/// The wiring regulations and the other standards were never read themselves: what was seen of them is somebody's copy or quotation,
/// of the edition that it was of.
#[test]
fn no_row_of_a_standard_counts_as_read_in_the_standard_itself() {
    let of_standards = ["BS 7671", "IEC", "BS EN", "IET On-Site Guide", "Energy Networks", "COST", "ITU-R"];
    for table in ALL.iter().flat_map(|file| file.iter()) {
        let title = table.publication.title;
        if of_standards.iter().any(|standard| title.starts_with(standard)) {
            assert_ne!(table.grade, Grade::Itself, "{}", table.gives);
        }
        if title == "BS 7671" && table.grade == Grade::Quoted {
            assert_ne!(table.publication.edition, BS_7671.edition, "{}: no copy of that edition was seen", table.gives);
            assert_eq!(table.publication.unchecked, BS_7671.unchecked, "{}", table.gives);
        }
    }
}

/// A source is named so that somebody can find it; one whose name was not kept says so.
#[test]
fn a_source_can_be_found_or_says_that_its_name_was_not_kept() {
    // What names nobody: an article before it, "page", "catalogue" and the like after it.
    let vague = [
        "catalogue",
        "page",
        "transcription",
        "repository",
        "forum",
        "data sheet",
        "summary",
        "site",
        "blog",
        "copy",
        "white paper",
        "pages",
        "manual",
        "maker's table",
    ];
    let nameless = |source: &str| {
        // Remarks apart are held apart: each names its own.
        source.split([';', ':']).filter(|part| vague.iter().any(|word| part.contains(word))).any(|part| {
            !["not kept", "EngX", "the-regs", "restored", "the copy read", "not seen", "columns"]
                .iter()
                .any(|named| part.contains(named))
        })
    };
    assert!(nameless("a wholesaler's printed catalogue 2025/26, p. 489") && nameless("a distributor's technical page"));
    for table in ALL.iter().flat_map(|file| file.iter()) {
        let second = table.second.map(|second| second.source);
        for source in [table.source].into_iter().chain(second) {
            assert!(!nameless(source), "{}: {source}", table.gives);
        }
    }
    for flag in FLAGS {
        let source = flag.source.to_string();
        let vague =
            ["journal", "article", "summary", "maker", "notice on", "forum"].iter().any(|word| source.contains(word));
        assert!(!vague || source.contains("not kept"), "{}: {source}", flag.code);
    }
}

/// A second source has rows that the table has.
#[test]
fn what_is_seen_twice_is_counted_by_its_rows() {
    let seen_twice = |gives: &str| (table(gives).seen_twice(), (table(gives).rows)().len());
    assert_eq!(seen_twice("armoured 70 °C, two-core, voltage drop"), (2, 5));
    assert_eq!(seen_twice("factor for ambient air, 70 °C thermoplastic"), (2, 7));
    assert_eq!(seen_twice("armoured 90 °C, two-core, voltage drop"), (7, 7));
    assert_eq!(seen_twice("factor for a length in thermal insulation").0, 0);
    for table in ALL.iter().flat_map(|file| file.iter()) {
        let listed = table.second.and_then(|second| second.of).map(|of| of().len());
        assert!(table.second.is_none() || table.grade.is_checked(), "{}", table.gives);
        assert!(listed.is_none_or(|listed| listed == table.seen_twice()), "{} has no such row", table.gives);
    }
}
