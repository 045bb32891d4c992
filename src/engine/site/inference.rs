//! All facts about one home, inferred together from its answers.

use super::case::KnownCase;
use super::contradiction::Contradiction;
use super::fact::{Fact, FactId};
use super::facts::each_fact;
use super::hazard::HazardInference;
use super::{
    BoardState, CircuitThere, EarthingArrangement, Feed, Nation, RouterWay, Supply, board, bonding, circuit, earthing,
    feed, generation, hazard, loads, nation, route, router, supply,
};
use super::{ShownFact, ShownValue};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use model::answers::{Along, Answers, MainConductors};
use model::config::{Config, Region};
use model::terms::KnownBy;
use model::units::{Amps, Metres, Probability, Ratio};

/// Whether the home lies within what the data and the installer cover.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coverage {
    /// Covered.
    Covered,
    /// Not known.
    Unknown,
    /// Outside what the installer covers.
    OutsideArea,
    /// In Northern Ireland: other law and another network.
    NorthernIreland,
}

macro_rules! site {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $id:ident, $word:literal;)+) => {
        /// What was inferred of a home: every fact.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Site {
            /// Hazards.
            pub hazard: HazardInference,
            /// Whether it is covered.
            pub coverage: Coverage,
            $($(#[$doc])* pub $name: Fact<$type>,)+
            /// What does not go together.
            pub contradictions: Vec<Contradiction>,
        }
    };
}

each_fact!(site);

/// The probability that an electrode that is there can be proved: common practice, no source.
const ELECTRODE_GOOD: Probability = Probability::of(0.7);

/// Infers every fact from the answers.
#[must_use]
pub fn infer(answers: &Answers, config: &Config) -> Site {
    let mut contradictions = Vec::new();
    let priors = &config.priors;
    let yes_no = |answer: &model::answers::Answer<bool>, prior, from| match answer.known() {
        Some(yes) => Fact::sure(*yes, KnownBy::Seen, from),
        None => Fact::chance(true, false, prior, KnownBy::Assumed, from),
    };
    let supply = supply::infer(answers, config, &mut contradictions);
    let (main_fuse, existing) = (supply::infer_fuse(answers, config), loads::infer(answers));
    Site {
        hazard: hazard::infer(answers),
        coverage: coverage(answers, &config.area),
        earthing: earthing::infer(answers, config),
        gas: bonding::infer_gas(answers, config),
        water: bonding::infer_water(answers, config),
        other_metal: bonding::infer_other(answers, config),
        board: board::infer(answers, config, &mut contradictions),
        device: board::infer_device(answers, config),
        switch_after_meter: yes_no(&answers.meter.switch_after, priors.switch_after_meter, &["switch-after"]),
        surge_device: yes_no(
            &answers.board.surge_device,
            *priors.surge_device.of(answers.home.age.known().copied()),
            &["surge-device"],
        ),
        route_length: route::infer_length(answers, config),
        route_along: route::infer_along(answers),
        hard_ground: route::infer_hard_ground(answers),
        wall: route::infer_wall(answers),
        weak_signal: route::infer_signal(answers, config),
        mobile_signal: route::infer_mobile(answers, config),
        router: router::infer(answers, config),
        other_point: loads::infer_other_point(answers),
        generation_to_clear: generation::infer(answers, config),
        feed: feed::infer(answers, config, &existing, &supply, &main_fuse),
        supply,
        main_fuse,
        existing,
        electrode_good: Fact::chance(true, false, ELECTRODE_GOOD, KnownBy::Assumed, &[]),
        circuit: circuit::infer(answers),
        conductors: circuit::infer_conductors(answers),
        contradictions,
    }
}

/// Where the home lies. The form shows this at once, and the assessment rests on it. `area` lists the beginnings of the postcodes covered.
#[must_use]
pub fn coverage(answers: &Answers, area: &[String]) -> Coverage {
    let Some(postcode) = answers.home.postcode.known() else { return Coverage::Unknown };
    match nation(answers) {
        Nation::NorthernIreland => Coverage::NorthernIreland,
        Nation::England | Nation::Wales | Nation::Scotland | Nation::Unclear
            if area.is_empty() || area.iter().any(|beginning| covers(beginning.trim(), postcode)) =>
        {
            Coverage::Covered
        }
        // The islands have other law, so they are outside whatever the installer's area is.
        Nation::Islands | Nation::England | Nation::Wales | Nation::Scotland | Nation::Unclear => Coverage::OutsideArea,
    }
}

/// What is usual in the home's region, where the config says so.
pub(super) fn region<'c>(answers: &Answers, config: &'c Config) -> Option<&'c Region> {
    let postcode = answers.home.postcode.known()?;
    config
        .priors
        .regions
        .iter()
        .find(|region| region.postcodes.iter().any(|beginning| covers(beginning.trim(), postcode)))
}

/// Whether a beginning covers a postcode. Letters alone stand for a whole postcode area (`B` is not also `BN`), an outward half for itself
/// (`ZZ1` is not also `ZZ10`), and a text with a space for every postcode that begins with it.
fn covers(beginning: &str, postcode: &model::answers::Postcode) -> bool {
    if beginning.bytes().all(|byte| byte.is_ascii_alphabetic()) {
        postcode.area() == beginning
    } else {
        postcode.outward() == beginning || (beginning.contains(' ') && postcode.as_str().starts_with(beginning))
    }
}

/// Looks a fact up by its id, whatever its type, and evaluates an expression with it.
macro_rules! by_id {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $id:ident, $word:literal;)+) => {
        impl Site {
            /// How many possible values a fact has.
            #[must_use]
            pub fn count(&self, id: FactId) -> usize {
                match id { $(FactId::$id => self.$name.values().len(),)+ }
            }

            /// The probability of the value at position `at`.
            #[must_use]
            pub fn weight(&self, id: FactId, at: usize) -> Probability {
                match id { $(FactId::$id => self.$name.values()[at].1,)+ }
            }

            /// The questions that the fact rests on, or would rest on.
            #[must_use]
            pub fn from(&self, id: FactId) -> &'static [&'static str] {
                match id { $(FactId::$id => self.$name.from,)+ }
            }

            /// How a fact is known, and its values in words.
            fn known(&self, id: FactId) -> (KnownBy, Vec<ShownValue>) {
                match id { $(FactId::$id => (self.$name.known_by, shown_values(&self.$name)),)+ }
            }
        }
    };
}

each_fact!(by_id);

fn shown_values<T: Copy + PartialEq + InWords>(fact: &Fact<T>) -> Vec<ShownValue> {
    let shown =
        |(value, probability): &(T, Probability)| ShownValue { value: value.in_words(), probability: *probability };
    fact.values().iter().map(shown).collect()
}

impl Site {
    /// The case in which every fact has its likeliest value.
    #[must_use]
    pub fn likeliest_case(&self) -> KnownCase<'_> {
        KnownCase::likeliest(self)
    }

    /// A fact with its values in words, for the assessment.
    #[must_use]
    pub fn shown(&self, id: FactId) -> ShownFact {
        let (known_by, values) = self.known(id);
        ShownFact {
            fact: id.word().to_string(),
            known_by,
            from: self.from(id).iter().map(ToString::to_string).collect(),
            values,
        }
    }
}

/// A fact's value in the installer's words.
trait InWords {
    fn in_words(&self) -> String;
}

impl InWords for bool {
    fn in_words(&self) -> String {
        if *self { "yes" } else { "no" }.to_string()
    }
}

impl InWords for Amps {
    fn in_words(&self) -> String {
        self.to_string()
    }
}

impl InWords for Metres {
    fn in_words(&self) -> String {
        self.to_string()
    }
}

impl InWords for Along {
    fn in_words(&self) -> String {
        self.word().to_string()
    }
}

impl InWords for Feed {
    fn in_words(&self) -> String {
        match self {
            Self::NotThere => "the home's own board".to_string(),
            Self::Carries(charge) => {
                alloc::format!("an outbuilding's board with a feed that carries {charge} of charging")
            }
            Self::TooSmall(length) => alloc::format!("an outbuilding's board; a new cable of {length} from the home"),
        }
    }
}

impl InWords for RouterWay {
    fn in_words(&self) -> String {
        if self.of_the_way <= Ratio::ZERO {
            alloc::format!("{} from the spot", self.beyond)
        } else if self.of_the_way < Ratio::of(1.0) {
            alloc::format!("{:.0} % of the way to the board, and {}", self.of_the_way.get() * 100.0, self.beyond)
        } else {
            alloc::format!("{} beyond the board", self.beyond)
        }
    }
}

impl InWords for Supply {
    fn in_words(&self) -> String {
        use super::Phases;
        let phases = match self.phases {
            Phases::One => "single-phase",
            Phases::Split => "split-phase",
            Phases::Three => "three-phase",
        };
        [phases, if self.looped { ", looped" } else { "" }].concat()
    }
}

impl InWords for EarthingArrangement {
    fn in_words(&self) -> String {
        match self {
            Self::TnCS => "TN-C-S (PME)",
            Self::TnS => "TN-S",
            Self::Tt => "TT",
        }
        .to_string()
    }
}

impl InWords for MainConductors {
    fn in_words(&self) -> String {
        match self {
            Self::Enough => "large enough",
            Self::MainEarthSmall => "the main earthing conductor is too small",
            Self::BothSmall => "tails and main earthing conductor are too small",
        }
        .to_string()
    }
}

impl InWords for CircuitThere {
    fn in_words(&self) -> String {
        match self {
            Self::NotThere => "none",
            Self::Sound => "an old charge point's, used as it is",
            Self::NewDevice => "an old charge point's, with another protective device",
            Self::CableAlone => "a cable that was left, from a way of the board",
            Self::NotUsable => "there, but it can't be used",
        }
        .to_string()
    }
}

impl InWords for BoardState {
    fn in_words(&self) -> String {
        match self {
            Self::OwnWays => "spare ways of their own, two or more",
            Self::OwnWay => "one spare way of its own",
            Self::FreedWay => "no spare way, but one can be freed",
            Self::SharedWay => "spare ways only behind a shared RCD",
            Self::Full => "no spare way",
            Self::FuseWire => "fuse wire",
        }
        .to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Postcode};
    use model::config::demo_config;

    fn at(postcode: &str, area: &[&str]) -> Coverage {
        let mut config = demo_config();
        config.area = area.iter().map(ToString::to_string).collect();
        let mut answers = Answers::default();
        answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
        coverage(&answers, &config.area)
    }

    #[test]
    fn the_area_is_read_by_whole_districts() {
        assert_eq!(at("ZZ1 1AA", &["ZZ1"]), Coverage::Covered);
        assert_eq!(at("ZZ10 1AA", &["ZZ1"]), Coverage::OutsideArea);
        assert_eq!(at("ZZ10 1AA", &["ZZ"]), Coverage::Covered);
        assert_eq!(at("ZZ1A 1AA", &["ZZ1A"]), Coverage::Covered);
        assert_eq!(at("ZZ1 1AA", &["Z"]), Coverage::OutsideArea);
        assert_eq!(at("ZZ1 1AA", &["ZZ1 1"]), Coverage::Covered);
        assert_eq!(at("BT0 0OO", &[]), Coverage::NorthernIreland);
        assert_eq!(at("JE0 0OO", &["JE"]), Coverage::OutsideArea);
    }

    #[test]
    fn nothing_answered_leaves_every_fact_unsure_and_marked_as_assumed() {
        let site = infer(&Answers::default(), &demo_config());
        // What nobody spoke of is taken as not there: nothing is saved by it.
        for id in <FactId as model::answers::Word>::ALL.iter().filter(|id| **id != FactId::Circuit) {
            let shown = site.shown(*id);
            assert!(shown.values.len() > 1 && shown.known_by == KnownBy::Assumed, "{} made itself certain", shown.fact);
        }
    }
}
