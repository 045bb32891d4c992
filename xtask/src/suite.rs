//! The steps of `cargo xtask test` and `cargo xtask tidy`, with a summary at the end.

use crate::dist;
use crate::machine::Machine;
use crate::measure;
use crate::pages;
use crate::purity;
use crate::run::{run, say, watch};
use crate::setup::wasm_std::TARGET;
use crate::setup::{self, Need, Tools};
use crate::sizes;
use crate::summary::{Counts, Step, Summary};
use anyhow::{Context, Result, bail};
use std::path::PathBuf;
use std::process::Stdio;
use std::time::Instant;

/// The time limit in milliseconds for a file of page tests, many times what the longest takes; a file that hangs is stopped and named.
const HANGS_NO_LONGER_THAN: &str = "--test-timeout=1200000";

/// The crates with programs for a browser, each with the features that all its programs need together.
const BROWSER: [(&str, &str); 2] = [pages::FORM, ("presurvey-installer", "page")];

/// The features that the form ships with, and the views rendered natively.
const AS_SHIPPED: &str = "presurvey-model/std,presurvey-form/form,presurvey-form/plans,presurvey-form/prerender";

/// Runs every check and every test, as far as earlier failures allow. Returns whether all went well; the last thing printed is the summary.
pub fn test(machine: &Machine) -> bool {
    let mut suite = Suite::new(machine);
    if let Some(tools) = suite.set_up() {
        suite.tidy(&tools);
        suite.native_tests();
        suite.as_shipped();
        suite.network_solver(&tools);
        suite.estimate(&tools);
        suite.schemas(&tools);
        suite.api(&tools);
        let built = suite.pages(&tools) & suite.native_program() && suite.handed_out(&tools);
        if built {
            suite.page_tests(&tools);
        } else {
            suite.skip("tests in a browser", "the pages or the program did not build");
        }
    }
    suite.summary.close(true)
}

/// Runs the checks of the code itself. Returns whether all passed.
pub fn tidy(machine: &Machine) -> bool {
    let mut suite = Suite::new(machine);
    if let Some(tools) = suite.set_up() {
        suite.tidy(&tools);
    }
    suite.summary.close(false)
}

struct Suite<'a> {
    machine: &'a Machine,
    summary: Summary,
}

impl<'a> Suite<'a> {
    fn new(machine: &'a Machine) -> Self {
        Self { machine, summary: Summary::default() }
    }

    /// Runs and times a step, and notes its outcome. Returns whether it succeeded.
    fn step(&mut self, name: &str, usually: &str, work: impl FnOnce(&mut Counts) -> Result<()>) -> bool {
        say(&format!("{name} (usually {usually})"));
        let start = Instant::now();
        let mut counts = Counts::default();
        let problem = work(&mut counts).err().map(|error| format!("{error:#}"));
        if let Some(problem) = &problem {
            say(&format!("{name} FAILED: {problem}"));
        }
        let step = Step { name: name.to_owned(), seconds: start.elapsed().as_secs_f64(), counts, problem };
        let well = step.well();
        self.summary.add(step);
        well
    }

    fn skip(&mut self, name: &str, reason: &str) {
        let problem = Some(format!("not run: {reason}"));
        self.summary.add(Step { name: name.to_owned(), seconds: 0.0, counts: Counts::default(), problem });
    }

    fn set_up(&mut self) -> Option<Tools> {
        let machine = self.machine;
        let mut tools = None;
        self.step("set-up", "seconds; the first time on a machine, up to fifteen minutes", |_| {
            tools = Some(setup::ensure(machine, Need::Tests)?);
            pages::fetch(machine)
        });
        tools
    }

    fn tidy(&mut self, tools: &Tools) {
        let machine = self.machine;
        self.step("formatting", "a second", |_| {
            run(machine.command("cargo").args(["fmt", "--all", "--check"]), "Run `cargo fmt --all`.")
        });
        self.step("lints, native", "a minute or two the first time", |_| {
            run(
                machine
                    .command("cargo")
                    .args(["clippy", "--quiet", "--workspace", "--all-targets"])
                    .args(["--", "-D", "warnings"]),
                "Mend what the lints above name.",
            )
        });
        self.step("lints, browser", "a minute the first time", |_| {
            BROWSER.iter().try_for_each(|(package, features)| {
                run(
                    tools
                        .wasm
                        .command(machine, "cargo")
                        .args(["clippy", "--quiet", "--package", package, "--lib", "--bins"])
                        .args(["--no-default-features", "--features", features, "--target", TARGET])
                        .args(["--", "-D", "warnings"]),
                    "Mend what the lints above name.",
                )
            })
        });
        self.step("licences and origins of the crates", "seconds", |_| crates(machine, tools));
        self.step("purity", "half a minute the first time", |_| purity::check(machine, tools.wasm));
    }

    fn native_tests(&mut self) {
        let machine = self.machine;
        self.step("native tests", "two to five minutes the first time", |counts| {
            let mut command = machine.command("cargo");
            command.args(["test", "--workspace", "--no-fail-fast"]);
            if !watch(&mut command, |line| counts.read_cargo(line))? {
                bail!("see the failures above; `cargo test --workspace NAME` runs one alone");
            }
            Ok(())
        });
    }

    /// The form and what it reads answers with, built with the features that it ships with: its reader of JSON is not the exact one.
    fn as_shipped(&mut self) {
        let machine = self.machine;
        self.step("native tests of the form as it ships", "a minute the first time", |counts| {
            let mut command = machine.command("cargo");
            command.args([
                "test",
                "--package",
                "presurvey-model",
                "--package",
                "presurvey-form",
                "--lib",
                "--no-fail-fast",
            ]);
            command.args(["--no-default-features", "--features", AS_SHIPPED]);
            if !watch(&mut command, |line| counts.read_cargo(line))? {
                bail!("see the failures above: with all features these tests may well pass");
            }
            Ok(())
        });
    }

    /// Has NumPy and SciPy check the estimates of homes that the native tests wrote out.
    fn estimate(&mut self, tools: &Tools) {
        let machine = self.machine;
        self.step("the estimates, worked again by NumPy and SciPy", "half a minute", |_| {
            let python = tools.solver.as_ref().context("the set-up left out the network solver")?;
            let model = machine.target().join("tmp/estimate-model.json");
            run(
                machine.command(python).arg("tests/sources/estimate.py").arg(model),
                "The homes are written out by the native tests: `cargo test --test estimate`.",
            )
        });
    }

    /// Makes the test vectors of the network solver and of recorded jobs again and compares them with the kept ones.
    fn network_solver(&mut self, tools: &Tools) {
        let machine = self.machine;
        self.step("the network solver's vectors, made again", "half a minute", |_| {
            let python = tools.solver.as_ref().context("the set-up left out the network solver")?;
            for name in ["network_solver", "recorded_jobs"] {
                let [script, kept] = ["py", "json"].map(|kind| format!("tests/sources/{name}.{kind}"));
                run(
                    machine.command(python).args([script, kept]),
                    "If versions were changed on purpose, write the vectors anew: run the script without a file.",
                )?;
            }
            Ok(())
        });
    }

    /// Checks that the published schemas and the program's parsers accept and refuse the same documents.
    fn schemas(&mut self, tools: &Tools) {
        let machine = self.machine;
        self.step("the schemas against the readers", "half a minute", |_| {
            let python = tools.solver.as_ref().context("the set-up left out the network solver")?;
            run(
                machine.command("cargo").args([
                    "build",
                    "--quiet",
                    "--package",
                    "presurvey",
                    "--bin",
                    "presurvey",
                    "--example",
                    "verdicts",
                ]),
                "The native program or what says its readers' verdicts did not build.",
            )?;
            run(
                machine.command(python).arg("tests/sources/schemas.py").arg(machine.target().join("debug")),
                "Say in the schema what the reader does; what no schema can say is listed there and in the script.",
            )
        });
    }

    /// Has schemathesis hold the answers of a running service to its OpenAPI document.
    fn api(&mut self, tools: &Tools) {
        let machine = self.machine;
        self.step("the answers against the OpenAPI document", "a minute", |_| {
            let python = tools.solver.as_ref().context("the set-up left out the network solver")?;
            native_program(machine)?;
            run(
                machine.command(python).arg("tests/sources/api.py").arg(machine.target().join("debug/presurvey")),
                "Say beside the handler what it answers, or mend the answer.",
            )
        });
    }

    fn pages(&mut self, tools: &Tools) -> bool {
        let machine = self.machine;
        let mut sizes = None;
        let built = self.step("pages", "two to five minutes the first time", |_| {
            sizes = Some(pages::build(machine, tools)?);
            Ok(())
        });
        if let Some(sizes) = sizes {
            self.step("what the pages weigh", "no time", |_| {
                let past = sizes::past_budget(&sizes, tools.wasm);
                if past.is_empty() { Ok(()) } else { bail!("{}", past.join("; ")) }
            });
        }
        built
    }

    fn native_program(&mut self) -> bool {
        let machine = self.machine;
        self.step("the native program", "seconds after the tests", |_| native_program(machine))
    }

    fn handed_out(&mut self, tools: &Tools) -> bool {
        let machine = self.machine;
        self.step("what is handed out", "a minute or two", |_| {
            pages::build_headless(machine, tools)?;
            dist::write(machine, tools)
        })
    }

    fn page_tests(&mut self, tools: &Tools) {
        let machine = self.machine;
        self.step("tests in a browser", "one to three minutes", |counts| {
            let files = page_test_files(machine)?;
            let mut node = measure::node(machine, tools);
            node.args(["--test", "--test-reporter=spec", "--test-concurrency=1", HANGS_NO_LONGER_THAN]).args(files);
            if !watch(&mut node, |line| counts.read_node(line))? {
                bail!("see the failures above; tests/pages/lib says how to run one file alone");
            }
            Ok(())
        });
    }
}

/// Builds the native program as the tests use it.
///
/// # Errors
/// If it does not build.
pub fn native_program(machine: &Machine) -> Result<()> {
    run(machine.command("cargo").args(["build", "--quiet", "--bin", "presurvey"]), "The native program did not build.")
}

/// Has cargo-deny look at what is built in, as `deny.toml` says. Known faults of the crates are looked for where their list can be reached.
fn crates(machine: &Machine, tools: &Tools) -> Result<()> {
    let deny = tools.cargo_deny.as_ref().context("the set-up left out cargo-deny")?;
    run(
        machine.command(deny).args(["check", "licenses", "bans", "sources"]),
        "A crate is not as deny.toml asks; take another, or say there why this one may be.",
    )?;
    let fetched = machine.command(deny).args(["fetch", "db"]).stderr(Stdio::null()).status();
    if fetched.is_ok_and(|status| status.success()) {
        let check = ["--offline", "check", "advisories"];
        return run(
            machine.command(deny).args(check),
            "A crate has a known fault, or was withdrawn: take another version.",
        );
    }
    say("known faults of the crates were not looked for: their list can't be reached from here");
    Ok(())
}

/// Every `*.test.mjs` in the folders whose tests open a browser, in order of the names.
fn page_test_files(machine: &Machine) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for folder in ["tests/lighthouse", "tests/pages"] {
        let folder = machine.repo.join(folder);
        let entries = std::fs::read_dir(&folder).with_context(|| format!("reading {}", folder.display()))?;
        let before = files.len();
        let paths = entries.flatten().map(|file| file.path());
        files.extend(paths.filter(|path| path.to_string_lossy().ends_with(".test.mjs")));
        if files.len() == before {
            bail!("{} holds no *.test.mjs", folder.display());
        }
    }
    files.sort();
    Ok(files)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    #[test]
    fn browser_tests_are_found_in_order_and_none_is_an_error() {
        let stub = Stub::new("suite-files");
        stub.file("repo/tests/pages/lib/browser.mjs", "");
        stub.file("repo/tests/lighthouse/scores.test.mjs", "");
        assert!(page_test_files(&stub.machine()).is_err());
        stub.file("repo/tests/pages/keyboard.test.mjs", "");
        stub.file("repo/tests/pages/axe.test.mjs", "");
        let files = page_test_files(&stub.machine()).unwrap();
        let names: Vec<_> = files.iter().map(|file| file.file_name().unwrap().to_owned()).collect();
        assert_eq!(names, ["scores.test.mjs", "axe.test.mjs", "keyboard.test.mjs"]);
    }

    #[test]
    fn a_failed_set_up_ends_in_the_account_and_badly() {
        let stub = Stub::new("suite-bare");
        assert!(!test(&stub.machine()));
    }
}
