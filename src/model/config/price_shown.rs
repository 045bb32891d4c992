//! How much of the price a homeowner sees, for each class of complexity: the installer's choice.

use super::fields::fields;
use crate::answers::choices::words;
use serde::Serialize;

words! {
    /// How much of the price is shown.
    pub enum PriceShown {
        /// The band.
        Band => "band",
        /// What it costs if all that is unknown turns out well: "from £…".
        From => "from",
        /// Nothing.
        Nothing => "none",
    }
}

/// For each class what is shown; left out, the band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PricesShown {
    /// Within one day for one person, nothing to wait for.
    #[serde(skip_serializing_if = "is_band")]
    pub straightforward: PriceShown,
    /// Longer, or digging, or a new enclosure.
    #[serde(skip_serializing_if = "is_band")]
    pub more_involved: PriceShown,
    /// Somebody else must act or answer first.
    #[serde(skip_serializing_if = "is_band")]
    pub depends_on_others: PriceShown,
    /// A danger that is not ruled out; beside one that was seen there is no price whatever stands here.
    #[serde(skip_serializing_if = "is_band")]
    pub look_first: PriceShown,
}

impl PricesShown {
    /// The band for every class.
    pub const BANDS: Self = Self::all(PriceShown::Band);

    /// The same choice for every class.
    #[must_use]
    pub const fn all(shown: PriceShown) -> Self {
        Self { straightforward: shown, more_involved: shown, depends_on_others: shown, look_first: shown }
    }

    /// Whether every class shows the band, so that the field may be left out of a file.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::BANDS
    }
}

impl Default for PricesShown {
    fn default() -> Self {
        Self::BANDS
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the writer of JSON hands a reference")]
fn is_band(shown: &PriceShown) -> bool {
    *shown == PriceShown::Band
}

fields!(all default PricesShown { straightforward, more_involved, depends_on_others, look_first });

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;

    #[test]
    fn what_is_left_out_is_the_band_and_another_word_is_named() {
        let read = |json: &str| serde_json::from_str::<PricesShown>(json);
        assert_eq!(read("{}").unwrap(), PricesShown::BANDS);
        let some = read(r#"{"more_involved":"from","look_first":"none"}"#).unwrap();
        assert_eq!((some.straightforward, some.more_involved), (PriceShown::Band, PriceShown::From));
        assert_eq!(some.look_first, PriceShown::Nothing);
        let refused = read(r#"{"more_involved":"about"}"#).unwrap_err().to_string();
        assert!(refused.contains("about") && refused.contains("from"), "{refused}");
        assert!(read(r#"{"dangerous":"none"}"#).unwrap_err().to_string().contains("dangerous"));
    }
}
