//! What one may send at most, and how much the list hands out. The rest of what a record may hold is the record's own affair.

use std::num::NonZeroU32;

/// The most an enquiry without its photos may weigh.
pub(super) const ENQUIRY_BYTES: usize = 512 * 1024;
/// The most one photo may weigh.
pub(super) const PHOTO_BYTES: usize = 6 * 1024 * 1024;
/// The most a form that is posted whole, photos and all, may weigh.
pub(super) const FORM_BYTES: usize = 32 * 1024 * 1024;

/// How many it hands out at most.
pub(super) const MOST_LISTED: i64 = 200;
/// How many enquiries the list hands out at once, where the page asks for no number.
pub(super) const LISTED_AT_ONCE: i64 = 50;
/// More questions than this are a form, not "things to settle". Common practice, no source.
pub(super) const MOST_QUESTIONS: usize = 12;
/// The most enquiries of one address in one minute. Common practice, no source.
pub(super) const POSTS_A_MINUTE: NonZeroU32 = NonZeroU32::new(60).expect("sixty is not zero");
