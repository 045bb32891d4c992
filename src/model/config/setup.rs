//! The private setup: cost prices, mark-up, calibration and mail address, and the only way from it to a config, [`Setup::publish`].

use super::charge_point::OwnPoint;
use super::fields::fields;
use super::format::came_later;
use super::own_words::as_read;
use super::public::{
    BoardDevice, Config, Installer, Item, PriceLine, Rates, ThreeMinutes, ThreePence, Thresholds, draft_kept_days,
};
use super::{Brand, Grant, Mail, PricesShown, Priors, Vat, VatRate, Webhook, within};
#[cfg(feature = "schema")]
use super::{check, schema};
use crate::answers::Word;
use crate::units::{Minutes, Pence, Probability, Ratio};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// What the installer keeps. Never sent to a visitor.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transform = schema::beyond_a_setup))]
pub struct Setup {
    /// The day it was last changed.
    #[cfg_attr(feature = "schema", schemars(with = "crate::answers::schema::Day"))]
    #[serde(with = "crate::answers::day")]
    pub changed: Date,
    /// Whether it is an invented demonstration.
    #[serde(default)]
    pub invented: bool,
    /// Whether the installer has confirmed the rates.
    #[serde(default)]
    pub rates_confirmed: bool,
    /// Who it is.
    pub installer: Installer,
    /// Where enquiries are mailed to, if anywhere.
    #[serde(default)]
    pub mail_to: Option<String>,
    /// By which server enquiries are mailed; without it nobody is mailed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mail: Option<Mail>,
    /// Addresses that are told of each enquiry, without personal data.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub webhooks: Vec<Webhook>,
    /// Postcodes covered, by their beginnings.
    #[serde(default)]
    pub area: Vec<String>,
    /// Charge points fitted, at cost.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub charge_points: Vec<OwnPoint>,
    /// Rates.
    pub rates: SetupRates,
    /// Times and cost prices by work item; an item that is left out has the default that comes with the program.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(extend("allOf" = schema::no_line_twice())))]
    pub costs: Vec<CostLine>,
    /// Grants that a homeowner may apply for; left out, the data that comes with the program.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grants: Option<Vec<Grant>>,
    /// What earlier jobs taught.
    #[serde(default)]
    pub calibration: Calibration,
    /// Thresholds.
    #[serde(default)]
    pub thresholds: Thresholds,
    /// Assumptions.
    #[serde(default)]
    pub priors: Priors,
    /// For which boards a double-pole device of the kind needed can be had.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub devices: Vec<BoardDevice>,
    /// Days that an enquiry is kept.
    pub keep_days: u16,
    /// Days that a form begun and not sent stays on the homeowner's own device.
    #[serde(default = "draft_kept_days")]
    #[cfg_attr(feature = "schema", schemars(range(min = check::DRAFT_DAYS[0], max = check::DRAFT_DAYS[1])))]
    pub draft_days: u16,
    /// What a visitor sees of the price, by class: `band`, `from` or `none`.
    #[serde(default, skip_serializing_if = "PricesShown::is_usual")]
    pub prices_shown: PricesShown,
    /// Whether the form asks if the installer may send offers later.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub advertising: bool,
    /// Wording changed: key to plain text, its places as `{name}` or `{ $name }`.
    #[serde(default)]
    pub wording: BTreeMap<String, String>,
    /// Colours, typeface, corners and logo.
    #[serde(default)]
    pub branding: Brand,
    /// The address that people open the service by, such as `https://enquiries.example`: it decides what the sign-in's cookies may be. Left
    /// out, the browser's own word is taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub public_address: Option<String>,
    /// The proxies in front of the service, addresses or networks such as `10.0.0.0/8`: they alone are believed when they name a visitor
    /// (`X-Forwarded-For`). Left out, those on the service's own machine.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proxies: Option<Vec<String>>,
    /// The most new enquiries that the service takes within 24 hours; further ones are told to come later. Left out, 200.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = u32::MAX)))]
    pub enquiries_a_day: Option<core::num::NonZeroU32>,
}

/// What the network operator's form asks of a charge point. Private: the signed-in installer alone is given it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PointPapers {
    /// The installer's own short name for it.
    pub id: String,
    /// Maker.
    #[serde(default)]
    pub maker: Option<String>,
    /// Model.
    #[serde(default)]
    pub model: Option<String>,
    /// Reference in the network operators' own list of charge points.
    #[serde(default)]
    pub operators_reference: Option<String>,
}

/// Removes the lines of later items that equal the line of the item they are like, so that forms published before can read the config.
fn leave_out_what_says_the_same(config: &mut Config) {
    for item in Item::ALL {
        let Some(like) = item.like() else { continue };
        let of = |item: Item| config.prices.iter().find(|line| line.item == item);
        let assumed = |item: Item| config.assumed_lines.contains(&item);
        let same = of(*item).zip(of(like)).is_some_and(|(one, other)| {
            (one.minutes, one.materials) == (other.minutes, other.materials) && assumed(*item) == assumed(like)
        });
        if same {
            config.prices.retain(|line| line.item != *item);
            config.assumed_lines.retain(|assumed| assumed != item);
        }
    }
}

/// Rates, with what is added to cost prices.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SetupRates {
    /// An hour of one person, as charged.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::HOUR[0], "maximum" = check::HOUR[1])))]
    pub hour: Pence,
    /// An hour of a second person, where two work; left out, the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::SECOND[0], "maximum" = check::SECOND[1])))]
    pub second: Option<Pence>,
    /// Added to the cost of materials, as a share.
    #[cfg_attr(feature = "schema", schemars(extend("maximum" = check::MOST_MARK_UP)))]
    pub mark_up: Ratio,
    /// Coming out at all.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::CALL_OUT[0], "maximum" = check::CALL_OUT[1])))]
    pub call_out: Pence,
    /// The least that is charged.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::LEAST[0], "maximum" = check::LEAST[1])))]
    pub least: Pence,
    /// The step of bands.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::STEP[0], "maximum" = check::STEP[1])))]
    pub step: Pence,
    /// A person's working day.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::A_DAY[0], "maximum" = check::A_DAY[1])))]
    pub day: Minutes,
    /// VAT.
    pub vat: Vat,
}

/// One line of costs: for one unit of the item.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transform = schema::costs))]
pub struct CostLine {
    /// The item.
    pub item: Item,
    /// Labour a unit.
    pub minutes: ThreeMinutes,
    /// Materials a unit, at cost before VAT.
    pub cost: ThreePence,
    /// Where the figures come from.
    pub source: String,
}

/// What earlier jobs taught.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Calibration {
    /// Multiplies all labour minutes.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::A_FACTOR[0], "maximum" = check::A_FACTOR[1])))]
    pub labour: Ratio,
    /// Multiplies an item's labour minutes on top of that; one that is left out by one.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    #[cfg_attr(feature = "schema", schemars(extend("additionalProperties" = schema::factors(), "propertyNames" = schema::items())))]
    pub items: BTreeMap<Item, Ratio>,
    /// Multiplies what materials cost, the charge point left out.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::A_FACTOR[0], "maximum" = check::A_FACTOR[1])))]
    pub materials: Ratio,
    /// How many recorded jobs it rests on.
    #[cfg_attr(feature = "schema", schemars(range(max = u32::MAX)))]
    pub jobs: u32,
    /// How many recorded jobs had a band and a price, where about eight in ten of them fell inside; else none.
    #[serde(skip_serializing_if = "super::public::is_none_recorded")]
    #[cfg_attr(feature = "schema", schemars(range(max = u32::MAX)))]
    pub held: u32,
    /// Assumptions that recorded jobs changed, by their path in the setup, as they stood before any was recorded.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub assumed: BTreeMap<String, Probability>,
}

fields!(Setup { changed day, invented default, rates_confirmed default, installer, mail_to default, mail default, webhooks default, area default, charge_points, rates, costs default, grants default, calibration default, thresholds default, priors default, devices default, keep_days, draft_days or draft_kept_days, prices_shown default, advertising default, wording default, branding default, public_address default, proxies default, enquiries_a_day default });
fields!(SetupRates { hour, second default, mark_up, call_out, least, step, day, vat });
fields!(CostLine { item, minutes, cost, source });
fields!(all default Calibration { labour, items, materials, jobs, held, assumed });

impl Default for Calibration {
    fn default() -> Self {
        Self {
            labour: Ratio::of(1.0),
            items: BTreeMap::new(),
            materials: Ratio::of(1.0),
            jobs: 0,
            held: 0,
            assumed: BTreeMap::new(),
        }
    }
}

impl Calibration {
    /// The factor for an item's labour minutes: the one for all labour times the item's own.
    #[must_use]
    pub fn labour_of(&self, item: Item) -> Ratio {
        self.items.get(&item).map_or(self.labour, |own| self.labour * *own)
    }
}

impl Setup {
    /// The setup as JSON with every assumption written out; in a file, newer assumptions with their usual value are left out.
    ///
    /// # Panics
    /// Never: a setup holds only numbers, text and lists.
    #[cfg(feature = "std")]
    #[must_use]
    pub fn whole(&self) -> serde_json::Value {
        const WHY: &str = "a setup holds only numbers, text and lists";
        let mut whole = serde_json::to_value(self).expect(WHY);
        whole["priors"]["loop_at_age"] = serde_json::to_value(&self.priors.loop_at_age).expect(WHY);
        whole["priors"]["device_by_buttons"] = serde_json::to_value(self.priors.device_by_buttons).expect(WHY);
        whole
    }

    /// The config that a visitor may be given: selling prices instead of costs, calibrated minutes, nothing private.
    #[must_use]
    pub fn publish(&self) -> Config {
        let lines = self.lines();
        let mut config = Config {
            version: String::new(),
            published: self.changed,
            invented: self.invented,
            rates_confirmed: self.rates_confirmed,
            jobs: if self.calibration.held < ENOUGH_JOBS { 0 } else { self.calibration.held },
            installer: self.installer.clone(),
            area: self.area.clone(),
            charge_points: self
                .charge_points
                .iter()
                .map(|point| point.offered(self.sold(point.cost, Ratio::of(1.0))))
                .collect(),
            rates: Rates {
                hour: self.rates.hour,
                second: self.rates.second,
                call_out: self.rates.call_out,
                least: self.rates.least,
                step: self.rates.step,
                day: self.rates.day,
                vat: self.vat(),
            },
            prices: lines.iter().map(|line| self.price(line)).collect(),
            assumed_lines: lines
                .iter()
                .filter(|line| line.source.trim() == INVENTED_DEFAULT)
                .map(|line| line.item)
                .collect(),
            grants: self.grants.clone().unwrap_or_else(|| known().grants),
            thresholds: self.thresholds.clone(),
            priors: self.priors.clone(),
            devices: self.devices.clone(),
            keep_days: self.keep_days,
            draft_days: self.draft_days,
            prices_shown: self.prices_shown,
            advertising: self.advertising,
            copies: self.mail_to.is_some() && self.mail.as_ref().is_some_and(|mail| mail.copies),
            wording: self.wording.iter().map(|(key, text)| (key.clone(), as_read(text))).collect(),
            branding: self.branding.published().0,
        };
        leave_out_what_says_the_same(&mut config);
        config.version = fingerprint(&config);
        config
    }

    /// The details of each charge point that the network operator's form asks for. They are never published.
    #[must_use]
    pub fn papers(&self) -> Vec<PointPapers> {
        let of = |point: &OwnPoint| PointPapers {
            id: point.id.clone(),
            maker: point.maker.clone(),
            model: point.model.clone(),
            operators_reference: point.operators_reference.clone(),
        };
        self.charge_points.iter().map(of).collect()
    }

    /// The line of an item: the setup's own, or the default. `None` where there is neither.
    #[must_use]
    pub fn line(&self, item: Item) -> Option<CostLine> {
        self.lines().into_iter().find(|line| line.item == item)
    }

    /// This setup as it was before any job was recorded: every factor is one.
    #[must_use]
    pub fn uncalibrated(&self) -> Self {
        let (jobs, assumed) = (0, self.calibration.assumed.clone());
        Self { calibration: Calibration { jobs, assumed, ..Calibration::default() }, ..self.clone() }
    }

    /// The setup's own lines, then one for each item that it leaves out: its own line of the item that one is like, or the default.
    #[must_use]
    pub fn lines(&self) -> Vec<CostLine> {
        let own = |item| self.costs.iter().find(|line| line.item == item);
        let left_out = default_lines().into_iter().filter(|line| own(line.item).is_none()).map(|line| {
            let like = line.item.like().and_then(own);
            like.map_or(line.clone(), |like| CostLine { item: line.item, ..like.clone() })
        });
        self.costs.iter().cloned().chain(left_out).collect()
    }

    /// The selling price of a cost price: multiplied by `factor`, then with the mark-up added.
    fn sold(&self, cost: Pence, factor: Ratio) -> Pence {
        Pence::rounded(cost.as_f64() * factor.get() * (1.0 + self.rates.mark_up.get()))
    }

    /// The line as it is published: calibrated minutes and selling price.
    pub(super) fn price(&self, line: &CostLine) -> PriceLine {
        let (labour, materials) = (self.calibration.labour_of(line.item), self.calibration.materials);
        PriceLine {
            item: line.item,
            minutes: ThreeMinutes {
                low: line.minutes.low * labour,
                likely: line.minutes.likely * labour,
                high: line.minutes.high * labour,
            },
            materials: ThreePence {
                low: self.sold(line.cost.low, materials),
                likely: self.sold(line.cost.likely, materials),
                high: self.sold(line.cost.high, materials),
            },
        }
    }

    fn vat(&self) -> Vat {
        let own = &self.rates.vat;
        if own.rates.is_empty() { Vat { rates: known().vat, ..*own } } else { own.clone() }
    }
}

/// From this number of recorded jobs on, the band's share of eight in ten is checked; fewer say too little against it. Common practice, no
/// source.
const ENOUGH_JOBS: u32 = 20;

/// The `source` of a line that nobody has confirmed. A line that an installer confirms gets another text.
pub const INVENTED_DEFAULT: &str = "invented default, confirm";

/// The lines that come with the program, one for every work item: invented, and marked so.
///
/// # Panics
/// Never: the file is read by a test.
#[must_use]
pub fn default_lines() -> Vec<CostLine> {
    serde_json::from_str(include_str!("defaults.json")).expect("the defaults file can be read, as a test shows")
}

/// Rates of VAT and grants that come with the program.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Known {
    vat: Vec<VatRate>,
    grants: Vec<Grant>,
    /// Grants for landlords, who do not fill in the form: shown on the installer's page, never published.
    landlords: Vec<Grant>,
}

/// The grants that a landlord may apply for on a day.
#[must_use]
pub fn landlords_grants(day: Date) -> Vec<Grant> {
    let mut grants = known().landlords;
    grants.retain(|grant| within(day, grant.from, grant.until));
    grants
}

fn known() -> Known {
    serde_json::from_str(include_str!("money.json")).expect("the money file can be read, as a test shows")
}

/// A short name for a config's content: FNV-1a, 64 bits, over its JSON. It tells configs apart and is no protection.
fn fingerprint(config: &Config) -> String {
    // Items that an older setup leaves out because they did not exist then are covered by the engine's version; the setup itself has not
    // changed.
    let brought = |item: &Item| came_later(*item) && config.assumed_lines.contains(item);
    let mut own = config.clone();
    own.prices.retain(|line| !brought(&line.item));
    own.assumed_lines.retain(|item| !brought(item));
    let json = serde_json::to_vec(&own).expect("a config holds only numbers, text and lists");
    let hash = json
        .iter()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
    alloc::format!("{hash:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Word;
    use crate::config::{check_setup, demo_setup};

    /// An item that is priced by its line has a default; a new one without fails here.
    #[test]
    fn every_item_has_one_default_that_says_where_it_comes_from() {
        let lines = default_lines();
        for item in Item::ALL.iter().filter(|item| !matches!(item, Item::ChargePoint | Item::CallOut)) {
            let its: Vec<&CostLine> = lines.iter().filter(|line| line.item == *item).collect();
            assert_eq!(its.len(), 1, "{} in defaults.json", item.word());
            assert!(!its[0].source.trim().is_empty(), "{}", item.word());
        }
        assert!(!lines.iter().any(|line| matches!(line.item, Item::ChargePoint | Item::CallOut)));
    }

    /// Up to £500 a socket from 1 April 2026 to 31 March 2027. Source: electrical reference, section 16.
    #[test]
    fn landlords_have_a_grant_of_their_own_in_its_year_and_it_is_not_published() {
        let day = jiff::civil::date;
        for (on, most) in [
            (day(2026, 3, 31), None),
            (day(2026, 4, 1), Some(50_000)),
            (day(2027, 3, 31), Some(50_000)),
            (day(2027, 4, 1), None),
        ] {
            assert_eq!(landlords_grants(on).first().map(|grant| grant.most.0), most, "{on}");
        }
        let config = demo_setup().publish();
        assert!(config.grants.iter().all(|grant| !grant.name.contains("landlord")));
    }

    #[test]
    fn a_line_that_is_left_out_is_filled_in_and_named() {
        let mut setup = demo_setup();
        assert_eq!(setup.publish().assumed_lines, []);
        setup.costs.retain(|line| line.item != Item::Glands);
        assert_eq!(check_setup(&setup), []);
        let config = setup.publish();
        assert_eq!(config.assumed_lines, [Item::Glands]);
        assert!(config.line(Item::Glands).is_some());
        // Written out it is still nobody's, until somebody says where it is from.
        setup.costs = setup.lines();
        assert_eq!(setup.publish().assumed_lines, [Item::Glands]);
        setup.costs.last_mut().unwrap().source = "my own time".into();
        assert_eq!(setup.publish().assumed_lines, []);
        setup.costs.clear();
        assert_eq!(check_setup(&setup), []);
    }

    #[test]
    fn what_jobs_taught_is_in_what_is_published() {
        let mut setup = demo_setup();
        let before = setup.publish();
        setup.calibration.labour = Ratio::of(1.5);
        setup.calibration.items.insert(Item::Glands, Ratio::of(2.0));
        setup.calibration.materials = Ratio::of(1.1);
        let written = serde_json::to_string(&setup).unwrap();
        assert_eq!(serde_json::from_str::<Setup>(&written).unwrap(), setup);
        let after = setup.publish();
        let of = |config: &Config, item| config.line(item).unwrap().clone();
        let times = |item| of(&after, item).minutes.likely.get() / of(&before, item).minutes.likely.get();
        assert!((times(Item::Glands) - 3.0).abs() < 1e-9 && (times(Item::Survey) - 1.5).abs() < 1e-9);
        // £12 at cost, a tenth more, and 20 % on top.
        assert_eq!(of(&after, Item::Glands).materials.likely, Pence(1_584));
        assert_eq!(after.charge_points, before.charge_points, "a charge point's cost is known");
        assert_eq!(setup.uncalibrated().publish().prices, before.prices);
    }
}
