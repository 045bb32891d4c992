//! What raises a flag, for the laws over homes by chance: a flag's cause never makes a job look less involved, unless it says why.

/// Whether a cause may make a job less involved.
#[derive(Clone, Copy, Debug)]
pub enum May {
    /// Never.
    Never,
    /// Only where it stands in place of a graver answer, as said; never where nothing was answered before.
    InPlaceOfAGraver(&'static str),
    /// It is good news as well, takes an uncertainty away, or takes a graver answer back, as said.
    ForThis(&'static str),
}

/// A flag's cause. No program holds it: the tests alone read it.
#[derive(Clone, Copy, Debug)]
pub struct Cause {
    /// What is said, as an answers file, in place of what was.
    pub said: &'static str,
    /// Whether that may lower the complexity.
    pub may_lower: May,
}

impl Cause {
    pub(super) const fn never(said: &'static str) -> Self {
        Self { said, may_lower: May::Never }
    }

    pub(super) const fn in_place(said: &'static str, why: &'static str) -> Self {
        Self { said, may_lower: May::InPlaceOfAGraver(why) }
    }

    pub(super) const fn lowering(said: &'static str, why: &'static str) -> Self {
        Self { said, may_lower: May::ForThis(why) }
    }
}
