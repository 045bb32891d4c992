//! The record that leaves: a clear envelope and a payload, versioned; reading and checking.
//!
//! Knows nothing of how it travels. A name or telephone number is met here and nowhere above.

mod read;
mod record;

pub use read::{EnquiryError, read_enquiry};
pub use record::{CURRENT_VERSION, Contact, Enquiry, Envelope, Mark, Payload, Photo, PhotoPlace, Reach, Reference};
