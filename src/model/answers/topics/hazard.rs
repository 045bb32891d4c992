//! Asked before anyone goes near meter or board: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, Set};
use crate::words;

topic! {
    /// Asked before anyone goes near meter or board.
    pub struct Hazard at hazard {
        /// What was noticed; an empty list is "nothing of it".
        signs: Set<HazardSign>,
        /// When, of the signs that pass; where it was not asked, they count.
        when: HazardWhen,
        /// Where.
        place: HazardPlace,
        /// Where they stood, if it came to light on looking.
        found_at: FoundAt,
    }
}

impl Hazard {
    /// The signs that still count: all but those that may cease by themselves and were noticed once, long ago. `None` where the question
    /// about signs has no answer.
    #[must_use]
    pub fn counting(&self) -> Option<Set<HazardSign>> {
        let long_ago = self.when.is(HazardWhen::LongAgo);
        self.signs.known().map(|signs| {
            let counts = signs.iter().filter(|sign| !(long_ago && sign.passes()));
            counts.fold(Set::NONE, Set::with)
        })
    }

    /// Whether any sign that counts was noticed.
    #[must_use]
    pub fn is_noticed(&self) -> bool {
        self.counting().is_some_and(|signs| !signs.is_empty())
    }

    /// Whether a danger is ruled out as far as they can tell: only then may anybody be sent to look at meter or board.
    #[must_use]
    pub fn is_ruled_out(&self) -> bool {
        self.counting().is_some_and(|signs| signs.is_empty())
    }

    /// Whether the question about dangers was asked and did not rule them out: a sign counts, or the answer is "not sure".
    #[must_use]
    pub fn is_feared(&self) -> bool {
        !self.signs.is_not_asked() && !self.is_ruled_out()
    }
}

words! {
    /// What can be noticed that makes it unsafe to go near.
    pub enum HazardSign {
        /// Smoke.
        Smoke => "smoke",
        /// Flame.
        Flame => "flame",
        /// Arcing or sparks.
        Arcing => "arcing",
        /// A smell of gas.
        GasSmell => "gas-smell",
        /// Buzzing or crackling.
        Buzzing => "buzzing",
        /// A smell of burning, or of fish (overheated plastic).
        BurningSmell => "burning-smell",
        /// Heat that comes off it.
        Heat => "heat",
        /// Scorch marks or discolouration.
        Discolouration => "discolouration",
        /// Melted or bubbled plastic.
        MeltedPlastic => "melted-plastic",
        /// Bare metal or broken covers where wires are.
        BareMetal => "bare-metal",
        /// A tingle or shock from a tap, a case or other metal.
        Tingle => "tingle",
        /// Lights too bright or dim of themselves, or flickering all through the home; several appliances failing at once.
        UnsteadyLights => "unsteady-lights",
    }
}

impl HazardSign {
    /// Whether the sign may cease by itself, so that the danger may be over. A scorch mark, melted plastic and bare metal stay until they
    /// are repaired. Common practice, no source.
    #[must_use]
    pub const fn passes(self) -> bool {
        match self {
            Self::Smoke
            | Self::Flame
            | Self::Arcing
            | Self::GasSmell
            | Self::Buzzing
            | Self::BurningSmell
            | Self::Heat
            | Self::Tingle
            | Self::UnsteadyLights => true,
            Self::Discolouration | Self::MeltedPlastic | Self::BareMetal => false,
        }
    }
}

words! {
    /// When a sign that may cease by itself was noticed.
    pub enum HazardWhen {
        /// Now, or in the last days.
        Now => "now",
        /// Once, long ago, and not since.
        LongAgo => "long-ago",
    }
}

words! {
    /// Where a hazard was noticed. This decides whom the homeowner is told to ring.
    pub enum HazardPlace {
        /// The service head or the cable from the street: ring the network operator.
        ServiceHead => "service-head",
        /// The meter: ring the network operator here too, since a homeowner can hardly tell meter and service head apart.
        Meter => "meter",
        /// A board: call an electrician.
        Board => "board",
        /// One appliance that is plugged in, and nothing else.
        Appliance => "appliance",
        /// Somewhere else in the home.
        Elsewhere => "elsewhere",
    }
}

words! {
    /// Where somebody stood when they came upon a danger while looking.
    pub enum FoundAt {
        /// At the meter.
        Meter => "meter",
        /// At a board.
        Board => "board",
        /// Where pipes come in.
        Pipes => "pipes",
    }
}
