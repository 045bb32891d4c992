//! Figures for demand: after diversity, what a fuse leaves over, and the charge current that fits.

use super::{Figure, NOMINAL, Reached, Takes, Value, ValueKind, needed, usual, without};
use alloc::vec::Vec;
use engine::calculation::charge_current;
use engine::calculation::demand;
use engine::calculation::demand::{Connected, after_diversity, cooking, heating_and_power, showers};
use model::answers::{Word, choices::words};
use model::tables::about::{BS_7671, ON_SITE_GUIDE};
use model::tables::diversity as table;
use model::units::{Amps, Kilowatts, Volts};

/// The register of this file.
pub const FIGURES: &[&Figure] = &[
    &MAXIMUM_DEMAND,
    &COOKING_DEMAND,
    &SHOWER_DEMAND,
    &HEATING_DEMAND,
    &LOAD_CURRENT,
    &HEADROOM,
    &FIXED_LIMIT,
    &LOAD_SENSING,
];

words! {
    /// What a demand is worked out from.
    pub enum Basis {
        /// The ratings of protective devices: an upper bound.
        DeviceRatings => "device-ratings",
        /// What the devices take in use.
        LikelyUse => "likely-use",
    }
}

const ALLOWANCES: &str = "seen as J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";
const AMPS: &ValueKind = &ValueKind::Amps;

/// Maximum demand.
pub const MAXIMUM_DEMAND: Figure = Figure {
    name: "maximum-demand",
    gives: "what a dwelling draws at most, after diversity",
    formula: "lighting × 0.66 + heating and power (10 A + 0.5 × rest) + cooking (10 A + 0.3 × rest + 5 A for a socket) + showers (two largest + 0.25 × rest) + socket circuits (largest + 0.4 × rest) + the rest and charge points in full",
    clauses: &[(ON_SITE_GUIDE, "Appendix A")],
    source: ALLOWANCES,
    takes: &[&[
        without("lighting", "lighting", ValueKind::Many(AMPS), "none"),
        without("heating", "heating and power that no other key names, together", ValueKind::Many(AMPS), "none"),
        without("cooking", "each cooking appliance or its circuit", ValueKind::Many(AMPS), "none"),
        usual("cooking-socket", "whether the cooking control unit has a socket-outlet", ValueKind::YesNo, || {
            Value::YesNo(false)
        }),
        without("showers", "each electric shower or instantaneous water heater", ValueKind::Many(AMPS), "none"),
        without("in-full", "thermostatic water heaters, floor warming, storage heating", ValueKind::Many(AMPS), "none"),
        without("sockets", "each circuit of socket-outlets", ValueKind::Many(AMPS), "none"),
        without("charge-points", "each charge point at its full or limited current", ValueKind::Many(AMPS), "none"),
        without("fuse", "the main fuse, to compare with", ValueKind::Amps, "not compared"),
        usual("basis", "what the currents are", ValueKind::Word(Basis::WORDS), || Value::Word(Basis::LikelyUse.word())),
    ]],
    example: "lighting=6A,6A sockets=32A,32A in-full=16A cooking=32A cooking-socket=yes fuse=60A basis=device-ratings",
    work: |given| {
        let all = |key: &'static str| given.perhaps::<Vec<Amps>>(key).unwrap_or_default();
        let sum = |key: &'static str| all(key).into_iter().sum::<Amps>();
        let socket = given.get::<bool>("cooking-socket")?;
        // A socket-outlet is counted in one control unit; a second cooker is seldom on another one.
        let cookers: Vec<(Amps, bool)> =
            all("cooking").into_iter().enumerate().map(|(at, amps)| (amps, socket && at == 0)).collect();
        let (showers, sockets) = (all("showers"), all("sockets"));
        let lines = after_diversity(&Connected {
            lighting: sum("lighting"),
            heating_and_power: sum("heating"),
            cooking: &cookers,
            showers: &showers,
            in_full: sum("in-full"),
            socket_circuits: &sockets,
            charge_points: sum("charge-points"),
        });
        let total = lines.total();
        let mut reached = Reached::of(total);
        let basis = match given.get::<super::OneOf<Basis>>("basis")?.0 {
            Basis::DeviceRatings => "by device ratings, an upper bound",
            Basis::LikelyUse => "by likely use",
        };
        reached = match given.perhaps::<Amps>("fuse") {
            Some(fuse) if total.is_within(fuse) => {
                reached.saying(alloc::format!("{basis}; within the main fuse of {fuse}"))
            }
            Some(fuse) => reached.saying(alloc::format!("{basis}; over the main fuse of {fuse}")),
            None => reached.saying(basis),
        };
        for (name, amps) in lines.lines.into_iter().filter(|(_, amps)| *amps > Amps::ZERO) {
            reached = reached.step(name, amps);
        }
        Ok(with_rows(reached, &lines))
    },
};

/// Adds the table rows of the allowances for every line with a load.
fn with_rows(mut reached: Reached, lines: &demand::AfterDiversity) -> Reached {
    for (name, _) in lines.lines.iter().filter(|(_, amps)| *amps > Amps::ZERO) {
        let tables: &[&model::tables::about::Table] = match *name {
            "lighting" => &[&table::LIGHTING_TABLE],
            "heating and power" => &[&table::HEATING_IN_FULL_TABLE, &table::HEATING_REST_TABLE],
            "cooking" => &[&table::COOKING_IN_FULL_TABLE, &table::COOKING_REST_TABLE, &table::COOKING_SOCKET_TABLE],
            "showers" => &[&table::FURTHER_SHOWER_TABLE],
            "socket circuits" => &[&table::FURTHER_SOCKET_CIRCUIT_TABLE],
            _ => &[],
        };
        for table in tables {
            reached = reached.row(table, &"");
        }
    }
    reached
}

const POWER: Takes = needed("power", "connected power", ValueKind::Kilowatts);

const COOKING_DEMAND: Figure = Figure {
    name: "cooking-demand",
    gives: "what a cooking appliance draws after diversity",
    formula: "I = P / U; 10 A + 0.3 × the rest + 5 A where the control unit has a socket-outlet",
    clauses: &[(ON_SITE_GUIDE, "Appendix A")],
    source: ALLOWANCES,
    takes: &[&[
        POWER,
        NOMINAL,
        usual("cooking-socket", "whether the control unit has a socket-outlet", ValueKind::YesNo, || {
            Value::YesNo(false)
        }),
    ]],
    example: "power=12kW cooking-socket=yes",
    work: |given| {
        let connected = given.get::<Kilowatts>("power")?.current_at(given.get("voltage")?);
        Ok(Reached::of(cooking(connected, given.get("cooking-socket")?))
            .step("connected", connected)
            .row(&table::COOKING_IN_FULL_TABLE, &"")
            .row(&table::COOKING_REST_TABLE, &"")
            .row(&table::COOKING_SOCKET_TABLE, &""))
    },
};

const SHOWER_DEMAND: Figure = Figure {
    name: "shower-demand",
    gives: "what electric showers draw after diversity",
    formula: "the two largest in full + 0.25 × every other",
    clauses: &[(ON_SITE_GUIDE, "Appendix A")],
    source: ALLOWANCES,
    takes: &[&[needed("showers", "each shower", ValueKind::Many(AMPS))]],
    example: "showers=41.3A,36.9A,36.9A",
    work: |given| Ok(Reached::of(showers(&given.get::<Vec<Amps>>("showers")?)).row(&table::FURTHER_SHOWER_TABLE, &"")),
};

const HEATING_DEMAND: Figure = Figure {
    name: "heating-demand",
    gives: "what heating and power that no other line names draws after diversity",
    formula: "10 A + 0.5 × the rest",
    clauses: &[(ON_SITE_GUIDE, "Appendix A")],
    source: ALLOWANCES,
    takes: &[&[needed("heating", "each, together", ValueKind::Many(AMPS))]],
    example: "heating=13A,13A",
    work: |given| {
        let all: Amps = given.get::<Vec<Amps>>("heating")?.into_iter().sum();
        Ok(Reached::of(heating_and_power(all))
            .row(&table::HEATING_IN_FULL_TABLE, &"")
            .row(&table::HEATING_REST_TABLE, &""))
    },
};

const LOAD_CURRENT: Figure = Figure {
    name: "load-current",
    gives: "the current that a single-phase load takes",
    formula: "I = P / U, at unity power factor",
    clauses: &[],
    source: "definition",
    takes: &[&[POWER, NOMINAL]],
    example: "power=9.5kW",
    work: |given| Ok(Reached::of(given.get::<Kilowatts>("power")?.current_at(given.get::<Volts>("voltage")?))),
};

const FUSE: Takes = needed("fuse", "the main fuse, or the limit to keep to", ValueKind::Amps);
const POINT: Takes = needed("current", "full current of the charge point", ValueKind::Amps);
const PHASES: Takes = needed(
    "demand",
    "maximum demand without the charge point, phase by phase where there are three",
    ValueKind::Many(AMPS),
);

/// What a main fuse leaves over.
pub const HEADROOM: Figure = Figure {
    name: "headroom",
    gives: "what the main fuse leaves over, phase by phase",
    formula: "main fuse − maximum demand; the fullest phase counts",
    clauses: &[],
    source: "definition",
    takes: &[&[FUSE, needed("demand", "maximum demand, phase by phase where there are three", ValueKind::Many(AMPS))]],
    example: "fuse=60A demand=45A",
    work: |given| {
        let (fuse, demand) = (given.get::<Amps>("fuse")?, given.get::<Vec<Amps>>("demand")?);
        let fullest = demand.iter().copied().fold(Amps::ZERO, Amps::max);
        let headroom = charge_current::headroom(fuse, fullest);
        let mut reached = Reached::of(headroom);
        if headroom.as_current().is_none() {
            reached = reached.saying("the demand is over the fuse");
        }
        Ok(each_phase(reached, &demand, |amps| Value::Headroom(charge_current::headroom(fuse, amps))))
    },
};

impl From<model::units::Headroom> for Value {
    fn from(headroom: model::units::Headroom) -> Self {
        Self::Headroom(headroom)
    }
}

/// Adds a step for each phase, where there are several.
fn each_phase(mut reached: Reached, phases: &[Amps], of: impl Fn(Amps) -> Value) -> Reached {
    if phases.len() > 1 {
        for (at, amps) in phases.iter().enumerate() {
            reached = reached.step(alloc::format!("phase {}", at + 1), of(*amps));
        }
    }
    reached
}

fn fits(setting: Option<Amps>) -> Value {
    setting.map_or(Value::Amps(Amps::ZERO), Value::Amps)
}

/// A fixed limit on the charge current.
pub const FIXED_LIMIT: Figure = Figure {
    name: "fixed-limit",
    gives: "the largest charge current that fits beside the maximum demand, set once",
    formula: "whole amperes of main fuse − maximum demand of the fullest phase, no more than the charge point gives; nothing under 6 A",
    clauses: &[(BS_7671, "722.311.201")],
    source: "seen in a training summary of amendment 1 (its name was not kept); whole amperes: common practice, no source; 6 A: IEC 61851-1, from memory",
    takes: &[&[FUSE, PHASES, POINT]],
    example: "fuse=60A demand=38.5A current=32A",
    work: |given| {
        let (fuse, demand, point) = (given.get("fuse")?, given.get::<Vec<Amps>>("demand")?, given.get("current")?);
        let fixed = charge_current::fixed_limit(fuse, &demand, point);
        let says = match fixed.setting {
            Some(setting) if setting >= point => "the full current fits",
            Some(_) => "it is held at this, whatever the home takes",
            None => "nothing fits",
        };
        Ok(each_phase(Reached::of(fits(fixed.setting)).saying(says), &demand, |amps| {
            fits(charge_current::that_fits(fuse, &[amps], point))
        })
        .step("maximum demand with it", fixed.demand)
        .row(&model::tables::driving::LEAST_CHARGE_TABLE, &""))
    },
};

/// A limit by load sensing.
pub const LOAD_SENSING: Figure = Figure {
    name: "load-sensing",
    gives: "the charge current at the moment where the home's load is sensed, and the maximum demand then",
    formula: "what the home leaves of the limit at the moment on the fullest phase, in whole amperes, no more than the charge point gives; a pause under 6 A. Maximum demand: home + charge point, held at the limit",
    clauses: &[(BS_7671, "722.311.201")],
    source: "seen in a training summary of amendment 1 (its name was not kept); 6 A: IEC 61851-1, from memory",
    takes: &[&[
        FUSE,
        needed("demand", "maximum demand of the home without the charge point, on the fullest phase", ValueKind::Amps),
        needed("now", "what the home takes at the moment, phase by phase where there are three", ValueKind::Many(AMPS)),
        POINT,
    ]],
    example: "fuse=60A demand=45A now=6A current=32A",
    work: |given| {
        let now = given.get::<Vec<Amps>>("now")?;
        let (limit, point) = (given.get("fuse")?, given.get("current")?);
        let sensed = charge_current::sensed(limit, &now, given.get("demand")?, point);
        let says = match sensed.now {
            Some(current) if current >= point => "the full current",
            Some(_) => "less than the full current while the home takes this",
            None => "it pauses",
        };
        Ok(each_phase(Reached::of(fits(sensed.now)).saying(says), &now, |amps| {
            fits(charge_current::that_fits(limit, &[amps], point))
        })
        .step("maximum demand", sensed.demand)
        .row(&model::tables::driving::LEAST_CHARGE_TABLE, &""))
    },
};

#[cfg(test)]
mod tests {
    use super::super::{Arguments, FigureError};
    use super::*;

    #[test]
    fn what_was_said_of_the_fuse_is_said() {
        let work = |text: &str| {
            MAXIMUM_DEMAND.working(&Arguments::read(&MAXIMUM_DEMAND, text.split(' ')).unwrap()).unwrap().value
        };
        assert!(work("in-full=61A fuse=60A").contains("over the main fuse"));
        assert!(work("in-full=60A fuse=60A").contains("within the main fuse"), "exactly on it");
        assert_eq!(work("lighting=10A"), "6.6 A: by likely use");
    }

    #[test]
    fn a_needed_key_that_is_missing_is_named() {
        let error = Arguments::read(&HEADROOM, ["fuse=60A"]).unwrap_err();
        assert!(matches!(error, FigureError::Missing { key: "demand", .. }), "{error}");
        assert!(error.to_string().contains("mA"), "and how it is written: {error}");
    }

    /// Source: On-Site Guide Appendix A: 10 A, 30 % of the rest, and 5 A for a socket-outlet in the control unit: of one unit alone.
    #[test]
    fn a_socket_outlet_is_counted_once_and_only_where_there_is_one() {
        let amps = |text: &str| {
            let given = Arguments::read(&MAXIMUM_DEMAND, text.split(' ')).unwrap();
            MAXIMUM_DEMAND.working(&given).unwrap().number.unwrap()
        };
        assert!((amps("cooking=32A cooking-socket=no") - 16.6).abs() < 1e-9);
        assert!((amps("cooking=32A cooking-socket=yes") - 21.6).abs() < 1e-9);
        let two = |socket| amps(&alloc::format!("cooking=32A,32A cooking-socket={socket}"));
        assert!((two("yes") - two("no") - 5.0).abs() < 1e-9);
    }

    #[test]
    fn what_load_sensing_leaves_at_the_moment_is_said() {
        let said = |now: &str| {
            let text = alloc::format!("fuse=60A demand=45A current=32A now={now}");
            LOAD_SENSING.working(&Arguments::read(&LOAD_SENSING, text.split(' ')).unwrap()).unwrap().value
        };
        assert!(said("28A").contains("the full current") && !said("28A").contains("less"), "32 A are left exactly");
        assert!(said("29A").contains("less than the full current"));
        assert!(said("55A").contains("it pauses"));
    }
}
