//! Limits of what a request may carry and of how much the list returns. What a record may hold is checked by the crate `record`.

use std::num::NonZeroU32;

/// The most bytes of an enquiry without its photos.
pub(super) const ENQUIRY_BYTES: usize = 512 * 1024;
/// The most bytes of a password or a secret that is posted: this program's choice.
pub(super) const SECRET_BYTES: usize = 4096;
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
/// The most photos of one address in one minute: those of several enquiries. This program's choice.
pub(super) const PHOTOS_A_MINUTE: NonZeroU32 = NonZeroU32::new(240).expect("it is not zero");

// What is held of bodies at once, so that the whole process stays well under what the smallest rented machines have. This program's choice.

/// The most bytes of small bodies in memory, and of one sender's.
pub(super) const SMALL_HELD: usize = 8 * 1024 * 1024;
pub(super) const SMALL_OF_ONE: usize = SMALL_HELD / 4; // this program's choice: four senders at the least
/// The most forms with photos that arrive at once, and of one sender: a gigabyte on the disk, none of it in memory. This program's choice.
pub(super) const FORMS_AT_ONCE: usize = 32;
pub(super) const FORMS_OF_ONE: usize = 4; // this program's choice
/// The most bytes of those forms' texts in memory: this program's choice.
pub(super) const FORM_TEXTS_HELD: usize = 8 * 1024 * 1024;
/// The most photos in memory to be looked at, of those put one by one and of forms each: this program's choice.
pub(super) const PHOTOS_LOOKED_AT: usize = 2;
