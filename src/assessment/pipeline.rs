//! The pipeline: site, design, flags, work, price, and what they come to.

use super::ENGINE;
use super::complexity::complexity;
use super::gates::gates;
use super::grant::may_apply;
use super::owed::owed;
use super::settle::settling;
use super::types::{
    Alternative, Assessment, Band, BeforeVat, BillLine, Dearer, Driver, DriverValue, Driving, Estimate, Figures,
    NoBand, Open, OutcomeShare, ShownDecision,
};
use crate::answers::{Answer, Answers, ParkingPlace, Word};
use crate::config::{Charged, Config, OfferedPoint};
use crate::design::{
    Decided, DecisionId, Design, Given, cable, charge_point, driving, network, protection, reach, working,
};
use crate::flags::{Seen, Weight, raise_all};
use crate::price::{self, Bell, Narrowing, PriceList, Total};
use crate::questions;
use crate::site::{self, FactId, Place, Site, at_night, by_ratings};
use crate::tables::driving::{A_MILE, A_NIGHT, LEAST_CHARGE};
use crate::tables::voltage::NOMINAL;
use crate::units::{Amps, Count, Pence, Probability, Ratio};
use alloc::string::ToString;
use alloc::vec::Vec;

/// Works a home out: answers and config in, assessment out. The same answers give the same bytes everywhere.
///
/// What is no longer asked by what else was said does not count ([`questions::counting`]); the answers themselves stay as they are.
///
/// The config must have passed [`crate::config::check_config`]; one without charge points is worked with a plain one that costs
/// nothing, and gives no band.
#[must_use]
pub fn assess(answers: &Answers, config: &Config) -> Assessment {
    work_out(answers, config, true)
}

/// The same without what would narrow the band: for setting another choice beside it.
pub(super) fn assess_plainly(answers: &Answers, config: &Config) -> Assessment {
    work_out(answers, config, false)
}

fn work_out(said: &Answers, config: &Config, narrows: bool) -> Assessment {
    let answers = &*questions::counting(said);
    let plain = no_point();
    let point = charge_point::suited(answers, config).unwrap_or(&plain);
    let given = Given { answers, config, point };
    let site = site::read(answers, config);
    let design = Design::of(&site, &given);

    let as_of = answers.as_of.unwrap_or(config.published);
    let vat = config.rates.vat.on(as_of);
    let (list, bell) = (PriceList::of(&given), Bell::new());
    let days = price::days(&given, &design);
    let groups = price::groups(&site, &given, &design, &list);
    let always = price::always_cost(&given, &list, days);
    let total = Total::of(always, &groups, &bell);
    // Nothing is planned, timed or priced beside a hazard: it is made safe first.
    let work = if answers.hazard.is_noticed() { Vec::new() } else { price::bill(&given, &design, &list, days) };
    let labour = price::likely_labour(&work);

    let gates = gates(&given, &design);
    let (complexity, reasons) = complexity(&site, &given, &design, &gates, labour);
    let (band, no_band) = match no_band(&site, answers, config) {
        Some(why) => (None, Some(why)),
        None => (Some(band(&total, &given, &list, vat)), None),
    };
    let narrowings =
        if narrows { price::narrowings(&site, always, &groups, config.rates.least, &bell) } else { Vec::new() };
    let priced = band.is_some();
    let owed = owed(&site, &given, &design, &gates);
    let flags = raise_all(&Seen { answers, config, site: &site, design: &design });
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
        wishes: charge_point::wishes(answers, point),
        assumed: work.iter().map(|line| line.item).filter(|item| config.is_assumed(*item)).collect(),
        sums: price::sums(&work, vat.rate),
        estimate: priced.then(|| estimate(&total, &given, &list, &work, vat.rate)),
        drivers: if priced { drivers(&site, answers, &narrowings, vat.rate) } else { Vec::new() },
        work,
        labour,
        open: open(&site, &design, answers, &narrowings, vat.rate),
        facts: FactId::ALL.iter().map(|id| site.shown(*id)).collect(),
        decisions: design.decisions.iter().map(shown).collect(),
        figures: figures(&site, &given),
        alternatives: network::alternatives_over_all(&site, &given).into_iter().map(alternative).collect(),
        protection: protection::stated(&site.likeliest_case(), &given),
        owed,
    }
}

/// The working of every figure of the likeliest case; made only when asked for.
#[must_use]
pub fn working(said: &Answers, config: &Config) -> Vec<working::Working> {
    let answers = &*questions::counting(said);
    let plain = no_point();
    let point = charge_point::suited(answers, config).unwrap_or(&plain);
    working::of_likeliest(&site::read(answers, config), &Given { answers, config, point })
}

fn no_point() -> OfferedPoint {
    OfferedPoint {
        id: "none".to_string(),
        lead: None,
        current: Amps::of(32.0),
        device: None,
        follows_solar: false,
        load_sensing: false,
        open_pen_sensing: false,
        open_pen_three_phase: false,
        dc_sensing: false,
        residual_device: false,
        mobile_data: false,
        off_peak: None,
        listed: true,
        price: Pence(0),
    }
}

/// Why there is no band, if there is none; the gravest reason. A danger that is merely not ruled out leaves one: wide, since nothing
/// was seen of meter and board.
fn no_band(site: &Site, answers: &Answers, config: &Config) -> Option<NoBand> {
    if answers.hazard.is_noticed() || !site.contradictions.is_empty() {
        Some(NoBand::LookFirst)
    } else if matches!(site.place, Place::NorthernIreland | Place::OutsideArea) {
        Some(NoBand::OutsideArea)
    } else if answers.parking.place.is(ParkingPlace::Street) {
        Some(NoBand::StreetOnly)
    } else if !config.rates_confirmed || config.charge_points.is_empty() {
        Some(NoBand::RatesNotConfirmed)
    } else {
        None
    }
}

/// What the homeowner pays: 10 % to 90 %, with VAT where the installer charges it, rounded outwards to the installer's step.
fn band(total: &Total<'_>, given: &Given<'_>, list: &PriceList, vat: Charged) -> Band {
    let rates = &given.config.rates;
    let before_vat = |probability| total.quantile(Probability::of(probability)).max(rates.least.as_f64());
    let with_vat = |pence: f64| pence * (1.0 + vat.rate.get());
    let median = Pence::rounded(before_vat(0.5));
    let (low, high) = (before_vat(0.1), before_vat(0.9));
    let likely = Pence::rounded(with_vat(median.as_f64()));
    Band {
        low: Pence::rounded(with_vat(low)).down_to(rates.step),
        likely,
        high: Pence::rounded(with_vat(high)).up_to(rates.step),
        vat: likely - median,
        charge_point: if given.answers.wish.bought.is(true) {
            Pence(0) // theirs already
        } else {
            Pence::rounded(with_vat(given.point.price.as_f64()))
        },
        plainest: Pence::rounded(with_vat(price::plainest(given, list).as_f64().max(rates.least.as_f64()))),
        before_vat: Some(BeforeVat {
            low: Pence::rounded(low).down_to(rates.step),
            likely: median,
            high: Pence::rounded(high).up_to(rates.step),
            rate: vat.rate,
            dated: vat.dated,
        }),
    }
}

/// The questions that settle something, gravest first, then those that would narrow the band, best first; each once.
fn open(site: &Site, design: &Design, answers: &Answers, narrowings: &[Narrowing], vat: Ratio) -> Vec<Open> {
    // What waits for somebody in some cases and not in others: whatever that rests on settles it.
    type Waits = fn(&Decided) -> bool;
    let mut unsettled: Vec<(DecisionId, Waits)> =
        alloc::vec![(DecisionId::Network, Decided::asks_first), (DecisionId::Board, Decided::waits_for_supplier)];
    unsettled
        .retain(|(id, gate)| ![Probability::NEVER, Probability::CERTAIN].contains(&design.probability(*id, *gate)));
    let settling = settling(site, answers).into_iter();
    let mut open: Vec<Open> =
        settling.map(|question| Open { question: question.to_string(), narrows_by: Pence(0), settles: true }).collect();
    for Narrowing { fact, by, .. } in narrowings {
        let Some(question) = unanswered(site, answers, *fact) else { continue };
        let settles = unsettled.iter().any(|(id, _)| design.outcomes(*id).rests_on.has(*fact));
        let narrows_by = Pence::rounded(by.as_f64() * (1.0 + vat.get()));
        match open.iter_mut().find(|other| other.question == question) {
            Some(other) => other.narrows_by = Pence(other.narrows_by.0.max(narrows_by.0)),
            None if narrows_by > Pence(0) || settles => {
                open.push(Open { question: question.to_string(), narrows_by, settles });
            }
            None => {}
        }
    }
    open
}

/// The open question that would settle a fact.
fn unanswered(site: &Site, answers: &Answers, fact: FactId) -> Option<&'static str> {
    let is_open = |id: &&&str| {
        questions::question(id).is_some_and(|question| question.is_open(answers) && (question.asked)(answers))
    };
    site.from(fact).iter().find(is_open).copied()
}

/// What is behind the band.
fn estimate(total: &Total<'_>, given: &Given<'_>, list: &PriceList, work: &[BillLine], vat: Ratio) -> Estimate {
    let rates = &given.config.rates;
    let paid = |before_vat: f64| Pence::rounded(before_vat.max(rates.least.as_f64()) * (1.0 + vat.get()));
    let end = |probability| paid(total.quantile(Probability::of(probability)));
    let with_vat = |sum: Pence| Pence::rounded(sum.as_f64() * (1.0 + vat.get()));
    let dearer = price::dearer(work, given, list).into_iter().map(|(cause, by)| Dearer {
        cause,
        by: with_vat(by),
        facts: cause.facts().iter().map(|fact| fact.word().to_string()).collect(),
    });
    Estimate {
        mean: paid(total.moments().mean()),
        low: end(0.1),
        median: end(0.5),
        high: end(0.9),
        curve: price::curve(total, rates.least, vat),
        dearer: dearer.collect(),
    }
}

/// Every unsure fact with what knowing it would be worth.
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

fn figures(site: &Site, given: &Given<'_>) -> Figures {
    let case = site.likeliest_case();
    let process = network::decide(&case, given);
    let cable = cable::decide(&case, given);
    let mut by_use: Vec<Amps> = site.existing.values().iter().map(|(amps, _)| *amps).collect();
    by_use.sort_by(|a, b| a.get().total_cmp(&b.get()));
    let at = |share: usize| by_use[(by_use.len() - 1) * share / 2];
    Figures {
        existing_by_use: [at(0), at(1), at(2)],
        existing_by_ratings: by_ratings(given.answers),
        maximum_demand: process.demand,
        load_limit: process.load_limit,
        limit: process.limit,
        headroom: process.headroom,
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

/// What driving takes and costs, where the homeowner said how far; each price where they said that.
fn driving(given: &Given<'_>, process: &network::NetworkProcess) -> Option<Driving> {
    let miles = given.answers.parking.miles_a_day.known().copied()?;
    // Under a load limit the car gets what heaters, battery and another charge point leave it at night.
    let left = process.limit.map_or(process.current, |limit| limit.above(at_night(given.answers)));
    let current = process.current.min(left).max(LEAST_CHARGE);
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

fn alternative(network::Alternative { design, process, outcomes }: network::Alternative) -> Alternative {
    let outcomes = outcomes.into_iter().map(|(outcome, probability)| OutcomeShare { outcome, probability });
    Alternative {
        design,
        outcome: process.outcome,
        current: process.current,
        maximum_demand: process.demand,
        headroom: process.headroom,
        outcomes: outcomes.collect(),
    }
}
