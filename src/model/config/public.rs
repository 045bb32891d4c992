//! The public config: everything that a visitor's browser is given about an installer.

use super::charge_point::OfferedPoint;
use super::fields::fields;
use super::{Grant, PricesShown, Priors, Vat};
#[cfg(feature = "schema")]
use super::{check, schema};
use crate::answers::choices::words;
use crate::tables::voltage::DROP_ALLOWED;
use crate::units::{Amps, DecibelsUnder, MegabitsPerSecond, Metres, Minutes, Pence, Probability, Ratio};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;
use jiff::civil::Date;
use serde::Serialize;

/// What the form is given. Strict: an unknown field is an error.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(transform = schema::beyond_a_config))]
pub struct Config {
    /// Changes whenever anything else here does; made on publishing.
    pub version: String,
    /// The day it was published.
    #[cfg_attr(feature = "schema", schemars(with = "crate::answers::schema::Day"))]
    #[serde(with = "crate::answers::day")]
    pub published: Date,
    /// Whether rates and prices are invented for a demonstration; every band says so.
    #[serde(default)]
    pub invented: bool,
    /// Whether the installer has confirmed the rates; before that no band is shown.
    pub rates_confirmed: bool,
    /// Recorded jobs of which about eight in ten fell inside the band shown; none where none were recorded, too few, or others did.
    #[serde(default, skip_serializing_if = "is_none_recorded")]
    #[cfg_attr(feature = "schema", schemars(range(max = u32::MAX)))]
    pub jobs: u32,
    /// Who it is.
    pub installer: Installer,
    /// Postcodes covered, by their beginnings; an empty list is "everywhere the data covers".
    #[serde(default)]
    pub area: Vec<String>,
    /// Charge points on offer.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub charge_points: Vec<OfferedPoint>,
    /// Rates.
    pub rates: Rates,
    /// Selling prices and times by work item.
    #[cfg_attr(feature = "schema", schemars(extend("allOf" = schema::a_line_each())))]
    pub prices: Vec<PriceLine>,
    /// Items whose line is an invented default that nobody has confirmed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assumed_lines: Vec<Item>,
    /// Grants that a homeowner may apply for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub grants: Vec<Grant>,
    /// When a possibility counts.
    #[serde(default)]
    pub thresholds: Thresholds,
    /// What is assumed of a fact nobody could tell.
    #[serde(default)]
    pub priors: Priors,
    /// For which boards a double-pole device of the kind needed can be had, as the installer looked it up.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub devices: Vec<BoardDevice>,
    /// Days that an enquiry is kept after it was received.
    #[serde(default = "kept_days")]
    pub keep_days: u16,
    /// Days that a form begun and not sent stays on the homeowner's own device after it was touched last.
    #[serde(default = "draft_kept_days")]
    #[cfg_attr(feature = "schema", schemars(range(min = check::DRAFT_DAYS[0], max = check::DRAFT_DAYS[1])))]
    pub draft_days: u16,
    /// What a visitor sees of the price, by class.
    #[serde(default, skip_serializing_if = "PricesShown::is_usual")]
    pub prices_shown: PricesShown,
    /// Whether the form asks if the installer may send offers later: never ticked beforehand, and an answer to nothing else.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub advertising: bool,
    /// Whether the service mails homeowners a copy of what they sent, if they wish.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub copies: bool,
    /// Wording changed by the installer: key to plain text with named places.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub wording: BTreeMap<String, String>,
    /// Colours.
    #[serde(default)]
    pub branding: Branding,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the writer of JSON hands a reference")]
pub(super) const fn is_none_recorded(jobs: &u32) -> bool {
    *jobs == 0
}

/// Half a year: common practice, no source.
pub(super) fn kept_days() -> u16 {
    180
}

/// A month: common practice, no source.
pub(super) fn draft_kept_days() -> u16 {
    30
}

/// The installer, as a visitor sees it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Installer {
    /// Short name in addresses: small letters, digits, hyphens.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = check::MOST_ID), extend("pattern" = schema::id())))]
    pub id: String,
    /// Name.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::not_blank())))]
    pub name: String,
    /// Telephone, as printed.
    pub telephone: String,
    /// The name in law of whoever answers for what is sent (a company's, or a person's who trades); left out, the name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = check::MOST_LEGAL_NAME)))]
    pub legal_name: String,
    /// Address of the installer's own privacy notice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::page_address(), "maxLength" = check::MOST_ADDRESS)))]
    pub privacy: Option<String>,
}

impl Installer {
    /// Who answers for what is sent.
    #[must_use]
    pub fn in_law(&self) -> &str {
        if self.legal_name.trim().is_empty() { &self.name } else { &self.legal_name }
    }
}

/// What can be had for a make of board.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BoardDevice {
    /// What is printed as maker; compared with what was typed, capitals and outer spaces aside.
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::not_blank())))]
    pub printed: String,
    /// Whether a 30 mA double-pole device with overcurrent protection of the kind needed can be had for it.
    pub double_pole: bool,
}

/// Rates as charged.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Rates {
    /// An hour of one person.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::MONEY[0], "maximum" = check::MONEY[1])))]
    pub hour: Pence,
    /// An hour of a second person, where two work; left out, the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::MONEY[0], "maximum" = check::MONEY[1])))]
    pub second: Option<Pence>,
    /// Coming out at all.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::MONEY[0], "maximum" = check::MONEY[1])))]
    pub call_out: Pence,
    /// The least that is charged for a job, before VAT.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::MONEY[0], "maximum" = check::MONEY[1])))]
    pub least: Pence,
    /// The step that bands are rounded outwards to.
    #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::STEP[0], "maximum" = check::STEP[1])))]
    pub step: Pence,
    /// A person's working day.
    pub day: Minutes,
    /// VAT.
    pub vat: Vat,
}

words! {
    /// A work item, in the order of the work.
    pub enum Item {
        /// Coming out.
        CallOut => "call-out",
        /// The way there and back, a visit.
        Travel => "travel",
        /// Paying to park, a day.
        Parking => "parking",
        /// Survey and setting out.
        Survey => "survey",
        /// The charge point itself.
        ChargePoint => "charge-point",
        /// Isolating the meter tails.
        IsolateTails => "isolate-tails",
        /// A switch in the tails, so that they can be isolated from then on.
        SupplyIsolator => "supply-isolator",
        /// Splitting the tails to a second board.
        SplitTails => "split-tails",
        /// A switch-fuse by the meter, where the tails are long.
        SwitchFuse => "switch-fuse",
        /// Tails made larger.
        LargerTails => "larger-tails",
        /// The main earthing conductor made larger.
        LargerMainEarth => "larger-main-earth",
        /// A small enclosure of its own.
        Enclosure => "enclosure",
        /// The whole board replaced, its circuits tested and moved over.
        ReplaceBoard => "replace-board",
        /// Freeing a way.
        FreeWay => "free-way",
        /// A double-pole device in a way of the board.
        DoublePoleDevice => "double-pole-device",
        /// A breaker in a way of the board, where the residual-current device comes after it.
        Breaker => "breaker",
        /// A double-pole residual-current device after that breaker.
        ResidualDevice => "residual-device",
        /// Extra over for a Type B device, where the charge point senses no direct current.
        TypeB => "type-b",
        /// Surge protective device.
        SurgeDevice => "surge-device",
        /// Main bonding to gas.
        BondGas => "bond-gas",
        /// Main bonding to water.
        BondWater => "bond-water",
        /// Main bonding to oil, LPG or structural steel.
        BondOther => "bond-other",
        /// A device that senses a broken supply neutral, where the charge point has none.
        OpenPenDevice => "open-pen-device",
        /// Extra over for one that works on three phases.
        OpenPenThreePhase => "open-pen-three-phase",
        /// Proving the earth electrode that is there.
        ProveElectrode => "prove-electrode",
        /// Earth electrode and its test.
        EarthElectrode => "earth-electrode",
        /// Taking an old charge point off.
        OldPointOff => "old-point-off",
        /// Proving a circuit or cable that is there: dead tests, loop, size, device.
        ProveCircuit => "prove-circuit",
        /// Drilling through a wall.
        DrillWall => "drill-wall",
        /// Extra over for a thick wall.
        ThickWall => "thick-wall",
        /// Sealing a passage through a wall or floor that holds back fire.
        FireSeal => "fire-seal",
        /// Flat twin-and-earth inside, a metre.
        CableInside => "cable-inside",
        /// Flat twin-and-earth in a loft or under a floor, a metre.
        CableLoft => "cable-loft",
        /// Armoured clipped outside, a metre.
        CableOutside => "cable-outside",
        /// Armoured on a fence, a metre.
        CableFence => "cable-fence",
        /// Supports that hold in a fire, a metre (BS 7671 521.10.202).
        Supports => "supports",
        /// Trench in soft ground with armoured, a metre.
        TrenchSoft => "trench-soft",
        /// Trench in paving with armoured and reinstatement, a metre.
        TrenchPaving => "trench-paving",
        /// Extra over where the ground is hard to dig: roots, rubble, concrete under the surface, by hand beside other services; a metre.
        HardGround => "hard-ground",
        /// Duct under paving, a metre.
        Duct => "duct",
        /// Working above about 3 m, a metre of stretch.
        HighAccess => "high-access",
        /// A tower, where a ladder is not enough.
        Tower => "tower",
        /// Armoured glands and terminations, a pair.
        Glands => "glands",
        /// Larger cable: extra over the plain size, a metre.
        LargerCable => "larger-cable",
        /// Data cable beside the power cable, a metre.
        DataCable => "data-cable",
        /// The box by the board that it ends in.
        DataBox => "data-box",
        /// Load-sensing clamp.
        LoadSensing => "load-sensing",
        /// The clamp's cable, a metre.
        ClampCable => "clamp-cable",
        /// A post to mount it on.
        MountingPost => "mounting-post",
        /// A guard where a car may strike it.
        ImpactGuard => "impact-guard",
        /// Fixing and connecting the charge point.
        FixPoint => "fix-point",
        /// A holder for the lead.
        LeadHolder => "lead-holder",
        /// Inspection, test and commissioning.
        Commission => "commission",
        /// Certificate and notices.
        Paperwork => "paperwork",
        /// Making good.
        MakingGood => "making-good",
    }
}

/// Low, likely and high money.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ThreePence {
    /// Hardly ever less.
    pub low: Pence,
    /// Usual.
    pub likely: Pence,
    /// Hardly ever more.
    pub high: Pence,
}

/// Low, likely and high labour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ThreeMinutes {
    /// Hardly ever less.
    pub low: Minutes,
    /// Usual.
    pub likely: Minutes,
    /// Hardly ever more.
    pub high: Minutes,
}

/// One line of the price list: for one unit of the item.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PriceLine {
    /// The item.
    pub item: Item,
    /// Labour a unit.
    #[cfg_attr(feature = "schema", schemars(extend("properties" = schema::three(Minutes::ZERO, check::MOST_MINUTES))))]
    pub minutes: ThreeMinutes,
    /// Materials a unit, selling price before VAT.
    #[cfg_attr(feature = "schema", schemars(extend("properties" = schema::three(Pence(0), check::MOST_MONEY))))]
    pub materials: ThreePence,
}

/// When a possibility counts, and where the trade's lines are drawn.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Thresholds {
    /// A gate counts from this probability on; common practice, no source.
    pub gate: Probability,
    /// Maximum demand above which the network operator is asked first.
    /// Source: Energy Networks Association, application form for low-carbon technologies (60 A, 13.8 kVA).
    pub ask_above: Amps,
    /// Export added a phase above which the network operator is asked first. Source: EREC G98 (16 A a phase).
    pub export_above: Amps,
    /// Tails longer than this want a switch-fuse (network operators' rule, from memory).
    pub tails: Metres,
    /// Metres in a pace; common practice, no source.
    pub pace: Ratio,
    /// Wi-Fi at the spot that is good down to this many decibels under one milliwatt (−67 dBm); survey practice.
    pub signal_good: DecibelsUnder,
    /// Below this a data cable or bridge is planned (−75 dBm); survey practice.
    pub signal_least: DecibelsUnder,
    /// A timed transfer under which a data cable is planned; common practice, no source.
    pub transfer: MegabitsPerSecond,
    /// Wi-Fi bars under which a data cable is planned; common practice, no source.
    pub wifi_bars: u8,
    /// Bars of mobile signal under which a charge point's mobile data is not relied on; common practice, no source.
    pub mobile_bars: u8,
    /// Whether the network operator here permits registered electricians to withdraw the service fuse.
    pub may_draw_fuse: bool,
    /// Days that the network operator has to be told in, after the work.
    /// Source: Energy Networks Association form ("within 28 days").
    pub notify_days: u16,
    /// An answer is asked for where it would narrow the band by so much; less is not worth somebody's while. Common practice, no
    /// source.
    pub worth_asking: Pence,
    /// The most voltage drop from the origin that the installer plans for, as a share of nominal; never over the 5 % of BS 7671.
    #[serde(skip_serializing_if = "drop_is_usual")]
    pub voltage_drop: Ratio,
}

/// Whether the installer keeps to the usual limit of voltage drop, so that the field may be left out of a file.
#[cfg_attr(
    target_pointer_width = "64",
    expect(clippy::trivially_copy_pass_by_ref, reason = "the writer of JSON hands a reference")
)]
fn drop_is_usual(drop: &Ratio) -> bool {
    *drop == DROP_ALLOWED
}

impl Default for Thresholds {
    fn default() -> Self {
        Self {
            gate: Probability::of(0.5), // common practice, no source
            // Energy Networks Association, application form for low-carbon technologies, version not kept: the form itself, read.
            ask_above: Amps::of(60.0),
            // EREC G98 issue 1 amendment 7, October 2022, as quoted in the Energy Networks Association's abstract.
            export_above: Amps::of(16.0),
            tails: Metres::of(3.0), // operators' rule, from memory
            pace: crate::answers::METRES_IN_A_PACE,
            signal_good: DecibelsUnder::of(67.0), // -67 dBm, seen on survey practice pages (names not kept)
            signal_least: DecibelsUnder::of(75.0), // common practice, no source
            transfer: MegabitsPerSecond::of(2.0), // common practice, no source
            wifi_bars: 2,
            mobile_bars: 2,
            may_draw_fuse: false,
            // Energy Networks Association, application form for low-carbon technologies, versions not kept: the form itself, read.
            notify_days: 28,
            worth_asking: Pence(2_000), // common practice, no source
            voltage_drop: DROP_ALLOWED,
        }
    }
}

/// Colours of the installer's own; each a CSS colour, each may be left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Branding {
    /// Buttons, links and what is chosen; a CSS colour, as the others are.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub accent: Option<String>,
    /// What stands on the accent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_accent: Option<String>,
    /// What everything stands on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ground: Option<String>,
    /// Text and lines.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ink: Option<String>,
    /// What is unsafe or missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// `light` or `dark` where it does not follow the device.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scheme: Option<String>,
    /// Names of typefaces, the first that is there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub font: Option<String>,
    /// How round corners are; a CSS length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<String>,
    /// Address of a picture.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub logo: Option<String>,
}

fields!(Config { version, published day, invented default, rates_confirmed, jobs default, installer, area default, charge_points, rates, prices, assumed_lines default, grants default, thresholds default, priors default, devices default, keep_days or kept_days, draft_days or draft_kept_days, prices_shown default, advertising default, copies default, wording default, branding default });
fields!(Installer { id, name, telephone, legal_name default, privacy default });
fields!(BoardDevice { printed, double_pole });
fields!(Rates { hour, second default, call_out, least, step, day, vat });
fields!(ThreePence { low, likely, high });
fields!(ThreeMinutes { low, likely, high });
fields!(PriceLine { item, minutes, materials });
fields!(all default Thresholds { gate, ask_above, export_above, tails, pace, signal_good, signal_least, transfer, wifi_bars, mobile_bars, may_draw_fuse, notify_days, worth_asking, voltage_drop });
fields!(all default Branding { accent, on_accent, ground, ink, caution, scheme, font, corner, logo });

impl Item {
    /// The item whose price line stands in where a config has none for this one. Such an item came after the first configs were published,
    /// and its own line is left out where it would be the same.
    #[must_use]
    pub const fn like(self) -> Option<Self> {
        match self {
            Self::BondOther => Some(Self::BondWater),
            _ => None,
        }
    }
}

impl Config {
    /// The price line of an item: its own, or that of the item it is [`Item::like`]. `None` where there is neither.
    #[must_use]
    pub fn line(&self, item: Item) -> Option<&PriceLine> {
        let of = |item| self.prices.iter().find(|line| line.item == item);
        of(item).or_else(|| of(item.like()?))
    }

    /// Whether nobody has confirmed the line of this item, so that it is still the default of the program.
    #[must_use]
    pub fn is_assumed(&self, item: Item) -> bool {
        self.line(item).is_some_and(|line| self.assumed_lines.contains(&line.item))
    }
}

impl BoardDevice {
    /// Whether this entry is for boards with this maker's name, capitals and outer spaces aside.
    #[must_use]
    pub fn is_for(&self, printed: &str) -> bool {
        self.printed.trim().to_lowercase() == printed.trim().to_lowercase()
    }
}
