//! The whole form: state in the middle, effects around it, one page at a time shown.

use crate::widget::effects::{
    Assessed, Blobs, ByAddress, Letter, Made, make_secrets, send, take, tell_result, tell_sent, tell_step, today,
    use_assessment, use_config, use_saved_form,
};
use crate::widget::el::{El, button, el, paragraph, sign};
use crate::widget::emergency::{Advice, advice};
use crate::widget::parts::{View, contact_page, result_page, screen_page, sent_page};
use crate::widget::speech::Speech;
use crate::widget::state::{Action, Form, KeepTrouble, PhotoTrouble, SendTrouble, Sending};
use crate::widget::step::Step;
use crate::wording::form as words;
use std::cell::RefCell;
use std::mem::replace;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, HtmlElement};
use yew::prelude::*;

/// The most photos an enquiry may hold; the record's own bound is higher.
const MOST_PHOTOS: usize = 12;

/// Where the form's last state can be read from outside its views.
pub type Last = Rc<RefCell<Rc<Form>>>;

/// What the host page says by the element's attributes.
#[derive(Properties, PartialEq)]
pub struct AppProps {
    /// Where the config is.
    pub config: AttrValue,
    /// Where enquiries go.
    pub submit: AttrValue,
    /// The installer's name, for as long as the config is not there.
    pub installer: AttrValue,
    /// The installer's telephone, likewise.
    pub telephone: AttrValue,
    /// The draft that it goes on from.
    pub lines: Option<AttrValue>,
    /// Whether the draft's own step was left already.
    pub leaves: bool,
    /// Where its last state is left.
    pub last: Last,
    /// The element in the host page.
    pub host: HtmlElement,
}

/// The form's state as the drawing library holds it: unchanged, it stays the same object and nothing is drawn again.
struct Held(Rc<Form>);

impl Reducible for Held {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let next = Rc::clone(&self.0).reduce(action);
        if Rc::ptr_eq(&next, &self.0) { self } else { Rc::new(Self(next)) }
    }
}

/// The form.
#[component]
pub fn App(props: &AppProps) -> Html {
    let held = use_reducer(|| Held(Rc::new(Form::begun(props.lines.as_deref(), props.leaves))));
    let form = Rc::clone(&held.0);
    props.last.replace(Rc::clone(&form));
    let done = {
        let dispatcher = held.dispatcher();
        use_callback((), move |action: Action, ()| dispatcher.dispatch(action))
    };
    let fetched = use_config(&props.config);
    let blobs: Blobs = (*use_memo((), |()| Blobs::default())).clone();
    use_saved_form(&props.config, (&props.lines, props.leaves), &form, &blobs, &done);
    let assessed = use_assessment(&form.answers, &fetched.config);
    let speech = Speech::new(fetched.config.clone(), props.installer.clone(), props.telephone.clone());
    let root = use_node_ref();

    let taken = {
        let (done, blobs) = (done.clone(), blobs.clone());
        let full = form.photos.len() + form.photos_under_way >= MOST_PHOTOS;
        Callback::from(move |(place, file)| {
            let (done, blobs) = (done.clone(), blobs.clone());
            if full {
                done.emit(Action::PhotoRefused(place, PhotoTrouble::TooMany));
                return;
            }
            done.emit(Action::PhotoTaken);
            spawn_local(async move {
                match take(file, place).await {
                    Ok((photo, blob)) => {
                        blobs.borrow_mut().push((photo.sha256.clone(), blob));
                        done.emit(Action::PhotoKept(photo));
                    }
                    Err(trouble) => done.emit(Action::PhotoRefused(place, trouble)),
                }
            });
        })
    };
    let send_it = {
        let (form, config, assessed, done) = (form.clone(), fetched.config.clone(), assessed.clone(), done.clone());
        let url = props.submit.to_string();
        Callback::from(move |()| {
            let (Some(config), Some(secrets)) = (config.clone(), form.secrets.clone()) else {
                done.emit(Action::SendingCame(Sending::Failed(SendTrouble::NoAnswer)));
                return;
            };
            if matches!(form.sending, Sending::UnderWay(..)) {
                return;
            }
            let (form, assessed, url, blobs) = (form.clone(), assessed.clone(), url.clone(), blobs.clone());
            let letter = Letter { form, secrets, assessed, config, url, blobs };
            spawn_local(send(letter, done.clone()));
        })
    };
    let view = View { form: &form, config: fetched.config.as_deref(), speech: &speech, done: &done };
    use_surroundings(&view, &assessed, &props.host, &root);
    let page = match form.step {
        Step::Screen(_) | Step::Question(_) => screen_page(&view, &taken),
        Step::Result => result_page(&view, &assessed),
        Step::Contact => contact_page(&view, &send_it),
        Step::Sent => sent_page(&view),
    };
    let failed = fetched.failed.then(|| {
        let again = fetched.again.clone();
        el("div")
            .class("notice")
            .set("role", "alert")
            .with(el("p").text(speech.say(words::TROUBLE_LOADING)))
            .with(button("quiet", speech.say(words::TROUBLE_LOADING_AGAIN), again))
    });
    let all = whole(&view, failed, page).map(El::html);
    html! {
        <div class="form" ref={root}>
            { for all }
        </div>
    }
}

/// All that is shown, from top to bottom.
pub(super) fn whole(view: &View, failed: Option<El>, page: El) -> [El; 3] {
    let not_kept = view.form.keep_trouble.map(|trouble| {
        let text = match trouble {
            KeepTrouble::Refused => words::KEEPS_NOTHING,
            KeepTrouble::Full => words::KEEPS_NO_MORE,
            KeepTrouble::PhotosRefused => words::KEEPS_NO_PHOTOS,
            KeepTrouble::PhotosFull => words::KEEPS_NO_MORE_PHOTOS,
        };
        paragraph("notice", view.speech.say(text)).set("role", "status")
    });
    [head(view), el("div").perhaps(not_kept).perhaps(failed), page]
}

/// Back, where one is, and what this page is about.
fn head(view: &View) -> El {
    let View { form, speech, .. } = view;
    let back = form.step.back(&form.answers).map(|_| {
        el("button")
            .set("type", "button")
            .class("back")
            .press(view.on_press(|| Action::WentBack))
            .with(sign("arrow", "0 0 16 16", "M10 2L4 8l6 6"))
            .text(speech.say(words::BACK))
    });
    let (place, title) = match form.step {
        Step::Screen(screen) => (Some(screen.place), speech.made(&["screen-", screen.id])),
        Step::Question(question) => (Some(question.place), speech.say(words::NARROW_TITLE)),
        Step::Result => (None, speech.say(words::RESULT_TITLE)),
        Step::Contact => (None, speech.say(words::CONTACT_TITLE)),
        Step::Sent => (None, speech.say(words::SENT_TITLE)),
    };
    // How many steps there are is not known before the hazard question is answered.
    let progress = form
        .progress()
        .filter(|_| !form.answers.hazard.signs.is_not_asked() && !form.answers.hazard.is_noticed())
        .map(|(here, all)| {
            let places = [("here", &*here.to_string()), ("all", &*all.to_string())];
            el("span").text(speech.fill(words::PROGRESS, &places))
        });
    let place = place.map(|place| {
        el("p").class("where").with(el("span").text(speech.made(&["place-", place.word()]))).perhaps(progress)
    });
    el("header").class("head").perhaps(back).perhaps(place).with(el("h2").set("tabindex", "-1").text(title))
}

/// What the surroundings were told last.
#[derive(Default)]
struct Told {
    dated: bool,
    step: Option<(&'static str, &'static str)>,
    complaints: u32,
    advice: Vec<Advice>,
    result: Option<ByAddress<Made>>,
    accent: Option<String>,
}

/// The date, the secrets, the focus, the accent, and what the page around hears: looked at after each drawing,
/// done where something has changed.
#[hook]
fn use_surroundings(view: &View<'_>, assessed: &Assessed, host: &HtmlElement, root: &NodeRef) {
    let told = use_mut_ref(Told::default);
    let (form, done) = (Rc::clone(view.form), view.done.clone());
    let (host, assessed, root) = (host.clone(), assessed.clone(), root.clone());
    let accent = view.config.and_then(|config| config.branding.accent.clone());
    use_effect(move || {
        let mut told = told.borrow_mut();
        if !replace(&mut told.dated, true) {
            today().into_iter().for_each(|date| done.emit(Action::TodayIs(date)));
        }
        if accent.is_some() && told.accent != accent {
            if let (Some(accent), Some(root)) = (&accent, root.cast::<HtmlElement>()) {
                set_accent(&root, accent);
            }
            told.accent = accent;
        }
        let name = form.step.name();
        if told.step != Some(name) {
            // The form begins because somebody pressed a button of the screen before: the first one shown is a new one.
            focus(&root, "h2");
            // A new screen begins at the top of the form, past whatever the page around it has above.
            host.scroll_into_view();
            // What was sent before is not sent now.
            if name.0 == "sent" && told.step.is_some_and(|(kind, _)| kind == "contact") {
                tell_sent(&host);
            }
            tell_step(&host, name);
            told.step = Some(name);
        }
        if form.step == Step::Contact && form.secrets.is_none() {
            make_secrets().into_iter().for_each(|secrets| done.emit(Action::SecretsMade(secrets)));
        }
        if replace(&mut told.complaints, form.complaints) < form.complaints {
            focus(&root, ".question:has(.trouble) input, [aria-invalid=true]");
        }
        // Nobody should have to look for the advice: it comes into view when it comes or changes.
        let advice = advice(&form.answers);
        if advice != told.advice {
            if form.step == Step::first() {
                find(&root, ".emergency").iter().for_each(Element::scroll_into_view);
            }
            told.advice = advice;
        }
        let result = assessed.latest.filter(|_| assessed.fresh && form.step == Step::Result).map(ByAddress);
        if result.is_some() && told.result != result {
            result.iter().for_each(|result| tell_result(&host, &result.0.shown));
            told.result = result;
        }
    });
}

/// Colours the form with an installer's accent; anything but a plain CSS colour is left out.
fn set_accent(root: &HtmlElement, colour: &str) {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"#(),.% -/".contains(&byte);
    if colour.len() <= 60 && colour.bytes().all(plain) {
        // Where it is refused the form keeps its own.
        let _ = root.style().set_property("--presurvey-accent", colour);
    }
}

fn find(root: &NodeRef, what: &str) -> Option<Element> {
    root.cast::<Element>().and_then(|root| root.query_selector(what).ok().flatten())
}

fn focus(root: &NodeRef, what: &str) {
    if let Some(element) = find(root, what) {
        // Where focus is refused there is nothing better to do.
        let _ = wasm_bindgen::JsCast::unchecked_into::<HtmlElement>(element).focus();
    }
}
