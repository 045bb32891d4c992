//! The enquiry that a homeowner sends: a versioned record of an envelope and a payload, its reading and checking, and its plain text. Also
//! the lines of a draft and the events that the form sends to the page around it.
//!
//! Neither stores nor sends anything. These are the lowest types that hold a name, an address or a telephone number: the model and the
//! engine have none.

pub mod draft_lines;
pub mod events;
mod plain_text;
mod read;
mod record;
#[cfg(feature = "schema")]
mod schema;
mod supply_number;

pub use plain_text::{in_words, plain_text};
pub use read::{EnquiryError, check_photo, is_hex, read_enquiry, read_kept_enquiry};
pub use record::{
    Became, CURRENT_VERSION, Contact, Enquiry, Envelope, MOST_PHOTOS, MOST_SIGNS, Mark, MostSigns, Payload, Photo,
    PhotoPlace, Reach, Reference,
};
pub use supply_number::{Network, SupplyNumber, SupplyNumberQuery};
