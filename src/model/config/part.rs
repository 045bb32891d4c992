//! The part of a published config that the homeowner's form reads itself. The whole text is passed on to the engine.
//!
//! Nothing else is checked here: the engine reads all of the config strictly and reports what is wrong.

use super::fields::{Slot, read_some};
use super::public::{Branding, Installer, draft_kept_days, kept_days};
use alloc::collections::BTreeMap;
use alloc::string::String;
use alloc::vec::Vec;
use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};

/// What the form needs of a config before the engine is loaded, and beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct FormPart {
    /// The text of the whole config, as it was received.
    pub text: String,
    /// The config's version.
    pub version: String,
    /// Who it is.
    pub installer: Installer,
    /// Postcodes covered, by their beginnings.
    pub area: Vec<String>,
    /// Days that an enquiry is kept.
    pub keep_days: u16,
    /// Days that a form begun and not sent stays on the device.
    pub draft_days: u16,
    /// Whether to ask if offers may be sent.
    pub advertising: bool,
    /// Whether a copy of what is sent can be had by mail.
    pub copies: bool,
    /// Wording changed by the installer.
    pub wording: BTreeMap<String, String>,
    /// Colours.
    pub branding: Branding,
}

impl FormPart {
    /// Reads the form's part from the text of a config, and keeps the text.
    ///
    /// # Errors
    /// Where a field of this part is missing or can't be read.
    pub fn read(text: String) -> Result<Self, serde_json::Error> {
        let part: Self = serde_json::from_str(&text)?;
        Ok(Self { text, ..part })
    }
}

impl<'de> Deserialize<'de> for FormPart {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(Reader)
    }
}

struct Reader;

impl<'de> Visitor<'de> for Reader {
    type Value = FormPart;

    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("an object with named fields")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<FormPart, A::Error> {
        let (mut version, mut installer, mut area) = (None, None, None);
        let (mut keep_days, mut draft_days, mut advertising) = (None, None, None);
        let (mut copies, mut wording, mut branding) = (None, None, None);
        let names = &[
            "version",
            "installer",
            "area",
            "keep_days",
            "draft_days",
            "advertising",
            "copies",
            "wording",
            "branding",
        ];
        let slots: &mut [&mut dyn Slot<'de, A>] = &mut [
            &mut version,
            &mut installer,
            &mut area,
            &mut keep_days,
            &mut draft_days,
            &mut advertising,
            &mut copies,
            &mut wording,
            &mut branding,
        ];
        read_some(&mut map, names, slots)?;
        Ok(FormPart {
            text: String::new(),
            version: version.ok_or_else(|| A::Error::missing_field("version"))?,
            installer: installer.ok_or_else(|| A::Error::missing_field("installer"))?,
            area: area.unwrap_or_default(),
            keep_days: keep_days.unwrap_or_else(kept_days),
            draft_days: draft_days.unwrap_or_else(draft_kept_days),
            advertising: advertising.unwrap_or_default(),
            copies: copies.unwrap_or_default(),
            wording: wording.unwrap_or_default(),
            branding: branding.unwrap_or_default(),
        })
    }
}

/// The part of the invented demo's config, for tests.
///
/// # Panics
/// Never: what is published can be read.
#[must_use]
pub fn demo_part() -> FormPart {
    let text = serde_json::to_string(&super::demo_config()).expect("the demo's config can be written as JSON");
    FormPart::read(text).expect("what is published can be read")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::demo_config;

    #[test]
    fn the_part_is_the_configs_own() {
        let mut config = demo_config();
        config.area = alloc::vec!["ZZ1".into()];
        config.wording.insert("send".into(), "Send it".into());
        config.advertising = true;
        config.copies = true;
        config.installer.privacy = Some("https://installer.invalid/privacy".into());
        config.branding.accent = Some("#123456".into());
        let text = serde_json::to_string(&config).unwrap();
        let part = FormPart::read(text.clone()).unwrap();
        assert_eq!(part.text, text);
        assert_eq!((&part.version, &part.installer, &part.area), (&config.version, &config.installer, &config.area));
        assert_eq!(
            (part.keep_days, part.draft_days, part.advertising && part.copies, &part.wording, &part.branding),
            (config.keep_days, config.draft_days, true, &config.wording, &config.branding)
        );
    }

    #[test]
    fn what_may_be_left_out_has_the_configs_default() {
        let text = r#"{"later":{"more":[1]},"version":"v","installer":{"id":"i","name":"I","telephone":"1"}}"#;
        let part = FormPart::read(text.into()).unwrap();
        assert_eq!((part.keep_days, part.draft_days, part.area.len(), part.wording.len()), (180, 30, 0, 0));
        assert_eq!((part.branding, part.advertising || part.copies), (Branding::default(), false));
    }

    #[test]
    fn what_is_missing_twice_or_of_another_kind_is_named() {
        let refused = |text: &str| FormPart::read(text.into()).unwrap_err();
        assert!(alloc::format!("{}", refused("{}")).contains("missing field `version`"));
        assert!(
            alloc::format!("{}", refused(r#"{"version":"v","version":"w"}"#)).contains("duplicate field `version`")
        );
        assert!(alloc::format!("{}", refused(r#"{"version":5}"#)).contains("invalid type"));
        assert!(FormPart::read("<html>".into()).is_err());
    }
}
