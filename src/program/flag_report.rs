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
