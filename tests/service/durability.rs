//! What was acknowledged is there: after closing, and after the power was cut before anything could be closed.

use crate::house::{House, enquiry, picture, sha256};
use presurvey::config::demo_config;
use presurvey::service::Service;

/// Copies the folder as it lies on the disk at this moment, with nothing closed: what a power cut would leave.
fn as_it_lies(house: &House) -> tempfile::TempDir {
    let copy = tempfile::tempdir().unwrap();
    for file in std::fs::read_dir(house.folder.path()).unwrap() {
        let file = file.unwrap();
        if file.file_type().unwrap().is_file() && !file.file_name().to_string_lossy().ends_with("-shm") {
            std::fs::copy(file.path(), copy.path().join(file.file_name())).unwrap();
        }
    }
    copy
}

#[tokio::test]
async fn an_acknowledged_enquiry_is_there_though_nothing_was_closed() {
    let house = House::new().await;
    let receipt = house.post_enquiry(&enquiry(1)).await.json();
    let copy = as_it_lies(&house);
    let service = Service::open(copy.path(), &demo_config(), None, false).await.unwrap();
    let reopened = House { router: presurvey::service::app(service.clone()), service, folder: copy };
    assert_eq!(reopened.post_enquiry(&enquiry(1)).await.json()["reference"], receipt["reference"]);
    assert_eq!(reopened.count("enquiries").await, 1);
}

#[tokio::test]
async fn a_commit_waits_for_the_disk() {
    let house = House::new().await;
    // The service's own connections: a new one would have the file's defaults.
    let (mode, level) = house.service.durability().await.unwrap();
    assert_eq!((mode.as_str(), level), ("wal", 2), "write-ahead log, synchronous = FULL");
}

#[tokio::test]
async fn opened_again_everything_is_as_it_was() {
    let house = House::new().await;
    let key = enquiry(1).envelope.client_key;
    house.post_enquiry(&enquiry(1)).await;
    house.put_photo(&key, &sha256(&picture(0)), picture(0)).await;
    let cookie = house.sign_in().await;
    let path = format!("/api/installer/enquiries/{key}");
    let before = house.get_as(&cookie, &path).await.json();
    house.service.clone().close().await;
    let service = Service::open(house.folder.path(), &demo_config(), None, false).await.unwrap();
    let reopened = House { router: presurvey::service::app(service.clone()), service, folder: house.folder };
    assert_eq!(reopened.get_as(&cookie, &path).await.json(), before, "the session too");
}

#[tokio::test]
#[cfg(unix)]
async fn nobody_else_on_the_machine_may_read_it() {
    use std::os::unix::fs::PermissionsExt;
    let house = House::new().await;
    house.post_enquiry(&enquiry(1)).await;
    for entry in std::fs::read_dir(house.folder.path()).unwrap() {
        let entry = entry.unwrap();
        let mode = entry.metadata().unwrap().permissions().mode();
        assert_eq!(mode & 0o077, 0, "{:?} is {mode:o}", entry.file_name());
    }
}

#[tokio::test]
async fn assessments_kept_by_another_version_do_not_keep_an_enquiry_shut() {
    let house = House::new().await;
    let key = enquiry(1).envelope.client_key;
    house.post_enquiry(&enquiry(1)).await;
    let cookie = house.sign_in().await;
    let path = format!("/api/installer/enquiries/{key}");
    let answers = serde_json::json!({ "answers": enquiry(1).payload.answers });
    house.put_as(&cookie, &format!("{path}/answers"), answers).await;
    house.change("UPDATE enquiries SET own_assessment = '{\"of\": \"another shape\"}'").await;
    house.change("UPDATE corrections SET assessment = '{}'").await;
    let detail = house.get_as(&cookie, &path).await.json();
    assert!(detail["own_assessment"].is_null());
    let again = presurvey::assess(&enquiry(1).payload.answers, &demo_config());
    assert_eq!(detail["corrected"]["assessment"], serde_json::to_value(&again).unwrap());
}
