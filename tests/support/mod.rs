//! Hundreds of invented homes, the same on every machine: some with random answers, some plausible.

pub mod chance;
#[allow(dead_code, reason = "each test file takes what it needs")]
pub mod plausible;

pub use chance::Chance;
use presurvey::answers::topics::TOPICS;
use presurvey::answers::{Along, Answer, AnswerKind, Answers, Length, LengthUnit, RawAnswer, Stretch, Word};
use presurvey::units::Ratio;
use proptest::test_runner::{Config as ProptestConfig, FileFailurePersistence};

/// Checks that a kept file is what the code generates. `cargo xtask accept` writes the file instead; the difference is then to be read
/// before it is committed.
///
/// # Panics
/// If the file differs.
#[allow(dead_code, reason = "each test file takes what it needs")]
pub fn is_kept(file: &std::path::Path, made: &str) {
    if std::env::var_os("PRESURVEY_ACCEPT").is_some() {
        std::fs::write(file, made).unwrap();
    }
    let kept = std::fs::read_to_string(file).unwrap_or_default();
    assert!(
        kept == made,
        "{} is not what the code makes now: run `cargo xtask accept` and read the difference",
        file.display()
    );
}

/// A run of `count` cases, after those that failed in earlier runs, which are kept beside the tests.
#[allow(dead_code, reason = "each test file takes what it needs")]
pub fn cases(count: u32) -> ProptestConfig {
    const KEPT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/laws.proptest-regressions");
    ProptestConfig {
        failure_persistence: Some(Box::new(FileFailurePersistence::Direct(KEPT))),
        ..ProptestConfig::with_cases(count)
    }
}

/// A random answer to a kind of question: not asked, not sure, or a value.
pub fn any_answer(kind: AnswerKind, chance: &mut Chance) -> RawAnswer {
    match chance.below(10) {
        0 => return RawAnswer::Nothing,
        1 | 2 => return RawAnswer::NotSure,
        _ => {}
    }
    match kind {
        AnswerKind::One(words) => RawAnswer::One(chance.below(words.len() as u64) as u8),
        // Hazards and the like are rare: mostly none of the list applies.
        AnswerKind::Any(words) if chance.below(4) == 0 => RawAnswer::Any(chance.below(1 << words.len()) as u32),
        AnswerKind::Any(_) => RawAnswer::Any(0),
        AnswerKind::YesNo => RawAnswer::YesNo(chance.below(2) == 0),
        AnswerKind::Count(least, most) => RawAnswer::Count(least + chance.below(u64::from(most - least) + 1) as u8),
        AnswerKind::Distance => RawAnswer::Distance(any_length(chance)),
        AnswerKind::Stretches => {
            let stretch = |chance: &mut Chance| Stretch {
                along: Along::ALL[chance.below(Along::ALL.len() as u64) as usize],
                length: any_length(chance),
                high: chance.below(4) == 0,
            };
            RawAnswer::Stretches((0..chance.below(5)).map(|_| stretch(chance)).collect())
        }
        AnswerKind::Figure(bounds) => {
            let most = bounds.most.min(120.0);
            RawAnswer::Figure(bounds.least + chance.below(10_000) as f64 / 10_000.0 * (most - bounds.least))
        }
        AnswerKind::Line => RawAnswer::Line("as typed, with \"quotes\" and £".to_owned()),
        AnswerKind::Day => RawAnswer::Line(format!("2026-{:02}-{:02}", chance.below(12) + 1, chance.below(28) + 1)),
        AnswerKind::PostcodeLine => {
            RawAnswer::Line(["ZZ1 1AA", "ZZ9", "BT0 0OO", "ZY1 1AA"][chance.below(4) as usize].to_owned())
        }
    }
}

/// Answers that a random draw may miss: every option of a short list, the least and the greatest value of a figure.
#[allow(dead_code, reason = "each test file takes what it needs")]
pub fn ends(kind: AnswerKind) -> Vec<RawAnswer> {
    match kind {
        AnswerKind::One(words) => (0..words.len()).map(|at| RawAnswer::One(at as u8)).collect(),
        AnswerKind::YesNo => vec![RawAnswer::YesNo(false), RawAnswer::YesNo(true)],
        AnswerKind::Any(_) => vec![RawAnswer::Any(0)],
        AnswerKind::Figure(bounds) => vec![RawAnswer::Figure(bounds.least), RawAnswer::Figure(bounds.most)],
        AnswerKind::Distance => [0.0, 40.0].map(|metres| RawAnswer::Distance(Length::metres(metres))).into(),
        AnswerKind::Count(least, most) => vec![RawAnswer::Count(least), RawAnswer::Count(most)],
        AnswerKind::Stretches | AnswerKind::Line | AnswerKind::PostcodeLine | AnswerKind::Day => Vec::new(),
    }
}

fn any_length(chance: &mut Chance) -> Length {
    let value = chance.below(4000) as f64 / 100.0;
    Length { value: Ratio::of(value), unit: LengthUnit::ALL[chance.below(LengthUnit::ALL.len() as u64) as usize] }
}

/// One invented home with random answers. Each field is drawn with a seed made of the home's seed and the field's path, so that adding a
/// field changes no other.
pub fn any_home(seed: u64) -> Answers {
    let mut answers = Answers::default();
    for (topic, accessors) in TOPICS {
        for accessor in *accessors {
            let mut chance = Chance::of(seed, &[topic, ".", accessor.name].concat());
            let given = within_use(accessor, any_answer(accessor.kind, &mut chance), seed);
            assert!((accessor.set)(&mut answers, &given), "{} took {given:?}", accessor.name);
        }
    }
    if !seed.is_multiple_of(3) {
        calm(&mut answers);
    }
    answers
}

/// Makes most walls as thick as walls are: they are tenths of metres thick, not metres. In one home of eight the drawn value stays.
fn within_use(accessor: &presurvey::answers::FieldAccessor, given: RawAnswer, seed: u64) -> RawAnswer {
    match given {
        RawAnswer::Distance(length) if accessor.name == "wall_thickness" && !seed.is_multiple_of(8) => {
            RawAnswer::Distance(Length { value: Ratio::of(length.value.get() / 40.0), ..length })
        }
        given => given,
    }
}

/// Replaces answers of a random home that would nearly always make it wait for somebody, so that homes of every complexity occur.
fn calm(answers: &mut Answers) {
    say_over(
        answers,
        r#"{"hazard": {"signs": []}, "home": {"tenure": "own", "kind": "semi-detached", "protected": "neither"},
            "parking": {"place": "drive", "shared_drive": false},
            "meter": {"fuse_carriers": 1, "head_conductors": 2, "street_cables": 1},
            "loads": {"showers": 0, "heating": "none", "hot_tub": false, "other_point": "none"},
            "outbuilding": {"board_there": false}, "route": {"ground": "own"}}"#,
    );
    answers.loads.highest_half_hour = Answer::NotAsked;
}

/// Sets the answers of `said`, an answers file, and leaves all others as they were.
pub fn say_over(answers: &mut Answers, said: &str) {
    let said: Answers = serde_json::from_str(said).unwrap_or_else(|why| panic!("{said}: {why}"));
    for accessor in TOPICS.iter().flat_map(|(_, accessors)| *accessors) {
        let given = (accessor.get)(&said);
        if given != RawAnswer::Nothing {
            (accessor.set)(answers, &given);
        }
    }
}

/// Removes the answers to all questions that `said`, an answers file, answers.
#[allow(dead_code, reason = "each test file takes what it needs")]
pub fn unsay(answers: &mut Answers, said: &str) {
    let said: Answers = serde_json::from_str(said).unwrap_or_else(|why| panic!("{said}: {why}"));
    for accessor in TOPICS
        .iter()
        .flat_map(|(_, accessors)| *accessors)
        .filter(|accessor| (accessor.get)(&said) != RawAnswer::Nothing)
    {
        (accessor.set)(answers, &RawAnswer::Nothing);
    }
}
