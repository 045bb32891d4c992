//! What the homeowner said, typed. "Not sure" is a value, never a missing field.
//!
//! Holds no name or address (those are the enquiry's), reads no meaning into an answer (that is `site`'s).

mod answer;
pub mod choices;
pub mod day;
mod field_accessor;
mod json;
mod length;
mod raw_answer;
mod recorded;
#[cfg(feature = "schema")]
pub mod schema;
mod stretch_rows;
mod text;
pub mod topics;

pub use answer::Answer;
pub use answer::Answer::{Known, NotAsked, NotSure};
pub use choices::*;
pub use field_accessor::FieldAccessor;
pub use json::{each_written, take_written};
pub use length::{Length, LengthUnit, METRES_IN_A_PACE};
pub use raw_answer::{AnswerKind, BoundedCount, Bounds, Field, RawAnswer, Set, Word};
pub use recorded::Recorded;
pub use stretch_rows::{StretchRow, StretchRowChange, StretchRows, decimal, in_digits, thousandths};
pub use text::{Postcode, ShortText};
pub use topics::*;
