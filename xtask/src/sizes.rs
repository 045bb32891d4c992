//! The bytes that every page transfers, raw and compressed with gzip and with brotli 11: kept in the repository and compared with a budget.

use crate::budget;
use crate::dist;
use crate::integrity::files;
use crate::setup::wasm_std::Toolchain;
use crate::weigh::Parts;
use anyhow::{Context, Result, bail};
use flate2::{Compression, write::GzEncoder};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::io::Write as _;
use std::ops::Add;
use std::path::{Path, PathBuf};

/// Extensions of photographs. They are data, not program, and are compressed already.
const PHOTOGRAPHS: [&str; 5] = ["jpg", "jpeg", "png", "webp", "avif"];

/// The bytes of one file, or of several together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Bytes {
    raw: u64,
    gzip: u64,
    brotli: u64,
}

impl Add for Bytes {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { raw: self.raw + other.raw, gzip: self.gzip + other.gzip, brotli: self.brotli + other.brotli }
    }
}

/// A program, named by page and file, with its parts.
pub type Made = (String, Parts);

/// The sizes by page and file, in order of the names.
pub type Sizes = BTreeMap<String, BTreeMap<String, Bytes>>;

/// Writes `.br` and `.gz` copies beside every file of every page in `dist`, and returns the sizes.
///
/// # Errors
/// If a file can't be read or written, or there is no page.
pub fn compress(dist: &Path) -> Result<Sizes> {
    let mut sizes = Sizes::new();
    let pages = fs::read_dir(dist)
        .with_context(|| format!("{} can't be read: build the pages first, `cargo xtask pages`", dist.display()))?;
    for page in pages {
        let page = page?;
        let name = page.file_name().to_string_lossy().into_owned();
        if page.file_type()?.is_dir() && !dist::FOLDERS.contains(&&*name) {
            sizes.insert(name, compress_folder(&page.path())?);
        }
    }
    if sizes.is_empty() {
        bail!("{} holds no page: build them first, `cargo xtask pages`", dist.display());
    }
    Ok(sizes)
}

fn compress_folder(page: &Path) -> Result<BTreeMap<String, Bytes>> {
    let mut all = BTreeMap::new();
    for path in files(page, |path| path.extension().is_none_or(|kind| kind != "br" && kind != "gz"))? {
        let raw = fs::read(&path).with_context(|| format!("reading {}", path.display()))?;
        let (gzip, brotli) = (gzip(&raw)?, brotli(&raw)?);
        write_beside(&path, "gz", &gzip)?;
        write_beside(&path, "br", &brotli)?;
        let name = path.strip_prefix(page).expect("it was found below that folder").to_string_lossy().into_owned();
        let bytes = Bytes { raw: raw.len() as u64, gzip: gzip.len() as u64, brotli: brotli.len() as u64 };
        all.insert(name, bytes);
    }
    Ok(all)
}

fn write_beside(path: &Path, kind: &str, bytes: &[u8]) -> Result<()> {
    let mut name = path.as_os_str().to_owned();
    name.push(".");
    name.push(kind);
    let beside = PathBuf::from(name);
    fs::write(&beside, bytes).with_context(|| format!("writing {}", beside.display()))
}

fn gzip(raw: &[u8]) -> Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(raw)?;
    Ok(encoder.finish()?)
}

fn brotli(raw: &[u8]) -> Result<Vec<u8>> {
    let parameters = brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 22, ..Default::default() };
    let mut packed = Vec::new();
    brotli::BrotliCompress(&mut &raw[..], &mut packed, &parameters).context("compressing with brotli")?;
    Ok(packed)
}

/// The bytes of a page's program: all its files but photographs.
fn program(files: &BTreeMap<String, Bytes>) -> Bytes {
    let is_photograph =
        |name: &str| Path::new(name).extension().is_some_and(|kind| PHOTOGRAPHS.contains(&&*kind.to_string_lossy()));
    files.iter().filter(|(name, _)| !is_photograph(name)).fold(Bytes::default(), |sum, (_, bytes)| sum + *bytes)
}

/// The bytes of a wave's files together.
fn of_wave(wave: &budget::Wave, files: &BTreeMap<String, Bytes>) -> Bytes {
    wave.files.iter().filter_map(|name| files.get(*name)).fold(Bytes::default(), |sum, bytes| sum + *bytes)
}

/// Every wave over its limit with this toolchain, one sentence each. A file of a wave that is missing is reported too, as it would go
/// unmeasured under another name.
pub fn past_budget(sizes: &Sizes, toolchain: Toolchain) -> Vec<String> {
    let mut problems = Vec::new();
    for (page, files) in sizes {
        for wave in budget::waves(page) {
            let (bytes, limit) = (of_wave(wave, files).brotli, wave.limit_with(toolchain));
            if bytes > limit {
                problems.push(format!(
                    "the page `{page}`, {}: {bytes} bytes after brotli, {} past its limit of {limit}: see \
                     tests/results/sizes.md for what weighs most (the limit is in xtask/src/budget.rs)",
                    wave.name,
                    bytes - limit
                ));
            }
            for name in wave.files.iter().filter(|name| !files.contains_key(**name)) {
                problems.push(format!(
                    "the page `{page}` has no `{name}`, which xtask/src/budget.rs names: correct the name there"
                ));
            }
        }
    }
    problems
}

/// Writes the results: `sizes.json` for programs, `sizes.md` for people.
///
/// # Errors
/// If the folder can't be written.
pub fn keep(sizes: &Sizes, made: &[Made], folder: &Path) -> Result<()> {
    fs::create_dir_all(folder).with_context(|| format!("making {}", folder.display()))?;
    let tables = as_table(sizes) + &parts_as_table(made);
    for (name, text) in [("sizes.json", as_json(sizes, made)?), ("sizes.md", tables)] {
        let path = folder.join(name);
        if fs::read_to_string(&path).is_ok_and(|old| old == text) {
            continue; // an unchanged file keeps its date
        }
        fs::write(&path, text).with_context(|| format!("writing {}", path.display()))?;
    }
    Ok(())
}

fn as_json(sizes: &Sizes, made: &[Made]) -> Result<String> {
    let bytes = |b: &Bytes| json!({ "raw": b.raw, "gzip": b.gzip, "brotli": b.brotli });
    let mut pages = Map::new();
    for (page, files) in sizes {
        let each: Map<String, Value> = files.iter().map(|(name, b)| (name.clone(), bytes(b))).collect();
        let waves: Map<String, Value> = budget::waves(page)
            .map(|wave| {
                (wave.name.to_owned(), json!({ "bytes": bytes(&of_wave(wave, files)), "brotli_limit": wave.limit }))
            })
            .collect();
        pages.insert(page.clone(), json!({ "files": each, "program": bytes(&program(files)), "waves": waves }));
    }
    let mut parts = Map::new();
    for (program, of) in made {
        let of: Map<String, Value> = of.iter().map(|(part, bytes)| (part.clone(), json!(bytes))).collect();
        parts.insert(program.clone(), Value::Object(of));
    }
    let whole = json!({ "unit": "bytes", "pages": pages, "parts_before_wasm_opt": parts });
    Ok(serde_json::to_string_pretty(&whole)? + "\n")
}

/// The sizes of every page and wave as tables in Markdown.
pub fn as_table(sizes: &Sizes) -> String {
    let mut table = String::from(
        "# What each page transfers\n\nBytes of every file, raw and compressed, and of every wave, that is, files fetched together. \
         Written by `cargo xtask pages`.\n",
    );
    for (page, files) in sizes {
        let _ = write!(table, "\n## {page}\n\n| file | raw | gzip | brotli |\n| --- | ---: | ---: | ---: |\n");
        let rows = files.iter().map(|(name, bytes)| (name.clone(), *bytes));
        for (name, Bytes { raw, gzip, brotli }) in rows.chain([("**all**".to_owned(), program(files))]) {
            let _ = writeln!(table, "| {name} | {raw} | {gzip} | {brotli} |");
        }
        let waves: Vec<_> = budget::waves(page).collect();
        if !waves.is_empty() {
            table.push_str("\n| wave | files | brotli | limit |\n| --- | --- | ---: | ---: |\n");
        }
        for wave in waves {
            let (bytes, names) = (of_wave(wave, files).brotli, wave.files.join(", "));
            let _ = writeln!(table, "| {} | {names} | {bytes} | {} |", wave.name, wave.limit);
        }
    }
    table
}

/// The parts of each program as tables in Markdown; parts lighter than a hundredth of it are summed up.
pub fn parts_as_table(made: &[Made]) -> String {
    let mut table = String::from(
        "\n# What each program is made of\n\nBytes before wasm-opt and compression, which make all parts smaller; a function \
         that was inlined counts where it was inlined.\n",
    );
    for (program, parts) in made {
        let all: u64 = parts.iter().map(|(_, bytes)| bytes).sum();
        let share = |bytes: u64| format!("{:.1} %", bytes as f64 * 100.0 / all.max(1) as f64);
        let _ = write!(table, "\n## {program}\n\n| part | bytes | share |\n| --- | ---: | ---: |\n");
        let (heavy, light): (Vec<_>, Vec<_>) = parts.iter().partition(|(_, bytes)| bytes * 100 >= all);
        for (part, bytes) in heavy {
            let _ = writeln!(table, "| {part} | {bytes} | {} |", share(*bytes));
        }
        let rest: u64 = light.iter().map(|(_, bytes)| bytes).sum();
        let _ = writeln!(table, "| {} more | {rest} | {} |", light.len(), share(rest));
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;

    fn of(page: &str, files: &[(&str, u64)]) -> Sizes {
        let bytes = |n: u64| Bytes { raw: 4 * n, gzip: 2 * n, brotli: n };
        let files = files.iter().map(|(name, n)| ((*name).to_owned(), bytes(*n))).collect();
        Sizes::from([(page.to_owned(), files)])
    }

    #[test]
    fn every_file_is_packed_beside_itself_and_unpacks_to_the_same() {
        let stub = Stub::new("sizes-packed");
        let text = "body { color: black } ".repeat(50);
        stub.file("dist/form/deep/style.css", &text);
        let sizes = compress(&stub.path("dist")).unwrap();
        let bytes = sizes["form"]["deep/style.css"];
        assert_eq!(bytes.raw, text.len() as u64);
        assert!(bytes.brotli < bytes.raw / 10 && bytes.gzip < bytes.raw / 5);
        let mut back = Vec::new();
        let packed = fs::read(stub.path("dist/form/deep/style.css.br")).unwrap();
        brotli::BrotliDecompress(&mut &packed[..], &mut back).unwrap();
        assert_eq!(back, text.as_bytes());
        let mut back = String::new();
        let packed = fs::read(stub.path("dist/form/deep/style.css.gz")).unwrap();
        std::io::Read::read_to_string(&mut flate2::read::GzDecoder::new(&packed[..]), &mut back).unwrap();
        assert_eq!(back, text);
        assert_eq!(compress(&stub.path("dist")).unwrap(), sizes, "packed files are not packed again");
    }

    /// The files of a wave, all empty but one, which has this many bytes.
    fn wave_with(wave: &budget::Wave, bytes: u64) -> Sizes {
        let mut files: Vec<(&str, u64)> = wave.files.iter().map(|name| (*name, 0)).collect();
        files[0].1 = bytes;
        of(wave.page, &files)
    }

    #[test]
    fn the_limit_itself_is_allowed_and_one_byte_more_is_not() {
        for wave in &budget::WAVES {
            for toolchain in [Toolchain::DebianLinked, Toolchain::Debian, Toolchain::InUse] {
                let past = |bytes| {
                    let mut problems = past_budget(&wave_with(wave, bytes), toolchain);
                    problems.retain(|problem| problem.contains(wave.name));
                    problems
                };
                let limit = wave.limit_with(toolchain);
                assert_eq!(past(limit), [""; 0]);
                let past = past(limit + 1);
                assert!(past.len() == 1 && past[0].contains(" 1 past its limit"), "{past:?}");
            }
        }
    }

    #[test]
    fn only_a_program_may_weigh_more_with_a_library_that_was_not_built_here() {
        for wave in &budget::WAVES {
            assert_eq!(wave.limit_with(Toolchain::Debian), wave.limit);
            let has_program = wave.files.iter().any(|file| file.ends_with(".wasm"));
            assert_eq!(wave.limit_with(Toolchain::InUse) > wave.limit, has_program, "{}", wave.name);
        }
    }

    #[test]
    fn a_file_that_is_named_and_not_there_is_a_problem() {
        let wave = &budget::WAVES[0];
        let mut sizes = wave_with(wave, 0);
        let name = |problems: Vec<String>| problems.iter().any(|problem| problem.contains(wave.files[0]));
        assert!(!name(past_budget(&sizes, Toolchain::Debian)));
        sizes.get_mut(wave.page).unwrap().remove(wave.files[0]);
        assert!(name(past_budget(&sizes, Toolchain::Debian)));
        let without = of("triage", &[("any.js", 1)]);
        assert_eq!(past_budget(&without, Toolchain::Debian), [""; 0], "a page without a budget has none");
    }

    #[test]
    fn photographs_are_no_program_and_drawings_are() {
        let sizes = of("form", &[("meter.jpg", 7), ("meter.svg", 2)]);
        assert_eq!(program(&sizes["form"]).brotli, 2);
    }

    #[test]
    fn results_are_in_the_order_of_names_and_end_in_a_newline() {
        let made = [("form/form_bg.wasm".to_owned(), vec![("flags".to_owned(), 990), ("site".to_owned(), 9)])];
        let json = as_json(&of("form", &[("b.js", 2), ("a.js", 1)]), &made).unwrap();
        assert!(json.find("a.js") < json.find("b.js") && json.contains("\"flags\": 990") && json.ends_with("}\n"));
        let table = as_table(&of("form", &[("b.js", 2), ("a.js", 1)]));
        assert!(table.contains("| a.js | 4 | 2 | 1 |\n| b.js | 8 | 4 | 2 |\n| **all** | 12 | 6 | 3 |"), "{table}");
        let table = parts_as_table(&made);
        assert!(table.contains("| flags | 990 | 99.1 % |\n| 1 more | 9 | 0.9 % |"), "{table}");
    }

    #[test]
    fn no_page_is_an_error() {
        let stub = Stub::new("sizes-none");
        assert!(compress(&stub.path("repo")).unwrap_err().to_string().contains("cargo xtask pages"));
        assert!(compress(&stub.path("absent")).unwrap_err().to_string().contains("cargo xtask pages"));
    }
}
