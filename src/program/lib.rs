//! presurvey: what a home needs before a car charge point is fitted, from what its owner can see.
//!
//! This crate puts the others under one name, for programs in Rust and for the tests that span several crates. At its core is one pure
//! function, [`assess`]; the homeowner's form and the installer's page are two views of what it returns.

pub mod flag_report;
pub mod own_words;

pub use engine::{Assessment, assess, assessment, calculation, charge_point, context, design, flags, price, site};
pub use figures;
pub use model::{answers, config, questions, tables, terms, units};
pub use record::{self, enquiry};
pub use {rates, service, wording};
