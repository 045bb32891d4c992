//! What earlier versions wrote opens: answers, setups, published configs. And what became of four hundred homes since, in one table.

#[allow(dead_code, reason = "each test file takes what it needs")]
mod support;

use presurvey::answers::{Answers, Word};
use presurvey::assess;
use presurvey::assessment::{Assessment, Complexity, Gatekeeper, unfolded};
use presurvey::config::{Config, Setup, check_config, check_setup, demo_config};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

fn path(of: &str) -> PathBuf {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../..")).join("tests").join(of)
}

fn lines(of: &str) -> Vec<String> {
    fs::read_to_string(path(&format!("earlier/0.1.0/{of}"))).unwrap().lines().map(str::to_owned).collect()
}

/// The versions whose setups and configs are kept, and the format that their forms read.
const VERSIONS: [(&str, u8); 2] = [("0.1.0", 1), ("0.2.0", 2)];

fn files(version: &str, of: &str) -> Vec<(String, String)> {
    let folder = fs::read_dir(path(&format!("earlier/{version}/{of}"))).unwrap();
    let read = |file: PathBuf| (file.display().to_string(), fs::read_to_string(file).unwrap());
    let mut all: Vec<_> = folder.map(|entry| read(entry.unwrap().path())).collect();
    all.sort();
    assert!(!all.is_empty());
    all
}

fn of_each_version(of: &str) -> Vec<((String, String), u8)> {
    VERSIONS.iter().flat_map(|(version, format)| files(version, of).into_iter().map(|file| (file, *format))).collect()
}

#[test]
fn answers_files_open_and_are_written_as_they_were() {
    for set in SETS {
        let all = lines(&format!("{set}.jsonl"));
        assert_eq!(all.len(), 200);
        for line in all {
            let answers: Answers = serde_json::from_str(&line).unwrap_or_else(|why| panic!("{line}: {why}"));
            assert_eq!(serde_json::to_string(&answers).unwrap(), line);
        }
    }
}

#[test]
fn setups_open_and_can_be_published() {
    for ((name, text), format) in of_each_version("setups") {
        let setup: Setup = serde_json::from_str(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert_eq!(check_setup(&setup), [], "{name}");
        let of_then = fs::read_to_string(name.replace("setups", "configs")).unwrap();
        let published = setup.publish();
        assert_eq!(check_config(&published), [], "{name}");
        let of_then: serde_json::Value = serde_json::from_str(&of_then).unwrap();
        let again = published.in_format(format);
        assert_eq!(own(again), own(of_then), "{name}: published again it is what it was");
    }
}

/// A published config without the lines that the program brings itself, where nobody confirmed them: those follow what the trade takes.
fn own(mut config: serde_json::Value) -> serde_json::Value {
    let assumed = config.get("assumed_lines").and_then(serde_json::Value::as_array).cloned().unwrap_or_default();
    if !assumed.is_empty() {
        config["prices"].as_array_mut().unwrap().retain(|line| !assumed.contains(&line["item"]));
        config.as_object_mut().unwrap().remove("version");
    }
    config
}

#[test]
fn published_configs_open_and_are_written_as_they_were() {
    for ((name, text), format) in of_each_version("configs") {
        let config: Config = serde_json::from_str(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert_eq!(check_config(&config), [], "{name}");
        let before: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(serde_json::to_value(&config).unwrap(), before, "{name}");
        assert_eq!(config.in_format(format), before, "{name}: what a form of then reads");
        let answers: Answers = serde_json::from_str(&lines("plausible.jsonl")[0]).unwrap();
        assert!(!assess(&answers, &config).flags.is_empty());
    }
}

const SETS: [&str; 2] = ["by-chance", "plausible"];

/// What became of one home.
#[derive(Clone, Deserialize)]
struct Outcome {
    set: String,
    home: usize,
    complexity: String,
    /// Who has to answer before a date can be agreed.
    gates: Vec<String>,
    band: Option<[i64; 3]>,
    flags: Vec<String>,
    /// The highest that the home itself draws: its 10 %, likely and 90 % figure, in amperes.
    existing: [f64; 3],
    limit: bool,
    /// How many flags stand unfolded; in 0.1.0 all of them.
    #[serde(default)]
    unfolded: usize,
    /// Whether the class rests on conditions.
    #[serde(default)]
    rests: bool,
    /// Whether the network operator is asked on paper alone.
    #[serde(default)]
    on_paper: bool,
}

impl Outcome {
    fn of(set: &str, home: usize, assessment: &Assessment) -> Self {
        Self {
            set: set.into(),
            home,
            complexity: assessment.complexity.word().into(),
            gates: assessment.gates.iter().filter(|gate| gate.counts).map(|gate| gate.who.word().into()).collect(),
            band: assessment.band.as_ref().map(|band| [band.low.0, band.likely.0, band.high.0]),
            flags: assessment.flags.iter().map(|flag| flag.code.to_string()).collect(),
            existing: assessment.figures.existing_by_use.map(|amps| amps.get()),
            limit: assessment.figures.load_limit,
            unfolded: unfolded(&assessment.flags).0.len(),
            rests: !assessment.settle.is_empty(),
            on_paper: assessment.gates.iter().any(|gate| gate.on_paper),
        }
    }
}

fn before() -> Vec<Outcome> {
    let read = |line: String| serde_json::from_str::<Outcome>(&line).unwrap();
    let mut all: Vec<Outcome> = lines("outcomes.jsonl").into_iter().map(read).collect();
    for one in &mut all {
        one.unfolded = one.flags.len();
    }
    all
}

fn now() -> Vec<Outcome> {
    let config = demo_config();
    let one = |set: &'static str| {
        let config = config.clone();
        lines(&format!("{set}.jsonl"))
            .into_iter()
            .enumerate()
            .map(move |(at, line)| Outcome::of(set, at, &assess(&serde_json::from_str(&line).unwrap(), &config)))
    };
    SETS.into_iter().flat_map(one).collect()
}

/// The value below which that part of a list lies.
fn part(mut values: Vec<i64>, of: usize) -> i64 {
    values.sort_unstable();
    values[(values.len() * of / 100).min(values.len() - 1)]
}

/// One line of the table: what, before, now.
fn row(table: &mut String, what: &str, sets: &[[Vec<Outcome>; 2]; 2], of: impl Fn(&[Outcome]) -> String) {
    let [chance, plausible] = sets;
    let cells = [&chance[0], &chance[1], &plausible[0], &plausible[1]].map(|all| of(all));
    let _ = writeln!(table, "| {what} | {} |", cells.join(" | "));
}

#[test]
fn what_became_of_four_hundred_homes_is_kept_and_every_move_is_meant() {
    let of = |all: &[Outcome], set: &str| all.iter().filter(|one| one.set == set).cloned().collect::<Vec<_>>();
    let (before, now) = (before(), now());
    let sets = SETS.map(|set| [of(&before, set), of(&now, set)]);
    let mut text = String::from(HEAD);
    for complexity in Complexity::WORDS {
        row(&mut text, complexity, &sets, |all| {
            let of_it = |one: &&Outcome| one.complexity == *complexity;
            let (count, rests) =
                (all.iter().filter(of_it).count(), all.iter().filter(of_it).filter(|one| one.rests).count());
            if rests > 0 { format!("{count}, of these {rests} with conditions") } else { count.to_string() }
        });
    }
    for who in Gatekeeper::WORDS {
        row(&mut text, &format!("{who} first"), &sets, |all| {
            all.iter().filter(|one| one.gates.iter().any(|gate| gate == who)).count().to_string()
        });
    }
    row(&mut text, "network operator on paper alone", &sets, |all| {
        all.iter().filter(|one| one.on_paper).count().to_string()
    });
    let three = |values: Vec<i64>| {
        [part(values.clone(), 50), part(values.clone(), 90), part(values, 100)]
            .map(|value| value.to_string())
            .join(" / ")
    };
    row(&mut text, "flags unfolded: median / 90 % / most", &sets, |all| {
        three(all.iter().map(|one| one.unfolded as i64).collect())
    });
    row(&mut text, "flags raised: median / 90 % / most", &sets, |all| {
        three(all.iter().map(|one| one.flags.len() as i64).collect())
    });
    row(&mut text, "with a band", &sets, |all| all.iter().filter(|one| one.band.is_some()).count().to_string());
    row(&mut text, "likely price in pounds: median / 90 % / most", &sets, |all| {
        three(all.iter().filter_map(|one| one.band).map(|[_, likely, _]| likely / 100).collect())
    });
    row(&mut text, "width of the band in pounds: median / 90 % / most", &sets, |all| {
        three(all.iter().filter_map(|one| one.band).map(|[low, _, high]| (high - low) / 100).collect())
    });
    row(&mut text, "the home alone in amperes: median / 90 % / most", &sets, |all| {
        three(all.iter().map(|one| one.existing[1].round() as i64).collect())
    });
    row(&mut text, "designed with a load limit", &sets, |all| all.iter().filter(|one| one.limit).count().to_string());

    let mut moves = BTreeMap::<(usize, [String; 2]), [usize; 2]>::new();
    for (was, is) in before.iter().zip(&now) {
        assert_eq!((&was.set, was.home), (&is.set, is.home));
        if was.complexity != is.complexity {
            let order = |word: &str| Complexity::WORDS.iter().position(|other| *other == word).unwrap();
            let key =
                (order(&was.complexity) * 10 + order(&is.complexity), [was.complexity.clone(), is.complexity.clone()]);
            moves.entry(key).or_default()[usize::from(was.set == "plausible")] += 1;
        }
    }
    text += MOVES;
    for ((_, [from, to]), [chance, plausible]) in &moves {
        let meant = MEANT.iter().find(|(move_, _)| *move_ == [from, to]);
        let why = meant.map(|(_, why)| *why).unwrap_or_else(|| panic!("{from} to {to}: {chance} and {plausible}"));
        let _ = writeln!(text, "| {from} | {to} | {chance} | {plausible} | {why} |");
    }
    let file = path("results/homes.md");
    support::is_kept(&file, &text);
}

const HEAD: &str = "\
# Four hundred homes assessed by an earlier version and by this one

The assessments of version 0.1.0 and of this version compared: four hundred invented homes, two hundred of them with random answers (\"by
chance\") and two hundred plausible ones, assessed with the demo's config. The answers are as version 0.1.0 accepted them
(`tests/earlier/0.1.0`). Each cell counts homes, unless its row says otherwise. Written by `cargo xtask accept` (`tests/earlier.rs`).

| | by chance, 0.1.0 | by chance, now | plausible, 0.1.0 | plausible, now |
| --- | --- | --- | --- | --- |
";

const MOVES: &str = "
## Homes whose complexity changed, and why that is intended

| from | to | by chance | plausible | why |
| --- | --- | --- | --- | --- |
";

/// Every move from one class to another, and why it is meant.
const MEANT: &[([&str; 2], &str)] = &[
    (["straightforward", "more-involved"], DEVICE),
    (["more-involved", "straightforward"], DEVICE),
    (["more-involved", "depends-on-others"], "a battery's charging is load: chance gives batteries of up to 120 kW"),
    (["more-involved", "not-covered"], OUTSIDE),
    (["more-involved", "look-first"], DANGER),
    (["depends-on-others", "straightforward"], ON_PAPER),
    (["depends-on-others", "more-involved"], ON_PAPER),
    (["depends-on-others", "not-covered"], OUTSIDE),
    (["depends-on-others", "look-first"], DANGER),
];

const DEVICE: &str =
    "whether a device for the board can still be had goes by its buttons and its age, no more by one chance for all";
const OUTSIDE: &str = "outside the area, or in Northern Ireland: nothing is said of the job beside a stop";
const DANGER: &str = "a danger that is not ruled out is looked at first, with a wide band";
const ON_PAPER: &str =
    "what the network operator answers on paper, as a rule without works, is a condition and no gate";
