//! Two things that were seen do not go together: said as such, and neither is asserted.

/// Two things that were seen do not go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// About what.
    pub about: &'static str,
    /// What does not go together, in the installer's words.
    pub says: &'static str,
    /// The questions to look at again.
    pub questions: &'static [&'static str],
}
