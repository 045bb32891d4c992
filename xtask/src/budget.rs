//! What a page may weigh: the one place where a limit is set.
//!
//! A limit is lowered to what was reached and a little; what a whole room of its own adds may raise it.

/// Files of a page that are wanted together, and the most bytes that they may take over the line, brotli 11.
pub struct Wave {
    /// The page's name.
    pub page: &'static str,
    /// What is there once they are.
    pub name: &'static str,
    /// The files, each by its name.
    pub files: &'static [&'static str],
    /// The limit.
    pub limit: u64,
}

/// The waves that have a limit.
pub const WAVES: [Wave; 6] = [
    Wave { page: "form", name: "the first question", files: &["presurvey.js"], limit: 10_700 },
    Wave {
        page: "form",
        name: "every question reacts",
        files: &["presurvey.js", "store.js", "assess.js", "late.js", "form.js", "form_bg.wasm"],
        limit: 189_500,
    },
    Wave {
        page: "form",
        name: "the engine, fetched when idle",
        files: &["worker.js", "engine.js", "engine_bg.wasm"],
        limit: 169_500,
    },
    Wave { page: "form", name: "the drawings, fetched when idle", files: &["sketches-en.txt"], limit: 5_400 },
    Wave {
        page: "form",
        name: "a plan, fetched when wanted",
        files: &["draw.js", "plans.js", "plans_bg.wasm", "plans-en.txt"],
        limit: 36_000,
    },
    Wave {
        page: "form",
        name: "a language, fetched when wanted",
        files: &["first-pl.json", "words-pl.txt", "sketches-pl.txt"],
        limit: 25_000,
    },
];

/// The waves of a page.
pub fn waves(page: &str) -> impl Iterator<Item = &'static Wave> {
    WAVES.iter().filter(move |wave| wave.page == page)
}
