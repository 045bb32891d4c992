//! What-ifs: the same home with one choice changed, and how that changes band, waits, labour and flags.

use super::pipeline::assess_plainly;
use super::types::{Assessment, Band, Complexity, Gate, Gatekeeper};
use crate::site::{is_ground, said_in_stretches};
use alloc::borrow::Cow;
use alloc::string::String;
use alloc::vec::Vec;
use model::answers::choices::words;
use model::answers::{Along, Answer, Answers, Outlet};
use model::config::Config;
use model::units::Minutes;
use serde::{Deserialize, Serialize};

words! {
    /// A choice that can be made the other way.
    pub enum Choice {
        /// A charge point with a socket.
        Socket => "socket",
        /// One with a fixed lead.
        FixedLead => "fixed-lead",
        /// The cable under the ground.
        Buried => "buried",
        /// The cable along the wall.
        AlongTheWall => "along-the-wall",
        /// Holding back while the home is busy.
        HoldBack => "hold-back",
        /// Full current at all times, with a bigger supply where it takes one.
        BiggerSupply => "bigger-supply",
    }
}

/// What changes if one choice is made the other way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WhatIf {
    /// The choice.
    pub choice: Choice,
    /// What would be paid then, or nothing where there would be no band.
    pub band: Option<Band>,
    /// How involved it would be.
    pub complexity: Complexity,
    /// Likely labour.
    pub labour: Minutes,
    /// Gatekeepers who would have to be asked first, on paper or with a wait, and now need not be.
    pub waits_for: Vec<Gate>,
    /// Gatekeepers who perhaps would have to be asked first, and now hardly would.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub may_wait_for: Vec<Gate>,
    /// Gatekeepers who have to be asked first now, and then would not.
    pub waits_no_more_for: Vec<Gatekeeper>,
    /// Codes of the flags that would be raised in addition.
    pub flags_more: Vec<String>,
    /// Codes of the flags that would no longer be raised.
    pub flags_less: Vec<String>,
}

/// Every choice that can be made the other way for this home, with what that would change against the assessment `now`. Empty where `now`
/// has no band to compare with.
#[must_use]
pub fn what_ifs(said: &Answers, config: &Config, now: &Assessment) -> Vec<WhatIf> {
    use model::answers::Word;
    let answers = &*model::questions::counting(said);
    if now.band.is_none() {
        return Vec::new();
    }
    let of = |choice: &Choice| {
        let (answers, config) = other_way(*choice, answers, config, now)?;
        Some(beside(*choice, now, &assess_plainly(&answers, &config)))
    };
    Choice::ALL.iter().filter_map(of).collect()
}

/// Answers and config with the choice made; `None` where it is made so already, or can't be.
fn other_way<'a>(
    choice: Choice,
    answers: &'a Answers,
    config: &'a Config,
    now: &Assessment,
) -> Option<(Answers, Cow<'a, Config>)> {
    let mut other = answers.clone();
    let mut with = Cow::Borrowed(config);
    let bought = answers.wish.bought.is(true);
    let offers = |such: &dyn Fn(&model::config::OfferedPoint) -> bool| config.charge_points.iter().any(such);
    let holds_back = now.figures.load_limit || answers.wish.hold_back.is(true);
    match choice {
        Choice::Socket if !bought && offers(&|point| point.lead.is_none()) => {
            other.wish.outlet = Answer::Known(Outlet::Socket);
        }
        Choice::FixedLead if !bought && offers(&|point| point.lead.is_some()) => {
            other.wish.outlet = Answer::Known(Outlet::Lead);
        }
        Choice::Buried => turn(&mut other, |along| along == Along::OutsideWall, Along::SoftGround)?,
        Choice::AlongTheWall => turn(&mut other, is_ground, Along::OutsideWall)?,
        Choice::HoldBack if !holds_back && offers(&|point| point.load_sensing) => {
            other.wish.hold_back = Answer::Known(true);
        }
        Choice::BiggerSupply if holds_back => {
            other.wish.hold_back = Answer::Known(false);
            for point in &mut with.to_mut().charge_points {
                point.load_sensing = false;
            }
        }
        Choice::Socket | Choice::FixedLead | Choice::HoldBack | Choice::BiggerSupply => return None,
    }
    if choice == Choice::Socket || choice == Choice::FixedLead {
        // The charge point that suits now may already be of that kind.
        let lead = |answers: &Answers| crate::context::Context::of(answers, config).point.lead.is_some();
        if lead(&other) == lead(answers) {
            return None;
        }
    }
    Some((other, with))
}

/// Changes what the route runs along to `to`, wherever `such` holds of it; `None` where it holds of no part.
fn turn(answers: &mut Answers, such: impl Fn(Along) -> bool, to: Along) -> Option<()> {
    if let Some(said) = said_in_stretches(answers) {
        let mut stretches = said.to_vec();
        if !stretches.iter().any(|stretch| such(stretch.along)) {
            return None;
        }
        for stretch in stretches.iter_mut().filter(|stretch| such(stretch.along)) {
            (stretch.along, stretch.high) = (to, false);
        }
        answers.route.stretches = Answer::Known(stretches);
    } else if answers.route.mostly.known().is_some_and(|along| such(*along)) {
        answers.route.mostly = Answer::Known(to);
    } else {
        return None;
    }
    Some(())
}

/// A probability that grows by less than this is not reported. Common practice, no source.
const MORE: f64 = 0.1;

fn beside(choice: Choice, now: &Assessment, then: &Assessment) -> WhatIf {
    let asked = |gate: &Gate| gate.counts || gate.on_paper;
    // A gate now answered on paper that then has to be waited for counts as a new wait.
    let graver = |gate: &&Gate| {
        let before = now.gates.iter().find(|before| before.who == gate.who && asked(before));
        asked(gate) && before.is_none_or(|before| gate.counts && !before.counts)
    };
    let likelier = |gate: &&Gate| {
        let before = now.gates.iter().find(|before| before.who == gate.who);
        let before = before.map_or(0.0, |before| before.probability.get());
        !asked(gate) && gate.is_told() && gate.probability.get() >= before + MORE
    };
    let counts =
        |assessment: &Assessment, who: Gatekeeper| assessment.gates.iter().any(|gate| asked(gate) && gate.who == who);
    let raised = |assessment: &Assessment, code: &str| assessment.flags.iter().any(|flag| flag.code == code);
    let codes = |of: &Assessment, not: &Assessment| {
        of.flags.iter().filter(|flag| !raised(not, &flag.code)).map(|flag| flag.code.clone()).collect()
    };
    WhatIf {
        choice,
        band: then.band,
        complexity: then.complexity,
        labour: then.labour,
        waits_for: then.gates.iter().filter(graver).cloned().collect(),
        may_wait_for: then.gates.iter().filter(likelier).cloned().collect(),
        waits_no_more_for: now
            .gates
            .iter()
            .filter(|gate| asked(gate) && !counts(then, gate.who))
            .map(|gate| gate.who)
            .collect(),
        flags_more: codes(then, now),
        flags_less: codes(now, then),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::assess;
    use model::config::demo_config;

    fn of(json: &str) -> (Assessment, Vec<WhatIf>) {
        let (answers, config) = (serde_json::from_str(json).unwrap(), demo_config());
        let now = assess(&answers, &config);
        let futures = what_ifs(&answers, &config, &now);
        (now, futures)
    }

    fn home(route: &str, wish: &str) -> (Assessment, Vec<WhatIf>) {
        of(&alloc::format!(
            r#"{{"hazard":{{"signs":[]}},"home":{{"kind":"detached","tenure":"own"}},"parking":{{"place":"drive"}},
                "meter":{{"fuse_carriers":1,"head_conductors":2,"street_cables":1}},
                "route":{{"length":{{"value":15,"unit":"metres"}},{route}}},"wish":{{{wish}}}}}"#
        ))
    }

    fn find(futures: &[WhatIf], choice: Choice) -> Option<&WhatIf> {
        futures.iter().find(|future| future.choice == choice)
    }

    #[test]
    fn along_the_wall_is_cheaper_than_under_the_paving() {
        let (now, futures) = home(r#""mostly":"paving""#, "");
        let wall = find(&futures, Choice::AlongTheWall).unwrap();
        assert!(wall.band.unwrap().high < now.band.unwrap().low, "digging is most of it");
        assert!(wall.labour < now.labour);
        assert_eq!(find(&futures, Choice::Buried), None, "it is buried already");
        let (now, futures) = home(r#""mostly":"outside-wall""#, "");
        assert!(find(&futures, Choice::Buried).unwrap().band.unwrap().low > now.band.unwrap().low);
        let (_, futures) = home(r#""mostly":"not-sure""#, "");
        assert_eq!(find(&futures, Choice::Buried), None, "what is not known can't be turned");
    }

    #[test]
    fn stretches_are_turned_one_by_one() {
        let stretches = r#""stretches":[{"along":"inside","length":{"value":3,"unit":"metres"}},
            {"along":"paving","length":{"value":9,"unit":"metres"}}]"#;
        let (now, futures) = home(stretches, "");
        assert!(find(&futures, Choice::AlongTheWall).unwrap().labour < now.labour);
    }

    #[test]
    fn a_socket_is_set_beside_a_lead_and_never_beside_itself() {
        let (now, futures) = home(r#""mostly":"outside-wall""#, r#""outlet":"lead""#);
        let socket = find(&futures, Choice::Socket).unwrap();
        assert!(socket.band.unwrap().charge_point < now.band.unwrap().charge_point);
        assert_eq!(find(&futures, Choice::FixedLead), None);
        let (_, futures) = home(r#""mostly":"outside-wall""#, r#""outlet":"socket""#);
        assert_eq!(find(&futures, Choice::Socket), None);
        assert!(find(&futures, Choice::FixedLead).is_some());
        let (_, futures) = home(r#""mostly":"outside-wall""#, r#""bought":true,"outlet":"socket""#);
        assert_eq!(find(&futures, Choice::FixedLead), None, "theirs is bought already");
    }

    #[test]
    fn a_bigger_supply_is_waited_for_where_the_limit_avoided_that() {
        let json = r#"{"hazard":{"signs":[]},"home":{"kind":"detached","tenure":"own","age":"since-2000"},
            "parking":{"place":"drive"},"meter":{"fuse_carriers":1,"head_conductors":2,"street_cables":1},
            "loads":{"showers":0,"cooking":"electric","heating":"none","hot_tub":false,"other_point":"none"},
            "route":{"length":{"value":8,"unit":"metres"},"mostly":"outside-wall"}}"#;
        let (now, futures) = of(json);
        assert!(now.figures.load_limit);
        let bigger = find(&futures, Choice::BiggerSupply).unwrap();
        assert!(bigger.waits_for.iter().any(|gate| gate.who == Gatekeeper::NetworkOperator), "{bigger:?}");
        assert_eq!(find(&futures, Choice::HoldBack), None, "it holds back already");
    }

    #[test]
    fn without_a_band_nothing_is_set_beside() {
        let (_, futures) = of(r#"{"hazard":{"signs":["smoke"]},"route":{"mostly":"paving"}}"#);
        assert_eq!(futures, []);
    }
}
