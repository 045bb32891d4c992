//! One answer: known, not sure, or not asked.

/// What came of asking a question.
///
/// In JSON a known answer is its value, "not sure" is `"not-sure"`, and a question that was not asked is left out (see [`super::json`]).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Answer<T> {
    /// They could tell.
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

    /// Whether the question was put and left open.
    pub const fn is_not_sure(&self) -> bool {
        matches!(self, Self::NotSure)
    }

    /// Whether it was never put.
    pub const fn is_not_asked(&self) -> bool {
        matches!(self, Self::NotAsked)
    }
}

impl<T: PartialEq> Answer<T> {
    /// Whether they said just this.
    pub fn is(&self, value: T) -> bool {
        self.known() == Some(&value)
    }
}
