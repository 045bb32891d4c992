//! The part of the npm package that bundlers use (`dist/npm/bundled`): the form's scripts with references that a bundler can follow, and
//! lists of all files that the form loads on demand. Both are made from the output of the build.
//!
//! A script in `www` marks what is different in a bundle: the code after `// In a bundle:` replaces the lines up to `// As everywhere:`.
//! Texts become modules, which every bundler accepts. Programs and the worker are referred to in two ways, one for bundlers that follow
//! `new URL(…, import.meta.url)` and one for a bundler that follows only `import`; the package's `#beside/*` chooses between them.

use crate::integrity::files;
use crate::machine::Machine;
use anyhow::{Context, Result, bail};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// The mark before lines of a script that differ in a bundle; the bundle's code follows on the same line.
const OPENS: &str = "// In a bundle:";
/// The mark after those lines.
const CLOSES: &str = "// As everywhere:";

/// The script that starts everything, and the worker's, which no script imports.
const ENTRY: &str = "presurvey.js";
const WORKER: &str = "worker.js";

/// The program for forms that somebody else writes; the form itself does not use it.
const HEADLESS: &str = "engine_js";

/// The folder in which the form's scripts are kept as the build filled them in, before they are minified.
fn kept(machine: &Machine) -> PathBuf {
    machine.target().join("bundled")
}

/// Keeps a built page's scripts for [`write`]. Does nothing for a page without the form's first script.
///
/// # Errors
/// If a file can't be read or written.
pub fn keep(machine: &Machine, page: &Path) -> Result<()> {
    if !page.join(ENTRY).exists() {
        return Ok(());
    }
    empty(&kept(machine))?;
    for (name, path) in named(page, &["js"])? {
        fs::copy(&path, kept(machine).join(&name)).with_context(|| format!("keeping {name}"))?;
    }
    Ok(())
}

/// Writes `bundled` in the package's folder: the kept scripts that `belongs` accepts, and the texts and programs of `package` as modules.
///
/// # Errors
/// If the scripts were not kept before, or one refers to a file by a relative address, which no bundler can follow.
pub fn write(machine: &Machine, package: &Path, belongs: impl Fn(&str) -> bool) -> Result<()> {
    let folder = package.join("bundled");
    for folder in [&folder, &folder.join("address"), &folder.join("import")] {
        empty(folder)?;
    }
    let mut scripts = named(&kept(machine), &["js"]).context("build the pages first, `cargo xtask pages`")?;
    scripts.retain(|(name, _)| belongs(name));
    let own = machine.repo.join("www/npm");
    let beside = ["beside.js", "headless.js"].map(|name| (name.to_owned(), own.join(name)));
    let glue = [HEADLESS, ".js"].concat();
    let glue = (glue.clone(), package.join(glue));
    for (name, path) in scripts.iter().chain(&beside).chain([&glue]) {
        let text = fs::read_to_string(path).with_context(|| format!("reading {}", path.display()))?;
        put(&folder, name, &in_a_bundle(name, &text)?)?;
    }

    let mut list = "// Written by the build: every file that the form loads on demand.\n".to_owned();
    let is_script = |wanted: &str| scripts.iter().any(|(name, _)| name == wanted);
    let mut programs = String::new();
    for (name, _) in named(package, &["wasm"])? {
        let stem = name.trim_end_matches("_bg.wasm");
        if !is_script(&[stem, ".js"].concat()) && stem != HEADLESS {
            bail!("{name} has no script among those of the form");
        }
        put(
            &folder,
            &format!("address/{name}.js"),
            &format!("export default new URL(\"../../{name}\", import.meta.url).href;\n"),
        )?;
        put(&folder, &format!("import/{name}.js"), &format!("import address from \"../../{name}?url\";\n\n{WHOLE}\n"))?;
        if stem != HEADLESS {
            let _ = writeln!(list, "import {stem} from \"#beside/{name}.js\";");
            let _ = writeln!(programs, "  \"{name}\": {stem},");
        }
    }
    let _ = writeln!(list, "\nexport const PROGRAMS = {{\n{programs}}};\n\nexport const MODULES = {{");
    for (name, _) in scripts.iter().filter(|(name, _)| ![ENTRY, WORKER].contains(&&**name)) {
        let _ = writeln!(list, "  \"{name}\": () => import(\"./{name}\"),");
    }
    let _ = writeln!(list, "}};\n\nexport const TEXTS = {{");
    for (name, path) in named(package, &["txt", "json"])?.into_iter().filter(|(name, _)| belongs(name)) {
        let text = fs::read_to_string(&path).with_context(|| format!("reading {}", path.display()))?;
        put(&folder, &format!("{name}.js"), &format!("export default {};\n", Value::from(text)))?;
        let _ = writeln!(list, "  \"{name}\": () => import(\"./{name}.js\"),");
    }
    list.push_str("};\n");
    put(&folder, "files.js", &list)?;
    put(&folder, "address/worker.js", ADDRESSED)?;
    let text = |name| fs::read_to_string(folder.join(name)).with_context(|| format!("reading what became of {name}"));
    put(
        &folder,
        "import/worker.js",
        &format!(
            "const GLUE = {};\nconst WORKER = {};\n{IMPORTED}",
            Value::from(text("engine.js")?),
            Value::from(text(WORKER)?),
        ),
    )
}

/// Makes an absolute address of one that a bundler gives relative to its script; a classic script is found by its element. Vite's
/// development server gives an address for `?url`; esbuild goes by the file extension before it, and keeps the query.
const WHOLE: &str = "\
const script = import.meta.url ?? document.currentScript?.src ?? document.baseURI;
export default new URL(address.replace(/\\?url$/, \"\"), script).href;";

/// The worker where the bundler makes a script of its own for it.
const ADDRESSED: &str = "\
export const begin = () => new Worker(new URL(\"../worker.js\", import.meta.url), { type: \"module\" });
";

/// The worker where the bundler does not: its script and that script's import are texts, which get addresses when they run.
const IMPORTED: &str = r##"import program from "./engine_bg.wasm.js";

const at = (text) => URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
const worker = () => {
  const glue = at(GLUE);
  const own = at(`export default ${JSON.stringify(program)};`);
  return at(WORKER.replace("./engine.js", glue).replace("#beside/engine_bg.wasm.js", own));
};
export const begin = () => new Worker(worker(), { type: "module" });
"##;

/// A script with the marked lines exchanged, as it is in a bundle.
fn in_a_bundle(name: &str, text: &str) -> Result<String> {
    let mut out = String::new();
    let mut open = false;
    let mut imports = BTreeSet::new();
    for line in text.lines() {
        let said = line.trim_start();
        // A program's glue names a script once for each function that it imports from it; bundlers warn of the second.
        if said.starts_with("\"./") && said.contains("\": import") && !imports.insert(said.split("\": ").next()) {
            continue;
        }
        if let Some(code) = said.strip_prefix(OPENS) {
            if open {
                bail!("{name}: `{OPENS}` stands in a part that it began");
            }
            open = true;
            if !code.is_empty() {
                let indent = &line[..line.len() - said.len()];
                let _ = writeln!(out, "{indent}{}", code.trim_start());
            }
        } else if said == CLOSES {
            if !open {
                bail!("{name}: `{CLOSES}` ends nothing");
            }
            open = false;
        } else if !open {
            let _ = writeln!(out, "{line}");
        }
    }
    if open {
        bail!("{name}: `{CLOSES}` is missing at its end");
    }
    // A program's glue looks for the program beside itself if it is given none; it always is given one.
    let stem = name.trim_end_matches(".js");
    for quote in ['\'', '"'] {
        out = out.replace(&format!("new URL({quote}{stem}_bg.wasm{quote}, import.meta.url)"), "undefined");
        out = out.replace(&format!("new URL({quote}{stem}_bg.wasm{quote},import.meta.url)"), "undefined");
    }
    if out.contains("import.meta") {
        bail!(
            "{name} goes by where it lies (`import.meta`), which is another place in a bundle: say there what to do (`{OPENS}`)"
        );
    }
    Ok(out)
}

/// The files directly in a folder that have one of these extensions, in order of their names.
fn named(folder: &Path, endings: &[&str]) -> Result<Vec<(String, PathBuf)>> {
    let such = |path: &Path| {
        path.parent() == Some(folder) && path.extension().is_some_and(|ending| endings.iter().any(|one| ending == *one))
    };
    let name = |path: &PathBuf| path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    Ok(files(folder, such)?.into_iter().map(|path| (name(&path), path)).collect())
}

fn empty(folder: &Path) -> Result<()> {
    if folder.exists() {
        fs::remove_dir_all(folder).with_context(|| format!("removing {}", folder.display()))?;
    }
    fs::create_dir_all(folder).with_context(|| format!("making {}", folder.display()))
}

fn put(folder: &Path, name: &str, text: &str) -> Result<()> {
    fs::write(folder.join(name), text).with_context(|| format!("writing bundled/{name}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn a_part_of_a_script_is_otherwise_in_a_bundle_and_the_rest_is_the_same() {
        let script = "\
first();
// In a bundle: import { at } from \"./beside.js\";
const at = (name) => new URL(name, import.meta.url);
// As everywhere:
if (wanted) {
  // In a bundle:
  fetch(import.meta.url);
  // As everywhere:
  last(); // In a bundle: only at the beginning of a line
}
";
        let expected = "\
first();
import { at } from \"./beside.js\";
if (wanted) {
  last(); // In a bundle: only at the beginning of a line
}
";
        assert_eq!(in_a_bundle("a.js", script).unwrap(), expected);
        let glue = "at = new URL('form_bg.wasm', import.meta.url);\n";
        assert_eq!(in_a_bundle("form.js", glue).unwrap(), "at = undefined;\n");
    }

    #[test]
    fn a_script_is_imported_under_one_name() {
        let glue = "return {\n  \"./a.js\": import0,\n  \"./b.js\": import1,\n  \"./b.js\": import2,\n};\n";
        assert_eq!(
            in_a_bundle("form.js", glue).unwrap(),
            "return {\n  \"./a.js\": import0,\n  \"./b.js\": import1,\n};\n"
        );
    }

    #[test]
    fn what_no_bundler_could_follow_is_named() {
        for (script, says) in [
            ("// In a bundle: a();\nb();\n", "is missing"),
            ("// As everywhere:\n", "ends nothing"),
            ("// In a bundle:\n// In a bundle:\n", "that it began"),
            ("fetch(new URL(name, import.meta.url));\n", "`import.meta`"),
        ] {
            let error = in_a_bundle("lazy.js", script).unwrap_err().to_string();
            assert!(error.contains("lazy.js") && error.contains(says), "{error}");
        }
    }

    #[test]
    fn every_program_script_and_text_of_the_form_is_on_the_list_and_nothing_else() {
        let stub = Stub::new("bundled-list");
        for name in ["presurvey", "worker", "form", "engine", "lazy", "own-page"] {
            stub.file(&format!("repo/dist/form/{name}.js"), &format!("{name}();\n"));
        }
        for name in ["form_bg.wasm", "engine_bg.wasm", "engine_js_bg.wasm", "first-pl.json", "LICENCE.txt"] {
            stub.file(&format!("repo/dist/npm/{name}"), "{}");
        }
        for name in ["npm/engine_js.js", "npm/own.json"] {
            stub.file(&format!("repo/dist/{name}"), "engine_js();");
        }
        for name in ["beside.js", "headless.js"] {
            stub.file(&format!("repo/www/npm/{name}"), "beside();");
        }
        let machine = stub.machine();
        let package = machine.dist().join("npm");
        assert!(write(&machine, &package, |_| true).unwrap_err().to_string().contains("build the pages first"));
        keep(&machine, &machine.dist().join("form")).unwrap();
        let belongs = |name: &str| !["own-page.js", "own.json", "LICENCE.txt"].contains(&name);
        write(&machine, &package, belongs).unwrap();
        let expected = "\
// Written by the build: every file that the form loads on demand.
import engine from \"#beside/engine_bg.wasm.js\";
import form from \"#beside/form_bg.wasm.js\";

export const PROGRAMS = {
  \"engine_bg.wasm\": engine,
  \"form_bg.wasm\": form,
};

export const MODULES = {
  \"engine.js\": () => import(\"./engine.js\"),
  \"form.js\": () => import(\"./form.js\"),
  \"lazy.js\": () => import(\"./lazy.js\"),
};

export const TEXTS = {
  \"first-pl.json\": () => import(\"./first-pl.json.js\"),
};
";
        let text = |name: &str| fs::read_to_string(package.join("bundled").join(name)).unwrap();
        assert_eq!(text("files.js"), expected);
        assert_eq!(text("first-pl.json.js"), "export default \"{}\";\n");
        assert!(
            text("import/worker.js").starts_with("const GLUE = \"engine();\\n\";\nconst WORKER = \"worker();\\n\";\n")
        );
        for place in ["address", "import"] {
            assert!(text(&format!("{place}/engine_js_bg.wasm.js")).contains("\"../../engine_js_bg.wasm"));
        }
        stub.file("repo/dist/npm/other_bg.wasm", "");
        assert!(write(&machine, &package, belongs).unwrap_err().to_string().contains("other_bg.wasm"));
    }

    #[test]
    fn a_page_without_the_form_keeps_nothing() {
        let stub = Stub::new("bundled-none");
        stub.file("repo/dist/triage/triage.js", "");
        let machine = stub.machine();
        keep(&machine, &machine.dist().join("triage")).unwrap();
        assert!(!kept(&machine).exists());
    }
}
