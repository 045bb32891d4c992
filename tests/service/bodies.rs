//! Many bodies at once: the process stays small, and others are answered.

use crate::house::{enquiry, picture, sha256};
use crate::running::{Running, start};
use std::io::{BufRead, BufReader, Write};
use std::net::TcpStream;
use std::sync::atomic::{AtomicBool, Ordering};

/// The most memory that the process may take, in kilobytes: this program's choice, what fits into the smallest rented machines beside others.
const MOST: u64 = 120 * 1024;

/// The most memory that a process has had so far, in kilobytes.
fn peak_of(running: &Running) -> u64 {
    let status = std::fs::read_to_string(format!("/proc/{}/status", running.child.id())).unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    line.trim().trim_end_matches(" kB").parse().unwrap()
}

/// Begins a request as a visitor whom a proxy names, with a part of its body.
fn begun(running: &Running, [line, kind]: [&str; 2], visitor: usize, length: usize, body: &[u8]) -> TcpStream {
    let mut stream = TcpStream::connect(&running.address).unwrap();
    let visitor = format!("X-Forwarded-For: 198.51.{}.{}\r\n", visitor / 200, visitor % 200 + 1);
    let head = format!(
        "{line} HTTP/1.1\r\nHost: x\r\nContent-Type: {kind}\r\n{visitor}Connection: close\r\nContent-Length: {length}\r\n\r\n"
    );
    stream.write_all(head.as_bytes()).unwrap();
    // A body that is refused before its end is answered, and the rest of it has nowhere to go.
    let _ = stream.write_all(body);
    stream
}

/// The status of the answer, as soon as its first line is there.
fn status_of(stream: TcpStream) -> Option<u16> {
    let mut answer = Vec::new();
    let _ = BufReader::new(stream).read_until(b'\n', &mut answer);
    String::from_utf8_lossy(&answer).split(' ').nth(1)?.parse().ok()
}

const BOUNDARY: &str = "invented-boundary";
const JSON: [&str; 2] = ["POST /api/enquiries", "application/json"];
const FORM: [&str; 2] = ["POST /api/enquiries", "multipart/form-data; boundary=invented-boundary"];

/// A form of about thirty megabytes: photos that are plain, each with other bytes.
fn form(number: usize) -> Vec<u8> {
    let part = |name: &str| format!("--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"{name}\"");
    let mut body = format!("{}\r\n\r\nInvented Homeowner {number}\r\n", part("name")).into_bytes();
    body.extend(format!("{}\r\n\r\n01632 960123\r\n", part("telephone")).into_bytes());
    for at in 0..6_u8 {
        body.extend(format!("{}; filename=\"a.jpg\"\r\nContent-Type: image/jpeg\r\n\r\n", part("photo")).into_bytes());
        body.extend(large_picture(at, u8::try_from(number).unwrap()));
        body.extend(b"\r\n");
    }
    body.extend(format!("--{BOUNDARY}--\r\n").into_bytes());
    body
}

/// A plain JPEG of five megabytes: its quantisation table is said again and again.
fn large_picture(one: u8, other: u8) -> Vec<u8> {
    let mut plain = picture(0);
    (plain[15], plain[17]) = (one + 1, other + 1);
    let table = plain.windows(2).position(|pair| pair == [0xff, 0xdb]).unwrap();
    let length = 2 + usize::from(u16::from_be_bytes([plain[table + 2], plain[table + 3]]));
    let again = plain[table..table + length].repeat(5_000_000 / length);
    plain.splice(table..table, again);
    plain
}

#[test]
fn two_hundred_half_open_requests_and_thirty_large_forms_leave_it_small_and_others_answered() {
    let data = tempfile::tempdir().unwrap();
    let running = start(data.path(), &["--demo"], 3);
    // Forty visitors, five each, stop half-way.
    let part = vec![b' '; 250_000];
    let half: Vec<_> = (0..200).map(|at| begun(&running, JSON, at / 5, 500_000, &part)).collect();
    // Two more send what has no end of a part.
    let endless = vec![b'-'; 8 * 1024 * 1024];
    let unparsed: Vec<_> = (0..2).map(|at| begun(&running, FORM, 300 + at, 30_000_000, &endless)).collect();

    let done = AtomicBool::new(false);
    let statuses: Vec<Option<u16>> = std::thread::scope(|scope| {
        let forms: Vec<_> = (0..30)
            .map(|number| {
                let running = &running;
                scope.spawn(move || {
                    let body = form(number);
                    status_of(begun(running, FORM, 100 + number, body.len(), &body))
                })
            })
            .collect();
        let others = scope.spawn(|| {
            let mut answered = 0;
            while !done.load(Ordering::Relaxed) {
                let (status, ..) = running.ask("GET", "/api/config", "", b"");
                assert_eq!(status, 200);
                answered += 1;
                let sent = serde_json::to_vec(&enquiry(1000 + answered)).unwrap();
                let visitor = format!("X-Forwarded-For: 203.0.113.{}\r\n", answered % 200);
                let (status, ..) = running.ask("POST", "/api/enquiries", &visitor, &sent);
                assert!(status == 201 || status == 503, "{status}");
            }
            answered
        });
        let statuses = forms.into_iter().map(|form| form.join().unwrap()).collect();
        done.store(true, Ordering::Relaxed);
        assert!(others.join().unwrap() > 0);
        statuses
    });
    let peak = peak_of(&running);
    println!("{peak} kB");
    assert!(peak < MOST, "{peak} kB");
    assert!(statuses.iter().all(|status| *status == Some(201)), "{statuses:?}");
    for stream in unparsed {
        assert!(matches!(status_of(stream), Some(400) | None));
    }
    drop(half);
    let left = std::fs::read_dir(data.path().join("photos/.arriving")).unwrap().count();
    assert_eq!(left, 0, "no draft is left");
    running.kill();
}

#[test]
fn a_photo_that_no_enquiry_lists_is_refused_before_any_of_it_is_sent() {
    let data = tempfile::tempdir().unwrap();
    let running = start(data.path(), &["--demo"], 3);
    let path = format!("/api/enquiries/{:032x}/photos/{}", 1, sha256(&picture(0)));
    let put = |path: &str| status_of(begun(&running, [&format!("PUT {path}"), "image/jpeg"], 1, 5_000_000, b""));
    assert_eq!(put(&path), Some(404));
    let (status, ..) = running.ask("POST", "/api/enquiries", "", &serde_json::to_vec(&enquiry(1)).unwrap());
    assert_eq!(status, 201);
    let stranger = format!("/api/enquiries/{:032x}/photos/{}", 1, "0".repeat(64));
    assert_eq!(put(&stranger), Some(404), "one that it does not list");
    let listed = picture(0);
    let (status, ..) = running.ask("PUT", &path, "Content-Type: image/jpeg\r\n", &listed);
    assert_eq!(status, 204);
    running.kill();
}
