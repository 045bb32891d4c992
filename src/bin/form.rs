//! Start of the homeowner's form, and the engine lent to tests and to forms of one's own.

use presurvey::answers::Answers;
use presurvey::config::Config;
use wasm_bindgen::prelude::*;

fn main() {
    presurvey::widget::begin::mind_faults();
}

/// Assesses answers with a config; both and the result are JSON, written by the same code as natively.
///
/// # Errors
/// Says what of the answers or the config can't be read.
#[wasm_bindgen]
pub fn assess_json(answers: &str, config: &str) -> Result<String, JsError> {
    let answers: Answers = serde_json::from_str(answers)?;
    let config: Config = serde_json::from_str(config)?;
    Ok(serde_json::to_string(&presurvey::assess(&answers, &config))?)
}
