//! What parts cost, held against what the trade would be expected to pay for them. Common practice, from memory, no source.

use super::{count, home_under, quiet};
use presurvey::answers::{Along, Answer, Answers, EarthGoes, Length};
use presurvey::config::{CostLine, Item, default_lines, demo_config, demo_setup};
use presurvey::units::Pence;

/// The lines that come with the program, and the demo's.
fn lists() -> [Vec<CostLine>; 2] {
    [default_lines(), demo_setup().lines()]
}

fn cost(list: &[CostLine], item: Item) -> [i64; 3] {
    let cost = list.iter().find(|line| line.item == item).unwrap().cost;
    [cost.low, cost.likely, cost.high].map(|pence| pence.0)
}

/// A device that senses a broken combined conductor: £150 to £300 at cost, £300 to £500 for three phases.
#[test]
fn a_device_against_a_broken_neutral_costs_what_it_does() {
    for list in lists() {
        let [low, likely, high] = cost(&list, Item::OpenPenDevice);
        assert!(low >= 15_000 && high <= 30_000 && low < likely && likely < high, "{low} {likely} {high}");
        let extra = cost(&list, Item::OpenPenThreePhase);
        let [low, likely, high] = [low + extra[0], likely + extra[1], high + extra[2]];
        assert!(low >= 30_000 && high <= 50_000 && low < likely && likely < high, "{low} {likely} {high}");
    }
}

/// From 6 mm² to 10 mm² armoured over 45 m: £150 to £250 more.
#[test]
fn ten_square_millimetres_over_forty_five_metres_cost_more_by_what_they_do() {
    for list in lists() {
        let [low, likely, high] = cost(&list, Item::LargerCable).map(|pence| pence * 45);
        assert!(low >= 15_000 && high <= 25_000 && low < likely && likely < high, "{low} {likely} {high}");
    }
}

#[test]
fn on_three_phases_the_device_is_one_for_three() {
    let mut config = demo_config();
    config.charge_points.iter_mut().for_each(|point| point.open_pen_sensing = false);
    let of = |carriers: u8, conductors: u8| {
        let say = move |answers: &mut Answers| {
            quiet(answers);
            answers.meter.fuse_carriers = count(carriers);
            answers.meter.head_conductors = count(conductors);
            answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
            answers.route.length = Answer::Known(Length::metres(8.0));
            answers.route.mostly = Answer::Known(Along::OutsideWall);
        };
        let seen = home_under(&config, say);
        let of = |item| seen.work.iter().find(|line| line.item == item).map(|line| line.materials);
        (of(Item::OpenPenDevice), of(Item::OpenPenThreePhase))
    };
    let ((one, none), (device, extra)) = (of(1, 2), of(3, 4));
    assert_eq!(none, None);
    assert_eq!(one, device);
    assert!(extra.is_some_and(|extra| extra > Pence(15_000)));
}
