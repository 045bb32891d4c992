//! The working of each figure, made only when asked for: formula, inputs with units, and source.

use super::{CableDesign, Given, NetworkProcess, cable, loop_impedance, network};
use crate::site::case::KnownCase;
use crate::site::{EarthingArrangement, Site, by_ratings, loads};
use crate::tables::conductor_resistance::TO_70C;
use crate::tables::disconnection::{C_MIN, RESIDUAL, TOUCH_LIMIT, TYPE_B};
use crate::tables::twin_and_earth::TWIN_AND_EARTH;
use crate::tables::voltage::{DROP_ALLOWED, NOMINAL};
use crate::tables::{bonding, external_impedance};
use crate::units::{Ohms, SquareMillimetres};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::{Deserialize, Serialize};

/// One figure with the way it was reached.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Working {
    /// What it is.
    pub figure: String,
    /// Its value with the unit.
    pub value: String,
    /// How it was reached.
    pub formula: String,
    /// What went in, with units.
    pub inputs: Vec<Input>,
    /// Clause, table or "common practice, no source".
    pub source: String,
}

/// One input of a figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Input {
    /// Its name.
    pub name: String,
    /// Its value with the unit.
    pub value: String,
}

/// The working of every figure of the likeliest case.
#[must_use]
pub fn of_likeliest(site: &Site, given: &Given<'_>) -> Vec<Working> {
    let case = site.likeliest_case();
    let process = network::decide(&case, given);
    let cable = cable::decide(&case, given);
    let mut all = demand(&case, given, &process);
    all.extend(current_and_drop(given, &cable));
    all.extend(fault_loop(site, given, &cable));
    all.push(working(
        "main bonding",
        bonding::main_bonding(SUPPLY_NEUTRAL).to_string(),
        "by the supply's neutral",
        &[("supply neutral, assumed", SUPPLY_NEUTRAL.to_string())],
        "BS 7671 Table 54.8, where PME applies; the supply's neutral: common practice, no source",
    ));
    all
}

/// A house's supply neutral is hardly ever larger: common practice, no source.
const SUPPLY_NEUTRAL: SquareMillimetres = SquareMillimetres::of(35.0);

fn working(figure: &str, value: String, formula: &str, inputs: &[(&str, String)], source: &str) -> Working {
    Working {
        figure: figure.to_string(),
        value,
        formula: formula.to_string(),
        inputs: inputs.iter().map(|(name, value)| Input { name: name.to_string(), value: value.clone() }).collect(),
        source: source.to_string(),
    }
}

fn demand(case: &KnownCase<'_>, given: &Given<'_>, process: &NetworkProcess) -> Vec<Working> {
    let each = loads(given.answers);
    let inputs: Vec<(&str, String)> = each
        .iter()
        .map(|load| {
            let values: Vec<String> = load
                .by_use
                .iter()
                .map(|(amps, weight)| alloc::format!("{amps} ({}%)", libm::round(weight.get() * 100.0)))
                .collect();
            (load.name, values.join(", "))
        })
        .collect();
    let existing = case.existing();
    let fuse = case.main_fuse();
    let limit = given.config.thresholds.ask_above.min(fuse);
    alloc::vec![
        working(
            "existing demand by likely use",
            existing.to_string(),
            "median of the sum of the loads' distributions, on a grid of whole amperes",
            &inputs,
            "allowances: IET On-Site Guide Appendix A (seen as Whitfield, Table 6.2); usual loads: common practice, no source",
        ),
        working(
            "existing demand by device ratings",
            by_ratings(given.answers).to_string(),
            "lighting × 0.66 + sockets (largest + 0.4 × rest) + cooking (10 A + 0.3 × rest + 5 A) + showers (two largest + 0.25 × rest) + the rest in full",
            &[],
            "IET On-Site Guide Appendix A (seen as Whitfield, Table 6.2), over circuits known of or usual",
        ),
        working(
            "maximum demand with the charge point",
            process.demand.to_string(),
            if process.load_limit {
                "held by load sensing at the lowest limit that the home alone keeps to: the threshold, or else the main fuse"
            } else {
                "existing + charge point at full current"
            },
            &[
                ("existing", existing.to_string()),
                ("charge point", given.point.current.to_string()),
                ("main fuse", fuse.to_string()),
                ("threshold", limit.to_string())
            ],
            "BS 7671 722.311.201; threshold: Energy Networks Association application form (60 A)",
        ),
        working(
            "headroom at the main fuse",
            process.headroom.to_string(),
            "main fuse − maximum demand",
            &[("main fuse", fuse.to_string()), ("maximum demand", process.demand.to_string())],
            "definition",
        ),
    ]
}

fn current_and_drop(given: &Given<'_>, cable: &CableDesign) -> Vec<Working> {
    let size = cable.size.map_or_else(|| "no size of the tables passes".to_string(), |size| size.to_string());
    let mut inputs = alloc::vec![
        ("Ib", given.point.current.to_string()),
        ("In", cable.in_.to_string()),
        ("length", cable.length.to_string()),
        ("allowed", (NOMINAL * DROP_ALLOWED).to_string()),
    ];
    if let Some(size) = cable.size {
        for run in cable.stretches(given) {
            if let Some((iz, drop)) = cable::of_size(size, &run) {
                inputs.push((run.along.word(), alloc::format!("{}, Iz {iz}, {drop}", run.length)));
            }
        }
    }
    alloc::vec![
        working(
            "cable size",
            size,
            "the smallest with Ib ≤ In ≤ Iz on every stretch and the drop within what is allowed",
            &inputs,
            "BS 7671 Tables 4D5 and 4D4A (70 °C terminals), 4E4B; Appendix 4",
        ),
        working(
            "voltage drop",
            alloc::format!(
                "{} ({} % of {NOMINAL})",
                cable.drop,
                libm::round(cable.drop.share_of(NOMINAL).get() * 1000.0) / 10.0
            ),
            "sum over the stretches of mV/A/m × Ib × length / 1000",
            &inputs,
            "BS 7671 Appendix 4, section 6 and Table 4Ab (5 %)",
        ),
    ]
}

/// Declared external impedance of an arrangement.
const fn declared(arrangement: EarthingArrangement) -> Ohms {
    match arrangement {
        EarthingArrangement::TnCS => external_impedance::TN_C_S,
        EarthingArrangement::TnS => external_impedance::TN_S,
        EarthingArrangement::Tt => external_impedance::TT,
    }
}

fn fault_loop(site: &Site, given: &Given<'_>, cable: &CableDesign) -> Vec<Working> {
    let Some(size) = cable.size else { return Vec::new() };
    // Not known which: the highest of the arrangements that are still possible.
    let ze = site.earthing.values().iter().map(|(arrangement, _)| declared(*arrangement)).fold(Ohms::ZERO, Ohms::max);
    let route: Option<Ohms> = cable
        .stretches(given)
        .map(|run| {
            let protective = if cable::takes_armoured(run.along) {
                size
            } else {
                TWIN_AND_EARTH.iter().find(|row| row.size == size)?.cpc
            };
            loop_impedance::r1_plus_r2(run.length, size, protective, TO_70C)
        })
        .sum();
    let Some(route) = route else { return Vec::new() };
    let limit = loop_impedance::limit(NOMINAL, C_MIN, TYPE_B, cable.in_);
    let zs = ze + route;
    alloc::vec![working(
        "earth fault loop impedance",
        alloc::format!(
            "{zs}: {}",
            if zs <= limit { "the breaker disconnects" } else { "the 30 mA device is relied on" }
        ),
        "Zs = Ze + (R1 + R2) × 1.20; Ze the highest still possible; armoured cable with a copper protective core of the line's size",
        &[
            ("Ze", ze.to_string()),
            ("R1 + R2, warm", route.to_string()),
            ("limit for Type B", limit.to_string()),
            ("limit with 30 mA", loop_impedance::electrode_limit(TOUCH_LIMIT, RESIDUAL).to_string()),
        ],
        "Ze: IET Wiring Matters 72 (declared, never guaranteed); resistances: IEC 60228; limit: BS 7671 411.4.4",
    )]
}
