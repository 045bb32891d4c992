//! Who must, or may have to, act or answer first. Each gatekeeper stands here once, the merely possible ones too.

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

/// Every gate: first those that reach the threshold, then the others, each by probability.
pub(super) fn gates(given: &Context<'_>, design: &Design) -> Vec<Gate> {
    let mut all: Vec<Gate> = Vec::new();
    let mut add = |who: Gatekeeper, probability: Probability, why: Vec<String>, wait: Key| {
        if probability == Probability::NEVER {
            return;
        }
        match all.iter_mut().find(|gate| gate.who == who) {
            // A second cause for the same gate: nobody has to be waited for only where neither holds.
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
    // A form that is answered on paper is no gate: a real wait begins with a visit.
    let comes =
        Probability::from_sum([Takes::Visit, Takes::Upgrade, Takes::Works].map(|one| takes(one).get()).iter().sum());
    // Where two waits are equally likely, the slower is named.
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
    // A danger that may be the operator's is reported by telephone, and made safe at once.
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

/// The probability that a sign noticed at the meter comes from the meter itself, which the supplier repairs: common practice, no source.
const METER_ITSELF: Probability = Probability::of(0.3);

/// Days within which an answer on paper is usual: the ten working days of its wait. Common practice, no source.
const ANSWER_DAYS: u16 = 14;
/// Days within which an application for panels or a battery is usually answered: 45 working days, EREC G99 (from memory).
const APPLICATION_DAYS: u16 = 63;
/// Days within which a visit is usual: the six weeks of its wait. Common practice, no source.
const VISIT_DAYS: u16 = 42;

/// Days within which the network operator's answer is usual; `None` where works are likely. Without a gate of the operator, as for an
/// answer on paper.
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

/// The wording key of a gate's usual wait; `None` where its wait is another text.
#[must_use]
pub fn wait_key(gate: &Gate) -> Option<Key> {
    let operators = Takes::ALL.iter().map(|takes| operators_wait(*takes));
    [waits(gate.who), engine_words::WAIT_NETWORK_OPERATOR_EMERGENCY]
        .into_iter()
        .chain(operators)
        .find(|key| gate.wait == worded(*key))
}

/// The wording key of how long the network operator's answer usually takes. Common practice, no source.
const fn operators_wait(takes: Takes) -> Key {
    match takes {
        Takes::Paper => engine_words::WAIT_NETWORK_OPERATOR,
        Takes::Application => engine_words::WAIT_NETWORK_OPERATOR_APPLICATION,
        Takes::Visit => engine_words::WAIT_NETWORK_OPERATOR_VISIT,
        Takes::Upgrade => engine_words::WAIT_NETWORK_OPERATOR_UPGRADE,
        Takes::Works => engine_words::WAIT_NETWORK_OPERATOR_WORKS,
    }
}

/// The English text of a key: assessments hold it whatever the homeowner's language is.
fn worded(key: Key) -> &'static str {
    Words::new(engine_words::EN).say(key)
}

/// The wording key of a gatekeeper's usual wait: common practice, no source.
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
    // Only an impossible wait may show as 0 %, and only a certain one as 100 %.
    let rounded = libm::round(probability.get() * 100.0) as i64;
    // Arithmetic: a hundred is kept for what is certain.
    if probability == Probability::CERTAIN { 100 } else { rounded.clamp(1, 99) }
}
