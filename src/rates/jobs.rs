//! Recorded jobs: what a job really took, beside what was estimated for it. A file is one object with `jobs`, or one job a line (JSON
//! Lines).

use jiff::civil::Date;
use model::answers::choices::words;
use model::answers::schema::{WHOLE_NUMBERS, described};
use model::answers::{Age, Answers, BoardCase, HomeKind, TestButtons};
use model::config::fields::fields;
use model::config::{Item, ThreeMinutes};
use model::units::{Hours, Minutes, Pence, Probability, Ratio};
use record::json::{Unreadable, read_json};
use serde::Serialize;

/// A file of recorded jobs.
#[derive(Clone, Debug, Default, PartialEq, Serialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_a_job_alone)]
pub struct Jobs {
    /// The jobs.
    #[schemars(length(min = 1))]
    pub jobs: Vec<Job>,
}

/// A job that was done. Everything may be left out; what is missing is not counted, and the report says so.
#[derive(Clone, Debug, Default, PartialEq, Serialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Job {
    /// The enquiry's reference, or any name to find it by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// The day it was finished.
    #[serde(with = "model::answers::day::option", skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<model::answers::schema::Day>")]
    pub finished: Option<Date>,
    /// What was answered then.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answers: Option<Answers>,
    /// What was estimated then: a whole assessment, or its band and bill alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assessed: Option<AssessedThen>,
    /// The work that was done; if left out, all lines of the bill that were more likely than not.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub done: Vec<Done>,
    /// Hours that one person worked, the way there and back included where the bill has it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hours: Option<Hours>,
    /// Hours that a second person worked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub second_hours: Option<Hours>,
    /// The cost of materials before VAT and mark-up, without the charge point.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub materials: Option<Pence>,
    /// Which charge point was fitted: its short name in the setup.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub charge_point: Option<String>,
    /// What was invoiced, VAT included.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub paid: Option<Pence>,
    /// What showed on site and nobody could tell before.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub surprises: Vec<Surprise>,
    /// Work that is none of the items, in words.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub unforeseen: Vec<String>,
}

/// The parts of an assessment that are compared with a job; a whole assessment may be given, its other fields are ignored.
#[derive(Clone, Debug, Default, PartialEq, Serialize, schemars::JsonSchema)]
#[serde(default)]
pub struct AssessedThen {
    /// The band that was shown.
    pub band: Option<BandThen>,
    /// The bill.
    pub work: Vec<WorkThen>,
}

/// The band that was shown, VAT and charge point included.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, schemars::JsonSchema)]
pub struct BandThen {
    /// Its low end.
    pub low: Pence,
    /// The likeliest.
    pub likely: Pence,
    /// Its high end.
    pub high: Pence,
}

/// A line of the bill.
#[derive(Clone, Debug, PartialEq, Serialize, schemars::JsonSchema)]
pub struct WorkThen {
    /// The item.
    pub item: Item,
    /// How probable it was to be needed.
    #[serde(default = "certain")]
    pub probability: Probability,
    /// How many of its unit.
    pub quantity: Ratio,
    /// The labour that was foreseen for that many.
    #[serde(default)]
    pub minutes: ThreeMinutes,
}

fields!(Jobs { jobs });
fields!(Job { reference default, finished maybe_day, answers default, assessed default, done default, hours default, second_hours default, materials default, charge_point default, paid default, surprises default, unforeseen default });
fields!(others AssessedThen { band default, work default });
fields!(others BandThen { low, likely, high });
fields!(others WorkThen { item, probability or certain, quantity, minutes default });
fields!(Done { item, quantity or one, minutes default });
fields!(Surprise { fact, was });

/// A file holds jobs, or one alone. (A job a line is no JSON document, and has no schema.)
fn or_a_job_alone(schema: &mut schemars::Schema) {
    let parts = ["type", "properties", "required", "additionalProperties"];
    let jobs = parts.into_iter().filter_map(|part| Some((part.to_owned(), schema.remove(part)?)));
    let jobs: serde_json::Map<_, _> = jobs.collect();
    schema.insert("anyOf".to_owned(), serde_json::json!([jobs, { "$ref": "#/$defs/Job" }]));
    let what = "A file of recorded jobs, or one recorded job alone. A file may also hold a job a line (JSON Lines).";
    schema.insert("description".to_owned(), described(what, &[WHOLE_NUMBERS]).into());
}

fn certain() -> Probability {
    Probability::CERTAIN
}

/// An item that was done.
#[derive(Clone, Debug, PartialEq, Serialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The item.
    pub item: Item,
    /// How many of its unit.
    #[serde(default = "one")]
    pub quantity: Ratio,
    /// How long it took, if that was noted; these minutes are part of the hours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minutes: Option<Minutes>,
}

fn one() -> Ratio {
    Ratio::of(1.0)
}

/// A fact that showed on site and nobody could tell before.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Surprise {
    /// Which fact.
    pub fact: Found,
    /// Whether it was true.
    pub was: bool,
}

words! {
    /// What can show on site; where nobody can tell before, the estimate rests on an assumption.
    pub enum Found {
        /// The supply was looped.
        Looped => "looped",
        /// The supply was three-phase.
        ThreePhase => "three-phase",
        /// The board had fuse wire.
        FuseWire => "fuse-wire",
        /// There was a spare way.
        SpareWay => "spare-way",
        /// There was a way that is not behind a shared residual-current device.
        OwnWay => "own-way",
        /// A way of a full board could be freed.
        WayFreed => "way-freed",
        /// A double-pole device of the right kind could be had for the board.
        DeviceAvailable => "device-available",
        /// There was a switch between meter and board.
        SwitchAfterMeter => "switch-after-meter",
        /// The board had surge protection.
        SurgeDevice => "surge-device",
        /// The signal at the spot was weak.
        WeakSignal => "weak-signal",
        /// The gas came in by a metal pipe.
        GasMetal => "gas-metal",
        /// The water came in by a metal pipe.
        WaterMetal => "water-metal",
        /// A metal gas pipe was not bonded.
        GasUnbonded => "gas-unbonded",
        /// A metal water pipe was not bonded.
        WaterUnbonded => "water-unbonded",
    }
}

/// The path of an assumption in a setup, from `priors` down.
pub type Place = &'static [&'static str];

fn by_age(answers: &Answers, steps: [Place; 4]) -> Place {
    match answers.home.age.known() {
        Some(Age::Before1930 | Age::To1966) => steps[0],
        Some(Age::To1999) => steps[1],
        Some(Age::Since2000) => steps[2],
        None => steps[3],
    }
}

/// The four paths of an assumption that depends on the home's age.
macro_rules! ages {
    ($answers:expr, $name:literal) => {
        by_age(
            $answers,
            [
                &["priors", $name, "before_1967"],
                &["priors", $name, "to_1999"],
                &["priors", $name, "since_2000"],
                &["priors", $name, "unknown"],
            ],
        )
    };
}

/// The five paths of an assumption that depends on the kind of home.
macro_rules! homes {
    ($answers:expr, $name:literal) => {
        match $answers.home.kind.known() {
            Some(HomeKind::Detached) => &["priors", $name, "detached"] as Place,
            Some(HomeKind::Semi) => &["priors", $name, "semi_detached"],
            Some(HomeKind::Terrace) => &["priors", $name, "terrace"],
            Some(HomeKind::Flat) => &["priors", $name, "flat"],
            None => &["priors", $name, "unknown"],
        }
    };
}

impl Found {
    /// The path of the assumption that these answers led to; `None` if they settled the fact, or led to another kind of assumption.
    #[must_use]
    pub fn assumed(self, answers: &Answers) -> Option<Place> {
        let (meter, board, earthing) = (&answers.meter, &answers.board, &answers.earthing);
        let carriers = meter.fuse_carriers.known().map(|count| count.get());
        let conductors = meter.head_conductors.known().map(|count| count.get());
        let cables = meter.street_cables.known().map(|count| count.get());
        let unless = |settled: bool, place: Place| (!settled).then_some(place);
        match self {
            Self::Looped => match (carriers, conductors) {
                // As the supply is inferred: counted and plain, counted and suspect, or not counted.
                (Some(1), Some(2) | None) | (None, Some(2)) if cables.is_some_and(|count| count >= 2) => {
                    Some(&["priors", "loop_indicated"])
                }
                (Some(1), Some(4)) => Some(&["priors", "loop_indicated"]),
                // In a later home the age makes a loop rarer, so there these figures do not apply alone.
                _ if !answers.home.age.known().is_some_and(|age| matches!(age, Age::Before1930 | Age::To1966)) => None,
                (Some(1), Some(2)) | (None, Some(2)) => Some(homes!(answers, "loop_unseen")),
                (Some(1), None) if cables.is_some() => Some(homes!(answers, "loop_unseen")),
                (Some(1) | None, None) => Some(homes!(answers, "loop_uncounted")),
                _ => None,
            },
            Self::ThreePhase => unless(
                carriers.is_some() || conductors.is_some() || cables.is_some_and(|count| count >= 2),
                &["priors", "three_phase"],
            ),
            Self::FuseWire => unless(board.protection.known().is_some(), ages!(answers, "fuse_wire")),
            Self::SpareWay => unless(board.spare_ways.known().is_some(), ages!(answers, "spare_way")),
            Self::OwnWay => match board.test_buttons.known() {
                Some(TestButtons::Two) => Some(&["priors", "own_way_two_buttons"]),
                Some(_) => None,
                None => Some(&["priors", "own_way_unknown"]),
            },
            Self::WayFreed => Some(&["priors", "way_freed"]),
            // Boards with a metal case or no readable name have an assumption of their own.
            Self::DeviceAvailable if board.case.is(BoardCase::Metal) || board.maker.is_not_sure() => None,
            Self::DeviceAvailable => Some(match board.test_buttons.known() {
                Some(TestButtons::None) => &["priors", "device_by_buttons", "none"],
                Some(TestButtons::One) => &["priors", "device_by_buttons", "one"],
                Some(TestButtons::Two) => &["priors", "device_by_buttons", "two"],
                Some(TestButtons::EachWay) => &["priors", "device_by_buttons", "each_way"],
                None => &["priors", "device_available"],
            }),
            Self::SwitchAfterMeter => unless(meter.switch_after.known().is_some(), &["priors", "switch_after_meter"]),
            Self::SurgeDevice => unless(board.surge_device.known().is_some(), ages!(answers, "surge_device")),
            Self::WeakSignal => {
                let signal = &answers.signal;
                unless(signal.wifi_bars.known().is_some() || signal.data_cable.is(true), &["priors", "weak_signal"])
            }
            Self::GasMetal => unless(earthing.gas_pipe.known().is_some(), ages!(answers, "metal_pipe")),
            Self::WaterMetal => unless(earthing.water_pipe.known().is_some(), ages!(answers, "metal_pipe")),
            Self::GasUnbonded => unbonded(answers, earthing.gas_clamp.known()),
            Self::WaterUnbonded => unbonded(answers, earthing.water_clamp.known()),
        }
    }
}

fn unbonded(answers: &Answers, clamp: Option<&bool>) -> Option<Place> {
    match clamp {
        Some(true) => None,
        Some(false) => Some(&["priors", "unbonded_no_clamp_seen"]),
        None => Some(ages!(answers, "unbonded")),
    }
}

/// Why a file of jobs could not be read.
#[derive(Debug, thiserror::Error)]
pub enum NoJobs {
    /// The file as a whole, or its list of jobs.
    #[error("{0}")]
    Whole(Unreadable),
    /// One line.
    #[error("line {line}: {why}")]
    Line {
        /// Its number, from one.
        line: usize,
        /// Why.
        why: Unreadable,
    },
    /// There is no job in it.
    #[error("no job is in it; it may be an object with `jobs`, or a job a line")]
    None,
}

/// Reads a file of jobs.
///
/// # Errors
/// [`NoJobs`], with line and field, what was there and what it may be.
pub fn read(file: &[u8]) -> Result<Vec<Job>, NoJobs> {
    let jobs = match serde_json::from_slice::<serde_json::Value>(file) {
        Ok(whole) if whole.get("jobs").is_some() => read_json::<Jobs>(file).map_err(NoJobs::Whole)?.jobs,
        Ok(_) => vec![read_json(file).map_err(NoJobs::Whole)?],
        Err(_) => file
            .split(|byte| *byte == b'\n')
            .enumerate()
            .filter(|(_, line)| !line.trim_ascii().is_empty())
            .map(|(at, line)| read_json(line).map_err(|why| NoJobs::Line { line: at + 1, why }))
            .collect::<Result<_, _>>()?,
    };
    if jobs.is_empty() { Err(NoJobs::None) } else { Ok(jobs) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Word};

    #[test]
    fn a_list_or_a_job_a_line() {
        let two = br#"{"jobs":[{"hours":6.5,"paid":99000},{"reference":"second"}]}"#;
        let lines = b"{\"hours\":6.5,\"paid\":99000}\n\n{\"reference\":\"second\"}\n";
        assert_eq!(read(two).unwrap(), read(lines).unwrap());
        assert_eq!(read(b"{\"hours\":6.5}").unwrap().len(), 1);
    }

    #[test]
    fn what_is_wrong_is_named() {
        let words = |file: &[u8]| read(file).unwrap_err().to_string();
        assert!(words(b"{\"hours\":1}\n{\"hours\":-1}\n").contains("line 2"));
        assert!(words(b"{\"jobs\":[{\"hour\":1}]}").contains("hour"));
        assert!(words(b"{\"jobs\":[]}").contains("no job"));
        assert!(words(b"").contains("no job"));
        assert!(words(b"{\"surprises\":[{\"fact\":\"haunted\",\"was\":true}]}").contains("haunted"));
    }

    #[test]
    fn a_whole_assessment_is_taken_as_what_was_assessed() {
        let assessment = engine::assess(&Answers::default(), &model::config::demo_config());
        let job = serde_json::json!({ "assessed": assessment });
        let read = read(job.to_string().as_bytes()).unwrap();
        assert_eq!(read[0].assessed.as_ref().unwrap().work.len(), assessment.work.len());
    }

    /// Every path leads to an assumption of a setup.
    #[test]
    fn every_assumption_stands_in_the_setup() {
        let setup = model::config::demo_setup().whole();
        for buttons in TestButtons::ALL.iter().copied().map(Answer::Known).chain([Answer::NotAsked]) {
            let mut answers = Answers::default();
            answers.home.age = Answer::Known(Age::Before1930);
            answers.board.test_buttons = buttons;
            for found in Found::ALL {
                // Whether a way is behind no shared device is settled by the buttons, unless there are two.
                let Some(place) = found.assumed(&answers) else {
                    assert!(*found == Found::OwnWay && !buttons.is(TestButtons::Two), "{found:?}");
                    continue;
                };
                let path = ["/", &place.join("/")].concat();
                assert!(setup.pointer(&path).is_some_and(serde_json::Value::is_number), "{path}");
            }
        }
    }
}
