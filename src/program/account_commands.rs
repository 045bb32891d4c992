//! `presurvey account` and `presurvey password`: who may sign in to the installer's page.

use super::input::Refused;
use super::{Whose, in_runtime, kept_in, print, print_whole};
use anyhow::{Context, Result};
use clap::{Subcommand, ValueEnum};
use model::config::demo_config;
use qrcode::QrCode;
use qrcode::render::unicode::Dense1x2;
use service::{
    Account, AccountError, AccountName, LEAST_CHARACTERS, PasswordError, Role, SecondFactor, Service, accounts,
    add_account, remove_account, reset_account, set_password, set_password_of, turn_on_second_factor,
};
use std::io::{IsTerminal, Read};
use std::path::Path;

/// How often a code may be typed before nothing is turned on: this program's choice.
const TRIES: usize = 3;

#[derive(Subcommand)]
pub enum AccountCommand {
    /// Adds an account; its password is asked for twice, unseen, on a terminal, or is all of standard input.
    ///
    /// A name has 1 to 32 of the letters a to z, digits and hyphens, and begins with a letter; capital letters count as small ones. The
    /// account `owner` is there once `presurvey password` has set its password. The service may run meanwhile.
    #[command(after_help = "Example:\n  presurvey account add --data /var/lib/presurvey --name sam --role colleague")]
    Add {
        #[command(flatten)]
        whose: Whose,
        /// The name to sign in with.
        #[arg(long)]
        name: AccountName,
        /// What it may do.
        #[arg(long, value_enum)]
        role: GivenRole,
    },
    /// Lists the accounts: name, role, and what is asked for to sign in.
    #[command(after_help = "Example:\n  presurvey account list --data /var/lib/presurvey")]
    List {
        #[command(flatten)]
        whose: Whose,
    },
    /// Removes an account, but never the last owner; whoever is signed in to it is signed out at once.
    #[command(after_help = "Example:\n  presurvey account remove --data /var/lib/presurvey --name sam")]
    Remove {
        #[command(flatten)]
        whose: Whose,
        /// Which account.
        #[arg(long)]
        name: AccountName,
    },
    /// Asks for a code beside the password from now on (TOTP, RFC 6238): for any app that makes such codes.
    ///
    /// Prints the address and the secret for the app, on a terminal as a QR code too, and waits for the code that the app shows. Nothing is
    /// turned on until a code is right. Whoever was signed in to the account is signed out. Where a code is asked for already, the new
    /// secret takes the place of the one before.
    #[command(after_help = "Example:\n  presurvey account totp --data /var/lib/presurvey --name owner")]
    Totp {
        #[command(flatten)]
        whose: Whose,
        /// Which account.
        #[arg(long)]
        name: AccountName,
    },
    /// For a lost telephone: asks for no code any more, and signs the account out everywhere. The password stays.
    #[command(after_help = "Example:\n  presurvey account reset --data /var/lib/presurvey --name owner")]
    Reset {
        #[command(flatten)]
        whose: Whose,
        /// Which account.
        #[arg(long)]
        name: AccountName,
    },
}

/// What an account may do, as it is written on the command line.
#[derive(Clone, Copy, ValueEnum)]
pub enum GivenRole {
    /// May do everything.
    Owner,
    /// Reads, corrects, makes links and marks as handled; neither deletes nor exports.
    Colleague,
}

impl From<GivenRole> for Role {
    fn from(given: GivenRole) -> Self {
        match given {
            GivenRole::Owner => Self::Owner,
            GivenRole::Colleague => Self::Colleague,
        }
    }
}

/// Does what `presurvey account` is told to.
///
/// # Errors
/// [`Refused`] for what is not allowed, else what went wrong.
pub fn run(command: AccountCommand) -> Result<()> {
    match command {
        AccountCommand::Add { whose, name, role } => in_folder(&whose, async |service, data| {
            let words = new_password()?;
            add_account(service, &name, role.into(), &words).await.map_err(|error| told(error, data))?;
            eprintln!("The account {name} is added.");
            Ok(())
        }),
        AccountCommand::List { whose } => in_folder(&whose, async |service, _| {
            let lines = accounts(service).await?.into_iter().map(|Account { name, role, second_factor }| {
                format!("{name} {role} {}", if second_factor { "password and code" } else { "password" })
            });
            print_whole(&lines.map(|line| line + "\n").collect::<String>())
        }),
        AccountCommand::Remove { whose, name } => in_folder(&whose, async |service, data| {
            remove_account(service, &name).await.map_err(|error| told(error, data))?;
            eprintln!("The account {name} is removed; whoever was signed in to it is signed out.");
            Ok(())
        }),
        AccountCommand::Totp { whose, name } => {
            in_folder(&whose, async |service, data| ask_for_codes(service, &name, data).await)
        }
        AccountCommand::Reset { whose, name } => in_folder(&whose, async |service, data| {
            let was_on = reset_account(service, &name).await.map_err(|error| told(error, data))?;
            let code = if was_on { "No code is asked for any more" } else { "No code was asked for" };
            eprintln!("{code}; whoever was signed in to {name} is signed out. The password stays.");
            Ok(())
        }),
    }
}

/// Sets the password of an account, or without a name of the owner's.
///
/// # Errors
/// [`Refused`] for what is not allowed, else what went wrong.
pub fn password(whose: &Whose, name: Option<AccountName>) -> Result<()> {
    let Some(name) = name else {
        let data = whose.folder()?;
        let words = new_password()?;
        return in_runtime(async {
            // Only the database matters here, not the config that is published.
            let service = Service::open(&data, &demo_config(), None, false).await?;
            let done = set_password(&service, &words).await;
            service.close().await;
            done.map_err(|error| match error {
                PasswordError::Length { .. } => Refused(error.to_string()).into(),
                other => anyhow::Error::from(other),
            })?;
            eprintln!("The password is set; whoever was signed in is signed out.");
            Ok(())
        });
    };
    in_folder(whose, async |service, data| {
        is_there(service, &name, data).await?;
        let words = new_password()?;
        set_password_of(service, &name, &words).await.map_err(|error| told(error, data))?;
        eprintln!("The password of {name} is set; whoever was signed in to it is signed out.");
        Ok(())
    })
}

/// Does something in a data folder that is there already.
fn in_folder(whose: &Whose, task: impl AsyncFnOnce(&Service, &Path) -> Result<()>) -> Result<()> {
    let data = whose.folder()?;
    in_runtime(async {
        // Only the database matters here, not the config that is published.
        let service = kept_in(&data, &demo_config()).await?;
        let done = task(&service, &data).await;
        service.close().await;
        done
    })
}

/// What is not allowed is refused, with the folder that it is about.
fn told(error: AccountError, data: &Path) -> anyhow::Error {
    match error {
        AccountError::NoSuch(_)
        | AccountError::Taken(_)
        | AccountError::KeptForAnOwner
        | AccountError::LastOwner(_)
        | AccountError::NoOwner
        | AccountError::WrongCode
        | AccountError::Password(PasswordError::Length { .. }) => {
            Refused(format!("{}: {error}", data.display())).into()
        }
        other => other.into(),
    }
}

async fn is_there(service: &Service, name: &AccountName, data: &Path) -> Result<Account> {
    let found = accounts(service).await?.into_iter().find(|account| account.name == name.as_str());
    found.ok_or_else(|| told(AccountError::NoSuch(name.clone()), data))
}

/// Shows a new secret, and turns it on once a code of it was given.
async fn ask_for_codes(service: &Service, name: &AccountName, data: &Path) -> Result<()> {
    if is_there(service, name, data).await?.second_factor {
        eprintln!("A code is asked for already. The secret below takes its place once a code of it is given.");
    }
    let factor = SecondFactor::draw(name)?;
    let address = factor.address()?;
    if std::io::stdout().is_terminal() {
        print(&blocks(&address)?)?;
    }
    print(&format!("{address}\nsecret: {}", factor.groups()))?;
    for left in (0..TRIES).rev() {
        let code = given_code(data)?;
        match turn_on_second_factor(service, name, &factor, &code).await {
            Ok(()) => {
                eprintln!(
                    "From now on {name} signs in with password and code; whoever was signed in to it is signed out."
                );
                return Ok(());
            }
            Err(AccountError::WrongCode) if left > 0 => {
                eprintln!(
                    "This is not the code of this moment. Are the clocks of both devices right? Tries left: {left}."
                );
            }
            Err(error) => return Err(told(error, data)),
        }
    }
    Ok(())
}

/// One line of standard input, which is asked for.
fn given_code(data: &Path) -> Result<String> {
    eprint!("The code that the app shows now: ");
    let mut line = String::new();
    if std::io::stdin().read_line(&mut line).context("the code can't be read from standard input")? == 0 {
        return Err(Refused(format!("{}: no code was given; nothing is changed", data.display())).into());
    }
    Ok(line)
}

/// A QR code in block characters, two modules in each, dark on light whatever the terminal's colours are (ECMA-48: SGR 30 is black, 107 a
/// bright white ground in most terminals, from memory).
fn blocks(text: &str) -> Result<String> {
    let code = QrCode::new(text.as_bytes()).context("the address does not fit into a QR code")?;
    let lines = code.render::<Dense1x2>().build();
    Ok(lines.lines().map(|line| format!("\x1b[30;107m{line}\x1b[0m")).collect::<Vec<_>>().join("\n"))
}

/// A password that is typed twice, unseen, on a terminal; or all of standard input, without the line's end.
fn new_password() -> Result<String> {
    if !std::io::stdin().is_terminal() {
        let mut words = String::new();
        std::io::stdin().read_to_string(&mut words).context("the password can't be read from standard input")?;
        return Ok(words.trim_end_matches(['\r', '\n']).to_owned());
    }
    let ask = |prompt: &str| rpassword::prompt_password(prompt).context("the password can't be read from the terminal");
    let words = ask(&format!("New password, at least {LEAST_CHARACTERS} characters: "))?;
    if words != ask("The same again: ")? {
        return Err(Refused("the two were not the same; nothing is changed".to_owned()).into());
    }
    Ok(words)
}
