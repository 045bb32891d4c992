//! Source: BS 7671 Table 4D5. Columns C, 100 and 103: an electrician course's formula sheet that cites the table; 101, 102 and A from
//! memory. Voltage drop: T. Linsley, *Basic Electrical Installation Work* (Newnes), Table 14.3.

use super::{Typed, carries, column, drops, hold, list};
use presurvey::tables::about::Grade::{FromMemory, Itself, Quoted};

/// 100, 101, 102, 103, C, A, mV/A/m.
const TABLE_4D5: [(f64, [f64; 7]); 5] = [
    (2.5, [21.0, 17.0, 21.0, 13.5, 27.0, 20.0, 18.0]),
    (4.0, [27.0, 22.0, 27.0, 17.5, 37.0, 26.0, 11.0]),
    (6.0, [34.0, 27.0, 35.0, 23.5, 47.0, 32.0, 7.3]),
    (10.0, [45.0, 36.0, 47.0, 32.0, 64.0, 44.0, 4.4]),
    (16.0, [57.0, 46.0, 63.0, 42.5, 85.0, 57.0, 2.8]),
];

pub fn typed() -> Vec<Typed> {
    let of = |gives, grade, at| column(gives, grade, &TABLE_4D5, at);
    vec![
        of("flat twin-and-earth, capacity, method 100 (above a ceiling, insulation to 100 mm)", Quoted, 0),
        of("flat twin-and-earth, capacity, method 101 (above a ceiling, insulation over 100 mm)", FromMemory, 1),
        of("flat twin-and-earth, capacity, method 102 (insulated stud wall, touching the lining)", FromMemory, 2),
        of("flat twin-and-earth, capacity, method 103 (insulated stud wall, not touching the lining)", Quoted, 3),
        of("flat twin-and-earth, capacity, method C (clipped direct)", Quoted, 4),
        of("flat twin-and-earth, capacity, method A (conduit in an insulated wall)", FromMemory, 5),
        of("flat twin-and-earth, voltage drop", Quoted, 6),
        // D. Locke, *Guide to the Wiring Regulations* (Wiley, 2008), Appendix 4 Table 4.3, line/cpc.
        list(
            "flat twin-and-earth, protective conductor by line conductor",
            Itself,
            &[(1.5, 1.0), (2.5, 1.5), (4.0, 1.5), (6.0, 2.5), (10.0, 4.0), (16.0, 6.0)],
        ),
    ]
}

#[test]
fn as_published() {
    hold(&typed());
}

#[test]
fn each_method_by_name() {
    let methods = [("100", 0), ("101", 1), ("102", 2), ("103", 3), ("C", 4), ("A", 5)];
    carries("twin-and-earth", &methods, &TABLE_4D5);
    drops("twin-and-earth", &TABLE_4D5, 6);
}
