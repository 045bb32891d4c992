//! What the reducer does, action by action.

use super::*;
use crate::enquiry_rows::tests::row;
use crate::sample;
use engine::assessment::Complexity;

fn desk(place: Location) -> Rc<Desk> {
    let desk = Rc::new(Desk::new(place, sample::clock()));
    desk.reduce(Action::SessionKnown(Some(sample::owner())))
}

fn at_an_enquiry() -> Rc<Desk> {
    let detail = sample::detail();
    let place = Location::Enquiry { key: detail.client_key.clone(), photo: None };
    desk(place).reduce(Action::DetailCame(Box::new(detail)))
}

#[test]
fn a_session_that_ends_keeps_what_is_shown_and_where_one_was() {
    let before = at_an_enquiry().reduce(Action::ListCame(vec![row("a", Complexity::LookFirst)]));
    let out = before.clone().reduce(Action::ListFailed(Trouble::SignedOut));
    assert!(matches!(out.session, Session::Out { expired: true, .. }));
    assert_eq!((&out.place, &out.rows, &out.opened), (&before.place, &before.rows, &before.opened));
    let back = out.reduce(Action::SignedIn(sample::owner()));
    assert_eq!(back.session, Session::In(sample::owner()));
    assert_eq!(back.place, before.place);
}

#[test]
fn a_lost_connection_keeps_the_list_and_says_so() {
    let desk = desk(Location::List).reduce(Action::ListCame(vec![row("a", Complexity::LookFirst)]));
    let lost = desk.reduce(Action::ListAsked).reduce(Action::ListFailed(Trouble::Unreachable));
    assert_eq!(lost.rows.as_ref().unwrap().len(), 1);
    assert_eq!(lost.list, Progress::Failed(Trouble::Unreachable));
    assert_eq!(lost.announced, Trouble::Unreachable.sentence());
    assert_eq!(lost.session, Session::In(sample::owner()));
}

#[test]
fn signing_out_leaves_nothing_behind() {
    let out = at_an_enquiry().reduce(Action::ListCame(vec![row("a", Complexity::LookFirst)])).reduce(Action::SignedOut);
    assert_eq!((out.rows.as_ref(), out.opened.as_ref()), (None, None));
    assert!(matches!(out.session, Session::Out { expired: false, .. }));
}

#[test]
fn an_answer_that_comes_too_late_is_dropped() {
    let other = Location::Enquiry { key: "f".repeat(32), photo: None };
    let desk = desk(other).reduce(Action::DetailCame(Box::new(sample::detail())));
    assert_eq!(desk.opened, None);
    let desk = desk.reduce(Action::DetailFailed(sample::detail().client_key, Trouble::NotFound));
    assert_eq!(desk.detail, Progress::Idle);
}

fn shown(desk: &Desk) -> Rc<engine::assessment::Assessment> {
    desk.opened.as_ref().unwrap().assessment.clone().unwrap()
}

#[test]
fn a_correction_shows_at_once_is_assessed_after_and_stored_last() {
    let start = at_an_enquiry();
    let answers = Rc::new(Answers::default());
    let desk = start.clone().reduce(Action::Corrected("home", answers.clone()));
    assert!(Rc::ptr_eq(&desk.opened.as_ref().unwrap().answers, &answers));
    assert!(desk.unstored() && !desk.correction.assessed);

    let mut after = (*shown(&start)).clone();
    after.complexity = Complexity::MoreInvolved;
    let desk = desk.reduce(Action::Reassessed(answers, Rc::new(after.clone())));
    assert!(desk.correction.assessed);
    assert!(desk.announced.contains("More involved"), "{}", desk.announced);

    let failed = desk.reduce(Action::NotStored(Trouble::Unreachable));
    assert_eq!(shown(&failed).complexity, Complexity::MoreInvolved, "still shown");
    let refreshed = failed.reduce(Action::DetailCame(Box::new(sample::detail())));
    assert_eq!(shown(&refreshed).complexity, Complexity::MoreInvolved, "not overwritten");

    let mut stored = sample::detail();
    stored.corrected =
        Some(crate::api::Corrected { at: sample::clock().now, answers: Answers::default(), assessment: after });
    let desk = refreshed.reduce(Action::Storing).reduce(Action::Stored(Box::new(stored)));
    assert!(!desk.unstored());
    assert!(desk.opened.as_ref().unwrap().detail.corrected.is_some());
}

#[test]
fn a_correction_not_stored_is_kept_over_a_look_at_the_list() {
    let start = at_an_enquiry();
    let (place, answers) = (start.place.clone(), Rc::new(Answers::default()));
    let desk = start.reduce(Action::Corrected("home", answers.clone())).reduce(Action::NotStored(Trouble::Unreachable));
    let desk = desk.reduce(Action::WentTo(Location::List));
    assert!(desk.unstored());
    let desk = desk.reduce(Action::WentTo(place)).reduce(Action::DetailCame(Box::new(sample::detail())));
    assert!(Rc::ptr_eq(&desk.opened.as_ref().unwrap().answers, &answers));

    let mut other = sample::detail();
    other.client_key = "f".repeat(32);
    let desk = desk.reduce(Action::WentTo(Location::Enquiry { key: other.client_key.clone(), photo: None }));
    let desk = desk.reduce(Action::DetailCame(Box::new(other)));
    assert!(!desk.unstored(), "it is not mixed up with another enquiry");
}

#[test]
fn an_assessment_of_older_answers_is_dropped() {
    let start = at_an_enquiry();
    let (older, newer) = (Rc::new(Answers::default()), Rc::new(Answers::default()));
    let mut late = (*shown(&start)).clone();
    late.engine = "late".into();
    let desk = start.reduce(Action::Corrected("home", older.clone())).reduce(Action::Corrected("age", newer));
    let desk = desk.reduce(Action::Reassessed(older, Rc::new(late)));
    assert_ne!(shown(&desk).engine, "late");
}

#[test]
fn handled_is_shown_in_both_places_once_it_is_stored() {
    let key = sample::detail().client_key;
    let desk = at_an_enquiry().reduce(Action::ListCame(vec![row(&key, Complexity::LookFirst)]));
    let desk = desk.reduce(Action::Marking);
    assert!(!desk.opened.as_ref().unwrap().detail.handled, "not before");
    let desk = desk.reduce(Action::Marked(key, true));
    assert!(desk.opened.as_ref().unwrap().detail.handled);
    assert!(desk.rows.as_ref().unwrap()[0].handled);
}

#[test]
fn what_was_deleted_is_gone_from_everywhere_and_the_list_says_what_it_was() {
    let key = sample::detail().client_key;
    let rows = vec![row(&key, Complexity::LookFirst), row("another", Complexity::LookFirst)];
    let desk = at_an_enquiry().reduce(Action::ListCame(rows)).reduce(Action::Corrected("home", Rc::default()));
    let desk = desk.reduce(Action::DeletionAsked(true));
    assert_eq!((desk.deleting.clone(), desk.opened.is_some()), (Deleting::Asked, true));
    let failed = desk.clone().reduce(Action::Deleting).reduce(Action::NotDeleted(Trouble::Unreachable));
    assert_eq!(failed.deleting, Deleting::Failed(Trouble::Unreachable));
    assert!(
        failed.opened.is_some() && failed.rows.as_ref().unwrap().len() == 2,
        "nothing is gone that was not deleted"
    );
    assert_eq!(failed.reduce(Action::DeletionAsked(false)).deleting, Deleting::No);

    let erased = Erased { reference: "BCDF-2346".into(), photos: 1, kept: None };
    let gone = desk.reduce(Action::Deleting).reduce(Action::Deleted(key, erased));
    assert_eq!((&gone.place, gone.opened.is_some(), gone.unstored()), (&Location::List, false, false));
    assert_eq!(gone.rows.as_ref().unwrap().iter().map(|row| &*row.key).collect::<Vec<_>>(), ["another"]);
    let said = gone.deleted.clone().unwrap();
    assert_eq!(gone.announced, said);
    for told in ["BCDF-2346", "1 photo", &sample::detail().enquiry.payload.contact.name] {
        assert!(said.contains(told), "{told} in {said}");
    }
    let gone = gone.reduce(Action::WentTo(Location::List));
    assert_eq!(gone.announced, said, "the address follows; that is no step of the installer's");
    let other = Location::Enquiry { key: "f".repeat(32), photo: None };
    assert_eq!(gone.reduce(Action::WentTo(other)).deleted, None);
}

#[test]
fn a_refused_password_is_said_and_does_not_look_like_an_expired_session() {
    let desk = Rc::new(Desk::new(Location::List, sample::clock())).reduce(Action::SessionKnown(None));
    let desk = desk.reduce(Action::SigningIn);
    assert!(matches!(desk.session, Session::Out { busy: true, .. }));
    let desk = desk.reduce(Action::SignInFailed(Trouble::WrongPassword));
    let trouble = Some(Trouble::WrongPassword);
    assert_eq!(desk.session, Session::Out { busy: false, trouble, expired: false, code: false });
}

#[test]
fn a_code_is_asked_for_until_somebody_is_signed_in() {
    let desk = Rc::new(Desk::new(Location::List, sample::clock())).reduce(Action::SessionKnown(None));
    let desk = desk.reduce(Action::SigningIn).reduce(Action::CodeAsked);
    assert_eq!(desk.session, Session::Out { busy: false, trouble: None, expired: false, code: true });
    assert_eq!(desk.announced, Trouble::CodeNeeded.sentence());
    let desk = desk.reduce(Action::SigningIn).reduce(Action::SignInFailed(Trouble::WrongCode));
    assert!(matches!(desk.session, Session::Out { code: true, trouble: Some(Trouble::WrongCode), .. }));
    assert_eq!(desk.announced, Trouble::WrongCode.sentence());
    let desk = desk.reduce(Action::SignedIn(sample::owner())).reduce(Action::SignedOut);
    assert_eq!(desk.session, Session::OUT, "the next one may need none");
}

#[test]
fn a_colleague_who_signs_in_after_an_owner_is_not_asked_whether_to_delete() {
    let asked = at_an_enquiry().reduce(Action::DeletionAsked(true));
    assert!(asked.is_owners());
    let out = asked.reduce(Action::ListFailed(Trouble::SignedOut));
    assert!(!out.is_owners());
    let back = out.reduce(Action::SignedIn(sample::colleague()));
    assert_eq!((back.is_owners(), &back.deleting, &*back.name), (false, &Deleting::No, "sam"));
    let expired = back.reduce(Action::ListFailed(Trouble::SignedOut));
    assert_eq!(expired.name, "sam", "to sign in again with");
    assert_eq!(expired.reduce(Action::SignedOut).name, "owner");
}
