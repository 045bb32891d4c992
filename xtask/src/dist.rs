//! The distribution: a folder to copy to any website (`dist/upload`), and an npm package (`dist/npm`). Each includes the notices that its
//! libraries require; those of the native program are written beside them.

use crate::bundled;
use crate::integrity::{files, hash};
use crate::machine::Machine;
use crate::notices::{self, Of};
use crate::pages;
use crate::run::say;
use crate::setup::{Tools, versions};
use crate::typescript;
use anyhow::{Context, Result, bail};
use serde_json::Value;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// The folders of `dist` that are not pages.
pub const FOLDERS: [&str; 3] = ["upload", "npm", "packages"];

/// Files of the project's own pages, which are not distributed.
const OUR_OWN_PAGES: [&str; 5] = ["index.html", "pl.html", "page.css", "own-page.js", "offline.js"];

/// Writes both from the built pages and the native program's schemas.
///
/// # Errors
/// If a page or the program is not built, the TypeScript types can't be made (for want of Node), or a file can't be written.
pub fn write(machine: &Machine, tools: &Tools) -> Result<()> {
    upload(machine)?;
    npm(machine, tools)?;
    put(&machine.dist().join(notices::FILE), &notices::text(machine, Of::Native)?)?;
    say(
        "written: dist/upload, to copy to a website, dist/npm, a package, and dist/THIRD-PARTY.txt, to hand out with the native program",
    );
    Ok(())
}

/// Writes the folder to copy to a website.
///
/// # Errors
/// As for [`write`].
pub fn upload(machine: &Machine) -> Result<()> {
    let folder = machine.dist().join("upload");
    copy_program(machine, &folder)?;
    copy(&machine.repo.join("LICENCE"), &folder.join("LICENCE"))?;
    put(&folder.join(notices::FILE), &notices::text(machine, Of::Form)?)?;
    let mut list = String::new();
    for path in files(&folder, |_| true)? {
        let _ = writeln!(list, "{}  {}", hash(&path)?, below(&folder, &path));
    }
    let readme = filled(machine, "www/upload/README.txt")?
        .replace("{integrity}", &hash(&folder.join("presurvey.js"))?)
        .replace("{files}", list.trim_end());
    put(&folder.join("README.txt"), &readme)?;
    copy(&machine.repo.join("www/upload/htaccess"), &folder.join(".htaccess"))
}

/// Writes the npm package.
///
/// # Errors
/// As for [`write`].
fn npm(machine: &Machine, tools: &Tools) -> Result<()> {
    let folder = machine.dist().join("npm");
    copy_program(machine, &folder)?;
    put(&folder.join("package.json"), &filled(machine, "www/npm/package.json")?)?;
    for name in ["README.md", "headless.js", "custom-elements.json"] {
        copy(&machine.repo.join("www/npm").join(name), &folder.join(name))?;
    }
    for name in ["engine_js.js", "engine_js_bg.wasm"] {
        copy(&pages::headless(machine).join(name), &folder.join(name))
            .context("build the package's engine first, `cargo xtask dist`")?;
    }
    let page = machine.dist().join("form");
    bundled::write(machine, &folder, |name| {
        page.join(name).exists()
            && !OUR_OWN_PAGES.contains(&name)
            && !name.starts_with("frame")
            && name != "noscript.css"
    })?;
    copy(&machine.repo.join("LICENCE"), &folder.join("LICENCE"))?;
    put(&folder.join(notices::FILE), &notices::text(machine, Of::Form)?)?;
    let manifest = fs::read_to_string(folder.join("custom-elements.json"))?;
    let manifest = serde_json::from_str(&manifest).context("reading www/npm/custom-elements.json")?;
    put(&folder.join("presurvey.d.ts"), &typescript::of_manifest(&manifest)?)?;
    let schemas = schemas(machine)?;
    let parts = ["answers", "config", "enquiry"].map(|name| &schemas[name]);
    let types = typescript::of_schemas(machine, &tools.path(machine), &parts, &["Answers", "Config", "Assessment"])?;
    put(&folder.join("headless.d.ts"), &[filled(machine, "www/npm/headless.d.ts")?, types].concat())
}

fn schemas(machine: &Machine) -> Result<Value> {
    let program = machine.target().join("debug/presurvey");
    let output = machine
        .command(&program)
        .arg("schema")
        .output()
        .with_context(|| format!("{}: build it first, `cargo build --bin presurvey`", program.display()))?;
    if !output.status.success() {
        bail!("`presurvey schema` failed: {}", String::from_utf8_lossy(&output.stderr));
    }
    serde_json::from_slice(&output.stdout).context("reading what `presurvey schema` prints")
}

/// Copies the files of the form's program into a new folder.
fn copy_program(machine: &Machine, into: &Path) -> Result<()> {
    let page = machine.dist().join("form");
    let wanted = |path: &Path| {
        let packed = path.extension().is_some_and(|kind| kind == "br" || kind == "gz");
        !packed && !OUR_OWN_PAGES.contains(&&*below(&page, path))
    };
    if into.exists() {
        fs::remove_dir_all(into).with_context(|| format!("removing {}", into.display()))?;
    }
    let found = files(&page, wanted).context("build the pages first, `cargo xtask pages`")?;
    for path in found {
        copy(&path, &into.join(below(&page, &path)))?;
    }
    Ok(())
}

/// A file of `www` with the version filled in.
fn filled(machine: &Machine, path: &str) -> Result<String> {
    let path = machine.repo.join(path);
    let text = fs::read_to_string(&path).with_context(|| format!("reading {}", path.display()))?;
    let lock = fs::read_to_string(machine.repo.join("Cargo.lock")).context("reading Cargo.lock")?;
    let version = versions::locked(&lock, "presurvey").context("Cargo.lock names no presurvey")?;
    Ok(text.replace("{version}", version))
}

fn below(folder: &Path, path: &Path) -> String {
    path.strip_prefix(folder).unwrap_or(path).to_string_lossy().into_owned()
}

fn copy(from: &Path, to: &Path) -> Result<()> {
    make_folder_of(to)?;
    fs::copy(from, to).with_context(|| format!("copying {} to {}", from.display(), to.display()))?;
    Ok(())
}

fn put(path: &Path, text: &str) -> Result<()> {
    make_folder_of(path)?;
    fs::write(path, text).with_context(|| format!("writing {}", path.display()))
}

fn make_folder_of(path: &Path) -> Result<()> {
    let folder = path.parent().expect("a file lies in a folder");
    fs::create_dir_all(folder).with_context(|| format!("making {}", folder.display()))
}
