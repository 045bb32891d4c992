//! Known cases: one value for each fact, and an iteration over all cases that multiplies out only the facts that are read.
//!
//! A function that works one case reads its facts through [`KnownCase`], which records which were read and in what order. [`each_case`]
//! runs the function again with the next value of the last unsure fact that was read. A fact that was not read is never multiplied out, so
//! twenty unsure facts cost only as much as the function reads.

use super::fact::{FACTS, FactId, FactSet};
use super::facts::each_fact;
use super::inference::Site;
use super::{BoardState, CircuitThere, EarthingArrangement, Feed, RouterWay, Supply};
use core::cell::Cell;
use model::answers::{Along, MainConductors};
use model::terms::KnownBy;
use model::units::{Amps, Metres};

/// One known case of a site.
#[derive(Clone, Debug)]
pub struct KnownCase<'s> {
    site: &'s Site,
    chosen: [u8; FACTS],
    read: Cell<FactSet>,
    order: Cell<([u8; FACTS], u8)>,
}

macro_rules! accessors {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $id:ident, $word:literal;)+) => {
        impl KnownCase<'_> {
            $($(#[$doc])*
            #[must_use]
            pub fn $name(&self) -> $type {
                self.site.$name.values()[self.look_at(FactId::$id)].0
            })+
        }
    };
}

each_fact!(accessors);

impl<'s> KnownCase<'s> {
    /// The case in which every fact has its likeliest value.
    #[must_use]
    pub fn likeliest(site: &'s Site) -> Self {
        Self { site, chosen: [0; FACTS], read: Cell::default(), order: Cell::default() }
    }

    /// The case with the given values, each as a position in its fact's list.
    ///
    /// # Panics
    /// When a fact is read whose list has no such position.
    #[must_use]
    pub fn chosen(site: &'s Site, chosen: [u8; FACTS]) -> Self {
        Self { chosen, ..Self::likeliest(site) }
    }

    /// Whether the counts at the service head contradict each other.
    #[must_use]
    pub fn supply_contradicted(&self) -> bool {
        self.site.supply.known_by == KnownBy::Contradicted
    }

    /// Whether the answers say nothing about the earthing arrangement, so that its values are assumptions alone.
    #[must_use]
    pub fn earthing_assumed(&self) -> bool {
        self.site.earthing.known_by == KnownBy::Assumed
    }

    /// Every earthing arrangement that is still possible, whichever this case has: for a design that must do in all of them. Does not count
    /// as reading the fact.
    pub fn possible_earthing(&self) -> impl Iterator<Item = EarthingArrangement> + use<'s> {
        self.site.earthing.values().iter().map(|(arrangement, _)| *arrangement)
    }

    /// The unsure facts that were read so far.
    #[must_use]
    pub fn rests_on(&self) -> FactSet {
        self.read.get()
    }

    /// The position of the value that a fact has in this case.
    #[must_use]
    pub fn value_of(&self, fact: FactId) -> usize {
        usize::from(self.chosen[fact as usize])
    }

    /// Forgets which facts were read, so that those of the next decision can be told apart.
    pub fn begin(&self) {
        self.read.set(FactSet::NONE);
    }

    fn look_at(&self, fact: FactId) -> usize {
        let read = self.read.get();
        if !read.has(fact) {
            self.read.set(read.with(fact));
        }
        let (mut order, mut count) = self.order.get();
        if self.site.count(fact) > 1 && !order[..usize::from(count)].contains(&(fact as u8)) {
            order[usize::from(count)] = fact as u8;
            count += 1;
            self.order.set((order, count));
        }
        self.value_of(fact)
    }
}

/// One case as it was evaluated: its weight, and the values of the unsure facts that were read in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EvaluatedCase {
    /// How probable it is.
    pub weight: f64,
    /// The unsure facts that were read.
    pub read: FactSet,
    /// The positions of their values.
    pub chosen: [u8; FACTS],
}

/// Calls `work` for every case that it tells apart, and hands each result with its case to `visit`. The weights add up to one.
pub fn each_case<T>(site: &Site, work: impl Fn(&KnownCase<'_>) -> T, mut visit: impl FnMut(EvaluatedCase, T)) {
    let mut case = KnownCase::likeliest(site);
    loop {
        case.read.set(FactSet::NONE);
        case.order.set(([0; FACTS], 0));
        let result = work(&case);
        let (order, count) = case.order.get();
        let path =
            order[..usize::from(count)].iter().map(|place| <FactId as model::answers::Word>::ALL[usize::from(*place)]);
        let mut evaluated = EvaluatedCase { weight: 1.0, read: FactSet::NONE, chosen: case.chosen };
        for fact in path.clone() {
            evaluated.weight *= site.weight(fact, case.value_of(fact)).get();
            evaluated.read = evaluated.read.with(fact);
        }
        visit(evaluated, result);
        // The next case: the last fact read that has another value takes it, and the facts after it start again.
        let mut moved = false;
        for fact in path.rev() {
            let chosen = &mut case.chosen[fact as usize];
            if usize::from(*chosen) + 1 < site.count(fact) {
                *chosen += 1;
                moved = true;
                break;
            }
            *chosen = 0;
        }
        if !moved {
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::infer;
    use model::answers::Answers;
    use model::config::demo_config;

    #[test]
    fn only_what_is_read_is_multiplied_out() {
        let site = infer(&Answers::default(), &demo_config());
        let count = |work: &dyn Fn(&KnownCase<'_>)| {
            let (mut cases, mut weight) = (0, 0.0);
            each_case(
                &site,
                |case| work(case),
                |evaluated, ()| {
                    cases += 1;
                    weight += evaluated.weight;
                },
            );
            assert!((weight - 1.0).abs() < 1e-6, "weights add up to {weight}");
            cases
        };
        assert_eq!(count(&|_| ()), 1);
        assert_eq!(
            count(&|case| {
                let _ = case.gas();
            }),
            2
        );
        assert_eq!(
            count(&|case| {
                let _ = (case.gas(), case.water());
            }),
            4
        );
        // The second fact is read only where the first is so.
        assert_eq!(
            count(&|case| {
                if case.gas() {
                    let _ = case.water();
                }
            }),
            3
        );
    }

    #[test]
    fn a_case_of_ones_own_choice_has_the_values_chosen() {
        let site = infer(&Answers::default(), &demo_config());
        let mut chosen = [0; FACTS];
        chosen[FactId::GasBonding as usize] = 1;
        let case = KnownCase::chosen(&site, chosen);
        assert_eq!(case.gas(), site.gas.values()[1].0);
        assert_eq!((case.value_of(FactId::GasBonding), case.value_of(FactId::WaterBonding)), (1, 0));
    }
}
