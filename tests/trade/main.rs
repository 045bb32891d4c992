//! How the trade reads the answers, sentence by sentence: rules that hold over the whole pipeline. One file a paragraph, each test
//! with the sentence that it holds in its name or above it.
//!
//! Common practice, no source, unless a source stands at the test. Held elsewhere, because they are not the assessment's:
//! who is rung for which hazard and in which order (`widget/emergency.rs`), that the hazard question comes first and what it
//! keeps people away from (`questions/mod.rs`, `widget/screens.rs`), what each nation owes (`assessment/owed.rs`), that the
//! reference method that is worst governs, and factors, drop, loop and adiabatic check (`tests/sources`, `design/sizing.rs`), that
//! a band is what a simulation gives (`tests/estimate.rs`), that no brand is in the program (there is no list to hold one; what is
//! typed is `answers/text.rs`).

mod after;
mod board;
mod cable;
mod charged;
mod demand;
mod earthing;
mod equipment;
mod fixing;
mod flags;
mod ground;
mod hazard;
mod lengths;
mod network;
mod papers;
mod parts;
mod price;
mod supply;
mod view_model;
mod wording;

#[path = "../support/mod.rs"]
#[allow(dead_code, reason = "what other test files take of it")]
mod support;

use presurvey::answers::{Answer, Answers, BoundedCount, Cooking, Heating, OtherPoint, ParkingPlace, Set};
use presurvey::assessment::{Gate, Gatekeeper, Raised, ShownFact};
use presurvey::config::{Config, Item, demo_config};
use presurvey::{Assessment, assess};

fn home(say: impl FnOnce(&mut Answers)) -> Assessment {
    home_under(&demo_config(), say)
}

fn home_under(config: &Config, say: impl FnOnce(&mut Answers)) -> Assessment {
    assess(&said(say), config)
}

/// Nothing alarming was noticed, and what is said beside.
fn said(say: impl FnOnce(&mut Answers)) -> Answers {
    let mut answers = Answers::default();
    answers.hazard.signs = Answer::Known(Set::NONE);
    say(&mut answers);
    answers
}

fn count<const L: u8, const M: u8>(count: u8) -> Answer<BoundedCount<L, M>> {
    Answer::Known(BoundedCount::new(count).unwrap())
}

/// The board that is meant is one in a garage that stands apart.
fn at_the_garages_board(answers: &mut Answers) {
    answers.parking.place = Answer::Known(ParkingPlace::DetachedGarage);
    answers.outbuilding.board_there = Answer::Known(true);
}

/// A single-phase home with no large load, all of it said.
fn quiet(answers: &mut Answers) {
    answers.meter.fuse_carriers = count(1);
    answers.meter.head_conductors = count(2);
    answers.meter.street_cables = count(1);
    answers.loads.showers = count(0);
    answers.loads.cooking = Answer::Known(Cooking::Gas);
    answers.loads.heating = Answer::Known(Heating::None);
    answers.loads.hot_tub = Answer::Known(false);
    answers.loads.other_point = Answer::Known(OtherPoint::None);
    answers.loads.solar = Answer::Known(false);
    answers.loads.battery = Answer::Known(false);
}

/// The installer's list without load sensing, so that nothing is held back.
fn without_sensing() -> Config {
    let mut config = demo_config();
    config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
    config
}

fn flag<'a>(assessment: &'a Assessment, code: &str) -> Option<&'a Raised> {
    assessment.flags.iter().find(|flag| flag.code == code)
}

fn has(assessment: &Assessment, code: &str) -> bool {
    flag(assessment, code).is_some()
}

fn fact<'a>(assessment: &'a Assessment, name: &str) -> &'a ShownFact {
    assessment.facts.iter().find(|shown| shown.fact == name).unwrap()
}

fn values<'a>(assessment: &'a Assessment, name: &str) -> Vec<&'a str> {
    fact(assessment, name).values.iter().map(|value| value.value.as_str()).collect()
}

fn chosen<'a>(assessment: &'a Assessment, decision: &str) -> &'a str {
    &assessment.decisions.iter().find(|shown| shown.decision == decision).unwrap().chosen
}

fn line<'a>(assessment: &'a Assessment, what: &str) -> Option<&'a str> {
    assessment.protection.iter().find(|line| line.what == what).map(|line| line.value.as_str())
}

fn stated<'a>(assessment: &'a Assessment, what: &str) -> &'a str {
    line(assessment, what).unwrap_or_else(|| panic!("nothing is stated of {what}"))
}

/// How probable a work item is; nothing where it is not in the bill.
fn wanted(assessment: &Assessment, item: Item) -> Option<f64> {
    assessment.work.iter().find(|line| line.item == item).map(|line| line.probability.get())
}

fn gate(assessment: &Assessment, who: Gatekeeper) -> Option<&Gate> {
    assessment.gates.iter().find(|gate| gate.who == who)
}

fn counts(assessment: &Assessment, who: Gatekeeper) -> bool {
    gate(assessment, who).is_some_and(|gate| gate.counts)
}

/// Whether somebody is asked first, be it on paper.
fn is_asked(assessment: &Assessment, who: Gatekeeper) -> bool {
    gate(assessment, who).is_some_and(|gate| gate.counts || gate.on_paper)
}
