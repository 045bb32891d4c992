//! The project's own commands: `cargo xtask WORD`.

mod accept;
mod bench;
mod budget;
mod bundled;
mod demo;
mod dist;
mod faults;
mod inline;
mod integrity;
mod lazy;
mod machine;
mod measure;
mod notices;
mod offline;
mod packages;
mod pages;
mod prerendered;
mod purity;
mod run;
mod setup;
mod sizes;
mod suite;
mod summary;
mod typescript;
mod weigh;

use machine::Machine;
use run::say;
use setup::Need;
use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask WORD

  demo    set up, build everything, start the service with invented data and print its addresses
  test    set up, then run every check and every test, those in a real browser included
  tidy    the checks of the code itself: formatting, lints, purity
  accept  write anew what tests hold to the code (lists, kept homes and sources): read the difference before it is committed
  pages   build the pages into dist/NAME, pack their files and record what they weigh
  dist    build the pages, then write dist/upload, to copy to any website, and dist/npm, a package, each with its libraries' notices
  packages after dist: write dist/packages, the program linked statically and a Debian package of it and the pages (Linux)
  quick   the same as dist in a quarter of the time: not made small, not packed, not weighed; for working on them
  sizes   print what the built pages weigh
  weigh   print what the programs of the last `pages` are made of, room by room
  bench   time the engine and record it
  measure build the pages, measure how they start and answer on a slow phone and line, and record it
  setup   only install what the others need

Built tools are kept in ~/.cache/presurvey (or XDG_CACHE_HOME; PRESURVEY_TOOLS names another folder).
The demo listens on a free port (PRESURVEY_LISTEN=127.0.0.1:8080 chooses one).
";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let word = match words.as_slice() {
        [] => "help",
        [word] => word,
        _ => "",
    };
    match obey(word) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Runs the command with this name. Returns whether all went well.
fn obey(word: &str) -> anyhow::Result<bool> {
    let machine = Machine::here()?;
    match word {
        "demo" => demo::run_demo(&machine).map(|()| true),
        "test" => Ok(suite::test(&machine)),
        "tidy" => Ok(suite::tidy(&machine)),
        "pages" => {
            let tools = setup::ensure(&machine, Need::Pages)?;
            let sizes = pages::build(&machine, &tools)?;
            print!("{}", sizes::as_table(&sizes));
            print!("{}", sizes::parts_as_table(&pages::parts(&machine, &sizes)?));
            Ok(sizes::past_budget(&sizes, tools.wasm).iter().map(|problem| say(problem)).count() == 0)
        }
        "dist" => {
            let tools = setup::ensure(&machine, Need::Pages)?;
            pages::build(&machine, &tools)?;
            pages::build_headless(&machine, &tools)?;
            suite::native_program(&machine)?;
            dist::write(&machine, &tools).map(|()| true)
        }
        "quick" => {
            let tools = setup::ensure(&machine, Need::Pages)?;
            pages::build_quickly(&machine, &tools)?;
            pages::build_headless_quickly(&machine, &tools)?;
            suite::native_program(&machine)?;
            dist::write(&machine, &tools).map(|()| true)
        }
        "packages" => packages::write(&machine).map(|()| true),
        "accept" => accept::accept(&machine).map(|()| true),
        "sizes" => {
            print!("{}", sizes::as_table(&sizes::compress(&machine.dist())?));
            Ok(true)
        }
        "weigh" => {
            let sizes = sizes::compress(&machine.dist())?;
            print!("{}", sizes::parts_as_table(&pages::parts(&machine, &sizes)?));
            Ok(true)
        }
        "bench" => bench::bench(&machine).map(|()| true),
        "measure" => measure::measure(&machine).map(|()| true),
        "setup" => {
            setup::ensure(&machine, Need::Tests)?;
            say("everything is in place");
            Ok(true)
        }
        "help" | "--help" | "-h" => {
            print!("{USAGE}");
            Ok(true)
        }
        _ => {
            eprint!("{USAGE}");
            Ok(false)
        }
    }
}
