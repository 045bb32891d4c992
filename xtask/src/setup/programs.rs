//! Programs that the tests use as installed: Node with npm, three browsers, exiftool, PHP, two web servers, and Rust's own formatter and lints.

use super::debian;
use super::versions::NODE;
use crate::machine::Machine;
use crate::run::say;
use anyhow::{Context, Result, bail};
use std::path::PathBuf;

/// The program names of Chromium.
const CHROMIUM: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/// The program names of Firefox.
const FIREFOX: [&str; 2] = ["firefox-esr", "firefox"];

/// The browsers that the tests drive, one for each engine in common use.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Browsers {
    /// Chromium itself.
    pub chromium: PathBuf,
    /// Firefox itself.
    pub firefox: PathBuf,
    /// WebKit's minimal browser; its driver and a virtual screen are found on `PATH`.
    pub mini_browser: PathBuf,
}

impl Browsers {
    /// The environment variables that tell the tests where the browsers are.
    pub fn variables(&self) -> [(&'static str, &PathBuf); 3] {
        [("CHROMIUM", &self.chromium), ("FIREFOX", &self.firefox), ("MINIBROWSER", &self.mini_browser)]
    }
}

/// Finds the browsers, Node, npm, exiftool, PHP and the web servers, and installs missing ones where possible.
///
/// # Errors
/// If any is missing or too old, naming all of them.
pub fn ensure(machine: &Machine) -> Result<Browsers> {
    if machine.is_debian_root() {
        debian::tidy(machine)?;
    }
    let missing = missing(machine);
    if !missing.is_empty() && machine.is_debian_root() {
        let packages: Vec<&str> = missing.iter().map(|program| program.package).collect();
        debian::install(machine, &packages, "the tests")?;
    }
    let still = self::missing(machine);
    if !still.is_empty() {
        let named: Vec<&str> = still.iter().map(|program| program.name).collect();
        let packages: Vec<&str> = still.iter().map(|program| program.package).collect();
        bail!(
            "the tests need {}, which were not found on PATH. Install them and try again (on Debian, as root: \
             `apt-get install {}`, or run this command as root). Browsers may also be named by CHROMIUM, FIREFOX and \
             MINIBROWSER.",
            named.join(", "),
            packages.join(" ")
        );
    }
    if !node_is_new_enough(machine) {
        let version = machine.ask("node", &["--version"]).unwrap_or_default();
        bail!("Node is {version}; the tests need {NODE} or newer: install it from https://nodejs.org.");
    }
    browsers(machine).context("a browser was found a moment ago and is gone")
}

/// Whether npm can be used to fetch the tools that make the pages smaller.
pub fn has_node(machine: &Machine) -> bool {
    machine.find("npm").is_some() && node_is_new_enough(machine)
}

/// Finds Rust's formatter and lints; adds them by rustup where that is allowed.
///
/// # Errors
/// If one is missing, saying how to get it.
pub fn ensure_rust_parts(machine: &Machine) -> Result<()> {
    for (subcommand, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        let works = || machine.ask("cargo", &[subcommand, "--version"]).is_some();
        if works() {
            continue;
        }
        if machine.find("rustup").is_some() && machine.var("RUSTUP_AUTO_INSTALL") != Some("0") {
            say(&format!("adding {component} by rustup (usually a few seconds)"));
            let _ = machine.command("rustup").args(["component", "add", component]).status();
        }
        if !works() {
            bail!("`cargo {subcommand}` does not work here: run `rustup component add {component}`, then try again.");
        }
    }
    Ok(())
}

#[derive(Debug)]
struct Program {
    name: &'static str,
    package: &'static str,
}

fn missing(machine: &Machine) -> Vec<Program> {
    let mut missing = Vec::new();
    let mut want = |there: bool, name, package| {
        if !there {
            missing.push(Program { name, package });
        }
    };
    want(chromium(machine).is_some(), "Chromium", "chromium");
    want(firefox(machine).is_some(), "Firefox", "firefox-esr");
    want(machine.find("WebKitWebDriver").is_some(), "WebKitWebDriver", "webkit2gtk-driver");
    want(mini_browser(machine).is_some(), "WebKit's MiniBrowser", "libwebkit2gtk-4.1-0");
    want(machine.find("Xvfb").is_some(), "Xvfb", "xvfb");
    want(machine.find("node").is_some(), "Node 20 or newer", "nodejs");
    want(machine.find("npm").is_some(), "npm", "npm");
    want(machine.find("exiftool").is_some(), "exiftool", "libimage-exiftool-perl");
    want(machine.find("php").is_some(), "PHP 8.1 or newer", "php-cli");
    want(web_server(machine, "nginx"), "nginx", "nginx-light");
    // The program alone: the package `apache2` would make a service of it.
    want(web_server(machine, "apache2"), "Apache 2.4", "apache2-bin");
    want(machine.find("caddy").is_some(), "Caddy", "caddy");
    missing
}

fn browsers(machine: &Machine) -> Option<Browsers> {
    Some(Browsers { chromium: chromium(machine)?, firefox: firefox(machine)?, mini_browser: mini_browser(machine)? })
}

fn chromium(machine: &Machine) -> Option<PathBuf> {
    named(machine, "CHROMIUM").or_else(|| CHROMIUM.iter().find_map(|name| machine.find(name)))
}

fn firefox(machine: &Machine) -> Option<PathBuf> {
    named(machine, "FIREFOX").or_else(|| FIREFOX.iter().find_map(|name| machine.find(name)))
}

/// WebKit's MiniBrowser. It is never on `PATH`: distributions put it beside the library.
fn mini_browser(machine: &Machine) -> Option<PathBuf> {
    let triplet = format!("usr/lib/{}-linux-gnu", std::env::consts::ARCH);
    let folders = [&triplet, "usr/libexec", "usr/lib"];
    let mut places = folders.iter().flat_map(|folder| {
        ["4.1", "4.0"].map(|version| machine.system(&format!("{folder}/webkit2gtk-{version}/MiniBrowser")))
    });
    named(machine, "MINIBROWSER").or_else(|| places.find(|place| place.exists()))
}

/// Whether a web server is there. It may lie where only root's `PATH` leads; the tests look there too.
fn web_server(machine: &Machine, name: &str) -> bool {
    machine.find(name).is_some() || machine.system(&format!("usr/sbin/{name}")).exists()
}

fn named(machine: &Machine, variable: &str) -> Option<PathBuf> {
    machine.var(variable).map(PathBuf::from).filter(|file| file.exists())
}

fn node_is_new_enough(machine: &Machine) -> bool {
    machine.ask("node", &["--version"]).and_then(|version| major(&version)).is_some_and(|major| major >= NODE)
}

/// The major number of a version such as `v20.1.0`.
fn major(version: &str) -> Option<u32> {
    version.strip_prefix('v')?.split('.').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn all_that_is_missing_is_named_at_once() {
        let stub = Stub::new("programs-none");
        stub.program("npm", "");
        let error = ensure(&stub.machine()).unwrap_err().to_string();
        assert!(error.contains("Chromium, Firefox, WebKitWebDriver, WebKit's MiniBrowser, Xvfb, Node 20"), "{error}");
        let packages = "chromium firefox-esr webkit2gtk-driver libwebkit2gtk-4.1-0 xvfb nodejs libimage-exiftool-perl \
                        php-cli nginx-light apache2-bin caddy";
        assert!(error.contains(&format!("apt-get install {packages}")), "{error}");
    }

    /// A machine with every program except those in `without`.
    fn with_all_but(name: &str, without: &[&str]) -> Stub {
        let stub = Stub::new(name);
        stub.program("node", "echo v20.1.0");
        let others = ["npm", "exiftool", "php", "chromium", "firefox-esr", "WebKitWebDriver", "Xvfb", "nginx", "caddy"];
        stub.file("system/usr/sbin/apache2", "");
        for program in others {
            if !without.contains(&program) {
                stub.program(program, "");
            }
        }
        if !without.contains(&"MiniBrowser") {
            stub.file("system/usr/libexec/webkit2gtk-4.1/MiniBrowser", "");
        }
        stub
    }

    #[test]
    fn debian_as_root_installs_only_what_is_missing() {
        let stub = with_all_but("programs-debian", &["chromium"]);
        stub.file("system/etc/debian_version", "12.0\n");
        stub.program("dpkg-query", "exit 1");
        stub.program("apt-get", "case \"$*\" in install*chromium) cp \"$STUB/bin/npm\" \"$STUB/bin/chromium\";; esac");
        let mut machine = stub.machine();
        machine.root = true;
        assert_eq!(ensure(&machine).unwrap().chromium, stub.bin().join("chromium"));
    }

    #[test]
    fn debian_as_root_installs_two_more_engines() {
        let stub = with_all_but("programs-engines", &["firefox-esr", "WebKitWebDriver", "Xvfb", "MiniBrowser"]);
        stub.file("system/etc/debian_version", "12.0\n");
        stub.program("dpkg-query", "exit 1");
        stub.program(
            "apt-get",
            "case \"$*\" in install*' firefox-esr webkit2gtk-driver libwebkit2gtk-4.1-0 xvfb')
               for name in firefox-esr WebKitWebDriver Xvfb; do cp \"$STUB/bin/npm\" \"$STUB/bin/$name\"; done
               mkdir -p \"$STUB/system/usr/libexec/webkit2gtk-4.1\"
               : > \"$STUB/system/usr/libexec/webkit2gtk-4.1/MiniBrowser\";;
             esac",
        );
        let mut machine = stub.machine();
        machine.root = true;
        let browsers = ensure(&machine).unwrap();
        assert_eq!(browsers.firefox, stub.bin().join("firefox-esr"));
        assert!(browsers.mini_browser.ends_with("webkit2gtk-4.1/MiniBrowser"));
        stub.program("apt-get", "exit 1"); // a second run installs nothing
        assert_eq!(ensure(&machine).unwrap(), browsers);
    }

    #[test]
    fn an_engine_that_is_missing_is_named_with_its_package() {
        let stub = with_all_but("programs-no-webkit", &["WebKitWebDriver"]);
        let error = ensure(&stub.machine()).unwrap_err().to_string();
        assert!(
            error.contains("need WebKitWebDriver, which") && error.contains("install webkit2gtk-driver`"),
            "{error}"
        );
    }

    #[test]
    fn a_browser_that_is_named_comes_before_the_one_on_the_path() {
        let stub = with_all_but("programs-named", &[]);
        stub.file("own/firefox", "");
        let named = stub.path("own/firefox");
        let machine = stub.machine_with(&[("FIREFOX", named.to_str().unwrap()), ("CHROMIUM", "/no/such/file")]);
        let browsers = ensure(&machine).unwrap();
        assert_eq!(browsers.variables().map(|(name, _)| name), ["CHROMIUM", "FIREFOX", "MINIBROWSER"]);
        assert_eq!((browsers.firefox, browsers.chromium), (named, stub.bin().join("chromium")));
    }

    #[test]
    fn an_old_node_is_refused_by_its_version() {
        let stub = with_all_but("programs-old-node", &[]);
        stub.program("node", "echo v18.19.0");
        assert!(ensure(&stub.machine()).unwrap_err().to_string().contains("Node is v18.19.0"));
        assert!(!has_node(&stub.machine()));
    }

    #[test]
    fn rustup_is_asked_for_the_lints_only_where_it_may_install() {
        let stub = Stub::new("programs-parts");
        stub.program("cargo", "[ \"$1\" = fmt ] || [ -e \"$STUB/calls/rustup\" ]");
        stub.recorder("rustup");
        let barred = stub.machine_with(&[("RUSTUP_AUTO_INSTALL", "0")]);
        assert!(ensure_rust_parts(&barred).unwrap_err().to_string().contains("rustup component add clippy"));
        ensure_rust_parts(&stub.machine()).unwrap();
        assert_eq!(stub.calls("rustup"), ["component add clippy"]);
    }
}
