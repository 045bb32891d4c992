//! What the homeowner answered, as types. "Not sure" is a value, never a missing field.
//!
//! Holds no name or address (those belong to the enquiry), and infers nothing from an answer (the engine's `site` does).

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
