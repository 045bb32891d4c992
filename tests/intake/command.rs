//! The native program, run as a person would: JSON on standard output and nothing else, refusals on standard error, code 2.

use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Output, Stdio};

pub fn presurvey(arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_presurvey"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes()); // a program that refuses at once reads nothing
    child.wait_with_output().unwrap()
}

fn refused(arguments: &[&str], input: &str) -> String {
    let output = presurvey(arguments, input);
    let words = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{words}");
    assert!(output.stdout.is_empty(), "nothing on standard output");
    words
}

fn json_of(arguments: &[&str], input: &str) -> Value {
    let output = presurvey(arguments, input);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn no_answers_at_all_are_assessed_with_the_invented_config() {
    let assessment = json_of(&["assess", "-"], "{}");
    assert_eq!(assessment["invented"], true);
    for field in ["complexity", "gates", "band", "flags", "work", "open"] {
        assert!(assessment.get(field).is_some(), "{field}");
    }
}

#[test]
fn a_config_of_ones_own_is_used() {
    let folder = tempfile::tempdir().unwrap();
    let mut config = serde_json::to_value(presurvey::config::demo_config()).unwrap();
    config["invented"] = json!(false);
    config["version"] = json!("of one's own");
    let file = folder.path().join("config.json");
    std::fs::write(&file, config.to_string()).unwrap();
    let assessment = json_of(&["assess", "-", "--config", file.to_str().unwrap()], "{}");
    assert_eq!((&assessment["invented"], &assessment["config"]), (&json!(false), &json!("of one's own")));
}

#[test]
fn a_bad_answer_is_named_by_file_line_field_what_was_there_and_what_may_be() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("home.json");
    std::fs::write(&file, "{\n  \"meter\": {\n    \"fuse_carriers\": 12\n  }\n}\n").unwrap();
    let words = refused(&["assess", file.to_str().unwrap()], "");
    for part in ["home.json", "line 3", "`meter.fuse_carriers`", "12", "1 to 3"] {
        assert!(words.contains(part), "{part} in {words}");
    }
}

#[test]
fn bad_input_of_every_kind_is_refused_with_words() {
    for (input, part) in [
        ("", "EOF"),
        ("{", "EOF"),
        ("{} {}", "trailing"),
        ("[]", "line 1"),
        ("{\"meter\":{\"fuses\":1}}", "fuses"),
        ("{\"home\":{\"postcode\":\"nowhere\"}}", "home.postcode"),
        ("{\"hazard\":{\"signs\":[\"smoke\",\"dragons\"]}}", "dragons"),
        ("{\"loads\":{\"shower_power\":-1}}", "loads.shower_power"),
        ("{\"loads\":{\"shower_power\":1e999}}", "number"),
        ("{\"as_of\":\"yesterday\"}", "as_of"),
    ] {
        let words = refused(&["assess", "-"], input);
        assert!(words.contains("standard input") && words.contains(part), "{input}: {words}");
    }
    assert!(refused(&["assess", "/no/such/file.json"], "").contains("/no/such/file.json"));
}

#[test]
fn every_problem_of_a_config_is_listed() {
    let folder = tempfile::tempdir().unwrap();
    let mut config = serde_json::to_value(presurvey::config::demo_config()).unwrap();
    config["installer"]["id"] = json!("Not Allowed");
    config["charge_points"] = json!([]);
    config["rates"]["step"] = json!(1);
    let file = folder.path().join("config.json");
    std::fs::write(&file, config.to_string()).unwrap();
    let words = refused(&["assess", "-", "--config", file.to_str().unwrap()], "{}");
    for field in ["`installer.id`", "`charge_points`", "`rates.step`"] {
        assert!(words.contains(field), "{field} in {words}");
    }
}

#[test]
fn schemas_are_of_the_four_kinds_of_file() {
    let schemas = json_of(&["schema"], "");
    assert_eq!(schemas.as_object().unwrap().keys().collect::<Vec<_>>(), ["answers", "config", "enquiry", "setup"]);
    assert!(schemas["answers"]["properties"]["meter"].is_object());
    assert!(schemas["setup"]["properties"]["calibration"].is_object());
    assert!(schemas["config"]["properties"].get("calibration").is_none());
    assert!(schemas["enquiry"]["properties"]["envelope"].is_object());
}

#[test]
fn publishing_leaves_everything_private_out() {
    let setup = serde_json::to_string(&presurvey::config::demo_setup()).unwrap();
    let config = json_of(&["publish", "-"], &setup);
    assert_eq!(config, serde_json::to_value(presurvey::config::demo_config()).unwrap());
    let words = refused(&["publish", "-"], &setup.replace("\"mark_up\":0.2", "\"mark_up\":200"));
    assert!(words.contains("`rates.mark_up`"), "{words}");
}

#[test]
fn a_short_password_is_refused_and_a_good_one_is_set() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().to_str().unwrap();
    let words = refused(&["password", "--data", data], "short\n");
    assert!(words.contains('5') && words.contains("12"), "{words}");
    assert!(presurvey(&["password", "--data", data], "an invented password\n").status.success());
}

#[test]
fn the_working_comes_only_when_asked_for() {
    let home = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/homes/easy-detached/answers.json");
    assert!(json_of(&["assess", home], "").get("working").is_none());
    let shown = json_of(&["assess", home, "--working"], "");
    let drop = shown["working"].as_array().unwrap().iter().find(|figure| figure["figure"] == "voltage drop").unwrap();
    // 8 m of 6 mm² armoured at 7.9 mV/A/m and 32 A (BS 7671 Table 4E4B): 2.022 V, 0.9 % of 230 V.
    assert_eq!(drop["value"], "2.022 V (0.9 % of 230 V)");
    assert!(drop["source"].as_str().unwrap().contains("BS 7671"));
}
