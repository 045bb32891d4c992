//! The service that receives, checks and stores enquiries and shows them to the installer; native only.
//!
//! The process keeps nothing that a restart may lose: records, sessions and sign-in attempts are rows of an SQLite file, photos are files
//! beside it. It does not estimate (that is [`assess`](engine::assess)) and knows nothing of the private setup but the config published
//! from it and the papers of charge points.

extern crate alloc;

mod accounts;
mod added;
mod additions;
mod again;
mod attempts;
mod backup;
mod bodies;
mod cleaning;
mod config;
mod connections;
mod copies;
mod corrections;
mod database;
mod deletion;
mod demo;
mod detail;
mod error;
mod events;
mod export;
mod full_day;
mod guard;
mod hashing;
mod headers;
mod health;
mod housekeeping;
mod installers;
mod jobs;
mod letter;
mod limits;
mod lingering;
mod links;
mod list;
mod mail;
mod metrics;
mod observe;
mod openapi;
mod outbox;
mod own_pages;
mod pages;
mod password;
mod photos;
mod picture;
mod plain_form;
mod plain_page;
mod public_address;
mod rate_limit;
mod receive;
mod said_by;
mod second_factor;
mod secret;
mod serve;
mod service;
mod sessions;
mod setups;
mod store;
mod summary;
mod surroundings;
mod telling;
mod webhook;

pub use accounts::{Account, AccountError, AccountName, NoName, OWNER, Role, accounts, add_account, remove_account};
pub use again::{Progress, assess_again};
pub use backup::{Copied, CopyError, copy_data};
pub use demo::seed;
pub use events::{Event, EventKind, events};
pub use export::{ExportError, Exported, export};
pub use housekeeping::tidy;
pub use installers::{WrongInstaller, check_installers, further_installers, installer_folder};
pub use mail::{MailError, test_mail};
pub use outbox::{Unsent, UnsentRow, send_again, unsent};
pub use password::{LEAST_CHARACTERS, MOST_CHARACTERS, PasswordError, draw_password, set_password, set_password_of};
pub use picture::{NotPlain, PictureKind, check_picture};
pub use second_factor::{SecondFactor, reset_account, turn_on_second_factor};
pub use serve::{Given, Installer, Reread, ServeError, ServeOptions, serve};
pub use service::{OpenError, Service, app};
pub use setups::{KeptSetup, keep_setup, kept_setups, newest_setup};
pub use surroundings::{NotAllowed, Surroundings};
pub use telling::{MailSettings, Telling};
