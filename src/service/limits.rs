//! Limits of what a request may carry and of how much the list returns. What a record may hold is checked by the crate `record`.

use std::num::NonZeroU32;

/// The most bytes of an enquiry without its photos.
pub(super) const ENQUIRY_BYTES: usize = 512 * 1024;
/// The most bytes of one photo.
pub(super) const PHOTO_BYTES: usize = 6 * 1024 * 1024;
/// The most bytes of a form that is posted whole, photos included.
pub(super) const FORM_BYTES: usize = 32 * 1024 * 1024;

/// The most enquiries that one response of the list holds.
pub(super) const MOST_LISTED: i64 = 200;
/// How many enquiries the list returns if the page asks for no number.
pub(super) const LISTED_AT_ONCE: i64 = 50;
/// More questions than this are a form, not "things to settle". Common practice, no source.
pub(super) const MOST_QUESTIONS: usize = 12;
/// The most enquiries of one address in one minute. Common practice, no source.
pub(super) const POSTS_A_MINUTE: NonZeroU32 = NonZeroU32::new(60).expect("sixty is not zero");
