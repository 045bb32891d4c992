//! Before and after the work: what is owed to whom, by when, with what it needs filled in as far as the answers go.

use super::types::{Gate, Gatekeeper, KnownBy, Need, Owed, OwedTo, OwedWhen};
use crate::answers::{Answer, Answers, Field, Given as Said, Kind, OperatorAnswer, Protected};
use crate::design::{Decided, DecisionId, Design, Given, Outcome, network};
use crate::site::{FactId, Nation, Site, nation};
use crate::units::Probability;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Everything owed, in the order of the work. Nothing is owed where the data doesn't reach: other law, other forms.
pub(super) fn owed(site: &Site, given: &Given<'_>, design: &Design, gates: &[Gate]) -> Vec<Owed> {
    let Some(building_control) = building_control(nation(given.answers)) else { return Vec::new() };
    let mut all = Vec::new();
    let mut form = operators_form(site, given);
    if let Some(gate) = gates.iter().find(|gate| gate.who == Gatekeeper::NetworkOperator) {
        let way = if given.answers.operator.answer.is(OperatorAnswer::Refused) { "ask-again" } else { "ask" };
        // One form serves both: it stands where it is the likelier to be wanted.
        let needs = if gate.counts { core::mem::take(&mut form) } else { Vec::new() };
        all.push(Owed { probability: gate.probability, needs, ..before(OwedTo::NetworkOperator, way, ENA) });
    }
    for gate in gates {
        let (to, way, needs, source): (_, _, &[&str], _) = match gate.who {
            Gatekeeper::NetworkOperator | Gatekeeper::OtherTrade => continue,
            Gatekeeper::Supplier => (OwedTo::Supplier, "dead-tails", &["supply-number", "visit-day"], PRACTICE),
            Gatekeeper::Landlord => (OwedTo::Landlord, "agree", &["drawing", "who-pays", "letter"], PRACTICE),
            Gatekeeper::Neighbour => (OwedTo::Neighbour, "agree", &["drawing", "letter"], PRACTICE),
            Gatekeeper::Planner => {
                (OwedTo::Planner, planners_way(given.answers), &["drawing", "photo-of-the-spot"], GPDO)
            }
            Gatekeeper::HighwayAuthority => {
                (OwedTo::HighwayAuthority, "channel", &["drawing", "photo-of-the-spot"], DFT)
            }
        };
        let needs = needs.iter().map(|what| missing(what)).collect();
        all.push(Owed { probability: gate.probability, needs, ..before(to, way, source) });
    }
    all.push(building_control);
    all.push(after(
        OwedTo::Certificate,
        "installation",
        OwedWhen::OnCompletion,
        alloc::vec![
            known("earthing", fact(site, FactId::Earthing)),
            known("main-fuse", fact(site, FactId::MainFuse)),
            missing("external-impedance"),
            missing("prospective-fault-current"),
            missing("test-results"),
        ],
        "BS 7671 Part 6 (from memory)",
    ));
    let told = design.probability(
        DecisionId::Network,
        |decided| matches!(decided, Decided::Network(process) if process.outcome == Outcome::NotifyAfter),
    );
    all.push(Owed {
        when: OwedWhen::DaysAfter,
        days: Some(given.config.thresholds.notify_days),
        // Whoever was asked first is told as well that it is done.
        probability: Probability::CERTAIN,
        needs: form,
        ..before(OwedTo::NetworkOperator, if told > Probability::of(0.5) { "notify" } else { "confirm" }, ENA)
    });
    all.push(after(
        OwedTo::Handover,
        "handover",
        OwedWhen::OnCompletion,
        ["instructions", "limit-as-set", "test-button-shown", "off-peak-set-up"]
            .iter()
            .map(|what| missing(what))
            .collect(),
        "BS 7671 134.1.1 (from memory); SI 2021/1467 binds the seller",
    ));
    all
}

const ENA: &str = "Energy Networks Association, application form for low-carbon technologies";
const PRACTICE: &str = "common practice, no source";
const GPDO: &str = "General Permitted Development Order 2015 (England)";
const DFT: &str = "Department for Transport guidance, December 2024";
/// A registered installer's scheme has so many days. Source: Building Regulations 2010, regulation 20 (from memory).
const SCHEME_DAYS: u16 = 30;

fn before(to: OwedTo, way: &str, source: &str) -> Owed {
    after(to, way, OwedWhen::BeforeBooking, Vec::new(), source)
}

fn after(to: OwedTo, way: &str, when: OwedWhen, needs: Vec<Need>, source: &str) -> Owed {
    let (way, source) = (way.to_string(), source.to_string());
    Owed { to, when, days: None, probability: Probability::CERTAIN, way, needs, source }
}

fn planners_way(answers: &Answers) -> &'static str {
    match answers.home.protected {
        Answer::Known(Protected::Listed) => "listed-consent",
        Answer::Known(Protected::ConservationArea | Protected::Neither) | Answer::NotSure | Answer::NotAsked => "ask",
    }
}

/// England and Wales: a registered installer's scheme afterwards, otherwise notice before starting. Scotland: its own way.
/// Nothing where the data doesn't reach.
fn building_control(nation: Nation) -> Option<Owed> {
    let (way, when, days, source) = match nation {
        Nation::NorthernIreland | Nation::Islands => return None,
        Nation::England => {
            ("england", OwedWhen::DaysAfter, Some(SCHEME_DAYS), "Approved Document P 2013; regulation 20 (from memory)")
        }
        Nation::Wales => ("wales", OwedWhen::DaysAfter, Some(SCHEME_DAYS), "Approved Document P, Wales (from memory)"),
        Nation::Scotland => {
            ("scotland", OwedWhen::BeforeWork, None, "Building (Scotland) Regulations 2004 (from memory)")
        }
        Nation::Unclear => ("unclear", OwedWhen::BeforeWork, None, "common practice, no source"),
    };
    let needs = ["address", "certificate-number"].iter().map(|what| missing(what)).collect();
    Some(Owed { days, ..after(OwedTo::BuildingControl, way, when, needs, source) })
}

/// What the operator's form asks for. Source: Energy Networks Association, application form for low-carbon technologies.
fn operators_form(site: &Site, given: &Given<'_>) -> Vec<Need> {
    let (answers, case) = (given.answers, site.likeliest_case());
    let process = network::decide(&case, given);
    let designed = |what, value: String| known(what, Some((value, KnownBy::Inferred)));
    let loads = &answers.loads;
    alloc::vec![
        missing("address"),
        known("postcode", said(&answers.home.postcode)),
        missing("supply-number"),
        known("phases-and-loop", fact(site, FactId::Supply)),
        known("main-fuse", fact(site, FactId::MainFuse)),
        known("earthing", fact(site, FactId::Earthing)),
        known("existing-demand", fact(site, FactId::ExistingDemand)),
        designed("maximum-demand", process.demand.to_string()),
        designed("charge-current", process.current.to_string()),
        known("points", fact(site, FactId::OtherPoint)),
        designed("load-limit", process.limit.map_or_else(|| "none".to_string(), |limit| limit.to_string())),
        designed("exports", "no".to_string()),
        known("solar-power", said(&loads.solar_power)),
        known("battery-power", said(&loads.battery_power)),
        known("operator-letter", said(&loads.operator_letter)),
        missing("maker-and-model"),
        missing("photo-of-the-head"),
    ]
}

fn missing(what: &str) -> Need {
    known(what, None)
}

fn known(what: &str, value: Option<(String, KnownBy)>) -> Need {
    let (value, known_by) = value.unzip();
    Need { what: what.to_string(), value, known_by }
}

/// The likeliest value of a fact; nothing where it rests on an assumption alone, for a form takes no guesses.
fn fact(site: &Site, id: FactId) -> Option<(String, KnownBy)> {
    let shown = site.shown(id);
    let likeliest = shown.values.into_iter().next()?;
    (!matches!(shown.known_by, KnownBy::Assumed | KnownBy::Contradicted)).then_some((likeliest.value, shown.known_by))
}

/// An answer as it was said.
fn said<T: Field>(answer: &Answer<T>) -> Option<(String, KnownBy)> {
    let text = match (answer.known()?.give(), T::KIND) {
        (Said::Line(line), _) => line,
        (Said::Figure(number), Kind::Figure(bounds)) => alloc::format!("{number} {}", bounds.symbol),
        (Said::YesNo(yes), _) => if yes { "yes" } else { "no" }.to_string(),
        _ => return None,
    };
    Some((text, KnownBy::Said))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Postcode;
    use crate::assess;
    use crate::config::demo_config;

    fn at(postcode: &str) -> Vec<Owed> {
        let mut config = demo_config();
        config.area.clear();
        let mut answers = Answers::default();
        answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
        assess(&answers, &config).owed
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
        assert!(at("BT1").is_empty() && at("IM1").is_empty(), "other law: nothing is made up");
    }

    /// Source: Energy Networks Association form: within 28 days.
    #[test]
    fn the_operator_is_told_within_the_days_of_the_data() {
        let owed = at("ZZ1");
        let told = owed.iter().rfind(|owed| owed.to == OwedTo::NetworkOperator).unwrap();
        assert_eq!((told.when, told.days), (OwedWhen::DaysAfter, Some(28)));
    }

    #[test]
    fn the_operators_form_is_filled_in_from_answers_and_never_from_guesses() {
        let owed = at("ZZ1");
        let mut forms = owed.iter().filter(|owed| owed.to == OwedTo::NetworkOperator && !owed.needs.is_empty());
        let form = &forms.next().unwrap().needs;
        assert_eq!(forms.next(), None, "one form");
        let value = |what: &str| form.iter().find(|need| need.what == what).unwrap().value.clone();
        assert_eq!(value("postcode").as_deref(), Some("ZZ1"));
        assert_eq!(value("main-fuse"), None, "assumed is not known");
        assert_eq!(value("supply-number"), None);
    }
}
