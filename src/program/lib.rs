//! presurvey: what a home needs before a car charge point is fitted, from what its owner can see.
//!
//! The whole house under one name, for a program in Rust and for the tests of the whole. It is one pure function, [`assess`], with two
//! windows on it, the homeowner's form and the installer's page; each room is a crate of its own.

pub mod flag_report;

pub use engine::{Assessment, assess, assessment, calculation, charge_point, context, design, flags, price, site};
pub use figures;
pub use model::{answers, config, questions, tables, terms, units};
pub use record::{self, enquiry};
pub use {rates, service, wording};
