//! A setup in twenty minutes: from ten figures as `KEY=VALUE`, from remembered jobs, or from both. The result is a whole setup; its other
//! figures are defaults, and the report names them. Its rates are never confirmed: only the installer can do that.

use super::calibrate::{done, reckoned_materials};
use super::jobs::{Done, Job, WorkThen};
use super::labour::{Worked, whole_labour};
use super::regression::{Observation, fit};
use super::report::{Became, Report};
use super::written::{self, Bare, MONEY, SHARES, TIMES};
use engine::assess;
use jiff::civil::Date;
use model::answers::Word;
use model::config::{
    Brand, Calibration, INVENTED_DEFAULT, Installer, OwnPoint, PriceShown, PricesShown, Priors, Setup, SetupRates,
    Thresholds, Vat, default_lines,
};
use model::units::{Amps, Metres, Minutes, Pence, Ratio};
use std::collections::BTreeMap;

/// A key, its meaning, and its default.
pub struct Key {
    /// The name before the equals sign.
    pub name: &'static str,
    /// What it means, and how its value may be written.
    pub says: &'static str,
    /// The value if it is left out; empty if it is required.
    pub default: &'static str,
}

/// The keys beside those of charge points. Every default of a rate is invented.
pub const KEYS: &[Key] = &[
    Key { name: "name", says: "the firm's name, as visitors see it", default: "" },
    Key { name: "telephone", says: "its telephone number, as printed", default: "" },
    Key { name: "hour", says: "an hour of one person, as charged, before VAT", default: "£45" },
    Key { name: "second", says: "an hour of a second person, where one is needed", default: "£30" },
    Key { name: "mark-up", says: "added to the cost of materials and charge points, as a share", default: "20 %" },
    Key { name: "call-out", says: "for coming out at all", default: "£40" },
    Key { name: "least", says: "the least that is charged for a job", default: "£250" },
    Key { name: "day", says: "a person's working day", default: "8 h" },
    Key { name: "vat", says: "registered, or not", default: "registered" },
];

/// Keys for things other than figures. Where one is left out its `default` applies, and nothing is reported as supposed.
pub const MORE_KEYS: &[Key] = &[
    Key {
        name: "legal",
        says: "the name in law of whoever answers for what visitors send, such as a company's",
        default: "the firm's name",
    },
    Key { name: "privacy", says: "the https:// address of your own privacy notice", default: "no link" },
    Key { name: "shown", says: SHOWN, default: "band" },
    Key { name: "offers", says: "yes, where the form may ask if you may send offers later", default: "no" },
];

/// The explanation of the key `shown`.
const SHOWN: &str = "what visitors see of the price: band, from (what it costs if all that is unknown turns out well) or none; \
for one class alone with its name before it, such as \"band depends-on-others=from look-first=none\" (straightforward, more-involved, \
depends-on-others, look-first)";

/// How a charge point may be given.
pub const POINTS: &str = "socket=COST or lead-METRES=COST, such as lead-8=£520; after the cost, in words, what it can: \
solar, load-sensing, open-pen, dc, residual, mobile-data, device-40 (the maker's device, in amperes)";

/// The cost of the charge point that is supposed where none is named; invented.
const POINT: Pence = Pence(45_000);

/// Why no setup could be made.
#[derive(Debug, thiserror::Error, PartialEq, Eq)]
pub enum NotEnough {
    /// No key has this name.
    #[error("{given:?} is no key; it may be one of {names}, {POINTS}", names = names())]
    Key {
        /// What was given.
        given: String,
    },
    /// A key that is given twice.
    #[error("{0} stands twice")]
    Twice(String),
    /// A required key is missing.
    #[error("{0} is missing: {1}")]
    Missing(&'static str, &'static str),
    /// A value that is not allowed.
    #[error("{key}: {given:?} is not allowed; it may be {allowed}")]
    Value {
        /// The key.
        key: String,
        /// What was given.
        given: String,
        /// What it may be.
        allowed: &'static str,
    },
}

fn names() -> String {
    KEYS.iter().chain(MORE_KEYS).map(|key| key.name).collect::<Vec<_>>().join(", ")
}

/// A setup made from what was given.
#[derive(Clone, Debug, PartialEq)]
pub struct Begun {
    /// The setup.
    pub setup: Setup,
    /// What was taken, what was supposed, and what was inferred from which jobs.
    pub report: Report,
}

/// Makes a setup of figures and remembered jobs; `day` becomes the day of the setup.
///
/// # Errors
/// [`NotEnough`], naming what is missing or not allowed.
pub fn bootstrap(given: &[(String, String)], jobs: &[Job], day: Date) -> Result<Begun, NotEnough> {
    let mut report = Report::default();
    let (values, mut points) = sorted(given, &mut report)?;
    let mut told = Told { values, report: &mut report };
    let (hour, hour_given) = told.money("hour")?;
    let second = told.money("second")?.0;
    let (call_out, least) = (told.money("call-out")?.0, told.money("least")?.0);
    let (mark_up, mark_up_given) = told.read("mark-up", SHARES, written::share)?;
    let working = told.read("day", TIMES, |text| written::time(text, Bare::Unsaid))?.0;
    let registered = told.read("vat", "registered, or not", is_registered)?.0;
    let (name, telephone) = (told.own("name")?.0, told.own("telephone")?.0);
    let prices_shown = told.said("shown").map_or(Ok(PricesShown::BANDS), shown)?;
    let advertising = told.said("offers").map_or(Ok(false), offers)?;
    let legal_name = told.said("legal").unwrap_or_default().to_owned();
    let privacy = told.said("privacy").map(ToOwned::to_owned);
    told.report_the_rest();
    if points.is_empty() {
        report.say(
            None,
            "charge points",
            Became::Supposed,
            format!("one with a 5 m lead at {POINT}: {INVENTED_DEFAULT}"),
        );
        // Invented: a lead of 5 m.
        points.push(OwnPoint { cost: POINT, ..plain_point("lead-5", Some(Metres::of(5.0))) });
    }
    report.say(None, "price lines", Became::Supposed, format!("all of them: {INVENTED_DEFAULT}"));

    let mut setup = Setup {
        changed: day,
        invented: false,
        rates_confirmed: false,
        installer: Installer { id: short(&name), name, telephone, legal_name, privacy },
        mail_to: None,
        mail: None,
        webhooks: Vec::new(),
        area: Vec::new(),
        charge_points: points,
        rates: SetupRates {
            hour,
            second: Some(second),
            mark_up,
            call_out,
            least,
            step: Pence(1_000), // invented
            day: working,
            vat: Vat { registered, rates: Vec::new() },
        },
        costs: default_lines(),
        grants: None,
        calibration: Calibration::default(),
        thresholds: Thresholds::default(),
        priors: Priors::default(),
        devices: Vec::new(),
        keep_days: 180, // common practice, no source
        draft_days: 30, // common practice, no source
        prices_shown,
        advertising,
        wording: Default::default(),
        branding: Brand::default(),
        public_address: None,
        proxies: None,
        enquiries_a_day: None,
    };
    if !jobs.is_empty() {
        conclude(&mut setup, jobs, hour_given, mark_up_given, &mut report);
    }
    report.say(
        None,
        "rates",
        Became::Supposed,
        "not confirmed: until you set rates_confirmed, no visitor sees a price",
    );
    Ok(Begun { setup, report })
}

/// Values by their keys.
type Values<'a> = BTreeMap<&'a str, &'a str>;

/// Sorts the values by their keys, which may each be given once, from the charge points.
fn sorted<'a>(given: &'a [(String, String)], report: &mut Report) -> Result<(Values<'a>, Vec<OwnPoint>), NotEnough> {
    let (mut values, mut points) = (Values::new(), Vec::new());
    for (key, value) in given {
        if values.insert(key, value).is_some() {
            return Err(NotEnough::Twice(key.clone()));
        }
        if KEYS.iter().chain(MORE_KEYS).any(|known| known.name == key) {
            continue;
        }
        points.push(point(key, value)?);
        report.say(None, key, Became::Taken, format!("a charge point, {value}"));
    }
    Ok((values, points))
}

fn refused(key: &str, given: &str, allowed: &'static str) -> NotEnough {
    NotEnough::Value { key: key.into(), given: given.into(), allowed }
}

/// The given values, and the report of what became of each.
struct Told<'a, 'r> {
    values: Values<'a>,
    report: &'r mut Report,
}

impl<'a> Told<'a, '_> {
    /// A value of [`KEYS`], given or its default, and whether it was given.
    fn own(&mut self, name: &'static str) -> Result<(String, bool), NotEnough> {
        let key = KEYS.iter().find(|key| key.name == name).unwrap_or(&KEYS[0]);
        match self.values.get(name) {
            Some(value) if !value.trim().is_empty() => {
                self.report.say(None, name, Became::Taken, *value);
                Ok(((*value).to_owned(), true))
            }
            _ if key.default.is_empty() => Err(NotEnough::Missing(key.name, key.says)),
            _ => {
                self.report.say(None, name, Became::Supposed, format!("{}: {INVENTED_DEFAULT}", key.default));
                Ok((key.default.to_owned(), false))
            }
        }
    }

    /// A value of [`KEYS`] after parsing, and whether it was given; `allowed` says in a refusal what it may be.
    fn read<T>(
        &mut self,
        name: &'static str,
        allowed: &'static str,
        read: impl Fn(&str) -> Option<T>,
    ) -> Result<(T, bool), NotEnough> {
        let (text, given) = self.own(name)?;
        Ok((read(&text).ok_or_else(|| refused(name, &text, allowed))?, given))
    }

    fn money(&mut self, name: &'static str) -> Result<(Pence, bool), NotEnough> {
        self.read(name, MONEY, written::money)
    }

    /// A value as it was given; `None` if it is missing or empty.
    fn said(&self, key: &str) -> Option<&'a str> {
        self.values.get(key).map(|value| value.trim()).filter(|value| !value.is_empty())
    }

    /// Reports the given values of [`MORE_KEYS`] as taken.
    fn report_the_rest(&mut self) {
        for key in MORE_KEYS {
            if let Some(value) = self.said(key.name) {
                self.report.say(None, key.name, Became::Taken, value);
            }
        }
    }
}

/// Whether the text says that the installer is registered for VAT; `None` if it is not understood.
fn is_registered(text: &str) -> Option<bool> {
    match text.trim() {
        "registered" | "yes" => Some(true),
        "not" | "not registered" | "no" => Some(false),
        _ => None,
    }
}

/// Whether the form may ask the visitor's leave to send offers later.
fn offers(text: &str) -> Result<bool, NotEnough> {
    match text {
        "yes" => Ok(true),
        "no" => Ok(false),
        other => Err(refused("offers", other, "yes, or no")),
    }
}

/// What a visitor sees of the price: one word for all classes, then others for single classes.
fn shown(text: &str) -> Result<PricesShown, NotEnough> {
    let mut shown = PricesShown::BANDS;
    for said in text.split([' ', ',', ';']).filter(|said| !said.is_empty()) {
        let refused = || NotEnough::Value { key: "shown".into(), given: said.into(), allowed: SHOWN };
        let (class, word) = said.split_once('=').unwrap_or(("", said));
        let word = PriceShown::named(word).ok_or_else(refused)?;
        match class {
            "" => shown = PricesShown::all(word),
            "straightforward" => shown.straightforward = word,
            "more-involved" => shown.more_involved = word,
            "depends-on-others" => shown.depends_on_others = word,
            "look-first" => shown.look_first = word,
            _ => return Err(refused()),
        }
    }
    Ok(shown)
}

fn point(key: &str, value: &str) -> Result<OwnPoint, NotEnough> {
    let lead = match key.strip_prefix("lead-") {
        Some(metres) => {
            let metres = metres.parse().ok().and_then(|metres| Metres::new(metres).ok());
            Some(
                metres
                    // This program's choice: a longer one is a slip.
                    .filter(|lead| lead.get() > 0.0 && lead.get() <= 50.0)
                    .ok_or_else(|| NotEnough::Key { given: key.into() })?,
            )
        }
        None if key == "socket" => None,
        None => return Err(NotEnough::Key { given: key.into() }),
    };
    let refused = || NotEnough::Value { key: key.into(), given: value.into(), allowed: POINTS };
    let mut words = value.split_whitespace();
    let cost = words.next().and_then(written::money).ok_or_else(refused)?;
    let mut point = OwnPoint { cost, ..plain_point(key, lead) };
    for word in words {
        match word {
            "solar" => point.follows_solar = true,
            "load-sensing" => point.load_sensing = true,
            "open-pen" => point.open_pen_sensing = true,
            "dc" => point.dc_sensing = true,
            "residual" => point.residual_device = true,
            "mobile-data" => point.mobile_data = true,
            _ => match word.strip_prefix("device-").and_then(|amps| amps.parse().ok()) {
                Some(amps) => point.device = Some(Amps::new(amps).map_err(|_| refused())?),
                None => return Err(refused()),
            },
        }
    }
    Ok(point)
}

/// A charge point that can do nothing but charge at 32 A: no feature is supposed that was not named.
fn plain_point(id: &str, lead: Option<Metres>) -> OwnPoint {
    OwnPoint { id: id.replace('.', "-"), lead, ..OwnPoint::plain() }
}

/// A short name for addresses: lower-case letters, digits and hyphens.
fn short(name: &str) -> String {
    let small = name.to_lowercase();
    let words: Vec<&str> = small.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty()).collect();
    // This program's choice.
    let short: String = words.join("-").chars().take(40).collect();
    if short.is_empty() { "installer".into() } else { short.trim_end_matches('-').to_owned() }
}

/// How far the hourly rate and the mark-up may be from their defaults, before any job is known; and how far an invoice may be from what
/// hours and materials come to. Standard deviations; common practice, no source.
const HOUR: f64 = 2_500.0;
const MARK_UP: f64 = 0.2; // common practice, no source
const INVOICE: f64 = 0.02; // common practice, no source

/// A remembered job's price, taken apart.
struct Priced {
    /// Hours of the first person and of a second one.
    first: f64,
    second: f64,
    /// The cost of what was bought for it, in pence.
    bought: f64,
    paid: Pence,
    /// The price without VAT, in pence.
    net: f64,
}

/// Infers from remembered jobs what was not given: the labour factor, then the hourly rate and the mark-up.
fn conclude(setup: &mut Setup, jobs: &[Job], hour_given: bool, mark_up_given: bool, report: &mut Report) {
    let (worked, priced) = remembered(jobs, setup, report);
    conclude_labour(&worked, setup, report);
    if hour_given && mark_up_given || priced.is_empty() {
        return;
    }
    let rows = rows(&priced, &setup.rates, hour_given, mark_up_given);
    let Some(fitted) = fit(&rows, &[1.0, 1.0]) else { return };
    let rates = &mut setup.rates;
    if !hour_given {
        let made = Pence::rounded((rates.hour.as_f64() + fitted.mean(0) * HOUR).max(0.0));
        rates.hour = made;
        // Arithmetic: the normal distribution at 90 %.
        let sure = Pence::rounded(1.2816 * fitted.deviation(&[1.0, 0.0]) * HOUR);
        report.say(
            None,
            "hour",
            Became::Supposed,
            format!("{made} (80 % within {sure}), by the prices of {} jobs", rows.len()),
        );
    }
    if !mark_up_given {
        let mark_up = (rates.mark_up.get() + fitted.mean(1) * MARK_UP).max(0.0);
        let made = Ratio::new((mark_up * 1_000.0).round() / 1_000.0);
        rates.mark_up = made.unwrap_or(rates.mark_up);
        report.say(
            None,
            "mark-up",
            Became::Supposed,
            format!(
                "{:.1} % (80 % within {:.1} points), by the prices of {} jobs",
                rates.mark_up.get() * 100.0,
                // Arithmetic: the normal distribution at 90 %, in percent.
                128.16 * fitted.deviation(&[0.0, 1.0]) * MARK_UP,
                rows.len()
            ),
        );
    }
}

/// What can be learnt from the jobs about labour and about prices. The report says why a job gives nothing, or nothing but its hours.
fn remembered(jobs: &[Job], setup: &Setup, report: &mut Report) -> (Vec<Worked>, Vec<Priced>) {
    let vat = 1.0 + setup.publish().rates.vat.on(setup.changed).rate.get();
    let (mut worked, mut priced) = (Vec::new(), Vec::new());
    for (at, job) in jobs.iter().enumerate() {
        let about = format!("job {}", at + 1);
        let done = done(job, &foreseen(job, setup));
        let Some(hours) = job.hours.filter(|_| !done.is_empty()) else {
            report.say(
                None,
                &about,
                Became::NotUnderstood,
                "it needs hours, and `done` or answers; nothing was concluded from it",
            );
            continue;
        };
        let (first, second) = (hours.get(), job.second_hours.map_or(0.0, model::units::Hours::get));
        match price_of(job, &done, first, second, vat, setup) {
            Ok(price) => {
                let says = format!("{:.2} hours, {} with VAT", first + second, price.paid);
                report.say(None, &about, Became::Taken, says);
                priced.push(price);
            }
            Err(why) => report.say(None, &about, Became::NotUnderstood, format!("{why}; only its hours were used")),
        }
        let whole = Minutes::new((first + second) * 60.0).unwrap_or(Minutes::ZERO);
        worked.push(Worked { done, whole });
    }
    (worked, priced)
}

/// The work that the engine foresees for a job; empty if its answers were not recorded.
fn foreseen(job: &Job, setup: &Setup) -> Vec<WorkThen> {
    let Some(answers) = &job.answers else { return Vec::new() };
    let line = |line: engine::assessment::BillLine| WorkThen {
        item: line.item,
        probability: line.probability,
        quantity: line.quantity,
        minutes: line.minutes,
    };
    assess(answers, &setup.publish()).work.into_iter().map(line).collect()
}

/// Takes a job's price apart, or says why that can't be done. `first` and `second` are the hours of each person; `vat` is the factor by
/// which a sum without VAT is multiplied.
fn price_of(
    job: &Job,
    done: &[Done],
    first: f64,
    second: f64,
    vat: f64,
    setup: &Setup,
) -> Result<Priced, &'static str> {
    let paid = job.paid.ok_or("no price")?;
    let point = match &job.charge_point {
        Some(id) => setup.charge_points.iter().find(|point| point.id == *id).map(|point| point.cost),
        None => Some(Pence(0)), // none was sold
    };
    let point = point.ok_or("its charge point is none of the setup's")?;
    let materials = job.materials.map_or_else(|| reckoned_materials(done, setup), Pence::as_f64);
    let net = paid.as_f64() / vat;
    if net <= setup.rates.least.as_f64() {
        return Err("the least charge alone");
    }
    Ok(Priced { first, second, bought: materials + point.as_f64(), paid, net })
}

/// Infers the labour factor, that is, the factor on the default times.
fn conclude_labour(worked: &[Worked], setup: &mut Setup, report: &mut Report) {
    let minutes = |item| setup.line(item).map(|line| line.minutes);
    let Some(made) = whole_labour(worked, &minutes) else { return };
    let factor = &made.whole;
    report.say(
        None,
        "labour",
        Became::Supposed,
        format!(
            "{} times the default times (80 % from {:.2} to {:.2}), by {} jobs",
            factor.factor.get(),
            factor.low,
            factor.high,
            made.jobs
        ),
    );
    setup.calibration.labour = factor.factor;
    setup.calibration.jobs = made.jobs;
}

/// The equations for the hourly rate and the mark-up: each job's price less what the present rates come to. The coefficients are in
/// standard deviations of the prior, so that both are of the same size; a rate that was given gets a coefficient of zero.
fn rows(priced: &[Priced], rates: &SetupRates, hour_given: bool, mark_up_given: bool) -> Vec<Observation> {
    let (hour, mark_up) = (rates.hour.as_f64(), rates.mark_up.get());
    let helper = rates.second.unwrap_or(rates.hour).as_f64();
    let free = |given: bool, deviation: f64| if given { 0.0 } else { deviation };
    let row = |job: &Priced| Observation {
        of: vec![job.first * free(hour_given, HOUR), job.bought * free(mark_up_given, MARK_UP)],
        seen: job.net - rates.call_out.as_f64() - job.first * hour - job.second * helper - job.bought * (1.0 + mark_up),
        spread: job.net * INVOICE,
    };
    priced.iter().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;
    use model::config::{Item, check_setup};
    use model::units::Hours;

    const DAY: Date = date(2026, 11, 1);

    fn given(pairs: &[(&str, &str)]) -> Vec<(String, String)> {
        let firm = [("name", "Invented & Daughters"), ("telephone", "01632 960 000")];
        firm.iter().chain(pairs).map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect()
    }

    #[test]
    fn ten_figures_make_a_whole_setup_that_is_not_confirmed() {
        let made = bootstrap(
            &given(&[
                ("hour", "£52"),
                ("second", "£28"),
                ("mark-up", "15 %"),
                ("call-out", "£35"),
                ("least", "£240"),
                ("day", "7.5 h"),
                ("vat", "not"),
                ("socket", "£430 solar load-sensing open-pen dc"),
                ("lead-6.5", "£520"),
            ]),
            &[],
            DAY,
        )
        .unwrap();
        let setup = &made.setup;
        assert_eq!(check_setup(setup), []);
        assert!(!setup.rates_confirmed && !setup.publish().rates_confirmed);
        assert_eq!(
            (setup.rates.hour, setup.rates.second, setup.rates.least),
            (Pence(5_200), Some(Pence(2_800)), Pence(24_000))
        );
        assert_eq!((setup.rates.mark_up, setup.rates.day), (Ratio::of(0.15), Minutes::of(450.0)));
        assert_eq!(setup.installer.id, "invented-daughters");
        assert!(setup.charge_points[0].dc_sensing && !setup.charge_points[1].dc_sensing);
        assert_eq!(setup.charge_points[1].lead, Some(Metres::of(6.5)));
        // Figures that were supposed are marked in the published config, and so in every assessment.
        assert!(!setup.publish().assumed_lines.is_empty());
        let assessment = assess(&Default::default(), &setup.publish());
        assert!(assessment.band.is_none() && !assessment.assumed.is_empty());
    }

    #[test]
    fn what_is_left_out_is_supposed_and_said() {
        let made = bootstrap(&given(&[]), &[], DAY).unwrap();
        assert_eq!(check_setup(&made.setup), []);
        for key in ["hour", "second", "mark-up", "call-out", "least", "day", "charge points", "price lines"] {
            let said = made.report.0.iter().any(|remark| remark.about == key && remark.became == Became::Supposed);
            assert!(said, "{key}: {}", made.report);
        }
    }

    #[test]
    fn who_answers_for_it_and_what_is_shown_may_be_said_beside_the_figures() {
        let plain = bootstrap(&given(&[]), &[], DAY).unwrap().setup;
        assert_eq!((plain.prices_shown, plain.advertising), (PricesShown::BANDS, false));
        assert_eq!(plain.installer.in_law(), "Invented & Daughters");
        let made = bootstrap(
            &given(&[
                ("legal", "Invented & Daughters Limited"),
                ("privacy", "https://installer.invalid/privacy"),
                ("shown", "from straightforward=band, look-first=none"),
                ("offers", "yes"),
            ]),
            &[],
            DAY,
        );
        let setup = made.unwrap().setup;
        assert_eq!(check_setup(&setup), []);
        assert_eq!(setup.installer.in_law(), "Invented & Daughters Limited");
        assert_eq!(setup.installer.privacy.as_deref(), Some("https://installer.invalid/privacy"));
        let shown = setup.publish().prices_shown;
        assert_eq!((shown.straightforward, shown.more_involved), (PriceShown::Band, PriceShown::From));
        assert_eq!((shown.depends_on_others, shown.look_first), (PriceShown::From, PriceShown::Nothing));
        assert!(setup.advertising && setup.publish().advertising);
    }

    #[test]
    fn what_is_wrong_is_named() {
        let refused = |pairs: &[(&str, &str)]| bootstrap(&given(pairs), &[], DAY).unwrap_err().to_string();
        assert!(refused(&[("hours", "£5")]).contains("hours"));
        assert!(refused(&[("hour", "fifty")]).contains("fifty"));
        assert!(refused(&[("hour", "£5"), ("hour", "£6")]).contains("twice"));
        assert!(refused(&[("socket", "£400 blue")]).contains("blue"));
        assert!(refused(&[("lead-long", "£400")]).contains("lead-long"));
        assert!(refused(&[("vat", "perhaps")]).contains("perhaps"));
        assert!(refused(&[("offers", "maybe")]).contains("maybe"));
        for (said, named) in [("about", "about"), ("dangerous=from", "dangerous"), ("look-first=", "look-first=")] {
            let words = refused(&[("shown", said)]);
            assert!(words.contains(named) && words.contains("more-involved"), "{words}");
        }
        assert_eq!(bootstrap(&[], &[], DAY).unwrap_err(), NotEnough::Missing("name", KEYS[0].says));
    }

    /// Jobs made from known rates: their hours and prices follow exactly from the default lines.
    fn remembered(setup: &Setup, factor: f64, hour: f64, mark_up: f64, metres: &[f64]) -> Vec<Job> {
        let job = |metres: &f64| {
            let done: Vec<Done> = [
                (Item::Survey, 1.0),
                (Item::FixPoint, 1.0),
                (Item::Commission, 1.0),
                (Item::DoublePoleDevice, 1.0),
                (Item::CableOutside, *metres),
                (Item::TrenchPaving, (metres - 10.0).max(0.0)),
            ]
            .map(|(item, quantity)| Done { item, quantity: Ratio::of(quantity), minutes: None })
            .into();
            let mean = |low: f64, likely: f64, high: f64| (low + 4.0 * likely + high) / 6.0;
            let minutes: f64 = done
                .iter()
                .map(|done| {
                    let time = setup.line(done.item).unwrap().minutes;
                    mean(time.low.get(), time.likely.get(), time.high.get()) * done.quantity.get() * factor
                })
                .sum();
            let bought = reckoned_materials(&done, setup) + POINT.as_f64();
            let net = setup.rates.call_out.as_f64() + minutes / 60.0 * hour + bought * (1.0 + mark_up);
            Job {
                done,
                hours: Some(Hours::of(minutes / 60.0)),
                charge_point: Some("lead-5".into()),
                paid: Some(Pence::rounded(net * 1.2)),
                ..Job::default()
            }
        };
        metres.iter().map(job).collect()
    }

    #[test]
    fn jobs_made_of_known_rates_give_these_rates_back() {
        let plain = bootstrap(&given(&[]), &[], DAY).unwrap().setup;
        for (factor, hour, mark_up) in [(1.3, 6_000.0, 0.1), (0.8, 3_800.0, 0.35), (1.0, 4_500.0, 0.2)] {
            let jobs = remembered(&plain, factor, hour, mark_up, &[3.0, 12.0, 25.0]);
            let made = bootstrap(&given(&[]), &jobs, DAY).unwrap();
            let rates = &made.setup.rates;
            let told = format!(
                "{factor} {hour} {mark_up}: {:?} {:?} {:?}",
                made.setup.calibration.labour, rates.hour, rates.mark_up
            );
            assert!((made.setup.calibration.labour.get() / factor - 1.0).abs() < 0.05, "{told}");
            assert!((rates.hour.as_f64() / hour - 1.0).abs() < 0.06, "{told}");
            assert!((rates.mark_up.get() - mark_up).abs() < 0.06, "{told}");
            assert!(!made.setup.rates_confirmed);
        }
    }

    #[test]
    fn what_was_given_is_not_concluded_otherwise() {
        let plain = bootstrap(&given(&[]), &[], DAY).unwrap().setup;
        let jobs = remembered(&plain, 1.0, 6_000.0, 0.2, &[3.0, 12.0, 25.0]);
        let made = bootstrap(&given(&[("hour", "£50"), ("mark-up", "20 %")]), &jobs, DAY).unwrap();
        assert_eq!((made.setup.rates.hour, made.setup.rates.mark_up), (Pence(5_000), Ratio::of(0.2)));
    }
}
