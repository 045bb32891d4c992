//! Invented homes as an installer may receive them: answers that go together in real homes go together here.
//!
//! Shares and spreads are invented for the tests; common practice, no source. Each answer is drawn from a seed of its own, made of
//! the home's and the field's path, so that a question that is added changes itself and no other.

use super::{Chance, say_over};
use presurvey::answers::Answers;
use presurvey::questions::to_ask;
use serde_json::{Value, json};

/// Values, each with the number of homes in a hundred that have it; `null` means "not asked".
type Shares = Vec<(Value, u64)>;

/// A home being drawn.
struct Home {
    seed: u64,
    answers: Answers,
}

impl Home {
    /// Draws one of the values by their shares.
    fn draw(&self, name: &str, of: Shares) -> Value {
        let mut at = Chance::of(self.seed, name).below(of.iter().map(|(_, share)| share).sum());
        for (value, share) in of {
            match at.checked_sub(share) {
                Some(left) => at = left,
                None => return value,
            }
        }
        unreachable!("a number below the sum of all shares lies in one of them")
    }

    /// Draws an answer and sets it.
    fn say(&mut self, path: &str, of: Shares) -> Value {
        let value = self.draw(path, of);
        if !value.is_null() {
            let (topic, field) = path.split_once('.').expect("a path names topic and field");
            say_over(&mut self.answers, &json!({ topic: { field: value } }).to_string());
        }
        value
    }

    /// Draws a number from `least` to `most` in steps of `step`.
    fn between(&self, name: &str, least: f64, most: f64, step: f64) -> f64 {
        let steps = ((most - least) / step).round() as u64;
        // The lower of two draws, as short is commoner than long.
        let mut chance = Chance::of(self.seed, &[name, " between"].concat());
        least + chance.below(steps + 1).min(chance.below(steps + 1)) as f64 * step
    }

    /// Whether a question of the optional part was answered: one in four is.
    fn is_answered(&self, name: &str) -> bool {
        Chance::of(self.seed, &[name, " answered"].concat()).below(4) == 0
    }
}

/// The shares given, scaled to leave `unsure` of a hundred homes that are "not sure".
fn or_not_sure(of: Shares, unsure: u64) -> Shares {
    let sum: u64 = of.iter().map(|(_, share)| share).sum();
    let scaled = of.into_iter().map(|(value, share)| (value, share * (100 - unsure)));
    scaled.chain([(json!("not-sure"), unsure * sum)]).collect()
}

/// A plausible home; the same seed gives the same home.
pub fn plausible_home(seed: u64) -> Answers {
    let mut home = Home { seed, answers: Answers::default() };
    building(&mut home);
    uses(&mut home);
    way(&mut home);
    meter(&mut home);
    board(&mut home);
    hazard(&mut home);
    rest(&mut home);
    // The form would not have asked the other questions.
    asked_alone(home.answers)
}

fn building(home: &mut Home) {
    let kind = home.say(
        "home.kind",
        vec![(json!("detached"), 33), (json!("semi-detached"), 35), (json!("terrace"), 23), (json!("flat"), 9)],
    );
    home.say(
        "home.age",
        or_not_sure(
            vec![
                (json!("before-1930"), 18),
                (json!("1930-1966"), 30),
                (json!("1967-1999"), 32),
                (json!("since-2000"), 20),
            ],
            6,
        ),
    );
    home.say(
        "home.postcode",
        vec![(json!("ZZ1 1AA"), 60), (json!("ZZ9"), 33), (json!("ZY1 1AA"), 4), (json!("BT0"), 1), (Value::Null, 2)],
    );
    home.say(
        "home.tenure",
        if kind == "flat" {
            vec![(json!("lease"), 60), (json!("rent"), 25), (json!("own"), 15)]
        } else {
            vec![(json!("own"), 92), (json!("rent"), 5), (json!("lease"), 2), (json!("not-sure"), 1)]
        },
    );
    home.say(
        "parking.place",
        match kind.as_str() {
            Some("flat") => vec![(json!("shared-car-park"), 65), (json!("street"), 20), (json!("drive"), 15)],
            Some("terrace") => vec![
                (json!("drive"), 62),
                (json!("street"), 24),
                (json!("detached-garage"), 8),
                (json!("attached-garage"), 6),
            ],
            _ => vec![
                (json!("drive"), 82),
                (json!("attached-garage"), 9),
                (json!("detached-garage"), 8),
                (json!("street"), 1),
            ],
        },
    );
}

fn uses(home: &mut Home) {
    home.say("loads.showers", vec![(json!(0), 48), (json!(1), 43), (json!(2), 7), (json!("not-sure"), 2)]);
    home.say(
        "loads.cooking",
        vec![(json!("electric"), 52), (json!("mixed"), 35), (json!("gas"), 12), (json!("not-sure"), 1)],
    );
    home.say(
        "loads.heating",
        vec![
            (json!("none"), 80),
            (json!("heat-pump"), 10),
            (json!("storage"), 5),
            (json!("direct"), 4),
            (json!("not-sure"), 1),
        ],
    );
    home.say("loads.hot_tub", vec![(json!(false), 95), (json!(true), 5)]);
    home.say("loads.other_point", vec![(json!("none"), 91), (json!("replaced"), 6), (json!("kept"), 3)]);
    home.say(
        "wish.outlet",
        vec![(json!("lead"), 55), (json!("socket"), 20), (json!("either"), 20), (json!("not-sure"), 5)],
    );
    home.say("wish.follow_solar", vec![(json!(false), 65), (json!(true), 28), (json!("not-sure"), 7)]);
    home.say("wish.hold_back", vec![(json!(true), 70), (json!(false), 15), (json!("not-sure"), 15)]);
}

fn way(home: &mut Home) {
    home.say("outbuilding.board_there", vec![(json!(true), 40), (json!(false), 40), (json!("not-sure"), 20)]);
    home.say(
        "parking.inlet",
        vec![
            (json!("front-left"), 20),
            (json!("front-right"), 12),
            (json!("rear-left"), 22),
            (json!("rear-right"), 20),
            (json!("front"), 10),
            (json!("not-known-yet"), 12),
            (json!("not-sure"), 4),
        ],
    );
    let far = home.draw("how far", vec![(json!("near"), 62), (json!("middling"), 28), (json!("far"), 10)]);
    let (least, most) = match far.as_str() {
        Some("near") => (2.0, 14.0),
        Some("middling") => (8.0, 28.0),
        _ => (20.0, 60.0),
    };
    let unit = home.draw("unit", vec![(json!("paces"), 60), (json!("metres"), 32), (json!("feet"), 8)]);
    let value = home.between("route.length", least, most, if unit == "metres" { 0.5 } else { 1.0 });
    let value = if unit == "feet" { (value * 3.28).round() } else { value };
    home.say("route.length", or_not_sure(vec![(json!({"value": value, "unit": unit}), 1)], 7));
    home.say(
        "route.mostly",
        or_not_sure(
            vec![
                (json!("outside-wall"), 56),
                (json!("inside"), 15),
                (json!("loft-or-floor"), 9),
                (json!("paving"), 9),
                (json!("soft-ground"), 8),
                (json!("fence"), 3),
            ],
            9,
        ),
    );
    home.say(
        "signal.wifi_bars",
        or_not_sure(vec![(json!(4), 25), (json!(3), 30), (json!(2), 25), (json!(1), 13), (json!(0), 7)], 10),
    );
}

fn meter(home: &mut Home) {
    let (kind, age) = (home.answers.home.kind, home.answers.home.age);
    let in_a_row = [presurvey::answers::HomeKind::Terrace, presurvey::answers::HomeKind::Semi];
    let old = [presurvey::answers::Age::Before1930, presurvey::answers::Age::To1966];
    let may_loop =
        kind.known().is_some_and(|kind| in_a_row.contains(kind)) && age.known().is_some_and(|age| old.contains(age));
    home.say(
        "meter.place",
        vec![
            (json!("outside-box"), 38),
            (json!("cupboard"), 32),
            (json!("indoors"), 22),
            (json!("communal"), 4),
            (json!("not-sure"), 4),
        ],
    );
    let supply = home.draw(
        "supply",
        if may_loop {
            vec![(json!("single"), 72), (json!("looped"), 25), (json!("three"), 2), (json!("odd"), 1)]
        } else {
            vec![(json!("single"), 92), (json!("looped"), 2), (json!("three"), 5), (json!("odd"), 1)]
        },
    );
    let (carriers, conductors, cables) = match supply.as_str() {
        Some("looped") => (1, 4, 1 + home.draw("two cables", vec![(json!(0), 1), (json!(1), 1)]).as_u64().unwrap_or(0)),
        Some("three") => (3, 4, 1),
        Some("odd") => (2, 3, 1),
        _ => (1, 2, 1),
    };
    home.say("meter.fuse_carriers", or_not_sure(vec![(json!(carriers), 97), (json!(2), 3)], 12));
    home.say("meter.street_cables", or_not_sure(vec![(json!(cables), 1)], 18));
    home.say("meter.head_conductors", or_not_sure(vec![(json!(conductors), 94), (json!(3), 6)], 24));
}

fn board(home: &mut Home) {
    let modern = home.answers.home.age.is(presurvey::answers::Age::Since2000);
    home.say(
        "board.protection",
        or_not_sure(
            vec![(json!("breakers"), if modern { 100 } else { 92 }), (json!("fuse-wire"), if modern { 0 } else { 8 })],
            5,
        ),
    );
    home.say(
        "board.test_buttons",
        or_not_sure(vec![(json!("two"), 40), (json!("each-way"), 24), (json!("one"), 24), (json!("none"), 12)], 8),
    );
    home.say(
        "board.spare_ways",
        or_not_sure(vec![(json!("none"), 42), (json!("one"), 25), (json!("several"), 33)], 14),
    );
}

fn hazard(home: &mut Home) {
    home.say(
        "hazard.signs",
        vec![
            (json!([]), 920),
            (json!("not-sure"), 40),
            (json!(["discolouration"]), 8),
            (json!(["buzzing"]), 8),
            (json!(["burning-smell"]), 7),
            (json!(["tingle"]), 6),
            (json!(["bare-metal"]), 5),
            (json!(["arcing"]), 4),
            (json!(["melted-plastic", "discolouration"]), 2),
        ],
    );
    home.say(
        "hazard.place",
        vec![
            (json!("board"), 40),
            (json!("meter"), 20),
            (json!("service-head"), 12),
            (json!("elsewhere"), 23),
            (json!("not-sure"), 5),
        ],
    );
}

/// Answers that some homeowners add after the result.
fn rest(home: &mut Home) {
    let figure = |home: &Home, path: &str, least, most, step| json!(home.between(path, least, most, step));
    let metres = |value: f64| json!({"value": value, "unit": "metres"});
    let [shower, cooker, heating] = [
        ("loads.shower_power", 7.5, 10.5, 0.5),
        ("loads.cooking_power", 3.0, 12.0, 0.5),
        ("loads.heating_power", 2.0, 12.0, 0.5),
    ]
    .map(|(path, least, most, step)| figure(home, path, least, most, step));
    let half_hour = figure(home, "loads.highest_half_hour", 1.0, 7.0, 0.1);
    let solar = home.draw("solar", vec![(json!(0), 72), (json!(3.6), 18), (json!(5), 8), (json!(8), 2)]);
    let battery = home.draw("battery", vec![(json!(0), 86), (json!(3.6), 9), (json!(5), 5)]);
    let [to_board, gas, spot] =
        [("meter.to_board", 0.5, 8.0), ("earthing.gas_meter_distance", 0.5, 9.0), ("parking.spot_to_car", 0.5, 4.0)]
            .map(|(path, least, most)| metres(home.between(path, least, most, 0.5)));
    let miles = figure(home, "parking.miles_a_day", 5.0, 80.0, 5.0);
    let answers: Vec<(&str, Shares)> = vec![
        ("home.protected", vec![(json!("neither"), 88), (json!("conservation-area"), 9), (json!("listed"), 3)]),
        ("loads.shower_power", or_not_sure(vec![(shower, 1)], 30)),
        ("loads.cooking_power", or_not_sure(vec![(cooker, 1)], 40)),
        ("loads.heating_power", or_not_sure(vec![(heating, 1)], 40)),
        ("loads.highest_half_hour", or_not_sure(vec![(half_hour, 1)], 40)),
        ("loads.solar_power", vec![(solar, 1)]),
        ("loads.battery_power", vec![(battery, 1)]),
        ("loads.operator_letter", vec![(json!(true), 60), (json!(false), 15), (json!("not-sure"), 25)]),
        ("wish.lead_length", vec![(metres(5.0), 40), (metres(7.0), 50), (metres(10.0), 10)]),
        ("wish.holder", vec![(json!(true), 60), (json!(false), 40)]),
        (
            "wish.steered_by",
            vec![(json!("car"), 30), (json!("charge-point"), 30), (json!("neither"), 20), (json!("not-sure"), 20)],
        ),
        ("wish.bought", vec![(json!(false), 94), (json!(true), 6)]),
        ("wish.bought_papers", vec![(json!(true), 60), (json!(false), 40)]),
        ("parking.cars", vec![(json!(1), 78), (json!(2), 22)]),
        ("parking.miles_a_day", vec![(miles, 1)]),
        ("parking.car_comes", vec![(json!("here"), 45), (json!("within-a-month"), 35), (json!("later"), 20)]),
        ("parking.spot_to_car", or_not_sure(vec![(spot, 1)], 10)),
        ("parking.shared_drive", vec![(json!(false), 88), (json!(true), 12)]),
        ("earthing.gas_meter_distance", or_not_sure(vec![(gas, 1)], 35)),
        ("route.ground", vec![(json!("own"), 90), (json!("shared"), 6), (json!("others"), 2), (json!("footway"), 2)]),
        ("route.walls", vec![(json!(0), 12), (json!(1), 62), (json!(2), 22), (json!(3), 4)]),
        ("route.wall_thickness", or_not_sure(vec![(metres(0.3), 75), (metres(0.5), 25)], 30)),
        ("route.overhead_line", vec![(json!(false), 90), (json!(true), 10)]),
        ("route.builders_cable", vec![(json!(false), 94), (json!(true), 6)]),
        ("signal.mobile_bars", vec![(json!(4), 35), (json!(3), 30), (json!(2), 20), (json!(1), 10), (json!(0), 5)]),
        ("signal.data_cable", vec![(json!(false), 93), (json!(true), 7)]),
        ("meter.carrier_rating", or_not_sure(vec![(json!(60), 20), (json!(80), 35), (json!(100), 45)], 45)),
        (
            "meter.kind",
            vec![(json!("smart"), 62), (json!("one-rate"), 22), (json!("two-rate"), 12), (json!("prepayment"), 4)],
        ),
        ("meter.switch_after", vec![(json!(false), 55), (json!(true), 20), (json!("not-sure"), 25)]),
        ("meter.to_board", or_not_sure(vec![(to_board, 1)], 15)),
        (
            "meter.backing",
            vec![(json!("wood"), 40), (json!("other"), 45), (json!("dark-or-fibrous"), 5), (json!("not-sure"), 10)],
        ),
        (
            "earthing.conductor_goes",
            or_not_sure(vec![(json!("service-head"), 58), (json!("cable-sheath"), 30), (json!("rod"), 12)], 40),
        ),
        ("board.boards", vec![(json!(1), 86), (json!(2), 14)]),
        ("board.case", vec![(json!("plastic"), 55), (json!("metal"), 43), (json!("wood"), 2)]),
        ("board.rcd_type", or_not_sure(vec![(json!("ac"), 55), (json!("a"), 45)], 50)),
        ("board.surge_device", vec![(json!(false), 62), (json!(true), 18), (json!("not-sure"), 20)]),
        ("board.wall_space", vec![(json!(true), 75), (json!(false), 15), (json!("not-sure"), 10)]),
        ("board.report", vec![(json!(false), 70), (json!(true), 30)]),
        (
            "earthing.gas_pipe",
            vec![(json!("metal"), 60), (json!("no-pipe"), 15), (json!("plastic"), 5), (json!("not-sure"), 20)],
        ),
        ("earthing.gas_clamp", vec![(json!(true), 50), (json!(false), 25), (json!("not-sure"), 25)]),
        ("earthing.water_pipe", vec![(json!("metal"), 45), (json!("plastic"), 35), (json!("not-sure"), 20)]),
        ("earthing.water_clamp", vec![(json!(true), 40), (json!(false), 30), (json!("not-sure"), 30)]),
    ];
    for (path, of) in answers {
        if home.is_answered(path) {
            home.say(path, of);
        }
    }
}

/// Keeps the answers to questions that this home is asked. Removing an answer may end other questions too, so this repeats until nothing
/// changes.
fn asked_alone(answers: Answers) -> Answers {
    let mut kept = answers;
    loop {
        let before = kept.clone();
        let asked: Vec<&str> = to_ask(&before, false).map(|question| question.path).collect();
        for question in presurvey::questions::CATALOGUE.iter().filter(|question| !asked.contains(&question.path)) {
            assert!((question.set)(&mut kept, &presurvey::answers::RawAnswer::Nothing));
        }
        if kept == before {
            return kept;
        }
    }
}

#[test]
fn they_are_as_an_inbox_has_them() {
    let homes: Vec<Answers> = (0..200).map(plausible_home).collect();
    let share = |such: &dyn Fn(&Answers) -> bool| homes.iter().filter(|home| such(home)).count();
    let away =
        |home: &Answers| !to_ask(home, false).any(|question| question.place == presurvey::questions::Place::Meter);
    assert!((10..40).contains(&share(&away)), "some are kept from the meter");
    assert!(share(&|home| home.parking.place.is(presurvey::answers::ParkingPlace::Drive)) > 100);
    assert!(homes.windows(2).all(|two| two[0] != two[1]));
}
