//! Which items have to be done before which: common practice, no source.

use model::config::Item;

/// The items that come before this one wherever both are needed.
#[must_use]
pub const fn after(item: Item) -> &'static [Item] {
    match item {
        // Live tails are isolated before anybody works on them.
        Item::SupplyIsolator | Item::SwitchFuse => &[Item::IsolateTails],
        Item::SplitTails | Item::LargerTails => &[Item::IsolateTails, Item::SupplyIsolator],
        Item::Enclosure | Item::ReplaceBoard => &[Item::SplitTails, Item::LargerTails],
        Item::DoublePoleDevice | Item::Breaker => &[Item::FreeWay],
        Item::ResidualDevice => &[Item::Breaker],
        Item::CableInside | Item::CableLoft | Item::CableOutside | Item::CableFence => &[Item::DrillWall],
        Item::Glands => &[Item::CableOutside, Item::CableFence, Item::TrenchSoft, Item::TrenchPaving],
        Item::ProveCircuit => &[Item::OldPointOff],
        Item::FireSeal => &[Item::DrillWall],
        Item::Duct => &[Item::TrenchPaving],
        Item::OpenPenThreePhase => &[Item::OpenPenDevice],
        Item::HardGround => &[Item::TrenchSoft, Item::TrenchPaving],
        Item::DataBox => &[Item::DataCable],
        Item::ClampCable => &[Item::LoadSensing],
        Item::FixPoint => &[Item::ChargePoint, Item::OldPointOff, Item::MountingPost],
        Item::LeadHolder => &[Item::FixPoint],
        // Electrode and bonding are finished before anything is made live.
        Item::Commission => &[
            Item::Enclosure,
            Item::ReplaceBoard,
            Item::SurgeDevice,
            Item::LargerMainEarth,
            Item::BondGas,
            Item::BondWater,
            Item::BondOther,
            Item::OpenPenDevice,
            Item::ProveElectrode,
            Item::EarthElectrode,
            Item::ProveCircuit,
            Item::LoadSensing,
            Item::FixPoint,
        ],
        Item::Paperwork => &[Item::Commission],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::Word;

    #[test]
    fn the_bill_is_in_an_order_that_can_be_worked() {
        for item in Item::ALL {
            for before in after(*item) {
                assert!(before.place() < item.place(), "{} comes after {}", before.word(), item.word());
            }
        }
    }

    #[test]
    fn tails_are_dead_before_they_are_split() {
        assert!(after(Item::SplitTails).contains(&Item::IsolateTails));
        assert!(after(Item::Paperwork).contains(&Item::Commission));
    }
}
