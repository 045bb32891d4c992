//! Whom to tell of an enquiry, by the private setup: the mail server and the webhooks. It stays beside the published config and never goes
//! into it.

use super::webhook::Hook;
use model::config::{Mail, Secret, Setup};
use std::sync::Arc;
use tokio::sync::Notify;

/// Mail as it is sent: the server, and whom to.
#[derive(Clone, Debug)]
pub struct MailSettings {
    /// The server.
    pub mail: Mail,
    /// The installer's address.
    pub to: String,
    /// The installer's name.
    pub installer: String,
}

impl MailSettings {
    /// The mail settings of a checked setup; `None` where it has none. `password`, from the environment, comes before the setup's own.
    #[must_use]
    pub fn of(setup: &Setup, password: Option<String>) -> Option<Self> {
        let (Some(mail), Some(to)) = (&setup.mail, &setup.mail_to) else { return None };
        let mut mail = mail.clone();
        mail.password = password.map(Secret).or(mail.password);
        Some(Self { mail, to: to.clone(), installer: setup.installer.name.clone() })
    }
}

/// Whom to tell.
#[derive(Debug, Default)]
pub struct Telling {
    pub(super) mail: Option<MailSettings>,
    pub(super) hooks: Vec<Hook>,
    /// Told when there is something new to send.
    pub(super) news: Arc<Notify>,
}

impl Telling {
    /// Whom a checked setup tells. `password` is the mail server's, from the environment.
    #[must_use]
    pub fn of(setup: &Setup, password: Option<String>) -> Self {
        Self {
            mail: MailSettings::of(setup, password),
            hooks: setup.webhooks.iter().filter_map(Hook::of).collect(),
            news: Arc::default(),
        }
    }
}
