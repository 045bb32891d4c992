//! Everything that can be answered about a home, by topic: the fields of an answers file.

use super::Recorded;
use super::field_accessor::FieldAccessor;
use jiff::civil::Date;

/// Declares a topic: a struct whose every field is an [`Answer`], and a [`FieldAccessor`](super::FieldAccessor) for each field.
macro_rules! topic {
    ($(#[$doc:meta])* pub struct $name:ident at $topic:ident {
        $($(#[doc = $field_doc:literal])* $field:ident: $type:ty,)+
    }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct $name {
            $($(#[doc = $field_doc])* pub $field: Answer<$type>,)+
        }

        /// The accessors of the topic's fields.
        pub mod accessors {
            use super::*;
            use crate::answers::{Field, FieldAccessor};

            $($(#[doc = $field_doc])*
            #[expect(non_upper_case_globals, reason = "an accessor has the name of its field")]
            pub const $field: FieldAccessor = FieldAccessor {
                name: stringify!($field),
                #[cfg(feature = "schema")]
                says: concat!($($field_doc),*),
                kind: <$type as Field>::KIND,
                get: |answers| answers.$topic.$field.give(),
                set: |answers, given| answers.$topic.$field.take(given),
            };)+

            /// Every field, in order.
            pub static ALL: &[FieldAccessor] = &[$($field),+];
        }
    };
}

pub mod board;
pub mod cost;
pub mod earthing;
pub mod existing;
pub mod hazard;
pub mod home;
pub mod loads;
pub mod meter;
pub mod operator;
pub mod outbuilding;
pub mod parking;
pub mod route;
pub mod signal;
pub mod wish;

#[allow(ambiguous_glob_reexports, reason = "each topic has accessors of its own, which are named by the topic")]
pub use {
    board::*, cost::*, earthing::*, existing::*, hazard::*, home::*, loads::*, meter::*, operator::*, outbuilding::*,
    parking::*, route::*, signal::*, wish::*,
};

/// All answers about one home. In JSON, a field that was not asked is left out; see `answers/json.rs`.
#[derive(Debug, Default, PartialEq)]
pub struct Answers {
    /// The day the assessment speaks of; where left out, the day the config was published.
    pub as_of: Option<Date>,
    /// What of it the installer recorded.
    pub recorded: Recorded,
    /// Hazards.
    pub hazard: Hazard,
    /// The home.
    pub home: Home,
    /// The car.
    pub parking: Parking,
    /// The meter.
    pub meter: Meter,
    /// The board.
    pub board: Board,
    /// An outbuilding's board.
    pub outbuilding: Outbuilding,
    /// Earthing and bonding.
    pub earthing: Earthing,
    /// Loads and generation.
    pub loads: Loads,
    /// The route.
    pub route: Route,
    /// What is there already.
    pub existing: Existing,
    /// The data link.
    pub signal: Signal,
    /// Wishes.
    pub wish: Wish,
    /// Cost of driving.
    pub cost: Cost,
    /// The network operator's answer.
    pub operator: Operator,
}

impl Clone for Answers {
    /// Out of line: a derived one is inlined into each of its callers, five thousand bytes a time.
    #[inline(never)]
    fn clone(&self) -> Self {
        Self {
            as_of: self.as_of,
            recorded: self.recorded,
            hazard: self.hazard.clone(),
            home: self.home.clone(),
            parking: self.parking.clone(),
            meter: self.meter.clone(),
            board: self.board.clone(),
            outbuilding: self.outbuilding.clone(),
            earthing: self.earthing.clone(),
            loads: self.loads.clone(),
            route: self.route.clone(),
            existing: self.existing.clone(),
            signal: self.signal.clone(),
            wish: self.wish.clone(),
            cost: self.cost.clone(),
            operator: self.operator.clone(),
        }
    }
}

/// The accessors of all fields, by topic, in the order in which a file has them.
pub static TOPICS: &[(&str, &[FieldAccessor])] = &[
    ("hazard", hazard::accessors::ALL),
    ("home", home::accessors::ALL),
    ("parking", parking::accessors::ALL),
    ("meter", meter::accessors::ALL),
    ("board", board::accessors::ALL),
    ("outbuilding", outbuilding::accessors::ALL),
    ("earthing", earthing::accessors::ALL),
    ("loads", loads::accessors::ALL),
    ("route", route::accessors::ALL),
    ("existing", existing::accessors::ALL),
    ("signal", signal::accessors::ALL),
    ("wish", wish::accessors::ALL),
    ("cost", cost::accessors::ALL),
    ("operator", operator::accessors::ALL),
];
