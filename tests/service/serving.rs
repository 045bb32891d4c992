//! The service started as a person starts it: what it prints, what it refuses, and what is left when it is killed.

use crate::command::presurvey;
use crate::house::enquiry;
use crate::running::start;
use std::io::Read;
use std::path::Path;
use std::process::Command;

#[test]
fn the_demo_prints_two_addresses_and_a_password_that_opens_the_list() {
    let data = tempfile::tempdir().unwrap();
    let running = start(data.path(), &["--demo"], 3);
    assert_eq!(running.lines[1], format!("installer's page: http://{}/installer/", running.address));
    let password = running.lines[2].strip_prefix("password: ").unwrap().to_owned();
    let body = serde_json::json!({ "password": password }).to_string();
    let (status, head, _) = running.ask("POST", "/api/session", "X-Presurvey: 1\r\n", body.as_bytes());
    assert_eq!(status, 204, "{head}");
    let cookie = head.lines().find_map(|line| line.strip_prefix("set-cookie: presurvey_session=")).unwrap();
    let cookie = format!("Cookie: presurvey_session={}\r\n", cookie.split(';').next().unwrap());
    let (_, _, list) = running.ask("GET", "/api/installer/enquiries", &cookie, b"");
    let rows = list["enquiries"].as_array().unwrap();
    assert!(rows.len() >= 8, "{}", rows.len());
    for row in rows {
        assert!(row["name"].as_str().unwrap().starts_with("Invented Homeowner"));
        assert_eq!(row["photos"]["arrived"], row["photos"]["listed"]);
        assert_eq!(row["invented"], true);
    }
    running.kill();

    // Started again: another password, the same enquiries, no second set of them.
    let again = start(data.path(), &["--demo"], 3);
    assert!(!again.lines[2].ends_with(&password));
    again.kill();
}

#[test]
fn an_acknowledged_enquiry_outlives_a_kill() {
    let data = tempfile::tempdir().unwrap();
    let setup = data.path().join("setup.json");
    std::fs::write(&setup, serde_json::to_string(&presurvey::config::demo_setup()).unwrap()).unwrap();
    let folder = data.path().join("data");
    assert!(presurvey(&["password", "--data", folder.to_str().unwrap()], "an invented password").status.success());
    let more = ["--setup", setup.to_str().unwrap()];
    let running = start(&folder, &more, 2);
    let sent = serde_json::to_vec(&enquiry(1)).unwrap();
    let (status, _, receipt) = running.ask("POST", "/api/enquiries", "", &sent);
    assert_eq!(status, 201);
    running.kill();

    let again = start(&folder, &more, 2);
    let (status, _, second) = again.ask("POST", "/api/enquiries", "", &sent);
    assert_eq!((status, &second["reference"]), (200, &receipt["reference"]));
    again.kill();
}

fn words_of(arguments: &[&str]) -> (Option<i32>, String) {
    let output = presurvey(arguments, "");
    assert!(output.stdout.is_empty());
    (output.status.code(), String::from_utf8(output.stderr).unwrap())
}

#[test]
fn what_keeps_it_from_starting_is_said_with_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let data = data.to_str().unwrap();
    let setup = folder.path().join("setup.json");
    std::fs::write(&setup, serde_json::to_string(&presurvey::config::demo_setup()).unwrap()).unwrap();
    let setup = setup.to_str().unwrap();

    let (code, words) = words_of(&["serve", "--data", data]);
    assert!(code == Some(2) && words.contains("--setup"), "{words}");

    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let address = taken.local_addr().unwrap().to_string();
    let (code, words) = words_of(&["serve", "--data", data, "--demo", "--listen", &address]);
    assert!(code == Some(1) && words.contains(&address) && words.contains("--listen"), "{words}");
    assert!(!Path::new(data).exists(), "nothing was made");

    let free = ["--listen", "127.0.0.1:0"];
    let (code, words) = words_of(&[&["serve", "--data", data, "--setup", setup], free.as_slice()].concat());
    assert!(code == Some(1) && words.contains("presurvey password"), "{words}");

    let (code, words) = words_of(&[&["serve", "--data", data, "--demo"], free.as_slice()].concat());
    assert!(code == Some(1) && words.contains("real data"), "{words}");

    let pages = folder.path().to_str().unwrap();
    let (code, words) = words_of(&[&["serve", "--data", data, "--demo", "--pages", pages], free.as_slice()].concat());
    assert!(code == Some(1) && words.contains("cargo xtask demo"), "{words}");
}

/// Earlier versions took any key: such a setup goes on being served, whole, and what has no effect is named.
#[test]
fn a_setup_with_a_key_that_no_sentence_has_is_served_and_told_of() {
    let folder = tempfile::tempdir().unwrap();
    let mut setup = presurvey::config::demo_setup();
    setup.wording = [("sned", "Send"), ("send", "Send it, { $installer }"), ("next-1", "{nobody}")]
        .map(|(key, text)| (key.to_owned(), text.to_owned()))
        .into();
    let file = folder.path().join("setup.json");
    std::fs::write(&file, serde_json::to_string(&setup).unwrap()).unwrap();
    let data = folder.path().join("data");
    assert!(presurvey(&["password", "--data", data.to_str().unwrap()], "an invented password").status.success());
    let mut running = start(&data, &["--setup", file.to_str().unwrap()], 2);
    let (status, _, config) = running.ask("GET", "/api/config", "", b"");
    assert_eq!(status, 200);
    let expected = serde_json::json!({ "sned": "Send", "send": "Send it, {installer}", "next-1": "{nobody}" });
    assert_eq!(config["wording"], expected);
    running.child.kill().unwrap();
    let mut said = String::new();
    running.child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
    running.child.wait().unwrap();
    for part in ["`wording[\"sned\"]`", "`send`", "`wording[\"next-1\"]`", "the place {nobody}"] {
        assert!(said.contains(part), "{part} in {said}");
    }
}

#[test]
#[cfg(unix)]
fn told_to_stop_it_ends_in_good_order() {
    let data = tempfile::tempdir().unwrap();
    let mut running = start(data.path(), &["--demo"], 3);
    let process = running.child.id().to_string();
    assert!(Command::new("kill").args(["-TERM", &process]).status().unwrap().success());
    assert!(running.child.wait().unwrap().success());
    assert!(!data.path().join("presurvey.sqlite-wal").exists(), "the write-ahead log was folded in");
}
