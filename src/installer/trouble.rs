//! What can go wrong between this page and the service, with the sentence to show for each.

use super::words::{counted, fill, say};
use wording::triage as key;

const HOUR: u32 = 3600; // arithmetic: seconds
/// A longer wait, in seconds, is said in hours: this program's choice.
const LONG: u32 = 2 * HOUR;

/// Why something could not be fetched or stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// No connection, or no response in time.
    Unreachable,
    /// The session is over.
    SignedOut,
    /// The password was not that of the name.
    WrongPassword,
    /// The password was right, and a code is needed beside it.
    CodeNeeded,
    /// The code was not right, or was used already.
    WrongCode,
    /// Too many attempts: how many seconds to wait.
    TooMany(u32),
    /// There is no such enquiry.
    NotFound,
    /// The service refused, with this reason.
    Refused(String),
    /// A fault of the service itself.
    Theirs,
    /// The response could not be read: page and service are probably of different versions.
    Unreadable,
}

impl Trouble {
    /// The sentence to show.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::Unreachable => say(key::TROUBLE_UNREACHABLE).to_owned(),
            Self::SignedOut => say(key::TROUBLE_SIGNED_OUT).to_owned(),
            Self::WrongPassword => say(key::TROUBLE_WRONG_PASSWORD).to_owned(),
            Self::CodeNeeded => say(key::SIGN_IN_CODE_NEEDED).to_owned(),
            Self::WrongCode => say(key::TROUBLE_WRONG_CODE).to_owned(),
            Self::TooMany(seconds) if *seconds > LONG => {
                fill(key::TROUBLE_TOO_MANY_HOURS, &[("n", &seconds.div_ceil(HOUR).to_string())])
            }
            Self::TooMany(seconds) => {
                let minutes = (*seconds as usize).div_ceil(60).max(1);
                counted(key::TROUBLE_TOO_MANY_ONE, key::TROUBLE_TOO_MANY, minutes)
            }
            Self::NotFound => say(key::TROUBLE_NOT_FOUND).to_owned(),
            Self::Refused(why) => fill(key::TROUBLE_REFUSED, &[("why", why)]),
            Self::Theirs => say(key::TROUBLE_THEIRS).to_owned(),
            Self::Unreadable => say(key::TROUBLE_UNREADABLE).to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wait_is_said_in_whole_minutes_rounded_up() {
        assert!(Trouble::TooMany(61).sentence().contains("2 minutes"));
        assert!(Trouble::TooMany(7200).sentence().contains("120 minutes"));
        assert!(Trouble::TooMany(7201).sentence().contains("3 hours"));
        assert!(Trouble::TooMany(0).sentence().contains("1 minute "), "{}", Trouble::TooMany(0).sentence());
        assert!(Trouble::Refused("no such word".into()).sentence().contains("no such word"));
    }
}
