//! `presurvey setups`: the versions of the setup that a data folder keeps, printed as they came in, and a new one taken in.

use super::input::Refused;
use super::serving::{ReadSetup, check, newest_of};
use anyhow::Result;
use model::config::demo_config;
use service::{KeptSetup, Service, keep_setup, kept_setups};
use std::path::Path;
use std::str::FromStr;

/// Which version.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The newest.
    Newest,
    /// The one with this number.
    Number(i64),
}

impl FromStr for Which {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text {
            "newest" => Ok(Self::Newest),
            number => number.parse().map(Self::Number).map_err(|_| "it is a number, or `newest`"),
        }
    }
}

/// A line for each version: its number, when it was taken, its hash.
///
/// # Errors
/// [`Refused`], if there is none; the database's.
pub async fn list(data: &Path) -> Result<String> {
    let kept = kept(data).await?;
    let lines = kept.iter().map(|KeptSetup { number, taken, sha256, .. }| format!("{number} {taken} sha256:{sha256}"));
    Ok(lines.collect::<Vec<_>>().join("\n"))
}

/// The text of a version, as it came in.
///
/// # Errors
/// [`Refused`], if there is no such version; the database's.
pub async fn text(data: &Path, which: Which) -> Result<String> {
    let mut kept = kept(data).await?;
    let found = match which {
        Which::Newest => kept.pop(),
        Which::Number(wanted) => kept.into_iter().find(|kept| kept.number == wanted),
    };
    let missing = || Refused(format!("{}: the setup has no such version", data.display()));
    Ok(found.ok_or_else(missing)?.setup)
}

/// Takes a file in as the newest version; a service that runs by what the folder keeps takes it when it is told to.
///
/// # Errors
/// [`Refused`], if the file is not allowed or another installer's; the database's.
pub async fn take(data: &Path, file: &Path) -> Result<String> {
    let read = ReadSetup::of_file(file)?;
    check(&read)?;
    let before = newest_of(data).await?.map(|kept| kept.id().to_owned());
    if let Some(before) = before.filter(|before| before != read.id()) {
        let told = "is not the id of the setup kept before; forms that are open could no longer send";
        return Err(Refused(format!("`installer.id`: {:?} {told}, which is {before:?}", read.id())).into());
    }
    let service = Service::open(data, &demo_config(), None, false).await?; // what is published does not matter here
    let done = keep_setup(&service, read.text()).await;
    service.close().await;
    Ok(match done? {
        (number, true) => format!("Taken as version {number}."),
        (number, false) => format!("It is version {number} already."),
    })
}

async fn kept(data: &Path) -> Result<Vec<KeptSetup>> {
    let kept = kept_setups(data).await?;
    if kept.is_empty() {
        return Err(Refused(format!("{}: no setup is kept in this folder", data.display())).into());
    }
    Ok(kept)
}
