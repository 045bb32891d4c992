//! The current that the charge point draws under a load limit on the whole home.

use super::Supply;
use super::fact::Fact;
use crate::calculation::load_limit::{held, on_the_fullest_phase};
use crate::context::Context;
use alloc::vec::Vec;
use model::tables::driving::LEAST_CHARGE;
use model::terms::KnownBy;
use model::units::Amps;

/// The greatest current that the charge point draws in the design taken, over all cases: its own, or the load limit on the whole home where
/// that is less. Never under 6 A: below that it pauses.
#[must_use]
pub fn drawn(existing: &Fact<Amps>, supply: &Fact<Supply>, fuse: &Fact<Amps>, context: &Context<'_>) -> Fact<Amps> {
    let point = context.point;
    let mut values = Vec::new();
    for (existing, by_load) in existing.values() {
        for (supply, by_supply) in supply.values() {
            for (fuse, by_fuse) in fuse.values() {
                let fullest = on_the_fullest_phase(*existing, supply.phases);
                let (_, limit) = held(fullest, point.current, context.threshold(*fuse), point.load_sensing);
                let most = limit.map_or(point.current, |limit| limit.max(LEAST_CHARGE).min(point.current));
                values.push((most, *by_load * *by_supply * *by_fuse));
            }
        }
    }
    Fact::weighed(&values, KnownBy::Inferred, &["operator-limit"])
}
