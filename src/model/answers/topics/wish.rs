//! What they would like: its fields, and the closed lists that they are chosen from.

use crate::answers::{Answer, Length, ShortText};
use crate::words;

topic! {
    /// What they would like.
    pub struct Wish at wish {
        /// Socket or fixed lead.
        outlet: Outlet,
        /// Charging from their own solar power.
        follow_solar: bool,
        /// Holding back while the home is busy.
        hold_back: bool,
        /// Whether the car is to give power back to the home or the network.
        gives_back: bool,
        /// Length of a fixed lead.
        lead_length: Length,
        /// A holder for the lead.
        holder: bool,
        /// What a cheap-rate scheme can steer.
        steered_by: SteeredBy,
        /// Whether they have bought a charge point already.
        bought: bool,
        /// Its maker, as printed.
        bought_maker: ShortText,
        /// Its model, as printed.
        bought_model: ShortText,
        /// Whether its papers are there to photograph.
        bought_papers: bool,
    }
}

words! {
    /// Socket or fixed lead.
    pub enum Outlet {
        /// A socket: the car's own lead is plugged in.
        Socket => "socket",
        /// A lead that stays on the charge point.
        Lead => "lead",
        /// No wish.
        Either => "either",
    }
}

words! {
    /// What the supplier's cheap-rate scheme can steer.
    pub enum SteeredBy {
        /// The car.
        Car => "car",
        /// The charge point must be.
        ChargePoint => "charge-point",
        /// Neither: a plain timer.
        Neither => "neither",
    }
}
