//! What the installer keeps (the private [`Setup`]) and what it publishes to the form (the public [`Config`]).
//!
//! Nothing private is reachable from [`Config`]: cost prices, mark-up, calibration, the details of a charge point for the operator's form,
//! and the mail address stay in [`Setup`].

mod brand;
mod charge_point;
mod check;
mod demo;
pub mod fields;
mod format;
mod money;
mod own_words;
mod part;
mod price_shown;
mod priors;
mod public;
#[cfg(feature = "schema")]
mod schema;
mod setup;
mod telling;

pub use brand::{Brand, Colours, Corrected, Scheme, is_picture_address};
pub use charge_point::{OfferedPoint, OwnPoint};
pub use check::{ConfigProblem, check_config, check_setup, is_installer_id};
pub use demo::{demo_config, demo_setup};
pub use format::{FORMAT, FORMATS, NEWEST_FORMAT};
pub use money::{Charged, Grant, GrantFor, Vat, VatRate, within};
pub use own_words::{Piece, pieces};
pub use part::FormPart;
pub use part::demo_part;
pub use price_shown::{PriceShown, PricesShown};
pub use priors::{ByAge, ByButtons, ByHome, Earthings, Fuses, Priors, Region};
pub use public::{
    BoardDevice, Branding, Config, Installer, Item, PriceLine, Rates, ThreeMinutes, ThreePence, Thresholds,
};
pub use setup::{
    Calibration, CostLine, INVENTED_DEFAULT, PointPapers, Setup, SetupRates, default_lines, landlords_grants,
};
pub use telling::{Encryption, Mail, Secret, Webhook, is_mail_address, webhook_parts};
