//! A contradiction: two answers that cannot both be right. It is reported, and neither answer is relied on.

/// Two answers that cannot both be right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// The subject.
    pub about: &'static str,
    /// What contradicts what, in the installer's words.
    pub says: &'static str,
    /// The questions to look at again.
    pub questions: &'static [&'static str],
}
