//! A published config for forms that were copied to a website before some of its fields existed: they read it strictly.
//!
//! Format 1 is what version 0.1.0 reads. A form says which it reads by its `Accept` header; one that says nothing reads format 1.

use super::{Config, Item};
use crate::answers::Word;
use alloc::string::ToString;
use serde_json::Value;

/// The format that is published today, and asked for by the form of today.
pub const FORMAT: &str = "application/json;format=2";

/// The fields that came after format 1, by their path; `*` stands for each of a list.
const SINCE_FORMAT_1: [&[&str]; 5] = [
    &["charge_points", "*", "listed"],
    &["charge_points", "*", "device"],
    &["priors", "loop_at_age"],
    &["priors", "device_by_buttons"],
    &["thresholds", "voltage_drop"],
];

impl Config {
    /// As format 1 has it.
    ///
    /// # Panics
    /// Never: a config holds only numbers, text and lists.
    #[must_use]
    pub fn in_format_1(&self) -> Value {
        let mut whole = serde_json::to_value(self).expect("a config holds only numbers, text and lists");
        for path in SINCE_FORMAT_1 {
            leave_out(&mut whole, path);
        }
        // Nor does it know a later item's line.
        let is_new = |item: &Value| Item::ALL.iter().any(|new| new.like().is_some() && item == new.word());
        if let Some(Value::Array(prices)) = whole.get_mut("prices") {
            prices.retain(|line| !line.get("item").is_some_and(is_new));
        }
        if let Some(Value::Array(assumed)) = whole.get_mut("assumed_lines") {
            assumed.retain(|item| !is_new(item));
            if assumed.is_empty() {
                leave_out(&mut whole, &["assumed_lines"]);
            }
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
    use crate::config::{demo_config, demo_setup};
    use crate::units::Probability;
    use alloc::collections::BTreeSet;
    use alloc::string::String;

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

    /// What version 0.1.0 published itself, everything in it set.
    #[test]
    fn format_1_has_no_field_that_version_0_1_0_did_not_publish() {
        let mut known = BTreeSet::new();
        for kept in [
            include_str!("../../tests/earlier/0.1.0/configs/everything-set.json"),
            include_str!("../../tests/earlier/0.1.0/configs/demo.json"),
        ] {
            known.append(&mut paths_of(&serde_json::from_str(kept).unwrap()));
        }
        let mut setup = demo_setup();
        setup.charge_points[0].listed = false;
        setup.charge_points[0].residual_device = true;
        setup.priors.loop_at_age.since_2000 = Probability::of(0.5);
        setup.priors.device_by_buttons.none = Probability::of(0.5);
        let config = setup.publish();
        let (now, before) = (paths_of(&serde_json::to_value(&config).unwrap()), paths_of(&config.in_format_1()));
        let news: BTreeSet<_> = now.difference(&before).collect();
        assert_eq!(
            news.iter().filter(|path| path.matches('.').count() < 3 || path.contains('*')).count(),
            4,
            "{news:?}"
        );
        // Not set in what is kept, but known to it.
        known.insert(".charge_points.*.residual_device".into());
        let strange: BTreeSet<_> = before.difference(&known).collect();
        assert!(strange.is_empty(), "version 0.1.0 does not know {strange:?}");
    }

    #[test]
    fn what_is_usual_is_published_as_it_was() {
        let mut config = demo_config();
        config.charge_points.iter_mut().for_each(|point| point.device = None);
        assert_eq!(serde_json::to_value(&config).unwrap(), config.in_format_1());
    }

    /// Main bonding to oil or steel came later: where it says no more than bonding to water, nothing of it is published, and a config
    /// without it is priced by that line.
    #[test]
    fn a_later_item_is_left_out_where_it_says_the_same_and_in_format_1() {
        let config = demo_config();
        let own = |config: &Config| config.prices.iter().any(|line| line.item == Item::BondOther);
        assert!(!own(&config) && crate::config::check_config(&config).is_empty());
        assert_eq!(config.line(Item::BondOther), config.line(Item::BondWater));
        let mut setup = demo_setup();
        let line = setup.costs.iter_mut().find(|line| line.item == Item::BondOther).unwrap();
        line.minutes.likely = crate::units::Minutes::of(90.0);
        let dearer = setup.publish();
        assert!(own(&dearer) && dearer.line(Item::BondOther) != dearer.line(Item::BondWater));
        let before: Config = serde_json::from_value(dearer.in_format_1()).unwrap();
        assert!(!own(&before), "version 0.1.0 knows no such item");
    }
}
