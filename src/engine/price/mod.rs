//! The estimate: work items from decisions, three-point quantities, the distribution of the total, and what would narrow it.
//!
//! Nothing here knows the site: it prices what `design` decided. Money comes in as whole pence and is rounded to whole pence in one place.

mod bill;
mod curve;
mod dearer;
mod distribution;
mod groups;
mod line;
mod moments;
mod narrowing;
mod order;
mod pictures;
mod price_list;
mod standard_normal;
mod van;
mod well;
mod work;

pub use bill::{adds_up, always_cost, bill, days, likely_labour, plainest, plainest_work, sums};
pub use curve::curve;
pub use dearer::{Cause, dearer};
pub use distribution::{LABOUR_FACTORS, Part, Total};
pub use groups::{Group, cost_of, groups};
pub use line::{BillLine, Curve, Sums};
pub use moments::{Cost, Moments};
pub use narrowing::{Narrowing, narrowings, variances};
pub use order::after;
pub use pictures::{Ruler, bar, outline};
pub use price_list::PriceList;
pub use standard_normal::StandardNormal;
pub use van::{Take, VanLine, van_list};
pub use well::if_all_turns_out_well;
pub use work::{Quantity, always, of_decision};
