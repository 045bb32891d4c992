//! The format of a draft, a form that was not sent yet: in it a device keeps the form, and a link carries it to another device.
//!
//! A draft is a JSON list of lines, `[["version", "3"], ["answer home.kind", "\"semi\""], …]`: each a name and a value, both text; the
//! version comes first, the others in any order. A name is a [`DraftLine`]'s word and, where there are several lines of a kind, a space and
//! what tells them apart. Lines need little code to read, and several pages open on one draft can each write the lines that they changed
//! and leave the others alone.
//!
//! Declared here and nowhere else: the program reads and writes drafts by these lines (`widget/draft.rs`), and the build puts their names
//! into the page's scripts. Where a draft is stored on the device, and for how long, is in `www/form/store.js`.

use alloc::string::String;
use model::answers::Word;
use model::answers::choices::words;

/// The version that is written, and the only one that is read as it stands. A draft of an unknown version is left untouched on the device.
pub const VERSION: &str = "3";

/// The version before this one, in which one line held all answers. `store.js` rewrites such a draft as one of [`VERSION`].
pub const VERSION_BEFORE: &str = "2";

words! {
    /// A kind of line.
    pub enum DraftLine {
        /// The version; the first line.
        Version => "version",
        /// An answer by its field's path, as JSON.
        Answer => "answer",
        /// The text in a question's field as typed, by the question's id; a route's rows as [`StretchRows`](model::answers::StretchRows)
        /// writes them.
        Typed => "typed",
        /// The unit that a length is measured in, by its question's id.
        Unit => "unit",
        /// A photo by its SHA-256: place, width, height (pixels) and size (bytes), with spaces between.
        Photo => "photo",
        /// The step that the form is at: its kind and its name, with a space between.
        Step => "step",
        /// The names of the screens that were visited, in that order, with spaces between.
        Walked => "walked",
        /// A field of the contact, by its name.
        Contact => "contact",
        /// The enquiry's key, the secret that deletes it and the secret that adds to it, with spaces between. Drawn at random once.
        Secrets => "secrets",
        /// "yes" while it waits to be sent.
        Queued => "queued",
        /// The reference of an enquiry that was sent.
        Reference => "reference",
        /// The enquiry that a link adds to: its key and the secret that adds to it, with a space between.
        Link => "link",
        /// The questions that the link asks, with spaces between.
        Settle => "settle",
        /// "yes" where the service allowed, for this visit, that the homeowner is sent to look at meter and board.
        Look => "look",
        /// "reached" once there was a result.
        Result => "result",
        /// For how many days the installer lets a draft stay on the device. Written by the form, used by the store.
        Days => "days",
        /// When the draft was last changed, in milliseconds since 1970. Written by the store.
        Kept => "kept",
        /// When the draft was found to be older than it may be, in milliseconds since 1970. Written by the store.
        Late => "late",
    }
}

impl DraftLine {
    /// A line's name: this kind's word and, where `which` is not empty, a space and `which`.
    #[must_use]
    pub fn of(self, which: &str) -> String {
        [self.word(), if which.is_empty() { "" } else { " " }, which].concat()
    }

    /// The kind of the line that has this name, and what tells it from others of its kind (empty where there is only one); `None` for a
    /// name of no known kind.
    #[must_use]
    pub fn read(name: &str) -> Option<(Self, &str)> {
        let (word, which) = name.split_once(' ').unwrap_or((name, ""));
        Self::named(word).map(|line| (line, which))
    }

    /// Whether a change that another open page made to this line is taken over. The step and whether the form waits to be sent are each
    /// page's own.
    #[must_use]
    pub const fn is_shared(self) -> bool {
        self.begins() || matches!(self, Self::Unit | Self::Contact | Self::Secrets | Self::Reference | Self::Result)
    }

    /// Whether the line goes along, after the version, when the draft is carried to another device: answers and the step do; the contact,
    /// secrets and photos do not.
    #[must_use]
    pub const fn moves(self) -> bool {
        self.is_of_a_field() || matches!(self, Self::Step | Self::Walked | Self::Result)
    }

    /// Whether a draft with such a line is worth keeping.
    #[must_use]
    pub const fn begins(self) -> bool {
        matches!(self, Self::Answer | Self::Typed | Self::Photo)
    }

    /// Whether the line belongs to one answer: there is one for each path or question.
    #[must_use]
    pub const fn is_of_a_field(self) -> bool {
        matches!(self, Self::Answer | Self::Typed | Self::Unit)
    }
}
