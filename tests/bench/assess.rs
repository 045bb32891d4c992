//! How long `assess` takes: the plainest home and the one that nobody could tell anything of.

use criterion::{Criterion, criterion_group, criterion_main};
use presurvey::answers::{Along, Answers, RawAnswer};
use presurvey::assess;
use presurvey::calculation::sizing::choose;
use presurvey::config::demo_config;
use presurvey::context::Context;
use presurvey::design::cable::needs;
use presurvey::design::laid::{Around, piece};
use presurvey::design::{DecisionId, decide};
use presurvey::price::{PriceList, StandardNormal, Total, always_cost, days, groups, narrowings};
use presurvey::questions::CATALOGUE;
use presurvey::site::Run;
use presurvey::units::{Metres, Pence, Probability};
use std::hint::black_box;

fn benches(criterion: &mut Criterion) {
    let config = demo_config();
    let mut unsure = Answers::default();
    for question in CATALOGUE.iter().filter(|question| question.id != "hazard") {
        assert!((question.set)(&mut unsure, &RawAnswer::NotSure));
    }
    let easy: Answers =
        serde_json::from_str(include_str!("../homes/easy-detached/answers.json")).expect("the home is read by a test");
    criterion.bench_function("assess, an easy home", |bench| bench.iter(|| assess(black_box(&easy), &config)));
    criterion.bench_function("assess, nothing known", |bench| bench.iter(|| assess(black_box(&unsure), &config)));

    let site = presurvey::site::infer(&unsure, &config);
    let given = Context::of(&unsure, &config);
    criterion.bench_function("design of one known case", |bench| {
        bench.iter(|| {
            let case = site.likeliest_case();
            <DecisionId as presurvey::answers::Word>::ALL.iter().map(|id| decide(*id, &case, &given)).last()
        });
    });

    for (name, answers) in [("an easy home", &easy), ("nothing known", &Answers::default())] {
        let site = presurvey::site::infer(answers, &config);
        let given = Context::of(answers, &config);
        let design = presurvey::design::Design::of(&site, &given);
        criterion.bench_function(&format!("band and drivers, {name}"), |bench| {
            bench.iter(|| {
                let (list, bell) = (PriceList::of(&given), StandardNormal::new());
                let days = days(&given, &design, &list);
                let groups = groups(&site, &given, &design, &list);
                let always = always_cost(&given, &list, days);
                let total = Total::of(always, &groups, &bell);
                let ends = [0.1, 0.9].map(|share| total.quantile(Probability::of(share)));
                (ends, narrowings(&site, always, &groups, Pence(0), &bell))
            });
        });
    }

    // Six stretches of every kind, every check, four sizes.
    let run = |along, metres| piece(&Run { along, length: Metres::of(metres), high: false }, false, Around::NOTHING);
    let route = [
        run(Along::Inside, 6.0),
        run(Along::LoftOrFloor, 9.0),
        run(Along::OutsideWall, 12.0),
        run(Along::Fence, 8.0),
        run(Along::Paving, 5.0),
        run(Along::SoftGround, 20.0),
    ];
    let case = site.likeliest_case();
    let needs = needs(&case, &given);
    criterion.bench_function("size of a cable over six stretches", |bench| {
        bench.iter(|| choose(|| black_box(&route).iter().copied(), &needs));
    });
}

criterion_group!(all, benches);
criterion_main!(all);
