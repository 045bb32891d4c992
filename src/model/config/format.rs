//! A published config in earlier formats, for forms that were copied to a website before some fields existed: they refuse unknown fields.
//!
//! Format 1 is read by version 0.1.0, format 2 by 0.2.0, format 3 by 0.3.0. A form asks for a format in its `Accept` header; one that sends none reads format
//! 1.

use super::{Config, Item};
use alloc::string::ToString;
use serde_json::Value;

/// The format that is published today.
pub const NEWEST_FORMAT: u8 = 4;

/// The formats that a form may ask for, with the text of its `Accept` header, the newest last.
pub const FORMATS: [(u8, &str); 3] =
    [(2, "application/json;format=2"), (3, "application/json;format=3"), (NEWEST_FORMAT, FORMAT)];

/// The `Accept` header that today's form sends.
pub const FORMAT: &str = "application/json;format=4";

/// Fields that not every format has: the first format with them, and their paths. `*` stands for every element of a list.
const SINCE: [(u8, &[&str]); 11] = [
    (2, &["charge_points", "*", "listed"]),
    (2, &["priors", "loop_at_age"]),
    (2, &["priors", "device_by_buttons"]),
    (3, &["jobs"]),
    (3, &["charge_points", "*", "device"]),
    (3, &["thresholds", "voltage_drop"]),
    (3, &["installer", "legal_name"]),
    (3, &["installer", "privacy"]),
    (3, &["prices_shown"]),
    (3, &["advertising"]),
    (4, &["copies"]),
];

/// Work items that not every format has: the first format with the item, and the item.
const ITEMS_SINCE: [(u8, Item); 12] = [
    (3, Item::BondOther),
    (3, Item::LargerTails),
    (3, Item::LargerMainEarth),
    (3, Item::ReplaceBoard),
    (3, Item::OpenPenThreePhase),
    (3, Item::OldPointOff),
    (3, Item::ProveCircuit),
    (3, Item::FireSeal),
    (3, Item::HardGround),
    (3, Item::Duct),
    (3, Item::ClampCable),
    (3, Item::ImpactGuard),
];

/// Whether a config may have been published before this work item existed.
pub(super) fn came_later(item: Item) -> bool {
    ITEMS_SINCE.iter().any(|(_, new)| *new == item)
}

impl Config {
    /// The config as JSON in an earlier format: without the fields and items that came later.
    ///
    /// # Panics
    /// Never: a config holds only numbers, text and lists.
    #[must_use]
    pub fn in_format(&self, format: u8) -> Value {
        let known = |item: &Item| !ITEMS_SINCE.iter().any(|(since, new)| *since > format && new == item);
        let mut then = self.clone();
        then.prices.retain(|line| known(&line.item));
        then.assumed_lines.retain(known);
        let mut whole = serde_json::to_value(&then).expect("a config holds only numbers, text and lists");
        for (_, path) in SINCE.iter().filter(|(since, _)| *since > format) {
            leave_out(&mut whole, path);
        }
        whole
    }
}

fn leave_out(value: &mut Value, path: &[&str]) {
    match (path, value) {
        (["*", rest @ ..], Value::Array(list)) => list.iter_mut().for_each(|one| leave_out(one, rest)),
        ([name], Value::Object(fields)) => {
            fields.remove(&name.to_string());
        }
        ([name, rest @ ..], Value::Object(fields)) => {
            if let Some(inner) = fields.get_mut(*name) {
                leave_out(inner, rest);
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Word;
    use crate::config::{PriceShown, demo_config, demo_setup};
    use crate::units::{Probability, Ratio};
    use alloc::collections::BTreeSet;
    use alloc::string::String;
    use alloc::vec::Vec;

    /// Every path of a value's fields, lists as `*`.
    fn paths(value: &Value, at: &str, into: &mut BTreeSet<String>) {
        match value {
            Value::Object(fields) => {
                for (name, inner) in fields {
                    let path = [at, ".", name].concat();
                    into.insert(path.clone());
                    paths(inner, &path, into);
                }
            }
            Value::Array(list) => list.iter().for_each(|inner| paths(inner, &[at, ".*"].concat(), into)),
            _ => {}
        }
    }

    fn paths_of(value: &Value) -> BTreeSet<String> {
        let mut found = BTreeSet::new();
        paths(value, "", &mut found);
        found
    }

    /// What each earlier version published itself, everything in it set.
    const KEPT: [(u8, [&str; 2]); 3] = [
        (
            1,
            [
                include_str!("../../../tests/earlier/0.1.0/configs/everything-set.json"),
                include_str!("../../../tests/earlier/0.1.0/configs/demo.json"),
            ],
        ),
        (
            2,
            [
                include_str!("../../../tests/earlier/0.2.0/configs/everything-set.json"),
                include_str!("../../../tests/earlier/0.2.0/configs/demo.json"),
            ],
        ),
        (
            3,
            [
                include_str!("../../../tests/earlier/0.3.0/configs/everything-set.json"),
                include_str!("../../../tests/earlier/0.3.0/configs/demo.json"),
            ],
        ),
    ];

    #[test]
    fn an_earlier_format_has_no_field_that_its_version_did_not_publish() {
        let mut setup = demo_setup();
        setup.charge_points[0].listed = false;
        setup.charge_points[0].residual_device = true;
        setup.priors.loop_at_age.since_2000 = Probability::of(0.5);
        setup.priors.device_by_buttons.none = Probability::of(0.5);
        setup.thresholds.voltage_drop = Ratio::of(0.03);
        setup.installer.legal_name = "Invented Installer Limited".into();
        setup.installer.privacy = Some("https://installer.invalid/privacy".into());
        setup.prices_shown.more_involved = PriceShown::From;
        setup.advertising = true;
        setup.calibration.held = 40;
        let mail = r#"{"server":"localhost","encryption":"none","from":"form@installer.invalid","copies":true}"#;
        setup.mail = serde_json::from_str(mail).unwrap();
        let config = setup.publish();
        let now = paths_of(&serde_json::to_value(&config).unwrap());
        for (format, kept) in KEPT {
            // Not set in what is kept, but known to it.
            let mut known = BTreeSet::from([".charge_points.*.residual_device".into()]);
            for kept in kept {
                known.append(&mut paths_of(&serde_json::from_str(kept).unwrap()));
            }
            let then = paths_of(&config.in_format(format));
            let strange: Vec<_> = then.difference(&known).collect();
            assert!(strange.is_empty(), "format {format} does not know {strange:?}");
            assert!(now.is_superset(&then));
        }
        for (_, path) in SINCE {
            let path = path.iter().flat_map(|name| [".", name]).collect::<String>();
            assert!(now.contains(&path), "{path} is to be set in this test");
        }
    }

    #[test]
    fn what_is_usual_is_published_as_it_was() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.device = None);
        let then: Config = serde_json::from_value(config.in_format(1)).unwrap();
        config.prices = then.prices;
        assert_eq!(serde_json::to_value(&config).unwrap(), config.in_format(1));
    }

    #[test]
    fn a_form_of_before_is_told_of_no_item_that_it_does_not_know() {
        let mut config = demo_config();
        config.assumed_lines = Item::ALL.to_vec();
        let before = config.in_format(1);
        let told = before.to_string();
        for item in Item::ALL {
            let named = told.contains(&["\"", item.word(), "\""].concat());
            assert_eq!(named, !came_later(*item), "{}", item.word());
        }
        let read: Config = serde_json::from_value(before).unwrap();
        assert_eq!(crate::config::check_config(&read), [], "and a config of before goes on opening");
    }

    /// Main bonding to oil or steel came later: where it says no more than bonding to water, nothing of it is published, and a config
    /// without it is priced by that line.
    #[test]
    fn a_later_item_is_left_out_where_it_says_the_same_and_in_earlier_formats() {
        let config = demo_config();
        let own = |config: &Config| config.prices.iter().any(|line| line.item == Item::BondOther);
        assert!(!own(&config) && crate::config::check_config(&config).is_empty());
        assert_eq!(config.line(Item::BondOther), config.line(Item::BondWater));
        let mut setup = demo_setup();
        let line = setup.costs.iter_mut().find(|line| line.item == Item::BondOther).unwrap();
        line.minutes.likely = crate::units::Minutes::of(90.0);
        let dearer = setup.publish();
        assert!(own(&dearer) && dearer.line(Item::BondOther) != dearer.line(Item::BondWater));
        let before: Config = serde_json::from_value(dearer.in_format(1)).unwrap();
        assert!(!own(&before), "version 0.1.0 knows no such item");
    }
}
