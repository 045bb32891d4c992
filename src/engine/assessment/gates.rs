//! Who must, or may have to, act or answer first; each gatekeeper once, the merely possible too.

use super::types::{Gate, Gatekeeper};
use crate::context::Context;
use crate::design::network::{AskReason, Takes};
use crate::design::{Decided, DecisionId, Design};
use crate::flags::Source;
use crate::site::{HazardInference, agreements, hazard_of};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use model::answers::{HazardPlace, HazardSign, Word};
use model::units::Probability;
use wording::{Key, Words, engine as engine_words};

/// Every gate, those that count first, then the likeliest.
pub(super) fn gates(given: &Context<'_>, design: &Design) -> Vec<Gate> {
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
                on_paper: false,
                why,
                wait: worded(wait).to_string(),
                wait_source: Source::CommonPractice.to_string(),
            }),
        }
    };

    let network = design.outcomes(DecisionId::Network);
    let asked = network.probability(Decided::asks_first);
    let takes = |takes: Takes| {
        network.probability(|decided| matches!(decided, Decided::Network(process) if process.takes == Some(takes)))
    };
    // A form that is answered on paper is no gate: what has to be waited for begins with a visit.
    let comes =
        Probability::from_sum([Takes::Visit, Takes::Upgrade, Takes::Works].map(|one| takes(one).get()).iter().sum());
    // As likely as one another, the slower is said.
    let likeliest = if comes >= given.config.thresholds.gate {
        [Takes::Visit, Takes::Upgrade, Takes::Works]
            .into_iter()
            .fold(Takes::Visit, |best, one| if takes(one) >= takes(best) { one } else { best })
    } else {
        Takes::ALL.iter().copied().fold(Takes::Paper, |best, one| if takes(one) >= takes(best) { one } else { best })
    };
    let why = AskReason::ALL
        .iter()
        .filter_map(|reason| {
            let probability = network
                .probability(|decided| matches!(decided, Decided::Network(process) if process.reasons.has(*reason)));
            (probability > Probability::NEVER)
                .then(|| alloc::format!("{} ({} %)", reason.sentence(), percent(probability)))
        })
        .collect();
    // What looks dangerous is made safe when it is rung for.
    let rung = hazard_of(given.answers).may_be_the_operators();
    let wait = if rung { engine_words::WAIT_NETWORK_OPERATOR_EMERGENCY } else { operators_wait(likeliest) };
    add(Gatekeeper::NetworkOperator, asked, why, wait);

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
    if let HazardInference::Seen { place: Some(HazardPlace::Meter), signs } = hazard_of(given.answers)
        && signs.iter().any(|sign| sign != HazardSign::GasSmell)
    {
        let why = "something was noticed at the meter: the network operator makes it safe, the meter itself is the supplier's"
            .to_string();
        add(Gatekeeper::Supplier, METER_ITSELF, alloc::vec![why], waits(Gatekeeper::Supplier));
    }
    for agreement in agreements(given.answers) {
        add(agreement.who, agreement.probability, alloc::vec![agreement.why.to_string()], waits(agreement.who));
    }
    for gate in &mut all {
        let threshold = given.config.thresholds.gate;
        if gate.who == Gatekeeper::NetworkOperator {
            gate.counts = comes >= threshold;
            gate.on_paper = !gate.counts && gate.probability >= threshold;
        } else {
            gate.counts = gate.probability >= threshold;
        }
    }
    all.sort_by(|a, b| b.probability.get().total_cmp(&a.probability.get()).then(a.who.cmp(&b.who)));
    all
}

/// What was noticed at the meter is the meter's own fault, which the supplier mends: common practice, no source.
const METER_ITSELF: Probability = Probability::of(0.3);

/// Days within which an answer on paper is usual: the ten working days of its wait. Common practice, no source.
const ANSWER_DAYS: u16 = 14;
/// Days within which an application for panels or a battery is usually answered: 45 working days, EREC G99 (from memory).
const APPLICATION_DAYS: u16 = 63;
/// Days within which a visit is usual: the six weeks of its wait. Common practice, no source.
const VISIT_DAYS: u16 = 42;

/// Days within which the network operator's answer is usual; none where works are likely. Without a gate as on paper.
pub(super) fn usual_days(gates: &[Gate]) -> Option<u16> {
    let waits = |takes| {
        gates.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator && gate.wait == worded(operators_wait(takes)))
    };
    if waits(Takes::Works) || waits(Takes::Upgrade) {
        None
    } else if waits(Takes::Visit) {
        Some(VISIT_DAYS)
    } else if waits(Takes::Application) {
        Some(APPLICATION_DAYS)
    } else {
        Some(ANSWER_DAYS)
    }
}

/// Under which name the wording has a gate's usual wait; `None` where it is another than the usual one.
#[must_use]
pub fn wait_key(gate: &Gate) -> Option<Key> {
    let operators = Takes::ALL.iter().map(|takes| operators_wait(*takes));
    [waits(gate.who), engine_words::WAIT_NETWORK_OPERATOR_EMERGENCY]
        .into_iter()
        .chain(operators)
        .find(|key| gate.wait == worded(*key))
}

/// How long an answer of the network operator usually takes. Common practice, no source.
const fn operators_wait(takes: Takes) -> Key {
    match takes {
        Takes::Paper => engine_words::WAIT_NETWORK_OPERATOR,
        Takes::Application => engine_words::WAIT_NETWORK_OPERATOR_APPLICATION,
        Takes::Visit => engine_words::WAIT_NETWORK_OPERATOR_VISIT,
        Takes::Upgrade => engine_words::WAIT_NETWORK_OPERATOR_UPGRADE,
        Takes::Works => engine_words::WAIT_NETWORK_OPERATOR_WORKS,
    }
}

/// As the assessment has it, whatever a homeowner's language is.
fn worded(key: Key) -> &'static str {
    Words::new(engine_words::EN).say(key)
}

/// The usual wait: common practice, no source.
const fn waits(who: Gatekeeper) -> Key {
    match who {
        Gatekeeper::NetworkOperator => operators_wait(Takes::Paper),
        Gatekeeper::Supplier => engine_words::WAIT_SUPPLIER,
        Gatekeeper::Landlord => engine_words::WAIT_LANDLORD,
        Gatekeeper::Neighbour => engine_words::WAIT_NEIGHBOUR,
        Gatekeeper::Planner => engine_words::WAIT_PLANNER,
        Gatekeeper::HighwayAuthority => engine_words::WAIT_HIGHWAY_AUTHORITY,
        Gatekeeper::OtherTrade => engine_words::WAIT_OTHER_TRADE,
    }
}

fn percent(probability: Probability) -> i64 {
    // A possibility never reads as nothing, nor as certain.
    let rounded = libm::round(probability.get() * 100.0) as i64;
    // Arithmetic: only what is certain is a hundred.
    if probability == Probability::CERTAIN { 100 } else { rounded.clamp(1, 99) }
}
