//! A half-done form as text: the one format in which a device keeps it and in which a link carries it to another device.
//!
//! A draft is a JSON list of lines, `[["version", "3"], ["answer home.kind", "\"semi\""], …]`: each a name and a value, both text; the
//! version comes first, the others in any order. A name is a [`DraftLine`]'s word and, where there are several of a kind, what tells them
//! apart after a space. So little program reads it, and pages with the same draft each put in what they changed and leave the rest.
//!
//! Declared here and nowhere else: the program reads and writes by it (`widget/draft.rs`), and the page's scripts are given its names
//! by the build. Where a draft lies on the device, and how long, is `www/form/store.js`'s.

use alloc::string::String;
use model::answers::Word;
use model::answers::choices::words;

/// The version that is written, and the only one that is read as it is. A draft of another one is left alone: it is not guessed at.
pub const VERSION: &str = "3";

/// The version before: all answers stood in one line. `store.js` still opens it.
pub const VERSION_BEFORE: &str = "2";

words! {
    /// A kind of line.
    pub enum DraftLine {
        /// The version; the first line.
        Version => "version",
        /// An answer by its field's path, as JSON.
        Answer => "answer",
        /// What stands in the field of a question by its id, as typed; a route's rows as [`Rows`](model::answers::Rows) writes them.
        Typed => "typed",
        /// What a length is measured in, by its question's id.
        Unit => "unit",
        /// A photo by its SHA-256: place, width, height (pixels) and size (bytes), with spaces between.
        Photo => "photo",
        /// Where one is: kind of step and name.
        Step => "step",
        /// The screens that were walked, in their order, with spaces between.
        Walked => "walked",
        /// A field of how to be reached.
        Contact => "contact",
        /// What opens the enquiry once it is sent: its key, what deletes it, what adds to it, with spaces between. Drawn once.
        Secrets => "secrets",
        /// "yes" while it waits to be sent.
        Queued => "queued",
        /// The reference of an enquiry that was sent.
        Reference => "reference",
        /// The enquiry that a link adds to: its key and what opens it.
        Link => "link",
        /// The questions that the link asks, with spaces between.
        Settle => "settle",
        /// "yes" where the service said for this visit that one may look at meter and board.
        Look => "look",
        /// "reached" once there was a result.
        Result => "result",
        /// The installer's own number of days that it may lie here. Written for the store.
        Days => "days",
        /// When it was touched last, in milliseconds since 1970. The store's own.
        Kept => "kept",
        /// When it was found to have lain too long. The store's own.
        Late => "late",
    }
}

impl DraftLine {
    /// A line's name: this word and, where it is not empty, what tells it from others of its kind.
    #[must_use]
    pub fn of(self, which: &str) -> String {
        [self.word(), if which.is_empty() { "" } else { " " }, which].concat()
    }

    /// The kind of line that has this name, and what tells it from others of its kind (empty where there are none).
    #[must_use]
    pub fn read(name: &str) -> Option<(Self, &str)> {
        let (word, which) = name.split_once(' ').unwrap_or((name, ""));
        Self::named(word).map(|line| (line, which))
    }

    /// Whether another page may change it here. Where one is and whether it sends, each page says for itself.
    #[must_use]
    pub const fn is_shared(self) -> bool {
        self.begins() || matches!(self, Self::Unit | Self::Contact | Self::Secrets | Self::Reference | Self::Result)
    }

    /// Whether it goes to another device, below the version: answers and where one is; neither who asks, nor secrets, nor photos.
    #[must_use]
    pub const fn moves(self) -> bool {
        self.is_of_a_field() || matches!(self, Self::Step | Self::Walked | Self::Result)
    }

    /// Whether it alone is worth keeping a draft for.
    #[must_use]
    pub const fn begins(self) -> bool {
        matches!(self, Self::Answer | Self::Typed | Self::Photo)
    }

    /// Whether it says something of an answer's field: there is one for each path or question.
    #[must_use]
    pub const fn is_of_a_field(self) -> bool {
        matches!(self, Self::Answer | Self::Typed | Self::Unit)
    }
}
