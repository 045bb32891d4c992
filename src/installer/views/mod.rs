//! The screens and their sections: they show the state and report what the installer does.

mod answers;
mod bill;
mod contact;
mod correct;
mod correct_stretches;
mod decision;
mod enquiry;
mod enquiry_list;
mod estimate;
mod facts;
mod flags;
mod keeping;
mod obligations;
mod open_questions;
mod operators_form;
mod photo;
mod photos;
mod row;
mod sign_in;
mod van;
mod working;

#[cfg(all(test, feature = "prerender"))]
mod tests;

pub use enquiry::EnquiryView;
pub use enquiry_list::ListView;
pub use photo::PhotoView;
pub use sign_in::SignInView;
