//! Do the bands hold? Takes recorded jobs and reports how many prices fell inside their band, which items take longer than estimated, what
//! materials cost and which assumptions proved true; if a setup is given, also what to change in it.
//!
//! Everything is compared with the setup's own lines and with the assumptions from before any job was recorded, so that reading the same
//! file twice changes nothing the second time.

use super::interval::{ASSUMED_HOMES, Interval, binomial, counted};
use super::jobs::{Done, Found, Job, WorkThen};
use super::labour::{Factor, Labour, Worked, labour, materials};
use engine::assess;
use model::answers::Answers;
use model::config::{Item, Setup, ThreeMinutes};
use model::units::{Minutes, Pence, Probability, Ratio};
use serde::Serialize;
use std::collections::BTreeMap;

/// The share of jobs that a band is meant to hold: this program's choice.
pub const MEANT: f64 = 0.8;
/// The confidence of the interval about the share that it held: this program's choice.
const CONFIDENCE: f64 = 0.95;

/// How many jobs cost what their band said.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Coverage {
    /// Jobs with a band and a price.
    pub jobs: u32,
    /// Jobs whose price was inside the band, both ends included.
    pub inside: u32,
    /// Jobs that were cheaper than the band.
    pub below: u32,
    /// Jobs that were dearer than the band.
    pub above: u32,
    /// The interval that holds the true share inside with 95 % (Clopper and Pearson).
    pub interval: Interval,
    /// How far prices were from the likeliest figure, on average, as a share of it; positive where they were dearer.
    pub off: f64,
}

impl Coverage {
    /// What this count says of a band that is meant to hold 80 %.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        if self.interval.high < MEANT {
            Verdict::TooNarrow
        } else if self.interval.low > MEANT {
            Verdict::TooWide
        } else {
            Verdict::Holds
        }
    }
}

/// Whether bands hold the share of jobs that they are meant to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// The counts are compatible with it.
    Holds,
    /// Too few prices fell inside.
    TooNarrow,
    /// Too many did.
    TooWide,
}

/// An assumption, and how often it proved true.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Turned {
    /// The path of the assumption in the setup.
    pub assumption: String,
    /// In how many homes it proved true.
    pub hits: u32,
    /// In how many homes it was recorded.
    pub homes: u32,
    /// The probability before any job was recorded; it weighs as much as twenty homes.
    pub before: Probability,
    /// The probability after these homes.
    pub after: Probability,
    /// The interval that holds the true share with 80 %.
    pub interval: Interval,
}

/// What recorded jobs say.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Calibrated {
    /// How many jobs were read.
    pub jobs: usize,
    /// How the bands that were shown compare with what was invoiced.
    pub coverage: Option<Coverage>,
    /// The same with the setup as proposed. It was fitted to these very jobs, so this figure flatters it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coverage_proposed: Option<Coverage>,
    /// Labour compared with the setup's lines, or without a setup with the assessment of that time.
    pub labour: Option<Labour>,
    /// The cost of materials compared with the setup's; only with a setup.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub materials: Option<Factor>,
    /// The number of jobs behind `materials`.
    pub materials_jobs: u32,
    /// Assumptions and how often they proved true; only with a setup.
    pub turned: Vec<Turned>,
    /// Items that were done but stood on no bill, and how often.
    pub not_foreseen: BTreeMap<Item, u32>,
    /// What could not be counted, and why.
    pub left_out: Vec<String>,
}

/// Compares recorded jobs with what was estimated for them, and with a setup works out what to change in it.
#[must_use]
pub fn calibrate(jobs: &[Job], setup: Option<&Setup>) -> Calibrated {
    let mut left_out = Vec::new();
    let plain = setup.map(Setup::uncalibrated);
    let mut worked = Vec::new();
    let mut spent = Vec::new();
    let mut not_foreseen: BTreeMap<Item, u32> = BTreeMap::new();
    let mut then: BTreeMap<Item, ThreeMinutes> = BTreeMap::new();
    for (at, job) in jobs.iter().enumerate() {
        let mut leave = |why: &str| left_out.push(format!("{}: {why}", name(job, at)));
        let foreseen = foreseen(job, setup);
        for line in foreseen.iter().filter(|line| line.quantity > Ratio::ZERO) {
            then.entry(line.item).or_insert_with(|| of_one(line));
        }
        let done = done(job, &foreseen);
        if done.is_empty() {
            leave("nothing says what was done: no `done`, no bill, no answers beside a setup");
        } else if let Some(hours) = job.hours {
            let whole = hours.get() + job.second_hours.map_or(0.0, model::units::Hours::get);
            let whole = Minutes::new(whole * 60.0).unwrap_or(Minutes::ZERO);
            worked.push(Worked { done: done.clone(), whole });
        } else {
            leave("no hours: it says nothing of labour");
        }
        if let (Some(materials), Some(plain)) = (job.materials, &plain) {
            spent.push((materials.as_f64(), reckoned_materials(&done, plain)));
        }
        if !foreseen.is_empty() {
            for extra in job.done.iter().filter(|done| foreseen.iter().all(|line| line.item != done.item)) {
                *not_foreseen.entry(extra.item).or_default() += 1;
            }
        }
        if job.paid.is_none() {
            leave("no price: it says nothing of the band");
        } else if job.assessed.as_ref().is_none_or(|then| then.band.is_none()) {
            leave("no band was shown: it says nothing of it");
        }
        if job.answers.is_none() && !job.surprises.is_empty() {
            leave("no answers: what turned out can't be held against what was assumed");
        }
    }
    let unit = |item: Item| match &plain {
        Some(plain) => plain.line(item).map(|line| line.minutes),
        None => then.get(&item).copied(),
    };
    let labour = labour(&worked, &unit);
    let found = materials(&spent);
    let bands = jobs.iter().filter_map(|job| {
        let band = job.assessed.as_ref()?.band?;
        Some(([band.low, band.likely, band.high], job.paid?))
    });
    let mut made = Calibrated {
        jobs: jobs.len(),
        coverage: coverage(bands),
        coverage_proposed: None,
        labour,
        materials: found,
        materials_jobs: u32::try_from(spent.iter().filter(|(_, reckoned)| *reckoned > 0.0).count()).unwrap_or(u32::MAX),
        turned: setup.map_or_else(Vec::new, |setup| turned(jobs, setup)),
        not_foreseen,
        left_out,
    };
    if let Some(setup) = setup {
        let proposed = made.proposed(setup).publish();
        let again = jobs.iter().filter_map(|job| {
            let band = assess(job.answers.as_ref()?, &proposed).band?;
            Some(([band.low, band.likely, band.high], job.paid?))
        });
        made.coverage_proposed = coverage(again);
    }
    made
}

/// The name of a job in a remark.
fn name(job: &Job, at: usize) -> String {
    job.reference
        .as_ref()
        .map_or_else(|| format!("job {}", at + 1), |reference| format!("job {} ({reference})", at + 1))
}

/// The work that was foreseen: the recorded bill, or else a new one made from the answers.
fn foreseen(job: &Job, setup: Option<&Setup>) -> Vec<WorkThen> {
    match (&job.assessed, &job.answers, setup) {
        (Some(then), ..) if !then.work.is_empty() => then.work.clone(),
        (_, Some(answers), Some(setup)) => bill(answers, setup),
        _ => Vec::new(),
    }
}

fn bill(answers: &Answers, setup: &Setup) -> Vec<WorkThen> {
    let lines = assess(answers, &setup.publish()).work.into_iter();
    lines
        .map(|line| WorkThen {
            item: line.item,
            probability: line.probability,
            quantity: line.quantity,
            minutes: line.minutes,
        })
        .collect()
}

/// The work that was done: as recorded, or else all that was more likely than not.
pub(super) fn done(job: &Job, foreseen: &[WorkThen]) -> Vec<Done> {
    if !job.done.is_empty() {
        return job.done.clone();
    }
    // Arithmetic: likelier than not.
    let likely = foreseen.iter().filter(|line| line.probability >= Probability::of(0.5));
    likely.map(|line| Done { item: line.item, quantity: line.quantity, minutes: None }).collect()
}

/// The labour foreseen for one unit of a line's item.
fn of_one(line: &WorkThen) -> ThreeMinutes {
    let one = |minutes: Minutes| Minutes::new(minutes.get() / line.quantity.get()).unwrap_or(Minutes::ZERO);
    ThreeMinutes { low: one(line.minutes.low), likely: one(line.minutes.likely), high: one(line.minutes.high) }
}

/// The expected cost of materials in pence, before mark-up: the mean of each line as a PERT distribution.
pub(super) fn reckoned_materials(done: &[Done], setup: &Setup) -> f64 {
    let of = |done: &Done| {
        let cost = setup.line(done.item)?.cost;
        // Arithmetic: the mean of a PERT distribution.
        Some((cost.low.as_f64() + 4.0 * cost.likely.as_f64() + cost.high.as_f64()) / 6.0 * done.quantity.get())
    };
    done.iter().filter_map(of).sum()
}

fn coverage(jobs: impl Iterator<Item = ([Pence; 3], Pence)>) -> Option<Coverage> {
    let (mut count, mut below, mut above, mut off) = (0_u32, 0_u32, 0_u32, 0.0);
    for ([low, likely, high], paid) in jobs {
        count += 1;
        below += u32::from(paid < low);
        above += u32::from(paid > high);
        off += (paid - likely).as_f64() / likely.as_f64().max(1.0);
    }
    let inside = count - below - above;
    let interval = binomial(inside, count, CONFIDENCE);
    (count > 0).then(|| Coverage { jobs: count, inside, below, above, interval, off: off / f64::from(count) })
}

/// Counts, by assumption, how often it proved true in the recorded homes.
fn turned(jobs: &[Job], setup: &Setup) -> Vec<Turned> {
    let mut counts: BTreeMap<String, (u32, u32)> = BTreeMap::new();
    for job in jobs {
        let Some(answers) = &job.answers else { continue };
        for surprise in &job.surprises {
            let Some(place) = Found::assumed(surprise.fact, answers) else { continue };
            let count = counts.entry(["/", &place.join("/")].concat()).or_default();
            count.0 += u32::from(surprise.was);
            count.1 += 1;
        }
    }
    let written = setup.whole();
    let now = |path: &str| written.pointer(path).and_then(serde_json::Value::as_f64);
    counts
        .into_iter()
        .filter_map(|(path, (hits, homes))| {
            let first = setup.calibration.assumed.get(&path).copied();
            let before = first.or_else(|| now(&path).and_then(|share| Probability::new(share).ok()))?;
            let (after, interval) = counted(before, hits, homes);
            let after = Probability::new((after.get() * 1_000.0).round() / 1_000.0).unwrap_or(after);
            Some(Turned { assumption: path, hits, homes, before, after, interval })
        })
        .collect()
}

impl Calibrated {
    /// The number of jobs that support the sentence "about eight in ten" about the bands that were shown: all of them if the share inside
    /// is nearest to eight tenths and the bands hold, else zero.
    fn held(&self) -> u32 {
        let is_so = |held: &Coverage| {
            let share = f64::from(held.inside) / f64::from(held.jobs);
            // Arithmetic: the nearest tenth.
            held.verdict() == Verdict::Holds && (share * 10.0).round() == (MEANT * 10.0).round()
        };
        self.coverage.as_ref().filter(|coverage| is_so(coverage)).map_or(0, |coverage| coverage.jobs)
    }

    /// The setup changed as the jobs suggest: factors of labour and of materials, and the assumptions.
    #[must_use]
    pub fn proposed(&self, setup: &Setup) -> Setup {
        let mut next = setup.clone();
        next.calibration.held = self.held();
        if let Some(labour) = &self.labour {
            next.calibration.labour = labour.whole.factor;
            next.calibration.jobs = labour.jobs;
            next.calibration.items = labour.items.iter().map(|(item, factor)| (*item, factor.own)).collect();
        }
        if let Some(materials) = &self.materials {
            next.calibration.materials = materials.factor;
        }
        for turned in &self.turned {
            next.calibration.assumed.insert(turned.assumption.clone(), turned.before);
        }
        let mut written = next.whole();
        for turned in &self.turned {
            if let Some(place) = written.pointer_mut(&turned.assumption) {
                *place = turned.after.get().into();
            }
        }
        serde_json::from_value(written).unwrap_or(next)
    }

    /// The report as text for people.
    #[must_use]
    pub fn told(&self) -> String {
        let mut lines = vec![format!("{} jobs read.", self.jobs)];
        match &self.coverage {
            Some(coverage) => lines.push(told_coverage("Bands shown", coverage)),
            None => lines.push("No job has both a band and a price, so nothing is said of the bands.".into()),
        }
        if let Some(coverage) = &self.coverage_proposed {
            lines.push(told_coverage(
                "The same homes with what is proposed (these very jobs made it, so it flatters)",
                coverage,
            ));
        }
        if let Some(labour) = &self.labour {
            lines.push(format!(
                "All labour: {} of what was reckoned, by {} jobs.",
                told_factor(&labour.whole),
                labour.jobs
            ));
            for (item, factor) in &labour.items {
                lines.push(format!("  {}: {}, in {} jobs", item.word(), told_factor(&factor.all), factor.jobs));
            }
        }
        if let Some(materials) = &self.materials {
            lines.push(format!(
                "Materials: {} of what was reckoned, by {} jobs.",
                told_factor(materials),
                self.materials_jobs
            ));
        }
        for turned in &self.turned {
            lines.push(format!(
                "{}: so in {} of {} homes; {} before (as {ASSUMED_HOMES} homes), {} after, 80 % from {:.2} to {:.2}",
                turned.assumption,
                turned.hits,
                turned.homes,
                turned.before.get(),
                turned.after.get(),
                turned.interval.low,
                turned.interval.high
            ));
        }
        for (item, jobs) in &self.not_foreseen {
            lines.push(format!("Not foreseen: {} in {jobs} jobs", item.word()));
        }
        lines.extend(self.left_out.iter().map(|why| format!("Left out: {why}")));
        lines.join("\n")
    }
}

fn told_factor(factor: &Factor) -> String {
    format!("{:.2} times (80 % from {:.2} to {:.2})", factor.factor.get(), factor.low, factor.high)
}

fn told_coverage(what: &str, coverage: &Coverage) -> String {
    let verdict = match coverage.verdict() {
        Verdict::Holds => "nothing here speaks against eight in ten",
        Verdict::TooNarrow => "too few for eight in ten",
        Verdict::TooWide => "more than eight in ten: they are wider than need be",
    };
    let percent = |share: f64| (share * 100.0).round();
    format!(
        "{what}: {} of {} jobs fell inside ({} %; with 95 % between {} and {} %), {} below, {} above: {verdict}. On average {:+} % off the likeliest.",
        coverage.inside,
        coverage.jobs,
        percent(f64::from(coverage.inside) / f64::from(coverage.jobs)),
        percent(coverage.interval.low),
        percent(coverage.interval.high),
        coverage.below,
        coverage.above,
        percent(coverage.off),
    )
}
