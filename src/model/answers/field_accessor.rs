//! The field accessor: the name of one field of the answers, the kind of answer that it takes, and how to get and set it.
//!
//! Reading, writing, the schema, the form and the tests with random homes all go through these accessors. So a field adds a few dozen bytes
//! to what a visitor loads, and no parser of its own.

use super::{AnswerKind, Answers, RawAnswer};

/// Access to one field of the answers.
#[derive(Clone, Copy)]
pub struct FieldAccessor {
    /// The field's name in a file.
    pub name: &'static str,
    /// What the field means, for the schema.
    #[cfg(feature = "schema")]
    pub says: &'static str,
    /// The kind of answer it takes.
    pub kind: AnswerKind,
    /// Reads the field from the answers.
    pub get: fn(&Answers) -> RawAnswer,
    /// Sets the field; false where the value is not allowed (then nothing changes).
    pub set: fn(&mut Answers, &RawAnswer) -> bool,
}
