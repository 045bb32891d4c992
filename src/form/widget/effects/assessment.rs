//! The hook that has answers assessed by the engine. A new answer is painted first; then the assessment is made outside the form's program,
//! and only that of the newest answers is used.
//!
//! Where the engine runs (in a worker, or on the page's thread) is the affair of `www/form/assess.js`.

use super::ByAddress;
use super::after_paint::after_paint;
use gloo::timers::callback::Timeout;
use js_sys::{Array, Promise};
use model::answers::Answers;
use model::config::FormPart;
use record::ViewModel;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use yew::prelude::*;

#[wasm_bindgen(raw_module = "./assess.js")]
extern "C" {
    fn ready() -> Promise;
    fn later() -> Promise;
    fn assess(answers: &str, config: &str, words: Option<&str>, within: Option<u32>) -> Promise;
}

/// How long the result waits for the engine before it says that it is still being fetched, in milliseconds.
const PATIENCE: u32 = 6_000;

/// How long sending waits for an assessment that is being made, in milliseconds; without it the service makes its own.
const SEND_WAITS: u32 = 4_000;

/// An assessment as the form receives it.
#[derive(Debug, PartialEq)]
pub struct Made {
    /// The view model.
    pub shown: ViewModel,
    /// The whole assessment as JSON, which goes into the enquiry unchanged.
    pub json: String,
}

/// Why there is no result for the present answers yet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Waits {
    /// The config has not been fetched.
    Config,
    /// The engine is working on it.
    #[default]
    Work,
    /// The engine could not be fetched yet.
    Signal,
    /// There will be none: the engine could not read the answers or the config.
    GivenUp,
}

/// The state of the assessment.
#[derive(Clone, Default)]
pub struct Assessed {
    /// The last assessment that was made.
    pub latest: Option<Rc<Made>>,
    /// Whether it is of the present answers.
    pub fresh: bool,
    /// If it is not: what the new one waits for.
    pub waits: Waits,
}

impl PartialEq for Assessed {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.latest, &other.latest) {
            (Some(one), Some(two)) => Rc::ptr_eq(one, two),
            (None, None) => true,
            _ => false,
        };
        same && self.fresh == other.fresh && self.waits == other.waits
    }
}

/// Has the answers assessed after each change has been painted. `words` is the engine's part of a language's wording, `None` for English.
/// The engine is not fetched before the first question has been answered.
#[hook]
pub fn use_assessment(answers: &Rc<Answers>, config: &Option<Rc<FormPart>>, words: Option<&'static str>) -> Assessed {
    let made = use_state(|| None::<(ByAddress<Answers>, ByAddress<FormPart>, Rc<Made>)>);
    let waits = use_state(Waits::default);
    let wanted = (ByAddress(Rc::clone(answers)), config.clone().map(ByAddress));
    {
        let (made, waits) = (made.setter(), waits.setter());
        use_effect_with(wanted.clone(), move |(answers, config)| {
            let still = Rc::new(Cell::new(true));
            let work = config.clone().filter(|_| is_begun(&answers.0)).map(|config| {
                let (answers, still) = (answers.clone(), Rc::clone(&still));
                after_paint(move || {
                    spawn_local(async move {
                        if let Some(new) = persistently((&answers.0, &config.0, words), &still, &waits).await {
                            made.set(Some((answers, config, new)));
                        }
                    });
                })
            });
            // Runs at the next change: an assessment of superseded answers is not begun, or its outcome not used.
            move || {
                still.set(false);
                drop(work);
            }
        });
    }
    let fresh = matches!(&*made, Some((of, with, _)) if *of == wanted.0 && Some(with) == wanted.1.as_ref());
    let waits = if config.is_none() { Waits::Config } else { *waits };
    Assessed { latest: made.as_ref().map(|(.., made)| Rc::clone(made)), fresh, waits }
}

/// Whether the form is being filled in: hazards are asked first, and that question was answered.
fn is_begun(answers: &Answers) -> bool {
    !answers.hazard.signs.is_not_asked()
}

/// Assesses as soon as the engine is available, trying again while `still` is true; reports through `waits` what it waits for.
async fn persistently(
    work: (&Answers, &FormPart, Option<&str>),
    still: &Rc<Cell<bool>>,
    waits: &UseStateSetter<Waits>,
) -> Option<Rc<Made>> {
    let say = |what| {
        if still.get() {
            waits.set(what);
        }
    };
    let _says = Timeout::new(PATIENCE, {
        let (still, waits) = (Rc::clone(still), waits.clone());
        move || {
            if still.get() {
                waits.set(Waits::Signal);
            }
        }
    });
    while still.get() {
        if is_true(ready()).await && still.get() {
            match once(work, None).await {
                Outcome::Made(made) => {
                    say(Waits::Work);
                    return Some(made).filter(|_| still.get());
                }
                Outcome::Refused => {
                    say(Waits::GivenUp);
                    return None;
                }
                Outcome::Away => {}
            }
        }
        say(Waits::Signal);
        // This promise never rejects.
        let _ = JsFuture::from(later()).await;
    }
    None
}

async fn is_true(promise: Promise) -> bool {
    JsFuture::from(promise).await.is_ok_and(|value| value.is_truthy())
}

/// The outcome of one call of the engine.
enum Outcome {
    Made(Rc<Made>),
    /// The engine can't read the config or the answers, or failed on them.
    Refused,
    /// The engine is not available, or took too long.
    Away,
}

async fn once((answers, config, words): (&Answers, &FormPart, Option<&str>), within: Option<u32>) -> Outcome {
    let answers = serde_json::to_string(answers).expect("answers always fit into JSON");
    let Ok(came) = JsFuture::from(assess(&answers, &config.text, words, within)).await else { return Outcome::Away };
    if let Some(why) = came.as_string() {
        super::report(&why);
        return Outcome::Refused;
    }
    let Ok(pair) = came.dyn_into::<Array>() else { return Outcome::Away };
    let text = |at| pair.get(at).as_string().unwrap_or_default();
    ViewModel::read(&text(1)).map_or(Outcome::Refused, |shown| Outcome::Made(Rc::new(Made { shown, json: text(0) })))
}

/// The assessment to send with an enquiry: the latest if it is of these answers, else a new one if the engine makes it soon enough; else
/// `None`.
pub async fn to_send(assessed: &Assessed, answers: &Answers, config: &FormPart) -> Option<Rc<Made>> {
    if assessed.fresh {
        return assessed.latest.clone();
    }
    if assessed.waits != Waits::Work {
        return None;
    }
    in_english(answers, config).await
}

/// An assessment of these answers, made anew and worded in English, if the engine makes it soon enough; else `None`.
pub async fn in_english(answers: &Answers, config: &FormPart) -> Option<Rc<Made>> {
    match once((answers, config, None), Some(SEND_WAITS)).await {
        Outcome::Made(made) => Some(made),
        Outcome::Refused | Outcome::Away => None,
    }
}
