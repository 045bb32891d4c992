//! The installer's rates: begun from ten figures or remembered jobs, a price list brought in, and what recorded jobs teach.
//!
//! Native alone: nothing here is in a program that a visitor is sent. Arithmetic of the estimate stays in `price`.

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
