//! What the installer must know: one rule, one file; its sentences in the wording files.
//!
//! A flag reads the site and the design, never another flag; order comes from the weight, so adding one moves no other.
//! Sentences: `flag-CODE` for the homeowner in `flags-homeowner.ftl`; `flag-CODE-name`, `-why` and `-do` for the installer in
//! `flags-installer.ftl`.

mod flag;
mod weight;

pub use flag::{Evidence, Flag, Seen, Source};
pub use weight::Weight;

use crate::assessment::Raised;
use alloc::string::ToString;
use alloc::vec::Vec;

// The list of flags is made from the file names by the test `the_list_is_up_to_date`: add a file, run the tests.
// begin list
mod board_full;
mod hazard_seen;
mod looped_supply;

/// Every flag, in the order of their files' names.
pub const FLAGS: &[Flag] = &[
    board_full::FLAG,
    hazard_seen::FLAG,
    looped_supply::FLAG,
];
// end list

/// Every flag that is raised, gravest first, then likeliest, then by name.
#[must_use]
pub fn raise_all(seen: &Seen<'_>) -> Vec<Raised> {
    let mut raised: Vec<Raised> = FLAGS
        .iter()
        .filter_map(|flag| {
            let evidence = (flag.raise)(seen)?;
            Some(Raised {
                code: flag.code.to_string(),
                weight: flag.weight,
                probability: evidence.probability,
                evidence: evidence.seen,
                source: flag.source.to_string(),
            })
        })
        .collect();
    raised.sort_by(|a, b| {
        a.weight.cmp(&b.weight).then(b.probability.get().total_cmp(&a.probability.get())).then_with(|| a.code.cmp(&b.code))
    });
    raised
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::FLAGS;
    use crate::wording::{Table, flags_homeowner, flags_installer};
    use alloc::string::String;
    use alloc::vec::Vec;
    use std::{format, fs};

    const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/src/flags");

    fn files() -> Vec<String> {
        let mut files: Vec<String> = fs::read_dir(FOLDER)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .filter_map(|name| name.strip_suffix(".rs").map(Into::into))
            .filter(|name: &String| !["mod", "flag", "weight"].contains(&name.as_str()))
            .collect();
        files.sort();
        files
    }

    #[test]
    fn the_list_is_up_to_date() {
        let path = format!("{FOLDER}/mod.rs");
        let source = fs::read_to_string(&path).unwrap();
        let (before, rest) = source.split_once("// begin list\n").unwrap();
        let (list, after) = rest.split_once("// end list\n").unwrap();
        let modules: String = files().iter().map(|file| format!("mod {file};\n")).collect();
        let entries: String = files().iter().map(|file| format!("    {file}::FLAG,\n")).collect();
        let wanted = format!(
            "{modules}\n/// Every flag, in the order of their files' names.\npub const FLAGS: &[Flag] = &[\n{entries}];\n"
        );
        if list != wanted {
            fs::write(&path, format!("{before}// begin list\n{wanted}// end list\n{after}")).unwrap();
            panic!("the list of flags was out of date and has been rewritten: run the tests again");
        }
    }

    #[test]
    fn every_flag_keeps_its_shape() {
        for (file, flag) in files().iter().zip(FLAGS) {
            assert_eq!(flag.code.replace('-', "_"), *file, "a flag is named by its file");
            let source = fs::read_to_string(format!("{FOLDER}/{file}.rs")).unwrap();
            for opening in ["//! **Seen:**", "//! **Why it matters:**", "//! **Installer:**", "//! **Source:**"] {
                assert!(source.contains(opening), "{file}.rs has no line `{opening}`");
            }
            for test in ["fn raised_", "fn quiet_", "fn not_sure_"] {
                assert!(source.contains(test), "{file}.rs has no test `{test}…`: one home that raises it, one near miss, one not sure");
            }
        }
    }

    #[test]
    fn every_flag_has_its_words_and_no_words_are_left_over() {
        let has = |table: Table, key: &str| table.iter().any(|(name, _)| *name == key);
        for flag in FLAGS {
            assert!(has(flags_homeowner::EN, &format!("flag-{}", flag.code)), "flags-homeowner.ftl lacks flag-{}", flag.code);
            for part in ["name", "why", "do"] {
                let key = format!("flag-{}-{part}", flag.code);
                assert!(has(flags_installer::EN, &key), "flags-installer.ftl lacks {key}");
            }
        }
        assert_eq!(flags_homeowner::EN.len(), FLAGS.len(), "flags-homeowner.ftl has words of no flag");
        assert_eq!(flags_installer::EN.len(), 3 * FLAGS.len(), "flags-installer.ftl has words of no flag");
    }
}
