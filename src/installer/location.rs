//! The place on the page, written into the address after `#` so that going back and reloading work.

/// The list, one enquiry, or one photo of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Location {
    /// The list.
    #[default]
    List,
    /// One enquiry.
    Enquiry {
        /// The key that identifies it.
        key: String,
        /// The photo opened, if one is.
        photo: Option<String>,
    },
}

impl Location {
    /// Reads a place from the part of the address after `#`; anything that is not understood is the list.
    #[must_use]
    pub fn read(hash: &str) -> Self {
        let is_name = |text: &str, digits| text.len() == digits && text.bytes().all(|b| b.is_ascii_hexdigit());
        let parts: Vec<&str> = hash.trim_start_matches('#').split('/').filter(|part| !part.is_empty()).collect();
        match parts[..] {
            ["enquiry", key] if is_name(key, 32) => Self::Enquiry { key: key.to_owned(), photo: None },
            ["enquiry", key, "photo", photo] if is_name(key, 32) && is_name(photo, 64) => {
                Self::Enquiry { key: key.to_owned(), photo: Some(photo.to_owned()) }
            }
            _ => Self::List,
        }
    }

    /// The part of the address after `#`.
    #[must_use]
    pub fn address(&self) -> String {
        match self {
            Self::List => "#".to_owned(),
            Self::Enquiry { key, photo: None } => format!("#/enquiry/{key}"),
            Self::Enquiry { key, photo: Some(photo) } => format!("#/enquiry/{key}/photo/{photo}"),
        }
    }

    /// The key of the enquiry that it shows, if any.
    #[must_use]
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::List => None,
            Self::Enquiry { key, .. } => Some(key),
        }
    }
}

/// The part of the address after `#` for one enquiry.
#[must_use]
pub fn enquiry_address(key: &str) -> String {
    Location::Enquiry { key: key.to_owned(), photo: None }.address()
}

/// The part of the address after `#` for one photo of an enquiry.
#[must_use]
pub fn photo_address(key: &str, photo: &str) -> String {
    Location::Enquiry { key: key.to_owned(), photo: Some(photo.to_owned()) }.address()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_leads_back_to_its_place() {
        let key = "0123456789abcdef0123456789abcdef".to_owned();
        for place in [
            Location::List,
            Location::Enquiry { key: key.clone(), photo: None },
            Location::Enquiry { key, photo: Some("ab".repeat(32)) },
        ] {
            assert_eq!(Location::read(&place.address()), place);
        }
    }

    #[test]
    fn an_address_that_is_not_ours_is_the_list() {
        for hash in [
            "",
            "#",
            "#/enquiry/..%2f..",
            "#/enquiry/short",
            "#/other/0123",
            "#/enquiry/0123456789abcdef0123456789abcdef/x",
        ] {
            assert_eq!(Location::read(hash), Location::List, "{hash}");
        }
    }
}
