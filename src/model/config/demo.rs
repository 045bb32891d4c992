//! The invented demo: a made-up installer with made-up rates, marked so everywhere it shows. Its charge points are nobody's: their leads
//! are whole metres, invented.

use super::{Config, Setup};

/// The invented setup, as a file an installer could start from.
const DEMO: &str = include_str!("demo-setup.json");

/// The invented installer's private setup.
#[must_use]
pub fn demo_setup() -> Setup {
    serde_json::from_str(DEMO).expect("the demo file is read by a test")
}

/// What the invented installer publishes.
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
