//! The engine as a WebAssembly program of its own, without a page: for the form's worker, for tests, and for forms that others build.

use engine::assessment::{Assessment, what_ifs};
use model::answers::Answers;
use model::config::Config;
use record::ViewModel;
use serde::Deserialize;
use wasm_bindgen::prelude::*;
use wording::Language;

fn main() {
    std::panic::set_hook(Box::new(|fault| report(&fault.to_string())));
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = console, js_name = error)]
    fn report(text: &str);
}

/// Assesses answers with a config: both are JSON, and so is the assessment that is returned. The native program runs the same code.
///
/// # Errors
/// Says what of the answers or the config can't be read, and where.
#[wasm_bindgen]
pub fn assess_json(answers: &str, config: &str) -> Result<String, JsError> {
    let (assessment, ..) = assessed(answers, config)?;
    Ok(serde_json::to_string(&assessment)?)
}

/// Assesses answers for the form: returns the assessment as JSON, which goes into the enquiry unchanged, and the view model as text. It is
/// in English or, if given the engine's part of another language's wording, in that language.
///
/// # Errors
/// As [`assess_json`].
#[wasm_bindgen]
pub fn assess_shown(answers: &str, config: &str, words: Option<String>) -> Result<Vec<String>, JsError> {
    let (assessment, answers, config) = assessed(answers, config)?;
    let futures = what_ifs(&answers, &config, &assessment);
    let language = words.as_deref().and_then(Language::of_engine);
    let language = language.as_ref();
    let shown = ViewModel::said_in(language, &assessment, &config).beside_in(language, &assessment, &futures, &config);
    Ok(vec![serde_json::to_string(&assessment)?, shown.write()])
}

fn assessed(answers: &str, config: &str) -> Result<(Assessment, Answers, Config), JsError> {
    let answers: Answers = read(answers, "answers")?;
    let config: Config = read(config, "config")?;
    Ok((engine::assess(&answers, &config), answers, config))
}

/// Reads answers or config from JSON; an error names which of them (`what`), the path in it, what stands there and what is allowed.
fn read<'a, T: Deserialize<'a>>(json: &'a str, what: &str) -> Result<T, JsError> {
    let mut reader = serde_json::Deserializer::from_str(json);
    let refused = |path: &str, why: &dyn core::fmt::Display| JsError::new(&format!("{what}, `{path}`: {why}"));
    let value = serde_path_to_error::deserialize(&mut reader)
        .map_err(|error| refused(&error.path().to_string(), error.inner()))?;
    reader.end().map_err(|error| refused(".", &error))?;
    Ok(value)
}
