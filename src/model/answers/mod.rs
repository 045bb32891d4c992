//! What the homeowner said, typed. "Not sure" is a value, never a missing field.
//!
//! Holds no name or address (those are the enquiry's), reads no meaning into an answer (that is `site`'s).

mod answer;
pub mod choices;
pub mod day;
mod door;
mod given;
mod json;
mod length;
mod recorded;
mod rows;
pub mod said;
#[cfg(feature = "schema")]
pub mod schema;
mod text;

pub use answer::Answer;
pub use answer::Answer::{Known, NotAsked, NotSure};
pub use choices::*;
pub use door::Door;
pub use given::{Bounds, Count, Field, Given, Kind, Set, Word};
pub use json::{each_written, take_written};
pub use length::{Length, LengthUnit, METRES_IN_A_PACE};
pub use recorded::Recorded;
pub use rows::{Row, RowChange, Rows, decimal, in_digits, thousandths};
pub use said::*;
pub use text::{Postcode, ShortText};
