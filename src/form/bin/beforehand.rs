//! Prints the markup that is made beforehand, as JSON by language; the build of the pages puts it where it belongs.

use std::process::ExitCode;

fn main() -> ExitCode {
    match form::widget::beforehand::all() {
        Ok(all) => {
            println!("{}", serde_json::to_string(&all).expect("it holds nothing that JSON lacks"));
            ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("beforehand: {problem}");
            ExitCode::FAILURE
        }
    }
}
