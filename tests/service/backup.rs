//! Backup and restore: whole while others write, and nothing that was erased.

use crate::command::presurvey;
use crate::house::{House, PASSWORD, enquiry, picture, sha256};
use presurvey::config::demo_config;
use presurvey::service::{Service, app, copy_data};
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex};

/// How many send while the backup is made.
const SENDERS: u64 = 8;

/// Everything acknowledged, by whether its photo was acknowledged too.
#[derive(Default)]
struct Acknowledged {
    enquiries: BTreeSet<u64>,
    photos: BTreeSet<u64>,
}

async fn send(house: &House, key: u64, acknowledged: &Mutex<Acknowledged>) {
    let sent = enquiry(key);
    assert_eq!(house.post_enquiry(&sent).await.status, 201);
    acknowledged.lock().unwrap().enquiries.insert(key);
    let kept = house.put_photo(&sent.envelope.client_key, &sha256(&picture(0)), picture(0)).await;
    assert_eq!(kept.status, 204);
    acknowledged.lock().unwrap().photos.insert(key);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_backup_made_under_load_ends_and_has_all_that_was_acknowledged_before_it_began() {
    let house = Arc::new(House::new().await);
    let acknowledged = Arc::new(Mutex::new(Acknowledged::default()));
    let (next, goes_on) = (Arc::new(AtomicU64::new(1)), Arc::new(AtomicBool::new(true)));
    let senders: Vec<_> = (0..SENDERS)
        .map(|_| {
            let (house, acknowledged) = (Arc::clone(&house), Arc::clone(&acknowledged));
            let (next, goes_on) = (Arc::clone(&next), Arc::clone(&goes_on));
            tokio::spawn(async move {
                while goes_on.load(Ordering::Relaxed) {
                    send(&house, next.fetch_add(1, Ordering::Relaxed), &acknowledged).await;
                }
            })
        })
        .collect();
    while acknowledged.lock().unwrap().photos.len() < 20 {
        tokio::task::yield_now().await;
    }
    let before = std::mem::take(&mut *acknowledged.lock().unwrap());
    let place = tempfile::tempdir().unwrap();
    let backup = place.path().join("backup");
    let copied = copy_data(house.folder.path(), &backup, |_, _| {}).await.unwrap();
    // The writers go on for as long as it takes and after.
    while acknowledged.lock().unwrap().photos.len() < SENDERS as usize {
        tokio::task::yield_now().await;
    }
    goes_on.store(false, Ordering::Relaxed);
    for sender in senders {
        sender.await.unwrap();
    }
    assert_eq!(copied.missing, [""; 0]);
    assert!(copied.enquiries >= before.enquiries.len() as u64 && copied.photos >= before.photos.len() as u64);

    // The way back, and the proof: everything is there, and sent again it is known.
    let place = tempfile::tempdir().unwrap();
    let data = place.path().join("data");
    let again = copy_data(&backup, &data, |_, _| {}).await.unwrap();
    assert_eq!(again, copied);
    let service = Service::open(&data, &demo_config(), None, false).await.unwrap();
    let restored = House { router: app(service.clone()), service, folder: place };
    let cookie = restored.sign_in().await;
    for key in before.enquiries {
        assert_eq!(restored.post_enquiry(&enquiry(key)).await.status, 200, "enquiry {key} is there");
        if before.photos.contains(&key) {
            let path = format!("/api/installer/enquiries/{:032x}/photos/{}", key, sha256(&picture(0)));
            assert_eq!(restored.get_as(&cookie, &path).await.bytes, picture(0), "the photo of {key} is there");
        }
    }
}

#[tokio::test]
async fn what_is_missing_is_named_and_counts_as_not_arrived() {
    let house = House::new().await;
    let acknowledged = Mutex::default();
    for key in 1..=3 {
        send(&house, key, &acknowledged).await;
    }
    let photo = |key: u64| house.folder.path().join(format!("photos/{key:032x}/{}", sha256(&picture(0))));
    std::fs::remove_file(photo(1)).unwrap();
    std::fs::write(photo(2), "other bytes").unwrap();
    let place = tempfile::tempdir().unwrap();
    let copied = copy_data(house.folder.path(), &place.path().join("backup"), |_, _| {}).await.unwrap();
    assert_eq!((copied.enquiries, copied.photos, copied.missing.len()), (3, 1, 2));
    assert!(copied.missing.iter().all(|told| told.ends_with(&sha256(&picture(0)))), "{:?}", copied.missing);
    let whole = tempfile::tempdir().unwrap();
    let data = whole.path().join("data");
    assert_eq!(copy_data(&place.path().join("backup"), &data, |_, _| {}).await.unwrap().missing, [""; 0]);
    let service = Service::open(&data, &demo_config(), None, false).await.unwrap();
    let restored = House { router: app(service.clone()), service, folder: whole };
    let receipt = restored.post_enquiry(&enquiry(1)).await.json();
    assert_eq!(receipt["photos_missing"][0], sha256(&picture(0)), "it may be sent again");
}

#[tokio::test]
async fn what_was_erased_is_in_no_byte_of_a_backup_and_nobody_is_signed_in_by_it() {
    let house = House::new().await;
    send(&house, 1, &Mutex::default()).await;
    let cookie = house.sign_in().await;
    house.change("DELETE FROM enquiries").await;
    house.change("INSERT INTO wrong_codes (account, who, at) SELECT id, 'strangers', '2026-11-29' FROM accounts").await;
    house.change("INSERT INTO copies (address_hash, at) VALUES ('a hash of an address', '2026-11-29')").await;
    let place = tempfile::tempdir().unwrap();
    let backup = place.path().join("backup");
    let copied = copy_data(house.folder.path(), &backup, |_, _| {}).await.unwrap();
    assert_eq!((copied.enquiries, copied.photos), (0, 0));
    let bytes = std::fs::read(backup.join("presurvey.sqlite")).unwrap();
    for gone in ["Invented Homeowner", "strangers", "a hash of an address"] {
        assert!(!bytes.windows(gone.len()).any(|part| part == gone.as_bytes()), "{gone}");
    }
    assert_eq!(std::fs::read_dir(&backup).unwrap().count(), 1, "the database alone");
    let service = Service::open(&backup, &demo_config(), None, false).await.unwrap();
    let restored = House { router: app(service.clone()), service, folder: tempfile::tempdir().unwrap() };
    assert_eq!(restored.get_as(&cookie, "/api/session").await.status, 401);
    let tried = restored.try_password(PASSWORD, None).await;
    assert_eq!(tried.status, 204, "the password is the same: {}", String::from_utf8_lossy(&tried.bytes));
    // A folder of an earlier program, which had no such tables, is copied as it is.
    house.change("DROP TABLE wrong_codes").await;
    house.change("DROP TABLE copies").await;
    assert!(copy_data(house.folder.path(), &place.path().join("earlier"), |_, _| {}).await.is_ok());
}

#[test]
fn the_commands_say_what_they_did_and_overwrite_nothing() {
    let place = tempfile::tempdir().unwrap();
    let path = |name: &str| place.path().join(name).to_str().unwrap().to_owned();
    let (data, to, again) = (path("data"), path("to"), path("again"));
    let said = |arguments: &[&str]| {
        let output = presurvey(arguments, "");
        let words = [output.stdout, output.stderr].concat();
        (output.status.code(), String::from_utf8(words).unwrap())
    };
    let (code, words) = said(&["backup", "--data", &data, "--to", &to]);
    assert!(code == Some(2) && words.contains(&data), "{words}");
    assert!(presurvey(&["password", "--data", &data], "an invented password").status.success());
    let (code, words) = said(&["backup", "--data", &data, "--to", &to]);
    assert!(code == Some(0) && words.contains("0 enquiries and 0 photos backed up"), "{words}");
    let (code, words) = said(&["backup", "--data", &data, "--to", &to]);
    assert!(code == Some(2) && words.contains("is there already"), "{words}");
    let (code, words) = said(&["restore", "--from", &to, "--data", &data]);
    assert!(code == Some(2) && words.contains("is there already"), "{words}");
    let (code, words) = said(&["restore", "--from", &to, "--data", &again]);
    assert!(code == Some(0) && words.contains("restored"), "{words}");
    assert!(
        Path::new(&again).join("presurvey.sqlite").is_file() && !Path::new(&[&again, ".unfinished"].concat()).exists()
    );
}
