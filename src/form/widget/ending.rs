//! Answers after which the installer probably can't do the job, or not before somebody else has agreed. The homeowner is told at once, on
//! the screen with that answer.

use engine::site::{self, Coverage};
use model::answers::{Answers, ParkingPlace, Tenure};
use model::config::FormPart;

/// Why the enquiry may end here. The homeowner can always go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// The home is in Northern Ireland, which has other law and another network and is not in the data.
    NorthernIreland,
    /// The home is outside the installer's area.
    OutsideArea,
    /// The car is parked on the street.
    StreetOnly,
    /// A landlord or freeholder has to be asked first.
    Landlord,
}

impl Ending {
    /// The word for it in wording keys.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::NorthernIreland => "northern-ireland",
            Self::OutsideArea => "outside-area",
            Self::StreetOnly => "street-only",
            Self::Landlord => "landlord",
        }
    }

    /// The id of the question whose answer it follows from.
    #[must_use]
    pub const fn question(self) -> &'static str {
        match self {
            Self::NorthernIreland | Self::OutsideArea => "postcode",
            Self::StreetOnly => "parking",
            Self::Landlord => "tenure",
        }
    }
}

/// The reasons why the enquiry may end, by the answers so far. The area is checked only once the config is there.
#[must_use]
pub fn endings(answers: &Answers, config: Option<&FormPart>) -> Vec<Ending> {
    let mut found = Vec::new();
    match config.map(|config| site::coverage(answers, &config.area)) {
        Some(Coverage::NorthernIreland) => found.push(Ending::NorthernIreland),
        Some(Coverage::OutsideArea) => found.push(Ending::OutsideArea),
        Some(Coverage::Covered | Coverage::Unknown) | None => {}
    }
    if answers.parking.place.is(ParkingPlace::Street) {
        found.push(Ending::StreetOnly);
    }
    if answers.home.tenure.is(Tenure::Rent) || answers.home.tenure.is(Tenure::Lease) {
        found.push(Ending::Landlord);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Postcode};
    use model::config::demo_part;

    fn at(postcode: &str) -> Answers {
        let mut answers = Answers::default();
        answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
        answers
    }

    #[test]
    fn the_area_is_told_apart_from_its_neighbours() {
        let mut config = demo_part();
        assert_eq!(endings(&at("ZZ1 1AA"), Some(&config)), []);
        assert_eq!(endings(&at("ZX1 1AA"), Some(&config)), [Ending::OutsideArea]);
        assert_eq!(endings(&at("BT0 0OO"), Some(&config)), [Ending::NorthernIreland]);
        config.area = vec!["ZZ1".into()];
        assert_eq!(endings(&at("ZZ12 1AA"), Some(&config)), [Ending::OutsideArea]);
        assert_eq!(endings(&at("ZZ1"), Some(&config)), []);
    }

    #[test]
    fn not_sure_ends_nothing() {
        let mut answers = Answers::default();
        answers.home.postcode = Answer::NotSure;
        answers.home.tenure = Answer::NotSure;
        answers.parking.place = Answer::NotSure;
        assert_eq!(endings(&answers, Some(&demo_part())), []);
    }
}
