//! Reading JSON that somebody else wrote (answers, a config): an error names the line, the column and the field, what
//! stands there and what is allowed.

use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use serde::de::DeserializeOwned;
use serde_json::error::Category;

/// Why a file could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// Not JSON, or more than one JSON value.
    #[error("this is not JSON: {0}")]
    NotJson(String),
    /// JSON, but a field holds what it may not.
    #[error("line {line}, column {column}, `{path}`: {why}")]
    NotAllowed {
        /// The field, as a path from the outermost object: `board.protection`.
        path: String,
        /// What stands there and what is allowed.
        why: String,
        /// The line, counted from 1.
        line: usize,
        /// The column, counted from 1.
        column: usize,
    },
}

/// Reads a file that holds one JSON object and nothing after it, and returns the object as a `T`.
///
/// # Errors
/// [`Unreadable`]: the bytes are not JSON, something follows the object, or a field holds what is not allowed.
pub fn read_json<T: DeserializeOwned>(json: &[u8]) -> Result<T, Unreadable> {
    // serde also reads a struct from a list of its fields in order, and an empty list as its defaults; every file here is an object.
    if json.trim_ascii_start().first() == Some(&b'[') {
        return Err(Unreadable::NotAllowed {
            path: ".".into(),
            why: "a list is not allowed; it may be an object in braces".into(),
            line: 1 + json.iter().take_while(|byte| byte.is_ascii_whitespace()).filter(|byte| **byte == b'\n').count(),
            column: 1,
        });
    }
    let mut reader = serde_json::Deserializer::from_slice(json);
    let value = serde_path_to_error::deserialize(&mut reader).map_err(|error| {
        let path = error.path().to_string();
        let inner = error.into_inner();
        match inner.classify() {
            Category::Data => {
                Unreadable::NotAllowed { path, line: inner.line(), column: inner.column(), why: without_place(&inner) }
            }
            Category::Syntax | Category::Eof | Category::Io => Unreadable::NotJson(inner.to_string()),
        }
    })?;
    reader.end().map_err(|error| Unreadable::NotJson(error.to_string()))?;
    Ok(value)
}

/// The error's message without its " at line … column …": both are fields of their own.
fn without_place(error: &serde_json::Error) -> String {
    let whole = error.to_string();
    let place = format!(" at line {} column {}", error.line(), error.column());
    whole.strip_suffix(&place).map_or(whole.clone(), str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::Answers;

    #[test]
    fn an_error_names_line_field_what_was_there_and_what_may_be() {
        let json = b"{\n \"board\": {\n  \"protection\": \"magic\"\n }\n}";
        let error = read_json::<Answers>(json).unwrap_err().to_string();
        for part in ["line 3", "`board.protection`", "magic", "fuse-wire, breakers"] {
            assert!(error.contains(part), "{part} in {error}");
        }
    }

    #[test]
    fn a_second_value_is_refused() {
        assert!(matches!(read_json::<Answers>(b"{} {}"), Err(Unreadable::NotJson(_))));
        assert!(read_json::<Answers>(b"{} \n").is_ok());
    }

    #[test]
    fn a_list_is_not_read_as_an_object() {
        let error = read_json::<Answers>(b"\n\n[]").unwrap_err().to_string();
        assert!(error.contains("line 3") && error.contains("braces"), "{error}");
    }

    #[test]
    fn a_cut_file_is_not_json() {
        assert!(matches!(read_json::<Answers>(b"{\"board\": {"), Err(Unreadable::NotJson(_))));
        assert!(matches!(read_json::<Answers>(b""), Err(Unreadable::NotJson(_))));
    }
}
