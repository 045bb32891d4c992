//! The DOM events that the form sends to the page around it: their names, what each carries in its detail, and the reasons for which
//! something fails.
//!
//! Declared here and nowhere else: the program uses these names, the build puts them into the page's scripts, and tests hold the tables in
//! README.md and the package's manifest to them. No event carries anything personal, neither an answer nor a price. Sends nothing itself.

use engine::assessment::Complexity;
use model::answers::Word;
use model::answers::choices::words;

words! {
    /// An event that the form sends.
    pub enum PageEvent {
        /// The first question can be answered.
        Ready => "presurvey-ready",
        /// The homeowner came to another step.
        Step => "presurvey-step",
        /// There is a result.
        Result => "presurvey-result",
        /// The enquiry has arrived.
        Sent => "presurvey-sent",
        /// Something did not work out.
        Failed => "presurvey-failed",
    }
}

words! {
    /// A kind of step: where in the form the homeowner is.
    pub enum StepKind {
        /// A screen of questions.
        Screen => "screen",
        /// One question, reopened from the result.
        Question => "question",
        /// Saying what looks wrong.
        Found => "found",
        /// The result.
        Result => "result",
        /// Saying how to be reached.
        Contact => "contact",
        /// The enquiry was received.
        Sent => "sent",
        /// Adding to an enquiry that was received.
        Link => "link",
    }
}

words! {
    /// Why something failed. The list is closed, and each word means one thing, whether the program or a script sends it.
    pub enum Failure {
        /// The service does not answer.
        NoAnswer => "no-answer",
        /// The enquiry is refused.
        Refused => "refused",
        /// There is nothing to send to.
        Nowhere => "nowhere",
        /// The connection is not secure.
        NotSecure => "not-secure",
        /// The enquiry was received without all of its photos.
        Photos => "photos",
        /// The form's program could not be fetched.
        Unreachable => "unreachable",
        /// The browser does not run the form's program.
        Blocked => "blocked",
    }
}

/// What kind of value an event's detail has under one name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Carries {
    /// One word of a list.
    OneOf(&'static [&'static str]),
    /// The name of a screen, a question or a place; empty where the kind says all.
    Name,
    /// Yes or no.
    YesOrNo,
}

impl PageEvent {
    /// The names in its detail, in the order in which the program gives their values; empty for an event without detail.
    #[must_use]
    pub const fn names(self) -> &'static [&'static str] {
        match self {
            Self::Ready | Self::Sent => &[],
            Self::Step => &["kind", "step"],
            Self::Result => &["complexity", "band"],
            Self::Failed => &["reason"],
        }
    }

    /// The kind of value under each of [`PageEvent::names`], in the same order.
    #[must_use]
    pub const fn carries(self) -> &'static [Carries] {
        match self {
            Self::Ready | Self::Sent => &[],
            Self::Step => &[Carries::OneOf(StepKind::WORDS), Carries::Name],
            Self::Result => &[Carries::OneOf(Complexity::WORDS), Carries::YesOrNo],
            Self::Failed => &[Carries::OneOf(Failure::WORDS)],
        }
    }

    /// When it is sent, as a sentence.
    #[must_use]
    pub const fn means(self) -> &'static str {
        match self {
            Self::Ready => "The first question can be answered.",
            Self::Step => "The homeowner is at another step.",
            Self::Result => {
                "There is a result: how involved the job looks and whether there is a price band, not which."
            }
            Self::Sent => "The enquiry has arrived.",
            Self::Failed => "Something did not work out; `reason` says what.",
        }
    }
}

impl Failure {
    /// What it means, as a sentence.
    #[must_use]
    pub const fn means(self) -> &'static str {
        match self {
            Self::NoAnswer => "Nobody answers where the enquiry is to go; it is tried again by itself.",
            Self::Refused => "The enquiry was refused where it was to go; it is not tried again by itself.",
            Self::Nowhere => "Nothing takes enquiries (no `submit`); other ways to send are offered.",
            Self::NotSecure => "The page did not come over a secure connection, so nothing is sent from it.",
            Self::Photos => "The enquiry has arrived, but not all of its photos.",
            Self::Unreachable => "The form's program did not come; the form goes on when it does.",
            Self::Blocked => {
                "The form's program may not run: WebAssembly is refused, or a file is held back on its way or is not what was built. The plain form takes over."
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::String;
    use alloc::vec::Vec;
    use serde_json::{Value, json};

    const README: &str = include_str!("../../../README.md");
    const MANIFEST: &str = include_str!("../../../www/npm/custom-elements.json");

    /// An event's detail as TypeScript writes it; `None` where it has none.
    fn detail(event: PageEvent) -> Option<String> {
        let fields = event.names().iter().zip(event.carries()).map(|(name, told)| {
            let kind = match told {
                Carries::OneOf(words) => {
                    words.iter().map(|word| alloc::format!("\"{word}\"")).collect::<Vec<_>>().join(" | ")
                }
                Carries::Name => "string".into(),
                Carries::YesOrNo => "boolean".into(),
            };
            alloc::format!("{name}: {kind}")
        });
        (!event.names().is_empty()).then(|| alloc::format!("{{ {} }}", fields.collect::<Vec<_>>().join("; ")))
    }

    #[test]
    fn everything_that_is_told_has_a_name_and_a_sentence() {
        for event in PageEvent::ALL {
            assert_eq!(event.names().len(), event.carries().len(), "{event:?}");
            assert!(event.word().starts_with("presurvey-") && event.means().ends_with('.'), "{event:?}");
        }
        for (at, reason) in Failure::ALL.iter().enumerate() {
            assert!(reason.means().ends_with('.'), "{reason:?}");
            assert!(Failure::ALL[..at].iter().all(|other| other.means() != reason.means()), "{reason:?} means another");
        }
    }

    #[test]
    fn the_readme_has_the_table_of_events_and_that_of_reasons() {
        let mut events = String::from("| event | `detail` | when |\n| --- | --- | --- |\n");
        for event in PageEvent::ALL {
            let told = event.names().iter().zip(event.carries()).map(|(name, told)| match told {
                // Its words have a table of their own.
                _ if *name == "reason" => "`reason`, see below".into(),
                Carries::OneOf(words) => alloc::format!("`{name}`: `{}`", words.join("`, `")),
                Carries::Name => alloc::format!("`{name}`: its name, or empty"),
                Carries::YesOrNo => alloc::format!("`{name}`: `true`, `false`"),
            });
            let told = told.collect::<Vec<_>>().join("; ");
            events += &alloc::format!("| `{}` | {told} | {} |\n", event.word(), event.means());
        }
        let mut reasons = String::from("| `reason` | what it means |\n| --- | --- |\n");
        for reason in Failure::ALL {
            reasons += &alloc::format!("| `{}` | {} |\n", reason.word(), reason.means());
        }
        for table in [events, reasons] {
            assert!(README.contains(&alloc::format!("\n\n{table}\n")), "README.md is to have this table:\n\n{table}");
        }
    }

    #[test]
    fn the_packages_manifest_has_the_events_and_what_each_tells() {
        let manifest: Value = serde_json::from_str(MANIFEST).unwrap();
        let events = PageEvent::ALL.iter().map(|event| {
            let kind = detail(*event).map_or("CustomEvent".into(), |told| alloc::format!("CustomEvent<{told}>"));
            json!({ "name": event.word(), "description": event.means(), "type": { "text": kind } })
        });
        let expected = Value::Array(events.collect());
        let told = &manifest["modules"][0]["declarations"][0]["events"];
        assert_eq!(told, &expected, "`events` of www/npm/custom-elements.json are to be:\n{expected:#}");
    }
}
