//! One figure everywhere: whatever an assessment says twice is the same, or is named as another, over two hundred homes by chance and two
//! hundred plausible ones.

mod support;

use presurvey::answers::{AnswerKind, Answers, Length, RawAnswer, Word};
use presurvey::assessment::{Assessment, Choice, Complexity, Gatekeeper, NoBand, Reason, what_ifs};
use presurvey::config::{Config, Item, demo_config};
use presurvey::design::Outcome;
use presurvey::design::network::Otherwise;
use presurvey::figures::working;
use presurvey::questions::{CATALOGUE, beyond_use, question};
use presurvey::record::ViewModel;
use presurvey::units::{Pence, Probability};
use presurvey::{assess, assessment};
use std::sync::OnceLock;

struct Home {
    name: String,
    answers: Answers,
    assessment: Assessment,
}

/// Four hundred homes, each assessed once.
fn homes() -> &'static [Home] {
    static HOMES: OnceLock<Vec<Home>> = OnceLock::new();
    HOMES.get_or_init(|| {
        let config = demo_config();
        let chance = (0..200).map(|seed| (format!("by chance {seed}"), support::any_home(seed)));
        let plausible = (0..200).map(|seed| (format!("plausible {seed}"), support::plausible::plausible_home(seed)));
        let made = |(name, answers)| {
            let assessment = assess(&answers, &config);
            Home { name, answers, assessment }
        };
        chance.chain(plausible).map(made).collect()
    })
}

/// Holds a law in every home, and names all homes in which it fails.
fn everywhere(law: impl Fn(&Home, &Config) -> Result<(), String>) {
    let config = demo_config();
    let broken: Vec<String> =
        homes().iter().filter_map(|home| law(home, &config).err().map(|why| format!("{}: {why}", home.name))).collect();
    assert!(broken.is_empty(), "{} of {}:\n{}", broken.len(), homes().len(), broken.join("\n"));
}

fn same<T: PartialEq + std::fmt::Debug>(what: &str, one: T, other: T) -> Result<(), String> {
    if one == other { Ok(()) } else { Err(format!("{what}: {one:?} and {other:?}")) }
}

fn near(what: &str, one: Pence, other: Pence, within: i64) -> Result<(), String> {
    if (one.0 - other.0).abs() <= within { Ok(()) } else { Err(format!("{what}: {one} and {other}")) }
}

fn chance_of(assessment: &Assessment, item: Item) -> f64 {
    assessment.work.iter().find(|line| line.item == item).map_or(0.0, |line| line.probability.get())
}

#[test]
fn what_the_bill_adds_up_to_is_the_mean_and_the_bands_middle_is_the_median() {
    everywhere(|home, config| {
        let Assessment { band, estimate, sums, .. } = &home.assessment;
        let Some((band, estimate)) = band.as_ref().zip(estimate.as_ref()) else { return Ok(()) };
        same("middle", band.likely, estimate.median)?;
        let before_vat = band.before_vat.unwrap();
        same("VAT in the middle", band.vat, band.likely - before_vat.likely)?;
        let least = Pence::rounded(config.rates.least.as_f64() * (1.0 + before_vat.rate.get()));
        same("mean", sums.with_vat.max(least), estimate.mean)?;
        let lines: Pence = home.assessment.work.iter().map(|line| line.expected).sum();
        same("bill", lines, sums.before_vat)?;
        // The causes are what the bill has more than the plainest one.
        let causes: Pence = estimate.dearer.iter().map(|cause| cause.by).sum();
        if band.plainest > least {
            near("causes", causes, sums.with_vat - band.plainest, 40)?;
        }
        let point = home.assessment.work.iter().find(|line| line.item == Item::ChargePoint);
        let sold = point.map_or(Pence(0), |line| Pence::rounded(line.price.as_f64() * (1.0 + before_vat.rate.get())));
        near("charge point", band.charge_point, sold, 1)?;
        for grant in &home.assessment.grants {
            let after = grant.likely_after.unwrap();
            if after > band.likely || after < band.likely - grant.most {
                return Err(format!("a grant leaves {after} of {}", band.likely));
            }
        }
        let round = |money: Pence| (money.0 - estimate.low.0).abs() <= config.rates.step.0;
        if !round(band.low) { Err(format!("low end {} and {}", band.low, estimate.low)) } else { Ok(()) }
    });
}

#[test]
fn the_figures_and_their_working_are_the_same() {
    everywhere(|home, config| {
        let figures = &home.assessment.figures;
        let all = working(&home.answers, config);
        let of = |name: &str| all.iter().find(|one| one.figure == name);
        let number = |name: &str| of(name).and_then(|one| one.number);
        same("in use", number("existing demand by likely use"), Some(figures.existing_by_use[1].get()))?;
        same("by ratings", number("existing demand by device ratings"), Some(figures.existing_by_ratings.get()))?;
        same("demand", number("maximum demand with the charge point"), Some(figures.maximum_demand.get()))?;
        same("headroom", number("headroom"), Some(figures.headroom.get()))?;
        // Where nothing fits none is set.
        let fixed = number("fixed limit").filter(|limit| *limit > 0.0);
        same("fixed limit", fixed, figures.fixed_limit.map(|limit| limit.get()))?;
        let new = !figures.cable_kept;
        same("cable", number("cable size"), figures.cable_size.filter(|_| new).map(|size| size.get()))?;
        if new && figures.cable_size.is_some() {
            let drop = number("voltage drop").unwrap_or_default();
            if (drop - figures.voltage_drop.get()).abs() > 1e-9 {
                return Err(format!("voltage drop: {drop} and {}", figures.voltage_drop));
            }
        }
        if let Some(driving) = &figures.driving {
            let night = of("energy a night").unwrap();
            if !night.steps.iter().any(|step| step.value == driving.hours_needed.to_string()) {
                return Err(format!("hours: {} and {:?}", driving.hours_needed, night.steps));
            }
        }
        // The fact's likeliest value is the figure's.
        let fact = |name: &str| home.assessment.facts.iter().find(|fact| fact.fact == name).unwrap();
        same("in use as a fact", &fact("existing-demand").values[0].value, &figures.existing_by_use[1].to_string())
    });
}

/// Demand without a limit is one figure: the working's of the likeliest case; where a way is another in other cases alone, it says so.
#[test]
fn another_way_has_the_figures_of_the_likeliest_case_or_says_in_how_many_it_is_one() {
    let mut elsewhere = 0;
    for home in homes() {
        let all = working(&home.answers, &demo_config());
        let demand = all.iter().find(|one| one.figure == "maximum demand with the charge point").unwrap();
        let unheld = demand.steps.iter().find(|step| step.name.starts_with("by likely use")).unwrap();
        for other in &home.assessment.alternatives {
            let told = other.outcomes.iter().find(|share| share.outcome == other.outcome);
            assert!(told.is_some_and(|share| share.probability > Probability::NEVER), "{}: {other:?}", home.name);
            match other.elsewhere {
                None if other.design == Otherwise::WithoutLimit => {
                    assert_eq!(unheld.value, other.maximum_demand.to_string(), "{}", home.name);
                    assert!(home.assessment.figures.load_limit, "{}", home.name);
                }
                None => {}
                Some(share) => {
                    elsewhere += 1;
                    assert!(share > Probability::NEVER && share < Probability::CERTAIN, "{}", home.name);
                    if other.design == Otherwise::WithoutLimit {
                        assert!(!home.assessment.figures.load_limit, "{}", home.name);
                    }
                }
            }
        }
    }
    assert!(elsewhere > 0, "such a home is among them");
}

/// A choice made the other way waits for whom the list of the other ways says that it does.
#[test]
fn a_choice_waits_for_nothing_only_where_no_list_says_it_must_be_asked_first() {
    everywhere(|home, config| {
        let now = &home.assessment;
        let gate = |assessment: &Assessment| {
            let gate = assessment.gates.iter().find(|gate| gate.who == Gatekeeper::NetworkOperator);
            gate.map_or(0.0, |gate| gate.probability.get())
        };
        let without = now.alternatives.iter().find(|other| other.design == Otherwise::WithoutLimit);
        let Some(without) = without else { return Ok(()) };
        let asks: f64 = without
            .outcomes
            .iter()
            .filter(|share| share.outcome != Outcome::NotifyAfter)
            .map(|share| share.probability.get())
            .sum();
        for future in what_ifs(&home.answers, config, now) {
            if future.choice != Choice::BiggerSupply || gate(now) >= config.thresholds.gate.get() {
                continue;
            }
            let waits = |gates: &[assessment::Gate]| gates.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator);
            if asks >= config.thresholds.gate.get() && !waits(&future.waits_for) {
                return Err(format!("asked first with {asks} here and not there: {future:?}"));
            }
            if asks >= gate(now) + 0.11 && !waits(&future.waits_for) && !waits(&future.may_wait_for) {
                return Err(format!("perhaps asked first ({asks}) here and not there: {future:?}"));
            }
        }
        Ok(())
    });
}

#[test]
fn the_bill_the_reasons_the_decisions_and_the_gates_say_the_same() {
    everywhere(|home, config| {
        let Assessment { decisions, gates, reasons, owed, work, no_band, .. } = &home.assessment;
        let gate = config.thresholds.gate.get();
        let decision = |name: &str| decisions.iter().find(|one| one.decision == name).unwrap();
        let operator = gates.iter().find(|gate| gate.who == Gatekeeper::NetworkOperator);
        let asked = operator.is_some_and(|gate| gate.counts || gate.on_paper);
        same("asked first, as decided and as a gate", asked, decision("network").chosen != "notify-after")?;
        if !owed.is_empty() && home.answers.operator.answer.known().is_none() {
            let told = owed.iter().any(|owed| owed.way == "notify");
            same("told afterwards, as owed and as a gate", told, !asked)?;
        }
        if work.is_empty() {
            return same("nothing is planned", no_band.is_some(), true);
        }
        let [soft, paved] = [Item::TrenchSoft, Item::TrenchPaving].map(|item| chance_of(&home.assessment, item));
        // One way may go through both: it is dug as often as the likelier at least, and as both together at most.
        let (least, dug) = (soft.max(paved), soft + paved);
        if reasons.contains(&Reason::Digging) && dug < gate - 1e-6 {
            return Err(format!("digging is a reason and {dug} of the bill"));
        }
        // The days that are travelled for, those that the bill is parted into, and whether it takes longer than one.
        let travel = work.iter().find(|line| line.item == Item::Travel).unwrap().quantity.get() - 1.0;
        let last = work.iter().map(|line| line.day).max().map_or(0.0, f64::from);
        if last > travel || last < travel - 1.0 {
            return Err(format!("{travel} days are travelled for, and the last line begins on day {last}"));
        }
        same("longer than a day", reasons.contains(&Reason::LongerThanADay), travel > 1.0)?;
        let certain = |item| chance_of(&home.assessment, item) >= gate;
        if (certain(Item::TrenchSoft) || certain(Item::TrenchPaving)) && !reasons.contains(&Reason::Digging) {
            return Err(format!("{dug} of the bill is dug, and digging is no reason"));
        }
        let flagged = |code: &str| home.assessment.flags.iter().find(|flag| flag.code == code);
        let likely = flagged("digging").is_some_and(|flag| flag.probability.get() > 0.5);
        if (likely && dug <= 0.5) || (!likely && least > 0.5) {
            return Err(format!("{least} to {dug} of the bill is dug: {:?}", flagged("digging")));
        }
        for flag in ["larger-cable", "no-size-passes"].into_iter().filter_map(flagged) {
            let length = home.assessment.figures.cable_length.to_string();
            if !flag.evidence.iter().any(|seen| seen.contains(&length)) {
                return Err(format!("{length} and {:?}", flag.evidence));
            }
        }
        let enclosure = chance_of(&home.assessment, Item::SplitTails) + chance_of(&home.assessment, Item::ReplaceBoard);
        same("enclosure", reasons.contains(&Reason::NewEnclosure), enclosure >= gate - 1e-9)?;
        let limit = work.iter().find(|line| line.item == Item::LoadSensing).map(|line| &line.set_at);
        if let Some(set) = home.assessment.figures.limit
            && !limit.is_some_and(|limits| limits.contains(&set))
        {
            return Err(format!("held at {set}, and in the bill at {limit:?}"));
        }
        let forms = owed.iter().flat_map(|owed| &owed.needs).filter(|need| need.what == "maximum-demand");
        for need in forms {
            let demand = home.assessment.figures.maximum_demand.to_string();
            let among = need.value.iter().chain(&need.alternatives).any(|value| *value == demand);
            if !among {
                return Err(format!("{demand} is not what the form may say: {need:?}"));
            }
        }
        let class = home.assessment.complexity;
        same("a gate and its class", class == Complexity::DependsOnOthers, {
            gates.iter().any(|gate| gate.counts) && class != Complexity::LookFirst && class != Complexity::NotCovered
        })
    });
}

/// What is offered for narrowing moves the price or settles something: at least one answer to it changes band, waits, class or flags.
#[test]
fn what_is_offered_moves_the_price_or_settles_a_wait() {
    everywhere(|home, config| {
        let shown = ViewModel::of(&home.assessment, config);
        // What does not go together, or is beyond use in two places, is settled by several answers together.
        let together = home.assessment.reasons.contains(&Reason::Contradiction)
            || beyond_use(&presurvey::questions::counting(&home.answers)).len() > 1;
        let stretches = home.answers.route.stretches.known().is_some_and(|stretches| !stretches.is_empty());
        for open in &shown.open {
            let asked = question(&open.question).unwrap();
            if stretches && ["route-length", "route-mostly", "walls", "ground"].contains(&asked.id) {
                return Err(format!("{} is offered, and the way was said", asked.id));
            }
            let mut tried = support::ends(asked.kind);
            match asked.kind {
                AnswerKind::Any(words) => tried.extend((0..words.len()).map(|at| RawAnswer::Any(1 << at))),
                AnswerKind::Distance => {
                    tried.extend([3.0, 12.0, 25.0].map(|metres| RawAnswer::Distance(Length::metres(metres))))
                }
                AnswerKind::Count(least, most) => tried.extend((least..=most).map(RawAnswer::Count)),
                AnswerKind::Figure(_) if asked.id == "carrier-rating" => {
                    tried.extend([60.0, 80.0].map(RawAnswer::Figure))
                }
                AnswerKind::Figure(bounds) => {
                    tried.extend([0.05, 0.2, 0.5].map(|share| RawAnswer::Figure(bounds.most * share)))
                }
                AnswerKind::Stretches => continue, // whoever says them says the way itself
                _ => {}
            }
            let moves = tried.into_iter().any(|given| {
                let mut answers = home.answers.clone();
                if !(asked.set)(&mut answers, &given) {
                    return false;
                }
                let then = assess(&answers, config);
                let now = &home.assessment;
                let waits = |of: &Assessment| {
                    // Whether a larger fuse, a visit or a form is waited for is told by why, and how often.
                    let told = of.gates.iter().map(|gate| (gate.who, gate.counts, gate.on_paper, gate.why.clone()));
                    told.collect::<Vec<_>>()
                };
                let chance = |of: &Assessment, who| {
                    of.gates.iter().find(|gate| gate.who == who).map_or(0.0, |gate| gate.probability.get())
                };
                let likelier = |who: &Gatekeeper| (chance(&then, *who) - chance(now, *who)).abs() >= 0.05;
                then.band != now.band
                    || Gatekeeper::ALL.iter().any(likelier)
                    || then.no_band != now.no_band
                    || waits(&then) != waits(now)
                    || then.complexity != now.complexity
                    || then.reasons != now.reasons
                    || then.settle != now.settle
            });
            if !moves && !together {
                let said = (asked.get)(&home.answers);
                return Err(format!("{} is offered and changes nothing: {open:?} {said:?}", asked.id));
            }
        }
        Ok(())
    });
}

/// A length that nobody means has no band, and says which answer to look at again.
#[test]
fn a_length_beyond_use_is_asked_about_and_never_priced() {
    let mut seen = 0;
    for home in homes() {
        let beyond = beyond_use(&presurvey::questions::counting(&home.answers));
        let Assessment { band, no_band, flags, open, work, .. } = &home.assessment;
        let flagged = flags.iter().any(|flag| flag.code == "length-beyond-use");
        assert_eq!(flagged, !beyond.is_empty(), "{}", home.name);
        if beyond.is_empty() {
            assert_ne!(*no_band, Some(NoBand::LengthBeyondUse), "{}", home.name);
            continue;
        }
        seen += 1;
        assert!(band.is_none() && work.is_empty() && no_band.is_some(), "{}", home.name);
        for id in beyond {
            let rank = CATALOGUE.iter().any(|question| question.id == id);
            assert!(rank && open.iter().any(|open| open.question == id && open.settles), "{}: {id}", home.name);
        }
    }
    assert!(seen > 3, "such homes are among them: {seen}");
    assert!(NoBand::WORDS.contains(&"length-beyond-use"));
}
