//! The invented demo: an installer, rates and charge points that do not exist, marked as invented wherever they are shown. The leads of its
//! charge points are whole metres.

use super::{Config, Setup};

/// The invented setup as a file that an installer could start from.
const DEMO: &str = include_str!("demo-setup.json");

/// The invented installer's private setup.
#[must_use]
pub fn demo_setup() -> Setup {
    serde_json::from_str(DEMO).expect("the demo's setup file can be read, as a test shows")
}

/// The config that the invented installer publishes.
#[must_use]
pub fn demo_config() -> Config {
    demo_setup().publish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn its_leads_are_whole_metres_like_nobodys() {
        let leads = || demo_setup().charge_points.into_iter().filter_map(|point| point.lead);
        assert!(leads().count() >= 2 && leads().all(|lead| libm::floor(lead.get()) == lead.get()));
    }
}
