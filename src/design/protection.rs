//! Protection, earthing conductors and fixing, as stated for the likeliest case: what is to be fitted or checked, and its limits.
//!
//! A list of lines, each with a source; sentences are in the wording files.

use super::board::{Isolation, Surge};
use super::protective::{self, SUPPLY_NEUTRAL};
use super::{BoardDecision, EarthingMeasure, Given, board, earthing};
use crate::answers::{Length, RcdType, TestButtons};
use crate::assessment::Stated;
use crate::site::case::KnownCase;
use crate::site::{EarthingArrangement, Phases};
use crate::tables::bonding::main_bonding;
use crate::units::SquareMillimetres;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// The type of residual-current device that the charge point needs ahead of it.
///
/// Source: BS 7671 722.531.3.101: Type B, or Type A with a device that senses 6 mA of direct current (IEC 62955, number from memory).
#[must_use]
pub fn residual_type(given: &Given<'_>) -> RcdType {
    // One bought already is judged by its papers: until then nothing is taken for granted of it.
    if given.point.dc_sensing && !given.answers.wish.bought.is(true) { RcdType::A } else { RcdType::B }
}

/// Main bonding where PME does not apply: half the earthing conductor (8 mm²) or 6 mm² at the least, so the next size of cable.
/// Source: BS 7671 544.1.1, seen in a training blog.
const BONDING_ELSEWHERE: SquareMillimetres = SquareMillimetres::of(10.0);

const INDIVIDUAL: &str = "BS 7671 722.531.3.101, seen in a trade journal";
const PME: &str = "BS 7671 722.411.4.1, seen in an amendment notice";

/// Every line.
#[must_use]
pub fn stated(case: &KnownCase<'_>, given: &Given<'_>) -> Vec<Stated> {
    let mut all = Vec::new();
    let mut say = |what: &str, value: &str, source: &str| {
        all.push(Stated { what: what.to_string(), value: value.to_string(), source: source.to_string() });
    };
    let decided = board::decide(case, given);

    say("residual-type", if residual_type(given) == RcdType::A { "a-with-6-ma" } else { "b" }, INDIVIDUAL);
    say("poles", "double-pole-30-ma-alone", INDIVIDUAL);
    say("circuit", "one-point-a-circuit", "BS 7671 722.314.101 (from memory)");
    say("upstream", upstream(given), "a switchgear maker's questions page");
    if case.other_point() || given.answers.wish.follow_solar.is(true) {
        say("able-to-export", "bidirectional", "BS 7671 530.3.201 (A3:2024, from memory)");
    }
    say(
        "surge",
        match decided {
            BoardDecision::UseWay { surge: Surge::There, .. } => "there",
            BoardDecision::UseWay { surge: Surge::InBoard, .. } => "in-the-board",
            BoardDecision::UseWay { surge: Surge::Beside, .. } => "beside-the-board",
            BoardDecision::Enclosure { .. } => "in-the-enclosure",
        },
        "BS 7671 443.4.1, seen in a trade journal",
    );

    let arrangement = case.earthing();
    let three = case.supply().phases != Phases::One;
    match earthing::decide(case, given) {
        EarthingMeasure::InChargePoint | EarthingMeasure::Device if three => {
            say("open-pen", "seventy-volts-three-phase", PME)
        }
        EarthingMeasure::InChargePoint => say("open-pen", "in-the-point-single-phase", PME),
        EarthingMeasure::Device => say("open-pen", "device-seventy-volts", PME),
        EarthingMeasure::ProveElectrode | EarthingMeasure::NewElectrode => {
            say("electrode", "two-hundred-ohms", "BS 7671 Table 41.5, note 2 (from memory)");
            say("electrode-apart", "two-metres", "common practice, no source; IET Wiring Matters 80");
        }
    }
    let (bonding, why) = match arrangement {
        EarthingArrangement::TnCS | EarthingArrangement::TnS => {
            (main_bonding(SUPPLY_NEUTRAL), "BS 7671 Table 54.8; Locke, p. 167")
        }
        EarthingArrangement::Tt => (BONDING_ELSEWHERE, "BS 7671 544.1.1, seen in a training blog"),
    };
    say("main-bonding", &bonding.to_string(), why);
    // A main fuse above the table is for the network operator to say.
    if let Some(tails) = protective::tails(case.main_fuse()) {
        let neutral = (arrangement != EarthingArrangement::Tt).then_some(SUPPLY_NEUTRAL);
        let earthing = protective::earthing_conductor(tails, neutral);
        say("earthing-conductor", &earthing.to_string(), "BS 7671 Table 54.7; network operators' practice");
        say("tails", &tails.to_string(), "network operators' practice (from memory)");
    }
    if let BoardDecision::Enclosure { isolation, .. } = decided {
        say(
            "tails-isolated",
            match isolation {
                Isolation::Switch => "by-a-switch",
                Isolation::DrawFuse => "by-drawing-the-fuse",
                Isolation::Supplier => "by-the-supplier",
            },
            "common practice, no source",
        );
    }
    say("mounting-height", "connector-half-to-one-and-a-half", "IEC 60364-7-722, note (from memory)");
    say("supports", "hold-in-a-fire", "BS 7671 521.10.202, seen in a trade article");
    if let Some(near) = gas_meter(given) {
        say("gas-meter", &near, "BS 6891 (0.15 m, from memory)");
    }
    all
}

/// What lies upstream of the charge point's own device.
fn upstream(given: &Given<'_>) -> &'static str {
    let board = &given.answers.board;
    match (board.rcd_type.known(), board.test_buttons.known()) {
        (_, Some(TestButtons::EachWay | TestButtons::None)) => "nothing-shared",
        (Some(RcdType::Ac), _) => "type-ac",
        (Some(RcdType::A | RcdType::F | RcdType::B), _) => "no-type-ac",
        (None, _) => "not-known",
    }
}

fn gas_meter(given: &Given<'_>) -> Option<String> {
    let distance: &Length = given.answers.earthing.gas_meter_distance.known()?;
    Some(distance.in_metres(given.config.thresholds.pace).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::{Answer, Answers, EarthGoes};
    use crate::config::demo_config;
    use crate::design::charge_point::suited;
    use crate::site::read;

    fn value(answers: &Answers, what: &str) -> Option<String> {
        let config = demo_config();
        let site = read(answers, &config);
        let point = suited(answers, &config).unwrap();
        let lines = stated(&site.likeliest_case(), &Given { answers, config: &config, point });
        lines.into_iter().find(|line| line.what == what).map(|line| line.value)
    }

    #[test]
    fn a_type_a_device_suffices_only_where_direct_current_is_sensed() {
        let (mut config, answers) = (demo_config(), Answers::default());
        let kind = |config: &crate::config::Config| {
            residual_type(&Given { answers: &answers, config, point: suited(&answers, config).unwrap() })
        };
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
