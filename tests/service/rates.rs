//! `presurvey setup`, `prices` and `calibrate`, run as an installer would.

use crate::command::presurvey;
use serde_json::{Value, json};

fn told(arguments: &[&str], input: &str) -> String {
    let output = presurvey(arguments, input);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn refused(arguments: &[&str], input: &str) -> String {
    let output = presurvey(arguments, input);
    assert_eq!(output.status.code(), Some(2));
    String::from_utf8(output.stderr).unwrap()
}

#[test]
fn from_ten_figures_to_a_setup_with_a_price_list_that_publishes() {
    let folder = tempfile::tempdir().unwrap();
    let (first, second) = (folder.path().join("first.json"), folder.path().join("second.json"));
    let (first, second) = (first.to_str().unwrap(), second.to_str().unwrap());
    assert!(told(&["setup"], "").contains("mark-up"), "without any figure the keys are listed");
    let report = told(
        &[
            "setup",
            "name=Invented Firm",
            "telephone=01632 960 000",
            "hour=£50",
            "socket=£400",
            "--day",
            "2026-11-01",
            "--out",
            first,
        ],
        "",
    );
    assert!(report.contains("hour: taken: £50") && report.contains("invented default, confirm"), "{report}");
    let report =
        told(&["prices", "-", "--setup", first, "--out", second], "item,unit,cost,shade\nglands,each,£13,blue\n");
    assert!(report.contains("line 2, glands: taken") && report.contains("\"shade\""), "{report}");
    let config: Value = serde_json::from_str(&told(&["publish", second], "")).unwrap();
    let assumed = config["assumed_lines"].as_array().unwrap();
    assert!(!assumed.is_empty() && !assumed.contains(&json!("glands")), "{assumed:?}");
    assert_eq!(config["rates_confirmed"], false);
    // No visitor sees a band yet, and the assessment says which figures nobody has confirmed.
    let file = folder.path().join("config.json");
    std::fs::write(&file, config.to_string()).unwrap();
    let assessment: Value =
        serde_json::from_str(&told(&["assess", "-", "--config", file.to_str().unwrap()], r#"{"hazard":{"signs":[]}}"#))
            .unwrap();
    assert_eq!((&assessment["band"], &assessment["no_band"]), (&Value::Null, &json!("rates-not-confirmed")));
    assert!(assessment["assumed"].as_array().unwrap().contains(&json!("fix-point")));
}

#[test]
fn recorded_jobs_are_reported_proposed_and_taken_once() {
    let folder = tempfile::tempdir().unwrap();
    let (setup, next) = (folder.path().join("setup.json"), folder.path().join("next.json"));
    std::fs::write(&setup, serde_json::to_string(&presurvey::config::demo_setup()).unwrap()).unwrap();
    let (setup, next) = (setup.to_str().unwrap(), next.to_str().unwrap());
    let job = json!({
        "answers": {"hazard": {"signs": []}},
        "assessed": {"band": {"low": 100_000, "likely": 120_000, "high": 150_000}},
        "done": [{"item": "fix-point", "minutes": 120}, {"item": "commission"}, {"item": "tails-unheard-of"}],
        "hours": 4, "materials": 5_000, "paid": 160_000,
        "surprises": [{"fact": "weak-signal", "was": true}],
    });
    assert!(refused(&["calibrate", "-"], &job.to_string()).contains("tails-unheard-of"));
    let mut job = job;
    job["done"][2]["item"] = json!("glands");
    let lines = format!("{job}\n{job}\n");
    let told_only = told(&["calibrate", "-"], &lines);
    assert!(told_only.contains("0 of 2 jobs fell inside") && told_only.contains("Nothing is proposed"), "{told_only}");
    let made: Value =
        serde_json::from_str(&told(&["calibrate", "-", "--setup", setup, "--json", "--out", next], &lines)).unwrap();
    let operations = made["proposal"].as_array().unwrap();
    assert_eq!(operations[0], json!({"op": "test", "path": "/changed", "value": "2026-11-01"}));
    assert!(
        operations.iter().any(|operation| operation["path"] == "/priors/weak_signal" && operation["op"] == "replace")
    );
    let taken: Value = serde_json::from_str(&std::fs::read_to_string(next).unwrap()).unwrap();
    assert!(taken["calibration"]["labour"].as_f64().unwrap() > 1.0);
    assert_eq!(taken["calibration"]["assumed"]["/priors/weak_signal"], 0.3);
    // The same jobs again change nothing: they are counted once.
    assert!(told(&["calibrate", "-", "--setup", next], &lines).contains("Nothing to change"));
}

#[test]
fn what_is_wrong_is_named() {
    assert!(refused(&["setup", "name=Invented"], "").contains("telephone"));
    assert!(refused(&["setup", "hour"], "").contains("KEY=VALUE"));
    assert!(refused(&["calibrate", "-"], "{\"hours\":1}\n{\"hours\":-1}\n").contains("line 2"));
    let folder = tempfile::tempdir().unwrap();
    let setup = folder.path().join("setup.json");
    std::fs::write(&setup, serde_json::to_string(&presurvey::config::demo_setup()).unwrap()).unwrap();
    assert!(
        refused(&["prices", "-", "--setup", setup.to_str().unwrap()], "colour\nred\n")
            .contains("no column for the item")
    );
}
