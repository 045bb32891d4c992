//! Who must, or may have to, act or answer first; each gatekeeper once, the merely possible too.

use super::types::{Gate, Gatekeeper};
use crate::answers::{HazardPlace, Word};
use crate::design::network::AskReason;
use crate::design::{Decided, DecisionId, Design, Given, Outcome};
use crate::flags::Source;
use crate::site::{HazardReading, agreements, hazard_of};
use crate::units::Probability;
use crate::wording::{Key, Words, estimate};
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Every gate, those that count first, then the likeliest.
pub(super) fn gates(given: &Given<'_>, design: &Design) -> Vec<Gate> {
    let mut all: Vec<Gate> = Vec::new();
    let mut add = |who: Gatekeeper, probability: Probability, why: Vec<String>, wait: Key| {
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
                wait: worded(wait).to_string(),
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
    let works = gates.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator && gate.wait == worded(WORKS));
    (!works).then_some(ANSWER_DAYS)
}

/// Under which name the wording has a gate's usual wait; `None` where it is another than the usual one.
pub(super) fn wait_key(gate: &Gate) -> Option<Key> {
    [waits(gate.who), WORKS].into_iter().find(|key| gate.wait == worded(*key))
}

/// As the assessment has it, whatever a homeowner's language is.
fn worded(key: Key) -> &'static str {
    Words::new(estimate::EN).say(key)
}

const ANSWER: Key = estimate::WAIT_NETWORK_OPERATOR;
const WORKS: Key = estimate::WAIT_NETWORK_OPERATOR_WORKS;

/// The usual wait: common practice, no source.
const fn waits(who: Gatekeeper) -> Key {
    match who {
        Gatekeeper::NetworkOperator => ANSWER,
        Gatekeeper::Supplier => estimate::WAIT_SUPPLIER,
        Gatekeeper::Landlord => estimate::WAIT_LANDLORD,
        Gatekeeper::Neighbour => estimate::WAIT_NEIGHBOUR,
        Gatekeeper::Planner => estimate::WAIT_PLANNER,
        Gatekeeper::HighwayAuthority => estimate::WAIT_HIGHWAY_AUTHORITY,
        Gatekeeper::OtherTrade => estimate::WAIT_OTHER_TRADE,
    }
}

fn percent(probability: Probability) -> i64 {
    // A possibility never reads as nothing, nor as certain.
    let rounded = libm::round(probability.get() * 100.0) as i64;
    if probability == Probability::CERTAIN { 100 } else { rounded.clamp(1, 99) }
}
