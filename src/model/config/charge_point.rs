//! A charge point as the installer keeps it ([`OwnPoint`]) and as a visitor is given it ([`OfferedPoint`]).
//!
//! The fields that both have are declared once.

use super::fields::fields;
#[cfg(feature = "schema")]
use super::{check, schema};
use crate::units::{Amps, Metres, Pence};
use alloc::string::String;
use jiff::civil::Date;
use serde::Serialize;

/// Declares both types from the fields that they share, and the conversion from the installer's to the visitor's. After a field's type
/// stand its value in a charge point that can only charge, and in brackets how it is read where it is left out, as in [`fields`].
macro_rules! charge_points {
    (shared { $($(#[$meta:meta])* $field:ident: $type:ty = $plain:expr, [$($how:tt)*];)+ }
     $(#[$own_meta:meta])* own $own:ident { $($(#[$own_field_meta:meta])* $own_field:ident: $own_type:ty, [$($own_how:tt)*];)+ }
     $(#[$offered_meta:meta])* offered $offered:ident { $($(#[$price_meta:meta])* $price:ident: $price_type:ty,)+ }) => {
        $(#[$own_meta])*
        #[derive(Clone, Debug, PartialEq, Serialize)]
        #[serde(deny_unknown_fields)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub struct $own { $($(#[$meta])* pub $field: $type,)+ $($(#[$own_field_meta])* pub $own_field: $own_type,)+ }

        $(#[$offered_meta])*
        #[derive(Clone, Debug, PartialEq, Serialize)]
        #[serde(deny_unknown_fields)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        pub struct $offered { $($(#[$meta])* pub $field: $type,)+ $($(#[$price_meta])* pub $price: $price_type,)+ }

        impl $own {
            /// This charge point as a visitor is given it, at the selling price `price`.
            #[must_use]
            pub fn offered(&self, price: Pence) -> $offered {
                $offered { $($field: self.$field.clone(),)+ price }
            }
        }

        impl $offered {
            /// A charge point without a name that costs nothing and can only charge, at 32 A: no feature is assumed that was not stated.
            pub const PLAIN: Self = Self { $($field: $plain,)+ price: Pence(0) };
        }

        impl $own {
            /// A charge point without a name that costs nothing and can only charge, at 32 A: no feature is assumed that was not stated.
            #[must_use]
            pub fn plain() -> Self {
                Self { $($field: $plain,)+ $($own_field: Default::default(),)+ }
            }
        }

        charge_points!(@reader $own [] $([$field $($how)*])+ $([$own_field $($own_how)*])+);
        charge_points!(@reader $offered [] $([$field $($how)*])+ [price]);
    };
    (@reader $point:ident [$($made:tt)*] [$($field:tt)+] $($rest:tt)*) => {
        charge_points!(@reader $point [$($made)* $($field)+,] $($rest)*);
    };
    (@reader $point:ident [$($made:tt)*]) => {
        fields!($point { $($made)* });
    };
}

charge_points! {
    shared {
        /// The installer's own short name for it.
        id: String = String::new(), [];
        /// Length of its fixed lead; none where it has a socket.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        lead: Option<Metres> = None, [default];
        /// Charge current.
        #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::A_CURRENT[0], "maximum" = check::A_CURRENT[1])))]
        // The usual one: common practice, no source.
        current: Amps = Amps::of(32.0), [];
        /// The device that its maker states for its circuit, often 40 A for 32 A; left out, the next standard rating.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(feature = "schema", schemars(extend("maximum" = check::A_CURRENT[1])))]
        device: Option<Amps> = None, [default];
        /// It can follow solar power.
        #[serde(default)]
        follows_solar: bool = false, [default];
        /// It holds back while the home is busy, by a scheme that the network operators accept.
        #[serde(default)]
        load_sensing: bool = false, [default];
        /// It senses a broken supply neutral and disconnects (open PEN), to BS 7671 722.411.4.1 (iii), (iv) or (v).
        #[serde(default)]
        open_pen_sensing: bool = false, [default];
        /// It does so where the installation is three-phase as well: by (iii) or (v), not by a voltage window.
        #[serde(default)]
        open_pen_three_phase: bool = false, [default];
        /// It senses 6 mA of direct current (IEC 62955), so that a Type A device suffices upstream.
        #[serde(default)]
        dc_sensing: bool = false, [default];
        /// It has a 30 mA double-pole residual-current device of its own.
        #[serde(default, skip_serializing_if = "core::ops::Not::not")]
        residual_device: bool = false, [default];
        /// It may be reached by mobile data, where that is received.
        #[serde(default, skip_serializing_if = "core::ops::Not::not")]
        mobile_data: bool = false, [default];
        /// The day on which the installer checked that suppliers' off-peak schemes steer it; none where none was found to.
        #[cfg_attr(feature = "schema", schemars(with = "Option<crate::answers::schema::Day>"))]
        #[serde(default, with = "crate::answers::day::option", skip_serializing_if = "Option::is_none")]
        off_peak: Option<Date> = None, [maybe_day];
        /// It stands in the network operators' list of charge points; one that does not is asked about first.
        #[serde(default = "listed_unless_said", skip_serializing_if = "is_listed")]
        listed: bool = listed_unless_said(), [or listed_unless_said];
    }

    /// A charge point the installer fits, at cost.
    own OwnPoint {
        /// Its maker, for the network operator's form.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(feature = "schema", schemars(length(max = check::MOST_OF_A_FORM), extend("pattern" = schema::not_blank())))]
        maker: Option<String>, [default];
        /// Its model, for the same form.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(feature = "schema", schemars(length(max = check::MOST_OF_A_FORM), extend("pattern" = schema::not_blank())))]
        model: Option<String>, [default];
        /// Its reference in the network operators' own list of charge points, for the same form.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(feature = "schema", schemars(length(max = check::MOST_OF_A_FORM), extend("pattern" = schema::not_blank())))]
        operators_reference: Option<String>, [default];
        /// Cost price before VAT.
        #[cfg_attr(feature = "schema", schemars(extend("minimum" = check::A_POINT[0], "maximum" = check::A_POINT[1])))]
        cost: Pence, [];
    }

    /// A charge point on offer, by what it can do.
    offered OfferedPoint {
        /// Selling price before VAT.
        #[cfg_attr(feature = "schema", schemars(extend("minimum" = Pence(0))))]
        price: Pence,
    }
}

/// What an installer offers is listed, unless it says otherwise: common practice, no source.
const fn listed_unless_said() -> bool {
    true
}

/// Whether the field has its default and may be left out of a file.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "the writer of JSON hands a reference")]
const fn is_listed(listed: &bool) -> bool {
    *listed
}
