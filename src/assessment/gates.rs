//! Who must, or may have to, act or answer first; each gatekeeper once, the merely possible too.

use super::types::{Gate, Gatekeeper};
use crate::answers::{HazardPlace, Word};
use crate::design::network::AskReason;
use crate::design::{Decided, DecisionId, Design, Given, Outcome};
use crate::flags::Source;
use crate::site::{HazardReading, agreements, hazard_of};
use crate::units::Probability;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Every gate, those that count first, then the likeliest.
pub(super) fn gates(given: &Given<'_>, design: &Design) -> Vec<Gate> {
    let mut all: Vec<Gate> = Vec::new();
    let mut add = |who: Gatekeeper, probability: Probability, why: Vec<String>, wait: &str| {
        if probability == Probability::NEVER {
            return;
        }
        match all.iter_mut().find(|gate| gate.who == who) {
            // Two causes for one gate: it stays shut unless neither holds.
            Some(gate) => {
                gate.probability = (gate.probability.complement() * probability.complement()).complement();
                gate.why.extend(why);
            }
            None => all.push(Gate {
                who,
                probability,
                counts: false,
                why,
                wait: wait.to_string(),
                wait_source: Source::CommonPractice.to_string(),
            }),
        }
    };

    let network = design.outcomes(DecisionId::Network);
    let asked = network.probability(Decided::asks_first);
    let works = network.probability(
        |decided| matches!(decided, Decided::Network(process) if process.outcome == Outcome::AskFirstWorksLikely),
    );
    let why = AskReason::ALL
        .iter()
        .filter_map(|reason| {
            let probability = network
                .probability(|decided| matches!(decided, Decided::Network(process) if process.reasons.has(*reason)));
            (probability > Probability::NEVER)
                .then(|| alloc::format!("{} ({} %)", reason.sentence(), percent(probability)))
        })
        .collect();
    add(Gatekeeper::NetworkOperator, asked, why, if works.get() >= 0.5 * asked.get() { WORKS } else { ANSWER });

    let supplier = design.probability(DecisionId::Board, Decided::waits_for_supplier);
    add(
        Gatekeeper::Supplier,
        supplier,
        alloc::vec![
            "the meter tails must be made dead for splitting them, and nothing here lets the installer do it"
                .to_string()
        ],
        waits(Gatekeeper::Supplier),
    );
    if matches!(hazard_of(given.answers), HazardReading::Seen { place: Some(HazardPlace::Meter), .. }) {
        let why = "something was noticed at the meter, which is the supplier's".to_string();
        add(Gatekeeper::Supplier, Probability::CERTAIN, alloc::vec![why], waits(Gatekeeper::Supplier));
    }
    for agreement in agreements(given.answers) {
        add(agreement.who, agreement.probability, alloc::vec![agreement.why.to_string()], waits(agreement.who));
    }
    for gate in &mut all {
        gate.counts = gate.probability >= given.config.thresholds.gate;
    }
    all.sort_by(|a, b| b.probability.get().total_cmp(&a.probability.get()).then(a.who.cmp(&b.who)));
    all
}

/// Days within which an answer is usual where no works are likely: the two weeks of [`ANSWER`]. Common practice, no source.
const ANSWER_DAYS: u16 = 14;

/// Days within which the network operator's answer is usual; none where works are likely. Without a gate as where none are.
pub(super) fn usual_days(gates: &[Gate]) -> Option<u16> {
    let works = gates.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator && gate.wait == WORKS);
    (!works).then_some(ANSWER_DAYS)
}

/// Under which name the wording files have a gate's usual wait; `None` where it is another than the usual one.
pub(super) fn wait_key(gate: &Gate) -> Option<String> {
    let works = gate.who == Gatekeeper::NetworkOperator && gate.wait == WORKS;
    let usual = works || gate.wait == waits(gate.who);
    usual.then(|| ["wait-", gate.who.word(), if works { "-works" } else { "" }].concat())
}

/// The usual wait for somebody, where works are likely or not.
#[cfg(test)]
pub(super) const fn usual_wait(who: Gatekeeper, works: bool) -> &'static str {
    if works && matches!(who, Gatekeeper::NetworkOperator) { WORKS } else { waits(who) }
}

const ANSWER: &str = "commonly up to two weeks for an answer";
const WORKS: &str = "commonly weeks to months where works are needed";

/// The usual wait: common practice, no source.
const fn waits(who: Gatekeeper) -> &'static str {
    match who {
        Gatekeeper::NetworkOperator => ANSWER,
        Gatekeeper::Supplier => "commonly one to four weeks for a visit",
        Gatekeeper::Landlord | Gatekeeper::Neighbour => "as long as they take to agree in writing",
        Gatekeeper::Planner => "commonly eight weeks for a decision",
        Gatekeeper::HighwayAuthority => "differs from council to council",
        Gatekeeper::OtherTrade => "as agreed with them",
    }
}

fn percent(probability: Probability) -> i64 {
    // A possibility never reads as nothing, nor as certain.
    let rounded = libm::round(probability.get() * 100.0) as i64;
    if probability == Probability::CERTAIN { 100 } else { rounded.clamp(1, 99) }
}
