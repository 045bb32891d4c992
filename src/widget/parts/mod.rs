//! The views: each shows what it is given and owns no rule and no text.

mod choices;
mod contact;
mod emergency;
mod photos;
mod question;
mod result;
mod screen;
mod sent;

pub use choices::{Choices, ChoicesProps};
pub use contact::{ContactPage, ContactPageProps, troubles};
pub use emergency::{Emergency, EmergencyProps};
pub use photos::{Photos, PhotosProps};
pub use question::{QuestionView, QuestionViewProps};
pub use result::{ResultPage, ResultPageProps};
pub use screen::{ScreenPage, ScreenPageProps};
pub use sent::{SentPage, SentPageProps};

#[cfg(all(test, feature = "render"))]
mod tests;
