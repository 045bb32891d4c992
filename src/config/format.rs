//! A published config for forms that were copied to a website before some of its fields existed: they read it strictly.
//!
//! Format 1 is what version 0.1.0 reads. A form says which it reads by its `Accept` header; one that says nothing reads format 1.

use super::{Config, Item};
use crate::answers::Word;
use alloc::string::ToString;
use alloc::vec::Vec;
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

/// Work items that came after format 1: a form of before does not know them, and a config of before has no line for them.
pub(super) const fn is_since_format_1(item: Item) -> bool {
    matches!(item, Item::OpenPenThreePhase | Item::HardGround)
}

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
        let new = |word: &Value| Item::ALL.iter().any(|item| is_since_format_1(*item) && word == item.word());
        for (list, name) in [("prices", Some("item")), ("assumed_lines", None)] {
            if let Some(list) = whole.get_mut(list).and_then(Value::as_array_mut) {
                list.retain(|one| !new(name.map_or(one, |name| &one[name])));
            }
            // As it is published where nothing is assumed.
            if whole.get(list) == Some(&Value::Array(Vec::new())) && name.is_none() {
                leave_out(&mut whole, &[list]);
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
        config.prices.retain(|line| !is_since_format_1(line.item));
        assert_eq!(serde_json::to_value(&config).unwrap(), config.in_format_1());
    }

    #[test]
    fn a_form_of_before_is_told_of_no_item_that_it_does_not_know() {
        let mut config = demo_config();
        config.assumed_lines = Item::ALL.to_vec();
        let before = config.in_format_1();
        let told = before.to_string();
        for item in Item::ALL {
            let named = told.contains(&["\"", item.word(), "\""].concat());
            assert_eq!(named, !is_since_format_1(*item), "{}", item.word());
        }
        let read: Config = serde_json::from_value(before).unwrap();
        assert_eq!(crate::config::check_config(&read), [], "and a config of before goes on opening");
    }
}
