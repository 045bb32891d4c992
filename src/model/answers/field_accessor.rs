//! A door to one field of the answers: its name, what it takes, and the way in and out.
//!
//! Reading, writing, the schema, the form and the tests by chance all go through these doors, so that a field costs a visitor a
//! few dozen bytes and not a reader of its own.

use super::{AnswerKind, Answers, RawAnswer};

/// A door to one field.
#[derive(Clone, Copy)]
pub struct FieldAccessor {
    /// The field's name in a file.
    pub name: &'static str,
    /// What the field means, for the schema.
    #[cfg(feature = "schema")]
    pub says: &'static str,
    /// What it takes.
    pub kind: AnswerKind,
    /// Reads it.
    pub get: fn(&Answers) -> RawAnswer,
    /// Sets it; false where the value is not allowed (then nothing changes).
    pub set: fn(&mut Answers, &RawAnswer) -> bool,
}
