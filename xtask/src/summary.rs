//! The summary of a run: which steps ran, how long each took, how many tests passed and failed.

use std::fmt::Write as _;

/// How many tests passed and failed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    passed: u64,
    failed: u64,
}

impl Counts {
    /// Adds the counts of a line that `cargo test` printed, if it is a result line.
    pub fn read_cargo(&mut self, line: &str) {
        let Some(rest) = line.trim_start().strip_prefix("test result: ") else {
            return;
        };
        let number_before = |word: &str| {
            let before = rest.split(word).next().filter(|before| before.len() < rest.len())?;
            before.rsplit(|c: char| !c.is_ascii_digit()).next()?.parse::<u64>().ok()
        };
        self.passed += number_before(" passed").unwrap_or(0);
        self.failed += number_before(" failed").unwrap_or(0);
    }

    /// Adds the count of a line that Node's test runner printed, if it is one of its closing counts.
    ///
    /// A test that was cancelled (a time limit, a file that ended early) counts as failed.
    pub fn read_node(&mut self, line: &str) {
        let Some(rest) = line.strip_prefix("ℹ ").or_else(|| line.strip_prefix("# ")) else {
            return;
        };
        let Some((word, number)) = rest.split_once(' ') else {
            return;
        };
        let Ok(number) = number.parse::<u64>() else {
            return;
        };
        match word {
            "pass" => self.passed += number,
            "fail" | "cancelled" => self.failed += number,
            _ => {}
        }
    }
}

/// One step and its outcome.
#[derive(Clone, Debug)]
pub struct Step {
    /// Its name.
    pub name: String,
    /// How long it took.
    pub seconds: f64,
    /// The tests that it ran, if any.
    pub counts: Counts,
    /// Why it failed, if it did.
    pub problem: Option<String>,
}

impl Step {
    /// Whether all went well.
    pub fn well(&self) -> bool {
        self.problem.is_none() && self.counts.failed == 0
    }

    /// The number of failures: its failed tests, or one if it failed without naming a test.
    fn failed(&self) -> u64 {
        if self.problem.is_some() { self.counts.failed.max(1) } else { self.counts.failed }
    }
}

/// All steps so far.
#[derive(Debug, Default)]
pub struct Summary {
    steps: Vec<Step>,
}

impl Summary {
    /// Adds a step.
    pub fn add(&mut self, step: Step) {
        self.steps.push(step);
    }

    /// Prints the summary; its last line is `N passed, N failed`. Returns whether all went well. If tests were meant to run and none did,
    /// that is a failure.
    pub fn close(&mut self, tests_were_meant: bool) -> bool {
        if tests_were_meant && self.passed() == 0 {
            let problem = Some("not one test passed, so nothing was tested".to_owned());
            self.add(Step { name: "any test at all".to_owned(), seconds: 0.0, counts: Counts::default(), problem });
        }
        print!("{}", self.account(tests_were_meant));
        self.steps.iter().all(Step::well)
    }

    fn passed(&self) -> u64 {
        self.steps.iter().map(|step| step.counts.passed).sum()
    }

    fn account(&self, tests_were_meant: bool) -> String {
        let mut text = String::from("\n");
        let widest = self.steps.iter().map(|step| step.name.chars().count()).max().unwrap_or(0);
        for step in &self.steps {
            let mark = if step.well() { "ok    " } else { "FAILED" };
            let _ = write!(text, "{mark}  {:widest$}  {:7.1} s", step.name, step.seconds);
            let Counts { passed, failed } = step.counts;
            if passed + failed > 0 {
                let _ = write!(text, "  {passed} passed, {failed} failed");
            }
            text.push('\n');
        }
        for step in &self.steps {
            if let Some(problem) = &step.problem {
                let _ = writeln!(text, "{}: {problem}", step.name);
            }
        }
        let failed: u64 = self.steps.iter().map(Step::failed).sum();
        // `tidy` runs no tests, so its steps themselves count as passed or failed.
        let passed =
            if tests_were_meant { self.passed() } else { self.steps.iter().filter(|step| step.well()).count() as u64 };
        let _ = writeln!(text, "{passed} passed, {failed} failed");
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(name: &str, counts: (u64, u64), problem: Option<&str>) -> Step {
        let counts = Counts { passed: counts.0, failed: counts.1 };
        Step { name: name.to_owned(), seconds: 1.0, counts, problem: problem.map(str::to_owned) }
    }

    #[test]
    fn result_lines_of_cargo_are_added_up() {
        let mut counts = Counts::default();
        counts.read_cargo(
            "test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; 3 filtered out; finished in 0.01s",
        );
        counts.read_cargo("test result: FAILED. 3 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out");
        counts.read_cargo("running 5 tests");
        counts.read_cargo("thread panicked: 9 passed; 9 failed");
        assert_eq!(counts, Counts { passed: 15, failed: 2 });
    }

    #[test]
    fn both_shapes_of_nodes_counts_are_read() {
        let mut counts = Counts::default();
        for line in ["ℹ tests 9", "ℹ pass 5", "ℹ fail 1", "ℹ cancelled 2", "# pass 4", "# fail 0", "✔ pass 7"]
        {
            counts.read_node(line);
        }
        assert_eq!(counts, Counts { passed: 9, failed: 3 });
    }

    #[test]
    fn a_step_that_fails_without_a_test_counts_once() {
        let mut summary = Summary::default();
        summary.add(step("lints", (0, 0), Some("mend them")));
        summary.add(step("native tests", (7, 2), Some("see above")));
        let account = summary.account(true);
        assert!(account.ends_with("\n7 passed, 3 failed\n"), "{account}");
        assert!(!summary.close(true));
    }

    #[test]
    fn all_well_is_told_so() {
        let mut summary = Summary::default();
        summary.add(step("native tests", (7, 0), None));
        assert!(summary.account(true).ends_with("7 passed, 0 failed\n"));
        assert!(summary.close(true));
    }

    #[test]
    fn no_test_at_all_is_a_failure() {
        let mut summary = Summary::default();
        summary.add(step("native tests", (0, 0), None));
        assert!(!summary.close(true));
        assert!(summary.account(true).ends_with("0 passed, 1 failed\n"));
    }

    #[test]
    fn checks_alone_are_counted_as_steps() {
        let mut summary = Summary::default();
        summary.add(step("formatting", (0, 0), None));
        assert!(summary.close(false));
        assert!(summary.account(false).ends_with("1 passed, 0 failed\n"));
    }
}
