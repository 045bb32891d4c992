//! An installer's own look: the colours it asked for, made readable, and a list of what had to be changed for that.
//!
//! Contrast is WCAG 2.2's: relative luminance (section "relative luminance", by the crate color) and ratio ("contrast ratio"); 4.5 is the
//! least for text (success criterion 1.4.3). Colours are adjusted when a setup is published, so none of this code is in a visitor's
//! program.

use super::fields::fields;
use super::public::Branding;
#[cfg(feature = "schema")]
use super::schema;
use crate::answers::choices::words;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use color::{OpaqueColor, Srgb, parse_color};
use serde::Serialize;

words! {
    /// Whether the form follows what the device is set to.
    pub enum Scheme {
        /// Light by day and dark where the device is.
        Device => "device",
        /// Always light.
        Light => "light",
        /// Always dark.
        Dark => "dark",
    }
}

/// What an installer may wish for; everything left out is the form's own.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Brand {
    /// Buttons, links and what is chosen: `#rgb` or `#rrggbb`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub accent: Option<String>,
    /// What everything stands on.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub ground: Option<String>,
    /// Text and lines.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub ink: Option<String>,
    /// What is unsafe or missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub caution: Option<String>,
    /// The same four for a device that is set dark; without them the form's own, with the accent made to fit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dark: Option<Colours>,
    /// Whether the form follows the device.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scheme: Option<Scheme>,
    /// Names of typefaces that the page or the device has, the first that is there.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = MOST_FONT), extend("pattern" = schema::typefaces())))]
    pub font: Option<String>,
    /// How round corners are, in CSS pixels from 0 to 24.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("maximum" = MOST_CORNER)))]
    pub corner: Option<u8>,
    /// Address of a picture: `https://…`, or a path on the page's own site.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::picture_address())))]
    pub logo: Option<String>,
}

/// The four colours that everything else is mixed from.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(default, deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Colours {
    /// Buttons, links and what is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub accent: Option<String>,
    /// What everything stands on.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub ground: Option<String>,
    /// Text and lines.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub ink: Option<String>,
    /// What is unsafe or missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(extend("pattern" = schema::colour())))]
    pub caution: Option<String>,
}

fields!(all default Brand { accent, ground, ink, caution, dark, scheme, font, corner, logo });
fields!(all default Colours { accent, ground, ink, caution });

/// The roundest corner, in CSS pixels, and the longest list of typefaces: this program's choice.
const MOST_CORNER: u8 = 24;
const MOST_FONT: usize = 120; // this program's choice

/// A colour that was asked for and could not be read on its ground, and the colour that is shown in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Corrected {
    /// Path of the field.
    pub field: String,
    /// What was wished for.
    pub given: String,
    /// What is shown.
    pub shown: String,
    /// The contrast of what was wished for, such as `2.31`; 4.5 is the least.
    pub contrast: String,
}

/// Red, green and blue in sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Colour([u8; 3]);

/// WCAG 2.2, 1.4.3: the least contrast of text.
const LEAST: f64 = 4.5;
/// The share of ink in the palest text, and of accent in the ground of a chosen option: as in `form.css`.
const SOFT: f64 = 0.72;
const TINT: f64 = 0.16;

/// The form's own colours, as in `form.css`: accent, ground, ink, caution.
const OWN: [[&str; 4]; 2] =
    [["#1f5f4a", "#fbfaf6", "#20282e", "#9a3412"], ["#8cc9ae", "#1c1f22", "#e8e4da", "#f2a679"]];

impl Colour {
    const BLACK: Self = Self([0; 3]);
    const WHITE: Self = Self([255; 3]);

    fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        // CSS also has named colours, functions and transparency; none of them is accepted.
        let plain = text.starts_with('#') && matches!(text.len(), 4 | 7);
        let colour = plain.then(|| parse_color(text).ok())??.to_alpha_color::<Srgb>().to_rgba8();
        Some(Self([colour.r, colour.g, colour.b]))
    }

    fn written(self) -> String {
        let [red, green, blue] = self.0;
        format!("#{red:02x}{green:02x}{blue:02x}")
    }

    /// WCAG 2.2, relative luminance: 0 for black, 1 for white.
    fn luminance(self) -> f64 {
        let [red, green, blue] = self.0;
        OpaqueColor::<Srgb>::from_rgb8(red, green, blue).relative_luminance().into()
    }

    /// WCAG 2.2, contrast ratio: from 1 to 21.
    fn contrast(self, other: Self) -> f64 {
        let (one, two) = (self.luminance(), other.luminance());
        (one.max(two) + 0.05) / (one.min(two) + 0.05)
    }

    /// `share` of this colour mixed with the rest of the other, as `color-mix` does in sRGB. Worked exactly: with shorter numbers a half
    /// could round the other way in its last bit, and a colour that differs from the one published before would come out.
    fn in_mix(self, share: f64, other: Self) -> Self {
        let mut mixed = self.0;
        for (part, of) in mixed.iter_mut().zip(other.0) {
            *part = libm::round(f64::from(*part) * share + f64::from(of) * (1.0 - share)) as u8;
        }
        Self(mixed)
    }

    /// Black or white, whichever has more contrast with this colour.
    fn farthest(self) -> Self {
        if self.contrast(Self::BLACK) >= self.contrast(Self::WHITE) { Self::BLACK } else { Self::WHITE }
    }

    /// The colour nearest to this one, on the way to black or white, for which `fits` holds on that ground.
    fn readable(self, ground: Self, fits: impl Fn(Self) -> bool) -> Self {
        let end = ground.farthest();
        (0..=64).map(|step| end.in_mix(f64::from(step) / 64.0, self)).find(|colour| fits(*colour)).unwrap_or(end)
    }
}

/// The four colours of one scheme, made readable; pushes what had to be changed.
fn fitted(wished: [Option<&str>; 4], own: [&str; 4], path: &str, changed: &mut Vec<Corrected>) -> [Colour; 4] {
    let read = |at: usize| wished[at].and_then(Colour::read).or_else(|| Colour::read(own[at])).unwrap_or(Colour::BLACK);
    let ground = read(1);
    let on_ground = |colour: Colour| colour.contrast(ground) >= LEAST;
    // A mixture may have less contrast than either colour, so both are checked.
    let pale = |colour: Colour| on_ground(colour) && colour.in_mix(SOFT, ground).contrast(ground) >= LEAST;
    let chosen = |colour: Colour| on_ground(colour) && colour.contrast(colour.in_mix(TINT, ground)) >= LEAST;
    let accent = read(0).readable(ground, chosen);
    let ink = read(2).readable(ground, pale);
    let caution = read(3).readable(ground, on_ground);
    // For ink the palest text is checked as well; for accent the ground of a chosen option.
    let worst = |at: usize, colour: Colour| match at {
        0 => colour.contrast(ground).min(colour.contrast(colour.in_mix(TINT, ground))),
        2 => colour.contrast(ground).min(colour.in_mix(SOFT, ground).contrast(ground)),
        _ => colour.contrast(ground),
    };
    for (at, name, shown, bare) in
        [(0, "accent", accent, read(0)), (2, "ink", ink, read(2)), (3, "caution", caution, read(3))]
    {
        if let Some(given) = wished[at].filter(|_| shown != bare) {
            changed.push(Corrected {
                field: [path, name].concat(),
                given: given.into(),
                shown: shown.written(),
                contrast: format!("{:.2}", worst(at, bare)),
            });
        }
    }
    [accent, ground, ink, caution]
}

impl Brand {
    /// The look as it is published, with every colour readable, and a list of what had to be changed.
    #[must_use]
    pub fn published(&self) -> (Branding, Vec<Corrected>) {
        let mut changed = Vec::new();
        if *self == Self::default() {
            return (Branding::default(), changed);
        }
        let light = [&self.accent, &self.ground, &self.ink, &self.caution];
        let day = fitted(light.map(|given| given.as_deref()), OWN[0], "branding.", &mut changed);
        let night = match &self.dark {
            Some(dark) => {
                let given = [&dark.accent, &dark.ground, &dark.ink, &dark.caution].map(|given| given.as_deref());
                fitted(
                    [given[0].or(self.accent.as_deref()), given[1], given[2], given[3]],
                    OWN[1],
                    "branding.dark.",
                    &mut changed,
                )
            }
            // The installer gave no dark colours, so what is adjusted here is not reported.
            None => fitted([self.accent.as_deref(), None, None, None], OWN[1], "", &mut Vec::new()),
        };
        let shown = |of: fn(&[Colour; 4]) -> Colour| {
            let [day, night] = [&day, &night].map(|colours| of(colours).written());
            // Both, whatever the scheme: a page may set another for its form (the attribute `scheme`), and paper is always light.
            Some(format!("light-dark({day}, {night})"))
        };
        let branding = Branding {
            accent: shown(|colours| colours[0]),
            on_accent: shown(|colours| colours[0].farthest()),
            ground: shown(|colours| colours[1]),
            ink: shown(|colours| colours[2]),
            caution: shown(|colours| colours[3]),
            scheme: self.scheme.filter(|scheme| *scheme != Scheme::Device).map(|scheme| scheme.word().to_string()),
            font: self.font.clone(),
            corner: self.corner.map(|corner| format!("{corner}px")),
            logo: self.logo.clone(),
        };
        (branding, changed)
    }

    /// Calls `refuse` for what cannot be used at all, with the field, what was there, and what is allowed.
    pub(super) fn check(&self, refuse: &mut dyn FnMut(String, String, &'static str)) {
        let dark = self.dark.clone().unwrap_or_default();
        for (name, given) in [
            ("accent", &self.accent),
            ("ground", &self.ground),
            ("ink", &self.ink),
            ("caution", &self.caution),
            ("dark.accent", &dark.accent),
            ("dark.ground", &dark.ground),
            ("dark.ink", &dark.ink),
            ("dark.caution", &dark.caution),
        ] {
            if let Some(given) = given.as_deref().filter(|given| Colour::read(given).is_none()) {
                refuse(format!("branding.{name}"), format!("{given:?}"), "a colour as #rgb or #rrggbb");
            }
        }
        if self.corner.is_some_and(|corner| corner > MOST_CORNER) {
            refuse("branding.corner".into(), self.corner.unwrap_or_default().to_string(), "0 to 24 pixels");
        }
        if let Some(font) = self
            .font
            .as_deref()
            .filter(|font| font.is_empty() || font.len() > MOST_FONT || !font.chars().all(is_of_a_typeface))
        {
            refuse(
                "branding.font".into(),
                format!("{font:?}"),
                "names of typefaces, letters and digits, with commas between",
            );
        }
        if let Some(logo) = self.logo.as_deref().filter(|logo| !is_picture_address(logo)) {
            refuse(
                "branding.logo".into(),
                format!("{logo:?}"),
                "an address that begins with https://, or a path that begins with /",
            );
        }
    }
}

/// Whether a character may stand in a list of typeface names.
pub(super) fn is_of_a_typeface(sign: char) -> bool {
    sign.is_ascii_alphanumeric() || " ,-'\"".contains(sign)
}

/// Whether the address may be used for a picture: `https://…`, or a path on the page's own site.
#[must_use]
pub fn is_picture_address(logo: &str) -> bool {
    let plain = logo.bytes().all(|byte| byte.is_ascii_graphic());
    plain && (logo.starts_with("https://") || (logo.starts_with('/') && !logo.starts_with("//")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Word;
    use proptest::prelude::*;

    /// By what share the library's ratio may differ: it works with seven digits.
    const DIGITS: f64 = 1e-6;

    /// The ratio as WCAG 2.2 writes it, in longer numbers.
    fn ratio(one: Colour, two: Colour) -> f64 {
        let luminance = |colour: Colour| {
            let [red, green, blue] = colour.0.map(|part| {
                let part = f64::from(part) / 255.0;
                if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
            });
            0.2126 * red + 0.7152 * green + 0.0722 * blue
        };
        let (one, two) = (luminance(one), luminance(two));
        (one.max(two) + 0.05) / (one.min(two) + 0.05)
    }

    #[test]
    fn a_colour_is_three_or_six_digits_after_a_hash() {
        assert_eq!(Colour::read(" #1aF "), Some(Colour([0x11, 0xaa, 0xff])));
        assert_eq!(Colour::read("#0a1b2C"), Some(Colour([0x0a, 0x1b, 0x2c])));
        for text in
            ["", "#", "#12", "#1234", "#12345", "#11223344", "red", "#ggg", "#£12", "1af", "#+1+1+1", "##12", "lch"]
        {
            assert_eq!(Colour::read(text), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn contrast_is_as_wcag_writes_it(one: [u8; 3], two: [u8; 3]) {
            let ours = Colour(one).contrast(Colour(two));
            let theirs = ratio(Colour(one), Colour(two));
            prop_assert!((ours / theirs - 1.0).abs() < DIGITS, "{} and {}", ours, theirs);
        }

        #[test]
        fn whatever_is_wished_for_can_be_read(colours: [[u8; 3]; 8], scheme in 0_usize..3) {
            let given = |at: usize| Some(Colour(colours[at]).written());
            let brand = Brand {
                accent: given(0), ground: given(1), ink: given(2), caution: given(3),
                dark: Some(Colours { accent: given(4), ground: given(5), ink: given(6), caution: given(7) }),
                scheme: Some(Scheme::ALL[scheme]),
                ..Brand::default()
            };
            let (shown, _) = brand.published();
            let sides = |text: &Option<String>| -> Vec<Colour> {
                let text = text.as_deref().unwrap();
                let inner = text.strip_prefix("light-dark(").and_then(|rest| rest.strip_suffix(')')).unwrap_or(text);
                inner.split(", ").map(|colour| Colour::read(colour).unwrap()).collect()
            };
            for (at, ground) in sides(&shown.ground).into_iter().enumerate() {
                let of = |text: &Option<String>| sides(text)[at];
                prop_assert!(ratio(of(&shown.accent), ground) > LEAST * (1.0 - DIGITS));
                prop_assert!(ratio(of(&shown.caution), ground) > LEAST * (1.0 - DIGITS));
                prop_assert!(ratio(of(&shown.ink), ground) > LEAST * (1.0 - DIGITS));
                prop_assert!(ratio(of(&shown.on_accent), of(&shown.accent)) > LEAST * (1.0 - DIGITS));
            }
        }
    }

    #[test]
    fn an_unreadable_pair_is_corrected_and_told() {
        let brand = Brand { accent: Some("#ff0".into()), ..Brand::default() };
        let (shown, changed) = brand.published();
        let [told] = changed.as_slice() else { panic!("{changed:?}") };
        assert_eq!((told.field.as_str(), told.given.as_str()), ("branding.accent", "#ff0"));
        assert!(told.contrast.starts_with("1.0"), "{}", told.contrast);
        assert!(
            shown.accent.unwrap().starts_with(&format!("light-dark({}, #ffff00)", told.shown)),
            "yellow stays in the dark"
        );
    }

    #[test]
    fn what_can_be_read_stays_as_it_is_and_the_forms_own_is_left_alone() {
        let brand = Brand { accent: Some("#003366".into()), scheme: Some(Scheme::Light), ..Brand::default() };
        let (shown, changed) = brand.published();
        let (accent, on_accent) = (shown.accent.unwrap(), shown.on_accent.unwrap());
        assert!(accent.starts_with("light-dark(#003366, ") && changed.is_empty(), "{accent}: {changed:?}");
        assert!(on_accent.starts_with("light-dark(#ffffff, "), "{on_accent}");
        assert_eq!(shown.scheme.as_deref(), Some("light"));
        for (own, at) in OWN.into_iter().zip(0..) {
            let mut changed = Vec::new();
            let fitted = fitted(own.map(Some), own, "", &mut changed);
            assert_eq!((fitted.map(Colour::written), changed), (own.map(String::from), Vec::new()), "set {at}");
        }
        assert_eq!(Brand::default().published().0, Branding::default());
    }

    #[test]
    fn what_can_not_be_used_is_named() {
        let brand = Brand {
            accent: Some("red".into()),
            dark: Some(Colours { ink: Some("#12".into()), ..Colours::default() }),
            corner: Some(40),
            font: Some("a;b".into()),
            logo: Some("javascript:x".into()),
            ..Brand::default()
        };
        let mut fields = Vec::new();
        brand.check(&mut |field, _, _| fields.push(field));
        assert_eq!(
            fields,
            ["branding.accent", "branding.dark.ink", "branding.corner", "branding.font", "branding.logo"]
        );
    }

    #[test]
    fn the_forms_own_colours_are_those_of_its_sheet() {
        let sheet = include_str!("../../../www/form/form.css");
        for (at, name) in ["accent", "ground", "ink", "caution"].iter().enumerate() {
            let line = format!("--{name}: light-dark({}, {});", OWN[0][at], OWN[1][at]);
            assert!(sheet.contains(&line), "{line}");
        }
        for (name, share) in
            [("soft: color-mix(in srgb, var(--ink)", SOFT), ("tint: color-mix(in srgb, var(--accent)", TINT)]
        {
            assert!(sheet.contains(&format!("--{name} {:.0}%", share * 100.0)), "{name}");
        }
    }
}
