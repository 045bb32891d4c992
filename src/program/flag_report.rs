//! Every flag on one page, for whoever wants to check the rules; generated from the code and the wording.

use engine::flags::{FLAGS, Weight};
use model::answers::Word;
use wording::{Words, flags_homeowner, flags_installer};

/// The page in Markdown, sorted by weight, gravest first, then by code.
#[must_use]
pub fn report() -> String {
    let (installer, homeowner) = (Words::new(flags_installer::EN), Words::new(flags_homeowner::EN));
    let mut page = format!(
        "# Flags\n\nMade by `presurvey flags`; a test holds this page to the code. {} flags, gravest first.\n",
        FLAGS.len()
    );
    for weight in Weight::ALL {
        page += &format!("\n## {}\n", weight.word());
        for flag in FLAGS.iter().filter(|flag| flag.weight == *weight) {
            let said = |part: &str| installer.find(&format!("flag-{}{part}", flag.code)).unwrap_or_default();
            let told = homeowner.find(&format!("flag-{}", flag.code)).unwrap_or_default();
            page += &format!(
                "\n### {}: {}\n\n- Why it matters: {}\n- Installer: {}\n- The homeowner is told: {told}\n- Source: {}\n",
                flag.code,
                said("-name"),
                said("-why"),
                said("-do"),
                flag.source,
            );
        }
    }
    page
}

#[cfg(test)]
mod tests {
    /// The kept page FLAGS.md is what the code generates.
    #[test]
    fn the_page_of_flags_is_up_to_date() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../FLAGS.md");
        let page = super::report();
        if std::env::var_os("PRESURVEY_ACCEPT").is_some() {
            std::fs::write(path, &page).unwrap();
        }
        let kept = std::fs::read_to_string(path).unwrap_or_default();
        assert!(kept == page, "FLAGS.md is not what the code says now: run `cargo xtask accept`");
    }

    #[test]
    fn there_are_fifty_flags_at_least_and_each_has_a_source() {
        assert!(engine::flags::FLAGS.len() >= 50);
        assert_eq!(super::report().matches("\n- Source: ").count(), engine::flags::FLAGS.len());
    }
}
