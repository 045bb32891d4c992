//! A fact: its possible values with their weights, how it is known, and the questions it rests on.

use super::facts::each_fact;
use alloc::vec::Vec;
use model::answers::choices::words;
use model::terms::KnownBy;
use model::units::Probability;

macro_rules! fact_ids {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $id:ident, $word:literal;)+) => {
        words! {
            /// The facts that decisions may rest on.
            pub enum FactId { $($(#[$doc])* $id => $word,)+ }
        }
    };
}

each_fact!(fact_ids);

/// How many facts there are.
pub const FACTS: usize = <FactId as model::answers::Word>::ALL.len();

/// A set of facts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct FactSet(u32);

impl FactSet {
    /// The empty set.
    pub const NONE: Self = Self(0);

    /// This set with one more fact.
    #[must_use]
    pub const fn with(self, fact: FactId) -> Self {
        Self(self.0 | 1 << fact as u32)
    }

    /// Whether the set has this fact.
    #[must_use]
    pub const fn has(self, fact: FactId) -> bool {
        self.0 & (1 << fact as u32) != 0
    }

    /// The union of two sets.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// The facts that two sets share.
    #[must_use]
    pub const fn shared(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// Whether the set is empty.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The facts in the set, in the order of the list.
    pub fn iter(self) -> impl Iterator<Item = FactId> {
        <FactId as model::answers::Word>::ALL.iter().copied().filter(move |fact| self.has(*fact))
    }
}

/// One fact.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact<T> {
    /// Possible values with weights that add up to one; likeliest first.
    values: Vec<(T, Probability)>,
    /// How it is known.
    pub known_by: KnownBy,
    /// The questions whose answers it rests on, or would rest on.
    pub from: &'static [&'static str],
}

impl<T: Copy + PartialEq> Fact<T> {
    /// A fact with one value.
    #[must_use]
    pub fn sure(value: T, known_by: KnownBy, from: &'static [&'static str]) -> Self {
        Self { values: alloc::vec![(value, Probability::CERTAIN)], known_by, from }
    }

    /// A fact with several values. Equal values are merged, those without weight dropped, and the weights scaled to a sum of one. At least
    /// one value must have weight.
    #[must_use]
    pub fn weighed(values: &[(T, Probability)], known_by: KnownBy, from: &'static [&'static str]) -> Self {
        let mut kept: Vec<(T, f64)> = Vec::with_capacity(values.len());
        for (value, weight) in values.iter().filter(|(_, weight)| weight.get() > 0.0) {
            match kept.iter_mut().find(|(other, _)| other == value) {
                Some((_, sum)) => *sum += weight.get(),
                None => kept.push((*value, weight.get())),
            }
        }
        let sum: f64 = kept.iter().map(|(_, weight)| weight).sum();
        kept.sort_by(|a, b| b.1.total_cmp(&a.1));
        Self {
            values: kept.into_iter().map(|(value, weight)| (value, Probability::from_sum(weight / sum))).collect(),
            known_by,
            from,
        }
    }

    /// A fact with two values, the first with this probability.
    #[must_use]
    pub fn chance(yes: T, no: T, probability: Probability, known_by: KnownBy, from: &'static [&'static str]) -> Self {
        Self::weighed(&[(yes, probability), (no, probability.complement())], known_by, from)
    }

    /// Possible values, likeliest first.
    #[must_use]
    pub fn values(&self) -> &[(T, Probability)] {
        &self.values
    }

    /// The likeliest value.
    #[must_use]
    pub fn likeliest(&self) -> T {
        self.values[0].0
    }

    /// Whether there is more than one possible value.
    #[must_use]
    pub fn is_unsure(&self) -> bool {
        self.values.len() > 1
    }

    /// The probability that `such` holds of the value.
    #[must_use]
    pub fn probability(&self, such: impl Fn(T) -> bool) -> Probability {
        Probability::from_sum(
            self.values.iter().filter(|(value, _)| such(*value)).map(|(_, weight)| weight.get()).sum(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_add_up_to_one_and_equal_values_are_one() {
        let p = Probability::of;
        let fact = Fact::weighed(&[(1, p(0.1)), (2, p(0.2)), (1, p(0.3)), (3, p(0.0))], KnownBy::Assumed, &[]);
        assert_eq!(fact.values().len(), 2);
        assert_eq!(fact.likeliest(), 1);
        assert_eq!(fact.probability(|_| true), Probability::CERTAIN);
        assert!((fact.probability(|value| value == 2).get() - 1.0 / 3.0).abs() < 1e-8);
    }
}
