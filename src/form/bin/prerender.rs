//! Prints, as JSON, the prerendered markup and the constants for the page's scripts; the build of the pages inserts them.

use std::process::ExitCode;

fn main() -> ExitCode {
    match form::widget::prerendered::made_for_the_pages() {
        Ok(all) => {
            println!("{}", serde_json::to_string(&all).expect("it holds nothing that JSON lacks"));
            ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("prerender: {problem}");
            ExitCode::FAILURE
        }
    }
}
