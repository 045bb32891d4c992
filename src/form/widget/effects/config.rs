//! Fetches the installer's published config.

use super::http::ask;
use super::report;
use model::config::FormPart;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// The state of fetching the config.
#[derive(Clone, PartialEq)]
pub struct Fetched {
    /// The part of the config that the form itself reads, once it is there.
    pub config: Option<Rc<FormPart>>,
    /// Whether fetching failed.
    pub failed: bool,
    /// Starts fetching again.
    pub again: Callback<web_sys::Event>,
}

/// Fetches the config from `url` once, and again whenever [`Fetched::again`] is called.
#[hook]
pub fn use_config(url: &AttrValue) -> Fetched {
    let state = use_state(|| (None::<Rc<FormPart>>, false));
    let tries = use_state(|| 0_u32);
    {
        let state = state.setter();
        use_effect_with((url.clone(), *tries), move |(url, _)| {
            let url = url.clone();
            spawn_local(async move {
                let config = match ask("GET", &url, None).await {
                    Ok(answer) if answer.status == 200 => {
                        FormPart::read(answer.text).inspect_err(|why| report(&format!("{url}: {why}"))).ok()
                    }
                    _ => None,
                };
                let failed = config.is_none();
                state.set((config.map(Rc::new), failed));
            });
        });
    }
    let again = Callback::from({
        let (tries, state) = (tries.clone(), state.clone());
        move |_: web_sys::Event| {
            state.set((None, false));
            tries.set(*tries + 1);
        }
    });
    Fetched { config: state.0.clone(), failed: state.1, again }
}
