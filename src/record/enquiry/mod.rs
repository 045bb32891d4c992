//! The record that leaves: a clear envelope and a payload, versioned; reading and checking; its plain text.
//!
//! Knows nothing of how it travels. A name, an address or a telephone number is met here and nowhere above.

pub mod draft_lines;
pub mod events;
mod plain_text;
mod read;
mod record;
#[cfg(feature = "schema")]
mod schema;
mod supply_number;

pub use plain_text::{in_words, plain_text};
pub use read::{EnquiryError, is_hex, read_enquiry};
pub use record::{
    CURRENT_VERSION, Contact, Enquiry, Envelope, MOST_PHOTOS, Mark, Payload, Photo, PhotoPlace, Reach, Reference,
};
pub use supply_number::{Network, SupplyNumber, SupplyNumberQuery};
