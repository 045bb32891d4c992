//! The cause of a flag: answers that raise it. A test over random homes checks that a cause never makes a job look less involved, unless it
//! says why it may.

/// Whether a cause may make a job less involved.
#[derive(Clone, Copy, Debug)]
pub enum May {
    /// Never.
    Never,
    /// Only where it replaces a graver answer, for the reason given; never where the question had no answer before.
    InPlaceOfAGraver(&'static str),
    /// Where it is good news too, removes an uncertainty, or takes back a graver answer, for the reason given.
    ForThis(&'static str),
}

/// A flag's cause. Only tests use it.
#[derive(Clone, Copy, Debug)]
pub struct Cause {
    /// The answers that raise the flag, as an answers file; they replace those of the home.
    pub said: &'static str,
    /// Whether that may make the job less involved.
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
