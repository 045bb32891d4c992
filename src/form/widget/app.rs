//! The form as one Yew component: it holds the state, runs the effects, and draws the page of the present step.

use crate::widget::draft::Draft;
use crate::widget::effects::{
    Assessed, Blobs, ByAddress, Fetched, Letter, Made, Runs, draw_plan, make_secrets, offer_ways, pause, send,
    show_link, show_move, take, tell_failed, tell_result, tell_sent, tell_step, today, use_assessment, use_config,
    use_saved_form, use_sheet, use_word_to_look,
};
use crate::widget::el::{El, button, el, paragraph, sign};
use crate::widget::emergency::{Advice, advice};
use crate::widget::parts::{View, contact_page, link_page, result_page, screen_page, sent_page};
use crate::widget::screens;
use crate::widget::speech::Speech;
use crate::widget::state::{Action, Form, KeepTrouble, PhotoTrouble, Sending};
use crate::widget::step::Step;
use model::config::{Branding, is_picture_address};
use record::enquiry::PhotoPlace;
use record::enquiry::events::{Failure, StepKind};
use std::cell::RefCell;
use std::mem::replace;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, File, HtmlElement};
use wording::{Language, form as words};
use yew::prelude::*;

/// The most photos that the form adds to an enquiry; the record's own bound is higher.
const MOST_PHOTOS: usize = 12;

/// A cell with the form's latest state, for code outside its views.
pub type Last = Rc<RefCell<Rc<Form>>>;

/// How long an enquiry that waits to be sent waits for the config before the config is fetched again, in seconds.
const CONFIG_WAITS: f64 = 20.0;

/// What the form is mounted with: the attributes of its element, and what the page's script passes on.
#[derive(Properties, PartialEq)]
pub struct AppProps {
    /// The address of the config.
    pub config: AttrValue,
    /// The address that enquiries are sent to; empty where there is none.
    pub submit: AttrValue,
    /// Whether they are posted there as a plain web form.
    pub plain: bool,
    /// The installer's name, if the page gives it; else it is empty and the config's is used.
    pub installer: AttrValue,
    /// The installer's telephone number, likewise.
    pub telephone: AttrValue,
    /// The form's language, if that is not English.
    pub language: Option<&'static Language<'static>>,
    /// The draft that it continues from.
    pub lines: Option<AttrValue>,
    /// Whether it starts at the step after the draft's own.
    pub leaves: bool,
    /// The cell that its latest state is put in.
    pub last: Last,
    /// The element in the host page.
    pub host: HtmlElement,
}

/// The form's state as Yew's reducer holds it: an action that changes nothing returns the same object, and nothing is drawn again.
///
/// Each new state is also put into the cell beside it at once, for code that can't wait until it is drawn.
struct Held(Rc<Form>, Last);

impl Reducible for Held {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        let next = Rc::clone(&self.0).reduce(action);
        if Rc::ptr_eq(&next, &self.0) {
            return self;
        }
        self.1.replace(Rc::clone(&next));
        Rc::new(Self(next, Rc::clone(&self.1)))
    }
}

/// The form.
#[component]
pub fn App(props: &AppProps) -> Html {
    let held = use_reducer(|| {
        let form = Rc::new(Form::begun(props.lines.as_deref(), props.leaves));
        props.last.replace(Rc::clone(&form));
        Held(form, Rc::clone(&props.last))
    });
    let form = Rc::clone(&held.0);
    let took = {
        let dispatcher = held.dispatcher();
        use_callback((), move |action: Action, ()| dispatcher.dispatch(action))
    };
    let fetched = use_config(&props.config);
    let blobs: Blobs = (*use_memo((), |()| Blobs::default())).clone();
    let days = fetched.config.as_ref().map(|config| config.draft_days);
    let under = kept_under(&props.config, &form);
    let (keeping, ready) = use_saved_form(&under, (&props.lines, props.leaves), days, &form, &blobs, &took);
    // Each action is stored at once, before the new state is drawn: the page may be gone by then.
    let done = use_callback((took, keeping), {
        let last = Rc::clone(&props.last);
        move |action: Action, (took, keeping)| {
            took.emit(action);
            keeping.emit(Rc::clone(&last.borrow()));
        }
    });
    let assessed = use_assessment(&form.answers, &fetched.config, props.language.map(|language| language.for_engine));
    let speech =
        Speech::new(fetched.config.clone(), props.installer.clone(), props.telephone.clone()).spoken(props.language);
    let sheet = use_sheet(form.step, speech.language());
    let root = use_node_ref();

    let taken = photo_taker(&form, &blobs, &done);
    let letter = Letter {
        form: form.clone(),
        assessed: assessed.clone(),
        config: fetched.config.clone(),
        speech: speech.clone(),
        url: props.submit.to_string(),
        older: false,
        plain: props.plain,
        blobs: blobs.clone(),
    };
    use_sending(&letter, ready, &fetched, &done);
    use_word_to_look(&form, &props.submit, &done);
    use_late(&letter, &props.host, &root);
    let view = View { form: &form, config: fetched.config.as_deref(), speech: &speech, sheet: &sheet, done: &done };
    use_surroundings(&view, &assessed, (&props.host, !props.plain), &root);
    let page = match form.step {
        Step::Screen(_) | Step::Question(_) | Step::Found(_) => {
            screen_page(&view, &taken, assessed.latest.as_ref().map(|made| &made.shown))
        }
        Step::Result => result_page(&view, &assessed),
        Step::Contact => contact_page(&view),
        Step::Sent => sent_page(&view),
        Step::Link => link_page(&view, &taken),
    };
    let page = with_move(&view, page);
    let failed = fetched.failed.then(|| not_loaded(&speech, &fetched));
    let all = whole(&view, failed, page).map(El::html);
    html! {
        <div class="form" lang={speech.language()} dir={speech.direction()} ref={root}>
            { for all }
        </div>
    }
}

/// The callback for a chosen photo of a place: it makes the photo smaller and keeps it, or reports why not.
fn photo_taker(form: &Form, blobs: &Blobs, done: &Callback<Action>) -> Callback<(PhotoPlace, File)> {
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
}

/// The notice that the config could not be fetched, with a button to try again.
fn not_loaded(speech: &Speech, fetched: &Fetched) -> El {
    el("div").class("notice").set("role", "alert").with(el("p").text(speech.say(words::TROUBLE_LOADING))).with(button(
        "quiet",
        speech.say(words::TROUBLE_LOADING_AGAIN),
        fetched.again.clone(),
    ))
}

/// The name under which the device stores the form: additions by a link are stored apart from a form that was started here.
fn kept_under(config: &AttrValue, form: &Form) -> AttrValue {
    match &form.link {
        Some(link) => [config, "#", &link.key].concat().into(),
        None => config.clone(),
    }
}

/// All that is shown, from top to bottom: the head, the notices and the page. Used for prerendering too.
pub(super) fn whole(view: &View, failed: Option<El>, page: El) -> [El; 3] {
    // After sending there is nothing left to lose.
    let not_kept = view.form.keep_trouble.filter(|_| view.form.step != Step::Sent).map(|trouble| {
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

/// Sends the enquiry while it is queued, in one run at a time, for as long as the form is mounted. `ready` says whether the draft's photos
/// have been read from the device.
#[hook]
fn use_sending(letter: &Letter, ready: bool, fetched: &Fetched, done: &Callback<Action>) {
    let runs = (*use_memo((), |()| Runs::default())).clone();
    let queued = letter.form.queued;
    // The record names the installer, so it needs the config; additions and enquiries without an address do not.
    let complete = letter.form.adds_to().is_some() || letter.url.is_empty() || letter.config.is_some();
    let (letter, done) = (letter.clone(), done.clone());
    use_effect_with(queued && ready && complete, move |goes| {
        if *goes {
            spawn_local(send(letter, runs.clone(), done));
        }
        move || {
            runs.end();
        }
    });
    let again = fetched.again.clone();
    use_effect_with(queued && fetched.failed, move |wants_config| {
        if *wants_config {
            spawn_local(async move {
                pause(CONFIG_WAITS, true).await;
                Event::new("again").into_iter().for_each(|event| again.emit(event));
            });
        }
    });
}

/// Has the scripts that are loaded on demand draw the plans, the ways to share and the links, again whenever the form has changed.
#[hook]
fn use_late(letter: &Letter, host: &HtmlElement, root: &NodeRef) {
    let (letter, host, root) = (letter.clone(), host.clone(), root.clone());
    let config = letter.config.clone().map(ByAddress);
    use_effect_with((ByAddress(letter.form.clone()), config), move |(form, config)| {
        let form = &form.0;
        if let (Some(place), Some(ByAddress(config))) = (find(&root, "[data-draws]"), config) {
            let answers = serde_json::to_string(&**form.answers).expect("answers always fit into JSON");
            draw_plan(place, &config.text, &answers, letter.speech.language());
        }
        if let Some(place) = find(&root, ".ways") {
            offer_ways(place, host.clone(), letter);
        }
        if let Some(place) = find(&root, ".moving") {
            show_move(place, &host, &Draft::of(form).moving());
        }
        if let (Some(place), Some(link)) = (find(&root, ".adding .link"), form.adds_to()) {
            let deletion = form.secrets.as_ref().map_or("", |secrets| &secrets.deletion);
            show_link(place, &host, &["presurvey-link=", &link.key, ".", &link.secret].concat(), deletion);
        }
    });
}

/// A page with the installer's telephone number and the link to another device under it, except where there is nothing to carry there.
fn with_move(view: &View, page: El) -> El {
    let View { form, speech, .. } = view;
    // Beside a danger nothing is shown but what to do.
    let danger =
        form.answers.hazard.is_noticed() && form.step.questions(&form.answers).iter().any(|one| one.id == "hazard");
    if danger || form.step == Step::first() || matches!(form.step, Step::Sent | Step::Link) {
        return page;
    }
    let stuck = (!speech.telephone.is_empty()).then(|| {
        let href = ["tel:", &speech.telephone.replace(' ', "")].concat();
        let ring = el("a").class("quiet").attr("href", href.into()).text(speech.telephone.clone());
        paragraph("stuck", speech.say(words::STUCK)).text(" ".into()).with(ring)
    });
    let title = button("quiet", speech.say(words::MOVE_TITLE), view.on_press(|| Action::MoveAsked));
    let title = title.set("aria-expanded", if form.moves { "true" } else { "false" });
    let shown = form.moves.then(|| el("div").class("moving"));
    el("div")
        .key(form.step.name().1)
        .with(page)
        .with(el("aside").class("move").perhaps(stuck).with(title).perhaps(shown))
}

/// The head of a page: the logo, "back", the place, the progress and the title.
fn head(view: &View) -> El {
    let View { form, speech, .. } = view;
    let back = form.step.back(&form.answers, &form.navigation).map(|_| {
        el("button")
            .set("type", "button")
            .class("back")
            .press(view.on_press(|| Action::WentBack))
            .with(sign("arrow", "0 0 16 16", "M10 2L4 8l6 6"))
            .text(speech.say(words::BACK))
    });
    let (place, title) = match form.step {
        Step::Screen(screen) => (Some(screen.place), speech.made(&["screen-", screen.id])),
        Step::Question(question) => {
            let of = question.screen.and_then(|on| screens::screen(on.screen));
            let title = of.map_or_else(|| speech.say(words::NARROW_TITLE), |of| speech.made(&["screen-", of.id]));
            (Some(question.place), title)
        }
        Step::Found(place) => (Some(place), speech.say(words::FOUND_TITLE)),
        Step::Result => (None, speech.say(words::RESULT_TITLE)),
        Step::Contact => (None, speech.say(words::CONTACT_TITLE)),
        Step::Sent => (None, speech.say(words::SENT_TITLE)),
        Step::Link => (None, speech.say(words::ADD_TITLE)),
    };
    // The number of screens is not known before the hazard question is answered, and shown on its screen it would push the question down.
    let progress =
        form.progress().filter(|_| form.step != Step::first() && !form.answers.hazard.is_noticed()).map(|numbers| {
            let [here, all, minutes] = numbers.map(|number| number.to_string());
            let key = if numbers[2] > 1 { words::PROGRESS } else { words::PROGRESS_LAST };
            let places = [("here", &*here), ("all", &*all), ("minutes", &*minutes)];
            el("span").text(speech.fill(key, &places))
        });
    let place = place.map(|place| {
        // The key makes it a new element on each screen; a text that changes in the same element would count as layout shift.
        el("p")
            .class("where")
            .key(form.step.name().1)
            .with(el("span").text(speech.made(&["place-", place.word()])))
            .perhaps(progress)
    });
    let logo = view
        .config
        .and_then(|config| config.branding.logo.clone())
        .filter(|logo| is_picture_address(logo))
        .map(|logo| el("img").class("logo").attr("src", logo.into()).attr("alt", speech.installer.clone()));
    el("header")
        .class("head")
        .perhaps(logo)
        .perhaps(back)
        .perhaps(place)
        .with(el("h2").set("tabindex", "-1").text(title))
}

/// What was last done outside the form's views, so that each thing is done once for each change.
#[derive(Default)]
struct Told {
    dated: bool,
    step: Option<(StepKind, &'static str)>,
    complaints: u32,
    advice: Vec<Advice>,
    held_up: bool,
    result: Option<ByAddress<Made>>,
    failed: Option<Failure>,
    branding: Option<Branding>,
}

/// Everything outside the form's own views that follows from its state: the date, the secrets, the focus, the branding and the events to
/// the page around it. It is checked after each drawing, and done where something has changed.
#[hook]
fn use_surroundings(view: &View<'_>, assessed: &Assessed, around: (&HtmlElement, bool), root: &NodeRef) {
    let told = use_mut_ref(Told::default);
    let (host, adds) = around;
    let around =
        Around { form: Rc::clone(view.form), done: view.done.clone(), host: host.clone(), root: root.clone(), adds };
    let branding = view.config.map(|config| config.branding.clone());
    let assessed = assessed.clone();
    use_effect(move || {
        let told = &mut *told.borrow_mut();
        around.date(told);
        around.dress(told, branding);
        around.show_what_is_held_up(told);
        around.come_to_the_step(told);
        around.tell_failure(told);
        around.make_secrets();
        around.show_complaint(told);
        around.show_advice(told);
        around.tell_result(told, assessed);
    });
}

/// The form as it was drawn, and what is around it.
struct Around {
    form: Rc<Form>,
    done: Callback<Action>,
    host: HtmlElement,
    root: NodeRef,
    /// Whether photos can be added to an enquiry later: not where it is posted as a plain web form.
    adds: bool,
}

impl Around {
    fn date(&self, told: &mut Told) {
        if !replace(&mut told.dated, true) {
            today().into_iter().for_each(|date| self.done.emit(Action::TodayIs(date)));
        }
    }

    fn dress(&self, told: &mut Told, branding: Option<Branding>) {
        if branding.is_some() && told.branding != branding {
            if let (Some(branding), Some(root)) = (&branding, self.root.cast::<HtmlElement>()) {
                dress(&root, branding);
            }
            told.branding = branding;
        }
    }

    /// Scrolls a notice that appears under a choice into view: the main button would cover it.
    fn show_what_is_held_up(&self, told: &mut Told) {
        let holds_up = find(&self.root, ".choices:has(:checked) ~ .ending");
        if !replace(&mut told.held_up, holds_up.is_some()) && told.step == Some(self.form.step.name()) {
            holds_up.iter().for_each(|told| told.scroll_into_view_with_bool(false));
        }
    }

    fn come_to_the_step(&self, told: &mut Told) {
        let name = self.form.step.name();
        if told.step == Some(name) {
            return;
        }
        // The form is mounted after the homeowner pressed a button of the prerendered screen, so its first screen counts as a new one. A
        // form that waits to be sent is mounted without a press: then the page, which has just loaded, is not scrolled.
        if told.step.is_some() || !self.form.queued {
            focus(&self.root, "h2");
            // A new screen starts at the top of the form, below whatever the page around it has above.
            self.host.scroll_into_view();
        }
        // A form that opens as already sent reports no event.
        if name.0 == StepKind::Sent && told.step.is_some() {
            tell_sent(&self.host);
        }
        tell_step(&self.host, name);
        told.step = Some(name);
    }

    fn tell_failure(&self, told: &mut Told) {
        let failed = match &self.form.sending {
            Sending::Waiting => Some(Failure::NoAnswer),
            Sending::Failed(why) => Some(why.failure()),
            _ => None,
        };
        if told.failed != failed {
            failed.into_iter().for_each(|why| tell_failed(&self.host, why));
            told.failed = failed;
        }
    }

    fn make_secrets(&self) {
        if self.form.step == Step::Contact && self.form.secrets.is_none() {
            make_secrets(self.adds).into_iter().for_each(|secrets| self.done.emit(Action::SecretsMade(secrets)));
        }
    }

    /// After the main button was pressed too soon, moves the focus to the first field that is open.
    fn show_complaint(&self, told: &mut Told) {
        if replace(&mut told.complaints, self.form.complaints) < self.form.complaints {
            let open = "[aria-invalid=true]";
            let asked = ".question:has(.trouble) input:not([type=hidden])";
            focus(&self.root, if find(&self.root, open).is_some() { open } else { asked });
        }
    }

    /// Scrolls to the emergency advice when it appears or changes: nobody should have to look for it.
    fn show_advice(&self, told: &mut Told) {
        let advice = advice(&self.form.answers);
        if advice != told.advice {
            if self.form.step == Step::first() || matches!(self.form.step, Step::Found(_)) {
                find(&self.root, ".emergency").iter().for_each(Element::scroll_into_view);
                focus(&self.root, ".emergency h3");
            }
            told.advice = advice;
        }
    }

    fn tell_result(&self, told: &mut Told, assessed: Assessed) {
        let result = assessed.latest.filter(|_| assessed.fresh && self.form.step == Step::Result).map(ByAddress);
        if result.is_some() && told.result != result {
            result.iter().for_each(|result| tell_result(&self.host, &result.0.shown));
            told.result = result;
        }
    }
}

/// Sets the installer's branding on the form as CSS properties; a value with other characters than plain colours, names and lengths need is
/// ignored.
fn dress(root: &HtmlElement, branding: &Branding) {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"#(),.% -/'\"".contains(&byte);
    for (name, value) in [
        ("--presurvey-accent", &branding.accent),
        ("--presurvey-on-accent", &branding.on_accent),
        ("--presurvey-ground", &branding.ground),
        ("--presurvey-ink", &branding.ink),
        ("--presurvey-caution", &branding.caution),
        ("--presurvey-corner", &branding.corner),
        ("color-scheme", &branding.scheme),
        ("font-family", &branding.font),
    ] {
        if let Some(value) = value.as_deref().filter(|value| value.len() <= 120 && value.bytes().all(plain)) {
            // A refused value leaves the form's own.
            let _ = root.style().set_property(name, value);
        }
    }
}

fn find(root: &NodeRef, what: &str) -> Option<Element> {
    root.cast::<Element>().and_then(|root| root.query_selector(what).ok().flatten())
}

fn focus(root: &NodeRef, what: &str) {
    if let Some(element) = find(root, what) {
        // If the focus is refused, there is nothing better to do.
        let _ = wasm_bindgen::JsCast::unchecked_into::<HtmlElement>(element).focus();
    }
}
