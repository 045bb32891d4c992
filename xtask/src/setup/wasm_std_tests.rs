//! The three ways to a wasm32 standard library, each tested on a stub machine without a network or a real rustup.

use super::super::stub::{Stub, rustc_with_sysroot, wasm_library};
use super::*;

fn with_rustc(name: &str) -> Stub {
    let stub = Stub::new(name);
    stub.program("rustc", &rustc_with_sysroot("own"));
    stub
}

/// Adds Debian's Rust with its library's sources to a stub; its cargo "builds" two files.
fn with_debian(stub: &Stub) {
    stub.file("system/etc/debian_version", "12.0\n");
    stub.program("dpkg-query", r#"echo "install ok installed""#);
    stub.recorder("apt-get");
    stub.program_at("system/usr/bin/rustc", &rustc_with_sysroot("system/usr"));
    stub.program_at(
        "system/usr/bin/cargo",
        "echo \"$* RUSTFLAGS=$RUSTFLAGS\" >> \"$STUB/calls/cargo\"\n\
         mkdir -p \"$CARGO_TARGET_DIR/wasm32-unknown-unknown/release/deps\"\n\
         cd \"$CARGO_TARGET_DIR/wasm32-unknown-unknown/release/deps\"\n\
         touch libstd-1.rlib libcore-1.rlib libstdonly-1.rlib libcore-1.rmeta",
    );
}

#[test]
fn a_toolchain_that_has_it_is_left_alone() {
    let stub = with_rustc("std-has-it");
    stub.file(&format!("{}/libstd-1.rlib", wasm_library("own")), "");
    stub.recorder("rustup");
    assert_eq!(ensure(&stub.machine()).unwrap(), Toolchain::InUse);
    assert!(stub.calls("rustup").is_empty());
}

#[test]
fn rustup_adds_the_target_where_it_may_install() {
    let stub = with_rustc("std-rustup");
    let library = wasm_library("own");
    stub.program(
        "rustup",
        &format!("echo \"$*\" >> \"$STUB/calls/rustup\"; mkdir -p \"$STUB/{library}\"; touch \"$STUB/{library}/libstd-1.rlib\""),
    );
    assert_eq!(ensure(&stub.machine()).unwrap(), Toolchain::InUse);
    assert_eq!(stub.calls("rustup"), ["target add wasm32-unknown-unknown"]);
    assert_eq!(ensure(&stub.machine()).unwrap(), Toolchain::InUse);
    assert_eq!(stub.calls("rustup").len(), 1, "the second run has nothing to do");
}

#[test]
fn rustup_is_not_asked_where_it_may_not_install() {
    let stub = with_rustc("std-rustup-off");
    stub.recorder("rustup");
    let machine = stub.machine_with(&[("RUSTUP_AUTO_INSTALL", "0")]);
    let error = ensure(&machine).unwrap_err().to_string();
    assert!(error.contains("rustup target add wasm32-unknown-unknown"), "{error}");
    assert!(error.contains("apt-get install rustc-web"), "{error}");
    assert!(stub.calls("rustup").is_empty());
}

#[test]
fn a_rustup_that_fails_leads_on_to_the_message() {
    let stub = with_rustc("std-rustup-fails");
    stub.program("rustup", "exit 1");
    assert!(ensure(&stub.machine()).unwrap_err().to_string().contains("run this command again as root"));
}

#[test]
fn debian_as_root_builds_it_once_and_links_it() {
    let stub = with_rustc("std-debian");
    with_debian(&stub);
    stub.program(
        "rustup",
        "echo \"$*\" >> \"$STUB/calls/rustup\"\n\
         case \"$1\" in which) grep -q link \"$STUB/calls/rustup\" && echo \"$STUB/system/usr/bin/rustc\";; esac",
    );
    let mut machine = stub.machine_with(&[("RUSTUP_AUTO_INSTALL", "0")]);
    machine.root = true;
    assert_eq!(ensure(&machine).unwrap(), Toolchain::DebianLinked);
    let library = stub.path(&wasm_library("system/usr"));
    assert!(library.join("libstd-1.rlib").exists() && library.join("libcore-1.rlib").exists());
    assert!(!library.join("libstdonly-1.rlib").exists() && !library.join("libcore-1.rmeta").exists());
    for flag in ["-Cembed-bitcode=yes", "--cfg panic=\"immediate-abort\""] {
        assert!(stub.calls("cargo")[0].contains(flag), "{:?}", stub.calls("cargo"));
    }

    let usr = stub.path("system/usr");
    let link = format!("toolchain link debian-web {}", usr.display());
    assert_eq!(stub.calls("rustup").iter().filter(|call| **call == link).count(), 1);
    assert_eq!(ensure(&machine).unwrap(), Toolchain::DebianLinked);
    assert_eq!(stub.calls("cargo").len(), 1, "the second run builds nothing");
    assert_eq!(stub.calls("rustup").iter().filter(|call| **call == link).count(), 1);
    machine.root = false;
    assert_eq!(ensure(&machine).unwrap(), Toolchain::DebianLinked, "once built, anyone may use it");
}

#[test]
fn a_library_that_was_built_otherwise_is_built_again_by_root_and_used_as_it_is_by_others() {
    let stub = with_rustc("std-debian-otherwise");
    with_debian(&stub);
    let library = wasm_library("system/usr");
    stub.file(&format!("{library}/libstd-0.rlib"), "");
    stub.file(&format!("{library}/.built-by"), "rustc 9.9.9 (stub)\n1\n");
    let mut machine = stub.machine_with(&[("RUSTUP_AUTO_INSTALL", "0")]);
    assert_eq!(ensure(&machine).unwrap(), Toolchain::Debian);
    assert!(stub.calls("cargo").is_empty() && stub.path(&library).join("libstd-0.rlib").exists());
    machine.root = true;
    assert_eq!(ensure(&machine).unwrap(), Toolchain::Debian);
    assert!(!stub.path(&library).join("libstd-0.rlib").exists() && stub.path(&library).join("libstd-1.rlib").exists());
    assert_eq!(ensure(&machine).unwrap(), Toolchain::Debian);
    assert_eq!(stub.calls("cargo").len(), 1, "once it is as today's, nothing is built");
}

#[test]
fn programs_are_built_alike_with_every_library() {
    let stub = Stub::new("std-alike");
    let machine = stub.machine();
    for toolchain in [Toolchain::InUse, Toolchain::DebianLinked, Toolchain::Debian] {
        let command = toolchain.command(&machine, "cargo");
        let set = |name: &str| command.get_envs().find(|(key, _)| *key == name).and_then(|(_, value)| value);
        let flags = set("CARGO_ENCODED_RUSTFLAGS").unwrap_or_default().to_str().unwrap();
        assert!(flags.split('\u{1f}').all(|flag| flag.starts_with("--remap-path-prefix=")), "{flags}");
        assert_eq!(set("RUSTC_BOOTSTRAP"), None);
    }
}

#[test]
fn an_interrupted_build_is_done_again() {
    let stub = with_rustc("std-debian-half");
    with_debian(&stub);
    let library = wasm_library("system/usr");
    stub.file(&format!("{library}/libstd-0.rlib"), "half"); // no note of the compiler that built it
    stub.file(&format!("{}.new/libcore-0.rlib", library), "half");
    let mut machine = stub.machine();
    machine.root = true;
    assert_eq!(ensure(&machine).unwrap(), Toolchain::Debian, "no rustup here");
    let library = stub.path(&library);
    assert!(!library.join("libstd-0.rlib").exists() && library.join("libstd-1.rlib").exists());
    assert!(!library.join("libcore-0.rlib").exists());
}

#[test]
fn builds_against_an_older_library_are_dropped_and_newer_ones_kept() {
    let stub = with_rustc("std-stale");
    with_debian(&stub);
    stub.file("repo/target/wasm/wasm32-unknown-unknown/old", "");
    let mut machine = stub.machine();
    machine.root = true;
    ensure(&machine).unwrap();
    assert!(!stub.path("repo/target/wasm/wasm32-unknown-unknown").exists());
    stub.file("repo/target/wasm/wasm32-unknown-unknown/new", "");
    ensure(&machine).unwrap();
    assert!(stub.path("repo/target/wasm/wasm32-unknown-unknown/new").exists());
}

#[test]
fn each_toolchain_sets_what_it_needs_and_no_more() {
    let stub = Stub::new("std-environment");
    let machine = stub.machine();
    let set = |toolchain: Toolchain, name: &str| {
        let command = toolchain.command(&machine, "cargo");
        command.get_envs().any(|(key, value)| key == name && value.is_some())
    };
    assert!(!set(Toolchain::InUse, "RUSTUP_TOOLCHAIN") && !set(Toolchain::InUse, "RUSTC"));
    assert!(set(Toolchain::DebianLinked, "RUSTUP_TOOLCHAIN") && !set(Toolchain::DebianLinked, "RUSTC"));
    assert!(set(Toolchain::Debian, "RUSTC"));
    assert!(set(Toolchain::Debian, "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER"));
}

#[test]
fn no_folder_of_this_machine_is_sent_to_visitors() {
    let stub = Stub::new("std-paths");
    stub.file("cargo/registry/src/index-1/serde-1.0.0/lib.rs", "");
    let home = stub.path("cargo");
    let flags = without_paths(&stub.machine_with(&[("CARGO_HOME", home.to_str().unwrap())]));
    let remap = |from: &str, to: &str| format!("--remap-path-prefix={}={to}", stub.path(from).display());
    let expected = [remap("cargo", "cargo"), remap("cargo/registry/src/index-1", "crates"), remap("repo", ".")];
    assert_eq!(flags, expected);
}
