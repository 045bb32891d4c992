//! The list for the van: the materials of the bill, with lengths rounded up to what is cut from a drum.

use super::BillLine;
use alloc::vec::Vec;
use model::answers::choices::words;
use model::config::Item;
use model::terms::BillUnit;
use model::units::{Pence, Probability, Ratio};

words! {
    /// Whether a thing is taken along.
    pub enum Take {
        /// It is needed.
        Take => "take",
        /// It may be needed: taken where there is room.
        Perhaps => "perhaps",
    }
}

/// One thing to take.
#[derive(Clone, Debug, PartialEq)]
pub struct VanLine {
    /// What it is for.
    pub item: Item,
    /// How many of the unit; metres with waste, rounded up.
    pub quantity: Ratio,
    /// The unit.
    pub unit: BillUnit,
    /// Taken, or perhaps.
    pub take: Take,
}

/// Waste and ends of a cable: common practice, no source.
const WASTE: f64 = 1.1;

/// Materials likelier than this to be needed are taken; those with at least the next probability are taken where there is room. Common
/// practice, no source.
const TAKEN: Probability = Probability::of(0.5);
const PERHAPS: Probability = Probability::of(0.1); // common practice, no source

/// The list for the van, in the order of the work.
#[must_use]
pub fn van_list(bill: &[BillLine]) -> Vec<VanLine> {
    let carried = |line: &&BillLine| {
        line.materials > Pence(0)
            && !matches!(
                line.item,
                Item::CallOut | Item::Travel | Item::Parking | Item::Paperwork | Item::LargerCable | Item::HardGround
            )
    };
    let line = |line: &BillLine| {
        let take = if line.probability >= TAKEN {
            Take::Take
        } else if line.probability >= PERHAPS {
            Take::Perhaps
        } else {
            return None;
        };
        let quantity = match line.unit {
            BillUnit::Metre => libm::ceil(line.quantity.get() * WASTE - 1e-9),
            BillUnit::Each => libm::ceil(line.quantity.get() - 1e-9),
        };
        Some(VanLine { item: line.item, quantity: Ratio::new(quantity).ok()?, unit: line.unit, take })
    };
    bill.iter().filter(carried).filter_map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::assess;
    use model::config::demo_config;

    #[test]
    fn lengths_are_rounded_up_with_waste_and_work_without_material_is_not_carried() {
        let answers = serde_json::from_str(
            r#"{"hazard":{"signs":[]},"home":{"kind":"detached","tenure":"own"},"parking":{"place":"drive"},
                "route":{"stretches":[{"along":"inside","length":{"value":10,"unit":"metres"}}]}}"#,
        )
        .unwrap();
        let bill = assess(&answers, &demo_config()).work;
        let list = van_list(&bill);
        let find = |item| list.iter().find(|line| line.item == item);
        assert_eq!(find(Item::CableInside).map(|line| (line.quantity.get(), line.take)), Some((11.0, Take::Take)));
        assert!(find(Item::ChargePoint).is_some());
        assert!(find(Item::Commission).is_none() && find(Item::Survey).is_none() && find(Item::Travel).is_none());
        assert!(list.iter().any(|line| line.take == Take::Perhaps), "what may be needed is there too");
        let rare = |line: &BillLine| line.probability < PERHAPS;
        assert!(bill.iter().any(rare) && bill.iter().filter(|line| rare(line)).all(|line| find(line.item).is_none()));
    }
}
