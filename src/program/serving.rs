//! What the service is started with: whose setups, from which files or from what a data folder keeps, and how each is read anew.

use super::input::{Refused, named, none_wrong, read_setup_text, setup_of};
use anyhow::{Context, Result};
use model::config::{ConfigProblem, Setup, demo_setup};
use presurvey::own_words::check_wording;
use service::{
    Given, Installer, KeptSetup, Reread, Surroundings, Telling, check_installers, further_installers, installer_folder,
    newest_setup,
};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tokio::runtime::Handle;

/// For how many days an enquiry may be kept: this program's choice. None would delete an enquiry before it is read, ten years are longer
/// than any job waits.
const KEEP_DAYS: std::ops::RangeInclusive<u16> = 1..=3650;

/// What is given on the command line and in the environment in place of what a setup says.
#[derive(Clone, Debug)]
pub struct Instead {
    /// The public address, of all installers.
    pub address: Option<String>,
    /// The mail server's password, the first installer's alone: it is no other's server's affair.
    pub mail_password: Option<String>,
}

/// A setup with the text that it was read from, and the name of where that is, for messages.
#[derive(Clone, Debug)]
pub struct ReadSetup {
    name: String,
    text: String,
    setup: Setup,
    /// The file to read it from again; `None` for standard input and for what a data folder keeps.
    file: Option<PathBuf>,
}

impl ReadSetup {
    /// `installer.id` of the setup, by which installers of one service are told apart.
    pub fn id(&self) -> &str {
        &self.setup.installer.id
    }

    /// The setup as it was read, without its text and where it came from.
    pub fn into_setup(self) -> Setup {
        self.setup
    }

    /// The text that it was read from.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Reads and checks a file.
    ///
    /// # Errors
    /// [`Refused`], if it can't be read or is not allowed.
    pub fn of_file(file: &Path) -> Result<Self, Refused> {
        let (text, setup) = read_setup_text(file)?;
        let again = Some(file.to_owned()).filter(|file| file != Path::new("-")); // standard input is read once
        Ok(Self { name: named(file), text, setup, file: again })
    }

    /// Reads and checks a version that a data folder keeps.
    ///
    /// # Errors
    /// [`Refused`], if this program does not allow it: an earlier one may have.
    pub fn of_kept(data: &Path, kept: KeptSetup) -> Result<Self, Refused> {
        let KeptSetup { number, setup: text, .. } = kept;
        let name = format!("version {number} of the setup that {} keeps", data.display());
        let setup = setup_of(&name, text.as_bytes())?;
        Ok(Self { name, text, setup, file: None })
    }
}

/// The demo's installer, whose setup is not kept.
///
/// # Errors
/// [`Refused`], if what is given instead is not allowed.
pub fn demo(instead: &Instead) -> Result<Installer, Refused> {
    Ok(Installer { given: given("", demo_setup(), instead)?, reread: None })
}

/// The first installer and the further ones: those whose setups are named, and those that the data folder keeps besides.
///
/// # Errors
/// [`Refused`], if a setup is not allowed, none is there, or installers don't go together; the system's and the database's.
pub async fn installers(
    data: &Path,
    pages: Option<&Path>,
    files: Vec<ReadSetup>,
    instead: &Instead,
) -> Result<(Installer, Vec<Installer>)> {
    let kept = newest_of(data).await?;
    let before = kept.as_ref().map(|kept| kept.id().to_owned());
    let mut files = files.into_iter();
    let first = files.next().or(kept).ok_or_else(|| {
        let told = "keeps no setup yet; name one with --setup FILE, as `presurvey setup` begins it, or try --demo";
        Refused(format!("{}: {told}", data.display()))
    })?;
    let mut further: Vec<ReadSetup> = files.collect();
    for id in further_installers(data).with_context(|| format!("{} can't be read", data.display()))? {
        if further.iter().any(|named| named.id() == id) {
            continue;
        }
        let folder = installer_folder(data, Some(&id))?;
        match newest_of(&folder).await? {
            Some(kept) if kept.id() == id => further.push(kept),
            Some(kept) => {
                let told = format!("{}: its `installer.id` is {:?}, but the folder is {id:?}'s", kept.name, kept.id());
                return Err(Refused(told).into());
            }
            None => tracing::warn!(
                installer = id,
                "this installer's folder keeps no setup: it is not served; name one with --setup"
            ),
        }
    }
    let ids: Vec<String> = further.iter().map(|named| named.id().to_owned()).collect();
    check_installers(data, pages, first.id(), before.as_deref(), &ids).map_err(|why| Refused(why.to_string()))?;
    if let Some(before) = before.filter(|before| before != first.id()) {
        tracing::warn!(
            before,
            now = first.id(),
            "the first installer's id is another: forms that are open can't send any more"
        );
    }
    let others = Instead { mail_password: None, ..instead.clone() };
    let first = installer(data.to_owned(), first, instead.clone())?;
    let further = further
        .into_iter()
        .map(|setup| Ok(installer(installer_folder(data, Some(setup.id()))?, setup, others.clone())?));
    Ok((first, further.collect::<Result<_>>()?))
}

/// The newest setup that a folder keeps.
///
/// # Errors
/// [`Refused`], if it is not allowed; the database's.
pub async fn newest_of(data: &Path) -> Result<Option<ReadSetup>> {
    let kept =
        newest_setup(data).await.with_context(|| format!("the setup kept in {} can't be read", data.display()))?;
    Ok(kept.map(|kept| ReadSetup::of_kept(data, kept)).transpose()?)
}

/// An installer whose data is in this folder. Told to, the setup is read from its file again, or the newest kept version is taken.
fn installer(data: PathBuf, read: ReadSetup, instead: Instead) -> Result<Installer, Refused> {
    let (file, from_stdin) = (read.file.clone(), read.name == named(Path::new("-")));
    let given = given_of(read, &instead)?;
    let instead = Arc::new(instead);
    let again = move || {
        let read = match &file {
            Some(file) => ReadSetup::of_file(file).map_err(|why| why.to_string())?,
            None => {
                let newest = Handle::current().block_on(newest_of(&data)).map_err(|why| format!("{why:#}"))?;
                newest.ok_or_else(|| format!("{} keeps no setup any more", data.display()))?
            }
        };
        given_of(read, &instead).map_err(|why| why.to_string())
    };
    Ok(Installer { given, reread: (!from_stdin).then(|| Reread(Box::new(again))) })
}

/// Checks what only the service asks of a setup.
///
/// # Errors
/// [`Refused`].
pub fn check(read: &ReadSetup) -> Result<(), Refused> {
    surroundings(&read.setup, &read.name).map(drop)
}

fn given_of(read: ReadSetup, instead: &Instead) -> Result<Given, Refused> {
    let ReadSetup { name, text, setup, .. } = read;
    if setup.mail.is_none() && setup.mail_to.is_some() {
        tracing::warn!("`mail_to`: nobody is mailed, as the setup does not say by which server (`mail`)");
    }
    Ok(Given { text: Some(text), ..given(&name, setup, instead)? })
}

/// What of a setup the service is given; what of it has no effect is said in the log.
fn given(name: &str, mut setup: Setup, instead: &Instead) -> Result<Given, Refused> {
    let Instead { address, mail_password } = instead;
    setup.public_address = address.clone().or(setup.public_address);
    let surroundings = surroundings(&setup, name)?;
    corrected(&setup).for_each(|told| tracing::warn!("{told}"));
    // An earlier version took such a setup: it is no reason not to start.
    check_wording(&setup.wording).iter().for_each(|told| tracing::warn!("{told}; the rest holds"));
    if let Some(told) = absurd_days(&setup) {
        setup.keep_days = setup.keep_days.clamp(*KEEP_DAYS.start(), *KEEP_DAYS.end());
        tracing::warn!("{told}; {} is taken", setup.keep_days);
    }
    let telling = Telling::of(&setup, mail_password.clone());
    Ok(Given { config: setup.publish(), papers: setup.papers(), telling, surroundings, text: None })
}

/// What is wrong with a setup's days to keep, if anything. An earlier version took any number.
pub fn absurd_days(setup: &Setup) -> Option<ConfigProblem> {
    (!KEEP_DAYS.contains(&setup.keep_days)).then(|| ConfigProblem {
        field: "keep_days".into(),
        given: setup.keep_days.to_string(),
        allowed: "1 to 3650 days",
    })
}

/// What a setup tells the service of where it stands.
///
/// # Errors
/// [`Refused`], with every value that is not allowed; `file` is its name in the message.
pub fn surroundings(setup: &Setup, file: &str) -> Result<Surroundings, Refused> {
    let Setup { public_address, proxies, enquiries_a_day, .. } = setup;
    Surroundings::read(public_address.as_deref(), proxies.as_deref(), *enquiries_a_day)
        .or_else(|wrong| none_wrong(file, &wrong).map(|()| Surroundings::default()))
}

/// The colours and other parts of an installer's look that could not be read and are replaced, one sentence each.
pub fn corrected(setup: &Setup) -> impl Iterator<Item = String> {
    setup.branding.published().1.into_iter().map(|model::config::Corrected { field, given, shown, contrast }| {
        format!("`{field}`: {given} has a contrast of {contrast} on its ground, less than the 4.5 that text needs: {shown} is shown")
    })
}
