//! The band: whether there is one, what it is and how it is rounded, and the estimate behind it.

use super::enough::is_enough;
use super::types::{Band, BeforeVat, BillLine, Dearer, Estimate, NoBand};
use crate::context::Context;
use crate::price::{self, PriceList, Total};
use crate::site::{Coverage, Site};
use alloc::string::ToString;
use model::answers::{Answers, ParkingPlace};
use model::config::{Charged, Config};
use model::units::{Pence, Probability, Ratio};

/// Why there is no band, the gravest reason; `None` where there is one. A danger that is merely not ruled out still leaves a band: a wide
/// one, since nothing was seen of meter and board.
pub(super) fn no_band(site: &Site, answers: &Answers, config: &Config, beyond_use: bool) -> Option<NoBand> {
    if answers.hazard.is_noticed() || !site.contradictions.is_empty() {
        Some(NoBand::LookFirst)
    } else if matches!(site.coverage, Coverage::NorthernIreland | Coverage::OutsideArea) {
        Some(NoBand::OutsideArea)
    } else if answers.parking.place.is(ParkingPlace::Street) {
        Some(NoBand::StreetOnly)
    } else if beyond_use {
        Some(NoBand::LengthBeyondUse)
    } else if !config.rates_confirmed || config.charge_points.is_empty() {
        Some(NoBand::RatesNotConfirmed)
    } else if !is_enough(answers) {
        Some(NoBand::TooLittleSaid)
    } else {
        None
    }
}

/// The band that the homeowner pays within: the 10 % and 90 % quantiles of the total, with VAT where the installer charges it, rounded
/// outwards to the installer's step. That a band is meant to hold eight jobs in ten is this program's choice.
pub(super) fn band(total: &Total<'_>, given: &Context<'_>, list: &PriceList, vat: Charged) -> Band {
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
            Pence(0) // they own it already
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

/// The estimate behind the band, whose ends are this program's choice. Its median is the band's middle; its mean is the sum of the bill, or
/// the least that is charged.
pub(super) fn estimate(
    total: &Total<'_>,
    given: &Context<'_>,
    list: &PriceList,
    work: &[BillLine],
    band: &Band,
    (vat, well): (Ratio, f64),
) -> Estimate {
    let rates = &given.config.rates;
    let paid = |before_vat: f64| Pence::rounded(before_vat.max(rates.least.as_f64()) * (1.0 + vat.get()));
    let end = |probability| paid(total.quantile(Probability::of(probability)));
    let with_vat = |sum: Pence| Pence::rounded(sum.as_f64() * (1.0 + vat.get()));
    let dearer = price::dearer(work, given, list).into_iter().map(|(cause, by)| Dearer {
        cause,
        by: with_vat(by),
        facts: cause.facts().iter().map(|fact| fact.word().to_string()).collect(),
    });
    // The ends are this program's choice.
    Estimate {
        mean: price::sums(work, vat).with_vat.max(paid(0.0)),
        low: end(0.1),
        median: band.likely,
        high: end(0.9),
        well: paid(well).up_to(rates.step),
        curve: price::curve(total, rates.least, vat),
        dearer: dearer.collect(),
    }
}
