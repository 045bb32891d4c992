//! The native program, run as a person would: JSON on standard output and nothing else, refusals on standard error, code 2.

use crate::house::enquiry;
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
    assert_eq!(
        schemas.as_object().unwrap().keys().collect::<Vec<_>>(),
        ["answers", "config", "enquiry", "jobs", "setup"]
    );
    assert!(schemas["answers"]["properties"]["meter"].is_object());
    assert!(schemas["setup"]["properties"]["calibration"].is_object());
    assert!(schemas["config"]["properties"].get("calibration").is_none());
    assert!(schemas["enquiry"]["properties"]["envelope"].is_object());
}

/// A form of 0.1.0 or 0.2.0 that reads a file beside it knows neither today's fields nor today's work items.
#[test]
fn a_config_is_printed_for_a_form_that_was_copied_before() {
    let setup = serde_json::to_string(&presurvey::config::demo_setup()).unwrap();
    let config = presurvey::config::demo_config();
    for (format, printed) in
        [("1", config.in_format(1)), ("2", config.in_format(2)), ("3", config.in_format(3)), ("4", config.in_format(4))]
    {
        assert_eq!(json_of(&["publish", "-", "--format", format], &setup), printed);
    }
    assert!(config.in_format(2).to_string().len() < config.in_format(3).to_string().len());
    assert!(refused(&["publish", "-", "--format", "5"], &setup).contains("1..=4"));
}

#[test]
fn publishing_leaves_everything_private_out() {
    let setup = serde_json::to_string(&presurvey::config::demo_setup()).unwrap();
    let config = json_of(&["publish", "-"], &setup);
    assert_eq!(config, serde_json::to_value(presurvey::config::demo_config()).unwrap());
    let words = refused(&["publish", "-"], &setup.replace("\"mark_up\":0.2", "\"mark_up\":200"));
    assert!(words.contains("`rates.mark_up`"), "{words}");
}

/// A sentence is named by its path, with what it may be, and nothing is printed.
#[test]
fn wording_that_would_have_no_effect_is_not_published() {
    let mut setup = presurvey::config::demo_setup();
    let mut refused_with = |key: &str, text: &str| {
        setup.wording = [(key.to_owned(), text.to_owned())].into();
        refused(&["publish", "-"], &serde_json::to_string(&setup).unwrap())
    };
    let words = refused_with("pl.sned", "Wyślij");
    let expected =
        "standard input: `wording[\"pl.sned\"]`: a key that no sentence has is not allowed; it may be `pl.send`, or";
    assert!(words.contains(expected), "{words}");
    let words = refused_with("next-1", "Ask {instaler}.");
    assert!(
        words.contains("`wording[\"next-1\"]`: the place {instaler} is not allowed; it may be {installer}"),
        "{words}"
    );
    assert!(refused_with("de.send", "Senden").contains("the language `de`"));
    assert!(refused_with("send", " ").contains("an empty text"));
    assert!(refused_with("unnamed", "x").contains("the first screen comes before the setup does"));
}

/// As the wording files write them, or as README does: what is published is what forms of every version read.
#[test]
fn places_may_be_copied_from_the_wording_files() {
    let mut setup = presurvey::config::demo_setup();
    let key = || "next-1".to_owned();
    for place in ["{installer}", "{$installer}", "{ $installer }"] {
        setup.wording = [(key(), format!("You send this to {place}."))].into();
        let setup = serde_json::to_string(&setup).unwrap();
        for format in ["1", "2", "3"] {
            let config = json_of(&["publish", "-", "--format", format], &setup);
            assert_eq!(config["wording"], json!({ "next-1": "You send this to {installer}." }), "{place}, {format}");
        }
    }
}

/// What a mail has as `enquiry.json` is opened by the command that takes answers, with the installer's own prices.
#[test]
fn a_record_of_an_enquiry_is_assessed_as_its_answers_are() {
    let folder = tempfile::tempdir().unwrap();
    let mut setup = presurvey::config::demo_setup();
    setup.invented = false;
    setup.rates.hour = presurvey::units::Pence(9_900);
    let file = folder.path().join("my-setup.json");
    std::fs::write(&file, serde_json::to_string(&setup).unwrap()).unwrap();
    let own = ["assess", "-", "--setup", file.to_str().unwrap()];

    let mut enquiry = enquiry(1);
    let home = include_str!("../homes/easy-detached/answers.json");
    enquiry.payload.answers = serde_json::from_str(home).unwrap();
    let record = serde_json::to_string(&enquiry).unwrap();
    let assessment = json_of(&own, &record);
    assert_eq!(assessment, json_of(&own, home), "the day is the answers' own");
    assert_eq!(assessment["config"], json!(setup.publish().version));
    assert_ne!(assessment["band"], json_of(&["assess", "-"], &record)["band"]);
    assert!(json_of(&["assess", "-", "--working"], &record)["working"].is_array());

    enquiry.payload.answers.as_of = None;
    let day = json_of(&own, &serde_json::to_string(&enquiry).unwrap())["as_of"].clone();
    assert_eq!(day, json!(enquiry.payload.as_of.to_string()), "else the record's");
    let words = refused(&own, &record.replace("\"client_key\":\"", "\"client_key\":\"x"));
    assert!(words.contains("standard input: `envelope.client_key`"), "{words}");
    assert!(refused(&own, "{\"version\":9}").contains("newer than this program"));
    assert!(refused(&[&own[..], &["--config", "c.json"]].concat(), "").contains("--config"));
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
    let home = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/homes/easy-detached/answers.json");
    assert!(json_of(&["assess", home], "").get("working").is_none());
    let shown = json_of(&["assess", home, "--working"], "");
    let drop = shown["working"].as_array().unwrap().iter().find(|figure| figure["figure"] == "voltage drop").unwrap();
    // 8 m of 6 mm² armoured at 7.9 mV/A/m and 32 A (BS 7671 Table 4E4B): 2.022 V, 0.9 % of 230 V.
    assert_eq!(drop["value"], "2.022 V: 0.88 % of 230 V, within 9.2 V");
    assert!(drop["source"].as_str().unwrap().contains("BS 7671"));
}

#[test]
fn a_figure_is_worked_out_and_shown_with_its_table_rows() {
    let output = presurvey(&["figure", "voltage-drop", "length=20m", "size=6mm2", "current=32A"], "");
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && output.stderr.is_empty());
    for part in [
        "4.672 V",
        "2.03 %",
        "How: ",
        "BS 7671 Table 4D5",
        "[a copy or quotation of it]",
        "Source: BS 7671",
        "not a design",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
    let json = json_of(&["figure", "voltage-drop", "length=20m", "size=6mm2", "current=32A", "--json"], "");
    assert_eq!((&json["number"], &json["unit"]), (&json!(4.672), &json!("V")));
    assert_eq!(json["rows"][0]["table"], "BS 7671 Table 4D5");
}

#[test]
fn figures_alone_are_listed_and_one_alone_is_told_of() {
    let all = json_of(&["figure", "--json"], "");
    let listed = String::from_utf8(presurvey(&["figure"], "").stdout).unwrap();
    assert!(listed.contains(" current=A "), "a key is listed with its unit");
    for figure in all.as_array().unwrap() {
        let name = figure["name"].as_str().unwrap();
        assert!(listed.contains(name), "{name}");
        let told = String::from_utf8(presurvey(&["figure", name], "").stdout).unwrap();
        for input in figure["inputs"].as_array().unwrap() {
            assert!(told.contains(input["key"].as_str().unwrap()), "{name}: {input}");
        }
        // Its example works.
        let example = figure["example"].as_str().unwrap();
        let arguments: Vec<&str> = ["figure", name].into_iter().chain(example.split(' ')).collect();
        assert!(presurvey(&arguments, "").status.success(), "{name} {example}");
    }
}

#[test]
fn a_figure_that_can_not_be_worked_says_what_is_allowed() {
    assert!(refused(&["figure", "voltage-dorp", "length=20m"], "").contains("voltage-drop"));
    assert!(refused(&["figure", "voltage-drop", "lenght=20m"], "").contains("it takes length"));
    assert!(refused(&["figure", "voltage-drop", "length=20"], "").contains("its unit is missing"));
    assert!(refused(&["figure", "voltage-drop", "length=20m"], "").contains("needs `current`"));
    assert!(refused(&["figure", "fault-current", "impedance=0ohm"], "").contains("has no answer"));
}

/// A clause's part of the sheet.
fn clause_of<'a>(sheet: &'a str, clause: &str) -> &'a str {
    let (_, from) = sheet.split_once(&format!("\nBS 7671 {clause} (")).unwrap_or_else(|| panic!("no {clause}"));
    from.split("\n\n").next().unwrap()
}

/// Each clause that was not checked stands once, in its order, and every value of it has a box.
#[test]
fn a_qualified_person_signs_clause_by_clause_with_a_box_by_every_value() {
    let page = String::from_utf8(presurvey(&["sources", "--sign"], "").stdout).unwrap();
    let json = json_of(&["sources", "--json"], "");
    let clauses = json["clauses_not_checked"].as_object().unwrap();
    for clause in clauses.keys() {
        assert!(["seen", "remembered"].iter().any(|met| page.contains(&format!("\n{clause} ({met}"))), "{clause}");
    }
    assert!(page.contains("Signed: ___") && page.contains("A4:2026"));
    let at = |clause: &str| page.find(&format!("\nBS 7671 {clause} (")).unwrap();
    assert!(
        at("411.4.4") < at("722.531.3.101")
            && at("722.531.3.101") < at("Table 41.1")
            && at("Table 54.7") < at("Table 54.8")
    );
    let of_bs_7671 = |table: &&serde_json::Value| table["table"].as_str().unwrap().starts_with("BS 7671 ");
    for table in json["tables"].as_array().unwrap().iter().filter(of_bs_7671) {
        let clause = clause_of(&page, table["table"].as_str().unwrap().trim_start_matches("BS 7671 "));
        let (_, rows) = clause.split_once(table["gives"].as_str().unwrap()).unwrap();
        for row in table["rows"].as_array().unwrap() {
            assert!(rows.contains(row["value"].as_str().unwrap()), "{row} of {table}");
        }
    }
    assert!(clause_of(&page, "Table 4D5").contains("[ ] 6 mm² → 47 A"), "{page}");
    assert!(clause_of(&page, "443.4.1").contains("flag no-surge-device") && page.contains("unless the owner declines"));
}

/// An edition that the copy was of is said, and what was never seen is not said to have been.
#[test]
fn the_sheet_says_of_which_edition_a_clause_was_seen_or_is_remembered() {
    let page = String::from_utf8(presurvey(&["sources", "--sign"], "").stdout).unwrap();
    for (clause, met) in [
        ("Table 4C1", "seen: 1992 (16th edition), today's number: the copy calls it Table 4.4; not"),
        ("Table 4B1", "seen in part: 1992 (16th edition), today's number: the copy calls it Table 4.3; in part"),
        ("Appendix 4, 5.1.1", "seen in part: 1992 (16th edition), today's number: the copy has none; in part"),
        ("411.3.2.3", "seen: 2008 (17th edition); not"),
        ("Table 54.8", "seen: 2008 (17th edition); not"),
        ("443.4.1", "seen: 2018+A2:2022"),
        ("530.3.201", "remembered as of A3:2024; not"),
        ("411.4.4", "remembered as of A2:2022; not"),
        ("Table 54.7", "seen: edition of the copy not kept; not"),
        ("Table 4D5", "seen in part: edition of the copy not kept; in part remembered as of A2:2022; not"),
    ] {
        assert!(clause_of(&page, clause).starts_with(met), "{clause}: {}", clause_of(&page, clause));
    }
    for clause in [
        "511",
        "134.1.1",
        "512.1.5",
        "527.2",
        "530.3.201",
        "536.4.3.2",
        "543.1.4",
        "Appendix 4, section 6.1",
        "Table 41.3",
        "Table 41.5",
        "section 705",
    ] {
        let entries = clause_of(&page, clause).lines().skip(1).filter(|line| !line.starts_with("    "));
        for entry in entries {
            assert!(entry.contains("[from memory: first]"), "{clause}: {entry}");
        }
    }
    // What is stated to the installer and what a rule goes by stand there as well.
    for clause in ["722.314.101", "421.1.201", "411.3.2.6", "415.2", "433.1.1", "705.411.1", "705.415.2.1", "705.422.7"]
    {
        assert!(
            clause_of(&page, clause).contains(if clause == "433.1.1" { "rule figures/feed_working" } else { "[ ] " }),
            "{clause}"
        );
    }
    for clause in ["722.411.4.1 (i)", "722.411.4.1 (ii)", "722.411.4.1 (iii)", "722.512.2.202", "522.6.202", "Part 6"] {
        assert!(!clause_of(&page, clause).is_empty());
    }
    let sensed = clause_of(&page, "722.531.3.101").lines().find(|line| line.contains("direct-current-not-sensed"));
    assert!(sensed.unwrap().contains("[from memory: first]"));
}

#[test]
fn the_sources_are_told_with_what_was_not_checked() {
    let text = String::from_utf8(presurvey(&["sources"], "").stdout).unwrap();
    let (_, alone) = text.split_once("Not counted as checked").unwrap();
    assert!(
        alone.contains("method 101")
            && !alone.contains("method 103 (insulated stud wall, not touching the lining): 2.5")
    );
    assert!(text.contains("not checked against 2018+A4:2026"));
    assert!(text.contains("BS 7671 411.4.4 [remembered as of A2:2022; not checked against A4]"), "{text}");
    let json = json_of(&["sources", "--json"], "");
    assert_eq!(json["amendments"]["BS 7671 411.4.4"], "remembered as of A2:2022; not checked against A4");
    let tables = json["tables"].as_array().unwrap();
    assert!(
        tables.iter().any(|table| table["checked"] == false) && tables.iter().any(|table| table["checked"] == true)
    );
    assert!(json["clauses_not_checked"]["BS 7671 722.531.3.101"].is_array());
}

/// Everything with a figure is listed, for people and for programs: with where it is from and what was seen of it.
#[test]
fn the_sources_list_everything_with_its_grade() {
    let text = String::from_utf8(presurvey(&["sources"], "").stdout).unwrap();
    for wanted in [
        "Table 4D4A (edition of the copy not kept) [a copy or quotation of it]: armoured 70 °C, two-core",
        "finds errors of typing only",
        "the publication itself, textbooks' own: D. Locke, Guide to the Wiring Regulations (Wiley); J. Whitfield, The Electricians Guide (EPA Press); no row of BS 7671 was read in the standard",
        "independent second source",
        "loop_unseen.terrace: 0.15 [common practice, no source]",
        "travel: 10 / 20 / 40 min, £3 / £6 / £12 [invented, to be confirmed]",
        "hour: £45 [invented, to be confirmed]",
        "VAT from 2011-01-04: 20 % [from memory]",
        "looped-supply [the publication itself]: Energy Networks Association",
        "site/loads.rs, SHOWERS_TOGETHER: 0.3 [common practice, no source]",
        "config/public.rs, default, ask_above: 60 A [the publication itself]: Energy Networks Association",
        "government grant for residential landlords, for each socket, up to 200 sockets a year from 2026-04-01, read 2026-11-29: up to £500 [a copy",
        "wait-network-operator-visit: commonly two to six weeks until somebody comes to look [common practice, no source]",
        "supply_number.rs, COUNTS: 13, 17, 19, 23, 29, 31, 37, 41 [from memory]",
        "supply_number.rs, AREAS: Eastern England, East Midlands",
        "config/public.rs, default, signal_good: −67 dBm",
        "site/loads.rs, HEAT_PUMP: 2.5 kW, 4 kW, 6 kW [common practice, no source]: A heat pump's electrical input",
        "answers/raw_answer.rs, bounds of Amps: 5 A, 400 A",
        "agreements: the drive is shared: 0.6",
        "site/loads.rs, loads: electric: 0.6, OVEN: 0.25, ZERO: 0.15 [common practice, no source]: Cooking where nobody could tell",
        "site/nation.rs, WALES: CF, SA, NP [from memory]",
        "line circuit: Circuit: one charge point, one circuit, one overcurrent device [from memory]: BS 7671 722.314.101",
        "line mounting-height: Mounting height: connector or socket 0.5 to 1.5 m above the ground [from memory]: IEC 60364-7-722",
        "outside 207 to 253 V, off within 5 s [from memory]: BS 7671 722.411.4.1 (iii) and (iv): 70 V as quoted by an equipment maker",
        "voltage to earth over which a device against a broken combined conductor opens: 70 V",
        "bonded metal out of reach up to, above the ground: 2 m",
        "site/board.rs, infer: 0.1 [common practice, no source]",
    ] {
        assert!(text.contains(wanted), "{wanted} in {text}");
    }
    let json = json_of(&["sources", "--json"], "");
    for (part, least) in [
        ("calculations", 25),
        ("assumptions", 50),
        ("defaults", 40),
        ("money", 3),
        ("flags", 50),
        ("cited", 40),
        ("weights", 100),
    ] {
        let listed = json[part].as_array().unwrap();
        assert!(listed.len() >= least, "{part}: {}", listed.len());
        for one in listed {
            assert!(
                ["name", "source", "grade"].iter().all(|key| one[key].as_str().is_some_and(|said| !said.is_empty())),
                "{one}"
            );
        }
    }
    let grade = |part: &str, name: &str| {
        let listed = json[part].as_array().unwrap();
        listed.iter().find(|one| one["name"] == name).unwrap_or_else(|| panic!("no {name}"))["grade"].clone()
    };
    for name in ["loop-limit", "loop-impedance", "electrode-limit", "earthing-conductor"] {
        assert_eq!(grade("calculations", name), grade("money", "VAT from 2011-01-04"), "{name} is from memory");
    }
    assert_eq!(grade("flags", "type-ac-upstream"), grade("calculations", "measured-limit"), "a copy");
    assert_ne!(grade("flags", "type-ac-upstream"), grade("flags", "looped-supply"));
    let twice = |gives: &str| {
        let tables = json["tables"].as_array().unwrap();
        tables.iter().find(|table| table["gives"] == gives).unwrap()["rows_seen_twice"].as_u64().unwrap()
    };
    assert_eq!((twice("armoured 70 °C, two-core, voltage drop"), twice("ambient air outdoors")), (2, 0));
}

#[test]
fn every_figure_of_a_worked_home_comes_with_its_working() {
    let home = json!({
        "parking": { "miles_a_day": 30 },
        "cost": { "day": 28, "night": 9 },
        "route": { "length": { "value": 20, "unit": "metres" }, "mostly": "soft-ground" },
    });
    let assessment = json_of(&["assess", "-", "--working"], &home.to_string());
    let working = assessment["working"].as_array().unwrap();
    let named = |name: &str| {
        let found = working.iter().find(|figure| figure["figure"] == name);
        found.unwrap_or_else(|| panic!("no {name} in {working:?}"))
    };
    for name in [
        "existing demand by likely use",
        "existing demand by device ratings",
        "maximum demand with the charge point",
        "headroom",
        "fixed limit",
        "load sensing",
        "cable size",
        "voltage drop",
        "earth fault loop impedance",
        "adiabatic",
        "main bonding",
        "earthing conductor",
        "meter tails",
        "energy a night",
        "money a year, by day",
        "money a year, at night",
    ] {
        let figure = named(name);
        assert!(!figure["formula"].as_str().unwrap().is_empty() && !figure["source"].as_str().unwrap().is_empty());
    }
    let rows = named("cable size")["rows"].as_array().unwrap();
    assert!(
        rows.iter().any(|row| row["table"] == "BS 7671 Table 4D4A" && row["grade"] == "a copy or quotation of it"),
        "{rows:?}"
    );
    assert_eq!(assessment["figures"]["cable_size"].as_f64(), named("cable size")["number"].as_f64());
    let fits = assessment["figures"]["fixed_limit"].as_f64(); // nothing where nothing fits
    assert_eq!(fits.or(Some(0.0)), named("fixed limit")["number"].as_f64());
    // 30 miles × 0.3 kWh × 365 × 9 p.
    assert_eq!(named("money a year, at night")["value"], "£295.65");
}

/// The commands that a help lists.
fn commands(help: &str) -> Vec<String> {
    let Some((_, listed)) = help.split_once("Commands:\n") else { return Vec::new() };
    let names = listed.lines().take_while(|line| !line.is_empty()).filter(|line| !line.starts_with("   "));
    let names = names.map(|line| line.split_whitespace().next().unwrap().to_owned());
    names.filter(|name| name != "help").collect()
}

/// Looks at the help of a command, and at those of the commands below it.
fn has_its_help(command: &[&str]) {
    let output = presurvey(&[command, &["--help"]].concat(), "");
    let help = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && output.stderr.is_empty(), "{command:?}");
    let first = help.lines().next().unwrap();
    assert!(first.split(' ').count() >= 5 && !first.starts_with("Usage"), "{command:?}: {first}");
    let (above, examples) = help.split_once("\nExample").unwrap_or_else(|| panic!("no example: {help}"));
    let examples: Vec<&str> = examples.lines().skip(1).map(str::trim).filter(|line| !line.is_empty()).collect();
    for example in examples {
        let words: Vec<&str> = example.split([' ', '=']).collect();
        assert_eq!(words[..=command.len()], [&["presurvey"], command].concat(), "{example}");
        for option in words.iter().filter(|word| word.starts_with("--")) {
            assert!(above.contains(&format!(" {option}")), "{command:?} has no {option}");
        }
    }
    for below in commands(&help) {
        has_its_help(&[command, &[&below]].concat());
    }
}

#[test]
fn every_help_says_what_the_command_does_with_an_example_that_it_understands() {
    let whole = String::from_utf8(presurvey(&["--help"], "").stdout).unwrap();
    assert!(whole.contains("ends with 0") && whole.contains("2 if what it was given is not allowed"), "{whole}");
    let commands = commands(&whole);
    assert!(commands.len() >= 15 && commands.contains(&"serve".to_owned()), "{commands:?}");
    for command in &commands {
        has_its_help(&[command]);
    }
}

#[test]
fn a_price_list_of_which_nothing_was_taken_writes_nothing_and_fails() {
    let folder = tempfile::tempdir().unwrap();
    let [setup, out] = ["setup.json", "out.json"].map(|name| folder.path().join(name));
    std::fs::write(&setup, serde_json::to_string(&presurvey::config::demo_setup()).unwrap()).unwrap();
    let arguments = ["prices", "-", "--setup", setup.to_str().unwrap(), "--out", out.to_str().unwrap()];
    for list in ["item,unit,cost\nunicorns,each,£13\n", "item,unit,cost\n"] {
        let words = refused(&arguments, list);
        assert!(words.contains("0 lines taken") && words.contains("not one line was taken"), "{words}");
        assert!(!out.exists());
    }
    assert!(refused(&arguments, "item,unit,cost\nunicorns,each,£13\n").contains("line 2, "), "with the report");
    assert!(presurvey(&arguments, "item,unit,cost\nglands,each,£13\n").status.success());
    assert!(out.exists());
}

/// On a terminal of its own, that `script` of util-linux makes: what is typed, and what is shown.
#[cfg(target_os = "linux")]
fn typed(data: &str, lines: &[&str]) -> (Option<i32>, String) {
    let command = format!("{} password --data {data}", env!("CARGO_BIN_EXE_presurvey"));
    let mut child = Command::new("script")
        .args(["--quiet", "--return", "--echo", "never", "--command", &command, "/dev/null"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("this test needs `script` of util-linux");
    let (mut keys, mut screen) = (child.stdin.take().unwrap(), child.stdout.take().unwrap());
    let mut shown = String::new();
    for line in lines {
        // Typed once it is asked for: what is typed before would be shown by the terminal itself.
        let before = shown.len();
        while !shown[before..].contains(": ") {
            let mut byte = [0];
            assert_eq!(std::io::Read::read(&mut screen, &mut byte).unwrap(), 1, "asked no more: {shown}");
            shown.push(char::from(byte[0]));
        }
        keys.write_all(format!("{line}\n").as_bytes()).unwrap();
    }
    std::io::Read::read_to_string(&mut screen, &mut shown).unwrap();
    drop(keys);
    (child.wait().unwrap().code(), shown)
}

#[test]
#[cfg(target_os = "linux")]
fn on_a_terminal_a_password_is_asked_for_twice_and_not_shown() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let data = data.to_str().unwrap();
    let (code, shown) = typed(data, &["an invented password", "an invented passwort"]);
    assert!(code == Some(2) && shown.contains("not the same"), "{code:?} {shown}");
    assert!(!shown.contains("invented"), "{shown}");
    assert!(!std::path::Path::new(data).exists(), "nothing was made");
    let (code, shown) = typed(data, &["an invented password", "an invented password"]);
    assert!(code == Some(0) && shown.contains("The password is set") && !shown.contains("invented"), "{shown}");
    let (code, shown) = typed(data, &["short", "short"]);
    assert!(code == Some(2) && shown.contains("12"), "{shown}");
}
