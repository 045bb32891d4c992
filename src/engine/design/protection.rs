//! Protection, earthing conductors and fixing in the likeliest case: what is to be fitted or checked, and its limits.
//!
//! A list of lines, each with a source; the sentences are in the wording files.

use super::board::{Isolation, Surge};
use super::{BoardDecision, OpenPen, board, cable, earthing};
use crate::calculation::loop_impedance::electrode_limit;
use crate::calculation::protective::{self, SUPPLY_NEUTRAL};
use crate::calculation::sizing::Disconnects;
use crate::context::Context;
use crate::site::case::KnownCase;
use crate::site::{EarthingArrangement, Phases};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use model::answers::day::written;
use model::answers::{Answer, Answers, Length, RcdType, SteeredBy, TestButtons};
use model::tables::bonding::main_bonding;
use model::tables::disconnection::{RESIDUAL, TOUCH_LIMIT};
use model::units::Kilowatts;
use serde::{Deserialize, Serialize};

/// What is to be fitted, checked or kept to, with its source; worded by `protection-WHAT` and `protection-WHAT-VALUE`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Stated {
    /// What.
    pub what: String,
    /// A word, or a figure with its unit.
    pub value: String,
    /// Clause, or "common practice, no source".
    pub source: String,
}

/// The type of residual-current device that the charge point needs ahead of it.
///
/// Source: BS 7671 722.531.3.101: Type B, or Type A with a device that senses 6 mA of direct current (IEC 62955, number from memory).
#[must_use]
pub fn residual_type(given: &Context<'_>) -> RcdType {
    // A charge point that was bought already is judged by its papers: until they are seen no feature is assumed.
    if given.point.dc_sensing && !given.answers.wish.bought.is(true) { RcdType::A } else { RcdType::B }
}

const INDIVIDUAL: &str = "BS 7671 722.531.3.101, seen in Electrical Contracting News";
const PME: &str = "BS 7671 722.411.4.1 (iii), as quoted by an equipment maker (name not kept)";
const SENSED: &str = "BS 7671 722.411.4.1 (iii) and (iv): 70 V as quoted by an equipment maker, 207 and 253 V as quoted in a charge point maker's manual (names not kept); (iv)'s 5 s from memory";
const WINDOW: &str = "BS 7671 722.411.4.1 (iii), as quoted by an equipment maker (name not kept); no voltage window on three phases: IET Code of Practice, 4th edition, as quoted by an equipment maker, name not kept (not checked in the 5th edition, 2023)";

/// Every line, in order.
#[must_use]
pub fn stated(case: &KnownCase<'_>, given: &Context<'_>) -> Vec<Stated> {
    let mut all = Vec::new();
    let mut say = |what: &str, value: &str, source: &str| {
        all.push(Stated { what: what.to_string(), value: value.to_string(), source: source.to_string() });
    };
    let decided = board::decide(case, given);

    say("residual-type", if residual_type(given) == RcdType::A { "a-with-6-ma" } else { "b" }, INDIVIDUAL);
    say("poles", "double-pole-30-ma-alone", INDIVIDUAL);
    say("circuit", "one-point-a-circuit", "BS 7671 722.314.101 (from memory)");
    say("upstream", upstream(given), "seen on a switchgear maker's questions page, whose name was not kept");
    say("able-to-export", both_ways(given.answers), "BS 7671 530.3.201 (A3:2024, from memory)");
    say(
        "surge",
        match decided {
            BoardDecision::UseWay { surge: Surge::There, .. } => "there",
            BoardDecision::UseWay { surge: Surge::InBoard, .. } => "in-the-board",
            BoardDecision::UseWay { surge: Surge::Beside, .. } => "beside-the-board",
            BoardDecision::KeepCircuit { .. } => "looked-at",
            BoardDecision::Replace { .. } => "in-the-board",
            BoardDecision::Enclosure { .. } => "in-the-enclosure",
        },
        "BS 7671 443.4.1, seen in Professional Electrician",
    );

    if matches!(decided, BoardDecision::Enclosure { .. } | BoardDecision::UseWay { surge: Surge::Beside, .. }) {
        say("enclosure", "non-combustible", "BS 7671 421.1.201, seen as quoted (where was not kept)");
    }

    let arrangement = case.earthing();
    let three = case.supply().phases != Phases::One;
    let measure = earthing::decide(case, given);
    match measure.open_pen() {
        Some(OpenPen::InChargePoint) if three => say("open-pen", "in-the-point-three-phase", WINDOW),
        Some(OpenPen::ThreePhaseDevice) => say("open-pen", "seventy-volts-three-phase", WINDOW),
        Some(OpenPen::Device) if three => say("open-pen", "seventy-volts-three-phase", WINDOW),
        Some(OpenPen::InChargePoint) => say("open-pen", "in-the-point-single-phase", SENSED),
        Some(OpenPen::Device) => say("open-pen", "device-seventy-volts", PME),
        None => {}
    }
    if three && measure.open_pen().is_some() {
        say("open-pen-otherwise", "balanced-or-electrode", "BS 7671 722.411.4.1 (i) and (ii) (from memory)");
    }
    if case.earthing_assumed() {
        say("open-pen-because", "earthing-unknown", "common practice, no source");
    }
    if measure.electrode().is_some() {
        // The residual-current device sees every line, so the limit is the same on one phase and on three.
        let limit = libm::round(electrode_limit(TOUCH_LIMIT, RESIDUAL).get());
        say(
            "electrode-limit",
            &alloc::format!("{limit} Ω"),
            "BS 7671 411.5.3, Table 41.5 (from memory): 50 V over 30 mA",
        );
        say("electrode", "two-hundred-ohms", "BS 7671 Table 41.5, note 2 (from memory)");
        say("electrode-apart", "two-metres", "common practice, no source; IET Wiring Matters 80");
    }
    // For a main fuse above the table the network operator decides, and whatever follows from its tails is left open too.
    let tails = protective::tails(case.main_fuse());
    let neutral = (arrangement != EarthingArrangement::Tt).then_some(SUPPLY_NEUTRAL);
    let earthing = tails.map(|tails| protective::earthing_conductor(tails, neutral));
    match (neutral, earthing) {
        (Some(neutral), _) => {
            say(
                "main-bonding",
                &main_bonding(neutral).to_string(),
                "BS 7671 Table 54.8, seen in D. Locke, Guide to the Wiring Regulations, p. 167",
            );
        }
        (None, Some(earthing)) => {
            let least = protective::bonding_without_pme(earthing);
            let size = protective::made(least).unwrap_or(least);
            say(
                "main-bonding",
                &size.to_string(),
                "BS 7671 544.1.1 (half of the earthing conductor), seen in a training blog",
            );
        }
        (None, None) => say("main-bonding", "by-the-earthing-conductor", "BS 7671 544.1.1, seen in a training blog"),
    }
    let bonding = if given.answers.outbuilding.farm.is(true) {
        Supplementary { bonding: "wanted-farm", source: "BS 7671 705.415.2.1 (from memory)" }
    } else {
        supplementary(cable::decide(case, given).disconnects)
    };
    say("supplementary-bonding", bonding.bonding, bonding.source);
    if let (Some(tails), Some(earthing)) = (tails, earthing) {
        say(
            "earthing-conductor",
            &earthing.to_string(),
            "BS 7671 Table 54.7, seen in T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250; network operators' practice (from memory)",
        );
        say("tails", &tails.to_string(), "network operators' practice (from memory)");
    }
    say("main-switch", &main_switch(&decided, case), "BS 7671 536.4.3.2; ratings BS EN 60947-3 (both from memory)");
    if let BoardDecision::Enclosure { isolation, .. } | BoardDecision::Replace { isolation } = decided {
        say(
            "tails-isolated",
            match isolation {
                Isolation::Switch => "by-a-switch",
                Isolation::DrawFuse => "by-drawing-the-fuse",
                Isolation::Supplier => "by-the-supplier",
                Isolation::AtTheFeed => "at-the-feed",
            },
            "common practice, no source",
        );
    }
    say("mounting-height", "connector-half-to-one-and-a-half", "IEC 60364-7-722, note (from memory)");
    say("supports", "hold-in-a-fire", "BS 7671 521.10.202, seen in a trade article (name not kept)");
    let drills = given.answers.route.walls.known().is_none_or(|walls| walls.get() > 0);
    let entry =
        if drills { given.answers.route.entry.known().map_or("not-known", |entry| entry.word()) } else { "none" };
    say("entry", entry, "common practice, no source");
    if drills {
        say("drilling", "pipes-and-cables-first", "common practice, no source");
    }
    if let (true, Some(day)) = (given.answers.wish.steered_by.is(SteeredBy::ChargePoint), given.point.off_peak) {
        say("off-peak", &written(day), "common practice, no source");
    }
    if given.answers.outbuilding.farm.is(true) {
        say("farm-building", "section-705", "BS 7671 705.411.1, 705.415.2.1 and 705.422.7 (from memory)");
    }
    if let Some(near) = gas_meter(given) {
        say("gas-meter", &near, "BS 6891 (0.15 m, from memory)");
    }
    all
}

/// The rating of the board's main switch, in a word or in amperes.
fn main_switch(decided: &BoardDecision, case: &KnownCase<'_>) -> String {
    match decided {
        // The main fuse protects it: diversity alone does not.
        BoardDecision::UseWay { .. } | BoardDecision::KeepCircuit { .. } | BoardDecision::Replace { .. } => {
            board::main_switch(case.main_fuse()).map_or_else(|| "over-its-ratings".into(), |rating| rating.to_string())
        }
        BoardDecision::Enclosure { .. } => "not-loaded".into(),
    }
}

/// Whether power flows both ways through the charge point's devices, in a word. Following solar power, or another charge point, feeds
/// nothing back through them; a car that powers the home does. Generation behind an outbuilding's feed feeds back through that feed's
/// device.
fn both_ways(answers: &Answers) -> &'static str {
    let powered = |power: &Answer<Kilowatts>| power.known().is_some_and(|power| *power > Kilowatts::ZERO);
    let loads = &answers.loads;
    let generates =
        loads.solar.is(true) || loads.battery.is(true) || powered(&loads.solar_power) || powered(&loads.battery_power);
    if answers.wish.gives_back.is(true) {
        "bidirectional"
    } else if answers.outbuilding.board_there.is(true) && generates {
        "look-behind-the-feed"
    } else {
        "one-way"
    }
}

/// Whether supplementary bonding is needed, as a wording key, and the clause for it.
struct Supplementary {
    bonding: &'static str,
    source: &'static str,
}

/// Whether supplementary bonding is needed: where nothing disconnects a fault in time. Otherwise a charge point needs none: it stands in no
/// bathroom, and the metal within reach of it is bonded at the origin.
fn supplementary(disconnects: Disconnects) -> Supplementary {
    let bonding = match disconnects {
        Disconnects::Breaker => "not-wanted-breaker",
        Disconnects::ResidualDevice => "not-wanted-residual-device",
        Disconnects::Neither => "wanted",
    };
    Supplementary { bonding, source: "BS 7671 411.3.2.6 and 415.2 (from memory)" }
}

/// What lies upstream of the charge point's own device, in a word.
fn upstream(given: &Context<'_>) -> &'static str {
    let board = &given.answers.board;
    match (board.rcd_type.known(), board.test_buttons.known()) {
        (_, Some(TestButtons::EachWay | TestButtons::None)) => "nothing-shared",
        (Some(RcdType::Ac), _) => "type-ac",
        (Some(RcdType::A | RcdType::F | RcdType::B), _) => "no-type-ac",
        (None, _) => "not-known",
    }
}

fn gas_meter(given: &Context<'_>) -> Option<String> {
    let distance: &Length = given.answers.earthing.gas_meter_distance.known()?;
    Some(distance.in_metres(given.config.thresholds.pace).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::infer;
    use model::answers::{BoundedCount, EarthGoes};
    use model::config::demo_config;

    fn value(answers: &Answers, what: &str) -> Option<String> {
        let config = demo_config();
        let site = infer(answers, &config);
        let lines = stated(&site.likeliest_case(), &Context::of(answers, &config));
        lines.into_iter().find(|line| line.what == what).map(|line| line.value)
    }

    #[test]
    fn a_type_a_device_suffices_only_where_direct_current_is_sensed() {
        let (mut config, answers) = (demo_config(), Answers::default());
        let kind = |config: &model::config::Config| residual_type(&Context::of(&answers, config));
        assert_eq!(kind(&config), RcdType::A);
        config.charge_points.iter_mut().for_each(|point| point.dc_sensing = false);
        assert_eq!(kind(&config), RcdType::B);
    }

    /// Source: BS 7671 Table 54.8 (Locke, p. 167): 10 mm² up to a supply neutral of 35 mm².
    #[test]
    fn main_bonding_follows_the_supplys_neutral() {
        let mut answers = Answers::default();
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
        assert_eq!(value(&answers, "main-bonding").unwrap(), "10 mm²");
        assert_eq!(value(&answers, "electrode"), None);
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
        assert_eq!(value(&answers, "electrode").unwrap(), "two-hundred-ohms");
        assert_eq!(value(&answers, "open-pen"), None);
    }

    /// Sources: BS 7671 544.1.1 (half of the earthing conductor, seen in a training blog), Table 54.7: tails of 16 or 25 mm² want 16 mm²
    /// of earthing conductor, half of it is 8 mm², and the next cable made is 10 mm².
    #[test]
    fn main_bonding_without_pme_follows_the_earthing_conductor() {
        let mut answers = Answers::default();
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
        for carrier in [60.0, 100.0] {
            answers.meter.carrier_rating = Answer::Known(model::units::Amps::of(carrier));
            assert_eq!(value(&answers, "main-bonding").unwrap(), "10 mm²", "{carrier}");
            assert_eq!(value(&answers, "earthing-conductor").unwrap(), "16 mm²", "{carrier}");
        }
    }

    /// Source: BS 7671 Table 41.5 (from memory): 50 V over 30 mA is 1,667 Ω.
    #[test]
    fn an_electrode_has_its_limits_whatever_the_phases() {
        let mut answers = Answers::default();
        assert_eq!(value(&answers, "electrode-limit"), None);
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
        for carriers in [1, 3] {
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(carriers).unwrap());
            assert_eq!(value(&answers, "electrode-limit").unwrap(), "1667 Ω");
            assert_eq!(value(&answers, "open-pen-otherwise"), None);
        }
    }

    #[test]
    fn a_broken_conductor_is_met_another_way_on_three_phases() {
        let mut answers = Answers::default();
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        assert_eq!(value(&answers, "open-pen").unwrap(), "in-the-point-single-phase");
        assert_eq!(value(&answers, "open-pen-otherwise"), None);
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(3).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
        assert!(
            ["in-the-point-three-phase", "seventy-volts-three-phase"]
                .contains(&value(&answers, "open-pen").unwrap().as_str())
        );
        assert_eq!(value(&answers, "open-pen-otherwise").unwrap(), "balanced-or-electrode");
    }

    #[test]
    fn supplementary_bonding_is_wanted_only_where_nothing_disconnects() {
        assert_eq!(supplementary(Disconnects::Neither).bonding, "wanted");
        let mut answers = Answers::default();
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::Rod);
        assert_eq!(value(&answers, "supplementary-bonding").unwrap(), "not-wanted-residual-device");
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
        answers.route.length = Answer::Known(Length::metres(8.0));
        assert_eq!(value(&answers, "supplementary-bonding").unwrap(), "not-wanted-breaker");
    }

    #[test]
    fn the_main_switch_carries_what_the_main_fuse_does_where_a_way_of_its_board_is_used() {
        let (mut answers, mut config) = (Answers::default(), demo_config());
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
        answers.board.protection = Answer::Known(model::answers::Protection::Breakers);
        answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
        answers.board.spare_ways = Answer::Known(model::answers::SpareWays::Several);
        answers.outbuilding.board_there = Answer::Known(false);
        let value = |answers: &Answers| {
            let site = infer(answers, &config);
            let given = Context::of(answers, &config);
            let lines = stated(&site.likeliest_case(), &given);
            lines.into_iter().find(|line| line.what == "main-switch").unwrap().value
        };
        for (fuse, rating) in [(60.0, "63 A"), (80.0, "80 A"), (100.0, "100 A")] {
            answers.meter.carrier_rating = Answer::Known(model::units::Amps::of(fuse));
            for showers in 0..=4 {
                answers.loads.showers = Answer::Known(BoundedCount::new(showers).unwrap());
                assert_eq!(value(&answers), rating, "whatever the home draws");
            }
        }
        answers.board.spare_ways = Answer::Known(model::answers::SpareWays::None);
        assert_eq!(value(&answers), "not-loaded");
    }

    #[test]
    fn what_lies_upstream_is_said_even_where_nobody_could_tell() {
        let mut answers = Answers::default();
        assert_eq!(value(&answers, "upstream").unwrap(), "not-known");
        answers.board.rcd_type = Answer::Known(RcdType::Ac);
        assert_eq!(value(&answers, "upstream").unwrap(), "type-ac");
        answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
        assert_eq!(value(&answers, "upstream").unwrap(), "nothing-shared");
    }
}
