//! How involved the job is. The class follows from labour hours and gates, without a score; the gravest class that applies wins.

use super::types::{Complexity, Gate, Reason};
use crate::context::Context;
use crate::design::{Decided, DecisionId, Design};
use crate::site::{Coverage, Site, on_a_fence};
use alloc::vec::Vec;
use model::units::{Minutes, Probability};

/// The complexity and all its reasons, gravest first.
pub(super) fn complexity(
    site: &Site,
    given: &Context<'_>,
    design: &Design,
    gates: &[Gate],
    labour: Minutes,
) -> (Complexity, Vec<Reason>) {
    let threshold = given.config.thresholds.gate;
    let safe = !given.answers.hazard.is_noticed();
    let reasons: Vec<(Complexity, Reason)> = [
        (!safe, Complexity::LookFirst, Reason::Unsafe),
        (site.hazard.is_open(), Complexity::LookFirst, Reason::DangerNotRuledOut),
        (!site.contradictions.is_empty(), Complexity::LookFirst, Reason::Contradiction),
        (gates.iter().any(|gate| gate.counts), Complexity::DependsOnOthers, Reason::SomebodyElseFirst),
        (labour > given.config.rates.day, Complexity::MoreInvolved, Reason::LongerThanADay),
        (safe && digging(design) >= threshold, Complexity::MoreInvolved, Reason::Digging),
        (safe && on_a_fence(given.answers, &site.route_along) >= threshold, Complexity::MoreInvolved, Reason::Fence),
        (
            safe && design.probability(DecisionId::Board, Decided::is_enclosure) >= threshold,
            Complexity::MoreInvolved,
            Reason::NewEnclosure,
        ),
    ]
    .into_iter()
    .filter(|(holds, _, _)| *holds)
    .map(|(_, complexity, reason)| (complexity, reason))
    .collect();
    // Outside the area that the data covers, the figures say nothing about the work.
    let usual = match site.coverage {
        Coverage::OutsideArea | Coverage::NorthernIreland => Complexity::NotCovered,
        Coverage::Covered | Coverage::Unknown => Complexity::Straightforward,
    };
    let gravest = reasons.iter().map(|(complexity, _)| *complexity).fold(usual, Complexity::max);
    (gravest, reasons.into_iter().map(|(_, reason)| reason).collect())
}

/// The probability that anything is dug, counting a new cable to an outbuilding.
fn digging(design: &Design) -> Probability {
    design.probability(DecisionId::Cable, |decided| matches!(decided, Decided::Cable(cable) if cable.digs))
}
