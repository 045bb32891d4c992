//! Which nation a home lies in, as far as its postcode area tells: law, network and building control differ.

use model::answers::{Answers, choices::words};

words! {
    /// Where the home lies, as far as its postcode area tells.
    pub enum Nation {
        /// England.
        England => "england",
        /// Wales.
        Wales => "wales",
        /// Scotland.
        Scotland => "scotland",
        /// Northern Ireland: not in the data.
        NorthernIreland => "northern-ireland",
        /// The Channel Islands or the Isle of Man: not in the data.
        Islands => "islands",
        /// Near a border, or no postcode: the address tells.
        Unclear => "unclear",
    }
}

/// Postcode areas that lie wholly in Scotland; from memory.
const SCOTLAND: [&str; 15] = ["AB", "DD", "EH", "FK", "G", "HS", "IV", "KA", "KW", "KY", "ML", "PA", "PH", "ZE", "DG"];
/// Postcode areas that lie in Wales but for a few streets; from memory.
const WALES: [&str; 3] = ["CF", "SA", "NP"];
/// Postcode areas of the Channel Islands and the Isle of Man; from memory.
const ISLANDS: [&str; 3] = ["JE", "GY", "IM"];
/// Postcode areas that a border runs through; from memory.
const ACROSS: [&str; 8] = ["CA", "CH", "GL", "HR", "LD", "LL", "SY", "TD"];

/// The nation by the postcode area.
#[must_use]
pub fn nation(answers: &Answers) -> Nation {
    let Some(postcode) = answers.home.postcode.known() else { return Nation::Unclear };
    let area = postcode.area();
    // Postcode area BT is all of Northern Ireland (from memory).
    if area == "BT" {
        Nation::NorthernIreland
    } else if ISLANDS.contains(&area) {
        Nation::Islands
    } else if SCOTLAND.contains(&area) {
        Nation::Scotland
    } else if WALES.contains(&area) {
        Nation::Wales
    } else if ACROSS.contains(&area) {
        Nation::Unclear
    } else {
        Nation::England
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::{Answer, Postcode};

    #[test]
    fn the_area_tells_but_for_the_borders() {
        let at = |postcode: &str| {
            let mut answers = Answers::default();
            answers.home.postcode = Answer::Known(Postcode::new(postcode).unwrap());
            nation(&answers)
        };
        assert_eq!(at("EH0"), Nation::Scotland);
        assert_eq!(at("G0"), Nation::Scotland);
        assert_eq!(at("GL0"), Nation::Unclear);
        assert_eq!(at("CF0"), Nation::Wales);
        assert_eq!(at("SY0"), Nation::Unclear);
        assert_eq!(at("ZZ1"), Nation::England);
        assert_eq!(at("BT0"), Nation::NorthernIreland);
        assert_eq!(at("JE0"), Nation::Islands);
        assert_eq!(nation(&Answers::default()), Nation::Unclear);
    }
}
