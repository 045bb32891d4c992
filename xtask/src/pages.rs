//! Builds the pages: the bundler (Trunk) runs once for each, then the files are completed, compressed and measured.

use crate::bundled;
use crate::faults;
use crate::integrity;
use crate::lazy;
use crate::machine::Machine;
use crate::offline;
use crate::prerendered;
use crate::run::{run, say};
use crate::setup::Tools;
use crate::sizes::{self, Made, Sizes};
use crate::weigh::weigh;
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

/// The crate of the form, and the features of all its programs for the browser.
pub const FORM: (&str, &str) = ("presurvey-form", "form,worker,engine-js,plans");

/// Builds every page of `www` into its folder of `dist`, compresses the files and writes their sizes to `tests/results`.
///
/// # Errors
/// If a page does not build.
pub fn build(machine: &Machine, tools: &Tools) -> Result<Sizes> {
    let pages = list(machine)?;
    fetch(machine)?;
    for page in &pages {
        say(&format!("building the page `{page}` (usually one to three minutes the first time)"));
        bundle(machine, tools, page, Speed::AsShipped)?;
        prerendered::put_in(machine, &machine.dist().join(page))?;
        lazy::put_wording(machine, &machine.dist().join(page))?;
        faults::put_guard(&machine.dist().join(page))?;
        bundled::keep(machine, &machine.dist().join(page))?;
        if tools.wasm_opt {
            shorten(machine, tools, &machine.dist().join(page))?;
        }
        integrity::write_into(&machine.dist().join(page).join("presurvey.js"))?;
        offline::list_files(&machine.dist().join(page))?;
    }
    drop_old_pages(machine, &pages)?;
    say("packing the pages' files (usually a few seconds)");
    let sizes = sizes::compress(&machine.dist())?;
    if tools.wasm_opt {
        // Without wasm-opt the sizes would not be those of what is shipped.
        sizes::keep(&sizes, &parts(machine, &sizes)?, &machine.repo.join("tests/results"))?;
    }
    Ok(sizes)
}

/// The parts of each page's program, from the last build before wasm-opt.
///
/// # Errors
/// If a program of the last build is missing.
pub fn parts(machine: &Machine, sizes: &Sizes) -> Result<Vec<Made>> {
    let built = machine.wasm_target().join("wasm-bindgen/release");
    let programs = sizes.iter().flat_map(|(page, files)| files.keys().map(move |file| (page, file)));
    programs
        .filter(|(_, file)| file.ends_with("_bg.wasm"))
        .map(|(page, file)| Ok((format!("{page}/{file}"), weigh(&built.join(file))?)))
        .collect()
}

/// The bundler's page for the engine that somebody else's form uses.
const HEADLESS: &str = "www/npm/engine.html";

/// How much work a build spends on making programs small.
#[derive(Clone, Copy, PartialEq)]
enum Speed {
    /// As it is shipped.
    AsShipped,
    /// As fast as possible, for working on a page.
    Quick,
}

/// Builds every page as fast as possible. Compressed copies of earlier builds are removed, as they would be served in place of the new
/// files.
///
/// # Errors
/// If a page does not build.
pub fn build_quickly(machine: &Machine, tools: &Tools) -> Result<()> {
    let pages = list(machine)?;
    fetch(machine)?;
    for page in &pages {
        bundle(machine, tools, page, Speed::Quick)?;
        prerendered::put_in(machine, &machine.dist().join(page))?;
        lazy::put_wording(machine, &machine.dist().join(page))?;
        faults::put_guard(&machine.dist().join(page))?;
        bundled::keep(machine, &machine.dist().join(page))?;
        integrity::write_into(&machine.dist().join(page).join("presurvey.js"))?;
        offline::list_files(&machine.dist().join(page))?;
    }
    drop_old_pages(machine, &pages)
}

/// The folder of the engine for forms that somebody else writes; it belongs to no page.
#[must_use]
pub fn headless(machine: &Machine) -> PathBuf {
    machine.target().join("headless")
}

/// Builds the engine for forms that somebody else writes, as it is shipped.
///
/// # Errors
/// If it does not build.
pub fn build_headless(machine: &Machine, tools: &Tools) -> Result<()> {
    say("building the engine for forms of one's own (usually a minute or two)");
    bundle_into(machine, tools, HEADLESS, &headless(machine), Speed::AsShipped)?;
    if tools.wasm_opt { shorten(machine, tools, &headless(machine)) } else { Ok(()) }
}

/// Builds that engine as fast as possible.
///
/// # Errors
/// If it does not build.
pub fn build_headless_quickly(machine: &Machine, tools: &Tools) -> Result<()> {
    bundle_into(machine, tools, HEADLESS, &headless(machine), Speed::Quick)
}

/// The pages: every folder of `www` whose `index.html` starts a Rust program.
fn list(machine: &Machine) -> Result<Vec<String>> {
    let www = machine.repo.join("www");
    let mut pages = Vec::new();
    for folder in fs::read_dir(&www).with_context(|| format!("reading {}", www.display()))? {
        let folder = folder?;
        let markup = fs::read_to_string(folder.path().join("index.html")).unwrap_or_default();
        if starts_a_program(&markup) {
            pages.push(folder.file_name().to_string_lossy().into_owned());
        }
    }
    pages.sort();
    if pages.is_empty() {
        bail!("no page was found: {} holds no folder whose index.html has a data-trunk rust link", www.display());
    }
    Ok(pages)
}

fn starts_a_program(markup: &str) -> bool {
    markup.split('<').any(|tag| {
        tag.starts_with("link")
            && tag.contains("data-trunk")
            && (tag.contains("rel=\"rust\"") || tag.contains("rel=rust"))
    })
}

/// Fetches the dependencies. The bundler calls cargo without the network, so they have to be there before.
pub fn fetch(machine: &Machine) -> Result<()> {
    run(
        machine.command("cargo").args(["fetch", "--quiet", "--locked"]),
        "The project's dependencies could not be fetched: check the network; if Cargo.lock does not fit Cargo.toml, run \
         `cargo fetch` once and commit the lock file.",
    )
}

fn bundle(machine: &Machine, tools: &Tools, page: &str, speed: Speed) -> Result<()> {
    bundle_into(machine, tools, &format!("www/{page}/index.html"), &machine.dist().join(page), speed)
}

fn bundle_into(machine: &Machine, tools: &Tools, page: &str, into: &Path, speed: Speed) -> Result<()> {
    let profile = if speed == Speed::Quick { "wasm-quick" } else { "wasm-release" };
    let mut trunk = tools.wasm.command(machine, "trunk");
    trunk
        .env("PATH", tools.path(machine))
        .env("RUST_BACKTRACE", "0") // the bundler's own stack trace would bury the compiler's message
        .args(["build", page, "--cargo-profile", profile, "--skip-version-check"])
        .arg("--dist")
        .arg(into);
    if tools.wasm_opt && speed == Speed::AsShipped {
        trunk.arg("--release"); // only in this mode the bundler runs wasm-opt, at the level that the page's link asks for
    }
    run(&mut trunk, &format!("`{page}` did not build; the bundler's messages above say where."))
}

/// Minifies every script of a page in place; wasm-bindgen writes its glue for people to read.
fn shorten(machine: &Machine, tools: &Tools, folder: &Path) -> Result<()> {
    for path in integrity::files(folder, |path| path.extension().is_some_and(|ending| ending == "js"))? {
        let mut terser = tools.wasm.command(machine, "terser");
        terser.env("PATH", tools.path(machine)).arg(&path);
        terser.args(["--module", "--compress", "--mangle", "--output"]).arg(&path);
        run(&mut terser, &format!("{} could not be shortened.", path.display()))?;
    }
    Ok(())
}

/// Removes pages of earlier builds that are no longer in `www`: they would be served and measured for ever.
fn drop_old_pages(machine: &Machine, pages: &[String]) -> Result<()> {
    for folder in fs::read_dir(machine.dist()).context("reading dist")? {
        let folder = folder?;
        if !pages.contains(&folder.file_name().to_string_lossy().into_owned()) && folder.file_type()?.is_dir() {
            fs::remove_dir_all(folder.path()).with_context(|| format!("removing {}", folder.path().display()))?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn a_folder_with_a_program_is_a_page_and_others_are_not() {
        let stub = Stub::new("pages-list");
        let link = "<link data-trunk rel=\"rust\" href=\"../../Cargo.toml\" data-bin=\"x\">";
        stub.file("repo/www/triage/index.html", link);
        stub.file("repo/www/form/index.html", link);
        stub.file("repo/www/plain/index.html", "<link data-trunk rel=\"css\" href=\"a.css\"><p>rel=\"rust\"</p>");
        stub.file("repo/www/wording/en/form.ftl", "");
        assert_eq!(list(&stub.machine()).unwrap(), ["form", "triage"]);
    }

    #[test]
    fn no_page_is_an_error() {
        let stub = Stub::new("pages-none");
        stub.file("repo/www/readme", "");
        assert!(list(&stub.machine()).unwrap_err().to_string().contains("no page was found"));
    }

    #[test]
    fn pages_that_are_no_more_leave_dist() {
        let stub = Stub::new("pages-old");
        stub.file("repo/dist/form/index.html", "");
        stub.file("repo/dist/gone/index.html", "");
        drop_old_pages(&stub.machine(), &["form".to_owned()]).unwrap();
        assert!(stub.path("repo/dist/form").exists() && !stub.path("repo/dist/gone").exists());
    }
}
