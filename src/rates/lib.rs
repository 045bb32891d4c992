//! The installer's rates: made from ten figures or remembered jobs, taken from a price list, and corrected by recorded jobs.
//!
//! Native only: a visitor's browser is sent none of this. The arithmetic of the estimate is in the engine's `price`.

extern crate alloc;

mod bootstrap;
mod calibrate;
mod interval;
mod jobs;
mod labour;
mod price_list;
mod proposal;
mod regression;
mod report;
mod written;

pub use bootstrap::{Begun, KEYS, Key, MORE_KEYS, NotEnough, POINTS, bootstrap};
pub use calibrate::{Calibrated, Coverage, Turned, Verdict, calibrate};
pub use interval::{ASSUMED_HOMES, Interval, binomial, counted};
pub use jobs::{AssessedThen, BandThen, Done, Found, Job, Jobs, NoJobs, Surprise, WorkThen, read};
pub use labour::{Factor, ItemFactor, Labour, Worked, labour, materials, whole_labour};
pub use price_list::{Brought, NotAList, bring, unit_of};
pub use proposal::{NotChanged, accept, proposal};
pub use regression::{Fitted, Observation, fit};
pub use report::{Became, Remark, Report};
