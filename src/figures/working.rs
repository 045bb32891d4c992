//! The workings: for each figure its formula, inputs with units, the table rows used, and its source. Made only when asked for.

use super::{
    ADIABATIC, Arguments, CABLE_SIZE, EARTHING_CONDUCTOR, ENERGY_A_NIGHT, FIXED_LIMIT, Figure, HEADROOM, LOAD_SENSING,
    LOOP_IMPEDANCE, MAIN_BONDING, MAXIMUM_DEMAND, METER_TAILS, MONEY_A_YEAR, VOLTAGE_DROP, Value, table_row,
};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use engine::calculation::load_limit::on_the_fullest_phase;
use engine::calculation::loop_impedance::declared;
use engine::calculation::protective::SUPPLY_NEUTRAL;
use engine::context::Context;
use engine::design::laid::Around;
use engine::design::{CableDesign, DataLink, NetworkProcess, cable, data_link, earthing, network};
use engine::site::case::KnownCase;
use engine::site::{EarthingArrangement, FactId, Rated, Site, loads, rated};
use model::answers::Along;
use model::answers::Answers;
use model::config::Config;
use model::questions;
use model::tables::disconnection::AT_ONCE;
use model::tables::diversity;
use model::units::{Amps, Count, Metres, Ohms, Volts};
use serde::{Deserialize, Serialize};

/// One figure with the way it was reached.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Working {
    /// What it is.
    pub figure: String,
    /// Its value with the unit, and what it means.
    pub value: String,
    /// The value as a number, unrounded, where it is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub number: Option<f64>,
    /// The number's unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// How it was reached.
    pub formula: String,
    /// What went in, with units.
    pub inputs: Vec<Input>,
    /// What was worked out on the way, with units.
    #[serde(default)]
    pub steps: Vec<Input>,
    /// The rows of published tables that were used.
    #[serde(default)]
    pub rows: Vec<TableRow>,
    /// Clause, table or "common practice, no source".
    pub source: String,
}

/// One input or step of a figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Input {
    /// Its name.
    pub name: String,
    /// Its value with the unit.
    pub value: String,
}

/// One row of a published table.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TableRow {
    /// Publication and table or clause.
    pub table: String,
    /// The edition it is from.
    pub edition: String,
    /// What the table gives.
    pub gives: String,
    /// What the row was looked up by; empty for a single figure.
    pub row: String,
    /// What it gives.
    pub value: String,
    /// How sure that is.
    pub grade: String,
    /// Where it was seen.
    pub source: String,
}

/// The workings of every figure for the likeliest case; made only when asked for.
///
/// An answer whose question is no longer asked, given the other answers, does not count ([`questions::counting`]).
#[must_use]
pub fn working(said: &Answers, config: &Config) -> Vec<Working> {
    let answers = &*questions::counting(said);
    of_likeliest(&engine::site::infer(answers, config), &Context::of(answers, config))
}

fn of_likeliest(site: &Site, given: &Context<'_>) -> Vec<Working> {
    let case = site.likeliest_case();
    let process = network::decide(&case, given);
    let cable = cable::decide(&case, given);
    let mut all = demand(site, &case, given, &process);
    if !cable::is_kept(&case) {
        all.extend(super::feed_working::of_feed(site, given, &cable));
        all.extend(of_cable(site, &case, given, &cable));
    }
    all.push(earthing_measure(site, &case, given));
    all.extend(protective(&case));
    all.extend(driving(given, network::at_night_under(&process, given.answers)));
    all
}

/// The working of a figure of the register; where it can't be worked out, the reason stands in place of its value.
fn shown(figure: &'static Figure, given: Vec<(&'static str, Value)>) -> Working {
    let inputs =
        given.iter().map(|(key, value)| Input { name: key.replace('-', " "), value: value.to_string() }).collect();
    Arguments::of(figure, given).and_then(|arguments| figure.working(&arguments)).unwrap_or_else(|why| Working {
        figure: figure.name.replace('-', " "),
        value: why.to_string(),
        number: None,
        unit: None,
        formula: figure.formula.to_string(),
        inputs,
        steps: Vec::new(),
        rows: Vec::new(),
        source: figure.whole_source(),
    })
}

fn amps(each: &[Amps]) -> Value {
    Value::Many(each.iter().copied().map(Value::Amps).collect())
}

fn demand(site: &Site, case: &KnownCase<'_>, given: &Context<'_>, process: &NetworkProcess) -> Vec<Working> {
    let existing = case.existing();
    let fuse = case.main_fuse();
    let limit = network::threshold(case, given);
    let point = given.point.current;
    let phases = case.supply().phases;
    let fullest = on_the_fullest_phase(existing, phases);
    let highest = site.existing.values().iter().map(|(amps, _)| *amps).fold(Amps::ZERO, Amps::max);
    let highest = on_the_fullest_phase(highest, phases);
    let by_ratings_there = on_the_fullest_phase(engine::site::by_ratings(given.answers), phases);
    alloc::vec![
        by_use(site, given, existing),
        by_ratings(&rated(given.answers), fuse),
        with_charge_point(given, process, [fullest, by_ratings_there], fuse, limit),
        shown(&HEADROOM, alloc::vec![("fuse", fuse.into()), ("demand", amps(&[process.demand]))]),
        shown(
            &FIXED_LIMIT,
            alloc::vec![("fuse", limit.into()), ("demand", amps(&[highest])), ("current", point.into())]
        ),
        shown(
            &LOAD_SENSING,
            alloc::vec![
                ("fuse", limit.into()),
                ("demand", fullest.into()),
                ("now", amps(&[fullest])),
                ("current", point.into())
            ],
        ),
    ]
}

/// The working of existing demand by likely use: a distribution, and so no figure of the register.
fn by_use(site: &Site, given: &Context<'_>, existing: Amps) -> Working {
    let of_load = |values: &[(Amps, model::units::Probability)]| {
        let each: Vec<String> = values
            .iter()
            .map(|(amps, weight)| alloc::format!("{amps} ({}%)", libm::round(weight.get() * 100.0)))
            .collect();
        each.join(", ")
    };
    Working {
        figure: "existing demand by likely use".to_string(),
        value: existing.to_string(),
        number: Some(existing.get()),
        unit: Some(Amps::SYMBOL.to_string()),
        formula: "median of the sum of the loads' distributions, on a grid of whole amperes".to_string(),
        inputs: loads(given.answers)
            .iter()
            .map(|load| Input { name: load.name.to_string(), value: of_load(&load.by_use) })
            .collect(),
        steps: lowest_first(site),
        rows: [
            &diversity::COOKING_IN_FULL_TABLE,
            &diversity::COOKING_REST_TABLE,
            &diversity::COOKING_SOCKET_TABLE,
            &diversity::FURTHER_SHOWER_TABLE,
        ]
        .into_iter()
        .filter_map(|table| table_row(table, ""))
        .collect(),
        source: "allowances: IET On-Site Guide Appendix A (seen as J. Whitfield, The Electricians Guide, Table 6.2); usual loads: common practice, no source"
            .to_string(),
    }
}

/// The possible existing demands, the least first, each with its probability.
fn lowest_first(site: &Site) -> Vec<Input> {
    let mut values = site.existing.values().to_vec();
    values.sort_by(|a, b| a.0.get().total_cmp(&b.0.get()));
    let names: &[&str] = match values.len() {
        3 => &["low", "likely", "high"],
        _ => &[],
    };
    let name = |at: usize| names.get(at).copied().unwrap_or("possible");
    let each = values.iter().enumerate();
    each.map(|(at, (amps, _))| Input { name: name(at).to_string(), value: amps.to_string() }).collect()
}

fn by_ratings(rated: &Rated, fuse: Amps) -> Working {
    let mut inputs = alloc::vec![
        ("lighting", amps(&rated.lighting)),
        ("sockets", amps(&rated.sockets)),
        ("fuse", fuse.into()),
        ("basis", Value::Word("device-ratings")),
    ];
    if let Some(cooking) = rated.cooking {
        inputs.push(("cooking", amps(&[cooking])));
        inputs.push(("cooking-socket", Value::YesNo(true)));
    }
    for (key, each) in
        [("showers", rated.showers().to_vec()), ("in-full", rated.in_full()), ("charge-points", rated.charge_points())]
    {
        if !each.is_empty() {
            inputs.push((key, amps(&each)));
        }
    }
    Working { figure: "existing demand by device ratings".to_string(), ..shown(&MAXIMUM_DEMAND, inputs) }
}

fn with_charge_point(
    given: &Context<'_>,
    process: &NetworkProcess,
    [fullest, by_ratings]: [Amps; 2],
    fuse: Amps,
    limit: Amps,
) -> Working {
    let input = |name: &str, amps: Amps| Input { name: name.to_string(), value: amps.to_string() };
    Working {
        figure: "maximum demand with the charge point".to_string(),
        value: process.demand.to_string(),
        number: Some(process.demand.get()),
        unit: Some(Amps::SYMBOL.to_string()),
        formula: if process.load_limit {
            "held by load sensing at its setting, the threshold or the main fuse where that is less; never less than the home alone"
        } else {
            "existing + charge point at full current"
        }
        .to_string(),
        inputs: alloc::vec![
            input("existing, on the fullest phase", fullest),
            input("charge point", given.point.current),
            input("main fuse", fuse),
            input("threshold", limit),
        ],
        steps: alloc::vec![
            input("by likely use, nothing held back", fullest + given.point.current),
            input("by device ratings, nothing held back", by_ratings + given.point.current),
        ],
        rows: Vec::new(),
        source: "BS 7671 722.311.201, seen in a training summary of amendment 1 (name not kept); threshold: Energy Networks Association, application form for low-carbon technologies, version not kept (60 A)".to_string(),
    }
}

/// The route as an argument: the stretches of the design.
fn route(given: &Context<'_>, cable: &CableDesign) -> Value {
    Value::Route(cable.stretches(given).map(|run| (run.along, run.length)).collect::<Vec<(Along, Metres)>>())
}

/// Every earthing arrangement that is still possible, with its probability and its declared impedance.
fn arrangements(site: &Site) -> Vec<Input> {
    let known_by = site.earthing.known_by.word();
    let shown = site.shown(FactId::Earthing).values.into_iter().zip(site.earthing.values());
    shown
        .map(|(shown, (arrangement, probability))| Input {
            name: alloc::format!("Ze as declared, {}", shown.value),
            value: alloc::format!(
                "{} ({}%, {known_by})",
                declared(*arrangement),
                libm::round(probability.get() * 100.0)
            ),
        })
        .collect()
}

/// The working of the measure against a broken supply neutral: a rule, and so no figure of the register.
fn earthing_measure(site: &Site, case: &KnownCase<'_>, given: &Context<'_>) -> Working {
    let measure = earthing::decide(case, given);
    let formula = if case.earthing_assumed() {
        "how the home is earthed is not known: decided as for PME, whatever is likeliest; an electrode would be proved, or put in, besides"
    } else if measure.open_pen().is_some() {
        "PME outdoors, and TN-S that may have become PME: a measure against a broken supply neutral"
    } else {
        "TT: the electrode is proved, a residual-current device relies on it; nothing is needed against a broken supply neutral"
    };
    let yes_no =
        |name: &str, yes: bool| Input { name: name.to_string(), value: if yes { "yes" } else { "no" }.to_string() };
    let point = given.point;
    let mut inputs = arrangements(site);
    inputs.push(yes_no("charge point senses a broken supply neutral", point.open_pen_sensing));
    inputs.push(yes_no("in a way that counts on three phases", point.open_pen_three_phase));
    Working {
        figure: "earthing measure".to_string(),
        value: measure.word().replace('-', " "),
        number: None,
        unit: None,
        formula: formula.to_string(),
        inputs,
        steps: Vec::new(),
        rows: Vec::new(),
        source:
            "BS 7671 722.411.4.1, seen in BSI's amendment notice; TN-S and unknown as PME: common practice, no source"
                .to_string(),
    }
}

fn of_cable(site: &Site, case: &KnownCase<'_>, given: &Context<'_>, cable: &CableDesign) -> Vec<Working> {
    let needs = cable::needs(case, given);
    let route = route(given, cable);
    let with_data = matches!(data_link::decide(case, given), DataLink::Cable(_));
    let around = Around::of(given.answers);
    let beside = ("beside", Value::YesNo(around.together > Count::of(1)));
    let armoured = around.armoured.then_some(("armoured", Value::YesNo(true)));
    let mut of_size = alloc::vec![
        ("current", needs.ib.into()),
        ("rating", needs.in_.into()),
        ("route", route.clone()),
        ("data-pair", Value::YesNo(with_data)),
        beside.clone(),
        ("external", needs.ze_highest.into()),
        ("external-lowest", needs.ze_lowest.into()),
        ("share", needs.allowed.share_of(needs.nominal).into()),
    ];
    let ahead = needs.ahead;
    let drop_ahead = (ahead.drop > Volts::ZERO).then(|| ("drop-ahead", Value::from(ahead.drop)));
    let loop_ahead = (ahead.r1_plus_r2 > Ohms::ZERO).then(|| ("loop-ahead", Value::from(ahead.r1_plus_r2)));
    of_size.extend(drop_ahead.clone().into_iter().chain(loop_ahead.clone()));
    of_size.extend(around.in_wall.map(|length| ("in-wall", length.into())));
    of_size.extend(armoured.clone());
    let mut all = alloc::vec![shown(&CABLE_SIZE, of_size)];
    if let Some(size) = cable.size {
        all.push(shown(
            &VOLTAGE_DROP,
            [
                ("current", needs.ib.into()),
                ("size", size.into()),
                ("route", route.clone()),
                ("data-pair", Value::YesNo(with_data)),
                ("share", needs.allowed.share_of(needs.nominal).into()),
                beside,
            ]
            .into_iter()
            .chain(drop_ahead)
            .chain(armoured.clone())
            .collect(),
        ));
        let residual = needs.residual.unwrap_or(model::tables::disconnection::RESIDUAL);
        let loop_impedance = shown(
            &LOOP_IMPEDANCE,
            [
                ("external", needs.ze_highest.into()),
                ("line", size.into()),
                ("route", route),
                ("rating", needs.in_.into()),
                ("residual", residual.into()),
            ]
            .into_iter()
            .chain(loop_ahead)
            .chain(armoured)
            .collect(),
        );
        // The highest impedance that is still possible was used.
        let mut steps = arrangements(site);
        steps.extend(loop_impedance.steps);
        all.push(Working { figure: "earth fault loop impedance".to_string(), steps, ..loop_impedance });
    }
    // The current is greatest where the cable begins, at the lowest external impedance that is possible.
    all.push(shown(
        &ADIABATIC,
        alloc::vec![("current", needs.nominal.through(needs.ze_lowest).into()), ("time", AT_ONCE.into())],
    ));
    all
}

fn protective(case: &KnownCase<'_>) -> Vec<Working> {
    let neutral = (case.earthing() != EarthingArrangement::Tt).then_some(SUPPLY_NEUTRAL);
    let fuse = case.main_fuse();
    let tails = engine::calculation::protective::tails(fuse);
    let earthing = tails.map(|tails| engine::calculation::protective::earthing_conductor(tails, neutral));
    let with_pme = || ("pme", Value::YesNo(neutral.is_some()));
    let supply = neutral.map(|neutral| ("supply-neutral", Value::from(neutral)));
    // Without PME, main bonding follows from the earthing conductor, and that from the tails.
    let follows = earthing.filter(|_| neutral.is_none()).map(|earthing| ("earthing-conductor", earthing.into()));
    let mut all = alloc::vec![
        shown(&MAIN_BONDING, [with_pme()].into_iter().chain(supply.clone()).chain(follows).collect()),
        shown(&METER_TAILS, alloc::vec![("fuse", fuse.into())]),
    ];
    if let Some(tails) = tails {
        let given = [with_pme(), ("tails", tails.into())];
        all.push(shown(&EARTHING_CONDUCTOR, given.into_iter().chain(supply).collect()));
    }
    all
}

/// The workings of energy and money, where the homeowner's answers are enough for them.
fn driving(given: &Context<'_>, current: Amps) -> Vec<Working> {
    let Some(miles) = given.answers.parking.miles_a_day.known().copied() else { return Vec::new() };
    let cost = &given.answers.cost;
    let mut all = alloc::vec![shown(
        &ENERGY_A_NIGHT,
        alloc::vec![("miles", miles.into()), ("current", current.into()), ("phases", Count::of(1).into())],
    )];
    let prices = [("by day", &cost.day), ("at night", &cost.night), ("at public points", &cost.public)];
    for (when, price) in prices.into_iter().filter_map(|(when, price)| Some((when, *price.known()?))) {
        let working = shown(&MONEY_A_YEAR, alloc::vec![("miles", miles.into()), ("price", price.into())]);
        all.push(Working { figure: alloc::format!("{}, {when}", working.figure), ..working });
    }
    all
}
