//! The service as a process: started on a free port, asked by plain requests, killed.

use serde_json::Value;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};

pub struct Running {
    pub child: Child,
    pub lines: Vec<String>,
    pub address: String,
}

/// Starts it on a free port and waits for what it prints: three lines for the demo, two otherwise.
pub fn start(data: &Path, more: &[&str], lines: usize) -> Running {
    start_by(Command::new(env!("CARGO_BIN_EXE_presurvey")).args(serving(data)).args(more), lines)
}

/// The arguments with which it serves a folder.
pub fn serving(data: &Path) -> [&str; 5] {
    ["serve", "--listen", "127.0.0.1:0", "--data", data.to_str().unwrap()]
}

/// As [`start`], by a command that becomes the service.
pub fn start_by(command: &mut Command, lines: usize) -> Running {
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let out = BufReader::new(child.stdout.take().unwrap());
    let lines: Vec<String> = out.lines().take(lines).map(Result::unwrap).collect();
    let address = lines.first().and_then(|line| line.strip_prefix("homeowner's page: http://"));
    let address = match address {
        Some(address) => address.trim_end_matches('/').to_owned(),
        None => {
            let mut words = String::new();
            child.stderr.take().unwrap().read_to_string(&mut words).unwrap();
            panic!("it did not start: {words}");
        }
    };
    Running { child, lines, address }
}

impl Running {
    pub fn kill(mut self) {
        self.child.kill().unwrap(); // SIGKILL: nothing is closed, nothing is said
        self.child.wait().unwrap();
    }

    /// One plain request; the status and the JSON of the answer.
    pub fn ask(&self, method: &str, path: &str, headers: &str, body: &[u8]) -> (u16, String, Value) {
        let mut stream = TcpStream::connect(&self.address).unwrap();
        let length = body.len();
        let head = format!(
            "{method} {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n",
            self.address
        );
        stream.write_all(head.as_bytes()).unwrap();
        stream.write_all(body).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        let answer = String::from_utf8(answer).unwrap();
        let (head, body) = answer.split_once("\r\n\r\n").unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        (status, head.to_owned(), serde_json::from_str(body).unwrap_or(Value::Null))
    }
}
