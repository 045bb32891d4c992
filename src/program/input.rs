//! Files from the command line: read whole, parsed strictly, refused with file, line, field, what was there and what may be.

use model::answers::Answers;
use model::config::{Config, ConfigProblem, Setup, check_config, check_setup};
use record::json::read_json;
use serde::de::DeserializeOwned;
use std::io::Read;
use std::path::Path;

/// The most a file may weigh: a thousand times what the largest sensible one does.
const MOST_BYTES: u64 = 16 * 1024 * 1024;

/// What was given is not allowed; the words say why.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub struct Refused(pub String);

pub fn read_answers(file: &Path) -> Result<Answers, Refused> {
    read(file)
}

pub fn read_config(file: &Path) -> Result<Config, Refused> {
    let config = read(file)?;
    none_wrong(&named(file), &check_config(&config))?;
    Ok(config)
}

pub fn read_setup(file: &Path) -> Result<Setup, Refused> {
    let setup = read(file)?;
    none_wrong(&named(file), &check_setup(&setup))?;
    Ok(setup)
}

fn read<T: DeserializeOwned>(file: &Path) -> Result<T, Refused> {
    let name = named(file);
    read_json(&bytes_of(file)?).map_err(|why| Refused(format!("{name}: {why}")))
}

/// A file's bytes.
pub fn bytes_of(file: &Path) -> Result<Vec<u8>, Refused> {
    let name = named(file);
    let bytes = read_bytes(file).map_err(|why| Refused(format!("{name}: {why}")))?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(Refused(format!("{name}: this is too large; it may be at most {MOST_BYTES} bytes")));
    }
    Ok(bytes)
}

fn read_bytes(file: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let limit = MOST_BYTES + 1; // one more tells that there is more
    if file == Path::new("-") {
        std::io::stdin().take(limit).read_to_end(&mut bytes)?;
    } else {
        std::fs::File::open(file)?.take(limit).read_to_end(&mut bytes)?;
    }
    Ok(bytes)
}

/// A file as it is called in a refusal.
pub fn named(file: &Path) -> String {
    if file == Path::new("-") { "standard input".to_owned() } else { file.display().to_string() }
}

/// Lists everything that is wrong, not the first alone.
pub fn none_wrong(name: &str, problems: &[ConfigProblem]) -> Result<(), Refused> {
    if problems.is_empty() {
        return Ok(());
    }
    let lines: Vec<String> = problems.iter().map(|problem| format!("{name}: {problem}")).collect();
    Err(Refused(lines.join("\n")))
}
