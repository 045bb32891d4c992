//! What a page may weigh: the one place where a limit is set.
//!
//! A limit is only ever lowered, to what was reached and a little.

/// A page's name and the most bytes that its program may take over the line, brotli 11: everything in its folder
/// (wasm, glue, styles, wording, markup) but photographs.
pub const LIMITS: [(&str, u64); 1] = [("form", 190_000)];

/// The limit of a page, if it has one.
pub fn limit(page: &str) -> Option<u64> {
    LIMITS.iter().find(|(name, _)| *name == page).map(|(_, bytes)| *bytes)
}
