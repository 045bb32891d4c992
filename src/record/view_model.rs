//! The view model: the part of an assessment that the homeowner is shown. It is chosen, worded and rounded here, so that the page only
//! draws it and decides nothing.
//!
//! The engine hands it to the form as a list of named lines (`lines.rs`), which needs little code to read; the form ignores a line that it
//! does not know. In its sentences, names, telephone numbers and figures stay as placeholders that the form fills in, because only the
//! browser knows how a language writes a figure.

use crate::lines::{Lines, fields, line, parted};
use alloc::borrow::ToOwned;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use engine::assessment::{
    Assessment, Band, Choice, Complexity, Dearer, Gate, Gatekeeper, MayApply, NoBand, Open, Raised, Reason, WhatIf,
    Wished, unfolded, wait_key,
};
use engine::flags::Weight;
use engine::price::{Ruler, outline};
use model::answers::Word;
use model::config::{Config, PriceShown};
use model::units::Pence;
use model::words;
use wording::{Language, MONEY, NUMBER, Words, engine as engine_words, flags_homeowner};

/// The part of an assessment that the homeowner is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct ViewModel {
    /// The day and the versions that the assessment was made with; they go into the enquiry beside it.
    pub of: Versions,
    /// The class of the job: how involved it is.
    pub complexity: Complexity,
    /// Why it is in that class, as far as that can be said and the class's title does not say it already.
    pub reasons: Vec<Reason>,
    /// The conditions under which the class holds, in words: "the network operator agrees".
    pub settle: Vec<String>,
    /// The price band, in pence and with VAT; the likely price and that of the plainest job are rounded to ten pounds, and the price before
    /// VAT is left out. `None` where there is none or the installer does not show it.
    pub band: Option<Band>,
    /// The distribution of the price as an SVG path: the outline over the tape on which the band is drawn. Empty without a band.
    pub curve: String,
    /// What makes the job dearer or cheaper than the plainest one, the largest difference first.
    pub dearer: Vec<CauseView>,
    /// The what-ifs: the same home with one choice made the other way.
    pub futures: Vec<WhatIfView>,
    /// How much charging the homeowner's driving takes and what it costs, in sentences.
    pub driving: Vec<String>,
    /// Shown in place of the band where the installer wants that: the price if everything unknown turns out well.
    pub from: Option<Pence>,
    /// Why no band is shown.
    pub no_band: Option<NoBand>,
    /// Grants that the homeowner may apply for.
    pub grants: Vec<GrantView>,
    /// Whether the prices in the config are invented, as those of the demonstration are.
    pub invented: bool,
    /// The number of recorded jobs that bear the band out; `None` where none do, and the page states it as a condition.
    pub jobs: Option<String>,
    /// The gates: who has to answer first, certainly or possibly.
    pub gates: Vec<GateView>,
    /// What the homeowner wished for and whether the planned job meets it, in sentences.
    pub wishes: Vec<String>,
    /// The few flags that decide, gravest first. A flag that has no sentence for the homeowner is left to the installer.
    pub flags: Vec<FlagView>,
    /// The other flags, which the page shows folded away.
    pub less: Vec<FlagView>,
    /// The questions whose answers would narrow the band most, or settle something.
    pub open: Vec<OpenView>,
    /// The question priority: the ids of all open questions, a space between two, the one whose answer narrows most first.
    pub question_priority: String,
}

/// The day and the versions that an assessment was made with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Versions {
    /// The day that the assessment is for, as in JSON: `2026-11-26`.
    pub as_of: String,
    /// The engine's version.
    pub engine: String,
    /// The config's version.
    pub config: String,
}

/// A grant that the homeowner may apply for.
#[derive(Clone, Debug, PartialEq)]
pub struct GrantView {
    /// The most that it pays.
    pub most: Pence,
    /// The day on which the grant's conditions were read, as in JSON.
    pub read: String,
    /// The grant's name in plain words.
    pub name: String,
}

words! {
    /// Whether a gate has to be waited for.
    pub enum Awaited {
        /// The job waits for the answer.
        Counts => "counts",
        /// A form that is answered on paper will do: a condition, however sure it is, and no gate.
        OnPaper => "on-paper",
        /// It is merely possible that an answer is needed.
        Possible => "possible",
    }
}

/// A gate: somebody who has to answer first, certainly or possibly.
#[derive(Clone, Debug, PartialEq)]
pub struct GateView {
    /// Who has to answer.
    pub who: Gatekeeper,
    /// Whether the job waits for them.
    pub how: Awaited,
    /// The usual wait in words; empty where none is known.
    pub wait: String,
}

/// A flag in the homeowner's words.
#[derive(Clone, Debug, PartialEq)]
pub struct FlagView {
    /// The flag's code.
    pub code: String,
    /// How grave it is.
    pub weight: Weight,
    /// Its sentence for the homeowner.
    pub text: String,
}

/// A cause of the price: something that makes the job dearer or cheaper than the plainest one.
#[derive(Clone, Debug, PartialEq)]
pub struct CauseView {
    /// The difference, rounded to ten pounds; negative where it makes the job cheaper.
    pub by: Pence,
    /// The cause in words.
    pub text: String,
}

/// A what-if: the same home with one choice made the other way.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIfView {
    /// The ends of the price band that would result, the lower first; `None` where there would be no price.
    pub band: Option<[Pence; 2]>,
    /// The choice in words.
    pub text: String,
    /// The difference in price and in gates, in sentences.
    pub changes: String,
}

/// A question that would narrow the band, or settle something.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenView {
    /// The question's id in the catalogue.
    pub question: String,
    /// By how much its answer narrows the band, where that is worth naming; `None` where it settles something instead.
    pub by: Option<Pence>,
}

/// The least difference in price that is named: a smaller one makes no difference to a homeowner. Common practice, no source.
const LEAST: Pence = Pence(2_000);

/// How many causes of the price are shown at most.
const MOST_CAUSES: usize = 3;

/// On the form's sheet the outline stands on the tape and keeps clear of the label above it: this program's choice.
const CURVE_BASE: i64 = 56;
const CURVE_HEIGHT: i64 = 36; // this program's choice

/// How many questions are offered at most.
const MOST_OPEN: usize = 3;

impl ViewModel {
    /// The view model of an assessment in English. The config gives the installer's changes of wording and how much of the price is shown.
    #[must_use]
    pub fn of(assessment: &Assessment, config: &Config) -> Self {
        Self::said_in(None, assessment, config)
    }

    /// Like [`ViewModel::of`], in another language where one is given. Figures in the sentences stay placeholders for the form to fill in.
    #[must_use]
    pub fn said_in(language: Option<&Language<'_>>, assessment: &Assessment, config: &Config) -> Self {
        let words = Words::with_changes(flags_homeowner::EN, &config.wording).spoken(language.map(Language::flags));
        let of_price = price_words(language, config);
        let worded = |flags: Vec<&Raised>| -> Vec<FlagView> {
            let flags = flags.into_iter().filter_map(|flag| {
                let text = words.find(&["flag-", &flag.code].concat())?.to_owned();
                Some(FlagView { code: flag.code.clone(), weight: flag.weight, text })
            });
            flags.collect()
        };
        let (speak, folded) = unfolded(&assessment.flags);
        let gates = assessment.gates.iter().filter(|gate| gate.is_told());
        let rounded =
            |band: Band| Band { likely: about(band.likely), plainest: about(band.plainest), before_vat: None, ..band };
        let how_much = how_much(assessment, config);
        let band = assessment.band.filter(|_| how_much == PriceShown::Band);
        let estimate = assessment.estimate.as_ref().filter(|_| assessment.band.is_some());
        let not_shown = (how_much == PriceShown::Nothing && assessment.band.is_some()).then_some(NoBand::NotShown);
        Self {
            of: Versions {
                as_of: assessment.as_of.to_string(),
                engine: assessment.engine.clone(),
                config: assessment.config.clone(),
            },
            complexity: assessment.complexity,
            reasons: reasons(assessment),
            settle: settle(assessment, &words),
            band: band.map(rounded),
            from: estimate.filter(|_| how_much == PriceShown::From).map(|estimate| estimate.well),
            curve: band.zip(estimate).map_or_else(String::new, |(band, estimate)| {
                let ruler = Ruler::over(about(band.plainest).max(band.high));
                outline(&estimate.curve, |money| ruler.at(money), CURVE_BASE, CURVE_HEIGHT)
            }),
            dearer: if band.is_some() { dearer(assessment, &of_price) } else { Vec::new() },
            futures: Vec::new(),
            driving: driving(assessment, &of_price),
            no_band: assessment.no_band.or(not_shown),
            grants: assessment.grants.iter().map(grant).collect(),
            invented: assessment.invented,
            jobs: (config.jobs > 0).then(|| config.jobs.to_string()),
            gates: gates
                .map(|gate| GateView { who: gate.who, how: awaited(gate), wait: wait(gate, &of_price) })
                .collect(),
            wishes: wishes(assessment, &of_price),
            flags: worded(speak),
            less: worded(folded),
            open: open(assessment, band.is_some(), config.thresholds.worth_asking),
            question_priority: assessment.open.iter().map(|open| &*open.question).collect::<Vec<&str>>().join(" "),
        }
    }

    /// Adds the what-ifs, in English. `now` is the assessment that each is compared with. Where no band is shown, none is added.
    #[must_use]
    pub fn beside(self, now: &Assessment, futures: &[WhatIf], config: &Config) -> Self {
        self.beside_in(None, now, futures, config)
    }

    /// Like [`ViewModel::beside`], in another language where one is given.
    #[must_use]
    pub fn beside_in(
        mut self,
        language: Option<&Language<'_>>,
        now: &Assessment,
        futures: &[WhatIf],
        config: &Config,
    ) -> Self {
        let words = price_words(language, config);
        // Where the price is not shown, no other price is shown beside it.
        if self.band.is_some() {
            self.futures = futures.iter().map(|future| shown_future(future, now, &words)).collect();
        }
        self
    }

    /// Writes the view model as a JSON list of lines, the text that the engine hands to the form.
    #[must_use]
    pub fn write(&self) -> String {
        serde_json::to_string(&self.lines()).expect("texts always fit into JSON")
    }

    /// Reads what [`ViewModel::write`] wrote. Unknown lines, and lines that can't be read, are ignored; `None` where the text is no list of
    /// lines or has no known class.
    #[must_use]
    pub fn read(json: &str) -> Option<Self> {
        let lines: Lines = serde_json::from_str(json).ok()?;
        let involved = lines.iter().find(|(name, _)| name == COMPLEXITY);
        let mut shown = Self::bare(involved.and_then(|(_, word)| Word::named(word))?);
        for (name, value) in &lines {
            let (name, beside) = parted(name);
            shown.take(name, beside, value);
        }
        Some(shown)
    }

    /// A view model that has a class and nothing else.
    fn bare(complexity: Complexity) -> Self {
        Self {
            of: Versions::default(),
            complexity,
            reasons: Vec::new(),
            settle: Vec::new(),
            band: None,
            curve: String::new(),
            dearer: Vec::new(),
            futures: Vec::new(),
            driving: Vec::new(),
            from: None,
            no_band: None,
            grants: Vec::new(),
            invented: false,
            jobs: None,
            gates: Vec::new(),
            wishes: Vec::new(),
            flags: Vec::new(),
            less: Vec::new(),
            open: Vec::new(),
            question_priority: String::new(),
        }
    }
}

/// The name of the line without which no view model can be read.
const COMPLEXITY: &str = "complexity";

fields! {
    ViewModel:
    "as-of" of.as_of,
    "engine" of.engine,
    "config" of.config,
    COMPLEXITY complexity,
    "reason" reasons,
    "settle" settle,
    "band" band,
    "from" from,
    "curve" curve,
    "cause" dearer,
    "future" futures,
    "driving" driving,
    "no-band" no_band,
    "grant" grants,
    "invented" invented,
    "jobs" jobs,
    "gate" gates,
    "wish" wishes,
    "flag" flags,
    "less" less,
    "open" open,
    "question-priority" question_priority,
}

line!(Band: low " " likely " " high " " vat " " charge_point " " plainest, before_vat: None);
line!(CauseView: by " " text);
line!(WhatIfView: [band] text " \n " changes);
line!(GrantView: [most] read " " name);
line!(GateView: [who] how " " wait);
line!(FlagView: [code] weight " " text);
line!(OpenView: [question] by);

/// A sum rounded to the nearest ten pounds: finer would claim more than is known (this program's
/// choice).
fn about(money: Pence) -> Pence {
    Pence(money.0.saturating_add(500)).down_to(Pence(1_000))
}

/// How much of the price the installer shows a homeowner for a job of the assessment's class; nothing for one that is not covered.
#[must_use]
pub fn how_much(assessment: &Assessment, config: &Config) -> PriceShown {
    let shown = config.prices_shown;
    match assessment.complexity {
        Complexity::Straightforward => shown.straightforward,
        Complexity::MoreInvolved => shown.more_involved,
        Complexity::DependsOnOthers => shown.depends_on_others,
        Complexity::LookFirst => shown.look_first,
        Complexity::NotCovered => PriceShown::Nothing,
    }
}

fn grant(grant: &MayApply) -> GrantView {
    GrantView { most: grant.most, read: grant.read.to_string(), name: grant.name.clone() }
}

/// The reasons shown for the class. None outside the area that the figures are for, where no class is shown either; that somebody else has
/// to answer first is left out where the class's title says it already.
fn reasons(assessment: &Assessment) -> Vec<Reason> {
    if assessment.no_band == Some(NoBand::OutsideArea) {
        return Vec::new();
    }
    let said =
        |reason: &Reason| *reason != Reason::SomebodyElseFirst || assessment.complexity != Complexity::DependsOnOthers;
    assessment.reasons.iter().copied().filter(said).collect()
}

/// The conditions under which the class holds, each once; none where somebody looks first anyway or the home is not covered.
fn settle(assessment: &Assessment, words: &Words<'_>) -> Vec<String> {
    let mut conditions: Vec<String> = Vec::new();
    match assessment.complexity {
        Complexity::Straightforward | Complexity::MoreInvolved | Complexity::DependsOnOthers => {}
        Complexity::NotCovered | Complexity::LookFirst => return conditions,
    }
    for code in &assessment.settle {
        // A condition on somebody's answer that the job waits for is shown among the gates.
        if gate_of(code).is_some_and(|who| assessment.gates.iter().any(|gate| gate.counts && gate.who == who)) {
            continue;
        }
        let Some(condition) = words.find(&["if-", code].concat()) else { continue };
        if conditions.iter().all(|other| other != condition) {
            conditions.push(condition.to_owned());
        }
    }
    conditions
}

/// The gatekeeper whose answer settles a flag; `None` where a flag does not depend on one.
fn gate_of(code: &str) -> Option<Gatekeeper> {
    Some(match code {
        "landlord" | "scottish-flat" | "communal-meter" | "shared-car-park" => Gatekeeper::Landlord,
        "listed" => Gatekeeper::Planner,
        "shared-ground" => Gatekeeper::Neighbour,
        "looped-supply" | "split-phase" | "demand-over-limit" | "second-charge-point" | "generation-without-letter" => {
            Gatekeeper::NetworkOperator
        }
        "supplier-must-isolate" => Gatekeeper::Supplier,
        _ => return None,
    })
}

/// A sentence for each wish: whether the planned job meets it.
fn wishes(assessment: &Assessment, words: &Words<'_>) -> Vec<String> {
    // Without a band nothing is planned yet, so nothing is promised.
    let wishes = assessment.wishes.iter().filter(|_| assessment.band.is_some());
    let sentence = |wished: &Wished| {
        let way = if wished.met { "-met" } else { "-not" };
        words.find(&["wish-", wished.wish.word(), way].concat()).map(ToOwned::to_owned)
    };
    wishes.filter_map(sentence).collect()
}

/// The questions offered for answering next. Without a price (`priced`) no sum is named, and only those that settle something are offered.
fn open(assessment: &Assessment, priced: bool, worth_asking: Pence) -> Vec<OpenView> {
    // Outside the area, or with parking on the street only, no answer about the home would change that.
    if matches!(assessment.no_band, Some(NoBand::OutsideArea | NoBand::StreetOnly)) {
        return Vec::new();
    }
    let sum = |open: &Open| Some(about(open.narrows_by)).filter(|sum| priced && *sum >= worth_asking);
    let offered = assessment.open.iter().filter(|open| open.settles || sum(open).is_some());
    let mut rows: Vec<OpenView> =
        offered.map(|open| OpenView { question: open.question.clone(), by: sum(open) }).collect();
    // Questions that settle something come first, but the last place is kept for the one that narrows the price most.
    if let Some(best) = rows.iter().position(|row| row.by.is_some()).filter(|best| *best >= MOST_OPEN) {
        rows.swap(best, MOST_OPEN - 1);
    }
    rows.truncate(MOST_OPEN);
    rows
}

fn price_words<'a>(language: Option<&'a Language<'_>>, config: &'a Config) -> Words<'a> {
    Words::with_changes(engine_words::EN, &config.wording).spoken(language.map(Language::engine))
}

fn awaited(gate: &Gate) -> Awaited {
    match (gate.counts, gate.on_paper) {
        (true, _) => Awaited::Counts,
        (false, true) => Awaited::OnPaper,
        (false, false) => Awaited::Possible,
    }
}

/// How long the gatekeeper usually takes, in words: the config's own where it has one, else the wording's.
fn wait(gate: &Gate, words: &Words<'_>) -> String {
    wait_key(gate).map_or(&*gate.wait, |key| words.say(key)).to_owned()
}

/// A placeholder for a figure in a sentence: the form writes it in the way of its language.
fn figure(kind: &str, value: &str) -> String {
    [kind, value, "}"].concat()
}

fn money(sum: Pence) -> String {
    figure(MONEY, &sum.0.to_string())
}

/// The causes that change the price most, dearer or cheaper, the largest first.
fn dearer(assessment: &Assessment, words: &Words<'_>) -> Vec<CauseView> {
    let mut causes: Vec<&Dearer> = assessment.estimate.iter().flat_map(|estimate| &estimate.dearer).collect();
    causes.sort_by_key(|cause| core::cmp::Reverse(cause.by.0.saturating_abs()));
    let told = causes
        .into_iter()
        .map(|cause| (cause, about(Pence(cause.by.0.saturating_abs()))))
        .filter(|(_, size)| *size >= LEAST);
    told.take(MOST_CAUSES)
        .map(|(cause, size)| CauseView {
            by: if cause.by < Pence(0) { -size } else { size },
            text: words.find(&["cause-", cause.cause.word()].concat()).unwrap_or_default().to_owned(),
        })
        .collect()
}

/// What the homeowner's driving takes and costs, by their own mileage and tariff. Rounded to whole miles and kilowatt-hours, half hours and
/// ten pounds, because it rests on usual figures.
fn driving(assessment: &Assessment, words: &Words<'_>) -> Vec<String> {
    let Some(driving) = assessment.figures.driving.as_ref().filter(|_| assessment.band.is_some()) else {
        return Vec::new();
    };
    let hours = libm::ceil(driving.hours_needed.get() * 2.0) / 2.0;
    let number = |number: f64| figure(NUMBER, &number.to_string());
    let lasts = if driving.is_enough { engine_words::DRIVING_ENOUGH } else { engine_words::DRIVING_SHORT };
    let mut lines = alloc::vec![words.fill(
        lasts,
        &[
            ("miles", &number(libm::round(driving.miles_a_day.get()))),
            ("energy", &number(libm::round(driving.energy_a_night.get()))),
            ("hours", &number(hours)),
        ],
    )];
    let costs = [
        (engine_words::DRIVING_NIGHT, driving.a_year_at_night),
        (engine_words::DRIVING_DAY, driving.a_year_by_day),
        (engine_words::DRIVING_PUBLIC, driving.a_year_in_public),
    ];
    for (key, cost) in costs {
        if let Some(cost) = cost {
            lines.push(words.fill(key, &[("amount", &money(about(cost)))]));
        }
    }
    lines
}

/// A what-if in words: how much dearer or cheaper it would be, and who would have to answer first, or no longer would.
fn shown_future(future: &WhatIf, now: &Assessment, words: &Words<'_>) -> WhatIfView {
    let say = |key: &str| words.find(key).unwrap_or_default();
    let who = |who: Gatekeeper| say(&["who-", who.word()].concat());
    let mut changes: Vec<String> = Vec::new();
    if let (Some(now), Some(then)) = (now.band, future.band) {
        let off = then.likely - now.likely;
        let size = about(Pence(off.0.saturating_abs()));
        changes.push(if size < LEAST {
            say("future-as-dear").to_owned()
        } else {
            let key = if off > Pence(0) { "future-dearer" } else { "future-cheaper" };
            say(key).replace("{amount}", &money(size))
        });
    }
    changes.extend(future.waits_for.iter().map(|gate| say("future-waits").replace("{who}", who(gate.who))));
    changes.extend(future.may_wait_for.iter().map(|gate| say("future-may-wait").replace("{who}", who(gate.who))));
    changes
        .extend(future.waits_no_more_for.iter().map(|no_more| say("future-waits-not").replace("{who}", who(*no_more))));
    if future.choice == Choice::BiggerSupply {
        changes.push(say("future-not-counted").to_owned());
    }
    WhatIfView {
        band: future.band.map(|band| [band.low, band.high]),
        text: say(&["choice-", future.choice.word()].concat()).to_owned(),
        changes: changes.join(" "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::assessment::{Gate, assess};
    use model::answers::Answers;
    use model::config::demo_config;
    use model::units::Probability;

    fn made(change: impl FnOnce(&mut Assessment)) -> ViewModel {
        let mut assessment = assess(&Answers::default(), &demo_config());
        change(&mut assessment);
        ViewModel::of(&assessment, &demo_config())
    }

    fn banded(assessment: &mut Assessment) {
        assessment.complexity = Complexity::MoreInvolved;
        assessment.no_band = None;
        assessment.band = Some(Band {
            low: Pence(90_000),
            likely: Pence(101_499),
            high: Pence(125_000),
            vat: Pence(16_917),
            charge_point: Pence(62_000),
            plainest: Pence(88_500),
            before_vat: None,
        });
    }

    /// Hardly more answers than a price needs.
    fn hardly_known() -> Answers {
        let json = r#"{"hazard":{"signs":[]},"home":{"kind":"semi-detached","tenure":"own"},"parking":{"place":"drive"},
            "route":{"length":"not-sure"}}"#;
        serde_json::from_str(json).unwrap()
    }

    #[test]
    fn what_was_written_is_read_back_as_it_was() {
        let shown = made(|assessment| {
            banded(assessment);
            assessment.reasons = alloc::vec![Reason::Digging, Reason::NewEnclosure];
            assessment.grants = alloc::vec![MayApply {
                name: "a grant of several words".into(),
                who: model::config::GrantFor::FlatOrRented,
                most: Pence(50_000),
                likely_after: Some(Pence(51_499)),
                read: jiff::civil::date(2026, 11, 26),
                source: "for the installer alone".into(),
            }];
        });
        assert_eq!(shown.grants[0].read, "2026-11-26");
        assert!(!shown.write().contains("installer alone"));
        assert!(!shown.flags.is_empty() && !shown.open.is_empty() && !shown.gates.is_empty());
        assert_eq!(ViewModel::read(&shown.write()), Some(shown));
        let shown = made(|assessment| (assessment.band, assessment.no_band) = (None, Some(NoBand::LookFirst)));
        assert_eq!(ViewModel::read(&shown.write()), Some(shown));
    }

    #[test]
    fn a_line_of_a_newer_engine_is_left_out_and_rubbish_is_nothing() {
        let shown = made(banded);
        let newer = shown.write().replacen('[', "[[\"new thing\",\"1 2\"],[\"reason\",\"unheard-of\"],", 1);
        assert_eq!(ViewModel::read(&newer), Some(shown));
        for rubbish in ["", "null", "[]", "{}", "[[\"complexity\",\"easy\"]]"] {
            assert_eq!(ViewModel::read(rubbish), None);
        }
    }

    #[test]
    fn a_line_that_nothing_is_written_as_is_left_out() {
        let shown = made(|_| {});
        for line in [
            r#"["cause","dear Digging"]"#,
            r#"["future ","With the cable along the wall"]"#,
            r#"["gate nobody","counts weeks"]"#,
            r#"["gate neighbour","surely weeks"]"#,
            r#"["grant much","2026-11-26 a grant"]"#,
            r#"["flag looped-supply","dire A sentence."]"#,
            r#"["band","1 2 3"]"#,
        ] {
            let more = shown.write().replacen('[', &["[", line, ","].concat(), 1);
            assert_eq!(ViewModel::read(&more).as_ref(), Some(&shown), "{line}");
        }
    }

    #[test]
    fn sums_are_rounded_and_small_ones_are_not_named() {
        let shown = made(|assessment| {
            banded(assessment);
            let open =
                |question: &str, pence, settles| Open { question: question.into(), narrows_by: Pence(pence), settles };
            assessment.open = alloc::vec![
                open("spare-ways", 1_000, false),
                open("age", 1_000, true),
                open("tenure", 4_400, false),
                open("kind", 2_000, false),
                open("postcode", 9_000, true),
            ];
        });
        assert_eq!(shown.band.map(|band| (band.likely, band.plainest)), Some((Pence(101_000), Pence(89_000))));
        let open: Vec<_> = shown.open.iter().map(|open| (open.question.as_str(), open.by)).collect();
        assert_eq!(open, [("age", None), ("tenure", Some(Pence(4_000))), ("kind", Some(Pence(2_000)))]);
    }

    #[test]
    fn what_narrows_the_price_most_has_a_place_beside_what_settles_something() {
        let shown = made(|assessment| {
            banded(assessment);
            let settles = |question: &str| Open { question: question.into(), narrows_by: Pence(0), settles: true };
            let narrows =
                |question: &str, pence| Open { narrows_by: Pence(pence), settles: false, ..settles(question) };
            assessment.open = ["fuse-carriers", "street-cables", "tenure", "parking"].map(settles).into();
            assessment.open.extend([narrows("route-mostly", 9_600), narrows("route-length", 5_500)]);
        });
        let open: Vec<_> = shown.open.iter().map(|open| (open.question.as_str(), open.by)).collect();
        assert_eq!(open, [("fuse-carriers", None), ("street-cables", None), ("route-mostly", Some(Pence(10_000)))]);
    }

    #[test]
    fn the_installer_says_what_an_answer_must_be_worth() {
        let mut config = demo_config();
        let mut assessment = assess(&Answers::default(), &config);
        banded(&mut assessment);
        assessment.open = alloc::vec![Open { question: "kind".into(), narrows_by: Pence(4_000), settles: false }];
        assert_eq!(ViewModel::of(&assessment, &config).open.len(), 1);
        config.thresholds.worth_asking = Pence(5_000);
        assert_eq!(ViewModel::of(&assessment, &config).open, []);
    }

    #[test]
    fn other_choices_and_causes_travel_in_words() {
        let json = r#"{"hazard":{"signs":[]},"home":{"kind":"detached","tenure":"own"},"parking":{"place":"drive"},
            "meter":{"fuse_carriers":1,"head_conductors":2,"street_cables":1},
            "route":{"length":{"value":15,"unit":"metres"},"mostly":"paving"}}"#;
        let (answers, config) = (serde_json::from_str(json).unwrap(), demo_config());
        let now = assess(&answers, &config);
        let shown =
            ViewModel::of(&now, &config).beside(&now, &engine::assessment::what_ifs(&answers, &config, &now), &config);
        assert_eq!(ViewModel::read(&shown.write()).as_ref(), Some(&shown));
        assert_eq!(shown.dearer[0].text, "Digging");
        let wall = shown.futures.iter().find(|future| future.text == "With the cable along the wall").unwrap();
        assert!(wall.band.is_some() && wall.changes.contains(" less."), "{wall:?}");
        assert!(shown.curve.starts_with('M') && shown.curve.ends_with('z'));
    }

    #[test]
    fn a_bigger_supply_says_what_is_not_counted() {
        let now = assess(&hardly_known(), &demo_config());
        let future = |choice| WhatIf {
            choice,
            band: now.band,
            complexity: now.complexity,
            labour: now.labour,
            waits_for: Vec::new(),
            may_wait_for: Vec::new(),
            waits_no_more_for: alloc::vec![Gatekeeper::Neighbour],
            flags_more: Vec::new(),
            flags_less: Vec::new(),
        };
        let futures = [future(Choice::BiggerSupply), future(Choice::Socket)];
        let shown = ViewModel::of(&now, &demo_config()).beside(&now, &futures, &demo_config());
        let wait = "About as dear. Then a neighbour would usually not have to answer first.";
        assert_eq!(shown.futures[1].changes, wait);
        assert_eq!(shown.futures[0].changes, [wait, " What the network operator may charge is not in it."].concat());
    }

    #[test]
    fn what_driving_costs_is_told_by_their_own_figures() {
        let json = r#"{"hazard":{"signs":[]},"home":{"kind":"detached","tenure":"own"},
            "parking":{"place":"drive","miles_a_day":20},
            "cost":{"night":9,"public":70},
            "meter":{"fuse_carriers":1,"head_conductors":2,"street_cables":1}}"#;
        let (answers, config) = (serde_json::from_str(json).unwrap(), demo_config());
        let shown = ViewModel::of(&assess(&answers, &config), &config);
        assert_eq!(shown.driving.len(), 3, "{:?}", shown.driving);
        assert!(shown.driving[0].starts_with("{#20} miles a day take about {#"), "{:?}", shown.driving);
        assert!(shown.driving[1].starts_with("A year of it costs about {£"), "{:?}", shown.driving);
        assert_eq!(ViewModel::read(&shown.write()).map(|read| read.driving), Some(shown.driving));
    }

    #[test]
    fn what_is_shown_comes_in_the_language_that_is_asked_for() {
        let json = r#"{"hazard":{"signs":[]},"home":{"kind":"detached","tenure":"rent"},
            "parking":{"place":"drive","miles_a_day":1},
            "meter":{"fuse_carriers":1,"head_conductors":2,"street_cables":1},
            "route":{"length":{"value":15,"unit":"metres"},"mostly":"paving"}}"#;
        let (answers, mut config) = (serde_json::from_str(json).unwrap(), demo_config());
        config.wording.insert("cause-digging".into(), "Spadework".into());
        config.wording.insert("pl.cause-route".into(), "Droga".into());
        let now = assess(&answers, &config);
        let futures = engine::assessment::what_ifs(&answers, &config, &now);
        let text = Language::write("pl", false).unwrap();
        let polish = Language::of_engine(Language::of_form(&text).unwrap().for_engine).unwrap();
        let shown = ViewModel::said_in(Some(&polish), &now, &config).beside_in(Some(&polish), &now, &futures, &config);
        let english = ViewModel::of(&now, &config).beside(&now, &futures, &config);
        let texts = |shown: &ViewModel| -> Vec<String> {
            let flags = shown.flags.iter().chain(&shown.less).map(|flag| &flag.text);
            let futures = shown.futures.iter().flat_map(|future| [&future.text, &future.changes]);
            let causes = shown.dearer.iter().map(|cause| &cause.text);
            let waits = shown.gates.iter().map(|gate| &gate.wait);
            let others = shown.driving.iter().chain(&shown.settle).chain(&shown.wishes);
            flags.chain(futures).chain(causes).chain(waits).chain(others).cloned().collect()
        };
        let (said, before) = (texts(&shown), texts(&english));
        assert!(said.len() > 12 && said.len() == before.len());
        for (polish, english) in said.iter().zip(&before) {
            assert_ne!(polish, english);
        }
        assert!(before.iter().any(|text| text == "Spadework") && !said.iter().any(|text| text == "Spadework"));
        assert_eq!(ViewModel::read(&shown.write()), Some(shown));
    }

    #[test]
    fn every_cause_choice_and_gatekeeper_has_words() {
        use engine::assessment::Wish;
        use engine::price::Cause;
        let groups = [("cause-", Cause::WORDS), ("choice-", Choice::WORDS), ("who-", Gatekeeper::WORDS)];
        for (wish, way) in Wish::WORDS.iter().flat_map(|wish| [(wish, "-met"), (wish, "-not")]) {
            assert!(engine_words::EN.find(&["wish-", wish, way].concat()).is_some(), "wish-{wish}{way}");
        }
        for (group, word) in groups.iter().flat_map(|(group, words)| words.iter().map(move |word| (group, word))) {
            assert!(engine_words::EN.find(&[*group, *word].concat()).is_some(), "{group}{word}");
        }
    }

    #[test]
    fn without_a_price_no_sum_and_beside_the_matter_nothing_is_asked() {
        let without = |why| {
            made(|assessment| {
                (assessment.band, assessment.no_band) = (None, Some(why));
                assessment.reasons = alloc::vec![Reason::Digging];
                assessment.open = alloc::vec![
                    Open { question: "tenure".into(), narrows_by: Pence(90_000), settles: true },
                    Open { question: "age".into(), narrows_by: Pence(90_000), settles: false },
                ];
            })
        };
        let first = without(NoBand::LookFirst);
        assert_eq!(first.open, [OpenView { question: "tenure".into(), by: None }]);
        assert_eq!(first.reasons, [Reason::Digging]);
        assert_eq!(without(NoBand::StreetOnly).open, []);
        let outside = without(NoBand::OutsideArea);
        assert!(outside.open.is_empty() && outside.reasons.is_empty());
    }

    #[test]
    fn a_class_says_on_what_it_holds_and_each_condition_once() {
        let conditions = |complexity, codes: &[&str], counts: &[Gatekeeper]| {
            let shown = made(|assessment| {
                assessment.complexity = complexity;
                assessment.settle = codes.iter().map(|code| (*code).into()).collect();
                for gate in &mut assessment.gates {
                    gate.counts = counts.contains(&gate.who);
                }
            });
            assert_eq!(ViewModel::read(&shown.write()).map(|read| read.settle).as_ref(), Some(&shown.settle));
            shown.settle
        };
        let both = ["demand-over-limit", "supply-not-counted", "split-phase"];
        assert_eq!(
            conditions(Complexity::Straightforward, &both, &[]),
            ["the network operator agrees", "your supply turns out to be of the usual kind"]
        );
        assert_eq!(
            conditions(Complexity::DependsOnOthers, &both, &[Gatekeeper::NetworkOperator]),
            ["your supply turns out to be of the usual kind"],
            "an answer that is waited for is shown among the gates"
        );
        assert!(conditions(Complexity::LookFirst, &both, &[]).is_empty());
    }

    #[test]
    fn that_others_come_first_is_said_once() {
        let reasons = |complexity| {
            let all = alloc::vec![Reason::SomebodyElseFirst, Reason::Digging];
            made(|assessment| (assessment.complexity, assessment.reasons) = (complexity, all)).reasons
        };
        assert_eq!(reasons(Complexity::DependsOnOthers), [Reason::Digging]);
        assert_eq!(reasons(Complexity::LookFirst), [Reason::SomebodyElseFirst, Reason::Digging]);
    }

    #[test]
    fn an_installer_may_reword_a_flag_and_one_without_words_is_not_told() {
        let mut config = demo_config();
        config.wording.insert("flag-looped-supply".into(), "Ask {installer} of it.".into());
        let mut assessment = assess(&Answers::default(), &config);
        let raised = |code: &str, weight| Raised {
            code: code.into(),
            weight,
            probability: Probability::CERTAIN,
            evidence: Vec::new(),
            source: String::new(),
            usual: false,
        };
        assessment.flags = alloc::vec![
            raised("looped-supply", Weight::SettleBeforeBooking),
            raised("of-another-engine", Weight::Stop),
            raised("high-work", Weight::WorthKnowing),
        ];
        let ViewModel { flags, less, .. } = ViewModel::of(&assessment, &config);
        let codes = |flags: &[FlagView]| flags.iter().map(|flag| flag.code.clone()).collect::<Vec<_>>();
        assert_eq!(
            (codes(&flags), codes(&less)),
            (alloc::vec!["looped-supply".into()], alloc::vec!["high-work".into()])
        );
        assert_eq!(flags[0].text, "Ask {installer} of it.");
        assert_eq!(Some(less[0].text.as_str()), flags_homeowner::EN.find("flag-high-work"));
    }

    #[test]
    fn a_slight_possibility_is_not_told() {
        let gate = |who, probability| Gate {
            who,
            probability: Probability::of(probability),
            counts: false,
            on_paper: false,
            why: alloc::vec!["for the installer alone".into()],
            wait: "two weeks".into(),
            wait_source: String::new(),
        };
        let shown = made(|assessment| {
            assessment.gates = alloc::vec![gate(Gatekeeper::Neighbour, 0.2), gate(Gatekeeper::Planner, 0.03)];
        });
        let neighbour = GateView { who: Gatekeeper::Neighbour, how: Awaited::Possible, wait: "two weeks".into() };
        assert_eq!(shown.gates, [neighbour]);
        assert!(!shown.write().contains("installer alone"));
    }
}
