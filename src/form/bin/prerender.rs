//! Prints the markup that is made beforehand and what the scripts are to know, as JSON; the build of the pages puts it where it belongs.

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
