//! Equipment, by capability. Sources: BS 7671 511 and 134.1.1 (from memory); SI 2021/1467.

use super::{counts, flag, has, home, home_under, line, stated, wanted};
use presurvey::answers::{Answer, Ground, Inlet, Length, Outlet, ParkingPlace, ShortText, SteeredBy};
use presurvey::assessment::{Gatekeeper, NoBand, OwedTo};
use presurvey::config::{Item, demo_config};
use presurvey::wording::{Words, flags_homeowner, flags_installer};

/// Fixed lead or socket, and reach to the inlet wherever the car stands.
#[test]
fn a_lead_is_to_reach_the_inlet_whichever_way_the_car_stands() {
    let short = home(|answers| {
        answers.wish.outlet = Answer::Known(Outlet::Lead);
        answers.wish.lead_length = Answer::Known(Length::metres(12.0));
    });
    assert!(has(&short, "lead-too-short"), "none of the list reaches: said, not passed over");
    let parked = home(|answers| {
        answers.wish.outlet = Answer::Known(Outlet::Lead);
        answers.parking.inlet = Answer::Known(Inlet::Front);
        answers.parking.spot_to_car = Answer::Known(Length::metres(1.0));
    });
    let [nose, tail] = parked.figures.lead_needed.unwrap();
    assert!(tail > nose && has(&parked, "lead-reaches-one-way"));
}

/// Solar, load sensing and off-peak schemes by the charge point: what the list can do is taken, what it can't is said.
#[test]
fn wishes_are_matched_against_the_list() {
    let solar = home(|answers| answers.wish.follow_solar = Answer::Known(true));
    assert_eq!(wanted(&solar, Item::LoadSensing), Some(1.0));
    let steered = |by| move |answers: &mut presurvey::answers::Answers| answers.wish.steered_by = Answer::Known(by);
    let by_point = home(steered(SteeredBy::ChargePoint));
    assert_eq!(stated(&by_point, "off-peak"), "2026-11-01", "as of the day on which the installer checked");
    assert!(!has(&by_point, "off-peak-not-steered"));
    assert_eq!(line(&home(steered(SteeredBy::Car)), "off-peak"), None, "by the car: any will do");
    let mut config = demo_config();
    config.charge_points.iter_mut().for_each(|point| point.off_peak = None);
    assert!(has(&home_under(&config, steered(SteeredBy::ChargePoint)), "off-peak-not-steered"));
    assert!(!has(&home_under(&config, steered(SteeredBy::Car)), "off-peak-not-steered"));
}

/// A lead across a footway is refused; a channel is the highway authority's to grant, named with any grant.
#[test]
fn a_lead_across_a_footway_is_refused_and_the_highway_authority_named() {
    let crossing = home(|answers| {
        answers.parking.place = Answer::Known(ParkingPlace::Drive);
        answers.route.ground = Answer::Known(Ground::Footway);
    });
    assert!(has(&crossing, "footway-crossing"));
    let street = home(|answers| answers.parking.place = Answer::Known(ParkingPlace::Street));
    assert!(has(&street, "street-parking"));
    assert_eq!((street.band, street.no_band), (None, Some(NoBand::StreetOnly)));
    for seen in [crossing, street] {
        assert!(counts(&seen, Gatekeeper::HighwayAuthority));
        let owed = seen.owed.iter().find(|owed| owed.to == OwedTo::HighwayAuthority).unwrap();
        assert_eq!(owed.way, "channel");
    }
    let installer = Words::new(flags_installer::EN);
    assert!(installer.find("flag-street-parking-why").unwrap().contains("is refused"));
    for code in ["street-parking", "footway-crossing"] {
        assert!(installer.find(&format!("flag-{code}-do")).unwrap().contains("grant"), "{code}");
    }
}

/// One bought already: judged by its papers; without them flagged, not priced for fixing, the homeowner told why without blame; what
/// they typed is carried as typed.
#[test]
fn one_bought_already_is_judged_by_its_papers() {
    let bought = |papers| {
        home(|answers| {
            answers.wish.bought = Answer::Known(true);
            answers.wish.bought_papers = Answer::Known(papers);
            answers.wish.bought_model = Answer::Known(ShortText::new("Invented “Model” 7").unwrap());
        })
    };
    for papers in [true, false] {
        let seen = bought(papers);
        assert_eq!(wanted(&seen, Item::ChargePoint), None, "it is not sold to them a second time");
        assert_eq!(wanted(&seen, Item::FixPoint).is_some(), papers, "papers: {papers}");
        assert!(flag(&seen, "bought-already").unwrap().evidence.iter().any(|said| said.contains("Invented “Model” 7")));
        assert_eq!(stated(&seen, "residual-type"), "b", "nothing is taken for granted of it");
    }
    let told = Words::new(flags_homeowner::EN).find("flag-bought-already").unwrap();
    assert!(told.contains("papers") && !told.contains("should have"), "{told}");
}
