//! The types of an assessment: plain data that serialises to the same bytes on every platform.

use crate::calculation::sizing::{Check, Disconnects};
use crate::charge_point::Wished;
use crate::design::Outcome;
use crate::design::network::Otherwise;
pub use crate::design::protection::Stated;
pub use crate::flags::{Raised, unfolded};
use crate::price::Cause;
pub use crate::price::{BillLine, Curve, Sums};
pub use crate::site::{ShownFact, ShownValue};
use alloc::string::String;
use alloc::vec::Vec;
use jiff::civil::Date;
use model::answers::choices::words;
use model::config::{GrantFor, Item};
pub use model::terms::{BillUnit, Gatekeeper, KnownBy};
use model::units::{
    Amps, Headroom, Hours, KilowattHours, Metres, Miles, Minutes, Pence, Probability, Ratio, SquareMillimetres, Volts,
};
use serde::{Deserialize, Serialize};

words! {
    /// How involved the job is; the gravest wins.
    pub enum Complexity {
        /// Within one day for one person, nothing to wait for.
        Straightforward => "straightforward",
        /// Longer, or digging, or a new enclosure; still nothing to wait for.
        MoreInvolved => "more-involved",
        /// Somebody else must act or answer first.
        DependsOnOthers => "depends-on-others",
        /// Outside what the data or the installer covers: how involved it is can't be said.
        NotCovered => "not-covered",
        /// Unsafe, or contradictory in what a supply or safety decision rests on.
        LookFirst => "look-first",
    }
}

impl Complexity {
    /// Its place in an installer's list of enquiries, the least first: what has to be looked at first, what waits for somebody, then the
    /// jobs by size; what is not covered comes last.
    #[must_use]
    pub const fn in_a_list(self) -> u8 {
        match self {
            Self::LookFirst => 0,
            Self::DependsOnOthers => 1,
            Self::MoreInvolved => 2,
            Self::Straightforward => 3,
            Self::NotCovered => 4,
        }
    }
}

words! {
    /// What makes a job more than straightforward.
    pub enum Reason {
        /// The likely hours pass one day.
        LongerThanADay => "longer-than-a-day",
        /// There is digging.
        Digging => "digging",
        /// The cable runs on a fence.
        Fence => "fence",
        /// A new enclosure.
        NewEnclosure => "new-enclosure",
        /// A gate counts.
        SomebodyElseFirst => "somebody-else-first",
        /// Something is unsafe.
        Unsafe => "unsafe",
        /// What was seen contradicts itself where supply or safety rests on it.
        Contradiction => "contradiction",
        /// They could not tell whether there is a danger, or were not asked.
        DangerNotRuledOut => "danger-not-ruled-out",
    }
}

/// Somebody who must, or may have to, act first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Gate {
    /// Who.
    pub who: Gatekeeper,
    /// How probable it is that they must.
    pub probability: Probability,
    /// Whether it reaches the installer's threshold.
    pub counts: bool,
    /// Whether the gatekeeper only has to answer a form, without a visit or works: then it is a condition for booking and no gate, however
    /// probable.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub on_paper: bool,
    /// Why, in the installer's words.
    pub why: Vec<String>,
    /// The usual wait.
    pub wait: String,
    /// Where the usual wait is known from.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub wait_source: String,
}

/// Below this probability a homeowner is not told of a possible wait; the installer is told of every one. Common practice, no source.
const WORTH_TELLING: Probability = Probability::of(0.1);

impl Gate {
    /// Whether a homeowner is told of this gate: a chance of a few in a hundred would only alarm them.
    #[must_use]
    pub fn is_told(&self) -> bool {
        self.counts || self.on_paper || self.probability >= WORTH_TELLING
    }
}

/// What the homeowner pays, before a survey: 10 % to 90 %, rounded outwards.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Band {
    /// One job in ten costs less, if times and prices hold.
    pub low: Pence,
    /// Half of the jobs cost less.
    pub likely: Pence,
    /// One job in ten costs more, if times and prices hold.
    pub high: Pence,
    /// VAT in `likely`.
    pub vat: Pence,
    /// The charge point in `likely`, VAT included.
    pub charge_point: Pence,
    /// The plainest job of all with the same charge point: what the tape is drawn against.
    pub plainest: Pence,
    /// The band before VAT, for the installer; a homeowner is shown only what is paid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before_vat: Option<BeforeVat>,
}

/// The band before VAT, rounded in the same way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BeforeVat {
    /// One job in ten costs less, if times and prices hold.
    pub low: Pence,
    /// Half of the jobs cost less.
    pub likely: Pence,
    /// One job in ten costs more, if times and prices hold.
    pub high: Pence,
    /// The rate that is charged on top.
    pub rate: Ratio,
    /// Whether a rate is set for the day; where none is, the latest is taken.
    pub dated: bool,
}

/// A grant that the homeowner may apply for; whoever fits the charge point must be authorised for it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MayApply {
    /// The grant, in plain words.
    pub name: String,
    /// As whom.
    pub who: GrantFor,
    /// The most it pays.
    pub most: Pence,
    /// What would be left of the likeliest price; the band itself stays what is paid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub likely_after: Option<Pence>,
    /// The day it was read.
    #[cfg_attr(feature = "schema", schemars(with = "model::answers::schema::Day"))]
    #[serde(with = "model::answers::day")]
    pub read: Date,
    /// Where it was read.
    pub source: String,
}

words! {
    /// Why there is no band.
    pub enum NoBand {
        /// Something must be looked at first.
        LookFirst => "look-first",
        /// A length is longer than anybody means: the answer is looked at again first.
        LengthBeyondUse => "length-beyond-use",
        /// The installer has not confirmed the rates.
        RatesNotConfirmed => "rates-not-confirmed",
        /// The home is outside what the data or the installer covers.
        OutsideArea => "outside-area",
        /// The car stands on the street.
        StreetOnly => "street-only",
        /// Nearly nothing was said: everything would be an assumption.
        TooLittleSaid => "too-little-said",
        /// The installer shows no price for such a job: said to a homeowner alone.
        NotShown => "not-shown",
    }
}

impl NoBand {
    /// Whether the reason also rules out a class, a plan of the cable and a list for the van.
    #[must_use]
    pub const fn leaves_no_class(self) -> bool {
        matches!(self, Self::TooLittleSaid | Self::LengthBeyondUse)
    }
}

/// The estimate behind the band: with VAT, not rounded to the installer's step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Estimate {
    /// The mean.
    pub mean: Pence,
    /// One job in ten costs less, if times and prices hold.
    pub low: Pence,
    /// Half of the jobs cost less.
    pub median: Pence,
    /// One job in ten costs more, if times and prices hold.
    pub high: Pence,
    /// The price if everything unknown turns out well, at usual times: the "from" price, rounded up to the installer's step. Zero in
    /// records from before there was such a price.
    #[serde(default)]
    pub well: Pence,
    /// The whole distribution.
    pub curve: Curve,
    /// What makes it dearer than the plainest job, the dearest first; what saves something is negative.
    pub dearer: Vec<Dearer>,
}

/// One thing that makes a job dearer than the plainest.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Dearer {
    /// What.
    pub cause: Cause,
    /// By how much, VAT included.
    pub by: Pence,
    /// The facts it goes back to.
    pub facts: Vec<String>,
}

/// An unsure fact that the price rests on, and what knowing it would be worth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Driver {
    /// The fact.
    pub fact: String,
    /// The open question that would settle it, if there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub question: Option<String>,
    /// By how much the stretch from 10 % to 90 % is expected to shrink, VAT included; negative where it would grow.
    pub narrows_by: Pence,
    /// The share of the price's variance that goes with it.
    pub explains: Ratio,
    /// What each answer would make of the band.
    pub values: Vec<DriverValue>,
}

/// What one answer would make of the band.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct DriverValue {
    /// In words or with its unit.
    pub value: String,
    /// How probable.
    pub probability: Probability,
    /// One job in ten would cost less, if times and prices hold; VAT included.
    pub low: Pence,
    /// One job in ten would cost more, if times and prices hold.
    pub high: Pence,
}

/// A question whose answer would narrow the band.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Open {
    /// The question's name in the catalogue.
    pub question: String,
    /// By how much the spread of the price is expected to shrink.
    pub narrows_by: Pence,
    /// Whether a gate or flag rests on it as well.
    pub settles: bool,
}

/// What is decided for the likeliest case, and how probable that decision is over all cases.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShownDecision {
    /// Which decision.
    pub decision: String,
    /// What was decided, in a word.
    pub chosen: String,
    /// How probable it is over all cases.
    pub probability: Probability,
    /// The facts it rests on.
    pub rests_on: Vec<String>,
}

/// Another design beside the one that was taken. Its figures are those of the likeliest case; where it makes no difference there, those of
/// the likeliest case in which it does.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Alternative {
    /// Which other design.
    pub design: Otherwise,
    /// The procedure of the network operator that would apply.
    pub outcome: Outcome,
    /// The charge current.
    pub current: Amps,
    /// Maximum demand.
    pub maximum_demand: Amps,
    /// What the main fuse leaves over.
    pub headroom: Headroom,
    /// Where the design makes no difference in the likeliest case: the probability of the cases in which it does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub elsewhere: Option<Probability>,
    /// The probability of each outcome over all cases, not the likeliest alone; outcomes that are impossible are left out. Empty in records
    /// from before there was such a list.
    #[serde(default)]
    pub outcomes: Vec<OutcomeShare>,
}

/// How probable an outcome is over all cases.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct OutcomeShare {
    /// The procedure of the network operator that would apply.
    pub outcome: Outcome,
    /// How probable that is.
    pub probability: Probability,
}

words! {
    /// To whom there is an obligation.
    pub enum OwedTo {
        /// The network operator.
        NetworkOperator => "network-operator",
        /// The electricity supplier.
        Supplier => "supplier",
        /// The landlord or freeholder.
        Landlord => "landlord",
        /// A neighbour.
        Neighbour => "neighbour",
        /// The planning authority.
        Planner => "planner",
        /// The highway authority.
        HighwayAuthority => "highway-authority",
        /// Building control.
        BuildingControl => "building-control",
        /// The homeowner: the certificate.
        Certificate => "certificate",
        /// The homeowner: the handover.
        Handover => "handover",
    }
}

words! {
    /// When an obligation must be met.
    pub enum OwedWhen {
        /// Before a date is fixed: an answer comes first.
        BeforeBooking => "before-booking",
        /// Before work starts.
        BeforeWork => "before-work",
        /// Within some days after.
        DaysAfter => "days-after",
        /// When the work is done.
        OnCompletion => "on-completion",
    }
}

/// An obligation to somebody before or after the work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Obligation {
    /// To whom.
    pub to: OwedTo,
    /// When.
    pub when: OwedWhen,
    /// Within so many days after, where it is counted in days.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days: Option<u16>,
    /// The probability that the obligation applies.
    pub probability: Probability,
    /// When it was asked, where that was recorded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<Asked>,
    /// Which way it goes, in a word: `ask`, `notify`, a nation's own way.
    pub way: String,
    /// What it needs, filled in as far as known.
    pub needs: Vec<Need>,
    /// Where the duty is known from.
    pub source: String,
}

/// Somebody was asked, and answered or not.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Asked {
    /// The day it was asked.
    #[cfg_attr(feature = "schema", schemars(with = "Option<model::answers::schema::Day>"))]
    #[serde(default, with = "model::answers::day::option", skip_serializing_if = "Option::is_none")]
    pub on: Option<Date>,
    /// The day by which an answer is usual; none where that can't be told.
    #[cfg_attr(feature = "schema", schemars(with = "Option<model::answers::schema::Day>"))]
    #[serde(default, with = "model::answers::day::option", skip_serializing_if = "Option::is_none")]
    pub usually_by: Option<Date>,
    /// The day it answered.
    #[cfg_attr(feature = "schema", schemars(with = "Option<model::answers::schema::Day>"))]
    #[serde(default, with = "model::answers::day::option", skip_serializing_if = "Option::is_none")]
    pub answered: Option<Date>,
}

impl Asked {
    /// Whether an answer is still awaited on the day `today`, though the usual day for it has passed.
    #[must_use]
    pub fn is_overdue(&self, today: Date) -> bool {
        self.answered.is_none() && self.usually_by.is_some_and(|by| by < today)
    }

    /// Whether the answer is dated before the day of asking: one of the days is wrong, or the answer belongs to something else.
    #[must_use]
    pub fn is_answered_before_asked(&self) -> bool {
        self.on.zip(self.answered).is_some_and(|(on, answered)| answered < on)
    }

    /// Whether one of its recorded days lies after `today`; a recorded day should be past.
    #[must_use]
    pub fn is_dated_after(&self, today: Date) -> bool {
        [self.on, self.answered].into_iter().flatten().any(|day| day > today)
    }
}

/// One thing that a form or letter asks for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Need {
    /// What.
    pub what: String,
    /// The value as far as known; missing where it is to be found out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<String>,
    /// The values still possible, likeliest first, where more than one is: a form takes no guesses.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub alternatives: Vec<String>,
    /// How the value or the alternatives are known; left out where there is neither.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub known_by: Option<KnownBy>,
}

/// What driving takes a night and costs a year, by the homeowner's own figures; energy a mile and hours a night: common practice, no
/// source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Driving {
    /// Driven on a usual day.
    pub miles_a_day: Miles,
    /// Energy for a day's miles.
    pub energy_a_night: KilowattHours,
    /// How long that takes at the charge current of the design.
    pub hours_needed: Hours,
    /// Hours of a night that are reckoned with.
    pub hours_available: Hours,
    /// Whether a night is enough for a day.
    pub is_enough: bool,
    /// Energy for a year's miles.
    pub energy_a_year: KilowattHours,
    /// Money a year at the price by day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub a_year_by_day: Option<Pence>,
    /// Money a year at the price at night.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub a_year_at_night: Option<Pence>,
    /// Money a year at public charge points.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub a_year_in_public: Option<Pence>,
}

/// The figures of the design, for the likeliest case.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Figures {
    /// Existing load after diversity by likely use, low, likely and high.
    pub existing_by_use: [Amps; 3],
    /// The same by device ratings: an upper bound.
    pub existing_by_ratings: Amps,
    /// With the charge point, after any accepted limit.
    pub maximum_demand: Amps,
    /// Whether an accepted load limit is part of that.
    pub load_limit: bool,
    /// The limit that the whole home is held at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<Amps>,
    /// What the main fuse leaves over.
    pub headroom: Headroom,
    /// Length of the cable.
    pub cable_length: Metres,
    /// Whether the likeliest case uses the cable that is there: the figures beside are those of a new one in its place.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub cable_kept: bool,
    /// Its size, or nothing where no size of the tables passes.
    pub cable_size: Option<SquareMillimetres>,
    /// Its voltage drop at full charge current.
    pub voltage_drop: Volts,
    /// The check that asks for the size, or that no size passes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cable_governed_by: Option<Check>,
    /// What disconnects a fault to earth at the charge point.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub disconnected_by: Option<Disconnects>,
    /// The largest charge current that fits beside the home's maximum demand, set once; nothing where none does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fixed_limit: Option<Amps>,
    /// The lead needed with the nose and with the tail of the car towards the spot, where that can be told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_needed: Option<[Metres; 2]>,
    /// What driving takes and costs, where the homeowner said how far.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub driving: Option<Driving>,
}

/// What the program works out of one home.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Assessment {
    /// The day it speaks of.
    #[cfg_attr(feature = "schema", schemars(with = "model::answers::schema::Day"))]
    #[serde(with = "model::answers::day")]
    pub as_of: Date,
    /// Version of the engine.
    pub engine: String,
    /// Version of the config.
    pub config: String,
    /// Whether the prices behind it are invented.
    pub invented: bool,
    /// How involved.
    pub complexity: Complexity,
    /// Why.
    pub reasons: Vec<Reason>,
    /// The conditions on that complexity: codes of the flags to be settled before a date is agreed, the gravest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub settle: Vec<String>,
    /// Who must or may have to act first.
    pub gates: Vec<Gate>,
    /// What the homeowner pays, or nothing.
    pub band: Option<Band>,
    /// Why there is no band.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub no_band: Option<NoBand>,
    /// Grants that the homeowner may apply for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub grants: Vec<MayApply>,
    /// Flags, gravest first.
    pub flags: Vec<Raised>,
    /// What was wished for, and whether the charge point of the design does it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wishes: Vec<Wished>,
    /// The bill.
    pub work: Vec<BillLine>,
    /// Items of the bill whose time and cost are invented defaults that nobody has confirmed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assumed: Vec<Item>,
    /// What the bill comes to.
    #[serde(default)]
    pub sums: Sums,
    /// Likely labour in all.
    pub labour: Minutes,
    /// What is behind the band; nothing where there is no band.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub estimate: Option<Estimate>,
    /// Unsure facts by what knowing them is worth; none where there is no band.
    #[serde(default)]
    pub drivers: Vec<Driver>,
    /// Questions that would narrow it, best first.
    pub open: Vec<Open>,
    /// Facts about the site.
    pub facts: Vec<ShownFact>,
    /// Decisions.
    pub decisions: Vec<ShownDecision>,
    /// Figures.
    pub figures: Figures,
    /// Other designs beside the one taken.
    #[serde(default)]
    pub alternatives: Vec<Alternative>,
    /// Protection, earthing conductors and fixing, for the likeliest case.
    #[serde(default)]
    pub protection: Vec<Stated>,
    /// The obligations before and after the work, in the order of the work.
    #[serde(default)]
    pub owed: Vec<Obligation>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slight_possibility_is_the_installers_alone() {
        let gate = |probability, counts| Gate {
            who: Gatekeeper::NetworkOperator,
            probability: Probability::of(probability),
            counts,
            on_paper: false,
            why: Vec::new(),
            wait: String::new(),
            wait_source: String::new(),
        };
        assert!(!gate(0.03, false).is_told());
        assert!(gate(0.2, false).is_told());
        assert!(gate(0.05, true).is_told(), "where the installer counts it, it is told");
    }
}
