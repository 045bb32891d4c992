//! The obligations before and after the work: to whom, by when, and the details that each needs, filled in as far as the answers go.

use super::gates::usual_days;
use super::types::{Asked, Gate, Gatekeeper, KnownBy, Need, Obligation, OwedTo, OwedWhen};
use crate::context::Context;
use crate::design::{Decided, DecisionId, Design, NetworkProcess, Outcome};
use crate::site::{CircuitThere, FactId, Nation, Site, nation};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use jiff::Span;
use model::answers::{
    Answer, AnswerKind, Answers, Field, HomeKind, OperatorAnswer, Protected, RawAnswer as Said, Tenure,
};
use model::units::Probability;

/// All obligations, in the order of the work. Empty where the home is outside the data: other law and other forms apply there.
pub(super) fn obligations(site: &Site, given: &Context<'_>, design: &Design, gates: &[Gate]) -> Vec<Obligation> {
    let Some(building_control) = building_control(site, given.answers) else { return Vec::new() };
    let mut all = Vec::new();
    let mut form = operators_form(site, given, design);
    let mut asked = asked(given.answers, gates);
    let worth_asking = |gate: &&Gate| gate.counts || gate.on_paper || gate.probability >= WORTH_ASKING;
    if let Some(gate) = gates.iter().find(|gate| gate.who == Gatekeeper::NetworkOperator).filter(worth_asking) {
        let way = if given.answers.operator.answer.is(OperatorAnswer::Refused) { "ask-again" } else { "ask" };
        // The operator's form serves for asking and for notifying; it stands where it is likelier to be needed.
        let needs = if gate.counts || gate.on_paper { core::mem::take(&mut form) } else { Vec::new() };
        let asked = asked.take();
        all.push(Obligation {
            probability: gate.probability,
            asked,
            needs,
            ..before(OwedTo::NetworkOperator, way, ENA)
        });
    }
    for gate in gates {
        let (to, way, needs, source): (_, _, &[&str], _) = match gate.who {
            Gatekeeper::NetworkOperator | Gatekeeper::OtherTrade => continue,
            Gatekeeper::Supplier => (OwedTo::Supplier, "dead-tails", &["supply-number", "visit-day"], PRACTICE),
            Gatekeeper::Landlord => {
                let way = if is_scottish_flat(given.answers) { "co-owners" } else { "agree" };
                (OwedTo::Landlord, way, &["drawing", "who-pays", "letter"], PRACTICE)
            }
            Gatekeeper::Neighbour => (OwedTo::Neighbour, "agree", &["drawing", "letter"], PRACTICE),
            Gatekeeper::Planner => {
                let (way, source) = planners_way(given.answers);
                (OwedTo::Planner, way, &["drawing", "photo-of-the-spot"], source)
            }
            Gatekeeper::HighwayAuthority => {
                (OwedTo::HighwayAuthority, "channel", &["drawing", "photo-of-the-spot"], DFT)
            }
        };
        let needs = needs.iter().map(|what| missing(what)).collect();
        all.push(Obligation { probability: gate.probability, needs, ..before(to, way, source) });
    }
    all.push(building_control);
    let limited = !design.limits().is_empty();
    let mut certified = alloc::vec![
        fact("earthing", site, FactId::Earthing),
        fact("main-fuse", site, FactId::MainFuse),
        missing("external-impedance"),
        missing("prospective-fault-current"),
        missing("test-results"),
    ];
    if limited {
        certified.extend([limit_setting("limit-as-set", design), missing("fails-safe")]);
    }
    all.push(after(
        OwedTo::Certificate,
        // On a sound circuit a minor works certificate does (from memory).
        if site.circuit.likeliest() == CircuitThere::Sound { "minor-works" } else { "installation" },
        OwedWhen::OnCompletion,
        certified,
        "BS 7671 Part 6 (from memory)",
    ));
    let answered = given.answers.operator.answer.known().is_some();
    let told = design.probability(
        DecisionId::Network,
        |decided| matches!(decided, Decided::Network(process) if process.outcome == Outcome::NotifyAfter),
    );
    all.push(Obligation {
        when: OwedWhen::DaysAfter,
        days: Some(given.config.thresholds.notify_days),
        // An operator that was asked first is also told when the work is done.
        probability: Probability::CERTAIN,
        needs: form,
        asked,
        ..before(
            OwedTo::NetworkOperator,
            // Common practice, no source.
            if told > Probability::of(0.5) && !answered { "notify" } else { "confirm" },
            ENA,
        )
    });
    let mut handed_over: Vec<Need> =
        ["instructions", "test-button-shown", "off-peak-set-up"].iter().map(|what| missing(what)).collect();
    // The seller has duties too: that is the installer, unless the homeowner bought the charge point already.
    if !given.answers.wish.bought.is(true) {
        handed_over.push(missing("sold-by-you"));
    }
    if limited {
        handed_over.insert(1, limit_setting("limit-as-set", design));
    }
    all.push(after(
        OwedTo::Handover,
        "handover",
        OwedWhen::OnCompletion,
        handed_over,
        "BS 7671 134.1.1 (from memory); SI 2021/1467 and the Consumer Rights Act 2015 (from memory) bind the seller",
    ));
    all
}

/// Below this probability of having to ask, the network operator is only told afterwards: common practice, no source.
const WORTH_ASKING: Probability = Probability::of(0.05);
const ENA: &str = "Energy Networks Association, application form for low-carbon technologies, version not kept: the form itself, read";
const PRACTICE: &str = "common practice, no source";
const GPDO: &str = "General Permitted Development Order 2015 (England): the Order itself, read";
const GPDO_SCOTLAND: &str = "General Permitted Development (Scotland) Order 1992, classes 9E and 9F, as amended by SSI 2023/35: legislation and circular 2/2024, annex E, itself, read";
const GPDO_WALES: &str = "the Welsh order, not seen: common practice, no source";
const DFT: &str = "Department for Transport guidance, December 2024, title not kept: itself, read";
/// Days that a registered installer's scheme has to notify building control. Source: Building Regulations 2010, regulation 20 (from
/// memory).
const SCHEME_DAYS: u16 = 30;

fn before(to: OwedTo, way: &str, source: &str) -> Obligation {
    after(to, way, OwedWhen::BeforeBooking, Vec::new(), source)
}

fn after(to: OwedTo, way: &str, when: OwedWhen, needs: Vec<Need>, source: &str) -> Obligation {
    let (way, source) = (way.to_string(), source.to_string());
    Obligation { to, when, days: None, probability: Probability::CERTAIN, asked: None, way, needs, source }
}

/// What the planning authority is asked, in a word, and the order that says so; both differ by nation.
fn planners_way(answers: &Answers) -> (&'static str, &'static str) {
    let listed = answers.home.protected.is(Protected::Listed);
    match nation(answers) {
        Nation::Scotland => (if listed { "listed-consent" } else { "ask-scotland" }, GPDO_SCOTLAND),
        Nation::Wales => (if listed { "listed-consent" } else { "ask-wales" }, GPDO_WALES),
        Nation::Unclear => (if listed { "listed-consent" } else { "ask-unclear" }, PRACTICE),
        Nation::England | Nation::NorthernIreland | Nation::Islands => {
            (if listed { "listed-consent" } else { "ask" }, GPDO)
        }
    }
}

/// Whether it is a flat in Scotland that is owned or of unknown tenure: there is no freeholder there.
fn is_scottish_flat(answers: &Answers) -> bool {
    let let_to_them = matches!(answers.home.tenure, Answer::Known(Tenure::Rent | Tenure::Lease));
    answers.home.kind.is(HomeKind::Flat) && nation(answers) == Nation::Scotland && !let_to_them
}

/// The obligation to building control. England and Wales: a registered installer's scheme notifies afterwards; otherwise notice comes
/// before the start, or in England from a third party appointed before the work begins. Scotland has its own procedure. `None` where the
/// home is outside the data.
fn building_control(site: &Site, answers: &Answers) -> Option<Obligation> {
    // On a sound circuit that stays, one for another is as a rule not notifiable in England (from memory).
    let swap = site.circuit.probability(CircuitThere::has_a_way) > Probability::NEVER;
    let flat = answers.home.kind.is(HomeKind::Flat);
    let (way, when, days, source) = match nation(answers) {
        Nation::NorthernIreland | Nation::Islands => return None,
        Nation::England => (
            if swap { "england-swap" } else { "england" },
            OwedWhen::DaysAfter,
            Some(SCHEME_DAYS),
            "Approved Document P 2013; regulation 20 and third-party certification (from memory)",
        ),
        Nation::Wales => ("wales", OwedWhen::DaysAfter, Some(SCHEME_DAYS), "Approved Document P, Wales (from memory)"),
        Nation::Scotland => (
            if flat { "scotland-flat" } else { "scotland" },
            OwedWhen::BeforeWork,
            None,
            "Building (Scotland) Regulations 2004 (from memory)",
        ),
        Nation::Unclear => ("unclear", OwedWhen::BeforeWork, None, "common practice, no source"),
    };
    let needs = ["address", "certificate-number"].iter().map(|what| missing(what)).collect();
    Some(Obligation { days, ..after(OwedTo::BuildingControl, way, when, needs, source) })
}

/// When the network operator was asked, by when an answer is usual, and when it came, as far as these days were recorded.
fn asked(answers: &Answers, gates: &[Gate]) -> Option<Asked> {
    let (on, answered) = (answers.operator.asked_on.known().copied(), answers.operator.answered_on.known().copied());
    // Where an answer was recorded, even without its day, none is awaited.
    let waiting = on.filter(|_| answers.operator.answer.known().is_none());
    let usually_by =
        waiting.zip(usual_days(gates)).and_then(|(on, days)| on.checked_add(Span::new().days(i64::from(days))).ok());
    (on.is_some() || answered.is_some()).then_some(Asked { on, usually_by, answered })
}

/// The details that the operator's form asks for. A detail that differs between the cases still possible is left open.
/// Source: Energy Networks Association, application form for low-carbon technologies.
fn operators_form(site: &Site, given: &Context<'_>, design: &Design) -> Vec<Need> {
    let answers = given.answers;
    let loads = &answers.loads;
    let exports = if answers.wish.gives_back.is(true) { "yes" } else { "no" };
    alloc::vec![
        missing("address"),
        known("postcode", said(&answers.home.postcode)),
        missing("supply-number"),
        fact("phases-and-loop", site, FactId::Supply),
        fact("main-fuse", site, FactId::MainFuse),
        fact("earthing", site, FactId::Earthing),
        fact("existing-demand", site, FactId::ExistingDemand),
        designed("maximum-demand", design, |process| process.demand.to_string()),
        designed("charge-current", design, |process| process.current.to_string()),
        fact("points", site, FactId::OtherPoint),
        limit_setting("load-limit", design),
        known("exports", Some((exports.to_string(), KnownBy::Inferred))),
        known("solar-power", said(&loads.solar_power)),
        known("battery-power", said(&loads.battery_power)),
        known("operator-letter", said(&loads.operator_letter)),
        missing("maker-and-model"),
        missing("operators-reference"),
        missing("photo-of-the-head"),
    ]
    .into_iter()
    .chain((!design.limits().is_empty()).then(|| missing("fails-safe")))
    .collect()
}

/// The setting of the load limit, as a detail.
fn limit_setting(what: &str, design: &Design) -> Need {
    designed(what, design, |process| process.limit.map_or_else(|| "none".to_string(), |limit| limit.to_string()))
}

fn missing(what: &str) -> Need {
    known(what, None)
}

fn known(what: &str, value: Option<(String, KnownBy)>) -> Need {
    let (value, known_by) = value.unzip();
    Need { what: what.to_string(), value, alternatives: Vec::new(), known_by }
}

/// A detail with one value, where no other is possible and it was not assumed; otherwise with all possible values, likeliest first.
fn settled(what: &str, mut values: Vec<String>, known_by: KnownBy) -> Need {
    if values.len() == 1 && !matches!(known_by, KnownBy::Assumed | KnownBy::Contradicted) {
        known(what, values.pop().map(|value| (value, known_by)))
    } else {
        Need { what: what.to_string(), value: None, alternatives: values, known_by: Some(known_by) }
    }
}

/// A fact as a detail.
fn fact(what: &str, site: &Site, id: FactId) -> Need {
    let shown = site.shown(id);
    settled(what, shown.values.into_iter().map(|value| value.value).collect(), shown.known_by)
}

/// A detail of the network process: its value in each case.
fn designed(what: &str, design: &Design, says: impl Fn(&NetworkProcess) -> String) -> Need {
    let mut values: Vec<(String, f64)> = Vec::new();
    for (met, decided) in &design.outcomes(DecisionId::Network).cases {
        let Decided::Network(process) = decided else { continue };
        let value = says(process);
        match values.iter_mut().find(|(other, _)| *other == value) {
            Some((_, weight)) => *weight += met.weight,
            None => values.push((value, met.weight)),
        }
    }
    values.sort_by(|a, b| b.1.total_cmp(&a.1));
    settled(what, values.into_iter().map(|(value, _)| value).collect(), KnownBy::Inferred)
}

/// An answer as text, with how it is known; `None` where there is none.
fn said<T: Field>(answer: &Answer<T>) -> Option<(String, KnownBy)> {
    let text = match (answer.known()?.give(), T::KIND) {
        (Said::Line(line), _) => line,
        (Said::Figure(number), AnswerKind::Figure(bounds)) => alloc::format!("{number} {}", bounds.symbol),
        (Said::YesNo(yes), _) => if yes { "yes" } else { "no" }.to_string(),
        _ => return None,
    };
    Some((text, KnownBy::Said))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess;
    use jiff::civil::date;
    use model::answers::{BoundedCount, Cooking, EarthGoes, Heating, OtherPoint, Postcode, Set};
    use model::config::demo_config;
    use model::units::Amps;

    fn at(postcode: &str) -> Vec<Obligation> {
        let mut config = demo_config();
        config.area.clear();
        let mut answers = Answers::default();
        answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
        assess(&answers, &config).owed
    }

    fn owed_of(to: OwedTo, say: impl FnOnce(&mut Answers)) -> Obligation {
        let mut config = demo_config();
        config.area.clear();
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
        say(&mut answers);
        assess(&answers, &config).owed.into_iter().find(|owed| owed.to == to).unwrap()
    }

    fn in_scotland(answers: &mut Answers) {
        answers.home.postcode = Answer::Known(Postcode::new("EH1").unwrap());
    }

    /// From memory: as a rule one for another on a sound circuit is not notifiable in England.
    #[test]
    fn a_swap_in_england_has_a_way_of_its_own() {
        let way =
            |other| owed_of(OwedTo::BuildingControl, |answers| answers.loads.other_point = Answer::Known(other)).way;
        assert_eq!((way(OtherPoint::Replaced).as_str(), way(OtherPoint::None).as_str()), ("england-swap", "england"));
    }

    #[test]
    fn a_scottish_flat_has_its_warrant_asked_for_and_its_co_owners_agree() {
        let flat = |answers: &mut Answers| {
            in_scotland(answers);
            answers.home.kind = Answer::Known(HomeKind::Flat);
            answers.home.tenure = Answer::Known(Tenure::Own);
        };
        assert_eq!(owed_of(OwedTo::BuildingControl, flat).way, "scotland-flat");
        assert_eq!(owed_of(OwedTo::Landlord, flat).way, "co-owners");
        let rented = owed_of(OwedTo::Landlord, |answers| {
            flat(answers);
            answers.home.tenure = Answer::Known(Tenure::Rent);
        });
        assert_eq!(rented.way, "agree");
    }

    /// Source: SSI 2023/35 for Scotland; General Permitted Development Order 2015 for England.
    #[test]
    fn planning_goes_by_the_nations_own_order() {
        let asked = |postcode: &str, protected| {
            let owed = owed_of(OwedTo::Planner, |answers| {
                answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
                answers.home.protected = Answer::Known(protected);
            });
            (owed.way, owed.source)
        };
        let area = |postcode| asked(postcode, Protected::ConservationArea);
        assert_eq!(area("ZZ1"), ("ask".into(), GPDO.into()));
        let (way, source) = area("EH1");
        assert!(way == "ask-scotland" && source.contains("9E") && !source.contains("England"), "{source}");
        assert!(!area("CF1").1.contains("England") && !area("SY1").1.contains("England"));
        assert_eq!(asked("EH1", Protected::Listed).0, "listed-consent");
    }

    /// From memory: Consumer Rights Act 2015.
    #[test]
    fn who_supplies_the_charge_point_is_its_seller() {
        let sold = |bought| {
            let owed = owed_of(OwedTo::Handover, |answers| answers.wish.bought = Answer::Known(bought));
            owed.needs.iter().any(|need| need.what == "sold-by-you")
        };
        assert!(sold(false) && !sold(true));
    }

    fn control(postcode: &str) -> (String, Option<u16>) {
        let owed = at(postcode);
        let line = owed.iter().find(|owed| owed.to == OwedTo::BuildingControl).unwrap();
        (line.way.clone(), line.days)
    }

    /// Source: Building Regulations 2010, regulation 20 (from memory): 30 days.
    #[test]
    fn building_control_goes_each_nations_way() {
        assert_eq!(control("ZZ1"), ("england".into(), Some(30)));
        assert_eq!(control("CF1"), ("wales".into(), Some(30)));
        assert_eq!(control("EH1"), ("scotland".into(), None));
        assert_eq!(control("SY1").0, "unclear");
        assert!(at("BT0").is_empty() && at("IM0").is_empty(), "other law: nothing is made up");
    }

    /// Source: Energy Networks Association form: within 28 days.
    #[test]
    fn the_operator_is_told_within_the_days_of_the_data() {
        let owed = at("ZZ1");
        let told = owed.iter().rfind(|owed| owed.to == OwedTo::NetworkOperator).unwrap();
        assert_eq!((told.when, told.days), (OwedWhen::DaysAfter, Some(28)));
    }

    fn form(say: impl FnOnce(&mut Answers)) -> Vec<Need> {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
        say(&mut answers);
        let owed = assess(&answers, &demo_config()).owed;
        let mut forms = owed.into_iter().filter(|owed| owed.to == OwedTo::NetworkOperator && !owed.needs.is_empty());
        let form = forms.next().unwrap().needs;
        assert_eq!(forms.next(), None, "one form");
        form
    }

    fn need<'a>(form: &'a [Need], what: &str) -> &'a Need {
        form.iter().find(|need| need.what == what).unwrap()
    }

    #[test]
    fn the_operators_form_is_filled_in_from_answers_and_never_from_guesses() {
        let form = form(|_| ());
        assert_eq!(need(&form, "postcode").value.as_deref(), Some("ZZ1"));
        assert_eq!(need(&form, "main-fuse").value, None, "assumed is not known");
        assert_eq!(need(&form, "main-fuse").alternatives.len(), 3, "what it may be is said");
        assert_eq!(need(&form, "supply-number"), &missing("supply-number"));
    }

    #[test]
    fn the_limit_is_in_bill_form_certificate_and_handover_with_its_setting_and_proof() {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Electric);
        answers.loads.showers = Answer::Known(BoundedCount::new(1).unwrap());
        let limited = assess(&answers, &demo_config());
        let clamp = limited.work.iter().find(|line| line.item == model::config::Item::LoadSensing).unwrap();
        assert_eq!(clamp.set_at, [Amps::of(60.0)]);
        let needs = |to| {
            let all = limited.owed.iter().filter(move |owed| owed.to == to);
            all.flat_map(|owed| owed.needs.iter())
                .filter(|need| ["load-limit", "limit-as-set", "fails-safe"].contains(&need.what.as_str()))
        };
        let values = |to| needs(to).map(|need| need.value.as_deref()).collect::<Vec<_>>();
        assert_eq!(values(OwedTo::NetworkOperator), [Some("60 A"), None], "and the proof is still owed");
        assert_eq!(values(OwedTo::Certificate), [Some("60 A"), None]);
        assert_eq!(values(OwedTo::Handover), [Some("60 A")]);
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.load_sensing = false);
        let without = assess(&answers, &config);
        assert!(without.owed.iter().flat_map(|owed| &owed.needs).all(|need| need.what != "fails-safe"));
    }

    #[test]
    fn where_cases_differ_the_form_says_what_it_may_be() {
        let form = form(|answers| {
            answers.meter.carrier_rating = Answer::Known(Amps::of(80.0));
            answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            answers.earthing.conductor_goes = Answer::Known(EarthGoes::ServiceHead);
        });
        assert_eq!(need(&form, "phases-and-loop").value, None, "likely is not settled");
        assert_eq!(need(&form, "phases-and-loop").alternatives, ["single-phase, looped", "single-phase"]);
        assert_eq!(need(&form, "main-fuse").alternatives.len(), 2);
        assert_eq!(need(&form, "maximum-demand").value, None);
        assert!(need(&form, "maximum-demand").alternatives.len() > 1);
        assert_eq!(need(&form, "charge-current").value.as_deref(), Some("32 A"), "the same in every case");
        let earthing = need(&form, "earthing");
        assert_eq!((earthing.value.as_deref(), earthing.known_by), (Some("TN-C-S (PME)"), Some(KnownBy::Seen)));
    }

    fn operators(say: impl FnOnce(&mut Answers)) -> Vec<(String, Option<Asked>)> {
        let mut answers = Answers::default();
        answers.hazard.signs = Answer::Known(Set::NONE);
        answers.home.postcode = Answer::Known(Postcode::new("ZZ1").unwrap());
        answers.meter.fuse_carriers = Answer::Known(BoundedCount::new(1).unwrap());
        answers.meter.head_conductors = Answer::Known(BoundedCount::new(2).unwrap());
        answers.loads.showers = Answer::Known(BoundedCount::new(0).unwrap());
        answers.loads.cooking = Answer::Known(Cooking::Gas);
        answers.loads.heating = Answer::Known(Heating::None);
        answers.loads.hot_tub = Answer::Known(false);
        answers.loads.other_point = Answer::Known(OtherPoint::None);
        say(&mut answers);
        let owed = assess(&answers, &demo_config()).owed;
        let to = owed.into_iter().filter(|owed| owed.to == OwedTo::NetworkOperator);
        to.map(|owed| (owed.way, owed.asked)).collect()
    }

    #[test]
    fn what_was_asked_is_dated_and_the_usual_day_of_an_answer_follows() {
        let day = |day| date(2026, 3, day);
        let [(way, asked), (_, none)] = &operators(|answers| {
            answers.loads.other_point = Answer::Known(OtherPoint::Kept);
            answers.operator.asked_on = Answer::Known(day(2));
        })[..] else {
            panic!("asked first, told after")
        };
        assert_eq!((way.as_str(), *none), ("ask", None));
        let asked = asked.unwrap();
        assert_eq!(asked, Asked { on: Some(day(2)), usually_by: Some(day(16)), answered: None });
        assert!(!asked.is_overdue(day(16)) && asked.is_overdue(day(17)));
        assert!(!Asked { answered: Some(day(18)), ..asked }.is_overdue(day(20)), "it came");
    }

    #[test]
    fn where_works_are_likely_no_day_is_usual() {
        let owed = operators(|answers| {
            answers.meter.head_conductors = Answer::Known(BoundedCount::new(4).unwrap());
            answers.operator.asked_on = Answer::Known(date(2026, 3, 2));
        });
        let asked = owed[0].1.unwrap();
        assert_eq!(asked.usually_by, None);
        assert!(!asked.is_overdue(date(2026, 12, 31)));
    }

    #[test]
    fn an_answer_recorded_without_its_day_is_not_waited_for() {
        let owed = operators(|answers| {
            answers.loads.other_point = Answer::Known(OtherPoint::Kept);
            answers.operator.asked_on = Answer::Known(date(2026, 3, 2));
            answers.operator.answer = Answer::Known(OperatorAnswer::Refused);
        });
        assert_eq!(owed[0].1, Some(Asked { on: Some(date(2026, 3, 2)), usually_by: None, answered: None }));
    }

    #[test]
    fn days_that_cannot_be_are_kept_and_told_apart() {
        let day = |day| Some(date(2026, 3, day));
        let asked = |on, answered| Asked { on, usually_by: None, answered };
        assert!(asked(day(2), day(1)).is_answered_before_asked());
        assert!(!asked(day(2), day(2)).is_answered_before_asked() && !asked(None, day(1)).is_answered_before_asked());
        assert!(asked(day(3), None).is_dated_after(date(2026, 3, 2)));
        assert!(!asked(day(2), day(2)).is_dated_after(date(2026, 3, 2)));
    }

    #[test]
    fn once_it_has_answered_the_dates_stay_and_the_work_is_confirmed() {
        let owed = operators(|answers| {
            answers.operator.asked_on = Answer::Known(date(2026, 3, 2));
            answers.operator.answered_on = Answer::Known(date(2026, 3, 20));
            answers.operator.answer = Answer::Known(OperatorAnswer::Separated);
        });
        let (way, asked) = owed.last().unwrap();
        assert_eq!(way, "confirm");
        assert_eq!(asked.unwrap().answered, Some(date(2026, 3, 20)));
        assert!(operators(|_| ()).iter().all(|(_, asked)| asked.is_none()), "nothing recorded, nothing dated");
    }
}
