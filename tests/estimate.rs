//! The band against a simulation of the same model: facts drawn one by one, every item's time and price drawn by itself.
//!
//! The simulation shares the decisions and the price list with the engine, and nothing of its arithmetic: no moments, no groups,
//! no series. Draws of a Beta by Jöhnk's method (M. D. Jöhnk, *Metrika* 8, 1964; D. Knuth, *Seminumerical Algorithms*, 3.4.1).

#[path = "support/chance.rs"]
mod chance;

use chance::Chance;
use presurvey::answers::{Answers, Word};
use presurvey::assess;
use presurvey::config::{Config, Item, demo_config};
use presurvey::design::{DecisionId, Given, charge_point, decide};
use presurvey::price::{Quantity, always, of_decision};
use presurvey::site::case::KnownCase;
use presurvey::site::{FACTS, FactId, read};

/// Labour paces and their weights, typed again from `price::distribution`.
const PACES: [(f64, f64); 3] = [(0.3, 0.88), (0.4, 1.0), (0.3, 1.18)];

fn unit(chance: &mut Chance) -> f64 {
    (chance.below(1 << 53) as f64 + 0.5) / (1_u64 << 53) as f64
}

/// One draw of a Beta distribution: x^(1/α) / (x^(1/α) + y^(1/β)), taken when the sum is at most one.
fn beta(alpha: f64, beta: f64, chance: &mut Chance) -> f64 {
    loop {
        let (x, y) = (unit(chance).powf(1.0 / alpha), unit(chance).powf(1.0 / beta));
        if x + y <= 1.0 {
            return x / (x + y);
        }
    }
}

/// One draw of a three-point estimate read as PERT.
fn pert(low: f64, likely: f64, high: f64, chance: &mut Chance) -> f64 {
    let width = high - low;
    if width <= 0.0 {
        return likely;
    }
    low + width * beta(1.0 + 4.0 * (likely - low) / width, 1.0 + 4.0 * (high - likely) / width, chance)
}

/// What one job of this home costs, in pence, before VAT.
fn one_job(answers: &Answers, config: &Config, chance: &mut Chance) -> f64 {
    let site = read(answers, config);
    let point = charge_point::suited(answers, config).unwrap();
    let given = Given { answers, config, point };
    let mut chosen = [0_u8; FACTS];
    for id in FactId::ALL {
        let (mut draw, mut at) = (unit(chance), 0);
        while at + 1 < site.count(*id) && draw > site.weight(*id, at).get() {
            draw -= site.weight(*id, at).get();
            at += 1;
        }
        chosen[*id as usize] = at as u8;
    }
    let pace = {
        let draw = unit(chance);
        PACES
            .iter()
            .scan(0.0, |sum, (weight, pace)| {
                *sum += weight;
                Some((*sum, *pace))
            })
            .find(|(sum, _)| draw <= *sum)
    };
    let pace = pace.map_or(PACES[2].1, |(_, pace)| pace);

    let mut items: Vec<(Item, Quantity)> = Vec::new();
    always(&given, &mut |item, quantity| items.push((item, quantity)));
    let case = KnownCase::chosen(&site, chosen);
    for id in DecisionId::ALL {
        of_decision(&decide(*id, &case, &given), &given, &mut |item, quantity| items.push((item, quantity)));
    }
    items
        .into_iter()
        .map(|(item, quantity)| match (item, config.line(item)) {
            (Item::ChargePoint, _) => point.price.as_f64(),
            (Item::CallOut, _) => config.rates.call_out.as_f64(),
            (_, None) => 0.0,
            (_, Some(line)) => {
                let (minutes, money) = (&line.minutes, &line.materials);
                let time = pert(minutes.low.get(), minutes.likely.get(), minutes.high.get(), chance);
                let price = pert(money.low.as_f64(), money.likely.as_f64(), money.high.as_f64(), chance);
                (time * pace * config.rates.hour.as_f64() / 60.0 + price) * quantity.ratio().get()
            }
        })
        .sum()
}

/// Share of simulated jobs under each end of the band, which is 10 %, 50 % and 90 % before rounding.
fn shares(answers: &Answers, draws: u32) -> [f64; 3] {
    let mut config = demo_config();
    config.rates.step = presurvey::units::Pence(1); // unrounded, so that the step does not hide an error
    let band = assess(answers, &config).band.unwrap();
    let vat = 1.0 + config.rates.vat.on(config.published).rate.get();
    let mut chance = Chance::new(7);
    let mut under = [0_u32; 3];
    for _ in 0..draws {
        let paid = one_job(answers, &config, &mut chance) * vat;
        for (count, end) in under.iter_mut().zip([band.low, band.likely, band.high]) {
            *count += u32::from(paid <= end.as_f64());
        }
    }
    under.map(|count| f64::from(count) / f64::from(draws))
}

#[test]
fn eight_jobs_in_ten_fall_inside_the_band() {
    let home = |json: &str| -> Answers { serde_json::from_str(json).unwrap() };
    for (name, answers) in [
        ("an easy home", home(include_str!("homes/easy-detached/answers.json"))),
        ("a looped terrace", home(include_str!("homes/looped-terrace/answers.json"))),
        ("nothing known", Answers::default()),
        (
            "surface not known",
            home(r#"{"hazard":{"signs":[]},"route":{"mostly":"not-sure","length":{"value":10,"unit":"metres"}}}"#),
        ),
    ] {
        let [low, middle, high] = shares(&answers, 4_000);
        // Sampling alone moves a share of 4,000 draws by 0.005 (one deviation at 10 %) or 0.008 (at 50 %).
        assert!((low - 0.1).abs() < 0.02, "{name}: {low} under the low end");
        assert!((middle - 0.5).abs() < 0.03, "{name}: {middle} under the likely");
        assert!((high - 0.9).abs() < 0.02, "{name}: {high} under the high end");
    }
}
