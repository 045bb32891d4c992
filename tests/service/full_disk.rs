//! A disk that is full and has room again: nothing acknowledged is lost, and no request fails for longer than it is full.

use crate::house::enquiry;
use crate::running::{Running, serving, start_by};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

/// How many send at the same time, and how often each is refused before there is room again.
const SENDERS: usize = 8;
const REFUSALS: usize = 12;

/// Starts the demo on a small disk of its own, which ends with it.
fn on_a_small_disk(data: &Path) -> Running {
    let mount = format!("mount -t tmpfs -o size=12m none {0} && exec \"$@\"", data.display());
    // The first way is an administrator's, the second anybody's.
    for way in ["-m", "-rm"] {
        let alone = Command::new("unshare").args([way, "sh", "-c", &mount, "sh", "true"]).output();
        if alone.is_ok_and(|tried| tried.status.success()) {
            let mut command = Command::new("unshare");
            command.args([way, "sh", "-c", &mount, "sh", env!("CARGO_BIN_EXE_presurvey")]).args(serving(data));
            return start_by(command.arg("--demo"), 3);
        }
    }
    panic!("this test needs a disk of its own: `unshare` of util-linux, as root or with namespaces for users");
}

/// The disk as the service sees it.
fn seen_by(running: &Running, data: &Path) -> PathBuf {
    Path::new("/proc").join(running.child.id().to_string()).join("root").join(data.strip_prefix("/").unwrap())
}

fn send(running: &Running, key: u64) -> u16 {
    let sent = serde_json::to_vec(&enquiry(key)).unwrap();
    running.ask("POST", "/api/enquiries", "", &sent).0
}

#[test]
fn once_there_is_room_again_every_request_is_answered_and_nothing_acknowledged_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let running = on_a_small_disk(folder.path());
    let filler = seen_by(&running, folder.path()).join("filler");
    // As much as fits, but for room for a few enquiries.
    let mut bytes = 12 * 1024 * 1024;
    while std::fs::write(&filler, vec![0; bytes]).is_err() {
        bytes -= 64 * 1024;
    }
    std::fs::write(&filler, vec![0; bytes - 256 * 1024]).unwrap();

    let (next, acknowledged) = (AtomicU64::new(1000), Mutex::new(BTreeSet::new()));
    let together = |work: &(dyn Fn() + Sync)| {
        std::thread::scope(|scope| (0..SENDERS).for_each(|_| drop(scope.spawn(work))));
    };
    together(&|| {
        let mut refused = 0;
        while refused < REFUSALS {
            let key = next.fetch_add(1, Ordering::Relaxed);
            match send(&running, key) {
                201 => drop(acknowledged.lock().unwrap().insert(key)),
                500.. => refused += 1,
                other => panic!("{other}"),
            }
        }
    });
    assert!(!acknowledged.lock().unwrap().is_empty(), "the first ones had room");

    std::fs::remove_file(&filler).unwrap();
    together(&|| {
        for _ in 0..10 {
            let key = next.fetch_add(1, Ordering::Relaxed);
            assert_eq!(send(&running, key), 201, "there is room again");
            acknowledged.lock().unwrap().insert(key);
        }
    });
    for key in acknowledged.into_inner().unwrap() {
        assert_eq!(send(&running, key), 200, "enquiry {key} is there already");
    }
    running.kill();
}

/// What `/ready` answers: the status and the words of what failed.
fn ready(running: &Running) -> (u16, Vec<String>) {
    let (status, _, told) = running.ask("GET", "/ready", "", b"");
    let words = told["failing"].as_array().unwrap().iter().map(|word| word.as_str().unwrap().to_owned()).collect();
    (status, words)
}

#[test]
fn a_full_disk_is_live_and_not_ready_until_there_is_room_again() {
    let folder = tempfile::tempdir().unwrap();
    let running = on_a_small_disk(folder.path());
    assert_eq!(ready(&running), (200, vec![]));
    let filler = seen_by(&running, folder.path()).join("filler");
    let mut file = std::fs::File::create(&filler).unwrap();
    while std::io::Write::write_all(&mut file, &[0; 4096]).is_ok() {}
    drop(file);
    // The last outcome stands for a few seconds.
    while ready(&running).0 == 200 {
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    let (status, words) = ready(&running);
    assert!(status == 503 && words.contains(&"photos".to_owned()), "{words:?}");
    assert_eq!(running.ask("GET", "/live", "", b"").0, 200);
    std::fs::remove_file(&filler).unwrap();
    while ready(&running).0 != 200 {
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    running.kill();
}
