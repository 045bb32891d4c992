//! Which answers the installer recorded. These count even where the homeowner would not have been asked the question.

use super::topics::TOPICS;
use alloc::string::String;
use alloc::vec::Vec;

/// A set of fields by their path (`meter.fuse_carriers`), written as a list of paths in the order of a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Recorded(u128);

/// Topic and name of every field, in the order in which a file has them.
fn paths() -> impl Iterator<Item = (&'static str, &'static str)> {
    TOPICS.iter().flat_map(|(topic, accessors)| accessors.iter().map(move |accessor| (*topic, accessor.name)))
}

fn place(path: &str) -> Option<usize> {
    let (topic, name) = path.split_once('.')?;
    paths().position(|known| known == (topic, name))
}

impl Recorded {
    /// The empty set.
    pub const NONE: Self = Self(0);

    /// This set with one more field. A path that no field has changes nothing.
    #[must_use]
    pub fn with(self, path: &str) -> Self {
        place(path).map_or(self, |at| Self(self.0 | 1 << at))
    }

    /// This set without one field.
    #[must_use]
    pub fn without(self, path: &str) -> Self {
        place(path).map_or(self, |at| Self(self.0 & !(1 << at)))
    }

    /// Whether the field with this path is in the set.
    #[must_use]
    pub fn has(self, path: &str) -> bool {
        self.0 != 0 && place(path).is_some_and(|at| self.0 >> at & 1 == 1)
    }

    /// Whether the set is empty.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Their paths.
    pub fn iter(self) -> impl Iterator<Item = String> {
        let path = |(topic, name): (&str, &str)| [topic, ".", name].concat();
        paths().enumerate().filter(move |(at, _)| self.0 >> at & 1 == 1).map(move |(_, names)| path(names))
    }
}

impl serde::Serialize for Recorded {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}

impl<'de> serde::Deserialize<'de> for Recorded {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let paths = Vec::<String>::deserialize(deserializer)?;
        paths.iter().try_fold(Self::NONE, |set, path| match place(path) {
            Some(at) => Ok(Self(set.0 | 1 << at)),
            None => {
                let path: String = path.chars().take(60).collect();
                Err(serde::de::Error::custom(format_args!(
                    "{path:?} is not allowed; it may be the path of a field, such as \"meter.fuse_carriers\""
                )))
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_has_a_place_of_its_own() {
        assert!(paths().count() <= 128, "the set holds one bit a field");
        for (topic, name) in paths() {
            let path = [topic, ".", name].concat();
            let one = Recorded::NONE.with(&path);
            assert!(one.has(&path) && one.iter().eq([path.clone()]) && one.without(&path).is_empty(), "{path}");
        }
        assert!(Recorded::NONE.with("no.such").is_empty());
    }

    #[test]
    fn it_is_written_as_paths_and_an_unknown_one_is_named() {
        let set = Recorded::NONE.with("meter.fuse_carriers").with("home.age");
        let json = serde_json::to_string(&set).unwrap();
        assert_eq!(json, r#"["home.age","meter.fuse_carriers"]"#);
        assert_eq!(serde_json::from_str::<Recorded>(&json).unwrap(), set);
        let refused = serde_json::from_str::<Recorded>(r#"["meter.magic"]"#).unwrap_err();
        assert!(alloc::format!("{refused}").contains("meter.magic"));
    }
}
