//! One answer: known, not sure, or not asked.

/// What came of asking one question.
///
/// In JSON a known answer is its value, "not sure" is `"not-sure"`, and a question that was not asked is left out (see `json.rs`).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Answer<T> {
    /// The value they gave.
    Known(T),
    /// They were asked and can't tell: carried to the result, never turned into a default.
    NotSure,
    /// They were not asked.
    #[default]
    NotAsked,
}

impl<T> Answer<T> {
    /// The value, where there is one.
    pub const fn known(&self) -> Option<&T> {
        match self {
            Self::Known(value) => Some(value),
            Self::NotSure | Self::NotAsked => None,
        }
    }

    /// Whether the question was asked and answered with "not sure".
    pub const fn is_not_sure(&self) -> bool {
        matches!(self, Self::NotSure)
    }

    /// Whether the question was never asked.
    pub const fn is_not_asked(&self) -> bool {
        matches!(self, Self::NotAsked)
    }
}

impl<T: PartialEq> Answer<T> {
    /// Whether the answer is known and equal to `value`.
    pub fn is(&self, value: T) -> bool {
        self.known() == Some(&value)
    }
}
