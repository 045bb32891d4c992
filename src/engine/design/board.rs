//! The decision about the board: use a way of it, or add a small enclosure fed by splitting the tails; and how the tails are isolated.
//!
//! Source: BS 7671 722.531.3.101 (each point protected individually, double-pole, 30 mA), as quoted in Electrical Contracting News's
//! technical column; enclosure non-combustible, 421.1.201. Whether a way behind a shared RCD counts as individual is disputed:
//! the stricter reading is taken here. The rest: common practice, no source.

use super::cable::{all_armoured, takes_armoured};
use crate::context::Context;
use crate::site::case::KnownCase;
use crate::site::{BoardState, CircuitThere, Feed, said_in_stretches};
use model::answers::EarthGoes;
use model::units::Amps;

/// How the meter tails are made dead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Isolation {
    /// By a switch after the meter.
    Switch,
    /// By withdrawing the service fuse, which the network operator here permits registered electricians.
    DrawFuse,
    /// By the supplier or network operator: a wait.
    Supplier,
    /// The tails are not isolated: the feed of an outbuilding's board is, at the home's own board.
    AtTheFeed,
}

/// What protects the charge point's circuit from a way of the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WayDevice {
    /// One double-pole device for overcurrent and 30 mA, in the board.
    DoublePole,
    /// A breaker in the board and a double-pole residual-current device after it.
    BreakerThenResidual,
    /// A breaker in the board; the charge point has the residual-current device.
    BreakerAlone,
}

/// Where surge protection is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surge {
    /// In the board already.
    There,
    /// Added in a gap of the board.
    InBoard,
    /// Added in a small enclosure beside it: the charge point's device takes the one gap there is.
    Beside,
}

/// What is done at the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoardDecision {
    /// A way of the board is used.
    UseWay {
        /// What protects the circuit.
        device: WayDevice,
        /// Where surge protection is.
        surge: Surge,
        /// Whether the way has to be freed first.
        freed: bool,
    },
    /// An old charge point's circuit is used.
    KeepCircuit {
        /// The device that protects it from now on, where the old one is changed.
        device: Option<WayDevice>,
    },
    /// The whole board is replaced: it has no room for one more circuit, and there is none beside it for an enclosure.
    Replace {
        /// How the tails are isolated for it.
        isolation: Isolation,
    },
    /// A small enclosure with its own protection beside the board.
    Enclosure {
        /// How the tails are isolated for it.
        isolation: Isolation,
        /// Why the board itself is not used.
        because: NotUsed,
    },
}

/// Why a board is not used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotUsed {
    /// No spare way.
    Full,
    /// Its spare ways are behind a shared residual-current device.
    SharedDevice,
    /// No double-pole device of the kind needed can be had for it, and the cable itself needs one.
    NoDevice,
    /// Fuse wire: an opinion on the board comes first.
    FuseWire,
    /// It is an outbuilding's board, whose feed does not carry it: the cable comes from the home.
    Outbuilding,
}

/// Ratings of a board's main switch. Source: BS EN 60947-3 (from memory).
const MAIN_SWITCHES: [Amps; 3] = [Amps::of(63.0), Amps::of(80.0), Amps::of(100.0)];

/// The smallest main switch that carries a current; `None` above the largest. The rating of a board's own switch is not asked: it stays
/// unknown until somebody reads it.
#[must_use]
pub fn main_switch(current: Amps) -> Option<Amps> {
    MAIN_SWITCHES.into_iter().find(|rating| current <= *rating)
}

/// The least rating of any main switch: where the demand is within it, nobody needs to read the switch.
pub const LEAST_MAIN_SWITCH: Amps = MAIN_SWITCHES[0];

/// Decides what is done at the board.
#[must_use]
pub fn decide(case: &KnownCase<'_>, given: &Context<'_>) -> BoardDecision {
    let there = case.circuit();
    // A circuit fed from an outbuilding can carry no more than the outbuilding's feed does.
    let because = if case.feed().is_too_small() {
        NotUsed::Outbuilding
    } else if there == CircuitThere::Sound {
        return BoardDecision::KeepCircuit { device: None };
    } else if there == CircuitThere::NewDevice {
        match way_device(case, given) {
            Some(device) => return BoardDecision::KeepCircuit { device: Some(device) },
            None => NotUsed::NoDevice,
        }
    } else {
        let way = case.board();
        match way {
            BoardState::OwnWays | BoardState::OwnWay | BoardState::FreedWay => match way_device(case, given) {
                Some(device) => {
                    let surge = match (case.surge_device(), way) {
                        (true, _) => Surge::There,
                        (false, BoardState::OwnWays) => Surge::InBoard,
                        (false, _) => Surge::Beside,
                    };
                    return BoardDecision::UseWay { device, surge, freed: way == BoardState::FreedWay };
                }
                None => NotUsed::NoDevice,
            },
            BoardState::SharedWay => NotUsed::SharedDevice,
            BoardState::Full => NotUsed::Full,
            BoardState::FuseWire => NotUsed::FuseWire,
        }
    };
    let isolation = if matches!(case.feed(), Feed::Carries(_)) {
        Isolation::AtTheFeed
    } else if case.switch_after_meter() {
        Isolation::Switch
    } else if given.config.thresholds.may_draw_fuse {
        Isolation::DrawFuse
    } else {
        Isolation::Supplier
    };
    // Replacing an outbuilding's board would not help: its feed stays as it is.
    if because != NotUsed::Outbuilding && given.answers.board.wall_space.is(false) {
        BoardDecision::Replace { isolation }
    } else {
        BoardDecision::Enclosure { isolation, because }
    }
}

/// The protection of the circuit from a way of the board: one double-pole device where it can be had, otherwise a breaker, where the cable
/// itself needs no residual-current device in the board. `None` where neither does.
fn way_device(case: &KnownCase<'_>, given: &Context<'_>) -> Option<WayDevice> {
    if case.device() {
        Some(WayDevice::DoublePole)
    } else if !cable_needs_none(case, given) {
        None
    } else if given.point.residual_device {
        Some(WayDevice::BreakerAlone)
    } else {
        Some(WayDevice::BreakerThenResidual)
    }
}

/// Whether the cable itself needs no residual-current device: it is armoured all the way, and the installation is known not to be TT, where
/// the fault loop relies on one. Anything not known counts as needing it.
///
/// Source: BS 7671 522.6.202 and 411.5 (from memory).
fn cable_needs_none(case: &KnownCase<'_>, given: &Context<'_>) -> bool {
    let goes = given.answers.earthing.conductor_goes.known();
    if !matches!(goes, Some(EarthGoes::ServiceHead | EarthGoes::CableSheath)) {
        return false;
    }
    let all = all_armoured(given.answers);
    match said_in_stretches(given.answers) {
        _ if all => true,
        Some(stretches) => stretches.iter().all(|stretch| takes_armoured(stretch.along)),
        None => takes_armoured(case.route_along()),
    }
}

impl BoardDecision {
    /// The decision in a word.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::KeepCircuit { device: None } => "keep-the-circuit",
            Self::KeepCircuit { device: Some(_) } => "keep-the-cable",
            Self::Replace { .. } => "replace-the-board",
            Self::UseWay { freed: true, .. } => "free-a-way",
            Self::UseWay { device: WayDevice::DoublePole, .. } => "use-a-way",
            Self::UseWay { device: WayDevice::BreakerThenResidual, .. } => "breaker-then-residual",
            Self::UseWay { device: WayDevice::BreakerAlone, .. } => "breaker-alone",
            Self::Enclosure { because, .. } => match because {
                NotUsed::Full => "enclosure-board-full",
                NotUsed::SharedDevice => "enclosure-shared-device",
                NotUsed::NoDevice => "enclosure-no-device",
                NotUsed::FuseWire => "opinion-first",
                NotUsed::Outbuilding => "enclosure-outbuilding",
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::infer;
    use model::answers::{Along, Answer, Answers, Protection, ShortText, SpareWays, TestButtons};
    use model::config::{BoardDevice, Config, demo_config};

    fn home(ways: SpareWays, surge: bool) -> Answers {
        let mut answers = Answers::default();
        answers.board.protection = Answer::Known(Protection::Breakers);
        answers.board.test_buttons = Answer::Known(TestButtons::EachWay);
        answers.board.spare_ways = Answer::Known(ways);
        answers.board.surge_device = Answer::Known(surge);
        answers.board.maker = Answer::Known(ShortText::new("invented board").unwrap());
        answers.outbuilding.board_there = Answer::Known(false);
        answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
        answers.route.mostly = Answer::Known(Along::OutsideWall);
        answers
    }

    fn listed(double_pole: bool) -> Config {
        let mut config = demo_config();
        config.devices = alloc::vec![BoardDevice { printed: "invented board".into(), double_pole }];
        config
    }

    fn decided(answers: &Answers, config: &Config) -> BoardDecision {
        let site = infer(answers, config);
        decide(&site.likeliest_case(), &Context::of(answers, config))
    }

    #[test]
    fn one_gap_is_not_claimed_twice() {
        let surge = |ways, there| match decided(&home(ways, there), &listed(true)) {
            BoardDecision::UseWay { surge, .. } => surge,
            other => panic!("there is a way: {other:?}"),
        };
        assert_eq!(surge(SpareWays::One, false), Surge::Beside);
        assert_eq!(surge(SpareWays::Several, false), Surge::InBoard);
        assert_eq!(surge(SpareWays::One, true), Surge::There);
    }

    #[test]
    fn without_the_device_a_breaker_will_do_where_the_cable_needs_no_more() {
        let mut answers = home(SpareWays::Several, true);
        assert_eq!(decided(&answers, &listed(false)).word(), "breaker-then-residual");
        let mut config = listed(false);
        config.charge_points.iter_mut().for_each(|point| point.residual_device = true);
        assert_eq!(decided(&answers, &config).word(), "breaker-alone");
        answers.route.mostly = Answer::Known(Along::Inside);
        assert_eq!(decided(&answers, &listed(false)).word(), "enclosure-no-device", "flat cable in a wall needs one");
    }

    #[test]
    fn a_breaker_alone_is_never_taken_on_tt_or_unknown_earthing() {
        let mut answers = home(SpareWays::Several, true);
        for goes in [Answer::Known(EarthGoes::Rod), Answer::NotSure, Answer::NotAsked] {
            answers.earthing.conductor_goes = goes;
            assert_eq!(decided(&answers, &listed(false)).word(), "enclosure-no-device");
        }
    }
}
