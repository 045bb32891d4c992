//! Several installers in one process: each has what is theirs, nobody has what is another's, and setups are kept in versions.

use crate::command::presurvey;
use crate::house::{PASSWORD, PHOTO_SECRET, SECRET, enquiry, picture, sha256};
use crate::operating::{LONG, counted, ends, line_with, log_of, observed, signal};
use crate::running::{Running, serving, start_by};
use presurvey::config::{Secret, Setup, demo_setup};
use presurvey::enquiry::Enquiry;
use presurvey::service::{Service, set_password};
use serde_json::{Value, json};
use sqlx::sqlite::SqliteConnectOptions;
use sqlx::{AssertSqlSafe, ConnectOptions, Connection, Row};
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::mpsc;

/// The other installer's password.
const OTHERS: &str = "another invented password";
const PASSWORDS: [&str; 2] = [PASSWORD, OTHERS];
/// Where each installer's addresses begin.
const AT: [&str; 2] = ["", "/second-firm"];
const IDS: [&str; 2] = ["first-firm", "second-firm"];

/// A data folder, and the setups of two installers.
struct Place {
    folder: tempfile::TempDir,
}

impl Place {
    fn new() -> Self {
        let place = Self { folder: tempfile::tempdir().unwrap() };
        for id in IDS {
            place.write(id, &setup(id));
        }
        let given = presurvey(&["password", "--data", &place.data_text(), "--installer", IDS[1]], OTHERS);
        assert!(given.status.success(), "{}", String::from_utf8_lossy(&given.stderr));
        place
    }

    fn file(&self, id: &str) -> PathBuf {
        self.folder.path().join(format!("{id}.json"))
    }

    fn write(&self, id: &str, setup: &Setup) {
        std::fs::write(self.file(id), serde_json::to_string_pretty(setup).unwrap()).unwrap();
    }

    fn data(&self) -> PathBuf {
        self.folder.path().join("data")
    }

    fn data_text(&self) -> String {
        self.data().to_str().unwrap().to_owned()
    }

    /// The data folder of one of the two.
    fn data_of(&self, which: usize) -> PathBuf {
        if which == 0 { self.data() } else { self.data().join("installers").join(IDS[which]) }
    }

    /// The command that serves those whose setups are named.
    fn serve(&self, named: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_presurvey"));
        command.args(serving(&self.data()));
        for id in named {
            command.arg("--setup").arg(self.file(id));
        }
        command.env("PRESURVEY_PASSWORD", PASSWORD);
        command
    }

    /// What the program says that does not start by this.
    fn refused(&self, mut command: Command) -> String {
        let output = command.output().unwrap();
        let words = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{words}");
        words
    }

    fn run(&self, arguments: &[&str]) -> String {
        let data = self.data_text();
        let output = presurvey(&[&[arguments[0], "--data", &data], &arguments[1..]].concat(), "");
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    }
}

fn setup(id: &str) -> Setup {
    let mut setup = Setup { mail_to: None, ..demo_setup() };
    setup.installer.id = id.into();
    setup.installer.name = format!("The invented {id}");
    setup
}

/// An enquiry that one of the two is sent, with words of its own.
fn enquiry_for(which: usize, number: u64) -> Enquiry {
    let mut sent = enquiry(number + 1000 * which as u64);
    sent.envelope.installer = IDS[which].into();
    sent.payload.contact.name = format!("Homeowner of {}", IDS[which]);
    sent.payload.contact.note = format!("gate of {}", IDS[which]);
    sent.envelope.deletion_hash = sha256(secrets(which)[0].as_bytes());
    sent.envelope.addition_hash = Some(sha256(secrets(which)[1].as_bytes()));
    sent
}

/// The secrets that delete such an enquiry and that add photos to it.
fn secrets(which: usize) -> [String; 2] {
    [SECRET, PHOTO_SECRET].map(|secret| format!("{secret} of {}", IDS[which]))
}

struct Answered {
    status: u16,
    head: String,
    body: Vec<u8>,
}

impl Answered {
    fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|why| panic!("{why}: {}", self.text()))
    }
}

/// One plain request, whose answer may be anything.
fn ask(running: &Running, method: &str, path: &str, headers: &str, body: &[u8]) -> Answered {
    let mut stream = TcpStream::connect(&running.address).unwrap();
    let length = body.len();
    let head = format!(
        "{method} {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n",
        running.address
    );
    stream.write_all(head.as_bytes()).unwrap();
    // Who refuses may hang up before all has been sent.
    let _ = stream.write_all(body);
    let mut answer = Vec::new();
    let _ = stream.read_to_end(&mut answer);
    let end =
        answer.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or_else(|| panic!("{method} {path}: cut off"));
    let head = String::from_utf8(answer[..end].to_vec()).unwrap();
    let status = head.split(' ').nth(1).unwrap().parse().unwrap();
    Answered { status, head, body: answer[end + 4..].to_vec() }
}

fn get(running: &Running, path: &str, headers: &str) -> Answered {
    ask(running, "GET", path, headers, b"")
}

fn post_enquiry(running: &Running, at: &str, enquiry: &Enquiry) -> Answered {
    let record = serde_json::to_vec(enquiry).unwrap();
    ask(running, "POST", &format!("{at}/api/enquiries"), "Content-Type: application/json\r\n", &record)
}

/// Signs in at one of the two; the cookies, as a browser on this machine sends them.
fn signed_in(running: &Running, which: usize) -> Vec<String> {
    let body = json!({ "password": PASSWORDS[which] }).to_string();
    let headers = "X-Presurvey: 1\r\nOrigin: http://127.0.0.1\r\n";
    let answered = ask(running, "POST", &format!("{}/api/session", AT[which]), headers, body.as_bytes());
    assert_eq!(answered.status, 204, "{}", answered.text());
    let cookies = answered.head.lines().filter_map(|line| line.strip_prefix("set-cookie: "));
    cookies.map(|line| line.split(';').next().unwrap().to_owned()).collect()
}

fn with_cookies(cookies: &[String]) -> String {
    format!("X-Presurvey: 1\r\nCookie: {}\r\n", cookies.join("; "))
}

/// The references that one of the two lists.
fn listed(running: &Running, which: usize, headers: &str) -> Vec<String> {
    let list = get(running, &format!("{}/api/installer/enquiries", AT[which]), headers);
    assert_eq!(list.status, 200, "{}", list.text());
    let rows = list.json()["enquiries"].as_array().unwrap().clone();
    rows.iter().map(|row| row["reference"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn each_has_their_own_config_enquiries_and_session_and_keeps_them_through_a_restart() {
    let place = Place::new();
    let running = start_by(&mut place.serve(&IDS), 4);
    let address = &running.address;
    assert_eq!(running.lines[2], format!("homeowner's page of second-firm: http://{address}/second-firm/"));
    assert_eq!(running.lines[3], format!("installer's page of second-firm: http://{address}/second-firm/installer/"));

    let mut references = Vec::new();
    for which in [0, 1] {
        let config = get(&running, &format!("{}/api/config", AT[which]), "").json();
        assert_eq!(config["installer"]["id"], IDS[which]);
        assert_eq!(config["installer"]["name"], format!("The invented {}", IDS[which]));
        let sent = enquiry_for(which, 1);
        let elsewhere = post_enquiry(&running, AT[1 - which], &sent);
        assert_eq!(elsewhere.status, 422, "{}", elsewhere.text());
        let received = post_enquiry(&running, AT[which], &sent);
        assert_eq!(received.status, 201, "{}", received.text());
        references.push(received.json()["reference"].as_str().unwrap().to_owned());
    }

    // One browser has the cookies of both, under names of their own.
    let cookies = [signed_in(&running, 0), signed_in(&running, 1)].concat();
    let names: Vec<_> = cookies.iter().map(|cookie| cookie.split('=').next().unwrap()).collect();
    let expected =
        ["presurvey_session", "presurvey_known", "presurvey_session_second-firm", "presurvey_known_second-firm"];
    assert_eq!(names, expected);
    let both = with_cookies(&cookies);
    let lists = |running: &Running, both: &str| [0, 1].map(|which| listed(running, which, both));
    let expected = [vec![references[0].clone()], vec![references[1].clone()]];
    assert_eq!(lists(&running, &both), expected);
    assert_eq!(ask(&running, "DELETE", "/second-firm/api/session", &both, b"").status, 204);
    assert_eq!(get(&running, "/second-firm/api/session", &both).status, 401, "signed out there");
    assert_eq!(get(&running, "/api/session", &both).status, 200, "and not here");
    running.kill();

    // By what is kept alone; and with the first one's setup named alone the other goes on too.
    for named in [&[][..], &IDS[..1]] {
        let mut command = place.serve(named);
        let running = start_by(command.env_remove("PRESURVEY_PASSWORD"), 4);
        for which in [0, 1] {
            assert_eq!(get(&running, &format!("{}/api/config", AT[which]), "").json()["installer"]["id"], IDS[which]);
            let again = post_enquiry(&running, AT[which], &enquiry_for(which, 1));
            assert_eq!((again.status, &again.json()["reference"]), (200, &json!(references[which])));
        }
        let both = with_cookies(&[signed_in(&running, 0), signed_in(&running, 1)].concat());
        assert_eq!(lists(&running, &both), expected);
        running.kill();
    }
}

/// The paths of every route, from the OpenAPI document that is made of the router; a test of its own keeps any other from being declared.
fn routes(running: &Running) -> BTreeSet<String> {
    let document = get(running, "/api/openapi.json", "").json();
    let paths = document["paths"].as_object().unwrap();
    for (path, item) in paths {
        let methods: Vec<_> = item.as_object().unwrap().keys().collect();
        assert!(methods.iter().all(|method| METHODS.map(str::to_lowercase).contains(method)), "{path}: {methods:?}");
    }
    for route in
        ["/api/config", "/api/installer/enquiries/{client_key}/export", "/api/enquiries/{client_key}/additions"]
    {
        assert!(paths.contains_key(route), "{paths:?}");
    }
    paths.keys().cloned().collect()
}

/// What a database holds, but for what any visitor's request may add: attempts to sign in, events, and when it was last ready.
async fn held(data: &Path) -> String {
    let options = SqliteConnectOptions::new().filename(data.join("presurvey.sqlite")).read_only(true);
    let mut reading = options.connect().await.unwrap();
    let tables: Vec<String> = sqlx::query_scalar(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN ('attempts', 'events', 'sqlite_sequence')",
    )
    .fetch_all(&mut reading)
    .await
    .unwrap();
    assert!(tables.iter().any(|table| table == "sessions"), "{tables:?}");
    let mut all = String::new();
    for table in tables {
        let columns: Vec<String> = sqlx::query_scalar("SELECT name FROM pragma_table_info(?)")
            .bind(&table)
            .fetch_all(&mut reading)
            .await
            .unwrap();
        let columns: Vec<_> = columns.iter().map(|column| format!("quote({column})")).collect();
        let query = format!("SELECT {} FROM {table} ORDER BY rowid", columns.join(" || ',' || "));
        for row in sqlx::query(AssertSqlSafe(query)).fetch_all(&mut reading).await.unwrap() {
            let row: String = row.get(0);
            if !(table == "settings" && row.starts_with("'ready'")) {
                all += &format!("{table}: {row}\n");
            }
        }
    }
    reading.close().await.unwrap();
    all
}

/// Every file of the photo folder.
fn photos(data: &Path) -> BTreeSet<PathBuf> {
    let folders = std::fs::read_dir(data.join("photos")).unwrap().map(|folder| folder.unwrap().path());
    folders.flat_map(|folder| std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path())).collect()
}

/// What somebody has of an installer with one enquiry: the cookies of a session, and every secret that was handed out.
struct Has {
    cookies: String,
    key: String,
    token: String,
    reference: String,
}

fn with_an_enquiry(running: &Running, which: usize) -> Has {
    let mut sent = enquiry_for(which, 1);
    sent.payload.answers.hazard.signs = presurvey::answers::Answer::Known(presurvey::answers::Set::NONE);
    let received = post_enquiry(running, AT[which], &sent);
    assert_eq!(received.status, 201, "{}", received.text());
    let key = sent.envelope.client_key;
    let photo = format!("{}/api/enquiries/{key}/photos/{}", AT[which], sha256(&picture(0)));
    assert_eq!(ask(running, "PUT", &photo, "Content-Type: image/jpeg\r\n", &picture(0)).status, 204);
    let cookies = with_cookies(&signed_in(running, which));
    let asked = json!({ "questions": ["fuse-carriers"] }).to_string();
    let link = format!("{}/api/installer/enquiries/{key}/link", AT[which]);
    let made = ask(running, "POST", &link, &cookies, asked.as_bytes());
    assert_eq!(made.status, 201, "{}", made.text());
    let token = made.json()["fragment"].as_str().unwrap().split_once('.').unwrap().1.to_owned();
    Has { cookies, key, token, reference: received.json()["reference"].as_str().unwrap().to_owned() }
}

/// A day until which records of a job may be kept.
fn next_year() -> String {
    let today = jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date();
    today.saturating_add(jiff::Span::new().years(1)).to_string()
}

/// The bodies that one route or another takes.
fn bodies(which: usize, has: &Has) -> Vec<(&'static str, Vec<u8>)> {
    let json = |value: Value| value.to_string().into_bytes();
    vec![
        ("application/json", Vec::new()),
        ("application/json", serde_json::to_vec(&enquiry_for(which, 1)).unwrap()),
        ("application/json", json(json!({ "password": PASSWORDS[which] }))),
        ("application/json", json(json!({ "questions": ["fuse-carriers"] }))),
        ("application/json", json(json!({ "answers": {}, "handled": true }))),
        ("application/json", json(json!({ "handled": true }))),
        ("application/json", json(json!({ "became": ["invoice"], "until": next_year() }))),
        ("application/json", json(json!({ "answers": { "meter": { "fuse_carriers": 1 } } }))),
        ("application/x-www-form-urlencoded", format!("secret={}", secrets(which)[0]).into_bytes()),
        ("application/x-www-form-urlencoded", format!("secret={}", has.token).into_bytes()),
        ("image/jpeg", picture(0)),
    ]
}

/// The methods by which every route is tried, those that delete last.
const METHODS: [&str; 4] = ["GET", "PUT", "POST", "DELETE"];

/// Tries every route of the installer `at` with every method, with what somebody has of the installer `of`, and with these keys of
/// enquiries. Returns what was answered.
fn sweep(running: &Running, at: usize, keys: &[&str], of: usize, has: &Has) -> Vec<(String, Answered)> {
    let [deletes, adds] = secrets(of);
    let bearers = [&deletes, &adds, &has.token].map(|secret| format!("Authorization: Bearer {secret}\r\n"));
    // The session under the names of the other's cookies too.
    let renamed = match of {
        0 => has.cookies.replace("presurvey_session=", "presurvey_session_second-firm="),
        _ => has.cookies.replace("_second-firm=", "="),
    };
    assert_ne!(renamed, has.cookies);
    let credentials = [&[has.cookies.clone(), renamed][..], &bearers].concat();
    let with_bodies = bodies(of, has);
    let paths: BTreeSet<String> = routes(running)
        .iter()
        .flat_map(|route| keys.iter().map(move |key| route.replace("{client_key}", key)))
        .map(|path| format!("{}{}", AT[at], path.replace("{sha256}", &sha256(&picture(0)))))
        .collect();
    // Signing in and out end the session by which all else is tried.
    let (of_sessions, others): (Vec<_>, Vec<_>) = paths.iter().partition(|path| path.ends_with("/session"));
    let mut answers = Vec::new();
    for paths in [others, of_sessions] {
        for (method, path, with) in METHODS.iter().flat_map(|method| {
            let credentials = &credentials;
            paths.iter().flat_map(move |path| credentials.iter().map(move |with| (method, path, with)))
        }) {
            let none = [("", Vec::new())];
            let bodies = if ["PUT", "POST"].contains(method) { &with_bodies[..] } else { &none };
            for (kind, body) in bodies {
                let headers = format!("{with}Content-Type: {kind}\r\nAccept: text/html, application/json\r\n");
                answers.push((format!("{method} {path}"), ask(running, method, path, &headers, body)));
            }
        }
    }
    answers
}

/// Whether an answer has anything of this installer's enquiry in it.
fn shows(answered: &Answered, of: usize, has: &Has) -> bool {
    let text = answered.text();
    let words = [format!("Homeowner of {}", IDS[of]), format!("gate of {}", IDS[of]), has.reference.clone()];
    words.iter().any(|word| text.contains(word.as_str())) || answered.body == picture(0)
}

async fn nothing_of(victim: usize) {
    let other = 1 - victim;
    let place = Place::new();
    // Nobody reads its log here, and there are thousands of requests.
    let running = start_by(place.serve(&IDS).env("RUST_LOG", "off"), 4);
    let [theirs, mine] = [victim, other].map(|which| with_an_enquiry(&running, which));
    let data = place.data_of(victim);
    let before = (held(&data).await, photos(&data));
    assert!(before.0.contains(&theirs.reference) && before.1.len() == 1, "{}", before.0);
    let at_theirs = sweep(&running, victim, &[&mine.key, &theirs.key], other, &mine);
    let at_mine = sweep(&running, other, &[&theirs.key], other, &mine);
    assert!(at_theirs.len() > 1000, "{}", at_theirs.len());
    for (what, answered) in at_theirs.iter().chain(&at_mine) {
        assert!(!shows(answered, victim, &theirs), "{what}: {}", answered.text());
    }
    assert_eq!((held(&data).await, photos(&data)), before, "nothing is changed");
    // It would be noticed: with what belongs to it an enquiry is read, changed and deleted, by the same requests.
    let at_theirs = sweep(&running, victim, &[&theirs.key], victim, &theirs);
    let limited = at_theirs.iter().find(|(what, answered)| answered.status == 429 && !what.ends_with("/session"));
    assert!(limited.is_none(), "{}", limited.unwrap().0);
    for what in ["", "/export", "/job", "/answers"] {
        let read = format!("/api/installer/enquiries/{}{what}", theirs.key);
        let shown = |(what, answered): &(String, Answered)| what.ends_with(&read) && shows(answered, victim, &theirs);
        assert!(at_theirs.iter().any(shown), "{read}");
    }
    assert!(!held(&data).await.contains(&theirs.reference));
    ends(running);
}

#[tokio::test(flavor = "multi_thread")]
async fn on_no_route_is_anything_of_the_first_read_or_changed_with_what_a_further_one_has() {
    nothing_of(0).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn on_no_route_is_anything_of_a_further_one_read_or_changed_with_what_the_first_has() {
    nothing_of(1).await;
}

#[test]
fn installers_that_do_not_go_together_are_refused_with_words_and_nothing_is_made() {
    let place = Place::new();
    let made = place.data_of(1);
    std::fs::remove_dir_all(place.data()).unwrap();
    for (id, part) in [("api", "an address of the first one already"), ("ready", "choose another `installer.id`")] {
        place.write(id, &setup(id));
        assert!(place.refused(place.serve(&[IDS[0], id])).contains(part), "{id}");
    }
    assert!(
        place.refused(place.serve(&[IDS[0], IDS[0]])).contains("two setups have the `installer.id` \"first-firm\"")
    );
    place.write("wrong", &setup("../second-firm"));
    assert!(place.refused(place.serve(&[IDS[0], "wrong"])).contains("`installer.id`"));
    let whole = std::fs::read_to_string(place.file(IDS[1])).unwrap();
    std::fs::write(place.file("wrong"), whole.replace("\"mark_up\": 0.2", "\"mark_up\": \"a fifth\"")).unwrap();
    let words = place.refused(place.serve(&[IDS[0], "wrong"]));
    assert!(["wrong.json", "line ", "rates.mark_up"].iter().all(|part| words.contains(part)), "{words}");
    assert!(place.refused(place.serve(&[])).contains("keeps no setup yet"));
    assert!(!made.exists() && !place.data().exists());
    for wrong in ["../data", "Second", ""] {
        let refused = presurvey(&["password", "--data", &place.data_text(), "--installer", wrong], OTHERS);
        assert_eq!(refused.status.code(), Some(2), "{wrong:?}");
    }

    // A further one without a password; then in the wrong order.
    let mut command = place.serve(&IDS);
    let output = command.output().unwrap();
    let words = String::from_utf8(output.stderr).unwrap();
    assert!(output.status.code() == Some(1) && words.contains("--installer second-firm"), "{words}");
    let given = presurvey(&["password", "--data", &place.data_text(), "--installer", IDS[1]], OTHERS);
    assert!(given.status.success());
    ends(start_by(&mut place.serve(&IDS), 4));
    for order in [&[IDS[1], IDS[0]][..], &IDS[1..]] {
        let words = place.refused(place.serve(order));
        assert!(words.contains("first"), "{order:?}: {words}");
    }
    ends(start_by(&mut place.serve(&IDS), 4));
}

#[test]
fn each_setup_is_read_anew_by_itself_and_a_wrong_one_stays_as_it_was_alone() {
    let place = Place::new();
    let mut running = start_by(&mut place.serve(&IDS), 4);
    let log = log_of(&mut running);
    let hours = |running: &Running| {
        AT.map(|at| get(running, &format!("{at}/api/config"), "").json()["rates"]["hour"].as_u64().unwrap())
    };
    let before = hours(&running);
    let dearer = |id: &str| {
        let mut setup = setup(id);
        setup.rates.hour.0 += 1_000;
        setup
    };
    place.write(IDS[1], &dearer(IDS[1]));
    std::fs::write(place.file(IDS[0]), "{").unwrap();
    signal(&running, "-HUP");
    let wrong = line_with(&log, "stays");
    assert!(wrong.contains("first-firm.json") && wrong.contains("installer=\"first-firm\""), "{wrong}");
    let taken = line_with(&log, "read anew");
    assert!(taken.contains("installer=\"second-firm\"") && taken.contains("whose setups"), "{taken}");
    let now = hours(&running);
    assert_eq!(now[0], before[0]);
    assert_ne!(now[1], before[1]);
    // A line of a request says whose it is.
    get(&running, "/second-firm/api/config", "");
    let line = line_with(&log, "answered");
    assert!(line.contains("installer=\"first-firm\""), "{line}");
    let mut later = (0..10).map(|_| line_with(&log, "answered"));
    assert!(later.any(|line| line.contains("installer=\"second-firm\"") && line.contains("route=\"/api/config\"")));
    ends(running);
}

#[test]
fn all_must_be_ready_and_counts_say_whose_they_are() {
    let place = Place::new();
    let running = start_by(place.serve(&IDS).args(["--metrics", "127.0.0.1:0"]), 5);
    for path in ["/ready", "/second-firm/ready", "/live", "/second-firm/live"] {
        assert_eq!(get(&running, path, "").status, 200, "{path}");
    }
    for number in [1, 2] {
        assert_eq!(post_enquiry(&running, AT[1], &enquiry_for(1, number)).status, 201);
    }
    assert_eq!(post_enquiry(&running, AT[0], &enquiry_for(0, 1)).status, 201);
    let address = running.lines[4].strip_prefix("metrics: http://").unwrap().strip_suffix("/metrics").unwrap();
    let telling = Running { address: address.to_owned(), lines: Vec::new(), child: running.child };
    let text = get(&telling, "/metrics", "").text();
    let running = Running { address: running.address, lines: running.lines, child: telling.child };
    let read = openmetrics_parser::openmetrics::parse_openmetrics(&text).unwrap_or_else(|why| panic!("{why}: {text}"));
    for (id, enquiries) in IDS.into_iter().zip([1.0, 2.0]) {
        let whose = ("installer", id);
        assert_eq!(counted(&read, "presurvey_enquiries_received", &[whose]), enquiries, "{id}");
        let posted = [whose, ("method", "POST"), ("route", "/api/enquiries")];
        assert_eq!(observed(&read, "presurvey_request_duration_seconds", &posted), enquiries as u64, "{id}");
        assert!(observed(&read, "presurvey_database_writer_wait_seconds", &[whose]) >= enquiries as u64, "{id}");
    }

    // A file in its folder's place: nothing can be written there, whoever the service runs as.
    let photos = place.data_of(1).join("photos");
    std::fs::remove_dir_all(&photos).unwrap();
    std::fs::write(&photos, "").unwrap();
    let until = std::time::Instant::now() + LONG;
    let answered = loop {
        let answered = get(&running, "/ready", "");
        if answered.status == 503 || std::time::Instant::now() > until {
            break answered;
        }
        std::thread::sleep(std::time::Duration::from_millis(200)); // an outcome stands for five seconds
    };
    assert_eq!(answered.json(), json!({ "ready": false, "failing": ["second-firm/photos"] }));
    assert_eq!(get(&running, "/second-firm/ready", "").json()["failing"], json!(["photos"]));
    ends(running);
}

#[test]
fn a_setup_is_kept_as_a_version_when_it_differs_and_comes_out_as_it_went_in() {
    let place = Place::new();
    let mut with_mail = setup(IDS[0]);
    with_mail.mail_to = Some("invented@installer.invalid".into());
    with_mail.mail = serde_json::from_str(
        r#"{"server":"localhost","port":9,"encryption":"none","user":"invented","from":"form@installer.invalid"}"#,
    )
    .unwrap();
    place.write(IDS[0], &with_mail);
    let start = |named: &[&str]| {
        let mut command = place.serve(named);
        start_by(command.env("PRESURVEY_MAIL_PASSWORD", "of the environment alone"), 4)
    };
    let versions = |more: &[&str]| place.run(&[&["setups"], more].concat()).lines().count();
    for _ in 0..2 {
        ends(start(&IDS));
        assert_eq!((versions(&[]), versions(&["--installer", IDS[1]])), (1, 1), "the same is not kept twice");
    }
    let first = std::fs::read_to_string(place.file(IDS[0])).unwrap();
    with_mail.mail.as_mut().unwrap().password = Some(Secret("of the setup".into()));
    place.write(IDS[0], &with_mail);
    let mut running = start(&IDS);
    let log = log_of(&mut running);
    assert_eq!(versions(&[]), 2, "at a start");
    let second = std::fs::read_to_string(place.file(IDS[0])).unwrap();
    with_mail.rates.hour.0 += 1_000;
    place.write(IDS[0], &with_mail);
    signal(&running, "-HUP");
    line_with(&log, "read anew");
    assert_eq!((versions(&[]), versions(&["--installer", IDS[1]])), (3, 1), "and on SIGHUP");
    ends(running);
    let third = std::fs::read_to_string(place.file(IDS[0])).unwrap();
    assert_eq!(place.run(&["setups", "--version", "1"]), first);
    assert_eq!(place.run(&["setups", "--version", "2"]), second);
    assert_eq!(place.run(&["setups", "--version", "newest"]), third);
    let missing = presurvey(&["setups", "--data", &place.data_text(), "--version", "4"], "");
    assert_eq!(missing.status.code(), Some(2));
    let list = place.run(&["setups"]);
    let last = list.lines().last().unwrap();
    assert!(last.starts_with("3 20") && last.ends_with(&sha256(third.as_bytes())), "{list}");
    assert!(!list.contains("of the setup"), "the list has no secret: {list}");
    let kept = std::fs::read(place.data().join("presurvey.sqlite")).unwrap();
    let has = |words: &str| kept.windows(words.len()).any(|window| window == words.as_bytes());
    assert!(has("of the setup") && !has("of the environment alone"));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = place.data_of(1).join("presurvey.sqlite").metadata().unwrap().permissions().mode();
        assert_eq!(mode & 0o077, 0, "nobody else reads it");
    }
}

#[test]
fn a_service_without_files_runs_by_what_is_kept_and_takes_what_is_taken_in() {
    let place = Place::new();
    ends(start_by(&mut place.serve(&IDS), 4));
    let mut running = start_by(&mut place.serve(&[]), 4);
    let log = log_of(&mut running);
    let hour = |running: &Running| get(running, "/second-firm/api/config", "").json()["rates"]["hour"].clone();
    let before = hour(&running);
    let mut dearer = setup(IDS[1]);
    dearer.rates.hour.0 += 1_000;
    place.write(IDS[1], &dearer);
    let file = place.file(IDS[1]).to_str().unwrap().to_owned();
    let take = |whose: &[&str]| {
        let data = place.data_text();
        presurvey(&[&["setups", "--data", &data, "--take", &file], whose].concat(), "")
    };
    assert_eq!(take(&[]).status.code(), Some(2), "it is not the first one's");
    assert_eq!(place.run(&["setups", "--installer", IDS[1], "--take", &file]), "Taken as version 2.\n");
    assert_eq!(place.run(&["setups", "--installer", IDS[1], "--take", &file]), "It is version 2 already.\n");
    assert_eq!(hour(&running), before, "not before it is told to");
    signal(&running, "-HUP");
    line_with(&log, "read anew");
    line_with(&log, "read anew");
    assert_ne!(hour(&running), before);
    ends(running);

    // What is kept and is not allowed stops a start: no earlier version is taken in its place.
    let runtime = tokio::runtime::Runtime::new().unwrap();
    runtime.block_on(async {
        let options = SqliteConnectOptions::new().filename(place.data_of(1).join("presurvey.sqlite"));
        let mut writing = options.connect().await.unwrap();
        let statement =
            "UPDATE setups SET setup = replace(setup, '\"mark_up\": 0.2', '\"mark_up\": 200') WHERE number = 2";
        assert_eq!(sqlx::query(statement).execute(&mut writing).await.unwrap().rows_affected(), 1);
        writing.close().await.unwrap();
    });
    let words = place.refused(place.serve(&[]));
    assert!(["version 2", "second-firm", "`rates.mark_up`"].iter().all(|part| words.contains(part)), "{words}");
}

/// What a mail server does with who comes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Manner {
    Takes,
    /// Waits for word before it greets.
    Holds,
    /// Refuses whoever would send: then trying again soon is of no use, and the service waits an hour.
    Refuses,
}

/// A mail server, which tells of each mail.
struct MailServer {
    port: u16,
    mails: mpsc::Receiver<String>,
    connected: mpsc::Receiver<()>,
    goes_on: mpsc::Sender<()>,
}

impl MailServer {
    fn new(manner: Manner) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = listener.local_addr().unwrap().port();
        let ((tell, mails), (came, connected), (goes_on, go)) = (mpsc::channel(), mpsc::channel(), mpsc::channel());
        std::thread::spawn(move || {
            for stream in listener.incoming() {
                let _ = came.send(());
                if manner == Manner::Holds && go.recv().is_err() {
                    return;
                }
                if let Some(mail) = taken(stream.unwrap(), manner) {
                    let _ = tell.send(mail);
                }
            }
        });
        Self { port, mails, connected, goes_on }
    }

    fn setup(&self) -> Value {
        json!({ "server": "localhost", "port": self.port, "encryption": "none", "from": "form@installer.invalid" })
    }
}

/// A mail as it comes by a connection (RFC 5321), if one does.
fn taken(stream: TcpStream, manner: Manner) -> Option<String> {
    let mut answers = stream.try_clone().unwrap();
    let mut say = |words: &str| answers.write_all(format!("{words}\r\n").as_bytes()).ok();
    say("220 localhost")?;
    let (mut mail, mut in_mail) = (None, false);
    for line in BufReader::new(stream).lines().map_while(Result::ok) {
        if in_mail {
            if line == "." {
                in_mail = false;
                say("250 taken")?;
            } else {
                *mail.get_or_insert_with(String::new) += &format!("{line}\n");
            }
            continue;
        }
        match line.get(..4).unwrap_or_default() {
            "DATA" => {
                in_mail = true;
                say("354 go on")?;
            }
            "QUIT" => {
                say("221 bye");
                return mail;
            }
            "MAIL" if manner == Manner::Refuses => say("550 not from you")?,
            _ => say("250 localhost")?,
        }
    }
    mail
}

/// The setup of one of the two, who mails by this server and has this many enquiries a day.
fn mailing(id: &str, mail: Value, a_day: u32) -> Setup {
    let mut setup = setup(id);
    setup.mail_to = Some(format!("{id}@installer.invalid"));
    setup.mail = serde_json::from_value(mail).unwrap();
    setup.enquiries_a_day = a_day.try_into().ok();
    setup
}

#[test]
fn a_mail_that_waits_goes_by_the_server_of_a_setup_read_anew_once_and_of_its_installer_alone() {
    let place = Place::new();
    let refusing = MailServer::new(Manner::Refuses);
    for id in IDS {
        place.write(id, &mailing(id, refusing.setup(), 1));
    }
    let mut running = start_by(&mut place.serve(&IDS), 4);
    let log = log_of(&mut running);
    let received = post_enquiry(&running, AT[1], &enquiry_for(1, 1));
    let reference = received.json()["reference"].as_str().unwrap().to_owned();
    let line = line_with(&log, "not sent; tried again");
    assert!(line.contains("installer=\"second-firm\"") && line.contains("seconds=3600"), "{line}");
    assert_eq!(post_enquiry(&running, AT[1], &enquiry_for(1, 2)).status, 503, "one a day");
    line_with(&log, "not sent; tried again"); // that the day is full

    let server = MailServer::new(Manner::Takes);
    place.write(IDS[1], &mailing(IDS[1], server.setup(), 2));
    signal(&running, "-HUP");
    let mut mails = [(); 2].map(|()| server.mails.recv_timeout(LONG).expect("the mail arrives"));
    mails.sort_by_key(|mail| !mail.contains(&reference));
    let [mail, full] = mails;
    assert!(mail.contains(&reference) && mail.contains("To: second-firm@installer.invalid"), "{mail}");
    assert!(full.contains("Subject: As many enquiries as a day takes have come: 1"), "{full}");
    // How much a day it takes holds from now on too; and another enquiry brings one more mail, so that none came twice.
    let second = post_enquiry(&running, AT[1], &enquiry_for(1, 2));
    assert_eq!(second.status, 201, "{}", second.text());
    let mail = server.mails.recv_timeout(LONG).expect("the second mail arrives");
    assert!(mail.contains(second.json()["reference"].as_str().unwrap()) && !mail.contains(&reference), "{mail}");
    // The first installer's waits for its own server.
    assert_eq!(post_enquiry(&running, AT[0], &enquiry_for(0, 1)).status, 201);
    line_with(&log, "not sent; tried again");
    assert!(place.run(&["outbox"]).contains("1 waiting"));
    assert!(place.run(&["outbox", "--installer", IDS[1]]).contains("0 waiting, 0 given up"));
    assert!(server.mails.try_recv().is_err());
    ends(running);
}

#[test]
fn a_mail_on_its_way_when_another_setup_comes_is_sent_once() {
    let place = Place::new();
    let [before, after] = [MailServer::new(Manner::Holds), MailServer::new(Manner::Takes)];
    place.write(IDS[0], &mailing(IDS[0], before.setup(), 9));
    let mut running = start_by(&mut place.serve(&IDS), 4);
    let log = log_of(&mut running);
    let first = post_enquiry(&running, AT[0], &enquiry_for(0, 1)).json()["reference"].as_str().unwrap().to_owned();
    before.connected.recv_timeout(LONG).expect("it is on its way");
    place.write(IDS[0], &mailing(IDS[0], after.setup(), 9));
    signal(&running, "-HUP");
    line_with(&log, "read anew");
    let second = post_enquiry(&running, AT[0], &enquiry_for(0, 2)).json()["reference"].as_str().unwrap().to_owned();
    before.goes_on.send(()).unwrap();
    assert!(before.mails.recv_timeout(LONG).expect("it arrives by the server before").contains(&first));
    let mail = after.mails.recv_timeout(LONG).expect("the next one goes by the server of now");
    assert!(mail.contains(&second) && !mail.contains(&first), "{mail}");
    let until = std::time::Instant::now() + LONG;
    while !place.run(&["outbox"]).contains("0 waiting") && std::time::Instant::now() < until {}
    assert!(place.run(&["outbox"]).contains("0 waiting, 0 given up"));
    assert!(after.mails.try_recv().is_err() && before.mails.try_recv().is_err());
    ends(running);
}

#[test]
fn a_backup_has_every_installer_and_commands_name_whose_data_they_are_about() {
    let place = Place::new();
    let running = start_by(&mut place.serve(&IDS), 4);
    let has = [0, 1].map(|which| with_an_enquiry(&running, which));
    assert_eq!(post_enquiry(&running, AT[1], &enquiry_for(1, 2)).status, 201);
    let backup = place.folder.path().join("backup");
    let told = place.run(&["backup", "--to", backup.to_str().unwrap()]);
    assert_eq!(told, "3 enquiries and 2 photos backed up.\n");
    running.kill();

    std::fs::remove_dir_all(place.data()).unwrap();
    let restored = presurvey(&["restore", "--from", backup.to_str().unwrap(), "--data", &place.data_text()], "");
    assert!(restored.status.success(), "{}", String::from_utf8_lossy(&restored.stderr));
    let running = start_by(place.serve(&[]).env_remove("PRESURVEY_PASSWORD"), 4);
    for which in [0, 1] {
        assert_eq!(
            get(&running, &format!("{}/api/session", AT[which]), &has[which].cookies).status,
            401,
            "all sign in anew"
        );
        let cookies = with_cookies(&signed_in(&running, which));
        assert!(listed(&running, which, &cookies).contains(&has[which].reference));
        let photo = format!("{}/api/installer/enquiries/{}/photos/{}", AT[which], has[which].key, sha256(&picture(0)));
        assert_eq!(get(&running, &photo, &cookies).body, picture(0));
    }
    ends(running);

    // Of a photo that is gone it is said whose it was.
    let photo = photos(&place.data_of(1)).into_iter().next().unwrap();
    std::fs::remove_file(photo).unwrap();
    let to = place.folder.path().join("second");
    let output = presurvey(&["backup", "--data", &place.data_text(), "--to", to.to_str().unwrap()], "");
    let words = String::from_utf8(output.stderr).unwrap();
    assert!(words.contains(&format!("second-firm: {}", has[1].reference)), "{words}");

    let whose = ["--installer", IDS[1]];
    assert!(place.run(&["events"]).contains("signed-in"));
    assert!(place.run(&["events", whose[0], whose[1]]).contains("signed-in"));
    assert_eq!(place.run(&["assess-again"]), "1 assessed again.\n");
    assert_eq!(place.run(&["assess-again", whose[0], whose[1]]), "2 assessed again.\n");
    let out = place.folder.path().join("export");
    let export = ["export", "--reference", &has[1].reference, "--to", out.to_str().unwrap()];
    let data = place.data_text();
    let elsewhere = presurvey(&[&export[..], &["--data", &data]].concat(), "");
    assert_eq!(elsewhere.status.code(), Some(2), "it is not the first one's");
    place.run(&[&export[..], &whose].concat());
    assert!(std::fs::read_to_string(out.join("enquiry.json")).unwrap().contains("Homeowner of second-firm"));
    let nobody = presurvey(&["events", "--data", &data, "--installer", "nobody"], "");
    assert_eq!(nobody.status.code(), Some(2));
}

/// A folder that version 0.1.0 kept, with the setup of then: all is where it was, and a further installer stands beside it.
#[test]
fn what_an_earlier_version_kept_goes_on_at_its_addresses_beside_a_further_installer() {
    let kept = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/earlier/0.1.0"));
    let place = Place::new();
    std::fs::copy(kept.join("data/presurvey.sqlite"), place.data().join("presurvey.sqlite")).unwrap();
    let photos = "photos/a31f4b735bf160a7618c24a28bacc2ca";
    std::fs::create_dir_all(place.data().join(photos)).unwrap();
    for file in std::fs::read_dir(kept.join("data").join(photos)).unwrap() {
        let file = file.unwrap();
        std::fs::copy(file.path(), place.data().join(photos).join(file.file_name())).unwrap();
    }
    let runtime = tokio::runtime::Runtime::new().unwrap();
    runtime.block_on(async {
        // It was the demo's; a real service's differs from it by this word.
        let options = SqliteConnectOptions::new().filename(place.data().join("presurvey.sqlite"));
        let mut writing = options.connect().await.unwrap();
        sqlx::query("UPDATE settings SET value = 'real' WHERE name = 'kind'").execute(&mut writing).await.unwrap();
        writing.close().await.unwrap();
        // Nothing is kept of a setup before it is served.
        let service = Service::open(&place.data(), &demo_setup().publish(), None, false).await.unwrap();
        set_password(&service, PASSWORD).await.unwrap();
        service.close().await;
    });
    assert_eq!(place.refused(place.serve(&[])).matches("keeps no setup yet").count(), 1);
    std::fs::copy(kept.join("setups/demo.json"), place.file(IDS[0])).unwrap();
    let link: Value = serde_json::from_slice(&std::fs::read(kept.join("data/link.json")).unwrap()).unwrap();
    let fragment = link["fragment"].as_str().unwrap().strip_prefix("presurvey-link=").unwrap();
    let (key, token) = fragment.split_once('.').unwrap();
    for (named, lines) in [(&IDS[..], 4), (&IDS[..1], 4), (&[][..], 4)] {
        let running = start_by(&mut place.serve(named), lines);
        let cookies = with_cookies(&signed_in(&running, 0));
        assert_eq!(listed(&running, 0, &cookies).len(), 3);
        let bearer = format!("Authorization: Bearer {token}\r\n");
        let additions = format!("/api/enquiries/{key}/additions");
        assert_eq!(get(&running, &additions, &bearer).status, 200, "the link of then opens");
        assert_eq!(get(&running, &format!("{}{additions}", AT[1]), &bearer).status, 404, "and nowhere else");
        let others = with_cookies(&signed_in(&running, 1));
        assert!(listed(&running, 1, &others).is_empty());
        ends(running);
    }
}
