//! The engine for forms that others build: takes answers and config as JavaScript objects and returns the assessment as one.
//!
//! Its values are those that `presurvey assess` prints. The form's own engine (`engine`) passes text instead, which goes into the enquiry
//! unchanged.

mod reading;

use model::answers::Answers;
use model::config::Config;
use reading::Value;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

fn main() {
    std::panic::set_hook(Box::new(|fault| report(&fault.to_string())));
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = console, js_name = error)]
    fn report(text: &str);
}

/// Assesses answers with a config, all of them objects as JSON would hold them.
///
/// # Errors
/// Says what of the answers or the config can't be read, and where.
#[wasm_bindgen(skip_typescript)]
pub fn assess(answers: JsValue, config: JsValue) -> Result<JsValue, JsError> {
    let answers: Answers = read(answers, "answers")?;
    let config: Config = read(config, "config")?;
    let assessment = engine::assess(&answers, &config);
    Ok(assessment.serialize(&serde_wasm_bindgen::Serializer::json_compatible())?)
}

/// Reads answers or config; an error names which of them (`what`), the path in it, what stands there and what is allowed.
fn read<'de, T: Deserialize<'de>>(value: JsValue, what: &str) -> Result<T, JsError> {
    serde_path_to_error::deserialize(Value(value)).map_err(|error| {
        let path = error.path().to_string();
        JsError::new(&format!("{what}, `{path}`: {}", reading::told(error.into_inner())))
    })
}
