//! The log of the service: to standard error, as standard output is for the addresses alone; for people, or as JSON for programs.

use crate::input::Refused;
use std::io::IsTerminal;
use tracing_subscriber::EnvFilter;

/// How the log is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub enum Log {
    /// A line for people.
    Text,
    /// One JSON object a line.
    Json,
}

/// Begins to log, by the level that `RUST_LOG` says.
///
/// # Errors
/// [`Refused`], if `RUST_LOG` can't be read.
pub fn begin(log: Log) -> Result<(), Refused> {
    let said = std::env::var("RUST_LOG").unwrap_or_default();
    let levels = if said.trim().is_empty() { "info" } else { &said };
    let filter = EnvFilter::try_new(levels).map_err(|why| {
        Refused(format!("RUST_LOG: {levels:?} is not allowed ({why}); it may be error, warn, info, debug or trace"))
    })?;
    let lines = tracing_subscriber::fmt().with_env_filter(filter).with_writer(std::io::stderr).with_target(false);
    // Else what can't be written would be told on the same standard error, whose failing ends the task: a full disk would end requests.
    let lines = lines.log_internal_errors(false);
    match log {
        Log::Text => lines.with_ansi(may_be_coloured()).init(),
        Log::Json => lines.json().flatten_event(true).with_span_list(false).init(),
    }
    Ok(())
}

/// Colour codes are for a terminal, and only where nobody has ruled them out (`NO_COLOR`).
fn may_be_coloured() -> bool {
    std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none_or(|said| said.is_empty())
}
