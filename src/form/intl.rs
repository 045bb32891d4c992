//! Money, numbers and days as a language writes them, by the browser's own `Intl`. A native build, which has none, writes them plainly.

use model::units::Pence;

#[cfg(target_arch = "wasm32")]
mod here {
    use js_sys::{Date, JSON};
    use wasm_bindgen::prelude::*;

    #[wasm_bindgen]
    extern "C" {
        /// A number or a date as JavaScript has it.
        type Figure;
        #[wasm_bindgen(method, js_name = toLocaleString)]
        fn shown(this: &Figure, language: &str, options: &JsValue) -> String;
    }

    /// Shows a value by `Intl`, whose options are JSON.
    pub fn shown(value: JsValue, language: &str, options: &str) -> String {
        let options = JSON::parse(options).unwrap_or(JsValue::UNDEFINED);
        value.unchecked_into::<Figure>().shown(language, &options)
    }

    /// The JavaScript date of an ISO day; `None` where the text is no day.
    pub fn day(iso: &str) -> Option<JsValue> {
        let day = Date::new(&iso.into());
        (!day.get_time().is_nan()).then(|| day.into())
    }
}

/// A sum of money in the given language, without pence where it is whole pounds.
#[must_use]
pub fn money(language: &str, sum: Pence) -> String {
    #[cfg(target_arch = "wasm32")]
    {
        // The option `trailingZeroDisplay` would do this, but many phones' browsers are too old to know it.
        let options = if sum.0 % 100 == 0 {
            r#"{"style":"currency","currency":"GBP","currencyDisplay":"narrowSymbol","minimumFractionDigits":0}"#
        } else {
            r#"{"style":"currency","currency":"GBP","currencyDisplay":"narrowSymbol"}"#
        };
        here::shown((sum.0 as f64 / 100.0).into(), language, options)
    }
    #[cfg(not(target_arch = "wasm32"))]
    {
        let _ = language;
        sum.to_string()
    }
}

/// A number in the given language, from its digits with a decimal point; `None` where the text is anything else.
#[must_use]
pub fn number(language: &str, digits: &str) -> Option<String> {
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
        return None;
    }
    #[cfg(target_arch = "wasm32")]
    {
        // JavaScript parses it: Rust's own parser of decimal fractions would add 9 kB to the program.
        js_sys::JSON::parse(digits).ok().map(|number| here::shown(number, language, "{}"))
    }
    #[cfg(not(target_arch = "wasm32"))]
    {
        let _ = language;
        Some(digits.to_owned())
    }
}

/// A day written out in the given language, from its ISO form (`2026-11-26`); a text that is no day is returned unchanged.
#[must_use]
pub fn day(language: &str, iso: &str) -> String {
    #[cfg(target_arch = "wasm32")]
    {
        here::day(iso).map_or_else(
            || iso.to_owned(),
            |day| here::shown(day, language, r#"{"dateStyle":"long","timeZone":"UTC"}"#),
        )
    }
    #[cfg(not(target_arch = "wasm32"))]
    {
        let _ = language;
        iso.to_owned()
    }
}
