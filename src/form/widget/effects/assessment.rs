//! The one asynchronous hook around the engine: an answer is painted first, then it is worked out elsewhere; the newest wins.
//!
//! How the engine is reached (`www/form/assess.js`: a worker, or the page's thread) is not known here, nor what it does.

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

/// How long the engine may keep somebody waiting before the result says what it waits for, in milliseconds.
const PATIENCE: u32 = 6_000;

/// How long Send waits for an assessment that is being made; without it the service makes its own.
const SEND_WAITS: u32 = 4_000;

/// An assessment as the form has it.
#[derive(Debug, PartialEq)]
pub struct Made {
    /// What of it is shown.
    pub shown: ViewModel,
    /// The whole as JSON: it goes into the enquiry untouched.
    pub json: String,
}

/// What a result that is not there yet waits for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Waits {
    /// The config.
    Config,
    /// The engine, which works on it.
    #[default]
    Work,
    /// The engine, which could not be fetched yet.
    Signal,
    /// Nothing: the engine could make nothing of it.
    GivenUp,
}

/// What is known of the assessment.
#[derive(Clone, Default)]
pub struct Assessed {
    /// The last one made.
    pub latest: Option<Rc<Made>>,
    /// Whether it is of the answers that stand now.
    pub fresh: bool,
    /// Where it is not: what it waits for.
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

/// Works out the assessment of these answers after each change has been painted, what is shown of it in English or with these
/// words. Nothing is fetched for it before there is an answer.
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
            // At the next change: an assessment that nobody wants any more is not begun.
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

/// Hazards are asked first: once that is answered the form is being filled in.
fn is_begun(answers: &Answers) -> bool {
    !answers.hazard.signs.is_not_asked()
}

/// Assesses as soon as the engine can be had, for as long as it is still wanted; says meanwhile what it waits for.
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
        // It settles always.
        let _ = JsFuture::from(later()).await;
    }
    None
}

async fn is_true(promise: Promise) -> bool {
    JsFuture::from(promise).await.is_ok_and(|value| value.is_truthy())
}

/// What comes of asking the engine once.
enum Outcome {
    Made(Rc<Made>),
    /// It can't read the config or the answers, or gave up on them.
    Refused,
    /// It is not there.
    Away,
}

async fn once((answers, config, words): (&Answers, &FormPart, Option<&str>), within: Option<u32>) -> Outcome {
    let answers = serde_json::to_string(answers).expect("answers hold nothing that JSON lacks");
    let Ok(came) = JsFuture::from(assess(&answers, &config.text, words, within)).await else { return Outcome::Away };
    if let Some(why) = came.as_string() {
        super::report(&why);
        return Outcome::Refused;
    }
    let Ok(pair) = came.dyn_into::<Array>() else { return Outcome::Away };
    let text = |at| pair.get(at).as_string().unwrap_or_default();
    ViewModel::read(&text(1)).map_or(Outcome::Refused, |shown| Outcome::Made(Rc::new(Made { shown, json: text(0) })))
}

/// The assessment to send: the one there is if it is of these answers, else a new one if it comes soon.
pub async fn to_send(assessed: &Assessed, answers: &Answers, config: &FormPart) -> Option<Rc<Made>> {
    if assessed.fresh {
        return assessed.latest.clone();
    }
    if assessed.waits != Waits::Work {
        return None;
    }
    match once((answers, config, None), Some(SEND_WAITS)).await {
        Outcome::Made(made) => Some(made),
        Outcome::Refused | Outcome::Away => None,
    }
}
