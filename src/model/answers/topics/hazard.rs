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
    /// The signs that count: all but those that pass where they were noticed once, long ago. `None` where that was not told.
    #[must_use]
    pub fn counting(&self) -> Option<Set<HazardSign>> {
        let long_ago = self.when.is(HazardWhen::LongAgo);
        self.signs.known().map(|signs| {
            let counts = signs.iter().filter(|sign| !(long_ago && sign.passes()));
            counts.fold(Set::NONE, Set::with)
        })
    }

    /// Whether something alarming was noticed that counts.
    #[must_use]
    pub fn is_noticed(&self) -> bool {
        self.counting().is_some_and(|signs| !signs.is_empty())
    }

    /// Whether a danger is ruled out as far as they can tell: only then may anybody be sent to look at meter or board.
    #[must_use]
    pub fn is_ruled_out(&self) -> bool {
        self.counting().is_some_and(|signs| signs.is_empty())
    }

    /// Whether a danger was spoken of and is not ruled out.
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
    /// Whether it passes, so that it may be over; a scorch mark, melted plastic and bare metal stay until they are put right.
    /// Common practice, no source.
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
    /// When what passes was noticed.
    pub enum HazardWhen {
        /// Now, or in the last days.
        Now => "now",
        /// Once, long ago, and not since.
        LongAgo => "long-ago",
    }
}

words! {
    /// Where a hazard was noticed; it decides who is rung.
    pub enum HazardPlace {
        /// The service head or the cable from the street: the network operator's.
        ServiceHead => "service-head",
        /// The meter: who can tell it from the service head? The network operator's as well.
        Meter => "meter",
        /// A board: an electrician's.
        Board => "board",
        /// One appliance that is plugged in, and nothing else.
        Appliance => "appliance",
        /// Somewhere else in the home.
        Elsewhere => "elsewhere",
    }
}

words! {
    /// Where somebody stood when a danger came to light on looking.
    pub enum FoundAt {
        /// At the meter.
        Meter => "meter",
        /// At a board.
        Board => "board",
        /// Where pipes come in.
        Pipes => "pipes",
    }
}
