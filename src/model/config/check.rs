//! What a config or setup must satisfy beyond its shape. A check returns every problem it found, not only the first.

use super::public::{BoardDevice, Config, Item, PriceLine};
use super::setup::Setup;
use super::telling::check_telling;
use super::{VatRate, format, within};
use crate::answers::Word;
use crate::units::{Amps, Minutes, Pence, Ratio};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use jiff::civil::Date;

/// One value that is not allowed: its field, what was there, and what is allowed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{field}`: {given} is not allowed; it may be {allowed}")]
pub struct ConfigProblem {
    /// Path of the field.
    pub field: String,
    /// What was there.
    pub given: String,
    /// What may be there.
    pub allowed: &'static str,
}

/// Checks a published config and returns every problem found; an empty list where there is none.
#[must_use]
pub fn check_config(config: &Config) -> Vec<ConfigProblem> {
    let mut problems = Vec::new();
    let mut refuse = |field: String, given: String, allowed| problems.push(ConfigProblem { field, given, allowed });

    let id = &config.installer.id;
    if !is_installer_id(id) {
        refuse("installer.id".into(), format!("{id:?}"), "1 to 40 small letters, digits and hyphens");
    }
    if config.installer.name.trim().is_empty() {
        refuse("installer.name".into(), "nothing".into(), "a name");
    }
    if config.installer.legal_name.chars().count() > MOST_LEGAL_NAME {
        refuse("installer.legal_name".into(), "more than that".into(), "at most 200 letters");
    }
    if let Some(privacy) = &config.installer.privacy
        && !is_page_address(privacy)
    {
        refuse("installer.privacy".into(), format!("{privacy:?}"), "an address that begins with https://");
    }
    if config.charge_points.is_empty() {
        refuse("charge_points".into(), "an empty list".into(), "at least one charge point");
    }
    for (at, point) in config.charge_points.iter().enumerate() {
        if !(A_CURRENT[0]..=A_CURRENT[1]).contains(&point.current) {
            refuse(format!("charge_points[{at}].current"), point.current.to_string(), "6 to 63 amperes");
        }
        if let Some(device) = point.device.filter(|device| *device < point.current || *device > A_CURRENT[1]) {
            refuse(
                format!("charge_points[{at}].device"),
                device.to_string(),
                "no less than its current, and no more than 63 amperes",
            );
        }
        if point.price < Pence(0) {
            refuse(format!("charge_points[{at}].price"), point.price.to_string(), "zero or more");
        }
    }
    for (name, money) in [
        ("hour", config.rates.hour),
        ("second", config.rates.second.unwrap_or_default()),
        ("call_out", config.rates.call_out),
        ("least", config.rates.least),
    ] {
        if !(MONEY[0]..=MONEY[1]).contains(&money) {
            refuse(format!("rates.{name}"), money.to_string(), "£0 to £100,000");
        }
    }
    if !(STEP[0]..=STEP[1]).contains(&config.rates.step) {
        refuse("rates.step".into(), config.rates.step.to_string(), "£1 to £1,000");
    }
    check_vat(config, &mut refuse);
    check_grants(config, &mut refuse);
    if !(DRAFT_DAYS[0]..=DRAFT_DAYS[1]).contains(&config.draft_days) {
        refuse("draft_days".into(), config.draft_days.to_string(), "1 to 365 days");
    }
    check_devices(config, &mut refuse);
    for (at, region) in config.priors.regions.iter().enumerate() {
        if region.postcodes.is_empty() {
            refuse(format!("priors.regions[{at}].postcodes"), "an empty list".into(), "at least one beginning");
        }
    }
    if config.thresholds.signal_good > config.thresholds.signal_least {
        refuse(
            "thresholds.signal_good".into(),
            config.thresholds.signal_good.to_string(),
            "no more decibels under one milliwatt than signal_least",
        );
    }
    check_prices(config, &mut refuse);
    problems
}

/// Checks that each make of board stands once in the list of devices, and has a name.
fn check_devices(config: &Config, refuse: &mut dyn FnMut(String, String, &'static str)) {
    for (at, device) in config.devices.iter().enumerate() {
        let same = |other: &BoardDevice| other.is_for(&device.printed);
        if device.printed.trim().is_empty() || config.devices[..at].iter().any(same) {
            refuse(format!("devices[{at}].printed"), format!("{:?}", device.printed), "a name that stands once");
        }
    }
}

/// Checks that each work item has exactly one price line, with its low, likely and high figures in order.
fn check_prices(config: &Config, refuse: &mut dyn FnMut(String, String, &'static str)) {
    for (at, line) in config.prices.iter().enumerate() {
        if !ascending(line) {
            refuse(format!("prices[{at}]"), format!("{} out of order", line.item.word()), ASCENDING);
        }
    }
    for item in Item::ALL.iter().filter(|item| !matches!(item, Item::ChargePoint | Item::CallOut)) {
        let lines = config.prices.iter().filter(|line| line.item == *item).count();
        // A config that was published before the item existed has no line for it: the item counts as nothing, as it did then.
        if lines != 1 && !(lines == 0 && format::came_later(*item)) {
            refuse("prices".into(), format!("not just one line for {}", item.word()), "one line for each work item");
        }
    }
}

/// Whether the address may be the installer's own page: `https://…`, and nothing that a browser would run.
fn is_page_address(address: &str) -> bool {
    let rest = address.strip_prefix("https://").unwrap_or_default();
    !rest.is_empty() && !rest.starts_with('/') && address.len() <= MOST_ADDRESS && address.chars().all(is_of_an_address)
}

pub(super) fn is_of_an_address(sign: char) -> bool {
    sign.is_ascii_graphic() && !matches!(sign, '"' | '<' | '>' | '\\')
}

/// Whether a text is an installer's id. It may be part of an address and the name of a folder as it stands, so it has no sign that means
/// anything in either, and no capital letter, which some systems do not tell from a small one.
#[must_use]
pub fn is_installer_id(text: &str) -> bool {
    (1..=MOST_ID).contains(&text.len()) && text.chars().all(is_of_an_id)
}

pub(super) fn is_of_an_id(sign: char) -> bool {
    sign.is_ascii_lowercase() || sign.is_ascii_digit() || sign == '-'
}

// The schema states these limits as well. This program's choice, where nothing else stands beside one.
pub(super) const MOST_ID: usize = 40; // this program's choice
pub(super) const MOST_LEGAL_NAME: usize = 200; // this program's choice
pub(super) const MOST_ADDRESS: usize = 500; // this program's choice
/// The longest text that goes into the network operators' form, in characters.
pub(super) const MOST_OF_A_FORM: usize = 100; // this program's choice
/// 6 A: IEC 61851-1; 63 A: a socket of three phases. Both from memory.
pub(super) const A_CURRENT: [Amps; 2] = [Amps::of(6.0), Amps::of(63.0)];
/// Prices as charged: more is a slip. This program's choice.
pub(super) const MONEY: [Pence; 2] = [Pence(0), Pence(10_000_000)];
/// From a pound to a thousand: this program's choice.
pub(super) const STEP: [Pence; 2] = [Pence(100), Pence(100_000)];
/// Days a draft is kept, from a day to a year: this program's choice.
pub(super) const DRAFT_DAYS: [u16; 2] = [1, 365];
/// The whole of something, as a share: arithmetic.
pub(super) const WHOLE: Ratio = Ratio::of(1.0);
/// The factors that recorded jobs give; one outside is a slip: this program's choice.
pub(super) const A_FACTOR: [Ratio; 2] = [Ratio::of(0.2), Ratio::of(5.0)];

fn check_vat(config: &Config, refuse: &mut dyn FnMut(String, String, &'static str)) {
    let vat = &config.rates.vat;
    for (at, rate) in vat.rates.iter().enumerate() {
        if rate.rate > WHOLE {
            refuse(format!("rates.vat.rates[{at}].rate"), rate.rate.to_string(), "a share from 0 to 1");
        }
        if rate.until.is_some_and(|until| until < rate.from) {
            refuse(format!("rates.vat.rates[{at}].until"), written(rate.until), "its first day or later");
        }
        // Where two rates have a day in common, one of them begins within the other.
        let begins_in = |other: &VatRate| within(rate.from, other.from, other.until);
        if vat.rates.iter().enumerate().any(|(place, other)| place != at && begins_in(other)) {
            refuse(format!("rates.vat.rates[{at}].from"), rate.from.to_string(), "a day that no other rate has");
        }
    }
    if !vat.on(config.published).dated {
        refuse("rates.vat.rates".into(), format!("none for {}", config.published), "a rate for the day of the setup");
    }
}

fn check_grants(config: &Config, refuse: &mut dyn FnMut(String, String, &'static str)) {
    for (at, grant) in config.grants.iter().enumerate() {
        if grant.name.trim().is_empty() {
            refuse(format!("grants[{at}].name"), "nothing".into(), "plain words");
        }
        if grant.until.is_some_and(|until| until < grant.from) {
            refuse(format!("grants[{at}].until"), written(grant.until), "its first day or later");
        }
        if grant.share.is_some_and(|share| share > WHOLE) {
            refuse(
                format!("grants[{at}].share"),
                grant.share.unwrap_or(Ratio::ZERO).to_string(),
                "a share from 0 to 1",
            );
        }
        if grant.most < Pence(0) || grant.most > MOST_MONEY {
            refuse(format!("grants[{at}].most"), grant.most.to_string(), "£0 to £1,000,000");
        }
        if grant.who.is_empty() {
            refuse(format!("grants[{at}].who"), "an empty list".into(), "for whom it is");
        }
    }
}

fn written(day: Option<Date>) -> String {
    day.map_or_else(String::new, |day| day.to_string())
}

/// The most labour for one unit of one item; more is a slip: this program's choice.
pub(super) const MOST_MINUTES: Minutes = Minutes::of(10_000.0);
pub(super) const MOST_MONEY: Pence = Pence(100_000_000); // this program's choice

const ASCENDING: &str = "low, likely, high ascending, from zero to 10,000 minutes and £1,000,000";

fn ascending(line: &PriceLine) -> bool {
    let (minutes, money) = (&line.minutes, &line.materials);
    minutes.high <= MOST_MINUTES
        && money.high <= MOST_MONEY
        && minutes.low <= minutes.likely
        && minutes.likely <= minutes.high
        && Pence(0) <= money.low
        && money.low <= money.likely
        && money.likely <= money.high
}

/// Beyond these bounds a price or a time is a slip, such as pounds for pence, hours for minutes, or a whole length for a metre. Common
/// practice, no source. They apply when a setup is published; a config that was published before still opens.
pub(super) const HOUR: [Pence; 2] = [Pence(100), Pence(50_000)];
pub(super) const SECOND: [Pence; 2] = [Pence(0), Pence(50_000)]; // common practice, no source
pub(super) const CALL_OUT: [Pence; 2] = [Pence(0), Pence(100_000)]; // common practice, no source
pub(super) const LEAST: [Pence; 2] = [Pence(0), Pence(1_000_000)]; // common practice, no source
pub(super) const A_POINT: [Pence; 2] = [Pence(0), Pence(1_000_000)]; // common practice, no source
pub(super) const A_DAY: [Minutes; 2] = [Minutes::of(60.0), Minutes::of(960.0)]; // common practice, no source
pub(super) const MOST_MARK_UP: Ratio = Ratio::of(3.0); // common practice, no source
/// For one unit of one item, a piece or a metre. Common practice, no source.
pub(super) const A_PIECE: (Minutes, Pence) = (Minutes::of(1_440.0), Pence(500_000));
pub(super) const A_METRE: (Minutes, Pence) = (Minutes::of(480.0), Pence(50_000)); // common practice, no source

/// Whether the item is sold by the metre.
pub(super) const fn by_the_metre(item: Item) -> bool {
    matches!(
        item,
        Item::CableInside
            | Item::CableLoft
            | Item::CableOutside
            | Item::CableFence
            | Item::Supports
            | Item::TrenchSoft
            | Item::TrenchPaving
            | Item::HardGround
            | Item::HighAccess
            | Item::LargerCable
            | Item::DataCable
    )
}

/// Checks for slips: rates, prices, times and mark-up that nobody charges or works by.
fn check_slips(setup: &Setup, refuse: &mut dyn FnMut(String, String, &'static str)) {
    let rates = &setup.rates;
    let mut within = |field: String, money: Pence, [least, most]: [Pence; 2], allowed| {
        if !(least..=most).contains(&money) {
            refuse(field, money.to_string(), allowed);
        }
    };
    within("rates.hour".into(), rates.hour, HOUR, "£1 to £500 an hour");
    within("rates.second".into(), rates.second.unwrap_or_default(), SECOND, "£0 to £500 an hour");
    within("rates.call_out".into(), rates.call_out, CALL_OUT, "£0 to £1,000");
    within("rates.least".into(), rates.least, LEAST, "£0 to £10,000");
    for (at, point) in setup.charge_points.iter().enumerate() {
        within(format!("charge_points[{at}].cost"), point.cost, A_POINT, "£0 to £10,000");
    }
    if !(A_DAY[0]..=A_DAY[1]).contains(&rates.day) {
        refuse("rates.day".into(), rates.day.to_string(), "60 to 960 minutes");
    }
    if rates.mark_up > MOST_MARK_UP {
        refuse("rates.mark_up".into(), rates.mark_up.to_string(), "a share from 0 to 3");
    }
    for (at, line) in setup.costs.iter().enumerate() {
        let metre = by_the_metre(line.item);
        let (minutes, money) = if metre { A_METRE } else { A_PIECE };
        let of = |what: &str| format!("{what} for {}", line.item.word());
        if line.minutes.high > minutes {
            let allowed = if metre { "no more than 480 minutes a metre" } else { "no more than 1,440 minutes" };
            refuse(format!("costs[{at}].minutes.high"), of(&line.minutes.high.to_string()), allowed);
        }
        if line.cost.high > money {
            let allowed = if metre { "no more than £500 a metre" } else { "no more than £5,000" };
            refuse(format!("costs[{at}].cost.high"), of(&line.cost.high.to_string()), allowed);
        }
    }
}

/// Checks a setup's own lines of costs. Problems name their place in the setup, not in the config made from it.
fn check_costs(setup: &Setup, problems: &mut Vec<ConfigProblem>) {
    for (at, line) in setup.costs.iter().enumerate() {
        let word = line.item.word();
        let (out_of_order, not_one) = (format!("{word} out of order"), format!("not just one line for {word}"));
        let mut refuse = |field: String, given: String, allowed| {
            problems.retain(|problem| problem.given != given || !problem.field.starts_with("prices"));
            problems.push(ConfigProblem { field, given, allowed });
        };
        if !ascending(&setup.price(line)) || line.cost.low < Pence(0) {
            refuse(format!("costs[{at}]"), out_of_order, ASCENDING);
        }
        let has_a_line = !matches!(line.item, Item::ChargePoint | Item::CallOut);
        if has_a_line && setup.costs[..at].iter().any(|other| other.item == line.item) {
            refuse(format!("costs[{at}].item"), not_one, "an item that no other line is for");
        }
    }
}

/// Checks a setup, and the config that it would publish. Returns every problem found.
#[must_use]
pub fn check_setup(setup: &Setup) -> Vec<ConfigProblem> {
    let mut problems = check_config(&setup.publish());
    check_costs(setup, &mut problems);
    check_telling(setup, &mut problems);
    let mut slips = Vec::new();
    check_slips(setup, &mut |field, given, allowed| slips.push(ConfigProblem { field, given, allowed }));
    // Each field is reported once; the slip is kept because it says what may be published.
    problems.retain(|problem| slips.iter().all(|slip| slip.field != problem.field));
    problems.extend(slips);
    setup.branding.check(&mut |field, given, allowed| problems.push(ConfigProblem { field, given, allowed }));
    for (at, point) in setup.charge_points.iter().enumerate() {
        for (name, text) in
            [("maker", &point.maker), ("model", &point.model), ("operators_reference", &point.operators_reference)]
        {
            // The text goes into a form as it is, and an empty one would read as filled in.
            if let Some(text) =
                text.as_ref().filter(|text| text.trim().is_empty() || text.chars().count() > MOST_OF_A_FORM)
            {
                problems.push(ConfigProblem {
                    field: format!("charge_points[{at}].{name}"),
                    given: format!("{:?}", text.chars().take(60).collect::<String>()),
                    allowed: "1 to 100 signs, or left out",
                });
            }
        }
    }
    let calibration = &setup.calibration;
    let whole = [("labour".to_string(), calibration.labour), ("materials".to_string(), calibration.materials)];
    let items = calibration.items.iter().map(|(item, factor)| (format!("items.{}", item.word()), *factor));
    for (name, factor) in whole.into_iter().chain(items) {
        if !(A_FACTOR[0]..=A_FACTOR[1]).contains(&factor) {
            problems.push(ConfigProblem {
                field: format!("calibration.{name}"),
                given: factor.to_string(),
                allowed: "a factor from 0.2 to 5",
            });
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::super::{demo_config, demo_setup};
    use super::*;
    use jiff::civil::date;

    #[test]
    fn the_demo_is_allowed() {
        assert_eq!(check_setup(&demo_setup()), []);
    }

    #[test]
    fn an_absurd_price_and_a_day_of_no_minutes_are_not_published() {
        let refused = |change: fn(&mut Setup)| {
            let mut setup = demo_setup();
            change(&mut setup);
            check_setup(&setup).into_iter().map(|problem| problem.to_string()).collect::<Vec<_>>()
        };
        let none = |name: &str| format!("`rates.day`: {name} is not allowed; it may be 60 to 960 minutes");
        assert_eq!(refused(|setup| setup.rates.day = Minutes::ZERO), [none("0 min")]);
        assert_eq!(refused(|setup| setup.rates.day = Minutes::of(48_000.0)), [none("48000 min")]);
        assert_eq!(
            refused(|setup| setup.rates.hour = Pence(5_200_000)),
            ["`rates.hour`: £52,000 is not allowed; it may be £1 to £500 an hour"]
        );
        assert_eq!(
            refused(|setup| setup.rates.hour = Pence(0)),
            ["`rates.hour`: £0 is not allowed; it may be £1 to £500 an hour"]
        );
        assert_eq!(
            refused(|setup| setup.rates.hour = Pence(100_000_000_000)),
            ["`rates.hour`: £1,000,000,000 is not allowed; it may be £1 to £500 an hour"]
        );
        assert_eq!(refused(|setup| setup.rates.second = Some(Pence(5_200_000))).len(), 1);
        assert_eq!(refused(|setup| setup.rates.call_out = Pence(4_000_000)).len(), 1);
        assert_eq!(refused(|setup| setup.rates.least = Pence(9_999_999)).len(), 1);
        assert_eq!(
            refused(|setup| setup.charge_points[1].cost = Pence(100_000_000_000)),
            ["`charge_points[1].cost`: £1,000,000,000 is not allowed; it may be £0 to £10,000"]
        );
        assert_eq!(
            refused(|setup| setup.rates.mark_up = Ratio::of(20.0)),
            ["`rates.mark_up`: 20 is not allowed; it may be a share from 0 to 3"]
        );
        let trench = |setup: &mut Setup| {
            setup.costs.iter_mut().find(|line| line.item == Item::TrenchSoft).unwrap().cost.high = Pence(80_000);
        };
        let [told] = <[String; 1]>::try_from(refused(trench)).unwrap();
        assert!(told.ends_with("£800 for trench-soft is not allowed; it may be no more than £500 a metre"), "{told}");
        let enclosure = |setup: &mut Setup| {
            setup.costs.iter_mut().find(|line| line.item == Item::Enclosure).unwrap().minutes.high =
                Minutes::of(4_200.0);
        };
        let [told] = <[String; 1]>::try_from(refused(enclosure)).unwrap();
        assert!(told.contains("].minutes.high`: 4200 min for enclosure"), "{told}");
    }

    #[test]
    fn what_was_published_before_goes_on_opening() {
        let mut config = demo_config();
        (config.rates.day, config.rates.hour) = (Minutes::ZERO, Pence(0));
        assert_eq!(check_config(&config), []);
    }

    #[test]
    fn a_factor_past_belief_is_named() {
        let mut setup = demo_setup();
        setup.calibration.items.insert(Item::Glands, Ratio::of(9.0));
        setup.calibration.materials = Ratio::of(0.1);
        let fields: Vec<String> = check_setup(&setup).into_iter().map(|problem| problem.field).collect();
        assert_eq!(fields, ["calibration.materials", "calibration.items.glands"]);
    }

    #[test]
    fn what_goes_into_a_form_is_not_empty() {
        let mut setup = demo_setup();
        setup.charge_points[1].maker = Some(" ".into());
        setup.charge_points[1].operators_reference = Some("1".repeat(101));
        let fields: Vec<String> = check_setup(&setup).into_iter().map(|problem| problem.field).collect();
        assert_eq!(fields, ["charge_points[1].maker", "charge_points[1].operators_reference"]);
    }

    #[test]
    fn every_problem_is_named_not_the_first() {
        let mut config = demo_config();
        config.installer.id = "Not Allowed".into();
        config.charge_points.clear();
        config.prices[0].minutes.low = crate::units::Minutes::of(9_999.0);
        config.prices.pop();
        let problems = check_config(&config);
        for field in ["installer.id", "charge_points", "prices[0]", "prices"] {
            assert!(problems.iter().any(|problem| problem.field == field), "{field} in {problems:?}");
        }
    }

    #[test]
    fn a_privacy_notice_is_a_page_behind_an_encrypted_connection() {
        for (address, allowed) in [
            ("https://installer.invalid/privacy", true),
            ("http://installer.invalid/privacy", false),
            ("javascript:alert(1)", false),
            ("https://", false),
            ("https://installer.invalid/\"onclick", false),
            ("/privacy", false),
        ] {
            let mut config = demo_config();
            config.installer.privacy = Some(address.into());
            let problems = check_config(&config);
            assert_eq!(problems.is_empty(), allowed, "{address}: {problems:?}");
            assert!(problems.iter().all(|problem| problem.field == "installer.privacy"));
        }
        let mut config = demo_config();
        config.installer.legal_name = "x".repeat(201);
        assert_eq!(check_config(&config)[0].field, "installer.legal_name");
    }

    #[test]
    fn a_draft_stays_a_day_at_least_and_a_year_at_most() {
        for (days, allowed) in [(0, false), (1, true), (365, true), (366, false)] {
            let problems = check_config(&Config { draft_days: days, ..demo_config() });
            assert_eq!(problems.is_empty(), allowed, "{days}: {problems:?}");
        }
    }

    #[test]
    fn days_of_vat_do_not_overlap_and_the_day_of_the_setup_has_one() {
        let fields = |change: fn(&mut Config)| -> Vec<String> {
            let mut config = demo_config();
            change(&mut config);
            check_config(&config).into_iter().map(|problem| problem.field).collect()
        };
        assert_eq!(fields(|config| config.rates.vat.rates[0].until = Some(date(2011, 1, 4))), ["rates.vat.rates"]);
        assert_eq!(fields(|config| config.rates.vat.rates.clear()), ["rates.vat.rates"]);
        assert_eq!(
            fields(|config| {
                let mut second = config.rates.vat.rates[0].clone();
                second.from = date(2026, 12, 1);
                config.rates.vat.rates.push(second);
            }),
            ["rates.vat.rates[1].from"],
            "it begins while the first still holds"
        );
        assert_eq!(
            fields(|config| {
                config.rates.vat.rates.clear();
                config.rates.vat.registered = false;
            }),
            [""; 0],
            "who charges none needs none"
        );
        assert_eq!(
            fields(|config| {
                config.grants[0].until = Some(date(2000, 1, 1));
                config.grants[0].share = Some(Ratio::of(1.5));
                config.grants[1].who.clear();
            }),
            ["grants[0].until", "grants[0].share", "grants[1].who"]
        );
    }

    #[test]
    fn a_make_of_board_stands_once_and_a_region_has_postcodes() {
        let mut config = demo_config();
        let device = |printed: &str| BoardDevice { printed: printed.into(), double_pole: true };
        config.devices = alloc::vec![device("An invented name"), device(" an INVENTED name ")];
        config.priors.regions.push(crate::config::Region { postcodes: Vec::new(), earthing: None, fuse: None });
        config.thresholds.signal_good = crate::units::DecibelsUnder::of(80.0);
        let fields: Vec<String> = check_config(&config).into_iter().map(|problem| problem.field).collect();
        assert_eq!(fields, ["devices[1].printed", "priors.regions[0].postcodes", "thresholds.signal_good"]);
    }

    #[test]
    fn nothing_private_is_published() {
        let mut setup = demo_setup();
        setup.mail_to = Some("private-marker@example.invalid".into());
        let published = serde_json::to_string(&setup.publish()).unwrap();
        for private in ["private-marker", "mark_up", "\"cost\"", "\"costs\"", "calibration", "mail_to"] {
            assert!(!published.contains(private), "{private} reached the public config");
        }
    }

    #[test]
    fn a_change_of_content_is_a_change_of_version() {
        let mut setup = demo_setup();
        let before = setup.publish().version;
        setup.rates.hour = setup.rates.hour + Pence(1);
        assert_ne!(before, setup.publish().version);
    }
}
