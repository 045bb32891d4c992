//! The size budget: how many bytes each page may transfer. Limits are set here alone.
//!
//! When a page gets smaller its limit is lowered to slightly above the new size; only a feature of its own raises one. Limits hold for the
//! standard library that the set-up builds; with any other each program may be [`READY_MADE`] bytes larger.

use crate::setup::wasm_std::Toolchain;

/// Files of a page that are fetched together, and the most bytes that they may take compressed with brotli 11.
pub struct Wave {
    /// The page's name.
    pub page: &'static str,
    /// What works once they have arrived.
    pub name: &'static str,
    /// The files' names.
    pub files: &'static [&'static str],
    /// The limit in bytes, all files together.
    pub limit: u64,
}

/// All waves that have a limit.
pub const WAVES: [Wave; 6] = [
    Wave { page: "form", name: "the first question", files: &["presurvey.js"], limit: 10_640 },
    Wave {
        page: "form",
        name: "every question reacts",
        files: &["presurvey.js", "store.js", "assess.js", "lazy.js", "form.js", "form_bg.wasm"],
        limit: 183_000,
    },
    Wave {
        page: "form",
        name: "the engine, fetched when idle",
        files: &["worker.js", "engine.js", "engine_bg.wasm"],
        limit: 163_000,
    },
    Wave { page: "form", name: "the drawings, fetched when idle", files: &["sketches-en.txt"], limit: 5_400 },
    Wave {
        page: "form",
        name: "a plan, fetched when wanted",
        files: &["draw.js", "plans.js", "plans_bg.wasm", "plans-en.txt"],
        limit: 30_500,
    },
    Wave {
        page: "form",
        name: "a language, fetched when wanted",
        files: &["first-pl.json", "words-pl.txt", "sketches-pl.txt"],
        limit: 24_800,
    },
];

/// What a program may weigh more, brotli 11, with a standard library that was not built here, as rustup brings it: it is made for speed,
/// and has words for every panic. This program's choice: up to nine thousand were seen for the words and two for the speed, and a little.
const READY_MADE: u64 = 12_000;

impl Wave {
    /// The limit in bytes for programs built with this toolchain.
    pub fn limit_with(&self, toolchain: Toolchain) -> u64 {
        let programs = self.files.iter().filter(|file| file.ends_with("_bg.wasm")).count() as u64;
        self.limit + if toolchain == Toolchain::InUse { programs * READY_MADE } else { 0 }
    }
}

/// The waves of a page.
pub fn waves(page: &str) -> impl Iterator<Item = &'static Wave> {
    WAVES.iter().filter(move |wave| wave.page == page)
}
