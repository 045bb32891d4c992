//! Runs a job once the answer just given has been painted on the screen.

use gloo::timers::callback::Timeout;
use gloo::utils::window;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;

/// How many milliseconds are waited on a hidden page, which paints nothing and gets no animation frame.
const WITHOUT_A_FRAME: u32 = 300;

type Job = Rc<RefCell<Option<Box<dyn FnOnce()>>>>;

/// A job that waits for the next paint; dropping it cancels the job.
pub struct AfterPaint {
    job: Job,
    frame: Option<(i32, Closure<dyn FnMut()>)>,
    _without: Timeout,
}

/// Runs `work` in a task after the next painted frame; on a hidden page, after a short wait.
pub fn after_paint(work: impl FnOnce() + 'static) -> AfterPaint {
    let job: Job = Rc::new(RefCell::new(Some(Box::new(work))));
    let behind = Rc::clone(&job);
    let on_frame = Closure::new(move || {
        let job = Rc::clone(&behind);
        // The frame's callback runs before its paint; the task behind it runs after.
        Timeout::new(0, move || run(&job)).forget();
    });
    let frame = window().request_animation_frame(on_frame.as_ref().unchecked_ref()).ok().map(|id| (id, on_frame));
    let late = Rc::clone(&job);
    AfterPaint { job, frame, _without: Timeout::new(WITHOUT_A_FRAME, move || run(&late)) }
}

fn run(job: &Job) {
    let work = job.borrow_mut().take();
    if let Some(work) = work {
        work();
    }
}

impl Drop for AfterPaint {
    fn drop(&mut self) {
        self.job.borrow_mut().take();
        if let Some((id, _)) = &self.frame {
            // A frame that has passed can't be called off; its job is gone already.
            let _ = window().cancel_animation_frame(*id);
        }
    }
}
