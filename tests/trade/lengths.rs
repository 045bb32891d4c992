//! Lengths beyond use are asked about before anything is priced by them; answers already given are not asked for roughly.

use super::{home, quiet};
use presurvey::answers::{Along, Answer, Answers, BoundedCount, Length, ParkingPlace, Stretch};
use presurvey::assessment::NoBand;
use presurvey::config::demo_config;
use presurvey::record::ViewModel;
use presurvey::units::Pence;

fn drive(answers: &mut Answers) {
    quiet(answers);
    answers.parking.place = Answer::Known(ParkingPlace::Drive);
}

/// A wall 30 m thick, a run of 1,000 m: no band, and which answer to look at again.
#[test]
fn a_length_that_nobody_means_is_not_priced_and_says_which_answer_to_look_at() {
    type Say = fn(&mut Answers);
    let slips: [(Say, &str); 3] = [
        (|answers| answers.route.length = Answer::Known(Length::metres(1000.0)), "route-length"),
        (
            |answers| {
                answers.route.walls = Answer::Known(BoundedCount::new(1).unwrap());
                answers.route.wall_thickness = Answer::Known(Length::metres(30.0));
            },
            "wall-thickness",
        ),
        (
            |answers| {
                answers.route.stretches =
                    Answer::Known(vec![Stretch { along: Along::Inside, length: Length::metres(1000.0), high: false }]);
            },
            "route-stretches",
        ),
    ];
    for (slip, question) in slips {
        let seen = home(|answers| {
            drive(answers);
            slip(answers);
        });
        assert_eq!((seen.band, seen.no_band), (None, Some(NoBand::LengthBeyondUse)), "{question}");
        assert!(seen.work.is_empty() && seen.sums.with_vat == Pence(0), "{question}");
        assert!(seen.flags.iter().any(|flag| flag.code == "length-beyond-use"), "{question}");
        let shown = ViewModel::of(&seen, &demo_config());
        assert_eq!(shown.open[0].question, question, "what to look at again comes first");
    }
    let long = home(|answers| {
        drive(answers);
        answers.route.length = Answer::Known(Length::metres(60.0));
    });
    assert!(long.band.is_some(), "a long way is met, and priced");
}

/// Whoever said the way stretch by stretch is not asked roughly again.
#[test]
fn what_the_stretches_answered_is_not_offered() {
    let seen = home(|answers| {
        drive(answers);
        answers.parking.shared_drive = Answer::Known(true);
        answers.route.ground = Answer::NotSure;
        let stretch = |along, metres| Stretch { along, length: Length::metres(metres), high: false };
        answers.route.stretches = Answer::Known(vec![stretch(Along::Inside, 4.0), stretch(Along::SoftGround, 9.0)]);
    });
    for id in ["route-length", "route-mostly", "walls", "ground"] {
        assert!(!seen.open.iter().any(|open| open.question == id), "{id} is offered");
    }
}

/// What neither moves the price nor settles a wait is not offered.
#[test]
fn what_moves_nothing_is_not_offered() {
    let seen = home(drive);
    for open in ViewModel::of(&seen, &demo_config()).open {
        assert!(!["solar", "battery"].contains(&&*open.question), "{open:?}");
    }
    let plain = home(|answers| {
        drive(answers);
        answers.meter.carrier_rating = Answer::Known(presurvey::units::Amps::of(100.0));
    });
    assert!(plain.open.iter().all(|open| open.settles || open.narrows_by > Pence(0)), "{:?}", plain.open);
}
