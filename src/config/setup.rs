//! The private setup: cost prices, mark-up, calibration and where mail goes; and its one way out, [`Setup::publish`].

use super::public::{
    BoardDevice, Branding, Config, Installer, Item, OfferedPoint, PriceLine, Rates, ThreeMinutes, ThreePence,
    Thresholds, draft_kept_days,
};
use super::{Grant, Priors, Vat, VatRate};
use crate::units::{Amps, Metres, Minutes, Pence, Ratio};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// What the installer keeps. Never sent to a visitor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Setup {
    /// The day it was last changed.
    #[cfg_attr(feature = "schema", schemars(with = "alloc::string::String"))]
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
    /// Postcodes covered, by their beginnings.
    #[serde(default)]
    pub area: Vec<String>,
    /// Charge points fitted, at cost.
    pub charge_points: Vec<OwnPoint>,
    /// Rates.
    pub rates: SetupRates,
    /// Times and cost prices by work item.
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
    pub draft_days: u16,
    /// Wording changed.
    #[serde(default)]
    pub wording: BTreeMap<String, String>,
    /// Colours.
    #[serde(default)]
    pub branding: Branding,
}

/// A charge point the installer fits, at cost.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct OwnPoint {
    /// The installer's own short name for it.
    pub id: String,
    /// Length of its fixed lead; none where it has a socket.
    #[serde(default)]
    pub lead: Option<Metres>,
    /// Charge current.
    pub current: Amps,
    /// It can follow solar power.
    #[serde(default)]
    pub follows_solar: bool,
    /// It holds back while the home is busy.
    #[serde(default)]
    pub load_sensing: bool,
    /// It senses a broken supply neutral.
    #[serde(default)]
    pub open_pen_sensing: bool,
    /// It does so where the installation is three-phase as well.
    #[serde(default)]
    pub open_pen_three_phase: bool,
    /// It senses 6 mA of direct current.
    #[serde(default)]
    pub dc_sensing: bool,
    /// It has a 30 mA double-pole residual-current device of its own.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub residual_device: bool,
    /// It may be reached by mobile data.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub mobile_data: bool,
    /// The day on which it was checked that suppliers' off-peak schemes steer it; none where none was found to.
    #[cfg_attr(feature = "schema", schemars(with = "Option<alloc::string::String>"))]
    #[serde(default, with = "crate::answers::day::option", skip_serializing_if = "Option::is_none")]
    pub off_peak: Option<Date>,
    /// Cost price before VAT.
    pub cost: Pence,
}

/// Rates, with what is added to cost prices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SetupRates {
    /// An hour of one person, as charged.
    pub hour: Pence,
    /// Added to the cost of materials, as a share.
    pub mark_up: Ratio,
    /// Coming out at all.
    pub call_out: Pence,
    /// The least that is charged.
    pub least: Pence,
    /// The step of bands.
    pub step: Pence,
    /// A person's working day.
    pub day: Minutes,
    /// VAT.
    pub vat: Vat,
}

/// One line of costs: for one unit of the item.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
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

/// What earlier jobs taught: a factor on all labour. More comes when jobs are recorded.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Calibration {
    /// Multiplies labour minutes.
    pub labour: Ratio,
    /// How many recorded jobs it rests on.
    pub jobs: u32,
}

impl Default for Calibration {
    fn default() -> Self {
        Self { labour: Ratio::of(1.0), jobs: 0 }
    }
}

impl Setup {
    /// What a visitor may be given: selling prices instead of costs, calibrated minutes, nothing private.
    #[must_use]
    pub fn publish(&self) -> Config {
        let sell = |cost: Pence| Pence::rounded(cost.as_f64() * (1.0 + self.rates.mark_up.get()));
        let mut config = Config {
            version: String::new(),
            published: self.changed,
            invented: self.invented,
            rates_confirmed: self.rates_confirmed,
            installer: self.installer.clone(),
            area: self.area.clone(),
            charge_points: self
                .charge_points
                .iter()
                .map(|point| OfferedPoint {
                    id: point.id.clone(),
                    lead: point.lead,
                    current: point.current,
                    follows_solar: point.follows_solar,
                    load_sensing: point.load_sensing,
                    open_pen_sensing: point.open_pen_sensing,
                    open_pen_three_phase: point.open_pen_three_phase,
                    dc_sensing: point.dc_sensing,
                    residual_device: point.residual_device,
                    mobile_data: point.mobile_data,
                    off_peak: point.off_peak,
                    price: sell(point.cost),
                })
                .collect(),
            rates: Rates {
                hour: self.rates.hour,
                call_out: self.rates.call_out,
                least: self.rates.least,
                step: self.rates.step,
                day: self.rates.day,
                vat: self.vat(),
            },
            prices: self
                .costs
                .iter()
                .map(|line| PriceLine {
                    item: line.item,
                    minutes: ThreeMinutes {
                        low: line.minutes.low * self.calibration.labour,
                        likely: line.minutes.likely * self.calibration.labour,
                        high: line.minutes.high * self.calibration.labour,
                    },
                    materials: ThreePence {
                        low: sell(line.cost.low),
                        likely: sell(line.cost.likely),
                        high: sell(line.cost.high),
                    },
                })
                .collect(),
            grants: self.grants.clone().unwrap_or_else(|| known().grants),
            thresholds: self.thresholds.clone(),
            priors: self.priors.clone(),
            devices: self.devices.clone(),
            keep_days: self.keep_days,
            draft_days: self.draft_days,
            wording: self.wording.clone(),
            branding: self.branding.clone(),
        };
        config.version = fingerprint(&config);
        config
    }

    fn vat(&self) -> Vat {
        let own = &self.rates.vat;
        if own.rates.is_empty() { Vat { rates: known().vat, ..*own } } else { own.clone() }
    }
}

/// Rates of VAT and grants that come with the program.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Known {
    vat: Vec<VatRate>,
    grants: Vec<Grant>,
}

fn known() -> Known {
    serde_json::from_str(include_str!("money.json")).expect("the file is read by a test")
}

/// A short name for the config's content: FNV-1a, 64 bits, over its JSON. Tells configs apart; protects nothing.
fn fingerprint(config: &Config) -> String {
    let json = serde_json::to_vec(config).expect("a config holds only numbers, text and lists");
    let hash = json
        .iter()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
    alloc::format!("{hash:016x}")
}
