//! VAT and grants as dated data: the rates charged on top of a price, and the grants a homeowner may apply for, each with its first and
//! last day.

use super::fields::fields;
#[cfg(feature = "schema")]
use super::{check, schema};
use crate::answers::choices::words;
use crate::units::{Pence, Ratio};
use alloc::string::String;
use alloc::vec::Vec;
use jiff::civil::Date;
use serde::Serialize;

/// VAT as the installer's status says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Vat {
    /// Whether the installer is registered.
    pub registered: bool,
    /// Rates by the day; no two of one day. Left out of a setup, the data that comes with the program.
    #[serde(default)]
    pub rates: Vec<VatRate>,
}

/// A rate of VAT and its days.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct VatRate {
    /// First day.
    #[cfg_attr(feature = "schema", schemars(with = "crate::answers::schema::Day"))]
    #[serde(with = "crate::answers::day")]
    pub from: Date,
    /// Last day, where one is known.
    #[cfg_attr(feature = "schema", schemars(with = "Option<crate::answers::schema::Day>"))]
    #[serde(default, with = "crate::answers::day::option", skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
    /// Rate as a share, e.g. 0.2.
    #[cfg_attr(feature = "schema", schemars(extend("maximum" = check::WHOLE)))]
    pub rate: Ratio,
    /// Where it was read.
    pub source: String,
}

/// The VAT that is charged on one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Charged {
    /// Share added to the price; zero where the installer is not registered.
    pub rate: Ratio,
    /// Whether a rate is set for that day; where none is, the latest is taken.
    pub dated: bool,
}

impl Vat {
    /// The VAT that is charged on a day. Where no rate is set for that day, the latest one, with `dated` false.
    #[must_use]
    pub fn on(&self, day: Date) -> Charged {
        if !self.registered {
            return Charged { rate: Ratio::ZERO, dated: true };
        }
        let of_day = self.rates.iter().find(|rate| within(day, rate.from, rate.until));
        let taken = of_day.or_else(|| self.rates.iter().max_by_key(|rate| rate.from));
        Charged { rate: taken.map_or(Ratio::ZERO, |taken| taken.rate), dated: of_day.is_some() }
    }
}

/// Whether a day lies between `from` and `until`, both included; without `until`, on or after `from`.
#[must_use]
pub fn within(day: Date, from: Date, until: Option<Date>) -> bool {
    from <= day && until.is_none_or(|until| day <= until)
}

words! {
    /// For whom a grant is.
    pub enum GrantFor {
        /// Who lives in a flat, or rents, and parks on ground of their own.
        FlatOrRented => "flat-or-rented",
        /// Who parks on the street, with a way across the footway that the highway authority has authorised.
        StreetWithCrossing => "street-with-crossing",
    }
}

/// A grant that a homeowner may apply for; whoever fits the charge point must be authorised for it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Grant {
    /// In plain words.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::not_blank())))]
    pub name: String,
    /// First day.
    #[cfg_attr(feature = "schema", schemars(with = "crate::answers::schema::Day"))]
    #[serde(with = "crate::answers::day")]
    pub from: Date,
    /// Last day, where one is known.
    #[cfg_attr(feature = "schema", schemars(with = "Option<crate::answers::schema::Day>"))]
    #[serde(default, with = "crate::answers::day::option", skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
    /// Share of the cost that it pays, where one was read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("maximum" = check::WHOLE)))]
    pub share: Option<Ratio>,
    /// The most it pays.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = Pence(0), "maximum" = check::MOST_MONEY)))]
    pub most: Pence,
    /// For whom: any of these.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub who: Vec<GrantFor>,
    /// The day it was read.
    #[cfg_attr(feature = "schema", schemars(with = "crate::answers::schema::Day"))]
    #[serde(with = "crate::answers::day")]
    pub read: Date,
    /// Where it was read.
    pub source: String,
}

impl Grant {
    /// The most that the grant pays towards this cost: its share where one was read, at most `most`.
    #[must_use]
    pub fn of(&self, cost: Pence) -> Pence {
        let share = self.share.map_or(cost, |share| Pence::rounded(cost.as_f64() * share.get()));
        share.min(self.most)
    }
}

fields!(Vat { registered, rates default });
fields!(VatRate { from day, until maybe_day, rate, source });
fields!(Grant { name, from day, until maybe_day, share default, most, who, read day, source });

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn rate(from: Date, until: Option<Date>, share: f64) -> VatRate {
        VatRate { from, until, rate: Ratio::of(share), source: "invented".into() }
    }

    #[test]
    fn the_day_chooses_the_rate() {
        let vat = Vat {
            registered: true,
            rates: alloc::vec![
                rate(date(2030, 1, 1), None, 0.25),
                rate(date(2020, 1, 1), Some(date(2029, 11, 30)), 0.2),
            ],
        };
        for (day, share, dated) in [
            (date(2020, 1, 1), 0.2, true),
            (date(2029, 11, 30), 0.2, true),
            (date(2029, 12, 1), 0.25, false), // between the two: the latest, and that is said
            (date(2019, 12, 31), 0.25, false),
            (date(2030, 1, 1), 0.25, true),
        ] {
            assert_eq!(vat.on(day), Charged { rate: Ratio::of(share), dated }, "{day}");
        }
        let unregistered = Vat { registered: false, ..vat };
        assert_eq!(unregistered.on(date(2025, 1, 1)), Charged { rate: Ratio::ZERO, dated: true });
    }

    #[test]
    fn a_setup_of_the_shape_before_is_told_which_field_is_not_one() {
        let error = serde_json::from_str::<Vat>(r#"{"registered":true,"rate":0.2,"source":"x"}"#).unwrap_err();
        let words = alloc::format!("{error}");
        assert!(words.contains("unknown field `rate`") && words.contains("`rates`"), "{words}");
    }

    /// 75 % of the cost, up to £350; up to £500 without a share that was read. Source: electrical reference, section 14, as reported.
    #[test]
    fn a_grant_pays_its_share_and_no_more_than_its_most() {
        let mut grant = Grant {
            name: "a grant".into(),
            from: date(2022, 4, 1),
            until: None,
            share: Some(Ratio::of(0.75)),
            most: Pence(35_000),
            who: Vec::new(),
            read: date(2026, 1, 1),
            source: String::new(),
        };
        assert_eq!((grant.of(Pence(40_000)), grant.of(Pence(100_000))), (Pence(30_000), Pence(35_000)));
        (grant.share, grant.most) = (None, Pence(50_000));
        assert_eq!((grant.of(Pence(40_000)), grant.of(Pence(100_000))), (Pence(40_000), Pence(50_000)));
    }
}
