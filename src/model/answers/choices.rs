//! The closed lists an answer may come from, in the trade's words; how each is worded to a homeowner is in the wording files.

/// Declares a closed list: the type, its written words, and its way in and out of JSON and of a form.
#[macro_export]
macro_rules! words {
    ($(#[$doc:meta])* pub enum $name:ident { $($(#[$member_doc:meta])* $member:ident => $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name { $($(#[$member_doc])* $member,)+ }

        impl $name {
            /// The word that stands for this member in files and in wording keys.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$member => $word,)+ }
            }
        }

        impl $crate::answers::Word for $name {
            const ALL: &'static [Self] = &[$(Self::$member,)+];
            const WORDS: &'static [&'static str] = &[$($word,)+];
            fn place(self) -> u8 {
                self as u8
            }
        }

        impl $crate::answers::Field for $name {
            const KIND: $crate::answers::AnswerKind =
                $crate::answers::AnswerKind::One(<Self as $crate::answers::Word>::WORDS);
            fn give(&self) -> $crate::answers::RawAnswer {
                $crate::answers::RawAnswer::One(*self as u8)
            }
            fn take(given: &$crate::answers::RawAnswer) -> Option<Self> {
                match given {
                    $crate::answers::RawAnswer::One(place) => {
                        <Self as $crate::answers::Word>::ALL.get(usize::from(*place)).copied()
                    }
                    _ => None,
                }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.word())
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let place = $crate::answers::read_word(deserializer, <Self as $crate::answers::Word>::WORDS)?;
                Ok(<Self as $crate::answers::Word>::ALL[place])
            }
        }

        $crate::schema_of_words! { $name $($word)+ }
    };
}
pub use crate::words;

/// Implements `JsonSchema` for a closed list, as an `enum` of its words. Only with the feature `schema`.
#[cfg(feature = "schema")]
#[doc(hidden)]
#[macro_export]
macro_rules! schema_of_words {
    ($name:ident $($word:literal)+) => {
        impl $crate::schemars::JsonSchema for $name {
            fn schema_name() -> $crate::alloc::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut $crate::schemars::SchemaGenerator) -> $crate::schemars::Schema {
                $crate::schemars::json_schema!({ "enum": [$($word,)+] })
            }
        }
    };
}

/// Without the feature `schema` this makes nothing.
#[cfg(not(feature = "schema"))]
#[doc(hidden)]
#[macro_export]
macro_rules! schema_of_words {
    ($name:ident $($word:literal)+) => {};
}

/// Reads one word of a closed list and returns its position in that list. All lists share this function, so that each adds few bytes to the
/// program a visitor loads.
///
/// # Errors
/// Where the text is none of the words: the message quotes its first 40 characters and lists the words that are allowed.
pub fn read_word<'de, D: serde::Deserializer<'de>>(
    deserializer: D,
    allowed: &'static [&'static str],
) -> Result<usize, D::Error> {
    struct WordVisitor(&'static [&'static str]);

    impl serde::de::Visitor<'_> for WordVisitor {
        type Value = usize;

        fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
            f.write_str("one of:")?;
            self.0.iter().try_for_each(|word| write!(f, " {word}"))
        }

        fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<usize, E> {
            self.0.iter().position(|word| *word == text).ok_or_else(|| {
                let shown: alloc::string::String = text.chars().take(40).collect();
                E::custom(format_args!("{shown:?} is not allowed; it may be {}", self.0.join(", ")))
            })
        }
    }

    deserializer.deserialize_str(WordVisitor(allowed))
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

words! {
    /// Kind of home.
    pub enum HomeKind {
        /// Detached house or bungalow.
        Detached => "detached",
        /// Semi-detached house.
        Semi => "semi-detached",
        /// Terraced house.
        Terrace => "terrace",
        /// Flat or maisonette.
        Flat => "flat",
    }
}

words! {
    /// On what terms they live there.
    pub enum Tenure {
        /// They own it.
        Own => "own",
        /// They rent it.
        Rent => "rent",
        /// They hold a lease from somebody.
        Lease => "lease",
    }
}

words! {
    /// Rough age of the home.
    pub enum Age {
        /// Before 1930.
        Before1930 => "before-1930",
        /// 1930 to 1966.
        To1966 => "1930-1966",
        /// 1967 to 1999.
        To1999 => "1967-1999",
        /// 2000 or later.
        Since2000 => "since-2000",
    }
}

words! {
    /// Planning protection.
    pub enum Protected {
        /// A listed building or its grounds.
        Listed => "listed",
        /// In a conservation area.
        ConservationArea => "conservation-area",
        /// Neither.
        Neither => "neither",
    }
}

words! {
    /// Where the car stands.
    pub enum ParkingPlace {
        /// A drive or other ground of their own beside the home.
        Drive => "drive",
        /// A garage joined to the home.
        AttachedGarage => "attached-garage",
        /// A garage that stands apart.
        DetachedGarage => "detached-garage",
        /// A bay of their own in a shared car park.
        SharedCarPark => "shared-car-park",
        /// On the street.
        Street => "street",
    }
}

words! {
    /// Where the car's charging inlet is, seen from the driver's seat.
    pub enum Inlet {
        /// At the nose.
        Front => "front",
        /// Front left wing.
        FrontLeft => "front-left",
        /// Front right wing.
        FrontRight => "front-right",
        /// Rear left wing.
        RearLeft => "rear-left",
        /// Rear right wing.
        RearRight => "rear-right",
        /// At the tail.
        Rear => "rear",
        /// The car isn't chosen yet.
        NotKnownYet => "not-known-yet",
    }
}

words! {
    /// When the car comes.
    pub enum CarComes {
        /// It is here.
        Here => "here",
        /// Within a month.
        WithinAMonth => "within-a-month",
        /// Later.
        Later => "later",
    }
}

words! {
    /// Where the meter is.
    pub enum MeterPlace {
        /// Indoors, in the open.
        Indoors => "indoors",
        /// In a box on an outside wall.
        OutsideBox => "outside-box",
        /// In a cupboard.
        Cupboard => "cupboard",
        /// In a shared meter room or hall.
        Communal => "communal",
    }
}

words! {
    /// Kind of meter.
    pub enum MeterKind {
        /// One rate.
        OneRate => "one-rate",
        /// Two rates, day and night.
        TwoRate => "two-rate",
        /// Smart meter.
        Smart => "smart",
        /// Prepayment meter.
        Prepayment => "prepayment",
    }
}

words! {
    /// What the meter is mounted on.
    pub enum Backing {
        /// Plain wood or board.
        Wood => "wood",
        /// A dark or fibrous board.
        DarkOrFibrous => "dark-or-fibrous",
        /// Metal, plastic or the wall itself.
        Other => "other",
    }
}

words! {
    /// How the installer found service head, cable and meter.
    pub enum ServiceEquipment {
        /// Sound, as far as it can be seen.
        Sound => "sound",
        /// Worrying.
        InDoubt => "in-doubt",
    }
}

words! {
    /// What protects the circuits at the board.
    pub enum Protection {
        /// Rewirable or cartridge fuses.
        FuseWire => "fuse-wire",
        /// Circuit breakers.
        Breakers => "breakers",
    }
}

words! {
    /// How many test buttons the board shows.
    pub enum TestButtons {
        /// None.
        None => "none",
        /// One.
        One => "one",
        /// Two.
        Two => "two",
        /// One on each way, or nearly.
        EachWay => "each-way",
    }
}

words! {
    /// Gaps left in the board.
    pub enum SpareWays {
        /// None.
        None => "none",
        /// One.
        One => "one",
        /// Two or more.
        Several => "several",
    }
}

words! {
    /// Which of several boards is meant.
    pub enum WhichBoard {
        /// The one that was described.
        Described => "described",
        /// Another one.
        Another => "another",
    }
}

words! {
    /// What the board's case is made of.
    pub enum BoardCase {
        /// Metal.
        Metal => "metal",
        /// Plastic.
        Plastic => "plastic",
        /// Wood.
        Wood => "wood",
    }
}

words! {
    /// The type symbol on a residual-current device.
    pub enum RcdType {
        /// Type AC.
        Ac => "ac",
        /// Type A.
        A => "a",
        /// Type F.
        F => "f",
        /// Type B.
        B => "b",
    }
}

words! {
    /// Where the green-and-yellow conductor from the board's earth bar goes.
    pub enum EarthGoes {
        /// To the service head.
        ServiceHead => "service-head",
        /// To the sheath of the supply cable.
        CableSheath => "cable-sheath",
        /// To a rod in the ground.
        Rod => "rod",
    }
}

words! {
    /// What a pipe is made of where it comes in.
    pub enum Pipe {
        /// Metal.
        Metal => "metal",
        /// Plastic.
        Plastic => "plastic",
        /// There is no such pipe.
        NoPipe => "no-pipe",
    }
}

words! {
    /// What of metal comes in from the ground besides gas and water, each to be bonded.
    pub enum OtherMetal {
        /// An oil pipe from a tank.
        Oil => "oil",
        /// A pipe of bottled gas (LPG) from a tank or bottles.
        Lpg => "lpg",
        /// Structural steel.
        Steel => "steel",
    }
}

words! {
    /// Where the cable leaves the home through its wall, and so how it comes to the charge point.
    pub enum Entry {
        /// Behind the board, then along the wall outside.
        BehindBoard => "behind-board",
        /// Inside up to the spot, then through the wall behind the charge point.
        BehindPoint => "behind-point",
        /// Somewhere between, then along the wall outside.
        Between => "between",
    }
}

words! {
    /// How the home cooks.
    pub enum Cooking {
        /// All electric.
        Electric => "electric",
        /// Electric oven, gas hob.
        Mixed => "mixed",
        /// All gas or other fuel.
        Gas => "gas",
    }
}

words! {
    /// Electric heating.
    pub enum Heating {
        /// None.
        None => "none",
        /// Storage heaters, charged at night.
        Storage => "storage",
        /// Panel heaters, floor warming or an electric boiler.
        Direct => "direct",
        /// A heat pump.
        HeatPump => "heat-pump",
    }
}

words! {
    /// Another charge point in the home.
    pub enum OtherPoint {
        /// None.
        None => "none",
        /// There is one, to be replaced.
        Replaced => "replaced",
        /// There is one that stays.
        Kept => "kept",
    }
}

words! {
    /// What the installer found of a circuit that was left for a charge point.
    pub enum CircuitFound {
        /// It may be used as it is: dead tests, loop, size and device proved.
        Sound => "sound",
        /// Its cable may be used; its protective device is changed.
        NewDevice => "new-device",
        /// It can't be used.
        NotUsable => "not-usable",
    }
}

words! {
    /// Whether tails and main earthing conductor are large enough, as the installer found them.
    pub enum MainConductors {
        /// Both are.
        Enough => "enough",
        /// The main earthing conductor is not.
        MainEarthSmall => "main-earth-small",
        /// Neither is.
        BothSmall => "both-small",
    }
}

words! {
    /// What the cable would run along.
    pub enum Along {
        /// Inside: along walls, in cupboards or trunking.
        Inside => "inside",
        /// In a loft or under a floor.
        LoftOrFloor => "loft-or-floor",
        /// Clipped to an outside wall.
        OutsideWall => "outside-wall",
        /// On a fence.
        Fence => "fence",
        /// Under soft ground: lawn, bed, gravel.
        SoftGround => "soft-ground",
        /// Under paving, concrete or tarmac.
        Paving => "paving",
    }
}

words! {
    /// What lies in the ground on the way.
    pub enum Buried {
        /// Gas pipe.
        Gas => "gas",
        /// Water pipe.
        Water => "water",
        /// Drains.
        Drains => "drains",
        /// The supply cable.
        SupplyCable => "supply-cable",
    }
}

words! {
    /// Whose ground the route crosses.
    pub enum Ground {
        /// Their own.
        Own => "own",
        /// Shared with somebody.
        Shared => "shared",
        /// Somebody else's.
        Others => "others",
        /// A public footway.
        Footway => "footway",
    }
}

words! {
    /// Where the router is, roughly.
    pub enum RouterPlace {
        /// By the board.
        ByBoard => "by-board",
        /// By the wall towards the car.
        TowardsCar => "towards-car",
        /// Elsewhere in the home.
        Elsewhere => "elsewhere",
    }
}

words! {
    /// Socket or fixed lead.
    pub enum Outlet {
        /// A socket: the car's own lead is plugged in.
        Socket => "socket",
        /// A lead that stays on the charge point.
        Lead => "lead",
        /// No wish.
        Either => "either",
    }
}

words! {
    /// What the network operator answered, as the installer records it.
    pub enum OperatorAnswer {
        /// As asked for.
        Accepted => "accepted",
        /// The neighbour's supply is separated: each home has a service of its own.
        Separated => "separated",
        /// A shared service is left as it is, and the charge point accepted on it.
        LeftAsItIs => "left-as-it-is",
        /// Accepted up to a limit on the whole home.
        Limited => "limited",
        /// Refused.
        Refused => "refused",
    }
}

words! {
    /// What the supplier's cheap-rate scheme can steer.
    pub enum SteeredBy {
        /// The car.
        Car => "car",
        /// The charge point must be.
        ChargePoint => "charge-point",
        /// Neither: a plain timer.
        Neither => "neither",
    }
}
