use super::*;
use crate::widget::screens::screen;
use model::answers::{Answer, FoundAt, HazardPlace, HazardSign, HazardWhen, Set};
use model::questions::{Place, question};

fn after(form: Rc<Form>, actions: impl IntoIterator<Item = Action>) -> Rc<Form> {
    actions.into_iter().fold(form, Reducible::reduce)
}

fn at(id: &str) -> &'static Question {
    question(id).unwrap()
}

fn on_screen(id: &str) -> Action {
    Action::WentTo(Step::Screen(crate::widget::screens::screen(id).unwrap()))
}

#[test]
fn what_changes_nothing_gives_the_same_state_back() {
    let form = after(Rc::default(), [Action::Answered(at("hazard"), RawAnswer::Any(0)), Action::WentOn(String::new())]);
    for action in [
        Action::Answered(at("hazard"), RawAnswer::Any(0)),
        Action::WentTo(form.step),
        Action::PhotoRemoved("none".into()),
        Action::ContactGiven(Contact::default()),
        Action::Answered(at("tenure"), RawAnswer::One(200)),
    ] {
        assert!(Rc::ptr_eq(&form, &Rc::clone(&form).reduce(action)));
    }
}

#[test]
fn nobody_goes_on_from_an_open_core_question_and_not_sure_is_enough() {
    let form = after(Rc::default(), [Action::WentOn(String::new())]);
    assert!(form.complaints == 1 && form.step == Step::first());
    let form = after(form, [Action::Answered(at("hazard"), RawAnswer::NotSure), Action::WentOn(String::new())]);
    assert!(form.complaints == 0);
    assert_eq!(form.step.name().1, "start");
}

#[test]
fn a_postcode_that_cannot_be_read_stays_as_typed_and_is_no_answer() {
    let form = after(Rc::default(), [on_screen("start"), Action::Typed(at("postcode"), "zz1 1a".into())]);
    assert!(form.answers.home.postcode.is_not_asked());
    assert_eq!(form.text_of(at("postcode")), "zz1 1a");
    assert!(form.unreadable(at("postcode")));
    let form = after(form, [Action::Typed(at("postcode"), "zz1 1aa".into())]);
    assert_eq!(form.answers.home.postcode.known().unwrap().as_str(), "ZZ1 1AA");
    assert_eq!(form.text_of(at("postcode")), "zz1 1aa", "what is being typed is not rewritten");
    let form = after(form, [Action::Answered(at("postcode"), RawAnswer::NotSure)]);
    assert_eq!(form.text_of(at("postcode")), "");
    assert!(form.answers.home.postcode.is_not_sure());
}

#[test]
fn a_distance_may_change_its_unit_before_or_after_its_number() {
    let length = at("route-length");
    let before =
        after(Rc::default(), [Action::MeasuredIn(length, LengthUnit::Paces), Action::Typed(length, "14".into())]);
    let behind =
        after(Rc::default(), [Action::Typed(length, "14".into()), Action::MeasuredIn(length, LengthUnit::Paces)]);
    assert_eq!(*before.answers, *behind.answers);
    assert_eq!(before.answers.route.length.known().unwrap().unit, LengthUnit::Paces);
}

fn noticed(signs: &[HazardSign]) -> Action {
    Action::Answered(at("hazard"), Answer::Known(Set::of(signs)).give())
}

#[test]
fn a_hazard_offers_send_at_once_and_nothing_more_has_to_be_said() {
    let form = after(Rc::default(), [noticed(&[HazardSign::Discolouration])]);
    assert!(form.may_send());
    let form = after(form, [Action::WentOn(String::new())]);
    assert_eq!((form.complaints, form.step), (0, Step::Contact), "the place of a danger may stay unanswered");
}

#[test]
fn a_new_sign_is_of_now_whatever_was_said_of_another() {
    let long_ago = Action::Answered(at("hazard-when"), Answer::Known(HazardWhen::LongAgo).give());
    let form = after(Rc::default(), [noticed(&[HazardSign::Arcing]), Action::SignsListed, long_ago]);
    assert!(!form.answers.hazard.is_noticed() && form.lists_signs);
    let form = after(form, [noticed(&[HazardSign::Arcing, HazardSign::Tingle])]);
    assert!(form.answers.hazard.is_noticed() && !form.lists_signs, "the danger takes the screen again");
    assert_eq!(form.answers.hazard.when, Answer::NotAsked);
}

#[test]
fn what_is_found_on_looking_is_there_and_now() {
    for (place, found, is_at) in [
        (Place::Meter, FoundAt::Meter, Answer::Known(HazardPlace::Meter)),
        (Place::Board, FoundAt::Board, Answer::Known(HazardPlace::Board)),
        (Place::Pipes, FoundAt::Pipes, Answer::NotAsked),
    ] {
        let looking = [noticed(&[]), Action::WentTo(Step::Found(place)), noticed(&[HazardSign::Heat])];
        let form = after(Rc::default(), looking);
        let hazard = &form.answers.hazard;
        assert_eq!((hazard.found_at, hazard.place), (Answer::Known(found), is_at));
        assert_eq!(hazard.when, Answer::Known(HazardWhen::Now));
        assert_eq!(form.step, Step::Found(place), "the advice is read where one stands");
        let form = after(form, [Action::WentOn(String::new())]);
        assert_eq!(form.step, Step::Contact, "the looking has ended");
        let form = after(form, [Action::WentTo(Step::Found(place)), noticed(&[])]);
        assert_eq!(form.answers.hazard.found_at, Answer::NotAsked, "nothing after all");
    }
}

#[test]
fn nobody_stays_at_the_meter_when_another_page_learns_of_a_danger() {
    let step = Step::Screen(screen("meter").unwrap());
    let form = after(Rc::default(), [noticed(&[]), Action::WentTo(step)]);
    assert!(form.step == step && form.may_look());
    let told = [("answer hazard.signs".to_owned(), "[\"heat\"]".to_owned())].to_vec();
    let form = after(form, [Action::ToldElsewhere(told)]);
    assert_eq!((form.step, form.may_look()), (Step::first(), false));
}

#[test]
fn adding_to_an_enquiry_one_looks_only_where_the_service_says_so() {
    let link = Link { key: "k".into(), secret: "s".into(), questions: vec!["fuse-carriers"] };
    let late = Rc::new(Form { link: Some(link), step: Step::Link, ..Form::default() });
    assert!(!late.may_look(), "without its word it is not allowed");
    let told = after(late, [Action::ToldToLook(true)]);
    assert!(told.may_look());
    let found = after(told, [Action::WentTo(Step::Found(Place::Board)), noticed(&[HazardSign::Buzzing])]);
    assert!(!found.may_look());
    let form = after(found, [Action::WentOn(String::new())]);
    assert_eq!(form.step, Step::Link, "it goes to the enquiry that is in");
    assert!(!form.may_look());
}

#[test]
fn secrets_are_made_once_and_contact_goes_when_sent() {
    let made =
        |key: &str| Action::SecretsMade(Secrets { client_key: key.into(), deletion: key.into(), addition: key.into() });
    let contact = Contact { name: "Invented Person".into(), ..Contact::default() };
    let form = after(Rc::default(), [made("a"), made("b"), Action::ContactGiven(contact)]);
    assert_eq!(form.secrets.as_ref().unwrap().client_key, "a");
    let form = after(form, [Action::SendingCame(Sending::Done("BCDF-GHJK".into()))]);
    assert_eq!((form.step, &form.contact), (Step::Sent, &Contact::default()));
    assert_eq!(form.secrets.as_ref().unwrap().deletion, "a");
}

#[test]
fn what_is_changed_while_it_waits_to_go_is_sent_again_by_hand() {
    let waits =
        |form: &Rc<Form>| Rc::clone(form).reduce(Action::SendAsked).reduce(Action::SendingCame(Sending::Waiting));
    let form = waits(&Rc::default());
    assert!(form.queued && form.sending == Sending::Waiting);
    for action in [
        Action::SendingStopped,
        Action::ContactGiven(Contact { name: "Invented".into(), ..Contact::default() }),
        Action::Answered(question("hazard").unwrap(), RawAnswer::Any(0)),
        Action::PhotoTaken,
        Action::PhotoRemoved("a".into()),
    ] {
        let changed = Rc::clone(&form).reduce(action);
        assert!(!changed.queued && changed.sending == Sending::Not);
    }
    // A photo that is read from the device again does not stop sending, and a refusal ends the waiting.
    let photo = KeptPhoto {
        sha256: "a".into(),
        place: PhotoPlace::Meter,
        width: 1,
        height: 1,
        bytes: 1,
        shown_at: String::new(),
    };
    assert!(Rc::clone(&form).reduce(Action::PhotoKept(photo)).queued);
    let refused = form.reduce(Action::SendingCame(Sending::Failed(SendTrouble::Refused("no".into()))));
    assert!(!refused.queued);
}

#[test]
fn a_half_filled_stretch_is_kept_as_typed_and_stands_in_the_way() {
    let stretches = at("route-stretches");
    let rows = "inside metres - 4\nfence paces high 8\n";
    let form = after(Rc::default(), [on_screen("stretches"), Action::Typed(stretches, rows.into())]);
    assert_eq!(form.answers.route.stretches.known().map(Vec::len), Some(2));
    let form = after(
        form,
        [Action::Typed(stretches, "inside metres - 4\n- metres - about 3\n".into()), Action::WentOn(String::new())],
    );
    assert!(form.answers.route.stretches.is_not_asked() && form.unreadable(stretches) && form.complaints == 1);
    let kept = Draft::read(&Draft::of(&form).write()).unwrap();
    let back = Form::begun(Some(&kept.write()), false);
    assert_eq!(back.text_of(stretches), form.text_of(stretches), "a reload loses nothing");
    let form = after(form, [Action::Typed(stretches, rows.into()), Action::WentOn(String::new())]);
    assert!(form.complaints == 0 && form.step != back.step);
    // From another device comes only the answer, not the text as it was typed.
    let said = Form { answers: form.answers.clone(), ..Form::default() };
    assert_eq!(said.text_of(stretches), rows);
    let form = after(form, [Action::SendAsked, Action::Answered(stretches, RawAnswer::NotSure)]);
    assert!(!form.queued && form.text_of(stretches).is_empty());
}
