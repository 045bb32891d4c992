//! Files named on the command line: read whole, parsed strictly, and refused with file, line, field, what was there and what it may be.

use model::answers::Answers;
use model::config::{Config, Setup, check_config, check_setup};
use record::enquiry::read_kept_enquiry;
use record::json::read_json;
use serde::Deserialize;
use serde::de::{DeserializeOwned, IgnoredAny};
use std::fmt::Display;
use std::io::Read;
use std::path::Path;

/// The most a file may weigh: a thousand times what the largest sensible one does.
const MOST_BYTES: u64 = 16 * 1024 * 1024;

/// An input that is not allowed; the message says why.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub struct Refused(pub String);

/// Reads a file of answers, or those in the record of an enquiry; `-` is standard input.
///
/// # Errors
/// [`Refused`], if it can't be read or is not allowed.
pub fn read_answers(file: &Path) -> Result<Answers, Refused> {
    let (name, bytes) = (named(file), bytes_of(file)?);
    // Every record has a version; answers have none.
    if serde_json::from_slice::<Versioned>(&bytes).is_err() {
        return read_json(&bytes).map_err(|why| Refused(format!("{name}: {why}")));
    }
    let payload = read_kept_enquiry(&bytes).map_err(|why| Refused(format!("{name}: {why}")))?.payload;
    let as_of = payload.answers.as_of.or(Some(payload.as_of));
    Ok(Answers { as_of, ..payload.answers })
}

#[derive(Deserialize)]
struct Versioned {
    #[serde(rename = "version")]
    _version: IgnoredAny,
}

/// Reads and checks a published config.
///
/// # Errors
/// [`Refused`], if it can't be read or is not allowed.
pub fn read_config(file: &Path) -> Result<Config, Refused> {
    let config = read(file)?;
    none_wrong(&named(file), &check_config(&config))?;
    Ok(config)
}

/// Reads and checks a setup.
///
/// # Errors
/// [`Refused`], if it can't be read or is not allowed.
pub fn read_setup(file: &Path) -> Result<Setup, Refused> {
    setup_of(&named(file), &bytes_of(file)?)
}

/// Reads and checks a setup, and returns its text too.
///
/// # Errors
/// As for [`read_setup`].
pub fn read_setup_text(file: &Path) -> Result<(String, Setup), Refused> {
    let (name, bytes) = (named(file), bytes_of(file)?);
    let setup = setup_of(&name, &bytes)?;
    let text = String::from_utf8(bytes).map_err(|why| Refused(format!("{name}: {why}")))?;
    Ok((text, setup))
}

/// Reads and checks a setup's text; `name` stands for it in messages.
///
/// # Errors
/// [`Refused`], if it is not allowed.
pub fn setup_of(name: &str, bytes: &[u8]) -> Result<Setup, Refused> {
    let setup = read_json(bytes).map_err(|why| Refused(format!("{name}: {why}")))?;
    none_wrong(name, &check_setup(&setup))?;
    Ok(setup)
}

fn read<T: DeserializeOwned>(file: &Path) -> Result<T, Refused> {
    let name = named(file);
    read_json(&bytes_of(file)?).map_err(|why| Refused(format!("{name}: {why}")))
}

/// Reads a file's bytes, or those of standard input for `-`.
///
/// # Errors
/// If it can't be read or is too large.
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
    let limit = MOST_BYTES + 1; // a further byte shows that the file is too large
    if file == Path::new("-") {
        std::io::stdin().take(limit).read_to_end(&mut bytes)?;
    } else {
        std::fs::File::open(file)?.take(limit).read_to_end(&mut bytes)?;
    }
    Ok(bytes)
}

/// The name of a file in messages.
pub fn named(file: &Path) -> String {
    if file == Path::new("-") { "standard input".to_owned() } else { file.display().to_string() }
}

/// Refuses a file with all its problems, not only the first.
///
/// # Errors
/// If there is any problem.
pub fn none_wrong(name: &str, problems: &[impl Display]) -> Result<(), Refused> {
    if problems.is_empty() {
        return Ok(());
    }
    let lines: Vec<String> = problems.iter().map(|problem| format!("{name}: {problem}")).collect();
    Err(Refused(lines.join("\n")))
}
