//! At the edges: no length, the least and the greatest; every fuse; every size; exactly on a limit; what is no number.

use crate::{close, number, work};
use presurvey::figures::{FigureError, each, named};

#[test]
fn no_length_the_least_and_the_greatest() {
    let drop = |metres: &str| number("voltage-drop", &format!("length={metres} size=6mm2 current=32A"));
    close(drop("0m"), 0.0, 0.0);
    close(drop("0.1m"), 0.02336, 1e-12);
    close(drop("1000m"), 233.6, 1e-9);
    let size = |metres: &str| {
        work("cable-size", &format!("current=32A route=soft-ground:{metres} arrangement=tn-c-s")).unwrap().value
    };
    assert!(size("0m").starts_with("6 mm²") && size("0.1m").starts_with("6 mm²"));
    assert!(size("1000m").starts_with("no size of the tables passes"));
}

/// 60, 63, 80 and 100 A, with a demand of 28 A and one that leaves exactly 6 A.
#[test]
fn every_fuse() {
    for (fuse, left) in [(60, 32.0), (63, 35.0), (80, 52.0), (100, 72.0)] {
        close(number("headroom", &format!("fuse={fuse}A demand=28A")), left, 1e-12);
        close(number("fixed-limit", &format!("fuse={fuse}A demand=28A current=32A")), 32.0, 0.0);
        close(number("fixed-limit", &format!("fuse={fuse}A demand={}A current=32A", fuse - 6)), 6.0, 0.0);
        let over = format!("fuse={fuse}A demand={}.1A current=32A", fuse - 6);
        assert!(work("fixed-limit", &over).unwrap().value.contains("nothing fits"));
    }
}

#[test]
fn three_phases_one_by_one() {
    let working = work("fixed-limit", "fuse=60A demand=10A,45A,20A current=32A").unwrap();
    assert_eq!(working.number, Some(15.0));
    let phases: Vec<&str> = working.steps.iter().take(3).map(|step| step.value.as_str()).collect();
    assert_eq!(phases, ["32 A", "15 A", "32 A"]);
}

/// A limit set once is told apart from one that is sensed: at night the full current, at the kettle less, over the limit a pause.
#[test]
fn fixed_and_sensed() {
    close(number("fixed-limit", "fuse=60A demand=45A current=32A"), 15.0, 0.0);
    let sensed = |now: u32| work("load-sensing", &format!("fuse=60A demand=45A now={now}A current=32A")).unwrap();
    assert_eq!((sensed(6).number, sensed(40).number), (Some(32.0), Some(20.0)));
    assert!(sensed(55).value.contains("it pauses"));
    assert_eq!(sensed(6).steps[0].value, "60 A", "the maximum demand is held at the limit");
}

/// Source: BS 7671 Table 4D5, method C: In on the capacity of every size passes, a hundredth over does not.
#[test]
fn exactly_on_the_capacity_of_every_size() {
    for (size, capacity) in [(2.5, 27.0), (4.0, 37.0), (6.0, 47.0), (10.0, 64.0), (16.0, 85.0)] {
        close(number("smallest-by-capacity", &format!("rating={capacity}A")), size, 0.0);
        let over = format!("size={size}mm2 rating={}A", capacity + 0.01);
        assert!(work("cable-capacity", &over).unwrap().value.contains("In is over Iz"));
    }
}

/// 5 % of 230 V is 11.5 V: 32 A over 49.2294… m of 6 mm² at 7.3 mV/A/m.
#[test]
fn exactly_on_the_drop_allowed() {
    let longest = number("longest-run-by-voltage-drop", "current=32A size=6mm2");
    let at = |metres: f64| work("voltage-drop", &format!("length={metres:.9}m size=6mm2 current=32A")).unwrap().value;
    assert!(at(longest).contains("within"));
    assert!(at(longest + 0.001).contains("over"));
}

#[test]
fn exactly_on_a_limit_of_impedance() {
    let said =
        |ze: &str| work("loop-impedance", &format!("external={ze} length=0m line=6mm2 limit=1.37ohm")).unwrap().value;
    assert!(said("1.37ohm").contains("the breaker disconnects"));
    assert!(said("1.370001ohm").contains("neither"));
    let electrode = |ohms: &str| work("electrode-limit", &format!("residual=100mA electrode={ohms}")).unwrap().value;
    assert!(!electrode("500ohm").contains("too much"), "50 V over 100 mA");
    assert!(electrode("500.001ohm").contains("too much"));
    // Nothing is left of a limit that the external impedance alone reaches.
    close(number("longest-run-by-loop-impedance", "limit=0.8ohm arrangement=tn-s line=6mm2"), 0.0, 0.0);
    close(number("longest-run-by-loop-impedance", "limit=0.7ohm arrangement=tn-s line=6mm2"), 0.0, 0.0);
}

#[test]
fn every_figure_refuses_what_is_no_number_at_the_door() {
    for figure in each() {
        for pair in figure.example.split(' ') {
            let (key, _) = pair.split_once('=').unwrap();
            for bad in ["", "NaN", "nan", "inf", "-inf", "infinity", "1e999", "NaNA", "infA", "9e9e9"] {
                let given = figure.example.replace(pair, &format!("{key}={bad}"));
                let refused = work(figure.name, &given).unwrap_err();
                assert!(matches!(refused, FigureError::NotAllowed { .. }), "{} {given}: {refused}", figure.name);
            }
            // A number past all bounds is infinite.
            let given = figure.example.replace(pair, &format!("{key}={}", "9".repeat(400)));
            assert!(work(figure.name, &given).is_err(), "{} {key}", figure.name);
        }
    }
}

#[test]
fn what_is_wrong_and_what_is_allowed_are_both_named() {
    let why = |name: &str, given: &str| work(name, given).unwrap_err().to_string();
    assert!(why("voltage-dorp", "").contains("voltage-drop") && why("voltage-dorp", "").contains("\"voltage-dorp\""));
    assert!(
        why("voltage-drop", "lenght=20m").contains("\"lenght\"")
            && why("voltage-drop", "lenght=20m").contains("length")
    );
    assert!(why("voltage-drop", "length=20 size=6mm2 current=32A").contains("in m, mm, cm, km, ft"));
    assert!(why("voltage-drop", "length=20A size=6mm2 current=32A").contains("\"A\" is not its unit"));
    assert!(why("voltage-drop", "length=20m size=6mm2").contains("needs `current`"));
    assert!(why("voltage-drop", "length=20m size=6mm2 current=32A current=16A").contains("twice"));
    assert!(why("voltage-drop", "length").contains("KEY=VALUE"));
    assert!(why("voltage-drop", "length=20m size=7mm2 current=32A").contains("2.5 mm², 4 mm², 6 mm²"));
    assert!(why("cable-size", "current=32A route=roof:3m arrangement=tt").contains("loft-or-floor"));
    assert!(why("cable-size", "current=32A route=inside:3m").contains("needs `arrangement`"));
}

/// Every input is asked for with the words that say how it is written.
#[test]
fn every_input_says_how_it_is_written() {
    for figure in each() {
        assert!(named(figure.name).is_ok());
        for input in figure.inputs() {
            assert!(!input.is.is_empty() && !input.kind.written().is_empty(), "{} {}", figure.name, input.key);
        }
    }
}
