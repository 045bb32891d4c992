//! What the program's own readers say of documents: asked by `schemas.py`, which holds it against the published schemas.
//!
//! `verdicts documents` prints documents that the program made itself, `KIND<tab>JSON` a line. `verdicts` reads such lines and says of each
//! `accepted`, or why not.

#[path = "../support/mod.rs"]
mod support;

use presurvey::answers::{Answers, Word};
use presurvey::assess;
use presurvey::config::{
    Brand, Colours, Config, GrantFor, INVENTED_DEFAULT, Item, PriceShown, PricesShown, Region, Scheme, Setup, VatRate,
    check_config, check_setup, demo_setup,
};
use presurvey::enquiry::{
    CURRENT_VERSION, Contact, Enquiry, Envelope, Mark, Payload, Photo, PhotoPlace, Reach, Reference, read_enquiry,
};
use presurvey::rates::{self, Found};
use presurvey::record::json::read_json;
use presurvey::units::{Amps, Metres, Minutes, Pence, Probability, Ratio};
use serde::Serialize;
use std::io::{BufRead, Write};
use support::Chance;

/// So many documents of each kind.
const MADE: u64 = 500;

fn main() {
    let mut out = std::io::stdout().lock();
    if std::env::args().nth(1).as_deref() == Some("documents") {
        documents(&mut |kind, document| writeln!(out, "{kind}\t{document}").expect("standard output is open"));
        return;
    }
    for line in std::io::stdin().lock().lines() {
        let line = line.expect("standard input is text");
        let (kind, document) = line.split_once('\t').expect("a kind, a tab, a document");
        let said = verdict(kind, document.as_bytes()).err().unwrap_or_else(|| "accepted".to_owned());
        writeln!(out, "{}", said.replace('\n', " ")).and_then(|()| out.flush()).expect("standard output is open");
    }
}

/// Reads a document as the program does where a stranger gives it.
fn verdict(kind: &str, json: &[u8]) -> Result<(), String> {
    let none = |problems: Vec<presurvey::config::ConfigProblem>| match problems.as_slice() {
        [] => Ok(()),
        some => Err(some.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")),
    };
    let words = |why: presurvey::record::json::Unreadable| why.to_string();
    match kind {
        "answers" => read_json::<Answers>(json).map(|_| ()).map_err(words),
        "config" => none(check_config(&read_json::<Config>(json).map_err(words)?)),
        "setup" => none(check_setup(&read_json::<Setup>(json).map_err(words)?)),
        "enquiry" => read_enquiry(json).map(|_| ()).map_err(|why| why.to_string()),
        "jobs" => rates::read(json).map(|_| ()).map_err(|why| why.to_string()),
        other => panic!("there is no reader of {other}"),
    }
}

fn documents(put: &mut dyn FnMut(&str, String)) {
    for seed in 0..MADE {
        let answers = support::any_home(seed);
        let setup = any_setup(seed);
        assert_eq!(check_setup(&setup), [], "setup {seed}");
        let config = setup.publish();
        put("answers", written(&answers));
        put("setup", written(&setup));
        put("config", written(&config));
        for format in [1, 2].into_iter().filter(|_| seed.is_multiple_of(10)) {
            put("config", written(&config.in_format(format)));
        }
        // A whole assessment is long: one in ten records has one.
        let enquiry = any_enquiry(seed, answers.clone(), &config, seed.is_multiple_of(10));
        put("enquiry", written(&enquiry));
        put("jobs", any_jobs(seed, &answers, &enquiry));
    }
}

fn written(document: &impl Serialize) -> String {
    serde_json::to_string(document).expect("a document holds only numbers, text and lists")
}

fn one_of<T: Copy>(list: &[T], chance: &mut Chance) -> T {
    list[chance.below(list.len() as u64) as usize]
}

/// A share by chance of a range.
fn between(chance: &mut Chance, least: f64, most: f64) -> f64 {
    least + (most - least) * (chance.below(1_001) as f64 / 1_000.0)
}

/// The invented setup with changes by chance; each is one that an installer may make.
fn any_setup(seed: u64) -> Setup {
    let mut setup = demo_setup();
    let chance = &mut Chance::of(seed, "setup");
    let some = |chance: &mut Chance| chance.below(3) == 0;
    setup.rates.hour = Pence(100 + chance.below(49_901) as i64);
    setup.rates.second = some(chance).then(|| Pence(chance.below(50_001) as i64));
    setup.rates.call_out = Pence(chance.below(100_001) as i64);
    setup.rates.step = Pence(100 + chance.below(99_901) as i64);
    setup.rates.mark_up = Ratio::of(between(chance, 0.0, 3.0));
    setup.rates.day = Minutes::of(between(chance, 60.0, 960.0));
    setup.rates_confirmed = some(chance);
    setup.keep_days = chance.below(65_536) as u16;
    setup.draft_days = 1 + chance.below(365) as u16;
    setup.advertising = some(chance);
    setup.mail_to = some(chance).then(|| "somebody@example.invalid".to_owned());
    if setup.mail_to.is_some() && some(chance) {
        let mail = r#"{"server":"localhost","port":2525,"encryption":"none","user":"somebody","password":"invented","from":"form@example.invalid"}"#;
        setup.mail = serde_json::from_str(mail).ok();
        let webhooks =
            format!(r#"[{{"url":"https://hooks.example.invalid:8443/a?b=c","secret":"whsec_{}=="}}]"#, "A".repeat(34));
        setup.webhooks = serde_json::from_str(&webhooks).unwrap();
    }
    setup.area = (0..chance.below(3)).map(|at| format!("ZZ{at}")).collect();
    if some(chance) {
        setup.installer.legal_name = "Invented Installer Limited".into();
        setup.installer.privacy = Some("https://installer.invalid/privacy?of=1".into());
    }
    for point in &mut setup.charge_points {
        point.current = Amps::of(between(chance, 6.0, 63.0));
        point.device = some(chance).then(|| Amps::of(between(chance, point.current.get(), 63.0)));
        point.lead = some(chance).then(|| Metres::of(between(chance, 0.0, 10.0)));
        point.cost = Pence(chance.below(1_000_001) as i64);
        point.listed = some(chance);
        point.maker = some(chance).then(|| "nobody's".to_owned());
        point.off_peak = some(chance).then_some(setup.changed);
    }
    setup.costs.retain(|_| chance.below(4) > 0);
    for line in &mut setup.costs {
        // Halves and quarters of what is there go on ascending.
        let part = Ratio::of(between(chance, 0.0, 1.0));
        line.minutes.low = line.minutes.low * part;
        line.source = if some(chance) { INVENTED_DEFAULT } else { "own, with \"quotes\" and £" }.to_owned();
    }
    if some(chance) {
        setup.calibration.labour = Ratio::of(between(chance, 0.2, 1.5));
        setup.calibration.materials = Ratio::of(between(chance, 0.2, 5.0));
        setup.calibration.items.insert(one_of(Item::ALL, chance), Ratio::of(between(chance, 0.2, 1.5)));
        setup.calibration.assumed.insert("priors.way_freed".into(), Probability::of(between(chance, 0.0, 1.0)));
        setup.calibration.jobs = chance.below(u64::from(u32::MAX)) as u32;
        setup.calibration.held = chance.below(60) as u32;
    }
    setup.thresholds.gate = Probability::of(between(chance, 0.0, 1.0));
    setup.thresholds.wifi_bars = chance.below(256) as u8;
    setup.thresholds.voltage_drop = Ratio::of(between(chance, 0.01, 0.05));
    setup.priors.loop_at_age.since_2000 = Probability::of(between(chance, 0.0, 1.0));
    if some(chance) {
        setup.priors.regions.push(Region {
            postcodes: vec!["ZZ".into()],
            earthing: None,
            fuse: Some(setup.priors.fuse.unknown),
        });
        setup.rates.vat.rates =
            vec![VatRate { from: setup.changed, until: None, rate: Ratio::of(0.2), source: "invented".into() }];
    }
    setup.grants = some(chance).then(|| {
        let mut grants = setup.publish().grants;
        grants.iter_mut().for_each(|grant| grant.who = GrantFor::ALL.to_vec());
        grants
    });
    setup.prices_shown = PricesShown::all(one_of(PriceShown::ALL, chance));
    if some(chance) {
        setup.wording.insert("send".into(), "Send it, *please*".into());
        setup.branding = Brand {
            accent: Some("#0a7".into()),
            ink: Some(" #0A0B0C ".into()),
            dark: Some(Colours { ground: Some("#000000".into()), ..Colours::default() }),
            scheme: Some(one_of(Scheme::ALL, chance)),
            font: Some("'Some Face', sans-serif".into()),
            corner: Some(chance.below(25) as u8),
            logo: Some("/logo.svg".into()),
            ..Brand::default()
        };
    }
    setup
}

/// A record by chance.
fn any_enquiry(seed: u64, answers: Answers, config: &Config, assessed: bool) -> Enquiry {
    let chance = &mut Chance::of(seed, "enquiry");
    let photos: Vec<Photo> = (0..chance.below(4))
        .map(|at| Photo {
            sha256: format!("{:064x}", chance.below(u64::MAX)),
            place: one_of(PhotoPlace::ALL, chance),
            width: chance.below(10_000) as u32,
            height: 1,
            marks: (0..at)
                .map(|_| Mark { across: Probability::of(0.5), down: Probability::CERTAIN, says: "here\n".into() })
                .collect(),
        })
        .collect();
    let again = chance.below(2) == 0;
    Enquiry {
        version: CURRENT_VERSION,
        envelope: Envelope {
            installer: config.installer.id.clone(),
            client_key: format!("{:032x}", chance.below(u64::MAX)),
            deletion_hash: format!("{:064x}", chance.below(u64::MAX)),
            addition_hash: again.then(|| format!("{:064x}", chance.below(u64::MAX))),
            photo_sizes: photos.iter().map(|_| chance.below(1 << 30)).collect(),
            reference: again.then(|| Reference::from_bits(chance.below(u64::MAX))),
            received: again.then(|| "2026-11-02T10:00:00Z".to_owned()),
            keep_until: again.then_some(config.published),
        },
        payload: Payload {
            contact: Contact {
                name: "Invented Person".into(),
                telephone: if again { "01632 960000".into() } else { String::new() },
                email: if again { String::new() } else { "person@example.invalid".into() },
                reach: again.then(|| one_of(Reach::ALL, chance)),
                note: "two\nlines".into(),
                offers: again,
                ..Contact::default()
            },
            assessment: assessed.then(|| assess(&answers, config)),
            as_of: config.published,
            engine: "0.3.0".into(),
            config: config.version.clone(),
            answers,
            photos,
        },
    }
}

/// A file of recorded jobs by chance, or one job alone.
fn any_jobs(seed: u64, answers: &Answers, enquiry: &Enquiry) -> String {
    let chance = &mut Chance::of(seed, "jobs");
    let job = serde_json::json!({
        "reference": enquiry.envelope.reference,
        "finished": enquiry.payload.as_of.to_string(),
        "answers": answers,
        "assessed": enquiry.payload.assessment,
        "done": [{ "item": one_of(Item::ALL, chance), "quantity": 1.5, "minutes": 30 }, { "item": "survey" }],
        "hours": between(chance, 0.0, 20.0),
        "materials": chance.below(100_000),
        "surprises": [{ "fact": one_of(Found::ALL, chance), "was": true }],
        "unforeseen": ["a wall"],
    });
    written(&if chance.below(2) == 0 { serde_json::json!({ "jobs": [job] }) } else { job })
}
