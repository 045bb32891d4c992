//! The estimate: work items out of decisions, three-point quantities, the distribution of the total, the band, and what would narrow it.
//!
//! Knows no site: it prices what `design` decided. Money enters as whole pence and leaves through one rounding door.

mod bill;
mod distribution;
mod groups;
mod moments;
mod narrowing;
mod work;

pub use bill::{always_cost, bill, likely_labour, plainest};
pub use distribution::{Part, Total};
pub use groups::{Group, groups};
pub use moments::{Cost, Moments};
pub use narrowing::{Narrowing, narrowings};
pub use work::{Quantity, always, of_decision};
