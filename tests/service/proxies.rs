//! The service behind real proxies, set up by the files in `examples/`: nginx and Caddy, where they are installed.

use crate::command::presurvey;
use crate::house::picture;
use crate::running::{Running, start};
use presurvey::config::demo_setup;
use serde_json::json;
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use tempfile::TempDir;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::TcpSocket;

const PASSWORD: &str = "an invented password";

struct Proxied {
    service: Running,
    proxy: Child,
    port: u16,
    _folder: TempDir,
}

impl Drop for Proxied {
    fn drop(&mut self) {
        for child in [&mut self.proxy, &mut self.service.child] {
            let _ = child.kill();
            let _ = child.wait();
        }
    }
}

/// The program, if it is installed: Debian keeps servers where not everybody looks.
fn found(name: &str) -> Option<String> {
    let places = ["", "/usr/sbin/", "/usr/local/sbin/", "/usr/bin/"].map(|place| format!("{place}{name}"));
    let answers = |program: &String| Command::new(program).arg("version").output().is_ok();
    let found = places.into_iter().find(answers);
    if found.is_none() {
        eprintln!("{name} is not installed: its example was not tried");
    }
    found
}

fn example(name: &str) -> String {
    let file = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples")).join(name);
    std::fs::read_to_string(file).unwrap()
}

/// Starts the service with a public address, and a proxy by what `start_proxy` makes of a folder, the proxy's port and the service's address.
fn proxied(start_proxy: impl FnOnce(&Path, u16, &str) -> Child) -> Proxied {
    let folder = tempfile::tempdir().unwrap();
    let mut setup = serde_json::to_value(demo_setup()).unwrap();
    setup["public_address"] = json!("https://presurvey.example");
    // This one address alone: visitors of these tests have others of this machine.
    setup["proxies"] = json!(["127.0.0.1"]);
    let file = folder.path().join("setup.json");
    std::fs::write(&file, setup.to_string()).unwrap();
    let data = folder.path().join("data");
    assert!(presurvey(&["password", "--data", data.to_str().unwrap()], PASSWORD).status.success());
    let service = start(&data, &["--setup", file.to_str().unwrap()], 2);
    let free = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = free.local_addr().unwrap().port();
    drop(free);
    let mut proxy = start_proxy(folder.path(), port, &service.address);
    while TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err() {
        assert!(proxy.try_wait().unwrap().is_none(), "the proxy ended");
        std::thread::sleep(Duration::from_millis(20));
    }
    Proxied { service, proxy, port, _folder: folder }
}

impl Proxied {
    /// One request of the visitor at 127.0.0.`visitor`; the status and the head of the answer.
    async fn ask(&self, visitor: u8, line: &str, headers: &str, body: &[u8]) -> (u16, String) {
        let socket = TcpSocket::new_v4().unwrap();
        socket.bind(SocketAddr::from(([127, 0, 0, visitor], 0))).unwrap();
        let mut stream = socket.connect(SocketAddr::from(([127, 0, 0, 1], self.port))).await.unwrap();
        let length = body.len();
        let host = format!("127.0.0.1:{}", self.port);
        let head = format!(
            "{line} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n"
        );
        stream.write_all(head.as_bytes()).await.unwrap();
        // What is refused before its end has nowhere to go.
        let _ = stream.write_all(body).await;
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer).await;
        let answer = String::from_utf8_lossy(&answer).into_owned();
        let head = answer.split("\r\n\r\n").next().unwrap_or_default().to_owned();
        (head.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or_default(), head)
    }

    async fn sign_in(&self, visitor: u8, password: &str, headers: &str) -> (u16, String) {
        let body = json!({ "password": password }).to_string();
        self.ask(visitor, "POST /api/session", &format!("X-Presurvey: 1\r\n{headers}"), body.as_bytes()).await
    }

    /// What holds behind every proxy.
    async fn holds(&self) {
        // Who guesses is counted by their own address, whatever they say of themselves.
        for guess in 0..5 {
            let said = format!("X-Forwarded-For: 203.0.113.{guess}\r\n");
            assert_eq!(self.sign_in(2, "a wrong guess", &said).await.0, 401);
        }
        assert_eq!(self.sign_in(2, PASSWORD, "X-Forwarded-For: 203.0.113.77\r\n").await.0, 429);
        // And nobody else with them; cookies are for encrypted connections alone, though this one was not.
        let (status, head) = self.sign_in(3, PASSWORD, "").await;
        assert_eq!(status, 204, "{head}");
        let cookies: Vec<_> = head.lines().filter(|line| line.to_lowercase().starts_with("set-cookie: ")).collect();
        assert_eq!(cookies.len(), 2, "{head}");
        assert!(cookies.iter().all(|line| line.contains("__Host-presurvey_") && line.contains("; Secure")), "{head}");
        // The largest form goes through; what is larger is refused by one or the other.
        let kind = "Content-Type: multipart/form-data; boundary=x\r\n";
        let (status, head) = self.ask(4, "POST /api/enquiries", kind, &form(5)).await;
        assert_eq!(status, 201, "{head}");
        // A little too large it reaches the service, whose words reach the sender.
        let mut over = form(5);
        over.resize(33 * 1024 * 1024, b' ');
        let (status, head) = self.ask(4, "POST /api/enquiries", kind, &over).await;
        assert!(status == 413 && head.contains("application/json"), "{head}");
        let (status, head) = self.ask(4, "POST /api/enquiries", kind, &form(7)).await;
        assert!(status == 413 || status == 0, "{head}");
        assert_eq!(self.ask(4, "GET /api/config", "", b"").await.0, 200);
    }
}

/// A form with so many photos of nearly six megabytes.
fn form(photos: u8) -> Vec<u8> {
    let part = |name: &str| format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"");
    let mut body = format!("{}\r\n\r\nInvented Homeowner\r\n", part("name")).into_bytes();
    body.extend(format!("{}\r\n\r\n01632 960123\r\n", part("telephone")).into_bytes());
    for number in 0..photos {
        body.extend(format!("{}; filename=\"a.jpg\"\r\nContent-Type: image/jpeg\r\n\r\n", part("photo")).into_bytes());
        // What follows a picture's end is cut off when it arrives.
        body.extend(picture(number + 1));
        body.resize(body.len() + 6_000_000, 0);
        body.extend(b"\r\n");
    }
    body.extend(b"--x--\r\n");
    body
}

#[tokio::test]
async fn behind_nginx_by_the_example() {
    let Some(nginx) = found("nginx") else { return };
    let proxied = proxied(|folder, port, service| {
        let example = example("nginx.conf");
        // The second server, without encryption, on a port of its own.
        let (_, server) = example.split_once("    return 301 https://$host$request_uri;\n}\n").unwrap();
        let server: String = server
            .lines()
            .filter(|line| !line.contains("ssl_certificate") && !line.contains("listen [::]"))
            .map(|line| format!("{line}\n"))
            .collect();
        let server = server.replace("listen 443 ssl;", &format!("listen 127.0.0.1:{port};"));
        assert!(server.contains("127.0.0.1:8080") && server.contains(&port.to_string()));
        let server = server.replace("127.0.0.1:8080", service);
        let temp: String = ["client_body", "proxy", "fastcgi", "uwsgi", "scgi"]
            .map(|of| format!("{of}_temp_path {}/{of};\n", folder.display()))
            .concat();
        let whole = format!(
            "daemon off;\nmaster_process off;\npid {0}/nginx.pid;\nerror_log {0}/error.log;\nevents {{}}\nhttp {{\naccess_log off;\n{temp}{server}}}\n",
            folder.display()
        );
        let file = folder.join("nginx.conf");
        std::fs::write(&file, whole).unwrap();
        let mut command = Command::new(nginx);
        command.arg("-p").arg(folder).arg("-e").arg(folder.join("error.log")).arg("-c").arg(file);
        command.stdout(Stdio::null()).spawn().unwrap()
    });
    proxied.holds().await;
}

#[tokio::test]
async fn behind_caddy_by_the_example() {
    let Some(caddy) = found("caddy") else { return };
    let proxied = proxied(|folder, port, service| {
        let site = example("Caddyfile");
        assert!(site.contains("\npresurvey.example {") && site.contains("127.0.0.1:8080"));
        let site = site.replace("\npresurvey.example {", &format!("\nhttp://127.0.0.1:{port} {{"));
        let whole = format!("{{\n\tadmin off\n\tauto_https off\n}}\n{}", site.replace("127.0.0.1:8080", service));
        let file = folder.join("Caddyfile");
        std::fs::write(&file, whole).unwrap();
        let mut command = Command::new(caddy);
        command.args(["run", "--adapter", "caddyfile", "--config"]).arg(file);
        command.env("HOME", folder).env("XDG_DATA_HOME", folder).env("XDG_CONFIG_HOME", folder);
        command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
    });
    proxied.holds().await;
}
