//! The pipeline: site, design, flags, work and price, put together to an assessment.

use super::ENGINE;
use super::band::{band, estimate, no_band};
use super::complexity::complexity;
use super::gates::gates;
use super::grant::may_apply;
use super::obligations::obligations;
use super::settle::settling;
use super::types::{Alternative, Assessment, Driver, DriverValue, Driving, Figures, Open, OutcomeShare, ShownDecision};
use crate::calculation::driving;
use crate::calculation::reach;
use crate::charge_point;
use crate::context::Context;
use crate::design::{Decided, DecisionId, Design, cable, network, protection};
use crate::flags::{Seen, Weight, raise_all};
use crate::price::{self, Narrowing, PriceList, StandardNormal, Total};
use crate::site::{self, FactId, Site, by_ratings};
use alloc::string::ToString;
use alloc::vec::Vec;
use model::answers::{Answer, Answers, Word};
use model::config::Config;
use model::questions;
use model::tables::driving::{A_MILE, A_NIGHT};
use model::tables::voltage::NOMINAL;
use model::units::{Amps, Count, Minutes, Pence, Probability, Ratio};

/// Assesses a home. The same answers and config give the same bytes on every platform.
///
/// An answer whose question is no longer asked, given the other answers, does not count ([`questions::counting`]); `answers` itself is not
/// changed.
///
/// The config must have passed [`model::config::check_config`]. One without charge points is worked with a plain charge point that costs
/// nothing, and gives no band.
#[must_use]
pub fn assess(answers: &Answers, config: &Config) -> Assessment {
    work_out(answers, config, true)
}

/// As [`assess`], without working out what would narrow the band: for comparing with another choice.
pub(super) fn assess_plainly(answers: &Answers, config: &Config) -> Assessment {
    work_out(answers, config, false)
}

fn work_out(said: &Answers, config: &Config, narrows: bool) -> Assessment {
    let answers = &*questions::counting(said);
    let given = Context::of(answers, config);
    let site = site::infer(answers, config);
    let design = Design::of(&site, &given);

    let as_of = answers.as_of.unwrap_or(config.published);
    let vat = config.rates.vat.on(as_of);
    let (list, standard) = (PriceList::of(&given), StandardNormal::new());
    let days = price::days(&given, &design, &list);
    let groups = price::groups(&site, &given, &design, &list);
    let always = price::always_cost(&given, &list, days);
    let total = Total::of(always, &groups, &standard);
    // Beside a hazard nothing is planned, timed or priced: it is made safe first.
    let work = if answers.hazard.is_noticed() { Vec::new() } else { price::bill(&given, &design, &list, days) };
    let labour = price::likely_labour(&work);

    let gates = gates(&given, &design);
    let (complexity, reasons) = complexity(&site, &given, &design, &gates, labour);
    // There is no band either where a length is too great to be meant.
    let beyond_use = !questions::beyond_use(answers).is_empty();
    let (work, labour) = if beyond_use { (Vec::new(), Minutes::ZERO) } else { (work, labour) };
    let (band, no_band) = match no_band(&site, answers, config, beyond_use) {
        Some(why) => (None, Some(why)),
        None => (Some(band(&total, &given, &list, vat)), None),
    };
    let narrowings =
        if narrows { price::narrowings(&site, always, &groups, config.rates.least, &standard) } else { Vec::new() };
    let priced = band.is_some();
    let owed = obligations(&site, &given, &design, &gates);
    let flags = raise_all(&Seen { answers, config, point: given.point, site: &site, design: &design });
    let settled_first = flags.iter().filter(|flag| flag.weight == Weight::SettleBeforeBooking);
    Assessment {
        as_of,
        engine: ENGINE.to_string(),
        config: config.version.clone(),
        invented: config.invented,
        complexity,
        reasons,
        settle: settled_first.map(|flag| flag.code.clone()).collect(),
        gates,
        band,
        no_band,
        grants: may_apply(answers, config, as_of, band.as_ref(), no_band),
        flags,
        wishes: charge_point::wishes(answers, given.point),
        assumed: work.iter().map(|line| line.item).filter(|item| config.is_assumed(*item)).collect(),
        sums: price::sums(&work, vat.rate),
        estimate: band.as_ref().map(|band| {
            let well = price::if_all_turns_out_well(always, &groups);
            estimate(&total, &given, &list, &work, band, (vat.rate, well))
        }),
        drivers: if priced { drivers(&site, answers, &narrowings, vat.rate) } else { Vec::new() },
        work,
        labour,
        open: open(&site, &given, &design, answers, &narrowings, vat.rate),
        facts: FactId::ALL.iter().map(|id| site.shown(*id)).collect(),
        decisions: design.decisions.iter().map(shown).collect(),
        figures: figures(&site, &given),
        alternatives: network::alternatives_over_all(&site, &given).into_iter().map(alternative).collect(),
        protection: protection::stated(&site.likeliest_case(), &given),
        owed,
    }
}

/// The questions that settle something, gravest first, then those that would narrow the band, most first; each once. A route that was
/// answered stretch by stretch is not asked about roughly.
fn open(
    site: &Site,
    given: &Context<'_>,
    design: &Design,
    answers: &Answers,
    narrowings: &[Narrowing],
    vat: Ratio,
) -> Vec<Open> {
    let settling = settling(site, answers).into_iter();
    let mut open: Vec<Open> =
        settling.map(|question| Open { question: question.to_string(), narrows_by: Pence(0), settles: true }).collect();
    for Narrowing { fact, by, .. } in narrowings {
        let Some(question) = unanswered(site, answers, *fact) else { continue };
        let narrows_by = Pence::rounded(by.as_f64() * (1.0 + vat.get())).max(Pence(0));
        let settles = settles_a_wait(site, given, design, *fact);
        match open.iter_mut().find(|other| other.question == question) {
            Some(other) => {
                other.narrows_by = other.narrows_by.max(narrows_by);
                other.settles |= settles;
            }
            None if narrows_by > Pence(0) || settles => {
                open.push(Open { question: question.to_string(), narrows_by, settles });
            }
            None => {}
        }
    }
    if site::said_in_stretches(answers).is_some() {
        open.retain(|open| !SAID_BY_STRETCHES.contains(&&*open.question));
    }
    open
}

/// Questions that are answered where the route was given stretch by stretch.
const SAID_BY_STRETCHES: [&str; 4] = ["route-length", "route-mostly", "walls", "ground"];

/// Where knowing a fact moves the probability of a wait by less than this, it settles nothing. Common practice, no source.
const SETTLES: f64 = 0.1;

/// A value of a fact that is rarer than this is no reason to ask. Common practice, no source.
const TOO_RARE: Probability = Probability::of(0.05);

/// Whether knowing a fact would settle a wait for somebody: between its values the probability of the wait differs by [`SETTLES`] or more,
/// or lies on both sides of the gate's threshold.
fn settles_a_wait(site: &Site, given: &Context<'_>, design: &Design, fact: FactId) -> bool {
    type Waits = fn(&Decided) -> bool;
    let waits: [(DecisionId, Waits); 3] = [
        (DecisionId::Network, Decided::asks_first),
        (DecisionId::Network, Decided::waits_for_the_operator),
        (DecisionId::Board, Decided::waits_for_supplier),
    ];
    let gate = given.config.thresholds.gate;
    waits.into_iter().any(|(id, such)| {
        let outcomes = design.outcomes(id);
        if !outcomes.rests_on.has(fact) {
            return false;
        }
        let likely = || (0..site.count(fact)).filter(|value| site.weight(fact, *value) >= TOO_RARE);
        let each = || likely().map(|value| outcomes.probability_given(site, fact, value, such));
        let (least, most) = (each().min_by(f64::total_cmp), each().max_by(f64::total_cmp));
        let (least, most) = (least.unwrap_or_default(), most.unwrap_or_default());
        most - least >= SETTLES || (least < gate.get() && most >= gate.get())
    })
}

/// The first open question that would settle a fact.
fn unanswered(site: &Site, answers: &Answers, fact: FactId) -> Option<&'static str> {
    let is_open = |id: &&&str| {
        questions::question(id).is_some_and(|question| question.is_open(answers) && (question.asked)(answers))
    };
    site.from(fact).iter().find(is_open).copied()
}

/// Every unsure fact, with how much knowing it would narrow the band.
fn drivers(site: &Site, answers: &Answers, narrowings: &[Narrowing], vat: Ratio) -> Vec<Driver> {
    let with_vat = |sum: Pence| Pence::rounded(sum.as_f64() * (1.0 + vat.get()));
    let driver = |narrowing: &Narrowing| {
        let values = site.shown(narrowing.fact).values.into_iter().zip(&narrowing.bands);
        Driver {
            fact: narrowing.fact.word().to_string(),
            question: unanswered(site, answers, narrowing.fact).map(ToString::to_string),
            narrows_by: with_vat(narrowing.by),
            explains: narrowing.explains,
            values: values
                .map(|(shown, [low, high])| DriverValue {
                    value: shown.value,
                    probability: shown.probability,
                    low: with_vat(*low),
                    high: with_vat(*high),
                })
                .collect(),
        }
    };
    narrowings.iter().map(driver).collect()
}

fn shown(outcomes: &crate::design::Outcomes) -> ShownDecision {
    let (chosen, probability) = outcomes.likeliest();
    ShownDecision {
        decision: outcomes.id.word().to_string(),
        chosen: chosen.to_string(),
        probability,
        rests_on: outcomes.rests_on.iter().map(|fact| fact.word().to_string()).collect(),
    }
}

fn figures(site: &Site, given: &Context<'_>) -> Figures {
    let case = site.likeliest_case();
    let process = network::decide(&case, given);
    let cable = cable::decide(&case, given);
    let likely = case.existing();
    let by_use = || site.existing.values().iter().map(|(amps, _)| *amps);
    Figures {
        existing_by_use: [by_use().fold(likely, Amps::min), likely, by_use().fold(likely, Amps::max)],
        existing_by_ratings: by_ratings(given.answers),
        maximum_demand: process.demand,
        load_limit: process.load_limit,
        limit: process.limit,
        headroom: process.headroom,
        cable_kept: cable::is_kept(&case),
        cable_length: cable.length,
        cable_size: cable.size,
        voltage_drop: cable.drop,
        cable_governed_by: Some(cable.governs),
        disconnected_by: Some(cable.disconnects),
        fixed_limit: network::fixed_limit(site, &case, given).setting,
        lead_needed: reach::lead_needed(given.answers, given.config.thresholds.pace),
        driving: driving(given, &process),
    }
}

/// Energy and cost of driving, where the homeowner gave the miles a day; each yearly cost where its price was given.
fn driving(given: &Context<'_>, process: &network::NetworkProcess) -> Option<Driving> {
    let miles = given.answers.parking.miles_a_day.known().copied()?;
    let current = network::at_night_under(process, given.answers);
    let night = driving::night(miles, A_MILE, current, NOMINAL, Count::of(1), A_NIGHT);
    let cost = &given.answers.cost;
    let a_year = |price: &Answer<_>| price.known().map(|price| driving::a_year(miles, A_MILE, *price));
    Some(Driving {
        miles_a_day: miles,
        energy_a_night: night.needed,
        hours_needed: night.takes,
        hours_available: A_NIGHT,
        is_enough: night.is_enough(),
        energy_a_year: driving::energy_a_year(miles, A_MILE),
        a_year_by_day: a_year(&cost.day),
        a_year_at_night: a_year(&cost.night),
        a_year_in_public: a_year(&cost.public),
    })
}

fn alternative(network::Alternative { design, process, elsewhere, outcomes }: network::Alternative) -> Alternative {
    let outcomes = outcomes.into_iter().map(|(outcome, probability)| OutcomeShare { outcome, probability });
    Alternative {
        design,
        outcome: process.outcome,
        current: process.current,
        maximum_demand: process.demand,
        headroom: process.headroom,
        elsewhere,
        outcomes: outcomes.collect(),
    }
}
