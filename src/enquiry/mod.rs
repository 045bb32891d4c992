//! The record that leaves: a clear envelope and a payload, versioned; reading, checking, and a plain-text rendering.
//!
//! Knows nothing of how it travels. A name or telephone number is met here and nowhere above.

mod read;
mod record;
mod render;

pub use read::{EnquiryError, read_enquiry};
pub use record::{CURRENT_VERSION, Contact, Enquiry, Envelope, Mark, Payload, Photo, PhotoPlace, Reach, Reference};
pub use render::plain_text;
