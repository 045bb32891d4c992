//! The one asynchronous hook around the engine: an answer is painted first, then it is worked out; the newest wins.

use super::ByAddress;
use super::after_paint::after_paint;
use crate::answers::Answers;
use crate::assessment::{Assessment, assess};
use crate::config::Config;
use std::rc::Rc;
use yew::prelude::*;

/// What is known of the assessment.
#[derive(Clone, Default)]
pub struct Assessed {
    /// The last one made.
    pub latest: Option<Rc<Assessment>>,
    /// Whether it is of the answers that stand now.
    pub fresh: bool,
    /// Whether the config it needs is still on its way.
    pub waiting: bool,
}

impl PartialEq for Assessed {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.latest, &other.latest) {
            (Some(one), Some(two)) => Rc::ptr_eq(one, two),
            (None, None) => true,
            _ => false,
        };
        same && self.fresh == other.fresh && self.waiting == other.waiting
    }
}

/// Works out the assessment of these answers after each change has been painted.
#[hook]
pub fn use_assessment(answers: &Rc<Answers>, config: &Option<Rc<Config>>) -> Assessed {
    let made = use_state(|| None::<(ByAddress<Answers>, ByAddress<Config>, Rc<Assessment>)>);
    let wanted = (ByAddress(Rc::clone(answers)), config.clone().map(ByAddress));
    {
        let made = made.setter();
        use_effect_with(wanted.clone(), move |(answers, config)| {
            let waits = config.clone().map(|config| {
                let answers = answers.clone();
                after_paint(move || {
                    let assessment = Rc::new(assess(&answers.0, &config.0));
                    made.set(Some((answers, config, assessment)));
                })
            });
            // Dropped at the next change: an assessment that nobody wants any more is not begun.
            move || drop(waits)
        });
    }
    let fresh = matches!(&*made, Some((of, with, _)) if *of == wanted.0 && Some(with) == wanted.1.as_ref());
    Assessed { latest: made.as_ref().map(|(.., assessment)| Rc::clone(assessment)), fresh, waiting: config.is_none() }
}
